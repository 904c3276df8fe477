// A cut through the assembly.
// Entry: draw_cut.

#include "bench/cross_section.h"

#include <algorithm>
#include <cmath>

#include "output/section.h"

namespace fitup::bench {
namespace {

using output::Outline;

constexpr double aside_mm = 0.01;  // to either side of a line, where it is asked what is there
constexpr double same_mm = 1e-4;
constexpr double hatch_mm = 1.6;  // on the page

struct CutBody {
  InstanceId id = 0;
  std::vector<Outline> outlines;  // in the plane, millimetres of the job
  Box2 box;
  double area_mm2 = 0;
  std::vector<Outline> bores;  // where the plane meets its round holes
};

double area_of(const std::vector<Outline>& outlines) {
  double sum = 0;
  for (const Outline& o : outlines) {
    double own = 0;
    for (std::size_t i = 0; i < o.size(); ++i) own += cross(o[i], o[(i + 1) % o.size()]);
    sum += std::abs(own) / 2;
  }
  return sum;
}

bool apart(const Box2& a, const Box2& b) {
  return a.high.x < b.low.x || b.high.x < a.low.x || a.high.y < b.low.y || b.high.y < a.low.y;
}

/// Where along from..to (0 to 1) lines of other outlines begin or end on it.
std::vector<double> splits(const std::vector<Outline>& all, Vec2 from, Vec2 to) {
  std::vector<double> at{0, 1};
  const Vec2 run = to - from;
  const double length = norm(run);
  for (const Outline& outline : all) {
    for (const Vec2 p : outline) {
      const double along = dot(p - from, run) / (length * length);
      if (along > 0 && along < 1 && std::abs(cross(run, p - from)) / length < same_mm) at.push_back(along);
    }
  }
  std::sort(at.begin(), at.end());
  return at;
}

/// The lines round a body, without those between its prisms.
std::vector<std::pair<Vec2, Vec2>> contour(const std::vector<Outline>& all) {
  std::vector<std::pair<Vec2, Vec2>> lines;
  for (const Outline& outline : all) {
    for (std::size_t i = 0; i < outline.size(); ++i) {
      const Vec2 from = outline[i];
      const Vec2 to = outline[(i + 1) % outline.size()];
      const double length = norm(to - from);
      if (length < same_mm) continue;
      const Vec2 aside = (aside_mm / length) * Vec2{-(to - from).y, (to - from).x};
      const auto at = splits(all, from, to);
      for (std::size_t k = 0; k + 1 < at.size(); ++k) {
        if ((at[k + 1] - at[k]) * length < same_mm) continue;
        const Vec2 middle = from + 0.5 * (at[k] + at[k + 1]) * (to - from);
        if (output::contains(all, middle + aside) && output::contains(all, middle - aside)) continue;
        lines.emplace_back(from + at[k] * (to - from), from + at[k + 1] * (to - from));
      }
    }
  }
  return lines;
}

/// Pieces of the line p + s * way that lie in the area, by even and odd.
std::vector<std::pair<Vec2, Vec2>> inside(const std::vector<Outline>& all, Vec2 p, Vec2 way) {
  std::vector<double> at;
  for (const Outline& o : all) {
    for (std::size_t i = 0; i < o.size(); ++i) {
      const Vec2 a = o[i];
      const Vec2 run = o[(i + 1) % o.size()] - a;
      const double by = cross(way, run);
      if (std::abs(by) < 1e-12) continue;
      const double t = cross(a - p, way) / by;
      if (t >= 0 && t < 1) at.push_back(cross(a - p, run) / by);
    }
  }
  std::sort(at.begin(), at.end());
  std::vector<std::pair<Vec2, Vec2>> pieces;
  for (std::size_t i = 0; i + 1 < at.size(); i += 2) pieces.emplace_back(p + at[i] * way, p + at[i + 1] * way);
  return pieces;
}

class CutDrawing {
 public:
  CutDrawing(Page& page, const Box2& box, double scale, const Plan& plan, const CutPlace& place)
      : page_(page), box_(box), scale_(scale), plan_(plan), place_(place) {}

  std::vector<CutPart> draw() {
    const Vec2 half = (0.5 / scale_) * box_.size();
    window_ = {place_.middle - half, place_.middle + half};
    auto bodies = bodies_in_window();
    std::vector<CutPart> shown;
    for (std::size_t k = 0; k < bodies.size(); ++k) {
      // Screws and nuts stand in holes and threads that the bodies do not know: they cover what is behind them.
      if (!is_hatched(bodies[k].id)) blank(bodies[k]);
      hatch(bodies[k], k);
      for (const auto& [from, to] : contour(bodies[k].outlines)) line(from, to, wide_mm);
      for (const Outline& bore : bodies[k].bores) open_bore(bore);
      if (const auto at = point_of(bodies[k])) shown.push_back({bodies[k].id, on_page(*at)});
    }
    page_.rectangle(box_, hairline_mm);
    return shown;
  }

 private:
  [[nodiscard]] Vec2 on_page(Vec2 p) const {
    return box_.middle() + Vec2{scale_ * (p.x - place_.middle.x), -scale_ * (p.y - place_.middle.y)};
  }

  void line(Vec2 from, Vec2 to, double width_mm) {
    page_.line(on_page(from), on_page(to), width_mm);
    page_.strokes.back().clip = box_;
  }

