#pragma once
// A box of the examples as the model that its loads are solved with, for tests.

#include <memory>
#include <string>
#include <vector>

#include "checks/planned.h"
#include "loads/solved_cases.h"

namespace fitup::loads {

/// `cases` and `all` point into `model` and `cases`: held in one place, never copied.
struct SolvedBox {
  std::unique_ptr<const test::Planned> made;
  Seams seams;
  FrameModel model;
  std::vector<FrameCase> cases;
  std::vector<SolvedCase> all;
  [[nodiscard]] const Plan& plan() const { return *made->plan; }
  [[nodiscard]] const std::string& name(std::size_t piece) const { return plan().instances[model.pieces[piece].of].name; }
};

/// `example`: below the examples' folder. A framed box as its frame, a box of plates as its sheet; throws
/// std::bad_optional_access where the spec is refused or a case cannot be solved.
[[nodiscard]] std::unique_ptr<SolvedBox> solved_box(const std::string& example,
                                                          const std::vector<Override>& overrides = {});

}  // namespace fitup::loads
