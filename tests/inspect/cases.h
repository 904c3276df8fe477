#pragma once
// Good and bad files, each with what must be said of it.

#include <ostream>
#include <string>
#include <vector>

#include "fitup/inspect.h"

namespace fitup::test {

/// Exactly these findings are not a pass; of `facts`, value by name within a millionth of it.
struct FileCase {
  std::string name;
  std::string bytes;
  std::vector<std::string> fails;
  std::vector<std::string> marginal;
  std::vector<std::pair<std::string, double>> facts;
  std::string says;  // occurs in a message that is no pass
  InspectOptions options;
  std::vector<std::string> not_checked{};
};
std::ostream& operator<<(std::ostream& out, const FileCase& file);

[[nodiscard]] std::vector<FileCase> drawing_cases();
[[nodiscard]] std::vector<FileCase> narrow_cases();
[[nodiscard]] std::vector<FileCase> mesh_cases();
[[nodiscard]] std::vector<FileCase> step_cases();
[[nodiscard]] std::vector<FileCase> other_cases();
/// All of them.
[[nodiscard]] std::vector<FileCase> all_cases();

[[nodiscard]] const InspectFact* fact_of(const Inspection& inspection, const std::string& name);

}  // namespace fitup::test
