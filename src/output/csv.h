#pragma once
// Comma-separated values after RFC 4180: CRLF line ends, quotes where needed, UTF-8.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fitup::output {

using CsvRow = std::vector<std::string>;

[[nodiscard]] std::string write_csv(const std::vector<CsvRow>& rows);

/// Nothing if a quote is not closed or stands where RFC 4180 has none.
[[nodiscard]] std::optional<std::vector<CsvRow>> read_csv(std::string_view text);

}  // namespace fitup::output
