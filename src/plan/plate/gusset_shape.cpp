// The outline of a gusset with tabs along one leg.
// Entry: GussetShape.
#include "plan/plate/gusset_shape.h"

#include <algorithm>

#include "fitup/tolerances.h"
#include "plan/gusset_part.h"

namespace fitup::plan::plate {

namespace {

constexpr double leg_step_mm = 1;
constexpr double least_welded = 0.25;  // of the seam at either side of the tab, so that there is one (common practice)

}  // namespace

double GussetShape::snipe_mm() const { return gusset_snipe_mm(leg_mm, std::max(thickness_mm, through_mm)); }

double GussetShape::nose_mm() const { return gusset_nose_mm(leg_mm, thickness_mm); }

std::vector<Stretch> GussetShape::tabs() const {
  const double snipe = snipe_mm();
  const double seam = leg_mm - snipe;
  std::vector<Stretch> out = tabs_along(seam, thickness_mm, 0, std::max(beside_mm, seam * least_welded));
  for (Stretch& tab : out) tab = {tab.from_mm + snipe, tab.to_mm + snipe};
  return out;
}

double GussetShape::least_leg_mm() const {
  GussetShape other = *this;
  for (other.leg_mm = leg_step_mm; other.tabs().empty();) other.leg_mm += leg_step_mm;
  return other.leg_mm;
}

Profile GussetShape::profile(double tab_mm) const {
  std::array<std::vector<Step>, 4> sides;
  for (const Stretch& tab : tabs()) sides[left_side].push_back({tab, tab_mm});
  std::vector<Vertex> square = stepped_outline({leg_mm, leg_mm}, sides, relief_mm).vertices;
  const double s = snipe_mm();
  const double nose = nose_mm();
  // It begins at the corner that is cut off and has the one opposite as its third.
  square[0].at = {s, 0};
  square[2].at = {leg_mm, nose};
  square.insert(square.begin() + 3, {{nose, leg_mm}, 0});
  square.push_back({{0, s}, 0});
  return {Loop{std::move(square)}, {}};
}

bool GussetShape::reaches(double x, double y) const {
  const double from_x = std::max(x, 0.0);
  const double from_y = std::max(y, 0.0);
  const double inside = tolerance::contact_mm;
  return from_x < leg_mm - inside && from_y < leg_mm - inside && from_x + from_y < leg_mm + nose_mm() - inside;
}

}  // namespace fitup::plan::plate
