// Chooses from where a finding is looked at, and what of it is drawn.
// Entry: scene_of.
#include "output/finding_scene.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "checks/rules.h"

namespace fitup::output {
namespace {

using checks::component;
using geometry::Interval;

constexpr double same_mm = 0.02;  // an extent that is the amount that was measured
constexpr double least_near_mm = 9;
constexpr double most_near_mm = 60;
constexpr double unmeasured_near_mm = 30;
constexpr double least_around_mm = 70;

Vec3 unit(int axis) { return axis == 0 ? axis::x : axis == 1 ? axis::y : axis::z; }
Interval span_of(const Box3& box, int axis) { return {component(box.low, axis), component(box.high, axis)}; }
Box3 moved(const Box3& box, Vec3 by) { return {box.low + by, box.high + by}; }

/// What two spans share, or the gap between them.
Interval between(Interval a, Interval b) {
  const double low = std::max(a.low, b.low);
  const double high = std::min(a.high, b.high);
  return {std::min(low, high), std::max(low, high)};
}

bool is_about_a_whole(const std::string& check) {
  return check == "stack" || check == "rails" || check == "lift" || check == "finish" || check == "held" ||
         check == "as-built";
}

class Chooser {
 public:
  Chooser(const Finding& finding, const PlacedPlan& placed, std::vector<InstanceId> named)
      : finding_(finding), placed_(placed), named_(std::move(named)) {}

  FindingScene scene() {
    s_.a = named_[0];
    if (named_.size() > 1) s_.b = named_[1];
    for (std::size_t i = 2; i < named_.size(); ++i) s_.others.push_back(named_[i]);
    if (finding_.check == "hole-fit" && at_a_hole()) return s_;
    place();
    if (finding_.check == "insertion") on_its_way();
    if (is_about_a_whole(finding_.check) || !s_.b) {
      whole();
    } else {
      pair();
    }
    return s_;
  }

 private:
  [[nodiscard]] Box3 box_a() const { return moved(placed_.box(s_.a), s_.a_moved); }

  [[nodiscard]] Box3 all() const {
    Box3 box = box_a();
    for (const InstanceId id : named_) box.add(placed_.box(id));
    return box;
  }

  void place() {
    const Box3 both = s_.b ? checks::common(box_a(), placed_.box(*s_.b)) : box_a();
    s_.at = finding_.at ? *finding_.at : 0.5 * (both.low + both.high);
  }

  /// A hole of the pattern and what must find it: seen along their axis.
  bool at_a_hole() {
    for (const Pattern& pattern : placed_.plan().patterns) {
      for (const PatternBody& body : pattern.bodies) {
        for (const PatternHole& hole : body.holes) {
          const bool named = std::find(named_.begin(), named_.end(), body.thing) != named_.end();
          if (!named || hole.plate != named_[0] || hole.fastener == hole.plate) continue;
          show_hole(pattern, hole);
          return true;
        }
      }
    }
    return false;
  }

  void show_hole(const Pattern& pattern, const PatternHole& hole) {
    s_.b = hole.fastener;
    s_.others.clear();
    const Vec3 along = hole.along;
    s_.look.axis = std::abs(along.x) > 0.5 ? 0 : std::abs(along.y) > 0.5 ? 1 : 2;
    const Interval plate = span_of(placed_.box(hole.plate), s_.look.axis);
    s_.at = hole.at + ((plate.low + plate.high) / 2 - s_.look.along(hole.at)) * unit(s_.look.axis);
    s_.near_mm = std::max(least_near_mm, 1.2 * hole.hole_mm);
    s_.hole_mm = hole.hole_mm;
    s_.fastener_mm = hole.fastener_mm;
    Box2 all_holes = s_.look.on_paper(placed_.box(hole.plate));
    for (const PatternBody& body : pattern.bodies) {
      for (const PatternHole& h : body.holes) all_holes.add(s_.look.on_paper(h.at));
    }
    s_.around = all_holes;
  }

  /// Where it is stopped: moved back along the way that has its leading end at the place.
  void on_its_way() {
    if (!finding_.at) return;
    for (const Step& step : placed_.plan().steps) {
      if (std::find(step.adds.begin(), step.adds.end(), s_.a) == step.adds.end()) continue;
      for (const Vec3 way : step.ways) {
        const int axis = std::abs(way.x) > 0.5 ? 0 : std::abs(way.y) > 0.5 ? 1 : 2;
        const double sign = component(way, axis);
        const Interval own = span_of(placed_.box(s_.a), axis);
        const double back = sign * ((sign > 0 ? own.high : own.low) - component(*finding_.at, axis));
        if (back < -same_mm) continue;
        s_.a_moved = -back * way;
        s_.way = way;
        return;
      }
    }
  }

