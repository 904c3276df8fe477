// Flanges of covers that are lengths of angle.
// Entry: can_have_angles, add_angle, towards_whole.
#include "plan/angle_flanges.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/end_cut.h"
#include "plan/size_words.h"

namespace fitup::plan {

namespace {

bool mitred(const FlangedFace& f) { return *f.spec.flange_corners == FlangeCorners::mitred; }
bool coped(const FlangedFace& f) { return *f.spec.flange_corners == FlangeCorners::coped; }
double weld_gap_mm(const FlangedFace& f) { return f.build.box_spec().frame.cope_gap->mm(); }

// Half the gap, along the heel, on the snap grid.
double behind_mitre_mm(const FlangedFace& f) {
  return std::round(weld_gap_mm(f) / std::sqrt(2.0) / tolerance::snap_mm) * tolerance::snap_mm;
}

bool refuse(const FlangedFace& f, const Place& place, const std::string& why, std::string_view choice) {
  f.build.diagnostics.add(diag::say<"face-not-offered">(place, f.word, "a cover with flanges of angle", why, choice));
  return false;
}

// From the frame's edge inwards to where the heel's line ends.
double heel_end_mm(const FlangedFace& f, const CoverRim& rim, const CoverRim& end) {
  if (end.kind != CoverEdge::laps) return f.flange_begins_mm(rim, end);
  if (mitred(f)) return behind_mitre_mm(f) - f.out;
  return rim.across == f.v || coped(f) ? -f.out : f.beside_whole_mm();
}

// A length of angle before its ends are cut: leg A lies on the sheet, leg B laps the frame.
struct Run {
  Pose pose;
  double length_mm = 0;
  bool forward = true;  // from the rim's low end to its high one
};

Run run_of(const FlangedFace& f, const CoverRim& rim) {
  const double over = f.at_edge(rim.across, rim.side, -f.out);
  const double outside = -f.t - f.angle->thickness_mm;
  const auto end = [&](Side side) {
    const double in = heel_end_mm(f, rim, f.rim_at(rim.run, side));
    return f.point(f.on_face(rim.run, f.at_edge(rim.run, side, in), over), outside);
  };
  const Vec3 a = end(low);
  const Vec3 b = end(high);
  // A proper pose runs from the end that makes it so.
  const Vec3 lying = f.onto(rim);
  const bool forward = dot(cross(lying, f.inward()), b - a) > 0;
  return {Pose::at(forward ? a : b, lying, f.inward()), norm(b - a), forward};
}

void mitre_corners(const FlangedFace& f, const CoverRim& rim, bool forward, Member& member) {
  const bool at_first = f.rim_at(rim.run, low).kind == CoverEdge::laps;
  const bool at_last = f.rim_at(rim.run, high).kind == CoverEdge::laps;
  if (forward ? at_first : at_last) member.start.mitre = Leg::a;
  if (forward ? at_last : at_first) member.end.mitre = Leg::a;
}

// To the profile of those that run whole, as a frame's members are.
void cope_corners(const FlangedFace& f, const CoverRim& rim, Member& member, Pose& pose) {
  std::vector<Obstacle> whole;
  for (const Side side : {low, high}) {
    const CoverRim& other = f.rim_at(rim.run, side);
    if (other.kind != CoverEdge::laps) continue;
    const Run run = run_of(f, other);
    whole.push_back({*f.angle, run.pose, run.length_mm, fmt::format("the {} flange", to_text(other.beside))});
  }
  const EndCutOptions options{weld_gap_mm(f), CornerKind::chamfer, f.build.spec.units};
  const EndCutResult cut = derive_end_cuts(member, pose, whole, options);
  if (cut.ok) return;
  f.build.diagnostics.add(diag::say<"end-cut">(
      f.spec.flange_section.place, fmt::format("{} cover flange {}", f.word, to_text(rim.beside)), cut.problem));
}

}  // namespace

bool can_have_angles(const FlangedFace& f) {
  const Place& place = f.spec.flange_section.place;
  if (f.angle->leg_a_mm != f.angle->leg_b_mm) {
    return refuse(f, place, "of an unequal one it is not known which leg laps the frame", "an equal angle");
  }
  const double least = std::max(f.ring_row_mm(), f.side_row_mm()) + f.edge_mm();
  if (f.reach < least - tolerance::contact_mm) {
    return refuse(
        f, place,
        fmt::format("its legs reach {} over the frame, and the screws in them need {}", f.build.in_words(f.reach),
                    f.build.in_words(least)),
        fmt::format("an angle with legs of at least {}", f.build.at_least(least + f.t + f.angle->thickness_mm)));
  }
  return true;
}

InstanceId add_angle(const FlangedFace& f, const CoverRim& rim) {
  const Section& section = *f.angle;
  Run run = run_of(f, rim);
  Member member{section, run.length_mm, square_cut(section), square_cut(section), {}};
  if (mitred(f)) mitre_corners(f, rim, run.forward, member);
  if (coped(f) && rim.across == f.u) cope_corners(f, rim, member, run.pose);
  Part part;
  const bool whole = rim.across == f.v;
  part.mark = fmt::format("ANG{}", f.mark(whole ? (rim.side == high ? 2 : 3) : 1).substr(3));
  part.name = (whole ? std::string(to_text(rim.beside)) : std::string("side")) + " flange angle";
  part.role = Role::cover_flange;
  part.source = Source::sawn;
  part.material = material_of(f.build);
  part.size = fmt::format("{} x {} mm", section.designation, plain(member.length_mm));
  part.form = member;
  return f.build.draft.add(std::move(part), run.pose, fmt::format("{} cover flange {}", f.word, to_text(rim.beside)),
                           f.origin(f.word + " cover"));
}

Vec3 towards_whole(const FlangedFace& f, const CoverRim& between, Side end) {
  const Vec3 way = unit(between.run, end);
  if (!mitred(f)) return way;
  return std::sqrt(0.5) * (way + unit(between.across, between.side == low ? high : low));
}

}  // namespace fitup::plan
