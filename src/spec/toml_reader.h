#pragma once
// TOML text to a value tree.

#include <optional>
#include <string>
#include <string_view>

#include "spec/value.h"

namespace fitup::spec {

inline constexpr std::size_t largest_spec_bytes = 1'000'000;

/// The text without a byte order mark, which some editors put first; it is no character.
[[nodiscard]] std::string without_mark(std::string text);

/// The root table, or a diagnostic of the first place that is not TOML. `source` is the text's index.
[[nodiscard]] std::optional<Value> read_toml(std::string_view text, int source, Diagnostics& diagnostics);

}  // namespace fitup::spec
