#pragma once
// A spec taken to its Plan, for tests.

#include <string>
#include <vector>

#include "fitup/layout.h"
#include "fitup/plan.h"

namespace fitup::test {

struct Planned {
  SpecResult read;
  std::optional<Layout> layout;
  PlanResult result;
  [[nodiscard]] std::string said() const;  // all diagnostics, rendered
};

/// A box of plates round two blocks on rails, 60 mm high above them: what is free beside them, and the lines that
/// follow.
std::string two_blocks_in_plates(const std::string& clearance, const std::string& faces);
/// A case in millimetres of one kind of item, `block`: what stands in the item's table, and in the box's and behind it.
std::string case_of(const std::string& item, const std::string& box);
Planned plan_text(const std::string& text, const std::vector<Override>& overrides = {});
/// The park locomotive's front box, after replacing each first text by the second (which must occur).
Planned plan_demo(const std::vector<std::pair<std::string, std::string>>& replacements = {},
                  const std::vector<Override>& overrides = {});

[[nodiscard]] std::vector<const Instance*> instances_of(const Plan& plan, Role role);
[[nodiscard]] const Instance* find_instance(const Plan& plan, const std::string& name);
/// The box that holds an instance.
[[nodiscard]] Box3 box_of(const Plan& plan, const Instance& instance);
/// Of an instance that must be there.
void expect_box(const Plan& plan, const std::string& name, Vec3 low, Vec3 high);
/// An instance's part; throws where there is none of the name.
[[nodiscard]] const Part& part_of(const Plan& plan, const std::string& name);
/// Names of what an instance has joints with, sorted.
[[nodiscard]] std::vector<std::string> joined(const Plan& plan, const std::string& name);

}  // namespace fitup::test
