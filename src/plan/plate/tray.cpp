// A tray's edges, its flat pattern, and where none can be built.
// Entry: tray_of, bend_up.
#include "plan/plate/tray.h"

#include <algorithm>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/bends.h"
#include "plan/face_axes.h"
#include "plan/size_words.h"

namespace fitup::plan::plate {

namespace {

constexpr double least_strip = 4;  // of the base beside an opening in it, clear of the bends, in thicknesses

// Up to which thickness a radius of so many thicknesses is enough.
struct RadiusRow {
  double to_mm;
  double of_thickness;
};
constexpr std::array<RadiusRow, 4> radius_rows{{{4, 1}, {8, 1.5}, {10, 2}, {12, 3}}};

class Judge {
 public:
  Judge(Build& build, double t, double border)
      : build_(build), spec_(build.box_spec().plates), t_(t), border_(border) {}

  [[nodiscard]] std::optional<Tray> tray() {
    if (!fits_the_box()) return std::nullopt;
    const auto radius = this->radius();
    if (!radius) return std::nullopt;
    Tray out{t_, spec_.tray_depth ? (*spec_.tray_depth)->mm() : border_, *radius, 0, {}, {}};
    const double k = spec_.bend && spec_.bend->k ? **spec_.bend->k : din_6935_k(out.radius_mm, t_);
    out.zone_mm = bend_allowance_mm(90, out.radius_mm, k, t_);
    if (!stands_high(out) || !leaves_strips(out)) return std::nullopt;
    return out;
  }

 private:
  bool refuse(const Place& place, const std::string& why, const std::string& choice) {
    build_.diagnostics.add(diag::say<"tray-refused">(place, why, choice));
    return false;
  }

  bool fits_the_box() {
    const FaceSpec& bottom = build_.box_spec().face(Face::bottom);
    if (spec_.base_ring) {
      return refuse(spec_.floor.place, "the walls stand on a base ring, which has no floor of its own",
                    "floor = \"flat\", or leave plates.base_ring out");
    }
    if (*bottom.closed_by != Closure::cover) return true;
    return refuse(bottom.closed_by.place, "a cover under it would be screwed into its bends",
                  "closed_by = \"plate\" at the bottom, or floor = \"flat\"");
  }

  [[nodiscard]] std::optional<double> radius() {
    const auto least = least_radius_mm(t_);
    if (!least) {
      refuse(
          spec_.thickness ? spec_.thickness->place : spec_.floor.place,
          fmt::format("beside bends of sheet {} thick a seam asks for a radius of 10 thicknesses and more (EN "
                      "1993-1-8, table 4.2), which is not bent here",
                      build_.in_words(t_)),
          fmt::format("plates.thickness of at most {}, or floor = \"flat\"", build_.at_most(radius_rows.back().to_mm)));
      return std::nullopt;
    }
    if (!spec_.bend || !spec_.bend->radius) return *least;
    const double radius = (*spec_.bend->radius)->mm();
    if (radius >= *least - tolerance::contact_mm) return radius;
    refuse(
        spec_.bend->radius->place,
        fmt::format("the walls are welded to it beside bends with an inside radius of {}, and of sheet {} thick that "
                    "must be at least {} (EN 1993-1-8, table 4.2)",
                    build_.in_words(radius), build_.in_words(t_), build_.in_words(*least)),
        fmt::format("a bend.radius of at least {}", build_.at_least(*least)));
    return std::nullopt;
  }

  // What stands beyond the bend lies on the die, and where a cover is screwed to it the row stands in the middle of
  // what keeps off the bend.
  bool stands_high(const Tray& tray) {
    double least = least_flange_mm(tray.radius_mm, t_);
    std::string why = "to lie on the die (0.7 of its opening, and 2 thicknesses and the radius)";
    for (const Face face : {Face::front, Face::back}) {
      const FaceSpec& spec = build_.box_spec().face(face);
      if (*spec.closed_by != Closure::cover) continue;
      const double hole = tables::find_thread(*spec.screws.thread)->clear_medium_mm;
      const double row = tray.tangent_mm() + hole_to_bend_mm(t_) + 2 * row_to_edge * hole;
      if (row <= least) continue;
      least = row;
      why = fmt::format("for the screws of the {} cover, whose holes keep 2 thicknesses off the bend", to_text(face));
    }
    if (tray.depth_mm >= least - tolerance::contact_mm) return true;
    const Place& place = spec_.tray_depth ? spec_.tray_depth->place
                         : spec_.border   ? spec_.border->place
                                          : spec_.floor.place;
    build_.diagnostics.add(diag::say<"tray-too-low">(place, build_.in_words(tray.depth_mm), build_.in_words(t_),
                                                     build_.in_words(tray.radius_mm), build_.in_words(least), why,
                                                     build_.at_least(least)));
    return false;
  }

  bool leaves_strips(const Tray& tray) {
    if (*build_.box_spec().face(Face::bottom).closed_by == Closure::plate) return true;
    const double least = t_ + tray.clear_mm() + least_strip * t_;
    if (border_ >= least - tolerance::contact_mm) return true;
    return refuse(spec_.border ? spec_.border->place : spec_.floor.place,
                  fmt::format("the border round its opening is {} wide, and the bends leave nothing of it that is flat",
                              build_.in_words(border_)),
                  fmt::format("plates.border of at least {}, or close the bottom by a plate", build_.at_least(least)));
  }

