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

/// Whether other keys lie below this one: it is a table.
[[nodiscard]] bool is_table(const KeyRow& row);

/// The row of the key asked for and all rows below it (in the table, a word in capitals such as NAME stands for
/// any name); else the same for all keys that end in it. Empty: none.
[[nodiscard]] std::vector<const KeyRow*> find_keys(std::string_view asked);

}  // namespace fitup::app
