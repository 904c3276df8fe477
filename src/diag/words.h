#pragma once
// Putting values into words for messages: quantities in the user's units, in_quotes words, near misses.

#include <string>
#include <string_view>
#include <vector>

#include "fitup/quantity.h"

namespace fitup::diag {

/// "4.7625 mm" or "0.1875 in"; an inch has four decimals at most, more only where it would lose its second digit.
[[nodiscard]] std::string in_units(Length length, UnitSystem units);
/// With all its digits: what the user wrote, or a limit of the key table.
[[nodiscard]] std::string exactly_in_units(Length length, UnitSystem units);
/// A limit worked out, that stays within it when it is typed as it is said: to a thousandth of a millimetre or a
/// ten-thousandth of an inch, rounded up or down.
[[nodiscard]] std::string at_least_in_units(Length length, UnitSystem units);
[[nodiscard]] std::string at_most_in_units(Length length, UnitSystem units);
/// "23 kg" or "50 lb".
[[nodiscard]] std::string in_units(Mass mass, UnitSystem units);

/// In double quotes, shortened to a readable length, control characters and broken UTF-8 shown as '?'.
[[nodiscard]] std::string in_quotes(std::string_view word);

/// Fit for a terminal: control characters and broken UTF-8 become '?'.
[[nodiscard]] std::string printable(std::string_view text);

/// Length in bytes of the well-formed UTF-8 sequence at `at`, 0 if there is none.
[[nodiscard]] std::size_t sequence_length(std::string_view text, std::size_t at);

/// Number of code points of (possibly broken) UTF-8.
[[nodiscard]] std::size_t code_points(std::string_view text);

/// The candidate nearest in spelling, empty if none is near.
[[nodiscard]] std::string nearest(std::string_view word, const std::vector<std::string>& candidates);

/// What to append to "there is no x": `; did you mean "y"?`, or else `; there are: a, b, c`. Empty without
/// candidates.
[[nodiscard]] std::string suggestion(std::string_view word, const std::vector<std::string>& candidates);

/// "a, b, c", at most `most` of them, then "and 12 more".
[[nodiscard]] std::string listed(const std::vector<std::string>& words, std::size_t most = 12);

}  // namespace fitup::diag
