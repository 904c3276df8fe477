// Where a part's files stand in the job folder, and which parts have which files.
// Entry: dxf_path, step_path, stl_path.

#include "output/paths.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "fitup/job.h"

#include "output/text.h"
#include "output/units.h"

namespace fitup::output {
namespace {

std::string file_name(const Part& part) { return fmt::format("{}_{}", file_safe(part.mark), slug(part.name)); }

/// The pattern with its words filled in: each without _ and space, so that names stay apart.
std::string named_by_pattern(const Plan& plan, PartId id, const JobInfo& info) {
  const Part& part = plan.parts.at(id);
  const PaperUnits units(info.flat.units);
  const double thickness_mm = std::get<Flat>(part.form).thickness_mm;
  const std::array<std::pair<std::string_view, std::string>, 7> words{
      {{"{mark}", file_safe(part.mark)},
       {"{name}", slug(part.name)},
       {"{quantity}", std::to_string(quantities(plan).at(id))},
       {"{material}", file_safe(part.material)},
       {"{thickness}", fmt::format("{}{}", units.length(thickness_mm), units.length())},
       {"{job}", file_safe(info.name)},
       {"{revision}", file_safe(info.revision)}}};
  std::string name = info.flat.file_name;
  for (const auto& [word, value] : words) {
    if (const std::size_t at = name.find(word); at != std::string::npos) name.replace(at, word.size(), value);
  }
  return name;
}

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

std::string dxf_path(const Plan& plan, PartId id, const JobInfo& info) {
  const Part& part = plan.parts.at(id);
  const PaperUnits units(info.flat.units);
  const std::string thickness =
      fmt::format("{}{}", units.length(std::get<Flat>(part.form).bought_mm()), units.length());
  return fmt::format("flat/{}_{}/{}.dxf", file_safe(part.material), thickness, named_by_pattern(plan, id, info));
}

std::string threemf_path(const Part& part) { return fmt::format("3d-print/{}.3mf", file_name(part)); }

std::string stl_path(const Part& part) { return fmt::format("3d-print/{}.stl", file_name(part)); }

}  // namespace fitup::output

namespace fitup {

bool is_made_from(std::string_view path) {
  constexpr std::array<std::string_view, 4> folders{"flat/", "3d-print/", "parts/", "bench/"};
  if (path == output::bought_list) return true;
  return std::any_of(folders.begin(), folders.end(), [&](std::string_view f) { return path.starts_with(f); });
}

}  // namespace fitup
