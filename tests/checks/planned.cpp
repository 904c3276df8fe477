// Reads and plans specs of the fixtures.
// Entry: planned.
#include "checks/planned.h"

#include <algorithm>
#include <fstream>
#include <sstream>

namespace fitup::test {

std::string text_of(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::stringstream text;
  text << file.rdbuf();
  return text.str();
}

std::vector<std::filesystem::path> case_folders() {
  std::vector<std::filesystem::path> folders;
  for (const auto& entry : std::filesystem::directory_iterator(std::filesystem::path(FITUP_FIXTURES) / "cases")) {
    if (entry.is_directory()) folders.push_back(entry.path());
  }
  std::sort(folders.begin(), folders.end());
  return folders;
}

std::filesystem::path sound_box() { return std::filesystem::path(FITUP_FIXTURES) / "cases" / "sound.toml"; }

std::unique_ptr<const Planned> planned(const std::string& file_name, const std::string& text,
                                       const std::vector<Override>& overrides, const SpecFiles& files) {
  const SpecFiles from_disk = [](const std::string& path) -> Result<std::string> { return text_of(path); };
  auto result = std::make_unique<Planned>();
  SpecResult read = read_spec(file_name, text, overrides, files ? files : from_disk);
  result->diagnostics = std::move(read.diagnostics);
  result->spec = std::move(read.spec);
  if (!result->spec) return result;
  result->layout = lay_out(*result->spec);
  PlanResult plan = make_plan(result->layout);
  for (const Diagnostic& d : plan.diagnostics.all()) result->diagnostics.add(d);
  if (!plan.diagnostics.has_errors()) result->plan = std::move(plan.plan);
  return result;
}

}  // namespace fitup::test
