// The flat pattern of a cover whose sheet is bent up at its rims.
// Entry: can_be_bent, bend_up.
#include "plan/bent_cover.h"

#include <array>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/bends.h"
#include "plan/size_words.h"

namespace fitup::plan {

namespace {

double zone_mm(const FlangedFace& f) {
  const double k = f.spec.bend && f.spec.bend->k ? **f.spec.bend->k : din_6935_k(f.radius, f.t);
  return bend_allowance_mm(90, f.radius, k, f.t);
}
// From the frame's edge inwards to the end of the pattern.
double pattern_edge_mm(const FlangedFace& f, const CoverRim& rim) {
  return rim.kind == CoverEdge::laps ? f.tangent_mm() - zone_mm(f) - (f.reach - f.radius) : f.sheet_edge_mm(rim);
}

// One corner of the pattern, counter-clockwise: from the rim that comes to the rim that goes.
void add_corner(const FlangedFace& f, const CoverRim& along_u, const CoverRim& along_v, std::vector<Vec2>& out) {
  const auto at = [&](double in_u, double in_v) {
    return Vec2{f.at_edge(f.u, along_v.side, in_u), f.at_edge(f.v, along_u.side, in_v)};
  };
  const double end_u = pattern_edge_mm(f, along_v);
  const double end_v = pattern_edge_mm(f, along_u);
  if (along_u.kind != CoverEdge::laps || along_v.kind != CoverEdge::laps) {
    out.push_back(at(end_u, end_v));
    return;
  }
  const double inner = f.tangent_mm() + f.relief_mm();
  std::array<Vec2, 3> corners{at(inner, end_v), at(inner, inner), at(end_u, inner)};
  const bool arrives_along_v = along_u.side == along_v.side;
  if (arrives_along_v) std::swap(corners[0], corners[2]);
  out.insert(out.end(), corners.begin(), corners.end());
}

// The line that the middle of a rim's bend is on.
Bend bend_of(const FlangedFace& f, const CoverRim& rim) {
  const double line = f.at_edge(rim.across, rim.side, f.tangent_mm() - zone_mm(f) / 2);
  Bend bend;
  bend.from = f.on_face(rim.run, f.at_edge(rim.run, low, f.flange_end_mm(f.rim_at(rim.run, low))), line);
  bend.to = f.on_face(rim.run, f.at_edge(rim.run, high, f.flange_end_mm(f.rim_at(rim.run, high))), line);
  // Counter-clockwise round the sheet: it stays at the left.
  if ((rim.across == f.v) != (rim.side == low)) std::swap(bend.from, bend.to);
  bend.zone_mm = zone_mm(f);
  bend.radius_mm = f.radius;
  return bend;
}

}  // namespace

bool can_be_bent(const FlangedFace& f) {
  const double least = least_flange_mm(f.radius, f.t) - f.t;
  if (f.reach >= least - tolerance::contact_mm) return true;
  Build& build = f.build;
  build.diagnostics.add(diag::say<"flange-too-low">(f.spec.flange_depth.place, f.word, build.in_words(f.reach + f.t),
                                                    build.in_words(f.t), build.in_words(f.radius),
                                                    build.in_words(least + f.t), build.at_least(least)));
  return false;
}

void bend_up(const FlangedFace& f, InstanceId sheet) {
  const Pose pose = f.build.draft.pose(sheet);
  const auto local = [&](Vec2 at) {
    const Vec3 p = pose.local(f.point(at, 0));
    return Vec2{p.x, p.y};
  };
  std::vector<Vec2> outline;
  for (const auto& [u_side, v_side] : {std::pair{low, low}, {high, low}, {high, high}, {low, high}}) {
    add_corner(f, f.rim_at(f.v, v_side), f.rim_at(f.u, u_side), outline);
  }
  for (Vec2& corner : outline) corner = local(corner);
  Part& part = f.build.draft.part(sheet);
  auto& flat = std::get<Flat>(part.form);
  flat.profile.outer = Loop::polygon(outline);
  const bool up = dot(pose.z(), f.inward()) > 0;
  for (const CoverRim& rim : f.rims) {
    if (rim.kind != CoverEdge::laps) continue;
    Bend bend = bend_of(f, rim);
    bend.from = local(bend.from);
    bend.to = local(bend.to);
    bend.up = up;
    flat.bends.push_back(bend);
  }
  part.size = flat_size_words(flat.profile.bounds().size(), f.t);
}

}  // namespace fitup::plan
