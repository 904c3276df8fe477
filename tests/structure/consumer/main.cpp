// Uses the installed library as an outside program would: a section from the tables, its outline, a solid of it.
// Entry: main().
#include <fitup/model.h>
#include <fitup/tables.h>

#include <cmath>
#include <cstdio>

int main() {
  const fitup::Section* section = fitup::tables::find_section("L 40x40x4");
  if (section == nullptr) {
    return 1;
  }
  const fitup::Profile outline = fitup::profile_of(*section);
  const auto metre = fitup::solid::extrude(outline, {}, 1000);
  if (!metre) {
    return 1;
  }
  const auto measured = fitup::solid::measure(*metre);
  if (!measured) {
    return 1;
  }
  std::printf("%.3f\n", measured->volume_mm3);
  const double expected = outline.area_mm2() * 1000;
  return std::abs(measured->volume_mm3 - expected) < 1e-6 * expected ? 0 : 1;
}
