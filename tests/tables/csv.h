#pragma once
// Reads a published table from fixtures/: a heading line, then rows; quoted fields as in RFC 4180.

#include <map>
#include <ostream>
#include <string>
#include <vector>

namespace fitup::test {

class CsvRow {
 public:
  explicit CsvRow(std::map<std::string, std::string> fields) : fields_(std::move(fields)) {}
  /// Throws std::out_of_range when there is no such column.
  [[nodiscard]] const std::string& text(const std::string& column) const { return fields_.at(column); }
  [[nodiscard]] double number(const std::string& column) const { return std::stod(fields_.at(column)); }
  [[nodiscard]] bool empty(const std::string& column) const { return fields_.at(column).empty(); }
  /// How a failing test shows the row.
  friend std::ostream& operator<<(std::ostream& out, const CsvRow& row);

 private:
  std::map<std::string, std::string> fields_;
};

/// Throws std::runtime_error when the file is missing or a row has another number of fields than the heading.
[[nodiscard]] std::vector<CsvRow> read_csv(const std::string& name_in_fixtures);

/// A name that a test may carry: letters and digits, everything else an underscore.
[[nodiscard]] std::string test_name(const std::string& text);

}  // namespace fitup::test
