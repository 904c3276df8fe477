// Reads specs that start from each other without a disk.
// Entry: read_files, spec_text.

#include "spec/spec_of.h"

#include <sstream>

namespace fitup::test {

const char* const small_spec = R"(fitup = 1
[sizes]
gap = 12
[item.block]
size = [150, 430, 220]
mass = 23
rods = { thread = "M6", at = [[16, 24], [134, 24]], projection = 20 }
[[item.block.keep_clear]]
face = "front"
at = [43, 130]
size = [64, 44]
depth = 40
[item.plate]
size = ["gap", 410, 200]
mass = 1.1
[box.main]
row = [{ of = "block", count = 6, between = "plate" }]
clearance = { left = 8, right = 9, front = 44, back = 36, top = 60 }
frame = { section = "L 40x40x4" }
)";

SpecResult read_files(const Files& files, const std::vector<Override>& overrides) {
  const SpecFiles others = [&](const std::string& path) -> Result<std::string> {
    const auto found = files.find(path);
    if (found == files.end()) return Failure{Failure::Kind::file, "cannot read " + path, "No such file or directory"};
    return found->second;
  };
  return read_spec("spec.toml", files.at("spec.toml"), overrides, others);
}

std::string spec_text(const Files& files, const std::vector<Override>& overrides) {
  const SpecResult result = read_files(files, overrides);
  if (result.spec) return to_text(*result.spec);
  std::string said;
  for (const Diagnostic& d : result.diagnostics.all()) said += render(d, result.sources, false);
  return said;
}

std::string line_of(const std::string& text, const std::string& key) {
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.rfind(key + " = ", 0) == 0) return line.substr(key.size() + 3);
  }
  return "(none)";
}

}  // namespace fitup::test
