// The Plan's text form: a golden copy, and the laws that the order of the spec does not matter.
#include <cstdlib>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "plan/framed/planned.h"

namespace fitup::test {
namespace {

std::string read_file(const std::string& path) {
  std::ifstream in(path);
  std::stringstream s;
  s << in.rdbuf();
  return s.str();
}

// The first line that differs says more than two long texts.
std::string first_difference(const std::string& a, const std::string& b) {
  std::istringstream sa(a);
  std::istringstream sb(b);
  std::string la;
  std::string lb;
  for (int line = 1;; ++line) {
    const bool more_a = static_cast<bool>(std::getline(sa, la));
    const bool more_b = static_cast<bool>(std::getline(sb, lb));
    if (!more_a && !more_b) return "";
    if (more_a != more_b || la != lb) {
      return "line " + std::to_string(line) + "\n- " + (more_a ? la : "(end)") + "\n+ " + (more_b ? lb : "(end)");
    }
  }
}

TEST(PlanText, OfTheDemoIsTheGoldenOne) {
  const Planned demo = plan_demo();
  ASSERT_TRUE(demo.result.plan) << demo.said();
  const std::string path = std::string(FITUP_FIXTURES) + "/plans/front-box.txt";
  const std::string text = to_text(*demo.result.plan);
  if (std::getenv("FITUP_UPDATE_GOLDEN") != nullptr) std::ofstream(path) << text;
  EXPECT_EQ(first_difference(read_file(path), text), "") << "FITUP_UPDATE_GOLDEN=1 rewrites " << path;
}

TEST(PlanText, DoesNotDependOnTheOrderOfTables) {
  const std::string lifting = "[lifting]\nthread = \"M10\"\npoints = 4\n";
  const Planned moved = plan_demo({{lifting, ""}, {"[item.thermal_plate]", lifting + "\n[item.thermal_plate]"}});
  ASSERT_TRUE(moved.result.plan) << moved.said();
  EXPECT_EQ(first_difference(to_text(*plan_demo().result.plan), to_text(*moved.result.plan)), "");
}

TEST(PlanText, DoesNotDependOnHowUnitsAreSpelled) {
  const Planned spelled = plan_demo({{"gap = 12", "gap = \"1.2 cm\""}, {"front = 44", "front = \"40 mm + 4\""}});
  ASSERT_TRUE(spelled.result.plan) << spelled.said();
  EXPECT_EQ(first_difference(to_text(*plan_demo().result.plan), to_text(*spelled.result.plan)), "");
}

}  // namespace
}  // namespace fitup::test
