// A box of the examples, planned, modelled and solved.
#include "loads/solved_box.h"

#include "fitup/weight.h"
#include "loads/box_model.h"
#include "loads/frame_check.h"

namespace fitup::loads {

std::unique_ptr<SolvedBox> solved_box(const std::string& example, const std::vector<Override>& overrides) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / example;
  auto box = std::make_unique<SolvedBox>();
  box->made = test::planned(path.string(), test::text_of(path), overrides);
  const Plan& plan = box->made->plan.value();
  box->seams = seams_of(plan);
  box->model = box_model(plan, box->seams).value();
  box->cases = frame_cases(plan, box->model, weigh(plan, box->seams), plan.load_rules);
  box->all = solved(box->cases).value();
  return box;
}

}  // namespace fitup::loads
