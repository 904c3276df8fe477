#pragma once
// What all printed aids are made of. Private to the plan.

#include <string>
#include <vector>

#include "fitup/plan.h"
#include "plan/build.h"

namespace fitup::plan {

inline constexpr double least_print_mm = 0.4;   // one line of a usual nozzle (common practice)
inline constexpr double first_layers_mm = 0.4;  // about two layers: what is pressed wide on the plate (common practice)
inline constexpr double print_corner_radius_mm = 4;

/// The loop with every edge moved inwards, seen from inside a counter-clockwise one; outwards if `by_mm` is negative.
/// Edges meet at corners or smoothly; none gets lost.
[[nodiscard]] Loop inset(const Loop& loop, double by_mm);

/// What is printed is this much smaller all round: its outline set in, its holes wider.
[[nodiscard]] Profile smaller(const Profile& profile, double by_mm);

/// A plate as it stands on the printer, its first layers set in by print.first_layer; whole where it is too thin for
/// that.
[[nodiscard]] std::vector<Prism> printed_plate(const Build& build, const Profile& profile, double thickness_mm);

struct PrintedWords {
  int number = 0;  // of the mark: "PRT21"
  std::string name;
  Role role = Role::spacer;
  std::string size;
};
[[nodiscard]] Part printed(PrintedWords words, std::vector<Prism> prisms);

/// A hole as it is drawn so that it comes out this wide.
[[nodiscard]] inline double drawn_hole_mm(const Build& build, double hole_mm) {
  return hole_mm + build.spec.print.hole_allowance->mm();
}

/// That what fills a gap, less the fit, is too thin to print.
void say_no_aid(const Build& build, const std::string& what, double gap_mm, const std::string& gap);

/// Rod bushes, nut gauges, a corner square, shims under flanges.
void add_jigs(Build& build);

}  // namespace fitup::plan
