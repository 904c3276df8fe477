// Flat diagonals outside on open faces: clipped to the frame, welded to what they lie on, of tubes to their flats.
// Entry: add_braces.
#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/face_axes.h"
#include "plan/framed/stiffening.h"
#include "plan/rails.h"
#include "plan/size_words.h"

namespace fitup::plan {

namespace {

// Of the shorter way across: a wider one is a plate.
constexpr double widest_part = 0.5;
constexpr double least_seam_mm = 10;  // a shorter one holds nothing to speak of (common practice)
constexpr double beyond_wall_mm = 1;
constexpr double falls_off_mm = 0.1;

double signed_distance(Vec2 p, Vec2 on, Vec2 normal) { return dot(p - on, normal); }

// What of a convex polygon lies on the side of a line to which `normal` does not point.
std::vector<Vec2> clipped(const std::vector<Vec2>& polygon, Vec2 on, Vec2 normal) {
  std::vector<Vec2> out;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vec2 a = polygon[i];
    const Vec2 b = polygon[(i + 1) % polygon.size()];
    const double da = signed_distance(a, on, normal);
    const double db = signed_distance(b, on, normal);
    if (da <= 0) out.push_back(a);
    if ((da < 0 && db > 0) || (da > 0 && db < 0)) out.push_back(a + (da / (da - db)) * (b - a));
  }
  return out;
}

std::vector<Vec2> corners_of(const Box2& box) {
  return {box.low, {box.high.x, box.low.y}, box.high, {box.low.x, box.high.y}};
}

// What two convex polygons share, both counter-clockwise.
std::vector<Vec2> clipped(std::vector<Vec2> polygon, const std::vector<Vec2>& by) {
  for (std::size_t i = 0; i < by.size(); ++i) {
    const Vec2 way = by[(i + 1) % by.size()] - by[i];
    polygon = clipped(polygon, by[i], {way.y, -way.x});
  }
  return polygon;
}

double area_mm2(const std::vector<Vec2>& polygon) {
  double twice = 0;
  for (std::size_t i = 0; i < polygon.size(); ++i) twice += cross(polygon[i], polygon[(i + 1) % polygon.size()]);
  return twice / 2;
}

// Something flush in the face that a brace may lie on: convex, but for a round that is taken out of it.
struct Flush {
  InstanceId id;
  std::vector<Vec2> outline;
  std::optional<Circle> without{};
};

// Convex as well, what is shared is all within the round if its corners are.
bool lies_on(const std::vector<Vec2>& brace, const Flush& flush) {
  const std::vector<Vec2> shared = clipped(brace, flush.outline);
  if (area_mm2(shared) <= tolerance::contact_mm) return false;
  return !flush.without || std::any_of(shared.begin(), shared.end(), [&](Vec2 p) {
    return norm(p - flush.without->centre) > flush.without->radius + tolerance::contact_mm;
  });
}

// How much of a line runs within a convex polygon, counter-clockwise, its edges left out.
double within_mm(Vec2 from, Vec2 to, const std::vector<Vec2>& polygon) {
  double begins = 0;
  double ends = 1;
  for (std::size_t i = 0; i < polygon.size(); ++i) {
    const Vec2 way = polygon[(i + 1) % polygon.size()] - polygon[i];
    const Vec2 out = (1 / norm(way)) * Vec2{way.y, -way.x};
    const double da = signed_distance(from, polygon[i], out) + tolerance::contact_mm;
    const double db = signed_distance(to, polygon[i], out) + tolerance::contact_mm;
    if (da > 0 && db > 0) return 0;
    if (da > 0) begins = std::max(begins, da / (da - db));
    if (db > 0) ends = std::min(ends, da / (da - db));
  }
  return std::max(0.0, ends - begins) * norm(to - from);
}

// Where an edge of the brace lies on it there is a seam; what the brace covers to its edges has none.
bool is_welded(const std::vector<Vec2>& brace, const Flush& flush) {
  double seam = 0;
  for (std::size_t i = 0; i < brace.size(); ++i)
    seam += within_mm(brace[i], brace[(i + 1) % brace.size()], flush.outline);
  return lies_on(brace, flush) && seam >= least_seam_mm;
}

// By what a rounding takes to fall off from the plane.
std::vector<Vec2> widened(std::vector<Vec2> outline) {
  Box2 box;
  for (const Vec2 p : outline) box.add(p);
  const Vec2 middle = box.middle();
  for (Vec2& p : outline) {
    p.x += p.x < middle.x ? -falls_off_mm : falls_off_mm;
    p.y += p.y < middle.y ? -falls_off_mm : falls_off_mm;
  }
  return outline;
}

class Brace {
 public:
  Brace(Build& build, const Bones& bones, Face face)
      : build_(build),
        bones_(bones),
        spec_(*build.box_spec().frame.braces),
        slope_(spec_.faces[static_cast<std::size_t>(face)]),
        face_(face),
        ends_(face == Face::front || face == Face::back),
        wide_mm_(ends_ ? build.shell.size.x : build.shell.size.y) {}