  static constexpr double row_to_edge = 1.2;  // of a hole's middle from an edge, in hole diameters (common practice)

  Build& build_;
  const PlatesSpec& spec_;
  double t_;
  double border_;
};

// The pattern's lines in the base's own plane: where the base is flat, and where an edge ends.
struct Pattern {
  Vec2 low;  // tangents of the bends
  Vec2 high;
  Vec2 size;  // of the base with its bends
  double relief;
  double zone;
  double rises;  // of an edge beyond its bend

  explicit Pattern(const Tray& tray)
      : relief(tray.relief_mm()), zone(tray.zone_mm), rises(tray.depth_mm - tray.tangent_mm()) {
    const Vec3 s = tray.base().size();
    const double in = tray.tangent_mm();
    size = {s.x, s.y};
    low = {in, in};
    high = size - low;
  }

  // Counter-clockwise from the front; each edge's bend lies between the reliefs.
  [[nodiscard]] Loop outline() const {
    const double left = low.x - zone - rises;
    const double right = high.x + zone + rises;
    std::vector<Vec2> out{{0, low.y - zone - rises}, {size.x, low.y - zone - rises}, {size.x, low.y - zone - relief}};
    const std::vector<Vec2> beside{{high.x - relief, low.y - zone - relief},
                                   {high.x - relief, low.y + relief},
                                   {right, low.y + relief},
                                   {right, high.y - relief},
                                   {high.x - relief, high.y - relief},
                                   {high.x - relief, high.y + zone + relief}};
    out.insert(out.end(), beside.begin(), beside.end());
    const std::vector<Vec2> back{{size.x, high.y + zone + relief},
                                 {size.x, high.y + zone + rises},
                                 {0, high.y + zone + rises},
                                 {0, high.y + zone + relief}};
    out.insert(out.end(), back.begin(), back.end());
    for (const Vec2 p : {Vec2{low.x + relief, high.y + zone + relief}, Vec2{low.x + relief, high.y - relief},
                         Vec2{left, high.y - relief}, Vec2{left, low.y + relief}, Vec2{low.x + relief, low.y + relief},
                         Vec2{low.x + relief, low.y - zone - relief}, Vec2{0, low.y - zone - relief}}) {
      out.push_back(p);
    }
    return Loop::polygon(out);
  }

  // Front, right, back, left: what stays is at the left of each line.
  [[nodiscard]] std::vector<Bend> bends(double radius) const {
    const double half = zone / 2;
    const Vec2 from = low + Vec2{relief, relief};
    const Vec2 to = high - Vec2{relief, relief};
    return {{{from.x, low.y - half}, {to.x, low.y - half}, zone, radius, true},
            {{high.x + half, from.y}, {high.x + half, to.y}, zone, radius, true},
            {{to.x, high.y + half}, {from.x, high.y + half}, zone, radius, true},
            {{low.x - half, to.y}, {low.x - half, from.y}, zone, radius, true}};
  }
};

}  // namespace

Box3 Tray::base_within(double in_mm) const {
  return {{t_mm + in_mm, set_in[low] + in_mm, 0}, {frame.x - t_mm - in_mm, frame.y - set_in[high] - in_mm, t_mm}};
}

Box3 Tray::edge(int across, Side side) const {
  Box3 out = base();
  const int run = across == 0 ? 1 : 0;
  out.low.z = tangent_mm();
  out.high.z = depth_mm;
  if (across == 0) {
    along(out.low, run) += tangent_mm() + relief_mm();
    along(out.high, run) -= tangent_mm() + relief_mm();
  } else {
    out.low.z += relief_mm();
  }
  if (side == low) along(out.high, across) = along(out.low, across) + t_mm;
  if (side == high) along(out.low, across) = along(out.high, across) - t_mm;
  return out;
}

std::optional<double> least_radius_mm(double thickness_mm) {
  const auto* row = std::find_if(radius_rows.begin(), radius_rows.end(),
                                 [&](const RadiusRow& r) { return thickness_mm <= r.to_mm + tolerance::contact_mm; });
  return row == radius_rows.end() ? std::nullopt : std::optional(row->of_thickness * thickness_mm);
}

std::optional<Tray> tray_of(Build& build, double t_mm, double border_mm) {
  return Judge(build, t_mm, border_mm).tray();
}

void bend_up(Build& build, const Tray& tray, InstanceId floor) {
  const Pattern pattern(tray);
  Part& part = build.draft.part(floor);
  auto& flat = std::get<Flat>(part.form);
  flat.profile.outer = pattern.outline();
  flat.bends = pattern.bends(tray.radius_mm);
  part.size = flat_size_words(flat.profile.bounds().size(), flat.thickness_mm);
}

std::vector<Host> strips(const Tray& tray, double border_mm, InstanceId id) {
  const Box3 all = tray.clear_base();
  const Vec2 from{border_mm, border_mm};
  const Vec2 to{tray.frame.x - border_mm, tray.frame.y - border_mm};
  const auto strip = [&](double x0, double y0, double x1, double y1) {
    return Host{id, {{x0, y0, all.low.z}, {x1, y1, all.high.z}}};
  };
  return {strip(all.low.x, all.low.y, all.high.x, from.y), strip(all.low.x, to.y, all.high.x, all.high.y),
          strip(all.low.x, from.y, from.x, to.y), strip(to.x, from.y, all.high.x, to.y)};
}

}  // namespace fitup::plan::plate
