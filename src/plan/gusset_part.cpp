// The triangular plate in a corner.
// Entry: gusset_snipe_mm, gusset_nose_mm, gusset_part.
#include "plan/gusset_part.h"

#include <algorithm>
#include <utility>

#include "plan/size_words.h"

namespace fitup::plan {

namespace {

constexpr double least_snipe_mm = 10;
constexpr double snipe_in_thickness = 2;
constexpr double most_of_leg = 1.0 / 3;

}  // namespace

double gusset_snipe_mm(double leg_mm, double thickest_mm) {
  return std::min(std::max(least_snipe_mm, snipe_in_thickness * thickest_mm), most_of_leg * leg_mm);
}

double gusset_nose_mm(double leg_mm, double thickness_mm) { return std::min(thickness_mm, most_of_leg * leg_mm); }

Part gusset_part(Profile profile, double thickness_mm, const std::string& material) {
  Flat flat;
  flat.profile = std::move(profile);
  flat.thickness_mm = thickness_mm;
  Part part;
  part.mark = "GUS01";
  part.name = "gusset";
  part.role = Role::gusset;
  part.source = Source::cut;
  part.material = material;
  part.size = flat_size_words(flat.profile.bounds().size(), thickness_mm);
  part.form = std::move(flat);
  return part;
}

}  // namespace fitup::plan
