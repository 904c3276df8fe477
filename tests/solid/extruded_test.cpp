// What building a flat part takes for granted is asked here of every one: its extrusion passes the kernel's whole
// check, geometry included, and the kernel measures the area that is worked out in closed form. Entry: gtest.
#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "fitup/layout.h"
#include "fitup/model.h"
#include "fitup/spec.h"
#include "solid/shapes.h"

namespace fitup {
namespace {

Result<std::string> text_of(const std::string& path) {
  std::ifstream in(path);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

class Extruded : public testing::TestWithParam<const char*> {};

TEST_P(Extruded, PartsPassTheWholeCheckAndHaveTheirArea) {
  const std::string path = std::string(FITUP_EXAMPLES) + "/" + GetParam();
  const SpecResult spec = read_spec(path, text_of(path).value(), {}, text_of);
  ASSERT_TRUE(spec.spec);
  const PlanResult planned = make_plan(lay_out(*spec.spec));
  ASSERT_TRUE(planned.plan);
  const auto model = build_model(*planned.plan, 2);
  ASSERT_TRUE(model);
  int asked = 0;
  for (PartId id = 0; id < planned.plan->parts.size(); ++id) {
    const auto* flat = std::get_if<Flat>(&planned.plan->parts[id].form);
    if (flat == nullptr || !flat->bends.empty()) continue;
    ++asked;
    const PartSolid& part = model->parts[id];
    EXPECT_NO_THROW(solid::require_sound(part.solid.shape().solid)) << planned.plan->parts[id].name;
    const auto measured = solid::measure(part.solid);
    ASSERT_TRUE(measured);
    EXPECT_NEAR(part.area_mm2, measured->area_mm2, 1e-9 * measured->area_mm2) << planned.plan->parts[id].name;
  }
  EXPECT_GT(asked, 5);
}

INSTANTIATE_TEST_SUITE_P(Examples, Extruded,
                         testing::Values("park-locomotive/front-box.toml", "park-locomotive/front-box-plate.toml",
                                         "park-locomotive/front-box-with-lower.toml",
                                         "orchard-sprayer/battery-box.toml", "cabin-inverter/cabinet.toml",
                                         "workboat-locker/locker.toml"));

}  // namespace
}  // namespace fitup
