#pragma once
// Comparing with a text that is kept beside the test's input.

#include <filesystem>
#include <string>

namespace fitup::test {

/// The file's bytes; empty if there is none.
[[nodiscard]] std::string read_file(const std::filesystem::path& path);

/// A failure with the differing lines unless the file holds exactly `actual`. With FITUP_UPDATE_GOLDEN=1 in the
/// environment the file is written instead.
void expect_golden(const std::filesystem::path& path, const std::string& actual);

/// Lines of either text that the other lacks, "-" expected, "+" actual; unchanged neighbours are left out.
[[nodiscard]] std::string line_difference(const std::string& expected, const std::string& actual);

}  // namespace fitup::test
