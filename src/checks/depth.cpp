// Doubling steps to the first free (or touching) place, then bisection.
// Entry: least_separation, gap_along.
#include "checks/depth.h"

#include <algorithm>
#include <cmath>

#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr double band = tolerance::contact_mm;
constexpr double first_step_mm = 1e-3;
constexpr double precision_mm = 1e-5;

// The least t in (low, high] for which `holds`, given that it holds at `high` and not at `low`.
template <class Holds>
double bisect(double low, double high, double precision, Holds&& holds) {
  while (high - low > precision) {
    const double middle = (low + high) / 2;
    (holds(middle) ? high : low) = middle;
  }
  return high;
}

// How far `a` must go along `way` until the boxes are apart for certain.
double way_out_mm(const Box3& a, const Box3& b, Vec3 way) {
  double most = 0;
  for (int i = 0; i < 3; ++i) {
    const double w = component(way, i);
    if (w > 0) most = std::max(most, component(b.high, i) - component(a.low, i));
    if (w < 0) most = std::max(most, component(a.high, i) - component(b.low, i));
  }
  return most + 2 * band;
}

// To what the bisection is good for: no figure that means nothing, and the same for the same place elsewhere.
double rounded(double mm, double to_mm) { return std::round(mm / to_mm) * to_mm; }

/// Whether two meet, and where they do not and only the kernel knows it, how far they are apart: nothing meets nearer.
struct Looked {
  bool meets = false;
  bool undecided = false;
  double apart_mm = 0;
};

Looked look(const Scene& scene, Thing a, Thing b, Vec3 shift) {
  Decision d = scene.by_rules(a, b, shift);
  if (d == Decision::unsure && scene.judge().present()) {
    // What touches or overlaps is 0 apart: how much it shares does not matter here.
    if (const auto mm = scene.judge().distance_mm(a, b, shift)) return {*mm <= band, false, *mm <= band ? 0 : *mm};
    d = scene.decide(a, b, shift).decision;
  }
  return {d == Decision::touch || d == Decision::overlap, d == Decision::unsure, 0};
}

double extent_mm(const Box3& box, Vec3 way) {
  const Vec3 s = box.size();
  return std::abs(dot(s, {std::abs(way.x), std::abs(way.y), std::abs(way.z)}));
}

/// One thing that is moved towards another.
class Approach {
 public:
  Approach(const Scene& scene, Thing a, Thing b, Vec3 direction) : scene_(scene), a_(a), b_(b), direction_(direction) {}

  GapAlong until(double most_mm) {
    if (meets(0)) return {0.0};
    const auto high = within(most_mm);
    return {high ? std::optional(rounded(narrowed(*high), gap_step_mm)) : std::nullopt, undecided_};
  }

 private:
  bool meets(double t) {
    const Looked at = look(scene_, a_, b_, t * direction_);
    undecided_ = undecided_ || at.undecided;
    if (!at.meets) {
      low_ = std::max(t, t + at.apart_mm - band);
      guess_ = t + at.apart_mm;
    }
    return at.meets;
  }

  /// A way after which they meet; none up to there.
  std::optional<double> within(double most_mm) {
    // Never longer than what the thinner of the two could hide in.
    const double stride = std::max(first_step_mm, 0.5 * std::min(extent_mm(scene_.body(a_).outer.box, direction_),
                                                                 extent_mm(scene_.body(b_).outer.box, direction_)));
    double high = std::min(std::max(first_step_mm, guess_), most_mm);
    while (!meets(high)) {
      if (high >= most_mm) return std::nullopt;
      high = std::min(std::max(std::min(2 * high, high + stride), guess_), most_mm);
    }
    return high;
  }

  /// The least such way: finer than the band nothing is known of a contact.
  double narrowed(double high) {
    constexpr double fine_enough = band * (1 + 1e-6);
    bool guessed = false;           // what comes nearer slowly would be guessed often: every other time is enough
    bool touches = high == guess_;  // there, and not a band before
    while (high - low_ > fine_enough) {
      guessed = !guessed && guess_ > low_ && guess_ < high;
      const double next = guessed ? guess_ : (low_ + high) / 2;
      if (!meets(next)) continue;
      high = next;
      touches = guessed;
    }
    return touches ? high : high + band;
  }

  const Scene& scene_;
  Thing a_, b_;
  Vec3 direction_;
  bool undecided_ = false;
  double low_ = 0, guess_ = 0;  // nothing meets up to `low`; where the kernel says how far it is, it is to be there
};

}  // namespace

std::optional<Separation> least_separation(const Scene& scene, Thing a, Thing b) {
  std::optional<Separation> best;
  for (const Vec3 way : {axis::x, axis::minus_x, axis::y, axis::minus_y, axis::z, axis::minus_z}) {
    bool undecided = false;
    const auto free = [&](double t) {
      const Decision d = scene.decide(a, b, t * way).decision;
      undecided = undecided || d == Decision::unsure;
      return d == Decision::clear || d == Decision::touch;
    };
    const double out = way_out_mm(scene.body(a).outer.box, scene.body(b).outer.box, way);
    double low = 0;
    double high = std::min(first_step_mm, out);
    const double enough = best ? best->by_mm : out;
    while (high < out && low < enough && !free(high)) {
      low = high;
      high = std::min(2 * high, out);
    }
    if (low >= enough && best) continue;
    const double by = bisect(low, high, precision_mm, free) + band;
    if (undecided) return std::nullopt;
    if (!best || by < best->by_mm - precision_mm) best = {by, way};
  }
  if (best) best->by_mm = rounded(best->by_mm, band);
  return best;
}

GapAlong gap_along(const Scene& scene, Thing a, Thing b, Vec3 direction, double most_mm) {
  return Approach(scene, a, b, direction).until(most_mm);
}

}  // namespace fitup::checks
