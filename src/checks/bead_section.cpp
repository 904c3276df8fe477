// Fillet, cap or nothing, from points beside the edge that are in one body, in the other or in none.
// Entry: bead_section.
#include "checks/bead_section.h"

#include <algorithm>
#include <cmath>

#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

// No part has a feature that is narrower.
constexpr double step_mm = 0.5;

// How far a condition holds, from 0 to at most `most_mm`.
template <class Holds>
double reach_mm(double most_mm, Holds&& holds) {
  const int steps = std::max(8, static_cast<int>(std::ceil(most_mm / step_mm)));
  double low = 0;
  double high = most_mm;
  for (int i = 1; i <= steps; ++i) {
    high = most_mm * i / steps;
    if (!holds(high - (i == steps ? probe_mm : 0))) break;
    if (i == steps) return most_mm;
    low = high;
  }
  while (high - low > tolerance::contact_mm / 4) {
    const double middle = (low + high) / 2;
    (holds(middle) ? low : high) = middle;
  }
  // Faces stand on round figures more often than not; less than the band is no difference.
  const double round = std::round(low * 1000) / 1000;
  return std::abs(round - low) < tolerance::contact_mm ? round : low;
}

class Sections {
 public:
  Sections(const Facing& facing, const ContactEdge& piece, double wanted_mm)
      : facing_(facing), middle_(0.5 * (piece.from + piece.to)), out_(piece.out), wanted_mm_(wanted_mm) {
    deep_mm_ = reach_mm(wanted_mm_, [&](double in) { return both_are_behind(beside(-std::max(in, probe_mm))); });
  }

  [[nodiscard]] std::optional<BeadSection> find() const {
    const Vec2 beyond = beside(probe_mm);
    const double gap = facing_.gap_mm();
    const bool low_goes_on = facing_.in_low(beyond, -probe_mm);
    const bool high_goes_on = facing_.in_high(beyond, probe_mm);
    if (low_goes_on && high_goes_on) return std::nullopt;
    if (low_goes_on) return facing_.is_free(beyond, gap + probe_mm) ? fillet(true) : std::nullopt;
    if (high_goes_on) return facing_.is_free(beyond, -probe_mm) ? fillet(false) : std::nullopt;
    return cap();
  }

 private:
  [[nodiscard]] Vec2 beside(double out_mm) const { return middle_ + out_mm * out_; }

  // Up from the face that a fillet lies on, into the part that it climbs.
  [[nodiscard]] double height(bool climbs_high, double up_mm) const {
    return climbs_high ? up_mm : facing_.gap_mm() - up_mm;
  }

  // Where a round toe falls back from the contact, the weld fills what it leaves.
  [[nodiscard]] bool both_are_behind(Vec2 p) const {
    const auto any = [&](auto&& in) { return in(probe_mm) || in(wanted_mm_ / 2) || in(wanted_mm_); };
    return any([&](double deep) { return facing_.in_low(p, -deep); }) &&
           any([&](double deep) { return facing_.in_high(p, deep); });
  }

  // Behind the face, or deeper by as much as the contact is: a rounded edge falls back from its face, and a bead fills
  // what it leaves.
  template <class In>
  [[nodiscard]] bool behind(In&& in) const {
    const double deepest = std::max(probe_mm, deep_mm_ - probe_mm);
    return in(probe_mm) || in(deepest / 2) || in(deepest);
  }

  [[nodiscard]] bool in_low(double out_mm, double up_mm) const {
    return behind([&](double deep) { return facing_.in_low(beside(out_mm - deep), up_mm); });
  }
  [[nodiscard]] bool in_high(double out_mm, double up_mm) const {
    return behind([&](double deep) { return facing_.in_high(beside(out_mm - deep), up_mm); });
  }

  [[nodiscard]] bool in_base(bool climbs_high, double out_mm) const {
    const Vec2 p = beside(out_mm);
    return behind([&](double deep) { return climbs_high ? facing_.in_low(p, -deep) : facing_.in_high(p, deep); });
  }

  [[nodiscard]] bool in_wall(bool climbs_high, double up_mm) const {
    const double gap = facing_.gap_mm();
    if (up_mm < gap + probe_mm) return true;  // before the root gap
    return climbs_high ? in_high(0, up_mm - gap) : in_low(0, gap - up_mm);
  }

  [[nodiscard]] std::optional<BeadSection> fillet(bool climbs_high) const {
    const double gap = facing_.gap_mm();
    const double most = wanted_mm_ + gap;
    const double on_base = reach_mm(most, [&](double out) {
      return in_base(climbs_high, out) && facing_.is_free(beside(out), height(climbs_high, probe_mm));
    });
    const double up_wall = reach_mm(most, [&](double up) {
      return in_wall(climbs_high, up) && facing_.is_free(beside(probe_mm), height(climbs_high, up));
    });
    const double leg = std::min(on_base, up_wall);
    if (leg - gap < least_bead_mm(wanted_mm_)) return std::nullopt;
    BeadSection section{SeamKind::fillet, climbs_high, leg - gap, {}};
    section.outline = climbs_high ? Loop::polygon({{0, 0}, {leg, 0}, {0, leg}})
                                  : Loop::polygon({{0, gap}, {0, gap - leg}, {leg, gap}});
    return section;
  }

  // Over the flush faces of both, as far to either side as the joint is deep by half.
  [[nodiscard]] std::optional<BeadSection> cap() const {
    const double gap = facing_.gap_mm();
    const double below = reach_mm(wanted_mm_ / 2, [&](double in) {
      return in_low(0, -std::max(in, probe_mm)) && facing_.is_free(beside(probe_mm), -in);
    });
    const double above = reach_mm(wanted_mm_ / 2, [&](double in) {
      return in_high(0, std::max(in, probe_mm)) && facing_.is_free(beside(probe_mm), gap + in);
    });
    const double over = std::min(below, above);
    const double least = least_bead_mm(wanted_mm_);
    if (deep_mm_ < least || over < least / 2) return std::nullopt;
    const double width = gap + 2 * over;
    return BeadSection{gap > tolerance::contact_mm ? SeamKind::butt : SeamKind::edge, true, deep_mm_,
                       Loop::rectangle({0, -over}, {cap_height_mm(width), gap + over})};
  }

  const Facing& facing_;
  Vec2 middle_;
  Vec2 out_;
  double wanted_mm_;
  double deep_mm_ = 0;  // how far the contact goes in from its edge, up to what is wanted
};

}  // namespace

double least_bead_mm(double wanted_mm) { return std::min(wanted_mm, std::max(1.0, wanted_mm / 2)); }

double cap_height_mm(double width_mm) { return std::min(1 + 0.15 * width_mm, 7.0); }

std::optional<BeadSection> bead_section(const Facing& facing, const ContactEdge& piece, double wanted_mm) {
  return Sections(facing, piece, wanted_mm).find();
}

}  // namespace fitup::checks
