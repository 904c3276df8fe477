// Face plates and cover sheets as plates on the edges that hold them.
// Entry: check_plates.
#include "loads/plate_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <variant>

#include "loads/amounts.h"
#include "loads/formulas.h"
#include "loads/lift.h"
#include "loads/plate_grid.h"
#include "loads/rectangle_plate.h"
#include "loads/strength.h"
#include "loads/thrown.h"

namespace fitup::loads {

namespace {

// A hole smaller than this share of the shorter side changes little (common practice).
constexpr double small_hole_share = 0.15;
constexpr double cells_across = 24;

const Part& part_of(const Plan& plan, InstanceId id) { return plan.parts[plan.instances[id].part]; }
const Flat& flat_of(const Plan& plan, InstanceId id) { return std::get<Flat>(part_of(plan, id).form); }

/// Without what is bent up.
Box2 between_bends(const Flat& flat) {
  Box2 area = flat.profile.bounds();
  const Vec2 middle = area.middle();
  for (const Bend& bend : flat.bends) {
    if (std::abs(bend.from.x - bend.to.x) < std::abs(bend.from.y - bend.to.y)) {
      (bend.from.x < middle.x ? area.low.x : area.high.x) = bend.from.x;
    } else {
      (bend.from.y < middle.y ? area.low.y : area.high.y) = bend.from.y;
    }
  }
  return area;
}

/// What is missing of the area within it, of one piece: a large hole, or a notch.
bool has_large_cuts(const Flat& flat, const Box2& area) {
  const double least = small_hole_share * std::min(area.size().x, area.size().y);
  const bool holes = std::any_of(flat.profile.holes.begin(), flat.profile.holes.end(), [&](const Loop& hole) {
    const Vec2 size = hole.bounds().size();
    return std::max(size.x, size.y) > least;
  });
  const double whole = area.size().x * area.size().y;
  return holes ||
         (flat.bends.empty() && flat.profile.outer.area_mm2() < (1 - small_hole_share * small_hole_share) * whole);
}

/// One state of the box.
struct PressureCase {
  std::string words;
  Vec3 per_kg;  // acceleration on the plate's mass, m/s2
  double pressure_mpa = 0;
  double factor = standing_factor;  // on yield
};

std::vector<PressureCase> cases_of(const LoadRules& rules) {
  const double stated = rules.pressure_kpa.value_or(0) / 1000;
  const std::string and_pressure =
      stated > 0 ? fmt::format(" under {} kPa (loads.pressure)", *rules.pressure_kpa) : std::string{};
  std::vector<PressureCase> cases{{"at rest" + and_pressure, gravity * axis::minus_z, stated, standing_factor}};
  for (std::size_t side = 0; side < ways.size(); ++side) {
    const auto& g = rules.thrown_g[side];
    if (!g) continue;
    cases.push_back({fmt::format("thrown to the {} with {} g{}", side_words[side], *g, and_pressure),
                     gravity * (*g * ways[side] + axis::minus_z), stated, 1});
  }
  return cases;
}

struct Worst {
  double utilisation = -1;
  PlateState state;
  double pressure_mpa = 0;
  double limit_mpa = 0;
  const ClosingPlate* plate = nullptr;
  PressureCase of;
  std::string source;
};

class Plates {
 public:
  explicit Plates(const Plan& plan) : plan_(plan), plates_(closing_plates(plan)) {}

  std::vector<Finding> run() {
    const std::vector<PressureCase> cases = cases_of(plan_.load_rules);
    for (const ClosingPlate& plate : plates_) {
      for (const PressureCase& c : cases) look(plate, c);
    }
    std::vector<Finding> all;
    for (const Worst* worst : {&welded_, &covers_}) {
      if (worst->plate != nullptr) all.push_back(finding(*worst));
    }
    if (all.empty() && !plates_.empty()) all.push_back(nothing_stated());
    return all;
  }

 private:
  [[nodiscard]] Finding nothing_stated() const {
    Finding f;
    f.check = "plates";
    f.message =
        "nothing states what leans on the upright plates and covers (loads.pressure, in kPa) or throws them "
        "(loads.thrown): they are not checked";
    f.key = "loads";
    return f;
  }

  void look(const ClosingPlate& plate, const PressureCase& c) {
    const Part& part = part_of(plan_, plate.id);
    const Flat& flat = flat_of(plan_, plate.id);
    const auto strength = strength_of(part.material, flat.thickness_mm);
    const Material* material = tables::find_material(part.material);
    if (!strength || material == nullptr) return;
    const double across = std::abs(dot(c.per_kg, plan_.instances[plate.id].pose.z()));
    const double own = material->density_kg_per_m3 * 1e-9 * flat.thickness_mm * across;  // N/mm2
    const double q = own + c.pressure_mpa;
    if (q <= 0) return;
    const double limit = strength->yield_mpa / c.factor;
    const PlateState state = state_of(plate, flat, q, strength->is_aluminium() ? 70000 : 210000);
    Worst& worst = plate.cover ? covers_ : welded_;
    if (state.stress_mpa / limit <= worst.utilisation) return;
    worst = {state.stress_mpa / limit, state, q, limit, &plate, c, strength->source};
  }

