#pragma once
// What to write in place of a word that was meant as a unit. Private to the spec.

#include <optional>
#include <string>
#include <string_view>

namespace fitup::spec {

/// For a word that follows a number: "a mass is written with kg, as in 10 kg". Nothing where the word is like no unit.
[[nodiscard]] std::optional<std::string> unit_hint(std::string_view word, std::string_view number);

/// For a comma at `at`: with digits on both sides, the number as it is meant, "14.5".
[[nodiscard]] std::string comma_hint(std::string_view text, std::size_t at);

}  // namespace fitup::spec
