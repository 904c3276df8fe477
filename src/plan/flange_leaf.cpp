// What of a flange can be notched, and the notching: profiles, flat patterns, numbers of a member.
// Entry: leaves_of, on_leaf, cut_leaf.
#include "plan/flange_leaf.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "fitup/tolerances.h"
#include "plan/bends.h"
#include "plan/cut_out.h"
#include "plan/end_cut.h"
#include "plan/face_axes.h"
#include "plan/mitre.h"

namespace fitup::plan {

namespace {

constexpr double corner_radius_mm = 3;     // of a notch, where a cutter turns in
constexpr double widest_web_mm = 3;        // asked for beside a notch; a thinner sheet asks for its thickness
constexpr double beside_weld_mm = 5;       // of a strip beside its weld, and two thicknesses (common practice)
constexpr double least_tongue_mm = 10;     // of a leg between two notches, and between one and the end
constexpr double same_place_in_mm = 1e-6;  // of a corner of a pattern

Vec3 inward_of(Face face) { return unit(axis_of(face), side_of(face) == low ? high : low); }

// The side of the frame that a slab lies over.
Face beside_of(const Build& build, int normal, const Box3& slab) {
  const double middle = along(slab.middle(), normal);
  return face_at(normal, middle < along(build.shell.size, normal) / 2 ? low : high);
}

Box3 placed(const Pose& pose, const Box3& local) {
  Box3 box;
  box.add(pose.point(local.low));
  box.add(pose.point(local.high));
  return box;
}

int thin_axis(const Box3& box) {
  const Vec3 size = box.size();
  return size.x <= size.y && size.x <= size.z ? 0 : size.y <= size.z ? 1 : 2;
}

FlangeLeaf strip_leaf(const Build& build, Face face, InstanceId id, const Flat& flat) {
  FlangeLeaf leaf;
  const Vec2 size = flat.profile.bounds().size();
  leaf.id = id;
  leaf.slab = placed(build.draft.pose(id), {{0, 0, 0}, {size.x, size.y, flat.thickness_mm}});
  leaf.rise = inward_of(face);
  const int normal = thin_axis(leaf.slab);
  const int run = 3 - normal - axis_of(face);
  leaf.along = unit(run, high);
  leaf.corner = leaf.slab.low;
  if (side_of(face) == high) along(leaf.corner, axis_of(face)) = along(leaf.slab.high, axis_of(face));
  leaf.length_mm = along(leaf.slab.size(), run);
  leaf.height_mm = along(leaf.slab.size(), axis_of(face));
  leaf.thickness_mm = flat.thickness_mm;
  leaf.least_mm = std::max(2 * flat.thickness_mm, beside_weld_mm);
  leaf.why = "beside its weld to the sheet (two thicknesses, at least 5 mm: common practice)";
  leaf.beside = beside_of(build, normal, leaf.slab);
  return leaf;
}

FlangeLeaf bent_leaf(const Build& build, InstanceId id, const Flat& flat, std::size_t bend) {
  const Pose& pose = build.draft.pose(id);
  const BentSide side = bent_side(flat.bends[bend], flat.thickness_mm);
  FlangeLeaf leaf;
  leaf.id = id;
  leaf.kind = FlangeLeaf::Kind::bent;
  leaf.bend = bend;
  leaf.corner = pose.point(side.corner);
  leaf.along = pose.turn({side.run.x, side.run.y, 0});
  leaf.rise = pose.turn(side.rise);
  const Prism prism = bent_prisms(flat)[2 + 2 * bend];
  leaf.slab = Prism{prism.profile, pose * prism.pose, prism.length_mm}.bounds();
  leaf.length_mm = side.length_mm;
  leaf.height_mm = std::abs(dot(leaf.slab.size(), leaf.rise));
  leaf.thickness_mm = flat.thickness_mm;
  const double radius = flat.bends[bend].radius_mm;
  leaf.least_mm = least_flange_mm(radius, flat.thickness_mm) - flat.thickness_mm - radius;
  leaf.why = "beyond its bend to lie on the die";
  leaf.beside = beside_of(build, thin_axis(leaf.slab), leaf.slab);
  return leaf;
}

FlangeLeaf leg_leaf(const Build& build, InstanceId id, const Member& member, Leg leg) {
  const Pose& pose = build.draft.pose(id);
  const Section& s = member.section;
  const bool a = leg == Leg::a;
  FlangeLeaf leaf;
  leaf.id = id;
  leaf.kind = a ? FlangeLeaf::Kind::leg_a : FlangeLeaf::Kind::leg_b;
  leaf.corner = pose.origin();
  leaf.along = pose.z();
  leaf.rise = a ? pose.x() : pose.y();
  leaf.length_mm = member.length_mm;
  leaf.height_mm = a ? s.leg_a_mm : s.leg_b_mm;
  leaf.thickness_mm = s.thickness_mm;
  const double t = s.thickness_mm;
  leaf.slab =
      placed(pose, {{0, 0, 0}, a ? Vec3{s.leg_a_mm, t, member.length_mm} : Vec3{t, s.leg_b_mm, member.length_mm}});
  leaf.least_mm = t + s.root_radius_mm;
  leaf.why = "for its root to stay whole";
  // Both legs are of the rim that leg B laps.
  const Box3 lapping = placed(pose, {{0, 0, 0}, {t, s.leg_b_mm, member.length_mm}});
  leaf.beside = beside_of(build, thin_axis(lapping), lapping);
  return leaf;
}

// From the leaf's rectangle to a plane: where its corner is there, and which way its two edges run.
struct Plane {
  Vec2 corner;
  Vec2 along;
  Vec2 rise;
  [[nodiscard]] Vec2 at(Vec2 p) const { return corner + p.x * along + p.y * rise; }
  [[nodiscard]] bool mirrored() const { return along.x * rise.y - along.y * rise.x < 0; }
  // Turned over, an outline runs the other way; its arcs then bulge as before.
  [[nodiscard]] Loop put(const Loop& loop) const {
    Loop out = mirrored() ? loop.reversed() : loop;
    for (Vertex& v : out.vertices) v = {at(v.at), mirrored() ? -v.bulge : v.bulge};
    return out;
  }
};

std::string cut_sheet(Flat& flat, const FlangeLeaf& leaf, const std::vector<Box2>& cuts, const Plane& plane) {
  const Vec2 size{leaf.length_mm, leaf.height_mm};
  const double web = std::min(flat.thickness_mm, widest_web_mm);
  const CutOut left = cut_out(size, without_slivers(size, cuts, web), corner_radius_mm);
  if (left.pieces != 1) return "it would be cut in two";
  const Loop outline = plane.put(left.profile.outer);
  if (leaf.kind == FlangeLeaf::Kind::strip) {
    flat.profile.outer = outline;
  } else {
    const auto same = [](Vec2 a, Vec2 b) { return norm(a - b) < same_place_in_mm; };
    std::vector<Vertex> path = outline.vertices;
    const auto first =
        std::find_if(path.begin(), path.end(), [&](const Vertex& v) { return same(v.at, plane.corner); });
    if (first == path.end()) return "it would be cut off its bend";
    std::rotate(path.begin(), first, path.end());
    if (!same(path.back().at, plane.at({size.x, 0}))) return "it would be cut off its bend";
    auto& all = flat.profile.outer.vertices;
    const auto corner = std::find_if(all.begin(), all.end(), [&](const Vertex& v) {
      return same(v.at, plane.at({0, size.y}));
    });
    if (corner == all.end()) return "it has been notched before";
    std::rotate(all.begin(), corner, all.end());
    if (all.size() < 2 || !same(all[1].at, plane.at(size))) return "it has been notched before";
    all.erase(all.begin(), all.begin() + 2);
    all.insert(all.begin(), path.begin() + 1, path.end() - 1);
  }
  for (const Loop& hole : left.profile.holes) flat.profile.holes.push_back(plane.put(hole));
  return {};
}

// Nearer to each other than a tongue they are one, as deep as the deeper.
std::vector<Box2> merged(std::vector<Box2> cuts) {
  std::sort(cuts.begin(), cuts.end(), [](const Box2& a, const Box2& b) { return a.low.x < b.low.x; });
  std::vector<Box2> out;
  for (const Box2& cut : cuts) {
    if (out.empty() || cut.low.x - out.back().high.x >= least_tongue_mm) {
      out.push_back(cut);
      continue;
    }
    out.back().high.x = std::max(out.back().high.x, cut.high.x);
    out.back().low.y = std::min(out.back().low.y, cut.low.y);
  }
  return out;
}

double snapped(double mm) { return std::round(mm / tolerance::snap_mm) * tolerance::snap_mm + 0.0; }

std::string cut_leg(Member& member, const FlangeLeaf& leaf, const std::vector<Box2>& cuts) {
  const Leg leg = leaf.kind == FlangeLeaf::Kind::leg_a ? Leg::a : Leg::b;
  const double length = member.length_mm;
  Member made = member;
  for (const Box2& cut : merged(cuts)) {
    const bool at_start = cut.low.x < least_tongue_mm;
    const bool at_end = cut.high.x > length - least_tongue_mm;
    const bool in_start = member.start.mitre && cut.low.x < mitre_run_mm(member.section, member.start);
    const bool in_end = member.end.mitre && cut.high.x > length - mitre_run_mm(member.section, member.end);
    if (at_start && at_end) return "nothing of its leg would stay";
    if (in_start || in_end) return "it would reach into a mitre";
    const double keeps = snapped(cut.low.y);
    if (at_start) {
      take_from_end(made.start, member.section, leg, keeps, snapped(cut.high.x));
    } else if (at_end) {
      take_from_end(made.end, member.section, leg, keeps, snapped(length - cut.low.x));
    } else {
      made.notches.push_back({leg, snapped(cut.low.x), snapped(cut.high.x), snapped(leaf.height_mm - keeps)});
    }
  }
  member = std::move(made);
  return {};
}

}  // namespace

std::vector<FlangeLeaf> leaves_of(const Build& build, Face face) {
  std::vector<FlangeLeaf> leaves;
  const std::string key = build.key("face." + std::string(to_text(face)));
  for (InstanceId id = 0; id < build.draft.size(); ++id) {
    if (build.draft.instance(id).key != key) continue;
    const Part& part = build.draft.part(id);
    if (part.role != Role::cover_flange && part.role != Role::cover_sheet) continue;
    if (const auto* member = std::get_if<Member>(&part.form)) {
      for (const Leg leg : {Leg::a, Leg::b}) leaves.push_back(leg_leaf(build, id, *member, leg));
    } else if (const auto* flat = std::get_if<Flat>(&part.form)) {
      if (part.role == Role::cover_flange) leaves.push_back(strip_leaf(build, face, id, *flat));
      for (std::size_t bend = 0; bend < flat->bends.size(); ++bend) leaves.push_back(bent_leaf(build, id, *flat, bend));
    }
  }
  return leaves;
}

Box2 on_leaf(const FlangeLeaf& leaf, const Box3& box) {
  Box2 out;
  for (const Vec3 p : {box.low, box.high}) {
    const Vec3 from = p - leaf.corner;
    out.add({dot(from, leaf.along), dot(from, leaf.rise)});
  }
  return out;
}

std::string cut_leaf(Build& build, const FlangeLeaf& leaf, const std::vector<Box2>& cuts) {
  Part& part = build.draft.part(leaf.id);
  if (auto* member = std::get_if<Member>(&part.form)) return cut_leg(*member, leaf, cuts);
  auto& flat = std::get<Flat>(part.form);
  if (leaf.kind == FlangeLeaf::Kind::bent) {
    const BentSide side = bent_side(flat.bends[leaf.bend], flat.thickness_mm);
    return cut_sheet(flat, leaf, cuts, {side.foot, side.run, side.out});
  }
  const Pose to_part = build.draft.pose(leaf.id).inverse();
  const auto flat_of = [](Vec3 p) { return Vec2{p.x, p.y}; };
  return cut_sheet(
      flat, leaf, cuts,
      {flat_of(to_part.point(leaf.corner)), flat_of(to_part.turn(leaf.along)), flat_of(to_part.turn(leaf.rise))});
}

}  // namespace fitup::plan
