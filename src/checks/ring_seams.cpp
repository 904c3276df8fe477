// A boss in a hole: the annulus at each end of the hole, as a prism that contains the ring-shaped bead.
// Entry: ring_seams.
#include <algorithm>
#include <cmath>
#include <tuple>

#include "checks/bead_section.h"
#include "checks/joint_seams.h"
#include "checks/occupancy.h"
#include "checks/rules.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr double band = tolerance::contact_mm;
// In which a ring is made smaller until the parts leave room for it.
constexpr double step_mm = 0.5;

struct Fit {
  int axis = 0;
  Vec2 centre;
  double radius = 0;  // of the boss
  double gap_mm = 0;  // all round
  Interval boss;      // what of its outline is in one
  Interval hole;
};

// The boss's prisms of one outline, end to end.
Interval whole_span(const Stack& boss, const PlacedPrism& of) {
  Interval span = of.span;
  const Circle outline = *of.region->round_outline();
  for (bool more = true; more;) {
    more = false;
    for (const PlacedPrism& p : boss.prisms) {
      const auto round = p.axis == of.axis ? p.region->round_outline() : std::nullopt;
      if (!round || std::abs(round->radius - outline.radius) > band || norm(round->centre - outline.centre) > band)
        continue;
      const bool touches = p.span.low <= span.high + band && p.span.high >= span.low - band;
      if (!touches || (p.span.low >= span.low && p.span.high <= span.high)) continue;
      span = {std::min(span.low, p.span.low), std::max(span.high, p.span.high)};
      more = true;
    }
  }
  return span;
}

std::optional<Fit> fit_of(const Stack& boss, const Stack& holed, double largest_gap_mm) {
  for (const PlacedPrism& p : boss.prisms) {
    const auto round = p.axis < 0 ? std::nullopt : p.region->round_outline();
    if (!round) continue;
    const auto fits = [&](int axis, Vec2 centre, double radius) {
      const double gap = radius - round->radius;
      return axis == p.axis && norm(centre - round->centre) <= band && gap >= -band && gap <= largest_gap_mm + band;
    };
    const auto made = [&](Interval hole, double radius) {
      return Fit{p.axis, round->centre, round->radius, std::max(0.0, radius - round->radius), whole_span(boss, p),
                 hole};
    };
    for (const PlacedBore& bore : holed.bores) {
      if (fits(bore.axis, bore.centre, bore.radius)) return made(bore.span, bore.radius);
    }
    for (const PlacedPrism& plate : holed.prisms) {
      if (plate.axis != p.axis) continue;
      for (const Circle& hole : plate.region->round_holes()) {
        if (fits(plate.axis, hole.centre, hole.radius)) return made(plate.span, hole.radius);
      }
    }
  }
  return std::nullopt;
}

class RingSeams {
 public:
  RingSeams(const PlacedBody& boss, const PlacedBody& holed, const Fit& fit, double wanted_mm)
      : boss_(boss), holed_(holed), fit_(fit), wanted_mm_(wanted_mm) {}

  std::vector<Seam> find() {
    add_end(fit_.hole.high, 1, fit_.boss.high - fit_.hole.high);
    add_end(fit_.hole.low, -1, fit_.hole.low - fit_.boss.low);
    return std::move(seams_);
  }

 private:
  // `proud_mm`: how far the boss goes on beyond the hole's end.
  void add_end(double at, double way, double proud_mm) {
    if (proud_mm < -band) return;
    const bool flush = proud_mm <= band;
    const double most = flush ? wanted_mm_ : std::min(wanted_mm_, proud_mm);
    for (double size = most; size >= least_bead_mm(wanted_mm_) - band; size -= step_mm) {
      Seam seam = flush ? cap(at, way, size) : fillet(at, way, size);
      const PlacedBody bead = place(Body{{seam.bead}, {seam.bead}, true, {}}, Pose{});
      if (decide(bead, boss_) == Decision::overlap || decide(bead, holed_) == Decision::overlap) continue;
      seams_.push_back(std::move(seam));
      return;
    }
  }

  [[nodiscard]] Seam ring(double at, double way, Interval radii, double high_mm) const {
    Seam seam;
    const Vec3 along = from_plane({0, 0}, way, fit_.axis);
    const Vec3 across = from_plane({1, 0}, 0, fit_.axis);
    seam.from = seam.to = from_plane(fit_.centre, at, fit_.axis);
    seam.ring_diameter_mm = 2 * fit_.radius;
    seam.length_mm = 2 * M_PI * fit_.radius;
    seam.gap_mm = fit_.gap_mm;
    seam.rises = along;
    seam.bead.profile.outer = Loop::circle({0, 0}, radii.high);
    seam.bead.profile.holes = {Loop::circle({0, 0}, radii.low)};
    seam.bead.pose = Pose::at(seam.from, across, cross(along, across));
    seam.bead.length_mm = high_mm;
    return seam;
  }

  [[nodiscard]] Seam fillet(double at, double way, double leg) const {
    Seam seam = ring(at, way, {fit_.radius, fit_.radius + fit_.gap_mm + leg}, leg);
    seam.kind = SeamKind::fillet;
    seam.size_mm = leg;
    return seam;
  }

  [[nodiscard]] Seam cap(double at, double way, double deep) const {
    const double over = deep / 2;
    Seam seam =
        ring(at, way, {fit_.radius - over, fit_.radius + fit_.gap_mm + over}, cap_height_mm(fit_.gap_mm + 2 * over));
    seam.kind = fit_.gap_mm > band ? SeamKind::butt : SeamKind::edge;
    seam.size_mm = deep;
    return seam;
  }

  const PlacedBody& boss_;
  const PlacedBody& holed_;
  const Fit& fit_;
  double wanted_mm_;
  std::vector<Seam> seams_;
};

}  // namespace

std::optional<Offered> ring_seams(const WeldTask& task) {
  for (const auto& [boss, holed] : {std::pair{&task.a, &task.b}, std::pair{&task.b, &task.a}}) {
    const auto fit = fit_of(boss->outer, holed->outer, task.joint.largest_gap_mm);
    if (fit) return Offered{RingSeams(*boss, *holed, *fit, task.wanted_mm).find(), 4 * M_PI * fit->radius};
  }
  return std::nullopt;
}

}  // namespace fitup::checks
