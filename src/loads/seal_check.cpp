// The bow of covers between their screws against what their seals are squeezed by.
// Entry: check_seals.
#include "loads/seal_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <variant>

#include "loads/lift.h"
#include "loads/strength.h"

namespace fitup::loads {

namespace {

// Four fifths of the pressure stay between the screws (published for conductive seals; a rule of makers).
constexpr double may_give = 0.2;

const Part& part_of(const Plan& plan, InstanceId id) { return plan.parts[plan.instances[id].part]; }

/// The widest stretch between two screws of an edge, and the longest from one to a corner.
struct Stretches {
  double span_mm = 0;
  double corner_mm = 0;
};

class SealedCover {
 public:
  SealedCover(const Plan& plan, InstanceId seal, InstanceId sheet) : plan_(plan), seal_(seal), sheet_(sheet) {
    const auto& flat = std::get<Flat>(part_of(plan, seal).form);
    free_ = flat.free_mm;
    squeezed_ = flat.thickness_mm;
    const Box2 outer = flat.profile.bounds();
    if (!flat.profile.holes.empty()) width_ = (outer.size().x - flat.profile.holes.front().bounds().size().x) / 2;
    area_ = std::get<Flat>(part_of(plan, sheet).form).profile.bounds();
    strip_ = strip_width(outer);
  }

  [[nodiscard]] bool known() const { return width_ > 0 && free_ > squeezed_ && !screws().empty(); }

  [[nodiscard]] Finding finding() const {
    const auto& rules = plan_.load_rules;
    const double squeeze = (free_ - squeezed_) / free_;
    const double kpa = rules.seal_pressure_kpa.value_or(usual_seal_pressure_kpa(squeeze));
    const double q = kpa / 1000 * width_;
    const double t = std::get<Flat>(part_of(plan_, sheet_).form).thickness_mm;
    const auto strength = strength_of(part_of(plan_, sheet_).material, t);
    const double e = strength && strength->is_aluminium() ? 70000 : 210000;
    const Stretches s = stretches();
    const double between = bow_mm(q, s.span_mm, strip_, t, e);
    const double at_corner = corner_bow_mm(q, s.corner_mm, strip_, t, e);
    Finding f;
    f.check = "seals";
    f.value = std::max(between, at_corner);
    f.limit = may_give * (free_ - squeezed_);
    f.unit = "mm";
    f.source = fmt::format("a fifth of the squeeze, so that four fifths of the pressure stay (makers of seals); {}",
                           rules.seal_pressure_kpa ? "pressure as loads.seal_pressure says"
                                                   : "pressure of medium cellular rubber, ASTM D1056 (from memory)");
    f.verdict = *f.value > *f.limit ? Verdict::fail : Verdict::pass;
    f.parts = {label_of(plan_, sheet_), label_of(plan_, seal_)};
    f.at = plan_.instances[sheet_].pose.point({area_.middle().x, area_.middle().y, 0});
    f.key = plan_.instances[sheet_].key;
    f.place = plan_.instances[sheet_].place;
    f.message = fmt::format(
        "the seal of {} is {:.0f} mm wide and squeezed from {:.3g} mm to {:.3g} mm; it presses back with {:.0f} kPa, "
        "{:.0f} N over the {:.0f} mm between two screws. Its edge, as a strip of {:.0f} mm, {:.3g} mm thick, bows up "
        "{:.3f} mm there and {:.3f} mm at a corner {:.0f} mm beyond one; {:.2f} mm leave four fifths of the pressure",
        plan_.instances[sheet_].name, width_, free_, squeezed_, kpa, q * s.span_mm, s.span_mm, strip_, t, between,
        at_corner, s.corner_mm, *f.limit);
    if (f.verdict == Verdict::fail)
      f.message += "; screws nearer to each other (screws.max_spacing) or a thicker sheet mend it";
    return f;
  }

 private:
  /// From the sheet's edge to where the seal ends, on its longer side.
  [[nodiscard]] double strip_width(const Box2& seal) const {
    const Pose to_sheet = plan_.instances[sheet_].pose.inverse() * plan_.instances[seal_].pose;
    const Vec3 low = to_sheet.point({seal.low.x, seal.low.y, 0});
    return std::abs(std::min(low.x, to_sheet.point({seal.high.x, seal.high.y, 0}).x) - area_.low.x) + width_;
  }

  [[nodiscard]] std::vector<Vec2> screws() const {
    std::vector<Vec2> at;
    for (const Fastener& f : plan_.fasteners) {
      if (std::find(f.stack.begin(), f.stack.end(), sheet_) == f.stack.end()) continue;
      const Vec3 local = plan_.instances[sheet_].pose.local(plan_.instances[f.screw].pose.origin());
      at.push_back({local.x, local.y});
    }
    return at;
  }

  /// Each screw belongs to the edge that it is nearest to.
  [[nodiscard]] Stretches stretches() const {
    std::array<std::vector<double>, 4> edges;
    for (const Vec2 p : screws()) {
      const std::array<double, 4> off{p.x - area_.low.x, area_.high.x - p.x, p.y - area_.low.y, area_.high.y - p.y};
      const double nearest = *std::min_element(off.begin(), off.end());
      constexpr double as_near_mm = 5;  // a screw in the corner is of both
      for (std::size_t e = 0; e < 4; ++e) {
        if (off[e] < nearest + as_near_mm) edges[e].push_back(e < 2 ? p.y : p.x);
      }
    }
    Stretches s;
    for (std::size_t e = 0; e < 4; ++e) {
      std::vector<double>& along = edges[e];
      if (along.empty()) continue;
      std::sort(along.begin(), along.end());
      const double low = e < 2 ? area_.low.y : area_.low.x;
      const double high = e < 2 ? area_.high.y : area_.high.x;
      for (std::size_t i = 1; i < along.size(); ++i) s.span_mm = std::max(s.span_mm, along[i] - along[i - 1]);
      s.corner_mm = std::max({s.corner_mm, along.front() - low, high - along.back()});
    }
    return s;
  }

  const Plan& plan_;
  InstanceId seal_;
  InstanceId sheet_;
  double free_ = 0;
  double squeezed_ = 0;
  double width_ = 0;
  double strip_ = 0;
  Box2 area_;
};

}  // namespace

double bow_mm(double q, double span, double width, double t, double e) {
  return q * std::pow(span, 4) / (384 * e * width * t * t * t / 12);
}

double corner_bow_mm(double q, double overhang, double width, double t, double e) {
  return q * std::pow(overhang, 4) / (8 * e * width * t * t * t / 12);
}

double usual_seal_pressure_kpa(double squeeze) { return 63 * squeeze / 0.25; }

std::vector<Finding> check_seals(const Plan& plan) {
  std::vector<Finding> all;
  for (InstanceId i = 0; i < plan.instances.size(); ++i) {
    if (part_of(plan, i).role != Role::seal) continue;
    for (InstanceId sheet = 0; sheet < plan.instances.size(); ++sheet) {
      if (part_of(plan, sheet).role != Role::cover_sheet || plan.instances[sheet].group != plan.instances[i].group)
        continue;
      const SealedCover cover(plan, i, sheet);
      if (cover.known()) all.push_back(cover.finding());
    }
  }
  return all;
}

}  // namespace fitup::loads
