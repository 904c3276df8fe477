#pragma once
// The pattern of the flat files' names.

#include <string>
#include <string_view>

namespace fitup::spec {

/// What is wrong with a pattern, completing "cutter.file_name is ..., "; empty: nothing. A sound pattern gives every
/// part of a job a name of its own: the words hold no _ or space, so that its pieces between these can be told apart,
/// and the mark is one of them.
[[nodiscard]] std::string flaw_in_file_pattern(std::string_view pattern);

}  // namespace fitup::spec
