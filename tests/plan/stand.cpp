// Members placed by their bounding boxes, and plain distances to them.
// Entry: standing, yield.
#include "plan/stand.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace fitup::test {

const Section& section(const std::string& designation) {
  const Section* found = tables::find_section(designation);
  if (found == nullptr) throw std::runtime_error("no section " + designation);
  return *found;
}

plan::Obstacle standing(const std::string& name, const Section& section, Vec3 run, int quarter, Vec3 low,
                        double length_mm) {
  Vec3 x = std::abs(run.x) > 0.5 ? axis::y : axis::x;
  for (int i = 0; i < quarter; ++i) x = cross(run, x);
  plan::Obstacle bar{section, Pose::at({}, x, cross(run, x)), length_mm, name};
  bar.pose = bar.pose.moved(low - bounds(bar).low);
  return bar;
}

Box3 bounds(const plan::Obstacle& bar) {
  const Section& s = bar.section;
  Box3 box;
  box.add(bar.pose.origin());
  box.add(bar.pose.point({s.leg_a_mm, s.shape == SectionShape::angle ? s.leg_b_mm : s.thickness_mm, bar.length_mm}));
  return box;
}

Yielded yield(const plan::Obstacle& bar, const std::vector<plan::Obstacle>& earlier, double gap_mm, CornerKind corner) {
  const EndCut square = plan::square_cut(bar.section);
  Yielded out{{bar.section, bar.length_mm, square, square, {}}, bar.pose, {}};
  out.result = plan::derive_end_cuts(out.member, out.pose, earlier, {gap_mm, corner});
  return out;
}

Part part_of(Member member) {
  Part part;
  part.mark = "ANG01";
  part.name = "member";
  part.form = std::move(member);
  return part;
}

double set_back(const LegCut& cut, double across_mm) {
  for (const CutStep& s : cut.steps) {
    if (across_mm >= s.from_mm && across_mm <= s.to_mm) return s.set_back_mm;
  }
  return -1;
}

std::string to_words(const LegCut& cut) {
  std::string out;
  for (const CutStep& s : cut.steps) out += fmt::format("{:g}-{:g}:{:g} ", s.from_mm, s.to_mm, s.set_back_mm);
  for (const CutCorner& c : cut.corners) {
    out += fmt::format("@{:g} {}{:g} ", c.at_mm, c.kind == CornerKind::radius ? "r" : "c", c.size_mm);
  }
  if (!out.empty()) out.pop_back();
  return out;
}

Nearest::Nearest(const std::vector<plan::Obstacle>& bars) {
  for (const plan::Obstacle& bar : bars) bars_.emplace_back(bar, geometry::Region(profile_of(bar.section)));
}

double Nearest::distance_mm(Vec3 place) const {
  double least = 1e300;
  for (const auto& [bar, region] : bars_) {
    const Vec3 p = bar.pose.local(place);
    const Vec2 q{p.x, p.y};
    const double along = std::max({0.0, -p.z, p.z - bar.length_mm});
    const double in_plane = region.contains(q) ? 0 : region.distance_to_outline_mm(q);
    least = std::min(least, std::hypot(in_plane, along));
  }
  return least;
}

bool grown_contains(const plan::Obstacle& bar, double gap, Vec3 place) {
  const Section& s = bar.section;
  const Vec3 p = bar.pose.local(place);
  const auto in = [](double v, double low, double high) { return v > low && v < high; };
  if (!in(p.z, -gap, bar.length_mm + gap)) return false;
  const double t = s.thickness_mm + gap;
  if (in(p.x, -gap, s.leg_a_mm + gap) && in(p.y, -gap, t)) return true;
  if (s.shape == SectionShape::flat) return false;
  if (in(p.x, -gap, t) && in(p.y, -gap, s.leg_b_mm + gap)) return true;
  const double centre = s.thickness_mm + s.root_radius_mm;
  return s.root_radius_mm > gap && p.x < centre && p.y < centre && p.x > 0 && p.y > 0 &&
         std::hypot(p.x - centre, p.y - centre) > s.root_radius_mm - gap;
}

}  // namespace fitup::test
