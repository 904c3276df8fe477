// Verdicts in words, and whether any check failed.
// Entry: Findings::failed.
#include "fitup/findings.h"

#include <algorithm>

namespace fitup {

std::string_view to_text(Verdict verdict) {
  switch (verdict) {
    case Verdict::pass: return "pass";
    case Verdict::marginal: return "marginal";
    case Verdict::fail: return "fail";
    case Verdict::not_checked: return "not checked";
  }
  return "not checked";
}

bool Findings::failed() const {
  return std::any_of(all.begin(), all.end(), [](const Finding& f) { return f.verdict == Verdict::fail; });
}

}  // namespace fitup
