// Where a part's files stand in the job folder, and which parts have which files.
// Entry: dxf_path, step_path, stl_path.

#include "output/paths.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "fitup/job.h"

#include "output/text.h"

namespace fitup::output {
namespace {

std::string file_name(const Part& part) { return fmt::format("{}_{}", file_safe(part.mark), slug(part.name)); }

}  // namespace

bool is_cut(const Part& part) { return part.source == Source::cut && std::holds_alternative<Flat>(part.form); }

bool is_printed(const Part& part) { return part.source == Source::printed; }

std::vector<std::size_t> quantities(const Plan& plan) {
  std::vector<std::size_t> count(plan.parts.size(), 0);
  for (const Instance& instance : plan.instances) ++count.at(instance.part);
  for (std::size_t i = 0; i < count.size(); ++i) {
    count[i] += static_cast<std::size_t>(plan.parts[i].loose_count);
  }
  return count;
}

std::string step_path(const Part& part) { return fmt::format("parts/{}.step", file_name(part)); }

std::string dxf_path(const Part& part) {
  const double thickness = std::get<Flat>(part.form).thickness_mm;
  return fmt::format("flat/{}_{}mm/{}.dxf", file_safe(part.material), number(thickness), file_name(part));
}

std::string stl_path(const Part& part) { return fmt::format("3d-print/{}.stl", file_name(part)); }

}  // namespace fitup::output

namespace fitup {

bool is_made_from(std::string_view path) {
  constexpr std::array<std::string_view, 4> folders{"flat/", "3d-print/", "parts/", "bench/"};
  if (path == output::bought_list) return true;
  return std::any_of(folders.begin(), folders.end(), [&](std::string_view f) { return path.starts_with(f); });
}

}  // namespace fitup
