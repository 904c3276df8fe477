// Golden texts: compare, show the difference, rewrite on request.
// Entry: expect_golden.

#include "spec/golden.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string_view>
#include <vector>

namespace fitup::test {

namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

/// Length of the longest common subsequence of what follows a[i] and b[j].
std::vector<std::vector<std::size_t>> common_lengths(const std::vector<std::string>& a,
                                                     const std::vector<std::string>& b) {
  std::vector<std::vector<std::size_t>> common(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = a.size(); i-- > 0;) {
    for (std::size_t j = b.size(); j-- > 0;) {
      common[i][j] = a[i] == b[j] ? common[i + 1][j + 1] + 1 : std::max(common[i + 1][j], common[i][j + 1]);
    }
  }
  return common;
}

bool rewriting() {
  const char* wanted = std::getenv("FITUP_UPDATE_GOLDEN");
  return wanted != nullptr && std::string_view(wanted) == "1";
}

}  // namespace

std::string read_file(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  if (file) text << file.rdbuf();
  return text.str();
}

std::string line_difference(const std::string& expected, const std::string& actual) {
  const auto a = lines_of(expected);
  const auto b = lines_of(actual);
  const auto common = common_lengths(a, b);
  std::string out;
  for (std::size_t i = 0, j = 0; i < a.size() || j < b.size();) {
    if (i < a.size() && j < b.size() && a[i] == b[j]) {
      ++i;
      ++j;
    } else if (j == b.size() || (i < a.size() && common[i + 1][j] >= common[i][j + 1])) {
      out += "- " + a[i++] + "\n";
    } else {
      out += "+ " + b[j++] + "\n";
    }
  }
  if (out.empty() && expected != actual) out = "(they differ in line ends only)\n";
  return out;
}

void expect_golden(const std::filesystem::path& path, const std::string& actual) {
  if (rewriting()) {
    std::ofstream(path, std::ios::binary) << actual;
    return;
  }
  const std::string expected = read_file(path);
  if (expected == actual) return;
  ADD_FAILURE() << path.filename() << " (- expected, + actual; FITUP_UPDATE_GOLDEN=1 rewrites it):\n"
                << line_difference(expected, actual);
}

}  // namespace fitup::test
