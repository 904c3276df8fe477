// Encodes the strings of a STEP file.
// Entry: step_string, StepWords::put_into.
#include "solid/step_text.h"

#include <fmt/format.h>
#include <array>
#include <charconv>
#include <cstdint>
#include <optional>

namespace fitup::solid {
namespace {

constexpr char key_mark = '~';

/// How many bytes follow the first one of a character, or 4 when it cannot start one.
std::size_t followers(unsigned char first) {
  if (first < 0x80) return 0;
  if (first < 0xC2 || first > 0xF4) return 4;
  return first >= 0xF0 ? 3 : first >= 0xE0 ? 2 : 1;
}

/// The character at `at`, or nothing where the bytes are no UTF-8.
std::optional<std::uint32_t> character_at(std::string_view text, std::size_t at) {
  constexpr std::array<std::uint32_t, 4> least{0, 0x80, 0x800, 0x10000};
  const auto first = static_cast<unsigned char>(text[at]);
  const std::size_t more = followers(first);
  if (more > 3 || at + more >= text.size()) return std::nullopt;
  std::uint32_t code = more == 0 ? first : first & (0x3FU >> more);
  for (std::size_t i = 1; i <= more; ++i) {
    const auto byte = static_cast<unsigned char>(text[at + i]);
    if ((byte & 0xC0U) != 0x80U) return std::nullopt;
    code = code << 6U | (byte & 0x3FU);
  }
  const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
  if (code < least.at(more) || code > 0x10FFFF || surrogate) return std::nullopt;
  return code;
}

enum class Page { plain, two, four };

Page page_of(std::uint32_t code) {
  if (code < 0x7F) return Page::plain;
  return code > 0xFFFF ? Page::four : Page::two;
}

bool is_control(std::uint32_t code) { return code < 0x20 || (code >= 0x7F && code < 0xA0); }

/// Collects the encoded characters; opens and closes the directives where the page changes.
class Encoder {
 public:
  void add(std::uint32_t code) {
    turn_to(page_of(code));
    if (open_ == Page::two) {
      out_ += fmt::format("{:04X}", code);
    } else if (open_ == Page::four) {
      out_ += fmt::format("{:08X}", code);
    } else {
      const char c = static_cast<char>(code);
      if (c == '\'' || c == '\\') out_ += c;
      out_ += c;
    }
  }
  [[nodiscard]] std::string take() {
    turn_to(Page::plain);
    return std::move(out_);
  }

 private:
  void turn_to(Page page) {
    if (page == open_) return;
    if (open_ != Page::plain) out_ += "\\X0\\";
    if (page != Page::plain) out_ += page == Page::two ? "\\X2\\" : "\\X4\\";
    open_ = page;
  }

  std::string out_;
  Page open_ = Page::plain;
};

}  // namespace

std::string step_string(std::string_view utf8) {
  Encoder encoder;
  for (std::size_t at = 0; at < utf8.size();) {
    const auto character = character_at(utf8, at);
    at += character ? 1 + followers(static_cast<unsigned char>(utf8[at])) : 1;
    encoder.add(!character || is_control(*character) ? ' ' : *character);
  }
  return encoder.take();
}

std::string StepWords::key(std::string words) {
  words_.push_back(std::move(words));
  return fmt::format("{}{}{}", key_mark, words_.size() - 1, key_mark);
}

std::string StepWords::replaced(const std::string& content) const {
  if (content.size() < 3 || content.front() != key_mark || content.back() != key_mark) return content;
  std::size_t index = 0;
  const char* last = content.data() + content.size() - 1;
  const auto [end, error] = std::from_chars(content.data() + 1, last, index);
  if (error != std::errc() || end != last || index >= words_.size()) return content;
  return step_string(words_[index]);
}

std::string StepWords::put_into(std::string_view text) const {
  std::string out;
  out.reserve(text.size() + text.size() / 16);
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t quote = text.find('\'', at);
    if (quote == std::string_view::npos) return out.append(text.substr(at));
    out.append(text.substr(at, quote + 1 - at));
    std::size_t end = quote + 1;
    while (end < text.size() && (text[end] != '\'' || (end + 1 < text.size() && text[end + 1] == '\''))) {
      end += text[end] == '\'' ? 2 : 1;
    }
    std::string content(text.substr(quote + 1, end - quote - 1));
    std::erase(content, '\n');
    out.append(replaced(content)).append("'");
    at = end + 1;
  }
  return out;
}

}  // namespace fitup::solid
