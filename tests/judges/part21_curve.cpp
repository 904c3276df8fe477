// Evaluates the edges of a Part 21 file.
// Entry: edge_curve, integral_along.
#include "judges/part21_curve.h"

#include <array>
#include <cmath>
#include <numbers>

#include "judges/part21_assembly.h"

namespace fitup::judges {
namespace {

constexpr double turn = 2 * std::numbers::pi;

EdgeCurve line(Vec3 from, Vec3 to) {
  return [=](double t) { return CurvePoint{from + t * (to - from), to - from}; };
}

/// Circle (a == b) or ellipse between two of its points, in the sense of growing angle or against it. The same
/// point twice is the whole curve.
EdgeCurve oval(const Pose& place, double a, double b, Vec3 from, Vec3 to, bool with_curve) {
  const auto angle = [&](Vec3 p) {
    const Vec3 q = place.local(p);
    return std::atan2(q.y / b, q.x / a);
  };
  const double start = angle(from);
  double sweep = with_curve ? angle(to) - start : start - angle(to);
  sweep -= turn * std::floor(sweep / turn);
  if (norm(to - from) < 1e-9 || sweep < 1e-12) sweep = turn;
  if (!with_curve) sweep = -sweep;
  return [=](double t) {
    const double u = start + t * sweep;
    return CurvePoint{place.point({a * std::cos(u), b * std::sin(u), 0}),
                      place.turn({-a * sweep * std::sin(u), b * sweep * std::cos(u), 0})};
  };
}

struct Spline {
  int degree = 0;
  std::vector<Vec3> poles;
  std::vector<double> weights;
  std::vector<double> knots;  // repeated as often as their multiplicity

