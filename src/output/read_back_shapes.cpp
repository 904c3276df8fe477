// DXF, STL and STEP files against the parts that they are of.
// Entry: flaw_in_dxf, flaw_in_stl, flaw_in_part_step, flaw_in_assembly_step.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "fitup/tolerances.h"
#include "output/flat_drawing.h"
#include "output/labels.h"
#include "output/paths.h"
#include "output/read_back.h"
#include "output/step_scan.h"
#include "output/stl.h"
#include "output/text.h"
#include "output/threemf.h"

namespace fitup::output {
namespace {

bool near(Vec2 a, Vec2 b) { return std::abs(a.x - b.x) <= file_length_mm && std::abs(a.y - b.y) <= file_length_mm; }

bool near(Vec3 a, Vec3 b, double by) {
  return std::abs(a.x - b.x) <= by && std::abs(a.y - b.y) <= by && std::abs(a.z - b.z) <= by;
}

bool near_volume(double a, double b) {
  return std::abs(a - b) <= tolerance::volume_relative * std::max(std::abs(a), std::abs(b));
}

bool same_loop(const Loop& a, const Loop& b) {
  if (a.vertices.size() != b.vertices.size()) return false;
  for (std::size_t i = 0; i < a.vertices.size(); ++i) {
    if (!near(a.vertices[i].at, b.vertices[i].at)) return false;
    if (std::abs(a.vertices[i].bulge - b.vertices[i].bulge) > tolerance::direction) return false;
  }
  return true;
}

double area_of(const std::vector<Loop>& contours) {
  double area = 0;  // the outline comes last, what is before it is cut out
  for (const Loop& loop : contours) area -= loop.area_mm2();
  return area + 2 * contours.back().area_mm2();
}

Flaw flaw_in_contours(const DxfDrawing& drawing, const Profile& profile) {
  if (drawing.cut.size() != profile.holes.size() + 1) {
    return fmt::format("it has {} contours, the part has {}", drawing.cut.size(), profile.holes.size() + 1);
  }
  const Box2 bounds = profile.bounds();
  if (!near(drawing.bounds.low, {}) || !near(drawing.bounds.size(), bounds.size())) {
    return fmt::format("it is {:.6f} x {:.6f} mm, the part is {:.6f} x {:.6f} mm", drawing.bounds.size().x,
                       drawing.bounds.size().y, bounds.size().x, bounds.size().y);
  }
  // A rounded coordinate moves an edge by half a unit of the last decimal over the edge's length.
  const double area = area_of(drawing.cut);
  if (std::abs(area - profile.area_mm2()) > file_length_mm * (profile.perimeter_mm() + 1)) {
    return fmt::format("its area is {:.6f} mm2, the part's {:.6f} mm2", area, profile.area_mm2());
  }
  for (std::size_t i = 0; i <= profile.holes.size(); ++i) {
    const Loop& wanted = i < profile.holes.size() ? profile.holes[i] : profile.outer;
    const auto circle = wanted.as_circle();  // written and read back as one, whatever its corners were
    if (!same_loop(drawing.cut[i], circle ? Loop::circle(circle->centre, circle->radius) : wanted)) {
      return fmt::format("contour {} is not the part's", i + 1);
    }
  }
  return std::nullopt;
}

/// By the part's sizes alone, without the offset: the whole is larger by the kerf, every cut-out is smaller than its
/// own.
bool is_wider_by(double kerf_mm, const DxfDrawing& drawing, const Profile& profile) {
  if (drawing.cut.size() != profile.holes.size() + 1) return false;
  for (std::size_t i = 0; i < profile.holes.size(); ++i) {
    if (drawing.cut[i].area_mm2() >= profile.holes[i].area_mm2()) return false;
  }
  return near(drawing.bounds.size(), profile.bounds().size() + Vec2{kerf_mm, kerf_mm});
}

Flaw flaw_in_notes(const DxfDrawing& drawing, const std::vector<DxfNote>& wanted) {
  if (drawing.notes.size() != wanted.size()) {
    return fmt::format("it has {} notes of {}", drawing.notes.size(), wanted.size());
  }
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    if (drawing.notes[i].text != dxf_text(wanted[i].text)) {
      return fmt::format("it says '{}' instead of '{}'", drawing.notes[i].text, wanted[i].text);
    }
  }
  return std::nullopt;
}

std::string control_as_space(std::string text) {
  for (char& c : text) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = ' ';
  }
  return text;
}

