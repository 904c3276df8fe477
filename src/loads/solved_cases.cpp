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
  std::vector<SolvedCase> all(cases.size());
  const FrameSolver* like = nullptr;
  for (std::size_t first = 0; first < cases.size(); ++first) {
    if (all[first].solver) continue;
    auto factored = FrameSolver::factor(cases[first].frame, like);
    if (!factored) return std::nullopt;
    const auto solver = std::make_shared<const FrameSolver>(std::move(*factored));
    like = solver.get();
    std::vector<const LoadCase*> loads;
    std::vector<std::size_t> held_alike;
    for (std::size_t i = first; i < cases.size(); ++i) {
      if (!same_supports(cases[i].frame.supports, cases[first].frame.supports)) continue;
      loads.push_back(&cases[i].load);
      held_alike.push_back(i);
    }
    std::vector<FrameResult> results = solver->solve(loads);
    for (std::size_t i = 0; i < results.size(); ++i) {
      all[held_alike[i]] = {&cases[held_alike[i]], solver, std::move(results[i])};
    }
  }
  return all;
}

}  // namespace fitup::loads
