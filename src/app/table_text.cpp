// Aligns the columns of a table and puts each source once, below.
// Entry: to_text(TextTable).
#include "app/table_text.h"

#include <fmt/format.h>

#include <algorithm>

namespace fitup::app {

namespace {

/// The first column to the left, numbers to the right.
std::string line_of(const std::vector<std::string>& cells, const std::vector<std::size_t>& widths) {
  std::string line = "  ";
  for (std::size_t i = 0; i < cells.size(); ++i)
    line += i == 0 ? fmt::format("{:<{}}", cells[i], widths[i]) : fmt::format("  {:>{}}", cells[i], widths[i]);
  while (line.ends_with(' ')) line.pop_back();
  return line + "\n";
}

}  // namespace

std::string to_text(const TextTable& table) {
  std::vector<std::string> sources;
  for (const auto& row : table.rows) {
    if (std::find(sources.begin(), sources.end(), row.back()) == sources.end()) sources.push_back(row.back());
  }
  std::vector<std::vector<std::string>> lines{table.columns};
  lines.insert(lines.end(), table.rows.begin(), table.rows.end());
  std::vector<std::size_t> widths(table.columns.size());
  for (auto& line : lines) {
    const auto source = std::find(sources.begin(), sources.end(), line.back());
    if (source != sources.end()) line.back() = fmt::format("[{}]", source - sources.begin() + 1);
    for (std::size_t i = 0; i < line.size(); ++i) widths[i] = std::max(widths[i], line[i].size());
  }
  std::string text = fmt::format("{}: {}\n", table.name, table.title);
  for (const auto& line : lines) text += line_of(line, widths);
  for (std::size_t i = 0; i < sources.size(); ++i) text += fmt::format("  [{}] {}\n", i + 1, sources[i]);
  return text;
}

}  // namespace fitup::app
