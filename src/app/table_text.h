#pragma once
// A table as aligned text. The last column is the source; rows of one source share a note below.

#include <string>
#include <vector>

namespace fitup::app {

struct TextTable {
  std::string name;
  std::string title;
  std::vector<std::string> columns;  // with their units; the last one is the source
  std::vector<std::vector<std::string>> rows;
};

[[nodiscard]] std::string to_text(const TextTable& table);

}  // namespace fitup::app
