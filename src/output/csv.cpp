// Comma-separated values after RFC 4180.
// Entry: write_csv, read_csv.

#include "output/csv.h"

#include <algorithm>

namespace fitup::output {
namespace {

std::string quoted(std::string_view field) {
  if (field.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(field);
  std::string out = "\"";
  for (const char c : field) {
    if (c == '"') out.push_back('"');
    out.push_back(c);
  }
  out.push_back('"');
  return out;
}

class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}

  std::optional<std::vector<CsvRow>> rows() {
    std::vector<CsvRow> rows;
    while (at_ < text_.size()) {
      CsvRow row;
      do {
        auto field = next_field();
        if (!field) return std::nullopt;
        row.push_back(std::move(*field));
      } while (take(','));
      take('\r');
      if (!take('\n') && at_ < text_.size()) return std::nullopt;
      rows.push_back(std::move(row));
    }
    return rows;
  }

 private:
  bool take(char c) {
    if (at_ >= text_.size() || text_[at_] != c) return false;
    ++at_;
    return true;
  }

  std::optional<std::string> next_field() {
    if (take('"')) return rest_of_quoted();
    const std::size_t end = std::min(text_.find_first_of(",\r\n\"", at_), text_.size());
    std::string field(text_.substr(at_, end - at_));
    at_ = end;
    return field;
  }

  std::optional<std::string> rest_of_quoted() {
    std::string field;
    while (at_ < text_.size()) {
      const char c = text_[at_++];
      if (c == '"' && !take('"')) return field;
      field.push_back(c);
    }
    return std::nullopt;
  }

  std::string_view text_;
  std::size_t at_ = 0;
};

}  // namespace

std::string write_csv(const std::vector<CsvRow>& rows) {
  std::string out;
  for (const CsvRow& row : rows) {
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (i > 0) out.push_back(',');
      out += quoted(row[i]);
    }
    out += "\r\n";
  }
  return out;
}

std::optional<std::vector<CsvRow>> read_csv(std::string_view text) { return Reader(text).rows(); }

}  // namespace fitup::output
