// What is marked on the faces of flat parts, held against the bodies that stand there and against what is cut.
// Entry: gtest.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "checks/occupancy.h"
#include "checks/placed.h"
#include "geometry/region.h"
#include "geometry/strokes.h"
#include "plan/framed/planned.h"
#include "spec/spec_of.h"

namespace fitup::test {
namespace {

Plan plan_of(const Files& files) {
  const SpecResult read = read_files(files);
  if (!read.spec) return {};
  PlanResult result = make_plan(lay_out(*read.spec));
  if (!result.plan) return {};
  name_faces(*result.plan);
  return *std::move(result.plan);
}

Plan plate_demo() {
  Planned planned = plan_demo({}, {{"box.main.build", "plate"}});
  name_faces(*planned.result.plan);
  return *std::move(planned.result.plan);
}

Plan framed_demo() {
  Planned planned = plan_demo();
  name_faces(*planned.result.plan);
  return *std::move(planned.result.plan);
}

const Flat* marked_flat(const Plan& plan, const Instance& i) {
  const auto* flat = std::get_if<Flat>(&plan.parts[i.part].form);
  return flat != nullptr && !flat->marks.lines.empty() ? flat : nullptr;
}

std::set<InstanceId> welded_to(const Plan& plan, InstanceId id) {
  std::set<InstanceId> out;
  for (const Joint& joint : plan.joints) {
    if (joint.kind != JointKind::weld) continue;
    if (joint.a == id) out.insert(joint.b);
    if (joint.b == id) out.insert(joint.a);
  }
  return out;
}

/// Bodies where they stand: a point of the world is in one of them or not, by prisms alone.
class Standing {
 public:
  Standing(const Plan& plan, const std::set<InstanceId>& ids) {
    for (const InstanceId id : ids) {
      const Part& part = plan.parts[plan.instances[id].part];
      if (part.source != Source::bought) bodies_.push_back(checks::place(body_of(part), plan.instances[id].pose));
    }
  }
  [[nodiscard]] std::vector<bool> at(Vec3 p) const {
    std::vector<bool> out;
    for (const auto& body : bodies_) out.push_back(checks::occupies(body.outer, p));
    return out;
  }

