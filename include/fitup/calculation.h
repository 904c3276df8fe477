#pragma once
// What the calculation paper says beside the findings: inputs with where they come from, the way of the load, formulas,
// the frame as it deforms, what evidence is missing. A function from Plan to value.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fitup/plan.h"

namespace fitup {

/// One number or choice that the loads rest on. `source` empty: nothing states it.
struct CalculationInput {
  std::string what;
  std::string value;
  std::string source;
};

/// A section of the frame's members, about axes through its centroid: y along its first leg, z along its second. What
/// a moment in these axes does is said with them in the findings.
struct CalculationSection {
  std::string what;  // "L 40x40x4: ring members"
  double area_mm2 = 0;
  double y_mm = 0, z_mm = 0;  // of the centroid, from the heel or a corner
  double iy_mm4 = 0, iz_mm4 = 0, iyz_mm4 = 0;
  double iu_mm4 = 0, iv_mm4 = 0;  // principal: the largest and the least
  double j_mm4 = 0;
  double torsion_mm3 = 0;  // torsion over this is the largest shear of it
  double shear_y_mm2 = 0, shear_z_mm2 = 0;
  std::string j_source;
};

/// A thread that carries a load: of a bolt or a rod with its class, or of an eye.
struct CalculationThread {
  std::string what;  // "M8 of box.main.feet, class 4.6"
  double major_mm = 0;
  double pitch_mm = 0;
  double pitch_diameter_mm = 0;
  double stress_area_mm2 = 0;
  double tensile_mpa = 0;
  std::optional<double> alpha_v;  // of bolts and rods
  std::string source;
};

/// Sheet and plate of one thickness and material.
struct CalculationSheet {
  std::string what;  // "2 mm, S235JR: left plate, right plate"
  double thickness_mm = 0;
};

/// The frame's centroid lines as planned and as they move, `times` as far as they do.
struct DeformedFrame {
  std::string words;  // "standing on its four lower corners"
  double times = 1;
  double most_mm = 0;
  std::vector<std::vector<Vec3>> planned;  // a chain of points for each piece
  std::vector<std::vector<Vec3>> moved;    // the same pieces
};

struct Calculation {
  std::vector<CalculationInput> inputs;
  std::vector<CalculationSection> sections;
  std::vector<CalculationThread> threads;
  std::vector<CalculationSheet> sheets;
  std::vector<std::string> load_path;
  std::vector<DeformedFrame> frames;
  std::vector<std::string> missing;  // evidence that nobody has given
};
[[nodiscard]] Calculation calculation_of(const Plan& plan);

/// The formulas of a load check with what their letters stand for, each with what it is of; none of a check without.
struct CalculationFormula {
  std::string_view of;  // "thread"
  std::string_view formula;
};
[[nodiscard]] std::vector<CalculationFormula> formulas_of(std::string_view check);

/// A standard or a handbook as checks and papers name it, and the edition that is meant.
struct StandardEdition {
  std::string_view name;
  std::string_view edition;
};
/// Those that any of the texts names, by their names.
[[nodiscard]] std::vector<StandardEdition> editions_named_in(const std::vector<std::string_view>& texts);

}  // namespace fitup
