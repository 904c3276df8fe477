#pragma once
// What a TOML reader stumbles over where a quantity stands without its quotes, or with a comma for its point.

#include <optional>
#include <string>
#include <string_view>

namespace fitup::spec {

struct BareValue {
  std::size_t begin = 0;  // in the line, in bytes
  std::size_t length = 0;
  std::string advice;  // what it is and what to write
};

/// The value in `line` at, or just before, byte `at` where reading stopped, if it is one: `18,5` behind a `=` is a
/// decimal comma; `18.5kg`, `1/2` and `1 1/2 in` want quotes.
[[nodiscard]] std::optional<BareValue> bare_value(std::string_view line, std::size_t at);

}  // namespace fitup::spec
