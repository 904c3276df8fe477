// Holes and notches for lift bosses in what closes the top.
// Entry: boss_cut_out_mm, clear_of_sheet_mm, clear_of_reliefs_mm, clear_bosses.
#include "plan/boss_openings.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include <fmt/format.h>

#include "fitup/tolerances.h"
#include "geometry/intersect.h"
#include "plan/coat.h"
#include "plan/cut_out.h"
#include "plan/face_axes.h"
#include "plan/flanged_face.h"
#include "plan/holes.h"
#include "plan/plate/walls.h"
#include "plan/raised_landing.h"
#include "plan/shop_steps.h"

namespace fitup::plan {

namespace {

constexpr double boss_room_mm = 5;      // round a lift boss, for the bead of its weld above the leg (common practice)
constexpr double relief_step_mm = 0.1;  // a place across a border is found to this
constexpr double edge_distance = 1.2;   // of a screw's middle from an edge, in hole diameters (common practice)

double cut_out_mm(double boss_diameter_mm) { return boss_diameter_mm + 2 * boss_room_mm; }

double box_to_box_mm(const Box2& a, const Box2& b) {
  const double x = std::max({a.low.x - b.high.x, b.low.x - a.high.x, 0.0});
  const double y = std::max({a.low.y - b.high.y, b.low.y - a.high.y, 0.0});
  return std::hypot(x, y);
}

Box2 square(Vec2 at, double half) { return {at - Vec2{half, half}, at + Vec2{half, half}}; }

class BossOpenings {
 public:
  BossOpenings(Build& build, InstanceId panel, const std::vector<Face>& held)
      : build_(build),
        panel_(panel),
        held_(held),
        flat_(std::get<Flat>(build.draft.part(panel).form)),
        pose_(build.draft.pose(panel)),
        area_(flat_.profile.outer.bounds()),
        web_(cut_web_mm(build, flat_.thickness_mm)) {}

  void run() {
    std::vector<Box2> cuts;
    for (const LiftPoint& point : build_.draft.lift_points) {
      if (!reaches(point)) continue;
      if (!is_notched(point)) {
        make_round(point);
      } else if (const auto cut = notch_at(point)) {
        cuts.push_back(*cut);
      }
    }
    if (!cuts.empty()) cut_notches(cuts);
  }

 private:
  [[nodiscard]] double radius(const LiftPoint& point) const {
    return (boss_cut_out_mm(build_, point) + coat_in_hole_mm(build_.spec)) / 2;
  }
  [[nodiscard]] Vec2 on_sheet(const LiftPoint& point) const {
    const Vec3 at = pose_.local(point.at);
    return {at.x, at.y};
  }

  // A sheet that ends before it needs nothing.
  [[nodiscard]] bool reaches(const LiftPoint& point) const {
    const Vec2 at = on_sheet(point);
    const Box2 middle{at, at};
    return box_to_box_mm(area_, middle) < radius(point) - tolerance::contact_mm;
  }

  // The sheet's edges that leave no web beside the hole.
  [[nodiscard]] std::vector<Face> edges_at(const LiftPoint& point) const {
    std::vector<Face> found;
    for (const Face face : {Face::left, Face::right, Face::front, Face::back}) {
      const Vec3 edge = pose_.inverse().turn(unit(axis_of(face), side_of(face)));
      const Vec2 way{edge.x, edge.y};
      const double out = std::max(dot(area_.low, way), dot(area_.high, way));
      if (out - dot(on_sheet(point), way) - radius(point) < web_ - tolerance::contact_mm) found.push_back(face);
    }
    return found;
  }

  [[nodiscard]] bool is_notched(const LiftPoint& point) const {
    const std::vector<Face> edges = edges_at(point);
    const bool screwed_on = build_.draft.part(panel_).role == Role::cover_sheet && flat_.bends.empty();
    const bool free = std::none_of(edges.begin(), edges.end(), [&](Face face) {
      return std::find(held_.begin(), held_.end(), face) != held_.end();
    });
    return screwed_on && !edges.empty() && free;
  }

  void make_round(const LiftPoint& point) {
    const double diameter = boss_cut_out_mm(build_, point);
    const auto problem =
        make_hole(build_, panel_, {point.at, axis::minus_z, diameter, HoleKind::clear, "take a lift boss"});
    if (problem) say(point, *problem);
  }

  // As it is cut, or nothing where it would come too near to a hole, which is said.
  [[nodiscard]] std::optional<Box2> notch_at(const LiftPoint& point) {
    const Box2 cut = square(on_sheet(point), radius(point));
    double least = 1e9;
    for (const Loop& hole : flat_.profile.holes) least = std::min(least, box_to_box_mm(cut, hole.bounds()));
    for (const DrilledHole& hole : flat_.drilled) {
      least = std::min(least, box_to_box_mm(cut, square(hole.at, hole.diameter_mm / 2)));
    }
    if (least >= web_ - tolerance::contact_mm) return cut;
    say(point, least < tolerance::contact_mm ? "would run into another hole"
                                             : fmt::format("would leave {} to another hole and needs {}",
                                                           build_.in_words(least), build_.in_words(web_)));
    return std::nullopt;
  }

  void cut_notches(std::vector<Box2> cuts) {
    double radius_mm = 0;
    for (Box2& cut : cuts) {
      radius_mm = cut.size().x / 2;
      cut = {cut.low - area_.low, cut.high - area_.low};
    }
    const CutOut left = cut_out(area_.size(), without_slivers(area_.size(), cuts, web_), radius_mm);
    if (left.pieces != 1) return say(build_.draft.lift_points.front(), "would cut the sheet in two");
    Loop outline = left.profile.outer;
    for (Vertex& vertex : outline.vertices) vertex.at = vertex.at + area_.low;
    flat_.profile.outer = outline;
  }

