#pragma once
// A small plan made by hand: a plate, a coped angle, a nut, a screw; six instances in two groups.

#include "fitup/model.h"

namespace fitup::sample {

inline Part plate() {
  Part part;
  part.mark = "PLT01";
  part.name =
      "Bl\xC3\xA4tt mit L\xC3\xB6"
      "chern";
  part.role = Role::face_plate;
  part.material = "S235JR";
  part.size = "3 x 120 x 80";
  Profile profile{Loop::rounded_rectangle({0, 0}, {120, 80}, 10), {}};
  for (int i = 0; i < 4; ++i) profile.holes.push_back(Loop::circle({24.0 + 24 * i, 30}, 3.5));
  part.form = Flat{profile, 3, {{{60, 60}, 3.3, "tap M4"}}};
  return part;
}

inline Part member() {
  Part part;
  part.mark = "ANG01";
  part.name = "coped member";
  part.role = Role::ring_member;
  part.material = "S235JR";
  const Section section{SectionShape::angle, "L 40x40x4", 40, 40, 4, 6, 3, 0, 0, "made up"};
  const LegCut square{{{0, 40, 0}}, {}};
  const LegCut coped{{{0, 11, 0}, {11, 40, 5}}, {{11, CornerKind::chamfer, 4}}};
  part.form = Member{
      section, 300, {coped, square}, {square, {{{0, 40, 41}}, {}}}, {{Leg::a, 100, 22, 7, HoleKind::clear, "M6"}}};
  return part;
}

inline Part nut() {
  Part part;
  part.mark = "NUT01";
  part.name = "nut M6 'ISO 4032'";
  part.role = Role::nut;
  part.form = Solidform{{{{Loop::hexagon({0, 0}, 10), {Loop::circle({0, 0}, 3)}}, Pose(), 5.2}}};
  return part;
}

inline Part screw() {
  Part part;
  part.mark = "SCR01";
  part.name = "screw M4 x 8 \\ \xF0\x9F\x94\xA9";
  part.role = Role::screw;
  part.form = Solidform{
      {{{Loop::circle({0, 0}, 3.8), {}}, Pose(), 2.2}, {{Loop::circle({0, 0}, 2), {}}, Pose::at({0, 0, -8}), 8}}};
  return part;
}

inline Instance instance(PartId part, Pose pose, std::string name, std::string group) {
  Instance one;
  one.part = part;
  one.pose = pose;
  one.name = std::move(name);
  one.group = std::move(group);
  return one;
}

inline Plan plan() {
  Plan plan;
  plan.name = "sample";
  plan.parts = {plate(), member(), nut(), screw()};
  plan.instances = {
      instance(0, Pose(), "plate", "frame"),
      instance(1, Pose::at({0, 10, 200}, axis::y, axis::z), "member left", "frame"),
      instance(1, Pose::at({500, 10, 200}, axis::minus_z, axis::y), "member right", "frame"),
      instance(2, Pose::at({24, 30, 3}), "nut 1", "hardware"),
      instance(2, Pose::at({48, 30, -20}, axis::minus_x, axis::y), "nut 2", "hardware"),
      instance(3, Pose::at({60, 60, 3}), "screw \xC3\xA9 1", "hardware"),
  };
  return plan;
}

inline StepJob job() { return {"sample", "Sample, revision A \xE2\x80\x93 0123abcd", "1980-01-01T00:00:00"}; }

}  // namespace fitup::sample
