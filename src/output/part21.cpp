// Reads the exchange structure of a STEP file without knowing its schema.
// Entry: read_part21.

#include "output/part21.h"

#include <fmt/format.h>

#include <charconv>
#include <cstdint>

namespace fitup::output {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_space(char c) { return c == ' ' || c == '\n' || c == '\r' || c == '\t'; }
bool is_name(char c) { return (c >= 'A' && c <= 'Z') || is_digit(c) || c == '_'; }

/// The place after the string whose opening quote stands at `at`; npos where it is not closed.
std::size_t after_string(std::string_view text, std::size_t at) {
  for (std::size_t i = at + 1; i < text.size(); ++i) {
    if (text[i] != '\'') continue;
    if (i + 1 >= text.size() || text[i + 1] != '\'') return i + 1;
    ++i;
  }
  return std::string_view::npos;
}

/// Calls found(token) for every reference ('#'), string ('\'') and number ('0') of the parameters.
template <class Found>
void each_token(std::string_view text, Found found) {
  for (std::size_t i = 0; i < text.size();) {
    const char c = text[i];
    if (c == '\'') {
      const std::size_t end = std::min(after_string(text, i), text.size());
      found('\'', text.substr(i + 1, end - i - 2));
      i = end;
    } else if (c == '#') {
      std::size_t end = i + 1;
      while (end < text.size() && is_digit(text[end])) ++end;
      found('#', text.substr(i + 1, end - i - 1));
      i = end;
    } else if (is_digit(c) || c == '-' || c == '+') {
      const std::size_t end = std::min(text.find_first_not_of("+-0123456789.Ee", i), text.size());
      found('0', text.substr(i, end - i));
      i = end;
    } else if (is_name(c)) {
      while (i < text.size() && is_name(text[i])) ++i;
    } else {
      ++i;
    }
  }
}

int to_int(std::string_view digits) {
  int value = -1;
  std::from_chars(digits.data(), digits.data() + digits.size(), value);
  return value;
}

void append_utf8(std::string& out, std::uint32_t code) {
  const auto byte = [&](std::uint32_t b) { out.push_back(static_cast<char>(b)); };
  if (code < 0x80) return byte(code);
  if (code < 0x800) {
    byte(0xC0 | code >> 6);
  } else {
    if (code < 0x10000) {
      byte(0xE0 | code >> 12);
    } else {
      byte(0xF0 | code >> 18);
      byte(0x80 | (code >> 12 & 0x3F));
    }
    byte(0x80 | (code >> 6 & 0x3F));
  }
  byte(0x80 | (code & 0x3F));
}

/// Hexadecimal groups of 4 or 8 digits.
void append_hex(std::string& out, std::string_view digits, std::size_t width) {
  for (std::size_t i = 0; i + width <= digits.size(); i += width) {
    std::uint32_t code = '?';
    std::from_chars(digits.data() + i, digits.data() + i + width, code, 16);
    append_utf8(out, code);
  }
}

class Reader {
 public:
  explicit Reader(std::string_view text) : text_(text) {}

  StepData read() {
    const std::size_t data = text_.find("DATA;");
    if (text_.substr(0, 13) != "ISO-10303-21;" || data == std::string_view::npos)
      return flawed("it is not a STEP file");
    at_ = data + 5;
    while (skip_space() && text_[at_] == '#') {
      if (!instance()) return flawed(fmt::format("an instance near byte {} cannot be read", at_));
    }
    if (text_.substr(at_, 7) != "ENDSEC;" || text_.find("END-ISO-10303-21;", at_) == std::string_view::npos) {
      return flawed("it is not complete: its closing line is missing");
    }
    return std::move(data_);
  }

 private:
  StepData flawed(std::string flaw) {
    data_.flaw = std::move(flaw);
    return std::move(data_);
  }

  bool skip_space() {
    while (at_ < text_.size() && is_space(text_[at_])) ++at_;
    return at_ < text_.size();
  }

  bool instance() {
    const std::size_t equals = text_.find('=', at_);
    const std::size_t end = end_of_instance();
    if (equals == std::string_view::npos || end == std::string_view::npos || equals > end) return false;
    std::string_view digits = text_.substr(at_ + 1, equals - at_ - 1);
    while (!digits.empty() && is_space(digits.back())) digits.remove_suffix(1);
    const int id = to_int(digits);
    std::string_view body = text_.substr(equals + 1, end - equals - 1);
    while (!body.empty() && is_space(body.front())) body.remove_prefix(1);
    const std::size_t open = body.find('(');
    if (id < 1 || open == std::string_view::npos) return false;
    std::string_view type = body.substr(0, open);
    while (!type.empty() && is_space(type.back())) type.remove_suffix(1);
    if (!data_.instances.emplace(id, StepInstance{type, body.substr(open)}).second) return false;
    data_.order.push_back(id);
    at_ = end + 1;
    return true;
  }

  [[nodiscard]] std::size_t end_of_instance() const {
    for (std::size_t i = at_; i < text_.size();) {
      if (text_[i] == ';') return i;
      i = text_[i] == '\'' ? after_string(text_, i) : i + 1;
    }
    return std::string_view::npos;
  }

  std::string_view text_;
  std::size_t at_ = 0;
  StepData data_;
};

}  // namespace

std::string decoded_step_string(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const std::string_view rest = text.substr(i);
    const bool wide = rest.substr(0, 4) == "\\X2\\" || rest.substr(0, 4) == "\\X4\\";
    const std::size_t end = wide ? rest.find("\\X0\\") : std::string_view::npos;
    if (end != std::string_view::npos) {
      append_hex(out, rest.substr(4, end - 4), rest[2] == '2' ? 4 : 8);
      i += end + 4;
    } else {
      out.push_back(text[i]);
      const bool doubled = rest.substr(0, 2) == "''" || rest.substr(0, 2) == "\\\\";
      i += doubled ? 2 : 1;
    }
  }
  return out;
}

std::vector<int> StepInstance::references() const {
  std::vector<int> found;
  each_token(parameters, [&](char kind, std::string_view token) {
    if (kind == '#') found.push_back(to_int(token));
  });
  return found;
}

std::vector<std::string> StepInstance::strings() const {
  std::vector<std::string> found;
  each_token(parameters, [&](char kind, std::string_view token) {
    if (kind == '\'') found.push_back(decoded_step_string(token));
  });
  return found;
}

std::vector<double> StepInstance::numbers() const {
  std::vector<double> found;
  each_token(parameters, [&](char kind, std::string_view token) {
    if (kind != '0') return;
    double value = 0;
    if (token.front() == '+') token.remove_prefix(1);
    std::from_chars(token.data(), token.data() + token.size(), value);
    found.push_back(value);
  });
  return found;
}

std::vector<int> StepInstance::references_of(std::string_view type_name) const {
  for (std::size_t at = parameters.find(type_name); at != std::string_view::npos;
       at = parameters.find(type_name, at + 1)) {
    const std::size_t open = at + type_name.size();
    const bool whole = open < parameters.size() && parameters[open] == '(' && (at == 0 || !is_name(parameters[at - 1]));
    if (!whole) continue;
    return StepInstance{type_name, parameters.substr(open, parameters.find(')', open) - open)}.references();
  }
  return {};
}

const StepInstance* StepData::find(int id) const {
  const auto found = instances.find(id);
  return found == instances.end() ? nullptr : &found->second;
}

StepData read_part21(std::string_view text) { return Reader(text).read(); }

}  // namespace fitup::output
