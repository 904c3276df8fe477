#pragma once
// Numbers and names as they stand in files: independent of the locale, the same everywhere.

#include <string>
#include <string_view>

namespace fitup::output {

/// At most `decimals` decimals, trailing zeros dropped, never "-0".
[[nodiscard]] std::string number(double value, int decimals = 3);

/// Exactly `decimals` decimals, never "-0.00".
[[nodiscard]] std::string fixed(double value, int decimals);

/// Lower-case letters, digits and single hyphens: "left bottom, ring member" -> "left-bottom-ring-member".
[[nodiscard]] std::string slug(std::string_view text);

/// Letters and digits with their case, anything else one hyphen: "EN AW-5754" -> "EN-AW-5754".
[[nodiscard]] std::string file_safe(std::string_view text);

/// The first 12 digits of the spec hash: what fits on a plate or a label.
[[nodiscard]] std::string short_hash(std::string_view hash);

/// Fit to stand in XML: &, <, > by name, a control character as a space.
[[nodiscard]] std::string xml_text(std::string_view text);

}  // namespace fitup::output
