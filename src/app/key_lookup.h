#pragma once
// Which rows of the key table a question is about.

#include <string>
#include <string_view>
#include <vector>

#include "fitup/spec.h"

namespace fitup::app {

/// "box.NAME.rails" of "box.NAME.rails.thickness"; empty for a key of the top table.
[[nodiscard]] std::string table_of(std::string_view key);

/// "thickness" of "box.NAME.rails.thickness".
[[nodiscard]] std::string last_word(std::string_view key);

/// Rows named by `asked`: the key itself (a word in capitals such as NAME stands for any name); else all rows of
/// that table; else all rows whose last word it is. Empty: none.
[[nodiscard]] std::vector<const KeyRow*> find_keys(std::string_view asked);

}  // namespace fitup::app
