// Mitred ends: where two equal angles meet in a corner, each sawn off at 45 degrees.
// Entry: mitre_ends, add_mitred_runs, mitre_loss_mm3.
#include "plan/mitre.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "fitup/tolerances.h"
#include "plan/section_cut.h"

namespace fitup::plan {

namespace {

// Where the root fillet's layers begin and end, as shares of its radius from the lying leg's face: its depth falls
// fastest at first.
constexpr std::array<double, 7> layers{0, 0.01, 0.05, 0.15, 0.35, 0.65, 1};

// One end's mitre, drawn with x along the member from this end and y along the mitre's leg.
struct End {
  const Section& section;
  Leg leg;
  std::optional<double> end_at;

  // Between the two distances from the heel, from the mitre to where it ends.
  [[nodiscard]] Prism piece(double heel_from, double heel_to, double across_from, double across_to) const {
    const double run = width_mm(section, leg);
    std::vector<Vec2> corners{{heel_from, heel_from}, {run, heel_from}, {run, heel_to}};
    if (run - heel_to > same_place_mm) corners.push_back({heel_to, heel_to});
    return {{Loop::polygon(corners), {}}, mitre_plane(leg, across_from, across_to, end_at), across_to - across_from};
  }

  void add(double toe_mm, bool outer, std::vector<Prism>& out) const {
    const double t = section.thickness_mm;
    const double r = section.root_radius_mm;
    const double lying = width_mm(section, leg) - toe_mm;
    const double standing = width_mm(section, leg == Leg::a ? Leg::b : Leg::a) - toe_mm;
    out.push_back(piece(0, t, 0, standing));
    out.push_back(piece(t, lying, 0, t));
    for (std::size_t i = 0; i + 1 < layers.size() && r > 0; ++i) {
      const double depth = fillet_depth_mm(r, r * layers[outer ? i : i + 1]);
      if (depth > same_place_mm) out.push_back(piece(t, t + depth, t + r * layers[i], t + r * layers[i + 1]));
    }
  }
};

}  // namespace

EndCutResult mitre_ends(Member& member, Pose& pose, Leg leg, const EndCutOptions& options) {
  const double by = std::round(options.gap_mm / std::sqrt(2.0) / tolerance::snap_mm) * tolerance::snap_mm;
  const double whole = member.length_mm - 2 * (by + width_mm(member.section, leg));
  if (whole < stub_mm(member.section)) {
    return {false, fmt::format("only {} of its {} would be left whole between its mitres",
                               in_words(whole, options.units), in_words(member.length_mm, options.units))};
  }
  member.start.mitre = leg;
  member.end.mitre = leg;
  member.length_mm -= 2 * by;
  pose = pose.moved(by * pose.z());
  return {true, {}};
}

Member without_mitres(Member member) {
  member.start.mitre.reset();
  member.end.mitre.reset();
  return member;
}

double mitre_loss_mm3(const Member& member) {
  double loss = 0;
  for (const EndCut* end : {&member.start, &member.end}) {
    if (!end->mitre) continue;
    const Profile section = profile_of(member.section);
    const Vec2 centroid = section.centroid();
    loss += section.area_mm2() * (*end->mitre == Leg::a ? centroid.x : centroid.y);
  }
  return loss;
}

double mitre_run_mm(const Section& section, const EndCut& end) { return end.mitre ? width_mm(section, *end.mitre) : 0; }

void add_mitred_runs(const Member& member, Body& body) {
  const Section& s = member.section;
  for (const EndCut* end : {&member.start, &member.end}) {
    if (!end->mitre) continue;
    const End at{s, *end->mitre, end == &member.end ? std::optional(member.length_mm) : std::nullopt};
    at.add(0, true, body.outer);
    at.add(std::min(s.toe_radius_mm, s.thickness_mm), false, body.inner);
  }
}

}  // namespace fitup::plan
