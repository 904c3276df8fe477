// Questions that no check answers yet. A check that is added takes its line out here.
// Entry: unchecked.
#include "checks/unchecked.h"

#include <array>

namespace fitup::checks {

namespace {

struct Question {
  const char* check;
  const char* asks;
};

constexpr std::array<Question, 1> open_questions{{
    {"loads",
     "what the bolts of bearers and the screws of covers and of bolted rod plates carry, and what loads that come again "
     "and again do to steel and seams"},
}};

}  // namespace

std::vector<Finding> unchecked() {
  std::vector<Finding> findings;
  for (const Question& q : open_questions) {
    Finding f;
    f.check = q.check;
    f.verdict = Verdict::not_checked;
    f.message = q.asks;
    findings.push_back(std::move(f));
  }
  return findings;
}

}  // namespace fitup::checks
