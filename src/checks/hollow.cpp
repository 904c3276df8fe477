// A point of the bead, asked whether it is between the walls of a tube and from where it could be reached.
// Entry: in_hollow.
#include "checks/hollow.h"

#include <variant>

#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr double into_bead_mm = 0.1;  // off the faces that it lies on
constexpr double turned = 0.5;        // of a unit direction along the tube

bool is_between(double at, double low, double high) {
  return at > low - tolerance::contact_mm && at < high + tolerance::contact_mm;
}

}  // namespace

bool in_hollow(const Part& part, const Pose& pose, const Seam& seam) {
  const auto* member = std::get_if<Member>(&part.form);
  if (member == nullptr || member->section.shape != SectionShape::tube) return false;
  const Section& s = member->section;
  const Vec3 middle = 0.5 * (seam.from + seam.to);
  const Vec3 at = pose.local(middle + into_bead_mm * seam.side + into_bead_mm * seam.rises);
  const double t = s.thickness_mm;
  // Over a root gap the bead begins on the other part, before the tube's end.
  const double before = seam.gap_mm + into_bead_mm;
  const bool inside = is_between(at.x, t, s.leg_a_mm - t) && is_between(at.y, t, s.leg_b_mm - t) &&
                      is_between(at.z, -before, member->length_mm + before);
  if (!inside) return false;
  const Vec3 to_mouth = at.z < member->length_mm / 2 ? Vec3{} - pose.z() : pose.z();
  return dot(seam.side, to_mouth) < turned && dot(seam.rises, to_mouth) < turned;
}

}  // namespace fitup::checks
