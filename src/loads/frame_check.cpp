// The frame's model under its cases; the place that decides, of rails and of members apart.
// Entry: check_frame.
#include "loads/frame_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "loads/formulas.h"
#include "loads/lift.h"
#include "loads/shares.h"
#include "loads/strength.h"

namespace fitup::loads {

namespace {

constexpr double gravity = 9.80665;      // m/s2
constexpr double standing_factor = 1.5;  // on yield, of what carries its load at rest (common practice)
constexpr std::array<Vec3, 6> ways{axis::minus_y, axis::y, axis::minus_x, axis::x, axis::z, axis::minus_z};
constexpr std::array<const char*, 6> side_words{"front", "back", "left", "right", "top", "bottom"};
constexpr int stations = 8;  // along each piece
constexpr double least_push_mpa = 0.1;

// The corner nodes that the first box stands on; not two of one place.
std::vector<Support> four_corners(const Plan& plan, const FrameModel& model) {
  std::set<std::size_t> nodes;
  const Box3& box = plan.frames.front().space;
  for (const double x : {box.low.x, box.high.x}) {
    for (const double y : {box.low.y, box.high.y}) nodes.insert(model.nearest_node({x, y, box.low.z}));
  }
  std::vector<Support> supports;
  for (const std::size_t n : nodes) supports.push_back({n, pinned});
  return supports;
}

void add_lifts(std::vector<FrameCase>& cases, const Plan& plan, const FrameModel& model, const Weights& weights,
               const LoadRules& rules, Bearing bearing) {
  std::vector<Vec2> points;
  for (const LiftPoint& p : plan.lift_points) points.push_back({p.at.x, p.at.y});
  const MassAt& whole = weights.whole(LoadState::loaded);
  const LiftFactors& factors = factors_of(rules.lift);
  for (const std::vector<double>& way : shares_of(points, {whole.centre.x, whole.centre.y}).ways) {
    FrameCase c{"", model.frame, loads_of(plan, model, {0, 0, -rules.dynamic * gravity}, bearing), factors.on_yield,
                fmt::format("{}, yield", factors.word)};
    double weight = 0;
    for (const NodeLoad& n : c.load.nodes) weight -= n.force.z;
    for (const LineLoad& l : c.load.lines) {
      weight -= l.force_per_mm.z * (model.pieces[l.member].to_mm - model.pieces[l.member].from_mm);
    }
    std::size_t legs = 0;
    for (std::size_t i = 0; i < way.size(); ++i) {
      const auto node = model.node_of.find(plan.lift_points[i].boss);
      if (node == model.node_of.end()) return;
      if (way[i] > 0.01) ++legs;
      c.load.nodes.push_back({node->second, {0, 0, way[i] * weight}, {}});
    }
    c.words = fmt::format("lifted on {} legs, {} times its weight", legs, rules.dynamic);
    c.kind = LoadKind::lifted;
    // It balances: what is held only keeps it in its place.
    c.frame.supports = {{model.nearest_node(whole.centre), clamped}};
    cases.push_back(std::move(c));
  }
}

/// The place with the largest utilisation.
struct Worst {
  double utilisation = -1;
  double stress_mpa = 0;
  double limit_mpa = 0;
  double buckles = 1;  // what a strut of its length keeps of its yield load, where it is pressed
  std::size_t piece = 0;
  Vec3 at{};
  const FrameCase* of = nullptr;
  std::string source;
};

/// The piece that sags most from the line between its ends.
struct MostSag {
  double mm = -1;
  double span_mm = 0;
  std::size_t piece = 0;
};

class Looking {
 public:
  Looking(const Plan& plan, const FrameModel& model, const std::vector<FrameCase>& cases)
      : plan_(plan), model_(model), cases_(cases) {}