  // ---- what mends
  [[nodiscard]] std::string nearest_screw(const LiftPoint& point, double needed) const {
    for (const Fastener& fastener : build_.draft.fasteners) {
      const auto& stack = fastener.stack;
      if (std::find(stack.begin(), stack.end(), panel_) == stack.end()) continue;
      const Vec3 at = build_.draft.pose(fastener.screw).origin();
      if (norm(Vec2{at.x - point.at.x, at.y - point.at.y}) < needed) {
        return build_.draft.instance(fastener.screw).name;
      }
    }
    return {};
  }

  [[nodiscard]] std::string mends(const LiftPoint& point) const {
    const FaceSpec& top = build_.box_spec().face(Face::top);
    const std::string key = build_.key("face.top");
    const bool cover = *top.closed_by == Closure::cover;
    if (!cover && *top.set == PlateSet::inside) return fmt::format("set {}.set to \"outside\"", key);
    const double hole = cover ? tables::find_thread(*top.screws.thread)->clear_medium_mm : 0;
    const double apart = radius(point) + std::max(edge_distance * hole, hole / 2 + web_);
    const std::string screw = cover ? nearest_screw(point, apart) : std::string();
    if (!screw.empty()) {
      return fmt::format("give {} a place at least {} from its middle ({}.screws.at)", screw,
                         at_least_on_steps(build_, apart), key);
    }
    const std::vector<Face> edges = edges_at(point);
    if (edges.empty()) return "move it or choose another size";
    const std::string named(to_text(edges.front()));
    const double off = clear_of_sheet_mm(build_, edges.front(), boss_cut_out_mm(build_, point) - 2 * boss_room_mm);
    return fmt::format("give it a place in lifting.at, at least {} from the {} of the frame{}",
                       at_least_on_steps(build_, off), named,
                       cover ? "" : fmt::format(", or set {}.closed_by to \"cover\", which is notched", key));
  }

  void say(const LiftPoint& point, const std::string& problem) {
    const LiftingSpec& lifting = *build_.spec.lifting;
    say_no_room(build_, lifting.at ? lifting.at->place : lifting.thread.place, boss_cut_out_mm(build_, point),
                build_.draft.instance(point.boss).name, panel_, problem, mends(point));
  }

  Build& build_;
  InstanceId panel_;
  const std::vector<Face>& held_;
  Flat& flat_;
  Pose pose_;
  Box2 area_;
  double web_;
};

// From the frame's side to where what closes the top begins; nothing where that is no matter of the hole's.
std::optional<double> sheet_begins_mm(Build& build, Face edge) {
  const FaceSpec& top = build.box_spec().face(Face::top);
  const bool cover = *top.closed_by == Closure::cover;
  if (cover && is_outward(top)) return std::nullopt;
  if (cover && is_flanged(build.box_spec(), Face::top)) {
    const FlangedFace face(build, Face::top);
    return face.sheet_edge_mm(face.rim_at(axis_of(edge), side_of(edge)));
  }
  const bool laid_on =
      *top.closed_by == Closure::plate && *top.set == PlateSet::outside && !is_shell_wall(build.box_spec(), Face::top);
  if (!cover && !laid_on) return std::nullopt;
  const Box3 sheet = panel_box(build, Face::top);
  const int axis = axis_of(edge);
  return side_of(edge) == low ? along(sheet.low, axis) : along(build.shell.size, axis) - along(sheet.high, axis);
}

}  // namespace

double boss_cut_out_mm(const Build& build, const LiftPoint& point) {
  const auto& form = std::get<Solidform>(build.draft.part(point.boss).form);
  double widest = 0;
  for (const Prism& prism : form.prisms) widest = std::max(widest, prism.bounds().size().x);
  return cut_out_mm(widest);
}

double clear_of_sheet_mm(Build& build, Face edge, double boss_diameter_mm) {
  const auto begins = sheet_begins_mm(build, edge);
  if (!begins) return 0;
  const double t = build.box_spec().face(Face::top).thickness->mm();
  const double hole = cut_out_mm(boss_diameter_mm) + coat_in_hole_mm(build.spec);
  return std::max(0.0, *begins + cut_web_mm(build, t) + hole / 2);
}

double clear_of_reliefs_mm(const Build& build, Face edge, std::array<double, 2> between, const std::vector<double>& ys,
                           double hole_radius_mm) {
  const Side side = side_of(edge);
  const InstanceId top = build.shell.top_side_deck[side].id;
  const Flat& flat = std::get<Flat>(build.draft.part(top).form);
  const double needed = hole_radius_mm + build.spec.cutter.rules.smallest_web * flat.thickness_mm;
  const std::vector<Edge> outline = flat.profile.outer.edges();
  const auto is_clear = [&](double from_side, double y) {
    const Vec3 at =
        build.draft.pose(top).local({side == low ? from_side : build.shell.size.x - from_side, y, build.shell.size.z});
    return std::all_of(outline.begin(), outline.end(), [&](const Edge& e) {
      return geometry::distance_mm(e, {at.x, at.y}) >= needed - tolerance::contact_mm;
    });
  };
  for (double place = between[0]; place <= between[1] + tolerance::contact_mm; place += relief_step_mm) {
    if (std::all_of(ys.begin(), ys.end(), [&](double y) { return is_clear(place, y); })) return place;
  }
  return between[0];
}

void clear_bosses(Build& build, InstanceId panel, const std::vector<Face>& held) {
  BossOpenings(build, panel, held).run();
}

}  // namespace fitup::plan