  struct Weighted {
    Vec3 sum;
    double weight = 0;
  };
  /// De Boor's scheme in homogeneous coordinates.
  [[nodiscard]] Weighted homogeneous(double u) const {
    const auto p = static_cast<std::size_t>(degree);
    std::size_t span = p;
    while (span + 1 < poles.size() && u >= knots[span + 1]) ++span;
    std::vector<Weighted> d;
    for (std::size_t j = 0; j <= p; ++j)
      d.push_back({weights[span - p + j] * poles[span - p + j], weights[span - p + j]});
    for (std::size_t r = 1; r <= p; ++r) {
      for (std::size_t j = p; j >= r; --j) {
        const double low = knots[span - p + j];
        const double k = (u - low) / (knots[span + 1 + j - r] - low);
        d[j] = {(1 - k) * d[j - 1].sum + k * d[j].sum, (1 - k) * d[j - 1].weight + k * d[j].weight};
      }
    }
    return d[p];
  }
  [[nodiscard]] Vec3 at(double u) const {
    const Weighted w = homogeneous(u);
    return (1 / w.weight) * w.sum;
  }
};

Spline spline_of(const Part21File& file, int id) {
  // In a complex entity the parameters are spread over the records; in a simple one the name comes first.
  const Record* whole = file.find(id, "B_SPLINE_CURVE_WITH_KNOTS");
  const Record* base = file.find(id, "B_SPLINE_CURVE");
  const std::size_t skip = base == nullptr ? 1 : 0;
  if (base == nullptr) base = whole;
  Spline spline;
  spline.degree = static_cast<int>(base->at(skip).number);
  for (const int pole : base->at(skip + 1).references()) spline.poles.push_back(triple_at(file, pole));
  spline.weights.assign(spline.poles.size(), 1);
  if (const Record* rational = file.find(id, "RATIONAL_B_SPLINE_CURVE")) {
    for (std::size_t i = 0; i < spline.weights.size(); ++i) spline.weights[i] = rational->at(0).at(i).number;
  }
  const std::size_t knots = base == whole ? 6 : 0;
  for (std::size_t i = 0; i < whole->at(knots).items.size(); ++i) {
    const auto times = static_cast<std::size_t>(whole->at(knots).at(i).number);
    spline.knots.insert(spline.knots.end(), times, whole->at(knots + 1).at(i).number);
  }
  return spline;
}

/// The parameter whose point lies nearest to `p`: a scan, then thirds about the best place.
double nearest(const Spline& spline, Vec3 p) {
  constexpr int scan = 400;
  const double low = spline.knots.front();
  const double step = (spline.knots.back() - low) / scan;
  const auto off = [&](double u) { return norm(spline.at(u) - p); };
  double best = low;
  for (int i = 1; i <= scan; ++i) {
    if (off(low + i * step) < off(best)) best = low + i * step;
  }
  double from = std::max(low, best - step);
  double to = std::min(spline.knots.back(), best + step);
  for (int i = 0; i < 100; ++i) {
    const double third = (to - from) / 3;
    const bool lower = off(from + third) < off(to - third);
    if (lower) to -= third;
    if (!lower) from += third;
  }
  return (from + to) / 2;
}

/// The piece of an open spline between two of its points.
Result<EdgeCurve> spline(const Part21File& file, int id, Vec3 from, Vec3 to) {
  const Spline made = spline_of(file, id);
  const double begin = nearest(made, from);
  const double span = nearest(made, to) - begin;
  if (norm(made.at(begin) - from) > 1e-4 || norm(made.at(begin + span) - to) > 1e-4) {
    return Failure{Failure::Kind::file, "reading Part 21", "a spline misses its edge's end, #" + std::to_string(id)};
  }
  return EdgeCurve([=](double t) {
    const double step = 1e-6 * std::abs(span);
    const double u = begin + t * span;
    const double before = std::max(made.knots.front(), u - step);
    const double after = std::min(made.knots.back(), u + step);
    return CurvePoint{made.at(u), (span / (after - before)) * (made.at(after) - made.at(before))};
  });
}

}  // namespace

Result<EdgeCurve> edge_curve(const Part21File& file, int edge) {
  const Record& record = file.record(edge);  // EDGE_CURVE('', first, second, curve, same sense)
  const auto vertex = [&](std::size_t i) { return triple_at(file, file.record(record.ref(i)).ref(1)); };
  const Vec3 from = vertex(1);
  const Vec3 to = vertex(2);
  const bool with_curve = record.at(4).is_true();
  int curve = record.ref(3);
  for (const char* type : {"SURFACE_CURVE", "SEAM_CURVE"}) {
    if (const Record* on_surface = file.find(curve, type)) curve = on_surface->ref(1);
  }
  if (file.find(curve, "LINE") != nullptr) return line(from, to);
  if (const Record* circle = file.find(curve, "CIRCLE")) {
    const double radius = circle->at(2).number;
    return oval(placement_at(file, circle->ref(1)), radius, radius, from, to, with_curve);
  }
  if (const Record* ellipse = file.find(curve, "ELLIPSE")) {
    return oval(placement_at(file, ellipse->ref(1)), ellipse->at(2).number, ellipse->at(3).number, from, to,
                with_curve);
  }
  if (file.find(curve, "B_SPLINE_CURVE_WITH_KNOTS") != nullptr) return spline(file, curve, from, to);
  return Failure{Failure::Kind::file, "reading Part 21", "no rule for an edge on " + file.record(curve).type};
}

double integral_along(const EdgeCurve& edge, const std::function<double(const CurvePoint&)>& form) {
  constexpr std::array<double, 3> at{-0.774596669241483377, 0, 0.774596669241483377};
  constexpr std::array<double, 3> weight{5.0 / 9, 8.0 / 9, 5.0 / 9};
  constexpr int panels = 64;
  double sum = 0;
  for (int panel = 0; panel < panels; ++panel) {
    for (std::size_t i = 0; i < at.size(); ++i) sum += weight[i] * form(edge((panel + 0.5 + at[i] / 2) / panels));
  }
  return sum / (2 * panels);
}

}  // namespace fitup::judges