 private:
  std::vector<checks::PlacedBody> bodies_;
};

Vec3 on_face(const Flat& flat, const Pose& pose, Vec2 p, double up_mm) {
  return pose.point({p.x, p.y, flat.thickness_mm + up_mm});
}

// Just above the face, and above what is relieved beside tabs: to one hand of the line a neighbour stands, to the other
// hand it does not.
bool bounds_a_neighbour(const Flat& flat, const Pose& pose, const FaceLine& line, const Standing& there) {
  const Vec2 way = (1 / norm(line.to - line.from)) * (line.to - line.from);
  const Vec2 beside = 0.2 * Vec2{-way.y, way.x};
  for (const double share : {0.1, 0.3, 0.5, 0.7, 0.9}) {
    const Vec2 p = line.from + share * (line.to - line.from);
    const bool low = there.at(on_face(flat, pose, p + beside, 0.05)) != there.at(on_face(flat, pose, p - beside, 0.05));
    const bool high = there.at(on_face(flat, pose, p + beside, 1.5)) != there.at(on_face(flat, pose, p - beside, 1.5));
    if (!low && !high) return false;
  }
  return true;
}

TEST(FaceMarks, AreWhereNeighboursEndAboveTheFaceThatCarriesThem) {
  for (const Plan& plan : {plate_demo(), framed_demo()}) {
    std::size_t lines = 0;
    for (InstanceId id = 0; id < plan.instances.size(); ++id) {
      const Instance& instance = plan.instances[id];
      const Flat* flat = marked_flat(plan, instance);
      if (flat == nullptr) continue;
      const Standing there(plan, welded_to(plan, id));
      for (const FaceLine& line : flat->marks.lines) {
        ++lines;
        EXPECT_TRUE(bounds_a_neighbour(*flat, instance.pose, line, there))
            << instance.name << " " << line.from.x << "," << line.from.y << " to " << line.to.x << "," << line.to.y;
      }
    }
    EXPECT_GT(lines, 4U);
  }
}

// The back rod plate, 3 thick, is welded between the walls of the demo: its box says where it stands on them.
TEST(FaceMarks, OfARodPlateOnAWallAreItsOwnEdge) {
  const Plan plan = plate_demo();
  const Instance* wall = find_instance(plan, "left wall");
  const Instance* plate = find_instance(plan, "rod plate back");
  ASSERT_TRUE(wall != nullptr && plate != nullptr);
  const Box3 there = box_of(plan, *plate);
  const Flat& flat = std::get<Flat>(plan.parts[wall->part].form);
  double along_edges = 0;
  for (const FaceLine& line : flat.marks.lines) {
    const Vec3 a = on_face(flat, wall->pose, line.from, 0);
    const Vec3 b = on_face(flat, wall->pose, line.to, 0);
    const auto within = [&](Vec3 p) {
      return p.y > there.low.y - 0.01 && p.y < there.high.y + 0.01 && p.z > there.low.z - 0.01 &&
             p.z < there.high.z + 0.01;
    };
    if (!within(a) || !within(b)) continue;
    along_edges += norm(b - a);
    EXPECT_NEAR(a.x, there.low.x, 1 + 1e-6) << "the face that the plate meets, but for the root gap of its weld";
  }
  EXPECT_NEAR(along_edges, 2 * (there.size().y + there.size().z), 0.01);
}

TEST(FaceMarks, CrossNothingThatIsCut) {
  for (const Plan& plan : {plate_demo(), framed_demo()}) {
    for (const Part& part : plan.parts) {
      const auto* flat = std::get_if<Flat>(&part.form);
      if (flat == nullptr) continue;
      const geometry::Region face(flat->profile);
      std::vector<std::pair<Vec2, Vec2>> all;
      for (const FaceLine& line : flat->marks.lines) all.emplace_back(line.from, line.to);
      for (const FaceWord& word : flat->marks.words) {
        const auto strokes = geometry::strokes_of(word.text, word.at, word.height_mm);
        EXPECT_FALSE(strokes.empty()) << word.text;
        all.insert(all.end(), strokes.begin(), strokes.end());
      }
      for (const auto& [from, to] : all) {
        for (int i = 0; i <= 200; ++i) {
          const Vec2 p = from + i / 200.0 * (to - from);
          ASSERT_TRUE(face.contains(p)) << part.mark << " " << p.x << "," << p.y;
          ASSERT_GT(face.distance_to_outline_mm(p), 0.4) << part.mark << " " << p.x << "," << p.y;
        }
      }
    }
  }
}

// Every cut part of sheet says what it is; a wall says which way is up, and that its marked face looks in.
TEST(FaceMarks, SayWhatThePieceIsAndWhichWayItStands) {
  const Plan plan = plate_demo();
  for (const Part& part : plan.parts) {
    const auto* flat = std::get_if<Flat>(&part.form);
    if (flat == nullptr || part.source != Source::cut || part.role == Role::seal) continue;
    const auto& words = flat->marks.words;
    EXPECT_TRUE(
        std::any_of(words.begin(), words.end(), [&](const FaceWord& w) { return w.text.starts_with(part.mark); }))
        << part.mark << " " << part.size;
  }
  for (const char* name : {"left wall", "right wall"}) {
    const Instance* wall = find_instance(plan, name);
    ASSERT_NE(wall, nullptr);
    const Flat& flat = std::get<Flat>(plan.parts[wall->part].form);
    std::set<std::string> said;
    for (const FaceWord& word : flat.marks.words) said.insert(word.text);
    EXPECT_TRUE(said.contains("IN")) << name;
    EXPECT_GT(dot(wall->pose.z(), 0.5 * plan.frame_size - wall->pose.origin()), 0) << "it looks in";
    const char* arrows[] = {"^UP", "!UP", ">UP", "<UP"};
    const Vec3 ways[] = {wall->pose.y(), -1 * wall->pose.y(), wall->pose.x(), -1 * wall->pose.x()};
    int found = 0;
    for (int i = 0; i < 4; ++i) {
      if (!said.contains(arrows[i])) continue;
      ++found;
      EXPECT_NEAR(ways[i].z, 1, 1e-9) << name;
    }
    EXPECT_EQ(found, 1) << name;
    for (const char* welded : {"floor", "top", "rod plate back"}) {
      EXPECT_TRUE(said.contains(plan.parts[find_instance(plan, welded)->part].mark)) << welded;
    }
  }
}

std::multiset<std::array<long, 4>> reflected_or_not(const Flat& flat, bool reflected) {
  const Box2 b = flat.profile.bounds();
  std::multiset<std::array<long, 4>> out;
  for (const FaceLine& line : flat.marks.lines) {
    std::array<std::array<long, 2>, 2> ends{};
    for (int i = 0; i < 2; ++i) {
      const Vec2 p = i == 0 ? line.from : line.to;
      const double x = reflected ? b.high.x - p.x : p.x - b.low.x;
      ends[static_cast<std::size_t>(i)] = {std::lround(x * 1e3), std::lround((p.y - b.low.y) * 1e3)};
    }
    if (ends[1] < ends[0]) std::swap(ends[0], ends[1]);
    out.insert({ends[0][0], ends[0][1], ends[1][0], ends[1][1]});
  }
  return out;
}

const char* const more_at_the_right = "left = 8, right = 60, front = 44, back = 36";

const char* const walls_alike = R"(face.left = { closed_by = "plate" }
face.back = { closed_by = "cover", style = "flat", thickness = 2 }
face.right = { closed_by = "plate" }
)";

// The walls are cut alike; what is marked on their inner faces makes them two hands.
TEST(FaceMarks, OnOneSideMakeHands) {
  const Plan plan = plan_of({{"spec.toml", two_blocks_in_plates(more_at_the_right, walls_alike)}});
  ASSERT_FALSE(plan.instances.empty());
  const Part& left = plan.parts[find_instance(plan, "left wall")->part];
  const Part& right = plan.parts[find_instance(plan, "right wall")->part];
  EXPECT_NE(left.mark, right.mark);
  const Flat& a = std::get<Flat>(left.form);
  const Flat& b = std::get<Flat>(right.form);
  EXPECT_EQ(reflected_or_not(a, false), reflected_or_not(b, true));
  EXPECT_NE(reflected_or_not(a, false), reflected_or_not(b, false));
  Part blank[2] = {left, right};
  for (Part& part : blank) std::get<Flat>(part.form).marks = {};
  EXPECT_EQ(shape_key(blank[0]), shape_key(blank[1]));
  EXPECT_NE(shape_key(left), shape_key(right));
}

using Line3 = std::array<Vec3, 2>;

std::vector<Line3> lines_in_the_world(const Plan& plan, bool reflected) {
  std::vector<Line3> out;
  for (const Instance& i : plan.instances) {
    const Flat* flat = marked_flat(plan, i);
    if (flat == nullptr) continue;
    for (const FaceLine& line : flat->marks.lines) {
      Line3 ends{on_face(*flat, i.pose, line.from, 0), on_face(*flat, i.pose, line.to, 0)};
      for (Vec3& p : ends) p.x = reflected ? plan.frame_size.x - p.x : p.x;
      out.push_back(ends);
    }
  }
  return out;
}

bool holds(const std::vector<Line3>& lines, const Line3& line) {
  const auto same = [](Vec3 a, Vec3 b) { return norm(a - b) < 1e-4; };
  return std::any_of(lines.begin(), lines.end(), [&](const Line3& l) {
    return (same(l[0], line[0]) && same(l[1], line[1])) || (same(l[0], line[1]) && same(l[1], line[0]));
  });
}

TEST(FaceMarks, OfTheOppositeHandAreReflected) {
  const std::string base = two_blocks_in_plates(
      more_at_the_right,
      R"(face.left = { closed_by = "plate", earth = [{ at = [250, 295], thread = "M8", inside = true }] }
face.right = { closed_by = "plate" }
)");
  ASSERT_EQ(plan_text(base).said(), "");
  const Plan is = plan_of({{"spec.toml", base}});
  const Plan other = plan_of(
      {{"spec.toml", "fitup = 1\nstart_from = \"base.toml\"\nopposite_hand = \"left-right\"\n"}, {"base.toml", base}});
  ASSERT_FALSE(is.instances.empty());
  ASSERT_FALSE(other.instances.empty());
  const auto here = lines_in_the_world(is, true);
  const auto there = lines_in_the_world(other, false);
  EXPECT_EQ(here.size(), there.size());
  for (const Line3& line : here) {
    EXPECT_TRUE(holds(there, line)) << line[0].x << "," << line[0].y << "," << line[0].z;
  }
}

}  // namespace
}  // namespace fitup::test