  void run() {
    if (!is_open()) return;
    const Box2 room = room_of_face();
    if (!fits(room)) return;
    const std::vector<Vec2> outline = outline_in(room);
    const InstanceId id = add(outline);
    std::set<InstanceId> met;
    const std::vector<Flush> flush_with = flush_parts();
    for (const Flush& flush : flush_with) {
      if (is_welded(outline, flush) && met.insert(flush.id).second)
        build_.draft.join(id, flush.id, JointKind::weld, inward());
    }
    // By a corner too small for a seam it may touch, or where a tube's rounding has hardly begun.
    for (const Flush& flush : flush_with) {
      const bool beside = !flush.without && !clipped(outline, widened(flush.outline)).empty();
      const bool touches = beside || lies_on(outline, flush);
      if (touches && met.insert(flush.id).second) build_.draft.join(id, flush.id, JointKind::slip, inward());
    }
  }

 private:
  [[nodiscard]] Vec3 inward() const {
    if (ends_) return face_ == Face::front ? axis::y : axis::minus_y;
    return face_ == Face::left ? axis::x : axis::minus_x;
  }
  [[nodiscard]] double thickness() const { return spec_.thickness->mm(); }

  bool is_open() {
    const FaceSpec& face = build_.box_spec().face(face_);
    std::string why;
    if (*face.closed_by == Closure::plate)
      why = "its plate is welded on there, and stiffens it more than a brace would";
    if (*face.closed_by == Closure::cover) why = "its cover lies there";
    if (*face.entry) why = "the items go in there";
    if (why.empty()) return true;
    build_.diagnostics.add(diag::say<"brace-not-offered">(slope_.place, to_text(face_), why, to_text(face_)));
    return false;
  }

  // From an edge of the face: as far as the weld needs, clear of the edges of legs and uprights that end there. On
  // tubes beyond their rounding, and no farther than that, since their flats are narrow.
  [[nodiscard]] double land_mm() const {
    const Host& upright = build_.shell.upright[low][low];
    double wall = upright.wall_mm > 0 ? upright.wall_mm : upright.box.size().x;
    double round = upright.round_mm;
    for (const Ring& ring : bones_.rings) {
      wall = std::max(wall, ring.thickness_mm());
      round = std::max(round, ring.section->corner_radius_mm);
    }
    if (round > 0) return round + bead_mm(wall) + beyond_wall_mm;
    return std::max(thickness(), wall) + beyond_wall_mm;
  }

  // A fillet between two is as thick as the thinner.
  [[nodiscard]] double bead_mm(double wall_mm) const { return std::min(thickness(), wall_mm); }

  // Behind the flanges of covers beside it, and off the open ends of tubes that are butted in it: over one it would
  // shut in the hollow before the cap.
  [[nodiscard]] Box2 room_of_face() const {
    const Box3 panel = panel_box(build_, face_);
    const double land = land_mm();
    const bool sawn_ends = !ends_ && bones_.of_tube() && bones_.corners != Corners::mitred;
    double beside = land;
    for (const Ring& ring : bones_.rings) {
      if (sawn_ends) beside = std::max(beside, begins_mm(ring) + bead_mm(ring.thickness_mm()) + beyond_wall_mm);
    }
    const int axis = ends_ ? 0 : 1;
    const double high_z = build_.shell.size.z;
    return {{std::max(beside, along(panel.low, axis)), std::max(land, panel.low.z)},
            {std::min(wide_mm_ - beside, along(panel.high, axis)), std::min(high_z - land, panel.high.z)}};
  }