bool reaches(const Box3& outer, const Box3& inner, double by) {
  return outer.low.x <= inner.low.x + by && outer.low.y <= inner.low.y + by && outer.low.z <= inner.low.z + by &&
         outer.high.x >= inner.high.x - by && outer.high.y >= inner.high.y - by && outer.high.z >= inner.high.z - by;
}

bool has_corner(const StepShape& shape, Vec3 at) {
  return std::any_of(shape.corners.begin(), shape.corners.end(),
                     [&](Vec3 corner) { return near(corner, at, tolerance::contact_mm); });
}

bool has_circle(const StepShape& shape, Vec3 centre, double radius_mm) {
  return std::any_of(shape.circles.begin(), shape.circles.end(), [&](const StepCircle& circle) {
    return near(circle.centre, centre, tolerance::contact_mm) &&
           std::abs(circle.radius_mm - radius_mm) <= tolerance::contact_mm;
  });
}

Flaw flaw_in_loop(const StepShape& shape, const Loop& loop, double z) {
  if (const auto circle = loop.as_circle()) {
    if (has_circle(shape, {circle->centre.x, circle->centre.y, z}, circle->radius)) return std::nullopt;
    return fmt::format("there is no hole of {:.3f} mm at {:.3f}, {:.3f}", 2 * circle->radius, circle->centre.x,
                       circle->centre.y);
  }
  for (const Vertex& v : loop.vertices) {
    if (!has_corner(shape, {v.at.x, v.at.y, z}))
      return fmt::format("there is no corner at {:.3f}, {:.3f}", v.at.x, v.at.y);
  }
  return std::nullopt;
}

std::size_t faces_round(const Loop& loop) { return loop.as_circle() ? 1 : loop.vertices.size(); }

/// Each corner, hole and face of the profile, at both of its sides.
Flaw flaw_in_flat(const StepShape& shape, const Flat& flat) {
  std::size_t faces = 2 + faces_round(flat.profile.outer) + flat.drilled.size();
  for (const Loop& hole : flat.profile.holes) faces += faces_round(hole);
  if (shape.faces != faces) return fmt::format("it has {} faces, the part {}", shape.faces, faces);
  for (const double z : {0.0, flat.thickness_mm}) {
    if (auto flaw = flaw_in_loop(shape, flat.profile.outer, z)) return flaw;
    for (const Loop& hole : flat.profile.holes) {
      if (auto flaw = flaw_in_loop(shape, hole, z)) return flaw;
    }
    for (const DrilledHole& hole : flat.drilled) {
      if (auto flaw = flaw_in_loop(shape, Loop::circle(hole.at, 0.5 * hole.diameter_mm), z)) return flaw;
    }
  }
  return std::nullopt;
}

/// Its corners lie in the part's bounds, and with its whole circles it fills them.
Flaw flaw_in_shape(const StepShape& shape, const Part& part, const PartSolid& solid) {
  if (!reaches(solid.bounds, corner_box(shape), tolerance::contact_mm) ||
      !reaches(reach_box(shape), solid.bounds, tolerance::contact_mm)) {
    const Vec3 is = corner_box(shape).size();
    const Vec3 wanted = solid.bounds.size();
    return fmt::format("its corners span {:.3f} x {:.3f} x {:.3f} mm, the part {:.3f} x {:.3f} x {:.3f} mm", is.x, is.y,
                       is.z, wanted.x, wanted.y, wanted.z);
  }
  const auto* flat = std::get_if<Flat>(&part.form);
  return flat == nullptr || !flat->bends.empty() ? std::nullopt : flaw_in_flat(shape, *flat);
}

Flaw flaw_in_product(const StepFacts& facts, const Part& part, const PartSolid& solid) {
  const auto found = facts.products.find(part.mark);
  if (found == facts.products.end()) return fmt::format("the product {} is missing", part.mark);
  if (found->second.name != control_as_space(fmt::format("{} {}", part.mark, part.name))) {
    return fmt::format("the product {} is called '{}'", part.mark, found->second.name);
  }
  if (!found->second.volume_mm3) return fmt::format("the volume of {} is not stated", part.mark);
  if (!near_volume(*found->second.volume_mm3, solid.volume_mm3)) {
    return fmt::format("the volume of {} is {:.3f} mm3, the model's {:.3f} mm3", part.mark, *found->second.volume_mm3,
                       solid.volume_mm3);
  }
  if (found->second.solids.size() != 1) return fmt::format("{} is {} solids", part.mark, found->second.solids.size());
  return flaw_in_shape(found->second.solids.front(), part, solid);
}