  std::vector<Finding> run() {
    for (const FrameCase& c : cases_) {
      const auto solver = FrameSolver::factor(c.frame);
      if (!solver) return {not_decided()};
      const FrameResult result = solver->solve(c.load);
      for (std::size_t p = 0; p < model_.pieces.size(); ++p) look(c, *solver, result, p);
    }
    std::vector<Finding> findings;
    for (const auto& [kind, worst] : worst_) findings.push_back(finding(worst, most_sag_.at(kind), kind.second));
    return findings;
  }

 private:
  [[nodiscard]] const Part& part(std::size_t piece) const {
    return plan_.parts[plan_.instances[model_.pieces[piece].of].part];
  }

  static Finding not_decided() {
    Finding f;
    f.check = "frame";
    f.message = "the members do not hang together as a frame that can be reckoned with: what they carry is not checked";
    return f;
  }

  void look(const FrameCase& c, const FrameSolver& solver, const FrameResult& result, std::size_t p) {
    const SectionProperties& section = model_.sections.at(model_.pieces[p].of);
    const double thickness = section_of(part(p))->thickness_mm;
    const auto strength = strength_of(part(p).material, thickness);
    if (!strength) return;
    const double limit = strength->yield_mpa / c.factor;
    const bool rail = part(p).role == Role::rail;
    // What twists the frame as it hangs is held by plates that the model leaves out: rails are looked at on a level
    // frame.
    if (rail && !c.level) return;
    Worst& worst = worst_[{order_of(c), rail}];
    const FramePiece& piece = model_.pieces[p];
    const double span = piece.to_mm - piece.from_mm;
    const Vec3 chord = 0.5 * (solver.moved(c.load, result, p, 0) + solver.moved(c.load, result, p, 1));
    const double sag = norm(solver.moved(c.load, result, p, 0.5) - chord);
    MostSag& most = most_sag_[{order_of(c), rail}];
    if (sag > most.mm) most = {sag, span, p};
    const CentroidLine line = *centroid_line(plan_, piece.of);
    for (int i = 0; i <= stations; ++i) {
      const double share = static_cast<double>(i) / stations;
      const InnerForces inner = solver.inner(c.load, result, p, share);
      // A trifling push is no strut; a rail is pressed by what holds its ends, and bends.
      const bool pressed = !rail && inner.force.x < -least_push_mpa * section.area_mm2;
      const double buckles = pressed ? left_by_buckling(p, section, strength->yield_mpa) : 1;
      const double stress = stress_mpa(section, inner) + std::abs(inner.force.x) / section.area_mm2 * (1 / buckles - 1);
      if (stress / limit <= worst.utilisation) continue;
      const Vec3 at = line.at(piece.from_mm + share * (piece.to_mm - piece.from_mm));
      worst = {stress / limit, stress, limit, buckles, p, at, &c, strength->source};
    }
  }

  /// Cases of the same words are one: the first of them says where it stands.
  std::size_t order_of(const FrameCase& c) const {
    const auto same = [&c](const FrameCase& other) { return other.words == c.words; };
    return static_cast<std::size_t>(std::find_if(cases_.begin(), cases_.end(), same) - cases_.begin());
  }

  /// Of the whole member as a strut that nothing holds between its ends, about its weakest axis.
  [[nodiscard]] double left_by_buckling(std::size_t p, const SectionProperties& section, double yield_mpa) const {
    const Section shape = *section_of(part(p));
    const auto curve = shape.shape == SectionShape::angle ? BucklingCurve::b : BucklingCurve::c;
    const double gyration = std::sqrt(section.iv_mm4 / section.area_mm2);
    const double length = centroid_line(plan_, model_.pieces[p].of)->length_mm();
    return buckling_factor(slenderness(length, gyration, yield_mpa, Elastic{}.e_mpa), curve);
  }

  /// By what the model leaves out and welds hold.
  [[nodiscard]] bool is_stiffened() const {
    return std::any_of(plan_.parts.begin(), plan_.parts.end(), [](const Part& p) {
      return p.role == Role::face_plate || p.role == Role::brace || p.role == Role::gusset;
    });
  }

