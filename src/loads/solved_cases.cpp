// Factors shared by cases that are held alike.
// Entry: solved.
#include "loads/solved_cases.h"

#include <algorithm>

namespace fitup::loads {

namespace {

bool same_supports(const std::vector<Support>& a, const std::vector<Support>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](const Support& s, const Support& t) { return s.node == t.node && s.held == t.held; });
}

}  // namespace

std::optional<std::vector<SolvedCase>> solved(const std::vector<FrameCase>& cases) {
  std::vector<SolvedCase> all;
  for (const FrameCase& c : cases) {
    const auto known = std::find_if(all.begin(), all.end(), [&](const SolvedCase& s) {
      return same_supports(s.of->frame.supports, c.frame.supports);
    });
    std::shared_ptr<const FrameSolver> solver;
    if (known != all.end()) {
      solver = known->solver;
    } else if (auto factored = FrameSolver::factor(c.frame)) {
      solver = std::make_shared<const FrameSolver>(std::move(*factored));
    } else {
      return std::nullopt;
    }
    all.push_back({&c, solver, solver->solve(c.load)});
  }
  return all;
}

}  // namespace fitup::loads