bool same_pose(const Pose& a, const Pose& b) {
  return near(a.origin(), b.origin(), file_length_mm) && near(a.x(), b.x(), tolerance::direction) &&
         near(a.y(), b.y(), tolerance::direction);
}

/// A place in the assembly, found by the part's mark and the instance's name.
using UseName = std::pair<std::string, std::string>;

std::map<UseName, Pose> placed_parts(const StepFacts& facts) {
  std::map<std::string, Pose> groups;  // those that stand in the top product
  for (const StepUseFacts& use : facts.uses) {
    const bool inner =
        std::any_of(facts.uses.begin(), facts.uses.end(), [&](const auto& u) { return u.parent == use.child; });
    if (inner) groups[use.child] = use.pose;
  }
  std::map<UseName, Pose> placed;
  for (const StepUseFacts& use : facts.uses) {
    if (groups.count(use.child) > 0) continue;
    const auto group = groups.find(use.parent);
    placed[{use.child, use.name}] = group == groups.end() ? use.pose : group->second * use.pose;
  }
  return placed;
}

Flaw flaw_in_places(const StepFacts& facts, const Plan& plan) {
  const auto placed = placed_parts(facts);
  if (placed.size() != plan.instances.size()) {
    return fmt::format("it places {} parts, the plan {}", placed.size(), plan.instances.size());
  }
  for (const Instance& instance : plan.instances) {
    const std::string& mark = plan.parts.at(instance.part).mark;
    const auto found = placed.find({mark, control_as_space(instance.name)});
    if (found == placed.end()) return fmt::format("{} '{}' is not placed", mark, instance.name);
    if (!same_pose(found->second, instance.pose)) return fmt::format("{} '{}' stands elsewhere", mark, instance.name);
  }
  return std::nullopt;
}

/// The mesh stands off the surface by the deflection at most, so the volume by that over the area at most.
Flaw flaw_in_mesh_volume(double volume_mm3, const PartSolid& solid) {
  const double allowed = print_deflection_mm * solid.area_mm2 + 1e-6 * solid.volume_mm3;
  if (std::abs(volume_mm3 - solid.volume_mm3) <= allowed) return std::nullopt;
  return fmt::format("its volume is {:.3f} mm3, the part's {:.3f} mm3", volume_mm3, solid.volume_mm3);
}

Flaw flaw_in_header(const StepFacts& facts, const JobInfo& info) {
  const bool ap242 = info.step == StepSchema::ap242;
  if (!facts.schema.starts_with(ap242 ? "AP242_MANAGED_MODEL_BASED_3D_ENGINEERING" : "AUTOMOTIVE_DESIGN")) {
    return fmt::format("its schema is '{}'", facts.schema);
  }
  const std::string wanted = control_as_space(step_description(info));
  if (facts.description == wanted) return std::nullopt;
  return fmt::format("it is called '{}' instead of '{}'", facts.description, wanted);
}

Flaw flaw_in_bends(const DxfDrawing& drawing, const DxfDrawing& wanted) {
  if (drawing.bend.size() != wanted.bend.size()) {
    return fmt::format("it has {} bends, the part {}", drawing.bend.size(), wanted.bend.size());
  }
  for (std::size_t i = 0; i < wanted.bend.size(); ++i) {
    const bool same = near(drawing.bend[i].from, wanted.bend[i].from) && near(drawing.bend[i].to, wanted.bend[i].to);
    if (!same) return fmt::format("bend {} is elsewhere", i + 1);
  }
  return std::nullopt;
}

}  // namespace

