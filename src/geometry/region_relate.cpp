// Whether two regions overlap, touch or stand apart.
// Entry: relate; relate_discs and relate_rectangles where a formula decides.
#include <algorithm>
#include <cmath>

#include "geometry/crossings.h"
#include "geometry/intersect.h"
#include "geometry/region.h"

namespace fitup::geometry {

namespace {

// Pieces of an outline shorter than this are rounding, not shape.
constexpr double speck_mm = 1e-9;

// Parameters of `s` where its distance to `other` passes through the band: between them it is in or out as a whole.
void band_crossings(const Stretch& s, const Stretch& other, double band, std::vector<double>& out) {
  cross_circle(s, other.edge.from, band, out);
  cross_circle(s, other.edge.to, band, out);
  if (other.straight) {
    const Vec2 d = other.edge.to - other.edge.from;
    const Vec2 side = (band / other.length_mm) * Vec2{-d.y, d.x};
    cross_line(s, other.edge.from + side, d, out);
    cross_line(s, other.edge.from - side, d, out);
  } else {
    cross_circle(s, other.arc.centre, other.arc.radius + band, out);
    cross_circle(s, other.arc.centre, other.arc.radius - band, out);
  }
}

void add_near_pieces(const Stretch& s, const Stretch& other, double band, std::vector<Interval>& near) {
  std::vector<double> cuts{0, 1};
  band_crossings(s, other, band, cuts);
  std::sort(cuts.begin(), cuts.end());
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    if (other.distance_mm(s.at((cuts[i] + cuts[i + 1]) / 2)) <= band) near.push_back({cuts[i], cuts[i + 1]});
  }
}

// What one edge says about a region: does any of it lie deep inside, does any of it come near the outline.
struct Report {
  bool deep = false;
  bool near = false;
};

Report look_at(const Stretch& s, const Region& region, double band) {
  std::vector<Interval> near;
  for (const Stretch& other : region.outline()) {
    if (!apart(s.box, other.box, band)) add_near_pieces(s, other, band, near);
  }
  std::sort(near.begin(), near.end(), [](const Interval& a, const Interval& b) { return a.low < b.low; });
  Report report;
  report.near = !near.empty();
  near.push_back({1, 1});
  double reached = 0;
  for (const Interval& piece : near) {
    if ((piece.low - reached) * s.length_mm > speck_mm && region.contains(s.at((reached + piece.low) / 2))) {
      report.deep = true;
      return report;
    }
    reached = std::max(reached, piece.high);
  }
  return report;
}

Report look_at(const Region& outline_of, const Region& region, double band) {
  Report all;
  for (const Stretch& s : outline_of.outline()) {
    if (apart(s.box, region.bounds(), band)) continue;
    const Report one = look_at(s, region, band);
    all.near = all.near || one.near;
    all.deep = one.deep;
    if (all.deep) break;
  }
  return all;
}

}  // namespace

Contact relate_intervals(Interval a, Interval b, double band_mm) {
  const double shared = std::min(a.high, b.high) - std::max(a.low, b.low);
  if (shared > band_mm) return Contact::overlap;
  return shared >= -band_mm ? Contact::touch : Contact::clear;
}

Contact relate(const Region& a, const Region& b, double band_mm) {
  if (apart(a.bounds(), b.bounds(), band_mm)) return Contact::clear;
  const Report first = look_at(a, b, band_mm);
  if (first.deep) return Contact::overlap;
  const Report second = look_at(b, a, band_mm);
  if (second.deep) return Contact::overlap;
  // Outlines that keep apart, neither inside the other region.
  if (!first.near && !second.near) return Contact::clear;
  if (b.contains(a.inner_point()) && b.distance_to_outline_mm(a.inner_point()) > band_mm) return Contact::overlap;
  return Contact::touch;
}

std::optional<Contact> relate_discs(const Region& a, const Region& b, double band_mm) {
  if (!a.disc() && !b.disc()) return std::nullopt;
  if (a.disc() && b.disc()) {
    const double depth = a.disc()->radius + b.disc()->radius - norm(a.disc()->centre - b.disc()->centre);
    if (depth > band_mm) return Contact::overlap;
    return depth >= -band_mm ? Contact::touch : Contact::clear;
  }
  const Circle& disc = a.disc() ? *a.disc() : *b.disc();
  for (const Circle& hole : (a.disc() ? b : a).round_holes()) {
    const double slack = hole.radius - disc.radius - norm(disc.centre - hole.centre);
    if (slack > band_mm) return Contact::clear;
    if (slack >= -band_mm) return Contact::touch;
  }
  return std::nullopt;
}

std::optional<Contact> relate_rectangles(const Region& a, const Region& b, double band_mm) {
  if (!a.rectangle() || !b.rectangle()) return std::nullopt;
  const Box2& p = *a.rectangle();
  const Box2& q = *b.rectangle();
  const Contact x = relate_intervals({p.low.x, p.high.x}, {q.low.x, q.high.x}, band_mm);
  const Contact y = relate_intervals({p.low.y, p.high.y}, {q.low.y, q.high.y}, band_mm);
  return std::min(x, y);
}

}  // namespace fitup::geometry
