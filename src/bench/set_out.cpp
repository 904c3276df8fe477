// Where parts that are welded stand.
// Entry: box_of_instance, set_out_in_frames, set_out_together, set_out_table.

#include "bench/set_out.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace fitup::bench {
namespace {

constexpr double slight = 0.05;  // of a unit direction: less than 3 degrees

/// "back", "up", of a slanting one "right up".
std::string words_of(Vec3 way) {
  std::string words;
  const auto add = [&](double along, const char* more, const char* less) {
    if (std::abs(along) > slight) words += (words.empty() ? "" : " ") + std::string(along > 0 ? more : less);
  };
  add(way.x, "right", "left");
  add(way.y, "back", "front");
  add(way.z, "up", "down");
  return words;
}

std::string lies(const Section& section, const Pose& pose) {
  const std::string start = ", start " + words_of(-1.0 * pose.z());
  const Vec3 x = pose.x();
  const Vec3 y = pose.y();
  switch (section.shape) {
    case SectionShape::angle: return fmt::format("leg A {}, B {}{}", words_of(x), words_of(y), start);
    case SectionShape::tube: return fmt::format("side A {}, B {}{}", words_of(-1.0 * y), words_of(-1.0 * x), start);
    case SectionShape::flat: return fmt::format("face {}{}", words_of(-1.0 * y), start);
  }
  return start;
}

std::string lies(const Part& part, const Pose& pose) {
  if (const auto* member = std::get_if<Member>(&part.form)) return lies(member->section, pose);
  if (std::holds_alternative<Flat>(part.form)) {
    return fmt::format("face {}, right edge {}", words_of(pose.z()), words_of(pose.x()));
  }
  return "axis " + words_of(pose.z());
}

// Of a hexagon whose corners lie on its own X.
double flats_of_nut_mm(const Part& part) {
  if (part.role != Role::nut) return 0;
  return std::get<Solidform>(part.form).prisms.front().profile.bounds().size().y;
}

StandsAt stands(const Plan& plan, InstanceId id, Vec3 datum) {
  const Instance& instance = plan.instances[id];
  const Box3 box = box_of_instance(plan, id);
  const Part& part = plan.parts[instance.part];
  return {id, {box.low - datum, box.high - datum}, lies(part, instance.pose), flats_of_nut_mm(part)};
}

const PlacedFrame* frame_of(const Plan& plan, const Instance& instance) {
  for (const PlacedFrame& frame : plan.frames) {
    const std::string of_box = "box." + frame.box;
    if (instance.key == of_box || instance.key.starts_with(of_box + ".")) return &frame;
  }
  return plan.frames.empty() ? nullptr : &plan.frames.front();
}

std::string range(double from_mm, double to_mm, const output::PaperUnits& units) {
  return units.drawn(from_mm) + " to " + units.drawn(to_mm);
}

// Across its axis a nut is set by its middle, which is the hole's: its corners lie anyhow. Along it, and of all else,
// from edge to edge.
Row row_of(const Plan& plan, const StandsAt& one, const output::PaperUnits& units) {
  const Instance& instance = plan.instances[one.part];
  const Vec3 axis = instance.pose.z();
  const auto place = [&](double from_mm, double to_mm, double along_axis) {
    const bool middle = one.nut_flats_mm > 0 && std::abs(along_axis) < slight;
    return middle ? "middle " + units.drawn((from_mm + to_mm) / 2) : range(from_mm, to_mm, units);
  };
  const Box3& box = one.from_datum;
  const std::string flats =
      one.nut_flats_mm > 0 ? fmt::format(", {} across flats", units.drawn(one.nut_flats_mm)) : std::string();
  return {{plan.parts[instance.part].mark + " " + instance.name, place(box.low.x, box.high.x, axis.x),
           place(box.low.y, box.high.y, axis.y), place(box.low.z, box.high.z, axis.z), one.lies + flats}};
}

}  // namespace

Box3 box_of_instance(const Plan& plan, InstanceId id) {
  const Instance& instance = plan.instances[id];
  Box3 box;
  for (const Prism& prism : body_of(plan.parts[instance.part]).outer) {
    box.add(Prism{prism.profile, instance.pose * prism.pose, prism.length_mm}.bounds());
  }
  return box;
}

std::vector<SetOut> set_out_in_frames(const Plan& plan, const std::vector<InstanceId>& ids) {
  std::vector<SetOut> all;
  for (const PlacedFrame& frame : plan.frames) {
    SetOut one;
    one.datum = plan.frames.size() > 1 ? "the frame of " + frame.box : "the frame";
    for (const InstanceId id : ids) {
      if (frame_of(plan, plan.instances[id]) == &frame) one.parts.push_back(stands(plan, id, frame.space.low));
    }
    if (!one.parts.empty()) all.push_back(std::move(one));
  }
  return all;
}

SetOut set_out_together(const Plan& plan, const std::vector<InstanceId>& ids) {
  Box3 whole;
  for (const InstanceId id : ids) whole.add(box_of_instance(plan, id));
  SetOut out{"what they are together", {}};
  for (const InstanceId id : ids) out.parts.push_back(stands(plan, id, whole.low));
  return out;
}

Table set_out_table(const Plan& plan, const SetOut& what, const output::PaperUnits& units) {
  const std::string unit(units.length());
  Table table{{{"set out"}, {"from the left " + unit}, {"from the front"}, {"from below"}, {"it lies"}}, {}};
  for (const StandsAt& one : what.parts) table.rows.push_back(row_of(plan, one, units));
  return table;
}

}  // namespace fitup::bench
