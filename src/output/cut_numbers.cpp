// Further numbers of the cut list.
// Entry: short_point_mm, hand_words, nuts_on_rods, with_spares.

#include "output/cut_numbers.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace fitup::output {
namespace {

constexpr double same_line_mm = 0.01;

double leg_mm(const Section& section, Leg leg) { return leg == Leg::a ? section.leg_a_mm : section.leg_b_mm; }

/// The same member seen in a mirror that stands across it: its ends change places.
Part mirrored(const Part& part, const Member& member) {
  Part image = part;
  Member turned = member;
  std::swap(turned.start, turned.end);
  for (MemberHole& hole : turned.holes) hole.along_mm = member.length_mm - hole.along_mm;
  for (MemberNotch& n : turned.notches) {
    n = {n.leg, member.length_mm - n.to_mm, member.length_mm - n.from_mm, n.depth_mm};
  }
  image.form = turned;
  return image;
}

/// From one end of the rod and from the other, ascending.
struct Seats {
  std::vector<double> one_mm;
  std::vector<double> other_mm;
  void sort() {
    std::sort(one_mm.begin(), one_mm.end());
    std::sort(other_mm.begin(), other_mm.end());
    // A rod turned end for end is the same rod.
    if (other_mm < one_mm) std::swap(one_mm, other_mm);
  }
};

const Prism* prism_of(const Part& part) {
  const auto* form = std::get_if<Solidform>(&part.form);
  return form != nullptr && !form->prisms.empty() ? &form->prisms.front() : nullptr;
}

void add_nut(Seats& seats, const Plan& plan, const Instance& nut, const Pose& rod, double rod_mm) {
  const Prism* prism = prism_of(plan.parts.at(nut.part));
  if (prism == nullptr) return;
  const Pose pose = nut.pose * prism->pose;
  const Vec2 middle = prism->profile.bounds().middle();
  const Vec3 a = rod.local(pose.point({middle.x, middle.y, 0}));
  const Vec3 b = rod.local(pose.point({middle.x, middle.y, prism->length_mm}));
  if (std::hypot(a.x, a.y) > same_line_mm || std::hypot(b.x, b.y) > same_line_mm) return;
  const double from = std::min(a.z, b.z);
  const double to = std::max(a.z, b.z);
  if (from < -same_line_mm || to > rod_mm + same_line_mm) return;
  if (from + to <= rod_mm) {
    seats.one_mm.push_back(from);
  } else {
    seats.other_mm.push_back(rod_mm - to);
  }
}

std::string seat_words(const std::vector<double>& seats_mm, std::string_view end, const PaperUnits& units) {
  std::vector<std::string> numbers;
  for (const double seat_mm : seats_mm) numbers.push_back(units.length(seat_mm));
  const std::size_t count = numbers.size();
  return fmt::format("{} nut{} {} from {}", count, count == 1 ? "" : "s", fmt::join(numbers, " and "), end);
}

std::string words_for(const Seats& seats, const PaperUnits& units) {
  if (seats.one_mm.empty() && seats.other_mm.empty()) return "no nuts";
  const auto printed = [&](const std::vector<double>& all) { return seat_words(all, "", units); };
  if (printed(seats.one_mm) == printed(seats.other_mm)) return seat_words(seats.one_mm, "each end", units);
  if (seats.one_mm.empty()) return seat_words(seats.other_mm, "one end", units);
  return seat_words(seats.one_mm, "one end", units) + ", " + seat_words(seats.other_mm, "the other", units);
}

}  // namespace

double short_point_mm(const Member& member) {
  double shortest = member.length_mm;
  for (const Leg leg : {Leg::a, Leg::b}) {
    double along = member.length_mm;
    for (const EndCut* cut : {&member.start, &member.end}) {
      if (cut->mitre == leg) along -= leg_mm(member.section, leg);
    }
    shortest = std::min(shortest, along);
  }
  return shortest;
}

std::string hand_words(const Plan& plan, PartId id) {
  const Part& part = plan.parts.at(id);
  const auto* member = std::get_if<Member>(&part.form);
  if (member == nullptr) return "either";
  const std::string image = shape_key(mirrored(part, *member));
  if (image == shape_key(part)) return "either";
  for (const Part& other : plan.parts) {
    if (std::holds_alternative<Member>(other.form) && shape_key(other) == image) return "opposite of " + other.mark;
  }
  return "one";
}

std::vector<RodNuts> nuts_on_rods(const Plan& plan, PartId rod, const PaperUnits& units) {
  std::map<std::string, std::size_t> counts;
  const Prism* prism = prism_of(plan.parts.at(rod));
  if (prism == nullptr) return {};
  const Vec2 middle = prism->profile.bounds().middle();
  for (const Instance& instance : plan.instances) {
    if (instance.part != rod) continue;
    const Pose axis = instance.pose * prism->pose * Pose::at({middle.x, middle.y, 0});
    Seats seats;
    for (const Instance& nut : plan.instances) {
      if (plan.parts.at(nut.part).role == Role::nut) add_nut(seats, plan, nut, axis, prism->length_mm);
    }
    seats.sort();
    ++counts[words_for(seats, units)];
  }
  std::vector<RodNuts> all;
  for (const auto& [words, count] : counts) all.push_back({count, words});
  return all;
}

std::size_t with_spares(const Part& part, std::size_t count, double percent) {
  const bool small =
      part.role == Role::nut || part.role == Role::washer || part.role == Role::screw || part.role == Role::insert;
  if (!small) return count;
  const double exact = static_cast<double>(count) * percent / 100;
  return count + static_cast<std::size_t>(std::ceil(exact - 1e-9));
}

}  // namespace fitup::output