  [[nodiscard]] std::vector<CutBody> bodies_in_window() const {
    const output::Look look{place_.axis};
    std::vector<CutBody> bodies;
    for (InstanceId id = 0; id < plan_.instances.size(); ++id) {
      const Instance& instance = plan_.instances[id];
      const Body shape = body_of(plan_.parts[instance.part]);
      CutBody body;
      body.id = id;
      body.outlines = output::cut(checks::place(shape, instance.pose), look, place_.at_mm);
      if (body.outlines.empty()) continue;
      body.box = output::bounds_of(body.outlines);
      if (apart(body.box, window_)) continue;
      body.area_mm2 = area_of(body.outlines);
      for (const Bore& bore : shape.bores) {
        if (auto outline = bore_outline(bore, instance.pose)) body.bores.push_back(*std::move(outline));
      }
      bodies.push_back(std::move(body));
    }
    // Bodies with holes first: what stands in a hole is drawn over it.
    std::stable_sort(bodies.begin(), bodies.end(), [](const CutBody& a, const CutBody& b) {
      if (a.bores.empty() != b.bores.empty()) return !a.bores.empty();
      return a.area_mm2 > b.area_mm2;
    });
    return bodies;
  }

  /// Screws, rods and nuts are not hatched where they are cut along; neither are stand-ins.
  [[nodiscard]] bool is_hatched(InstanceId id) const {
    const Part& part = plan_.parts[plan_.instances[id].part];
    return part.source == Source::cut || part.source == Source::sawn;
  }

  void blank(const Outline& outline) {
    Stroke white{{}, true, hairline_mm, Dash::none, 1, box_, true};
    for (const Vec2 p : outline) white.vertices.push_back({on_page(p)});
    page_.strokes.push_back(std::move(white));
  }
  void blank(const CutBody& body) {
    for (const Outline& outline : body.outlines) blank(outline);
  }

  /// Nothing of the body stands there; its edges are drawn.
  void open_bore(const Outline& bore) {
    blank(bore);
    for (std::size_t i = 0; i < bore.size(); ++i) line(bore[i], bore[(i + 1) % bore.size()], wide_mm);
  }

  /// A hole that the plane runs along is a strip, one that it runs across a circle.
  [[nodiscard]] std::optional<Outline> bore_outline(const Bore& bore, const Pose& pose) const {
    const output::Look look{place_.axis};
    const Pose at = pose * bore.pose;
    const double radius = bore.diameter_mm / 2;
    const Vec2 from = look.on_paper(at.origin());
    const Vec2 to = look.on_paper(at.point({0, 0, bore.length_mm}));
    const double length = norm(to - from);
    Outline outline;
    if (length < same_mm) {
      const double one = look.along(at.origin());
      const double other = look.along(at.point({0, 0, bore.length_mm}));
      if (place_.at_mm < std::min(one, other) || place_.at_mm > std::max(one, other)) return {};
      constexpr int corners = 36;
      for (int i = 0; i < corners; ++i) {
        const double angle = 2 * M_PI * i / corners;
        outline.push_back(from + radius * Vec2{std::cos(angle), std::sin(angle)});
      }
      return outline;
    }
    const double off = std::abs(look.along(at.origin()) - place_.at_mm);
    if (off >= radius) return {};
    const double half = std::sqrt(radius * radius - off * off);
    const Vec2 aside = (half / length) * Vec2{-(to - from).y, (to - from).x};
    return Outline{from + aside, to + aside, to - aside, from - aside};
  }

  void hatch(const CutBody& body, std::size_t index) {
    if (!is_hatched(body.id)) return;
    const double pitch = (index % 4 < 2 ? 1.0 : 1.5) * hatch_mm / scale_;
    const Vec2 way = index % 2 == 0 ? Vec2{1, 1} : Vec2{1, -1};
    const Vec2 across{-way.y, way.x};
    const double reach = 0.75 * norm(window_.size());
    for (double off = -reach; off < reach; off += pitch * std::sqrt(2.0)) {
      const Vec2 p = window_.middle() + (off / 2) * across;
      for (const auto& [from, to] : inside(body.outlines, p, way)) line(from, to, hairline_mm);
    }
  }

  /// A point of what is cut, within the window and nearest to its middle, not at its very edge.
  [[nodiscard]] std::optional<Vec2> point_of(const CutBody& body) const {
    for (const double off_mm : {0.7, 0.0}) {
      if (const auto point = point_of(body, off_mm)) return point;
    }
    return {};
  }

  [[nodiscard]] std::optional<Vec2> point_of(const CutBody& body, double off_mm) const {
    constexpr int steps = 40;
    const Vec2 low{std::max(body.box.low.x, window_.low.x), std::max(body.box.low.y, window_.low.y)};
    const Vec2 high{std::min(body.box.high.x, window_.high.x), std::min(body.box.high.y, window_.high.y)};
    std::optional<Vec2> best;
    for (int i = 1; i < steps; ++i) {
      for (int k = 1; k < steps; ++k) {
        const Vec2 p{low.x + (high.x - low.x) * i / steps, low.y + (high.y - low.y) * k / steps};
        if (best && norm(p - place_.middle) >= norm(*best - place_.middle)) continue;
        const Vec2 around[] = {{off_mm, 0}, {-off_mm, 0}, {0, off_mm}, {0, -off_mm}};
        const bool within = std::all_of(std::begin(around), std::end(around),
                                        [&](Vec2 by) { return output::contains(body.outlines, p + by); });
        if (within) best = p;
      }
    }
    return best;
  }

  Page& page_;
  Box2 box_;
  double scale_;
  const Plan& plan_;
  CutPlace place_;
  Box2 window_;
};

}  // namespace

std::vector<CutPart> draw_cut(Page& page, const Box2& box, double scale, const Plan& plan, const CutPlace& place) {
  return CutDrawing(page, box, scale, plan, place).draw();
}

}  // namespace fitup::bench
