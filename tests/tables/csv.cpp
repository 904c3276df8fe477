// Reading the published tables.
// Entry: read_csv().
#include "tables/csv.h"

#include <cctype>
#include <fstream>
#include <stdexcept>

namespace fitup::test {
namespace {

std::vector<std::string> fields_of(const std::string& line) {
  std::vector<std::string> fields(1);
  bool quoted = false;
  for (const char c : line) {
    if (c == '"') {
      quoted = !quoted;
    } else if (c == ',' && !quoted) {
      fields.emplace_back();
    } else if (c != '\r') {
      fields.back() += c;
    }
  }
  return fields;
}

}  // namespace

std::ostream& operator<<(std::ostream& out, const CsvRow& row) {
  for (const auto& [column, text] : row.fields_) {
    out << column << '=' << text << ' ';
  }
  return out;
}

std::vector<CsvRow> read_csv(const std::string& name_in_fixtures) {
  std::ifstream file(std::string(FITUP_FIXTURES) + "/" + name_in_fixtures);
  std::string line;
  if (!std::getline(file, line)) {
    throw std::runtime_error("cannot read " + name_in_fixtures);
  }
  const std::vector<std::string> heading = fields_of(line);
  std::vector<CsvRow> rows;
  while (std::getline(file, line)) {
    const std::vector<std::string> fields = fields_of(line);
    if (fields.size() != heading.size()) {
      throw std::runtime_error(name_in_fixtures + ": row of another length: " + line);
    }
    std::map<std::string, std::string> row;
    for (std::size_t i = 0; i < fields.size(); ++i) {
      row[heading[i]] = fields[i];
    }
    rows.emplace_back(std::move(row));
  }
  return rows;
}

std::string test_name(const std::string& text) {
  std::string name;
  for (const char c : text) {
    name += std::isalnum(static_cast<unsigned char>(c)) != 0 ? c : '_';
  }
  return name;
}

}  // namespace fitup::test
