#pragma once
// A look at raw TOML for keys of absurdly many dotted parts, before the parser builds a table for each.

#include <optional>
#include <string_view>

namespace fitup::spec {

struct TextPosition {
  int line = 1;
  int column = 1;  // bytes, from 1
};

/// The first dot that gives a key more than `most` parts. Dots in strings and comments do not count.
[[nodiscard]] std::optional<TextPosition> find_deep_key(std::string_view text, int most);

}  // namespace fitup::spec