  // Of a side member's flat, from the frame's face: coped, its heel begins behind the lying legs of those.
  [[nodiscard]] double begins_mm(const Ring& ring) const {
    return bones_.options.gap_mm + (bones_.corners == Corners::mitred ? 0 : ring.lying_mm);
  }

  bool fits(const Box2& room) {
    const double most = widest_part * std::min(room.size().x, room.size().y);
    const double width = spec_.width->mm();
    if (width <= most) return true;
    build_.diagnostics.add(diag::say<"brace-too-wide">(spec_.width.place, build_.in_words(width), to_text(face_),
                                                       build_.in_words(room.size().x), build_.in_words(room.size().y),
                                                       build_.at_most(most)));
    return false;
  }

  // A strip from corner to corner, its ends cut along the members.
  [[nodiscard]] std::vector<Vec2> outline_in(const Box2& room) const {
    const bool rising = *slope_ == Slope::rising;
    const Vec2 from = rising ? room.low : Vec2{room.low.x, room.high.y};
    const Vec2 to = rising ? room.high : Vec2{room.high.x, room.low.y};
    const Vec2 way = (1 / norm(to - from)) * (to - from);
    const Vec2 side{-way.y, way.x};
    const double half = spec_.width->mm() / 2;
    std::vector<Vec2> polygon = corners_of(room);
    polygon = clipped(polygon, from + half * side, side);
    return clipped(polygon, from - half * side, -1 * side);
  }

  InstanceId add(const std::vector<Vec2>& outline) {
    const Vec3 first = ends_ ? axis::x : axis::y;
    const double depth = ends_ ? build_.shell.size.y : build_.shell.size.x;
    const bool near = face_ == Face::front || face_ == Face::left;
    // x cross z runs to the front, y cross z to the right.
    const double outside = near ? 0 : depth + thickness();
    const double plane = ends_ ? outside : outside - thickness();
    const Vec3 origin = ends_ ? Vec3{0, plane, 0} : Vec3{plane, 0, 0};
    Box2 bounds;
    for (const Vec2 p : outline) bounds.add(p);
    std::vector<Vec2> local;
    for (const Vec2 p : outline) local.push_back(p - bounds.low);
    Flat flat;
    flat.profile.outer = Loop::polygon(local);
    flat.thickness_mm = thickness();
    Part part;
    part.mark = "BRC01";
    part.name = "brace";
    part.role = Role::brace;
    part.source = Source::cut;
    part.material = material_of(build_);
    part.size = flat_size_words(bounds.size(), thickness());
    part.form = std::move(flat);
    const Vec3 corner = origin + bounds.low.x * first + bounds.low.y * axis::z;
    return build_.draft.add(std::move(part), Pose::at(corner, first, axis::z), fmt::format("brace {}", to_text(face_)),
                            {build_.key("frame.braces"), slope_.place, "frame"});
  }

  [[nodiscard]] std::vector<Flush> flush_parts() const {
    std::vector<Flush> out;
    for (const Side level : {low, high}) ends_ ? of_end(bones_.rings[level], out) : of_side(level, out);
    for (const Side i : {low, high}) out.push_back(of_upright(i));
    if (!ends_) of_gussets(out);
    return out;
  }

  // All of it, not only what shows between the rings, but for the rounding of a tube.
  [[nodiscard]] Flush of_upright(Side i) const {
    const Side depth = ends_ ? side_of(face_) : i;
    const Side side = ends_ ? i : side_of(face_);
    const auto& facing = build_.shell.upright_face[depth][side];
    const Host& upright = ends_ && facing ? *facing : build_.shell.upright[depth][side];
    const int axis = ends_ ? 0 : 1;
    const double a = build_.draft.pose(upright.id).origin().z;
    const double length = std::get<Member>(build_.draft.part(upright.id).form).length_mm;
    const double b = a + length * build_.draft.pose(upright.id).z().z;
    return {upright.id, corners_of({{along(upright.box.low, axis) + upright.round_mm, std::min(a, b)},
                                    {along(upright.box.high, axis) - upright.round_mm, std::max(a, b)}})};
  }

