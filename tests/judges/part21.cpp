// Reads ISO 10303-21 text into records.
// Entry: read_part21.
#include "judges/part21.h"

#include <cctype>
#include <charconv>
#include <cstdint>
#include <optional>

namespace fitup::judges {
namespace {

const Value& nothing() {
  static const Value value;
  return value;
}

void append_utf8(std::string& out, std::uint32_t c) {
  const auto put = [&](std::uint32_t byte) { out += static_cast<char>(byte); };
  if (c < 0x80) {
    put(c);
  } else if (c < 0x800) {
    put(0xC0U | c >> 6U);
    put(0x80U | (c & 0x3FU));
  } else if (c < 0x10000) {
    put(0xE0U | c >> 12U);
    put(0x80U | (c >> 6U & 0x3FU));
    put(0x80U | (c & 0x3FU));
  } else {
    put(0xF0U | c >> 18U);
    put(0x80U | (c >> 12U & 0x3FU));
    put(0x80U | (c >> 6U & 0x3FU));
    put(0x80U | (c & 0x3FU));
  }
}

/// `\X2\hhhh...\X0\` and `\X4\hhhhhhhh...\X0\`, from after the opening directive; gives the place behind `\X0\`.
std::size_t append_hex_run(std::string& out, std::string_view text, std::size_t at, std::size_t digits) {
  const std::size_t end = std::min(text.find("\\X0\\", at), text.size());
  for (; at + digits <= end; at += digits) {
    std::uint32_t code = 0;
    std::from_chars(text.data() + at, text.data() + at + digits, code, 16);
    append_utf8(out, code);
  }
  return std::min(end + 4, text.size());
}

/// A directive that begins at the reverse solidus `at`; gives the place behind it.
std::size_t append_directive(std::string& out, std::string_view text, std::size_t at) {
  const auto starts = [&](std::string_view with) { return text.substr(at, with.size()) == with; };
  if (starts("\\X2\\")) return append_hex_run(out, text, at + 4, 4);
  if (starts("\\X4\\")) return append_hex_run(out, text, at + 4, 8);
  if (starts("\\X\\") && at + 5 <= text.size()) {
    std::uint32_t code = 0;
    std::from_chars(text.data() + at + 3, text.data() + at + 5, code, 16);
    append_utf8(out, code);
    return at + 5;
  }
  if (starts("\\S\\") && at + 4 <= text.size()) {
    append_utf8(out, static_cast<unsigned char>(text[at + 3]) + 128U);
    return at + 4;
  }
  if (starts("\\N\\") || starts("\\F\\")) {
    out += '\n';
    return at + 3;
  }
  out += '\\';
  return at + (starts("\\\\") ? 2 : 1);
}

class Parser {
 public:
  explicit Parser(std::string_view text) : text_(text) {}

  Result<Part21File> file() {
    if (keyword() != "ISO-10303-21" || !take(';')) return trouble("it does not begin with ISO-10303-21;");
    if (keyword() != "HEADER" || !take(';')) return trouble("there is no HEADER section");
    Part21File file;
    while (ok_ && !at_section_end()) {
      file.header.push_back(record());
      expect(';');
    }
    if (keyword() != "DATA" || !take(';')) return trouble("there is no DATA section");
    while (ok_ && !at_section_end()) add_entity(file);
    if (!ok_) return trouble("a record is not well formed");
    if (keyword() != "END-ISO-10303-21" || !take(';')) return trouble("the closing line is missing");
    return file;
  }

