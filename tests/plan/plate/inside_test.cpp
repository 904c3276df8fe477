// The same inside whichever way a box is built: what of it the frame leaves free, sampled, for each example.
// Entry: gtest.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

#include "checks/occupancy.h"
#include "checks/placed.h"
#include "plan/framed/planned.h"

namespace fitup::test {
namespace {

struct Built {
  Planned planned;
  Box3 inside;          // the first box's, by where its first item stands in the layout and in the plan
  double free_mm3 = 0;  // of it
  double members_and_ribs_mm3 = 0;
};

constexpr double pitch_mm = 8;

bool is_of_the_frame(const Part& part) {
  static const std::set<Role> roles{Role::ring_member, Role::upright, Role::wall,    Role::rib,       Role::rail,
                                    Role::cross_bar,   Role::landing, Role::doubler, Role::face_plate};
  return roles.contains(part.role);
}

void measure(Built& built) {
  const Plan& plan = *built.planned.result.plan;
  std::vector<checks::PlacedBody> frame;
  for (const Instance& i : plan.instances) {
    const Part& part = plan.parts[i.part];
    if (!is_of_the_frame(part)) continue;
    frame.push_back(checks::place(body_of(part), i.pose));
    const bool member = std::holds_alternative<Member>(part.form) || part.role == Role::rib;
    built.members_and_ribs_mm3 += member ? volume_mm3(part) : 0;
  }
  const auto is_free = [&frame](Vec3 p) {
    return std::none_of(frame.begin(), frame.end(), [p](const auto& body) {
      const Box3& b = body.outer.box;
      const bool near =
          p.x >= b.low.x && p.x <= b.high.x && p.y >= b.low.y && p.y <= b.high.y && p.z >= b.low.z && p.z <= b.high.z;
      return near && checks::occupies(body.outer, p);
    });
  };
  const Vec3 size = built.inside.size();
  const Vec3 cells{std::ceil(size.x / pitch_mm), std::ceil(size.y / pitch_mm), std::ceil(size.z / pitch_mm)};
  const Vec3 step{size.x / cells.x, size.y / cells.y, size.z / cells.z};
  std::size_t free = 0;
  for (double x = 0.5; x < cells.x; ++x)
    for (double y = 0.5; y < cells.y; ++y)
      for (double z = 0.5; z < cells.z; ++z)
        free += is_free(built.inside.low + Vec3{x * step.x, y * step.y, z * step.z}) ? 1 : 0;
  built.free_mm3 = static_cast<double>(free) * step.x * step.y * step.z;
}

std::string text_of(const std::filesystem::path& path) {
  std::ostringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

std::optional<Built> build(const std::string& example, const std::string& way) {
  Built built;
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / example;
  built.planned = plan_text(text_of(path), {{"box.main.build", way}});
  if (!built.planned.result.plan) return std::nullopt;
  const BoxLayout& layout = built.planned.layout->boxes.front();
  const Instance* first = instances_of(*built.planned.result.plan, Role::item).front();
  const Vec3 low = box_of(*built.planned.result.plan, *first).low - layout.items.front().corner;
  built.inside = {low, low + layout.inside};
  measure(built);
  return built;
}

class Insides : public testing::TestWithParam<const char*> {};

// Examples that start from another one are that one's inside again; the locker of aluminium is built from plates alone.
INSTANTIATE_TEST_SUITE_P(OfExamples, Insides,
                         testing::Values("park-locomotive/front-box.toml", "orchard-sprayer/battery-box.toml",
                                         "cabin-inverter/cabinet.toml"));

TEST_P(Insides, DifferByNoMoreThanMembersAndRibs) {
  const auto framed = build(GetParam(), "framed");
  const auto plates = build(GetParam(), "plate");
  ASSERT_TRUE(framed) << "of sections";
  ASSERT_TRUE(plates) << "of plates";
  EXPECT_NEAR(norm(framed->inside.size() - plates->inside.size()), 0, 1e-9);
  EXPECT_GT(framed->free_mm3, 0);
  EXPECT_LE(std::abs(framed->free_mm3 - plates->free_mm3), framed->members_and_ribs_mm3 + plates->members_and_ribs_mm3);
}

}  // namespace
}  // namespace fitup::test
