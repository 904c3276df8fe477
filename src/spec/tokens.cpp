// Cuts an expression into tokens, independent of the locale.
// Entry: cut_into_tokens.

#include "spec/tokens.h"

#include <algorithm>
#include <charconv>
#include <limits>

namespace fitup::spec {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; }

Token number_at(std::string_view text, std::size_t at) {
  Token token{Token::Kind::number, {}, at, 0, false};
  const auto result = std::from_chars(text.data() + at, text.data() + text.size(), token.value);
  if (result.ec == std::errc::result_out_of_range) token.value = std::numeric_limits<double>::infinity();
  token.text = text.substr(at, static_cast<std::size_t>(result.ptr - text.data()) - at);
  token.whole = std::all_of(token.text.begin(), token.text.end(), is_digit);
  return token;
}

Token word_at(std::string_view text, std::size_t at) {
  std::size_t end = at;
  while (end < text.size() && (is_letter(text[end]) || is_digit(text[end]))) ++end;
  return Token{Token::Kind::word, text.substr(at, end - at), at, 0, false};
}

}  // namespace

Tokens cut_into_tokens(std::string_view text) {
  Tokens tokens;
  std::size_t at = 0;
  while (at < text.size()) {
    const char c = text[at];
    if (c == ' ' || c == '\t') {
      ++at;
      continue;
    }
    const bool point = c == '.' && at + 1 < text.size() && is_digit(text[at + 1]);
    if (is_digit(c) || point) {
      tokens.all.push_back(number_at(text, at));
    } else if (is_letter(c)) {
      tokens.all.push_back(word_at(text, at));
    } else if (std::string_view("+-*/()").find(c) != std::string_view::npos) {
      tokens.all.push_back(Token{Token::Kind::sign, text.substr(at, 1), at, 0, false});
    } else {
      tokens.stray = at;
      break;
    }
    at += tokens.all.back().text.size();
  }
  tokens.all.push_back(Token{Token::Kind::end, {}, text.size(), 0, false});
  return tokens;
}

}  // namespace fitup::spec