 private:
  [[nodiscard]] Failure trouble(const std::string& what) const {
    return {Failure::Kind::file, "reading Part 21", what + " (byte " + std::to_string(at_) + ")"};
  }
  void skip() {
    while (at_ < text_.size()) {
      if (std::isspace(static_cast<unsigned char>(text_[at_])) != 0) {
        ++at_;
      } else if (text_.substr(at_, 2) == "/*") {
        at_ = std::min(text_.find("*/", at_) + 2, text_.size());
      } else {
        return;
      }
    }
  }
  char peek() {
    skip();
    return at_ < text_.size() ? text_[at_] : '\0';
  }
  bool take(char c) {
    if (peek() != c) return false;
    ++at_;
    return true;
  }
  void expect(char c) {
    if (!take(c)) ok_ = false;
  }
  std::string keyword() {
    skip();
    const std::size_t start = at_;
    while (at_ < text_.size() &&
           (std::isalnum(static_cast<unsigned char>(text_[at_])) != 0 || text_[at_] == '_' || text_[at_] == '-'))
      ++at_;
    return std::string(text_.substr(start, at_ - start));
  }
  bool at_section_end() {
    skip();
    if (at_ >= text_.size()) ok_ = false;
    if (text_.substr(at_, 7) != "ENDSEC;") return !ok_;
    at_ += 7;
    return true;
  }
  int id() {
    expect('#');
    int value = 0;
    const auto [end, error] = std::from_chars(text_.data() + at_, text_.data() + text_.size(), value);
    if (error != std::errc()) ok_ = false;
    at_ = static_cast<std::size_t>(end - text_.data());
    return value;
  }
  void add_entity(Part21File& file) {
    const int number = id();
    expect('=');
    Entity entity;
    if (take('(')) {
      while (ok_ && !take(')')) entity.push_back(record());
    } else {
      entity.push_back(record());
    }
    expect(';');
    if (!file.entities.emplace(number, std::move(entity)).second) ok_ = false;
  }
  Record record() {
    Record made{keyword(), {}};
    if (made.type.empty()) ok_ = false;
    made.values = parameters();
    return made;
  }
  std::vector<Value> parameters() {
    std::vector<Value> values;
    expect('(');
    if (take(')')) return values;
    do values.push_back(value());
    while (ok_ && take(','));
    expect(')');
    return values;
  }
  Value value() {
    const char c = peek();
    if (c == '$' || c == '*') {
      ++at_;
      return {c == '$' ? Value::Kind::absent : Value::Kind::derived, 0, {}, 0, {}};
    }
    if (c == '#') return {Value::Kind::reference, 0, {}, id(), {}};
    if (c == '(') return {Value::Kind::list, 0, {}, 0, parameters()};
    if (c == '\'') return {Value::Kind::text, 0, string(), 0, {}};
    if (c == '.') return {Value::Kind::word, 0, word(), 0, {}};
    if (std::isalpha(static_cast<unsigned char>(c)) != 0) {
      Record typed = record();
      return {Value::Kind::typed, 0, typed.type, 0, std::move(typed.values)};
    }
    return {Value::Kind::number, number(), {}, 0, {}};
  }
  std::string word() {
    const std::size_t end = text_.find('.', ++at_);
    if (end == std::string_view::npos) {
      ok_ = false;
      return {};
    }
    const std::string_view found = text_.substr(at_, end - at_);
    at_ = end + 1;
    return std::string(found);
  }
  std::string string() {
    const std::size_t start = ++at_;
    while (at_ < text_.size() && (text_[at_] != '\'' || text_.substr(at_, 2) == "''"))
      at_ += text_[at_] == '\'' ? 2 : 1;
    const std::string_view inside = text_.substr(start, at_ - start);
    // Characters 32..126 only: anything else must be encoded.
    for (const char c : inside) ok_ = ok_ && c >= 32 && c <= 126;
    expect('\'');
    return decode_part21_string(inside);
  }
  double number() {
    double value = 0;
    const bool plus = text_[at_] == '+';
    const auto [end, error] = std::from_chars(text_.data() + at_ + (plus ? 1 : 0), text_.data() + text_.size(), value);
    if (error != std::errc()) ok_ = false;
    at_ = static_cast<std::size_t>(end - text_.data());
    return value;
  }

  std::string_view text_;
  std::size_t at_ = 0;
  bool ok_ = true;
};

void collect_references(const std::vector<Value>& values, std::vector<int>& out) {
  for (const Value& value : values) {
    if (value.kind == Value::Kind::reference) out.push_back(value.reference);
    collect_references(value.items, out);
  }
}

}  // namespace

std::string decode_part21_string(std::string_view inside) {
  std::string out;
  for (std::size_t at = 0; at < inside.size();) {
    if (inside[at] == '\\') {
      at = append_directive(out, inside, at);
    } else {
      out += inside[at];
      at += inside.substr(at, 2) == "''" ? 2 : 1;
    }
  }
  return out;
}

const Value& Value::at(std::size_t i) const { return i < items.size() ? items[i] : nothing(); }

std::vector<int> Value::references() const {
  std::vector<int> out;
  collect_references(items, out);
  return out;
}

const Value& Record::at(std::size_t i) const { return i < values.size() ? values[i] : nothing(); }

const Record* Part21File::find(int id, std::string_view type) const {
  const auto found = entities.find(id);
  if (found == entities.end()) return nullptr;
  for (const Record& record : found->second) {
    if (record.type == type) return &record;
  }
  return nullptr;
}

const Record& Part21File::record(int id) const {
  static const Record none;
  const auto found = entities.find(id);
  return found == entities.end() || found->second.empty() ? none : found->second.front();
}

std::vector<int> Part21File::all(std::string_view type) const {
  std::vector<int> ids;
  for (const auto& [id, entity] : entities) {
    if (find(id, type) != nullptr) ids.push_back(id);
  }
  return ids;
}

const Record* Part21File::header_record(std::string_view type) const {
  for (const Record& record : header) {
    if (record.type == type) return &record;
  }
  return nullptr;
}

std::vector<int> Part21File::dangling() const {
  std::vector<int> out;
  for (const auto& [id, entity] : entities) {
    std::vector<int> references;
    for (const Record& record : entity) collect_references(record.values, references);
    for (const int reference : references) {
      if (!entities.contains(reference)) out.push_back(reference);
    }
  }
  return out;
}

Result<Part21File> read_part21(std::string_view text) { return Parser(text).file(); }

}  // namespace fitup::judges
