#pragma once
// Letters beyond ASCII out of the TOML library's way: its version 3.3 runs into undefined behaviour where one of
// U+00A0 to U+FEFF stands next to a value. They are moved to a private plane for the parse and back afterwards; each
// stays one character, so that columns keep.

#include <string>
#include <string_view>

namespace fitup::spec {

/// restored(masked(t)) == t for UTF-8 without characters of plane 15, which are private and become U+FFFD. What is
/// not UTF-8 is left for the library to report.
[[nodiscard]] std::string masked(std::string_view text);
[[nodiscard]] std::string restored(std::string_view text);

}  // namespace fitup::spec