  // Of a ring's members as they face the side, from below: a tube's flat, an angle's standing leg.
  [[nodiscard]] static Span flat_z(const Ring& ring) {
    const double round = ring.section->shape == SectionShape::tube ? ring.section->corner_radius_mm : 0;
    return {ring.low_z + round, ring.low_z + ring.standing_mm - round};
  }

  void of_gussets(std::vector<Flush>& out) const {
    for (InstanceId id = 0; id < build_.draft.size(); ++id) {
      const Part& part = build_.draft.part(id);
      if (part.role != Role::gusset) continue;
      const Pose& pose = build_.draft.pose(id);
      const double plane = face_ == Face::left ? 0 : build_.shell.size.x;
      const double other = pose.point({0, 0, std::get<Flat>(part.form).thickness_mm}).x;
      // Flush on that side; beside uprights of tube they stand farther in.
      if (std::min(std::abs(pose.origin().x - plane), std::abs(other - plane)) > tolerance::contact_mm) continue;
      std::vector<Vec2> outline;
      for (const Vertex& v : std::get<Flat>(part.form).profile.outer.vertices) {
        const Vec3 at = pose.point({v.at.x, v.at.y, 0});
        outline.push_back({at.y, at.z});
      }
      if (area_mm2(outline) < 0) std::reverse(outline.begin(), outline.end());
      out.push_back({id, std::move(outline)});
    }
  }

  // The front's and the back's members run from side to side.
  void of_end(const Ring& ring, std::vector<Flush>& out) const {
    const Span z = flat_z(ring);
    out.push_back({ring.ids[side_of(face_)], corners_of({{0, z.low}, {wide_mm_, z.high}})});
  }

  // A side member between the ends of the front's and the back's, which, of angle, are sawn square in the side's plane.
  void of_side(Side level, std::vector<Flush>& out) const {
    const Ring& ring = bones_.rings[level];
    const double begin = begins_mm(ring);
    const Span z = flat_z(ring);
    out.push_back({ring.ids[2U + side_of(face_)], corners_of({{begin, z.low}, {wide_mm_ - begin, z.high}})});
    if (bones_.corners == Corners::mitred || bones_.of_tube()) return;
    for (const Side end : {low, high}) of_sawn_end(ring, end, level == low && bones_.up, out);
  }

  // Two legs and the root between them.
  void of_sawn_end(const Ring& ring, Side end, bool heel_down, std::vector<Flush>& out) const {
    const double t = ring.thickness_mm();
    const double r = ring.section->root_radius_mm;
    const double high_z = ring.low_z + ring.standing_mm;
    const auto at = [&](double from_end, double from_heel) {
      return Vec2{end == low ? from_end : wide_mm_ - from_end, heel_down ? ring.low_z + from_heel : high_z - from_heel};
    };
    const auto piece = [&](Vec2 a, Vec2 b) {
      Box2 box;
      box.add(a);
      box.add(b);
      return corners_of(box);
    };
    const InstanceId id = ring.ids[end];
    out.push_back({id, piece(at(0, 0), at(t, ring.standing_mm))});
    out.push_back({id, piece(at(0, 0), at(ring.lying_mm, t))});
    if (r > 0) out.push_back({id, piece(at(t, t), at(t + r, t + r)), Circle{at(t + r, t + r), r}});
  }

  Build& build_;
  const Bones& bones_;
  const BracesSpec& spec_;
  const Sourced<Slope>& slope_;
  Face face_;
  bool ends_;  // front or back
  double wide_mm_;
};

}  // namespace

void add_braces(Build& build, const Bones& bones) {
  const BracesSpec& spec = *build.box_spec().frame.braces;
  for (const Face face : {Face::front, Face::back, Face::left, Face::right}) {
    if (*spec.faces[static_cast<std::size_t>(face)] != Slope::none) Brace(build, bones, face).run();
  }
}

}  // namespace fitup::plan