  [[nodiscard]] Finding finding(const Worst& w, const MostSag& most, bool rail) const {
    Finding f;
    f.check = "frame";
    f.value = w.stress_mpa;
    f.limit = w.limit_mpa;
    f.unit = "MPa";
    f.source = fmt::format("{:.0f} MPa ({}) over {}: {}", w.limit_mpa * w.of->factor, w.source, w.of->factor,
                           w.of->factor_words);
    const InstanceId id = model_.pieces[w.piece].of;
    f.parts = {label_of(plan_, id)};
    f.at = w.at;
    f.key = plan_.instances[id].key;
    f.place = plan_.instances[id].place;
    const bool over = w.utilisation > 1;
    const bool stiffened = !rail && is_stiffened();
    f.verdict = !over ? Verdict::pass : stiffened ? Verdict::not_checked : Verdict::fail;
    f.message = fmt::format(
        "{} carries the most of the {}: {:.0f} MPa of {:.0f} MPa, {:.0f} percent, {}; {} sags most, {:.2f} mm "
        "over {:.0f} mm{}. As a space "
        "frame of its centroid lines, welded joints rigid; items as rigid blocks, evenly on their rails or on their "
        "ends, "
        "whichever is worse; plates, covers, braces, gussets, holes and the pull of slings to the side left out",
        plan_.instances[id].name, rail ? "rails" : "members", w.stress_mpa, w.limit_mpa, 100 * w.utilisation,
        w.of->words, plan_.instances[model_.pieces[most.piece].of].name, most.mm, most.span_mm,
        w.buckles < 1
            ? fmt::format("; pressed, as a strut of the whole member's length it keeps {:.2f} of its yield load "
                          "(EN 1993-1-1, 6.3.1, what presses it counted over that)",
                          w.buckles)
            : std::string{});
    if (over && stiffened)
      f.message +=
          "; the bare frame does not carry it without the plates, braces or gussets that are welded to it, and what "
          "these carry is not checked";
    if (over && rail)
      f.message += "; thicker rails (rails.thickness) or a cross bar under them (frame.cross_bars) mend it";
    return f;
  }

  const Plan& plan_;
  const FrameModel& model_;
  const std::vector<FrameCase>& cases_;
  std::map<std::pair<std::size_t, bool>, Worst> worst_;  // by case, and whether of a rail
  std::map<std::pair<std::size_t, bool>, MostSag> most_sag_;
};

}  // namespace

std::vector<FrameCase> frame_cases(const Plan& plan, const FrameModel& model, const Weights& weights,
                                   const LoadRules& rules) {
  std::vector<FrameCase> cases;
  for (const Bearing bearing : {Bearing::even, Bearing::ends}) {
    FrameCase standing{"standing on its four lower corners", model.frame,
                       loads_of(plan, model, {0, 0, -gravity}, bearing), standing_factor, "common practice at rest"};
    standing.frame.supports = four_corners(plan, model);
    standing.level = true;
    for (std::size_t side = 0; side < ways.size(); ++side) {
      if (!rules.thrown_g[side]) continue;
      FrameCase thrown = standing;
      thrown.words = fmt::format("thrown to the {} with {} g, held at its four lower corners", side_words[side],
                                 *rules.thrown_g[side]);
      thrown.load = loads_of(plan, model, gravity * (*rules.thrown_g[side] * ways[side] + axis::minus_z), bearing);
      thrown.factor = 1;
      thrown.factor_words = "yield is where it lets go";
      thrown.level = false;
      thrown.kind = LoadKind::thrown;
      cases.push_back(std::move(thrown));
    }
    cases.push_back(std::move(standing));
    if (!plan.lift_points.empty()) add_lifts(cases, plan, model, weights, rules, bearing);
  }
  return cases;
}

std::vector<Finding> check_frame(const Plan& plan, const FrameModel& model, const std::vector<FrameCase>& cases) {
  return Looking(plan, model, cases).run();
}

}  // namespace fitup::loads
