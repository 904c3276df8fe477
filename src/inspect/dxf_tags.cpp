// Splits a DXF text into its pairs.
// Entry: read_dxf_tags.
#include "inspect/dxf_tags.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

namespace fitup::inspect {

namespace {

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\0'; }

std::string_view trimmed(std::string_view s) {
  while (!s.empty() && is_blank(s.front())) s.remove_prefix(1);
  while (!s.empty() && is_blank(s.back())) s.remove_suffix(1);
  return s;
}

class Lines {
 public:
  explicit Lines(std::string_view text) : text_(text) {}
  [[nodiscard]] bool done() const { return at_ >= text_.size(); }
  [[nodiscard]] std::size_t number() const { return number_; }
  std::string_view next() {
    ++number_;
    const std::size_t end = std::min(text_.find_first_of("\r\n", at_), text_.size());
    const std::string_view line = text_.substr(at_, end - at_);
    at_ = end + (text_.substr(end, 2) == "\r\n" ? 2 : 1);
    return line;
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
  std::size_t number_ = 0;
};

}  // namespace

std::optional<double> real_of(std::string_view text) {
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

std::optional<int> whole_of(std::string_view text) {
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

DxfTags read_dxf_tags(std::string_view bytes) {
  DxfTags read;
  read.tags.reserve(bytes.size() / 16);
  Lines lines(bytes);
  while (!lines.done()) {
    const std::string_view first = trimmed(lines.next());
    if (first.empty() && lines.done()) break;
    const auto code = whole_of(first);
    if (!code) {
      read.flaw = fmt::format("line {} should be a group code, a whole number, and is none", lines.number());
      break;
    }
    if (lines.done()) {
      read.flaw = fmt::format("it ends in the middle of a pair, at line {}", lines.number());
      break;
    }
    const std::string_view value = trimmed(lines.next());
    if (*code != 999) read.tags.push_back({*code, value});
    if (*code == 0 && value == "EOF") return read;
  }
  if (read.flaw.empty()) read.flaw = "it does not end with EOF: it may have been cut short";
  return read;
}

}  // namespace fitup::inspect
