// Replays the fuzzer's corpus, the bad specs and the examples: text_to_plan ends the process at a broken promise.

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "fuzz/text_to_plan.h"
#include "spec/golden.h"

namespace fitup {
namespace {

namespace fs = std::filesystem;

std::vector<fs::path> inputs() {
  std::vector<fs::path> paths;
  for (const fs::path& folder :
       {fs::path(FITUP_TESTS) / "fuzz" / "corpus", fs::path(FITUP_FIXTURES), fs::path(FITUP_EXAMPLES)}) {
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
      if (entry.path().extension() == ".toml") paths.push_back(entry.path());
    }
  }
  std::sort(paths.begin(), paths.end());
  return paths;
}

TEST(FuzzCorpus, breaks_no_promise_of_any_stage) {
  const auto paths = inputs();
  EXPECT_GT(paths.size(), 50U);
  for (const fs::path& path : paths) {
    SCOPED_TRACE(path.string());
    test::text_to_plan(test::read_file(path));
  }
}

/// The same texts cut short and with single bytes changed: what the fuzzer does first, without the fuzzer.
TEST(FuzzCorpus, breaks_no_promise_when_it_is_damaged) {
  for (const fs::path& path : inputs()) {
    const std::string text = test::read_file(path);
    for (std::size_t at = 0; at < text.size(); at += 1 + text.size() / 23) {
      SCOPED_TRACE(path.string() + " at byte " + std::to_string(at));
      test::text_to_plan(text.substr(0, at));
      for (const char byte : {'\0', '"', '{', '9', '\xFF'}) {
        std::string damaged = text;
        damaged[at] = byte;
        test::text_to_plan(damaged);
      }
    }
  }
}

}  // namespace
}  // namespace fitup