Flaw flaw_in_dxf(const std::string& bytes, const Part& part, const JobInfo& info, Release release) {
  const auto read = read_dxf(bytes, info.flat.units);
  if (const auto* flaw = std::get_if<std::string>(&read)) return *flaw;
  const DxfDrawing& drawing = std::get<DxfDrawing>(read);
  const Flat& flat = std::get<Flat>(part.form);
  if (drawing.units != info.flat.units) return "its unit is not the one that was asked for";
  if (drawing.release != info.flat.release) return "its release is not the one that was asked for";
  if (drawing.cut.empty()) return "nothing is cut";
  const DxfDrawing wanted = flat_drawing(part, info, flat_warning(release));
  if (drawing.mark.size() != wanted.mark.size() || wanted.mark.size() < 2 * flat.drilled.size()) {
    return fmt::format("it marks {} lines, the part has {}", drawing.mark.size(), wanted.mark.size());
  }
  if (auto flaw = flaw_in_bends(drawing, wanted)) return flaw;
  const CutProfile cut = cut_profile(flat, info.flat.kerf_mm);
  if (cut.allows_for_kerf && !is_wider_by(info.flat.kerf_mm, drawing, flat.profile)) {
    return fmt::format("its outline and cut-outs do not allow for a kerf of {:.6g} mm", info.flat.kerf_mm);
  }
  const Vec2 by = Vec2{} - cut.profile.bounds().low;
  for (std::size_t i = 0; i < flat.drilled.size(); ++i) {
    for (const std::size_t line : {2 * i, 2 * i + 1}) {
      const DxfLine& is = drawing.mark[line];
      if (!near(0.5 * (is.from + is.to), flat.drilled[i].at + by))
        return fmt::format("drilled hole {} is marked elsewhere", i + 1);
      if (!near(is.from, wanted.mark[line].from) || !near(is.to, wanted.mark[line].to))
        return fmt::format("the cross on drilled hole {} has other ends", i + 1);
    }
  }
  for (std::size_t i = 2 * flat.drilled.size(); i < wanted.mark.size(); ++i) {
    if (!near(drawing.mark[i].from, wanted.mark[i].from) || !near(drawing.mark[i].to, wanted.mark[i].to)) {
      return fmt::format("line {} of what is marked is elsewhere", i + 1);
    }
  }
  if (auto flaw = flaw_in_notes(drawing, wanted.notes)) return flaw;
  return flaw_in_contours(drawing, moved_to_origin(cut.profile));
}

Flaw flaw_in_stl(const std::string& bytes, const Part& part, const PartSolid& solid, const JobInfo& info) {
  const auto facts = read_stl(bytes);
  if (!facts) return "its size is not 84 + 50 for each triangle";
  if (facts->header != stl_header(stl_title(part, info))) return "its header is of another part or job";
  if (facts->triangles < 4) return fmt::format("it has {} triangles", facts->triangles);
  if (facts->open_edges > 0) return fmt::format("it is not closed: {} open edges", facts->open_edges);
  return flaw_in_mesh_volume(facts->volume_mm3, solid);
}

Flaw flaw_in_3mf(const std::string& bytes, const Part& part, const PartSolid& solid, const JobInfo& info) {
  const auto facts = read_3mf(bytes);
  if (!facts) return "it is not a package with one model";
  if (!facts->in_millimetres) return "it is not in millimetres";
  if (facts->title != xml_text(threemf_title(part)) || facts->name != threemf_title(part) ||
      facts->part_number != part.mark) {
    return fmt::format("it is called '{}', its object '{}'", facts->title, facts->name);
  }
  if (facts->description != xml_text(threemf_description(info))) return "it is of another job";
  if (facts->triangles < 4) return fmt::format("it has {} triangles", facts->triangles);
  if (facts->open_edges > 0) return fmt::format("it is not closed: {} open edges", facts->open_edges);
  return flaw_in_mesh_volume(facts->volume_mm3, solid);
}

Flaw flaw_in_part_step(const std::string& bytes, const Part& part, const PartSolid& solid, const JobInfo& info) {
  const auto read = scan_step(bytes);
  if (const auto* flaw = std::get_if<std::string>(&read)) return *flaw;
  const StepFacts& facts = std::get<StepFacts>(read);
  if (auto flaw = flaw_in_header(facts, info)) return flaw;
  if (facts.products.size() != 1) return fmt::format("it has {} products", facts.products.size());
  if (facts.solids != 1) return fmt::format("it has {} solids", facts.solids);
  return flaw_in_product(facts, part, solid);
}

Flaw flaw_in_assembly_step(const std::string& bytes, const Plan& plan, const Model& model, const JobInfo& info) {
  const auto read = scan_step(bytes);
  if (const auto* flaw = std::get_if<std::string>(&read)) return *flaw;
  const StepFacts& facts = std::get<StepFacts>(read);
  if (auto flaw = flaw_in_header(facts, info)) return flaw;
  std::set<PartId> used;
  std::set<std::string> groups;
  for (const Instance& instance : plan.instances) {
    used.insert(instance.part);
    groups.insert(instance.group);
  }
  if (facts.solids != used.size()) return fmt::format("it has {} solids, the plan {} parts", facts.solids, used.size());
  if (facts.products.size() != used.size() + groups.size() + 1) {
    return fmt::format("it has {} products; {} parts, {} groups and the whole were expected", facts.products.size(),
                       used.size(), groups.size());
  }
  for (const PartId id : used) {
    if (auto flaw = flaw_in_product(facts, plan.parts.at(id), model.parts.at(id))) return flaw;
  }
  return flaw_in_places(facts, plan);
}

}  // namespace fitup::output
