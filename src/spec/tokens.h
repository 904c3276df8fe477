#pragma once
// Cuts an expression into numbers, words and signs.

#include <optional>
#include <string_view>
#include <vector>

namespace fitup::spec {

struct Token {
  enum class Kind { number, word, sign, end };
  Kind kind = Kind::end;
  std::string_view text;
  std::size_t at = 0;  // byte offset in the expression
  double value = 0;    // of a number
  bool whole = false;  // a number of digits only
};

struct Tokens {
  std::vector<Token> all;            // the last one is the end
  std::optional<std::size_t> stray;  // offset of the first character that belongs nowhere
};

[[nodiscard]] Tokens cut_into_tokens(std::string_view text);

}  // namespace fitup::spec