  void whole() {
    const Box3 box = all();
    const Vec3 size = box.size();
    s_.look.axis = finding_.check == "stack" ? 1 : size.x <= size.y && size.x <= size.z ? 0 : size.y <= size.z ? 1 : 2;
    s_.across = s_.look.axis == 0 ? 1 : 0;
    s_.around = s_.look.on_paper(box);
    if (!finding_.at) s_.at = box.middle();
    s_.near_mm = most_near_mm;
  }

  void pair() {
    const Box3 b = placed_.box(*s_.b);
    std::array<Interval, 3> met;
    for (int i = 0; i < 3; ++i) met[static_cast<std::size_t>(i)] = between(span_of(box_a(), i), span_of(b, i));
    if (s_.a_moved == Vec3{}) by_prisms(met);
    choose_across(met);
    int longest = -1;
    for (int i = 0; i < 3; ++i) {
      if (i == s_.across) continue;
      if (longest < 0 || met[static_cast<std::size_t>(i)].length() > met[static_cast<std::size_t>(longest)].length())
        longest = i;
    }
    s_.look.axis = s_.way && std::abs(dot(*s_.way, unit(longest))) > 0.5 ? 3 - s_.across - longest : longest;
    const double amount = finding_.value && finding_.unit == "mm" ? std::abs(*finding_.value) : 0;
    s_.near_mm = s_.amount ? std::clamp(12 * amount, least_near_mm, most_near_mm) : unmeasured_near_mm;
    Box2 wide;
    const Vec2 centre = s_.look.on_paper(s_.at);
    const double half = std::max(least_around_mm, 3 * s_.near_mm);
    wide.add(centre - Vec2{half, half});
    wide.add(centre + Vec2{half, half});
    s_.around = wide;
  }

  /// Bodies of several prisms meet in less than their boxes do.
  void by_prisms(std::array<Interval, 3>& met) const {
    const Box3 box = checks::common_box(placed_.body(s_.a), placed_.body(*s_.b));
    if (box.empty()) return;
    for (int i = 0; i < 3; ++i) {
      const Interval span = span_of(box, i);
      if (span.high >= span.low) met[static_cast<std::size_t>(i)] = span;
    }
  }

  /// What may be the amount along an axis: what they share or leave, and how far either is to go to be past the other.
  [[nodiscard]] std::array<Interval, 3> candidates(const Interval& met, int axis) const {
    const Interval a = span_of(box_a(), axis);
    const Interval b = span_of(placed_.box(*s_.b), axis);
    return {met, Interval{std::min(a.low, b.high), b.high}, Interval{b.low, std::max(a.high, b.low)}};
  }

  /// The axis along which the amount was measured: as long as it, else along which they meet or part the least.
  void choose_across(const std::array<Interval, 3>& met) {
    const double value = finding_.value && finding_.unit == "mm" ? std::abs(*finding_.value) : 0;
    double least = 1e300;
    for (int i = 0; i < 3; ++i) {
      if (s_.way && std::abs(dot(*s_.way, unit(i))) > 0.5) continue;
      const Interval shared = met[static_cast<std::size_t>(i)];
      for (const Interval& span : candidates(shared, i)) {
        if (s_.amount || value <= 0 || std::abs(span.length() - value) > same_mm) continue;
        s_.across = i;
        s_.amount = span;
      }
      if (s_.amount || shared.length() >= least) continue;
      least = shared.length();
      s_.across = i;
    }
  }

  const Finding& finding_;
  const PlacedPlan& placed_;
  std::vector<InstanceId> named_;
  FindingScene s_;
};

}  // namespace

PlacedPlan::PlacedPlan(const Plan& plan) : plan_(plan) {
  std::vector<Body> bodies;
  bodies.reserve(plan.parts.size());
  for (const Part& part : plan.parts) bodies.push_back(body_of(part));
  bodies_.reserve(plan.instances.size());
  for (const Instance& i : plan.instances) bodies_.push_back(checks::place(bodies[i.part], i.pose));
}

std::string PlacedPlan::label(InstanceId id) const {
  const std::string& mark = plan_.parts[plan_.instances[id].part].mark;
  return mark.empty() ? plan_.instances[id].name : mark + " " + plan_.instances[id].name;
}

std::vector<InstanceId> PlacedPlan::named_by(const Finding& finding) const {
  std::map<std::string, InstanceId> by_label;
  for (InstanceId id = 0; id < plan_.instances.size(); ++id) by_label.emplace(label(id), id);
  std::vector<InstanceId> named;
  for (const std::string& part : finding.parts) {
    if (const auto known = by_label.find(part); known != by_label.end()) named.push_back(known->second);
  }
  return named;
}

std::optional<FindingScene> scene_of(const Finding& finding, const PlacedPlan& placed) {
  std::vector<InstanceId> named = placed.named_by(finding);
  if (named.empty()) return std::nullopt;
  return Chooser(finding, placed, std::move(named)).scene();
}

}  // namespace fitup::output
