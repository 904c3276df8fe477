// A spec taken to its Plan, for tests.
// Entry: plan_text, plan_demo.
#include "plan/framed/planned.h"

#include <algorithm>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include <gtest/gtest.h>

namespace fitup::test {

std::string Planned::said() const {
  std::string out;
  for (const Diagnostics* all : {&read.diagnostics, &result.diagnostics}) {
    for (const Diagnostic& d : all->all()) out += render(d, read.sources, false);
  }
  return out;
}

std::string case_of(const std::string& item, const std::string& box) {
  return "fitup = 1\nname = \"case\"\nunits = \"mm\"\n[item.block]\n" + item + "\n[box.main]\n" + box;
}

std::string two_blocks_in_plates(const std::string& clearance, const std::string& faces) {
  return case_of("size = [150, 430, 220]\nmass = 23", R"(build = "plate"
row = [{ of = "block", count = 2 }]
frame = { section = "L 40x40x4", bottom_legs = "down", uprights = "40x4" }
rails = { thickness = 5 }
clearance = { top = 60, )" + clearance + " }\n" + faces);
}

Planned plan_text(const std::string& text, const std::vector<Override>& overrides) {
  Planned p;
  p.read = read_spec("box.toml", text, overrides);
  if (!p.read.spec) return p;
  p.layout = lay_out(*p.read.spec);
  p.result = make_plan(*p.layout);
  return p;
}

Planned plan_demo(const std::vector<std::pair<std::string, std::string>>& replacements,
                  const std::vector<Override>& overrides) {
  std::ifstream in(std::string(FITUP_EXAMPLES) + "/park-locomotive/front-box.toml");
  std::stringstream text;
  text << in.rdbuf();
  std::string s = text.str();
  for (const auto& [from, to] : replacements) {
    const std::size_t at = s.find(from);
    if (at == std::string::npos) {
      ADD_FAILURE() << "the example does not hold " << from;
    } else {
      s.replace(at, from.size(), to);
    }
  }
  return plan_text(s, overrides);
}

std::vector<const Instance*> instances_of(const Plan& plan, Role role) {
  std::vector<const Instance*> out;
  for (const Instance& i : plan.instances) {
    if (plan.parts[i.part].role == role) out.push_back(&i);
  }
  return out;
}

const Instance* find_instance(const Plan& plan, const std::string& name) {
  for (const Instance& i : plan.instances) {
    if (i.name == name) return &i;
  }
  return nullptr;
}

Box3 box_of(const Plan& plan, const Instance& instance) {
  Box3 box;
  for (Prism p : body_of(plan.parts[instance.part]).outer) {
    p.pose = instance.pose * p.pose;
    box.add(p.bounds());
  }
  return box;
}

void expect_box(const Plan& plan, const std::string& name, Vec3 low, Vec3 high) {
  const Instance* instance = find_instance(plan, name);
  ASSERT_NE(instance, nullptr) << name;
  const Box3 is = box_of(plan, *instance);
  EXPECT_LT(norm(is.low - low), 1e-6) << name << ": " << is.low.x << " " << is.low.y << " " << is.low.z;
  EXPECT_LT(norm(is.high - high), 1e-6) << name << ": " << is.high.x << " " << is.high.y << " " << is.high.z;
}

const Part& part_of(const Plan& plan, const std::string& name) {
  const Instance* found = find_instance(plan, name);
  if (found == nullptr) throw std::runtime_error("no instance " + name);
  return plan.parts[found->part];
}

std::vector<std::string> joined(const Plan& plan, const std::string& name) {
  std::vector<std::string> out;
  for (const Joint& joint : plan.joints) {
    const std::string& a = plan.instances[joint.a].name;
    const std::string& b = plan.instances[joint.b].name;
    if (a == name) out.push_back(b);
    if (b == name) out.push_back(a);
  }
  std::sort(out.begin(), out.end());
  return out;
}

}  // namespace fitup::test