  [[nodiscard]] static PlateState state_of(const ClosingPlate& plate, const Flat& flat, double q, double e) {
    const auto edges = plate.cover ? EdgesInPlane::free : EdgesInPlane::fixed;
    PlateState state = supported_plate(plate.long_mm(), plate.short_mm(), flat.thickness_mm, q, e, edges);
    if (!plate.has_cuts) return state;
    PlateGrid grid = plate_grid(flat.profile, plate.area, plate.short_mm() / cells_across, flat.thickness_mm);
    grid.e_mpa = e;
    const auto bent = bend(grid, q);
    if (!bent) return state;
    // Small deflections: never less stress than with the membrane's help.
    return {bent->deflection_mm, bent->stress_mpa, false};
  }

  [[nodiscard]] Finding finding(const Worst& w) const {
    const double t = flat_of(plan_, w.plate->id).thickness_mm;
    Finding f;
    f.check = "plates";
    f.verdict = w.utilisation > 1 ? Verdict::fail : Verdict::pass;
    f.value = w.state.stress_mpa;
    f.limit = w.limit_mpa;
    f.unit = "MPa";
    f.source = fmt::format("{:.0f} MPa ({}) over {}: {}; {}", w.limit_mpa * w.of.factor, w.source, w.of.factor,
                           w.of.factor > 1 ? "common practice at rest" : "yield is where it lets go", method(w));
    f.parts = {label_of(plan_, w.plate->id)};
    f.at = plan_.instances[w.plate->id].pose.point({w.plate->area.middle().x, w.plate->area.middle().y, 0});
    f.key = plan_.instances[w.plate->id].key;
    f.place = plan_.instances[w.plate->id].place;
    f.message = fmt::format(
        "{} carries the most of the {}: {:.0f} x {:.0f} x {:.4g} mm under {:.3f} kPa, {}: {} of {}, {:.0f} "
        "percent; it sags {:.2f} mm, {}",
        plan_.instances[w.plate->id].name, w.plate->cover ? "covers" : "welded plates", w.plate->long_mm(),
        w.plate->short_mm(), t, 1000 * w.pressure_mpa, w.of.words, mpa_words(w.state.stress_mpa), mpa_words(w.limit_mpa),
        100 * w.utilisation,
        w.state.deflection_mm, sag_words(w, t));
    if (!plan_.load_rules.pressure_kpa) f.message += ". Only its own mass: loads.pressure states what leans on it";
    if (f.verdict == Verdict::fail) f.message += "; a thicker sheet mends it";
    return f;
  }

  [[nodiscard]] static std::string method(const Worst& w) {
    if (w.plate->has_cuts) return "plate elements on a grid, edges supported, small deflections";
    if (w.state.large) return "Roark, table 11.4 case 1a, with the membrane of one half wave (von Karman)";
    const std::string roark = "Roark, table 11.4 case 1a, all edges simply supported";
    const auto by = plate_factors(w.plate->long_mm() / w.plate->short_mm());
    return by ? fmt::format("{}: beta {:.4f}, alpha {:.4f}", roark, by->beta, by->alpha) : roark;
  }

  [[nodiscard]] static std::string sag_words(const Worst& w, double t) {
    if (w.state.large)
      return fmt::format("more than half its thickness of {:.4g} mm: membrane and bending share the load", t);
    if (w.state.deflection_mm > t / 2) {
      return fmt::format("more than half its thickness of {:.4g} mm, beyond which bending alone says too much", t);
    }
    return fmt::format("less than half its thickness of {:.4g} mm: small deflections hold", t);
  }

  const Plan& plan_;
  std::vector<ClosingPlate> plates_;
  Worst welded_;
  Worst covers_;
};

}  // namespace

double ClosingPlate::long_mm() const { return std::max(area.size().x, area.size().y); }
double ClosingPlate::short_mm() const { return std::min(area.size().x, area.size().y); }

std::vector<ClosingPlate> closing_plates(const Plan& plan) {
  std::vector<ClosingPlate> plates;
  for (InstanceId i = 0; i < plan.instances.size(); ++i) {
    const Part& part = part_of(plan, i);
    if (part.role != Role::face_plate && part.role != Role::cover_sheet && part.role != Role::wall) continue;
    const auto* flat = std::get_if<Flat>(&part.form);
    if (flat == nullptr) continue;
    ClosingPlate plate{i, between_bends(*flat), part.role == Role::cover_sheet, false};
    plate.has_cuts = has_large_cuts(*flat, plate.area);
    plates.push_back(plate);
  }
  return plates;
}

std::vector<Finding> check_plates(const Plan& plan) { return Plates(plan).run(); }

}  // namespace fitup::loads
