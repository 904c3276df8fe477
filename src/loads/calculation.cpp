// Inputs, load path, deformed frame and missing evidence of the calculation paper.
// Entry: calculation_of.
#include "fitup/calculation.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>
#include <variant>

#include "fitup/seams.h"
#include "fitup/weight.h"
#include "loads/box_model.h"
#include "loads/calculation_tables.h"
#include "loads/frame_check.h"
#include "loads/joint_groups.h"
#include "loads/mount_sheet.h"
#include "loads/panel_mesh.h"
#include "loads/solved_cases.h"
#include "loads/strength.h"
#include "loads/thrown.h"
#include "loads/weld_limits.h"

namespace fitup {

namespace {

constexpr int stations = 12;          // along each piece of the picture
constexpr double shown_share = 0.06;  // of the frame's size: how far the largest move is drawn

class Inputs {
 public:
  explicit Inputs(const Plan& plan) : plan_(plan), rules_(plan.load_rules), seams_(seams_of(plan)) {}

  std::vector<CalculationInput> all() {
    masses();
    materials();
    lifting();
    thrown();
    seams_and_bolts();
    return std::move(all_);
  }

 private:
  void add(std::string what, std::string value, std::string source) {
    all_.push_back({std::move(what), std::move(value), std::move(source)});
  }

  void masses() {
    const Weights weights = weigh(plan_, seams_);
    for (const LoadState state : all_load_states) {
      const MassAt& m = weights.whole(state);
      add(fmt::format("mass, {}", to_text(state)), fmt::format("{:.1f} kg, more or less {:.1f} kg", m.kg, m.within_kg),
          "sum of checks/weight.csv: drawn sizes and densities, items as the spec says");
    }
    const MassAt& whole = weights.whole(LoadState::loaded);
    add("centre of mass, loaded",
        fmt::format("x {:.0f} mm, y {:.0f} mm, z {:.0f} mm", whole.centre.x, whole.centre.y, whole.centre.z),
        "from the frame's front left bottom corner; each item balances in its middle");
  }

  void materials() {
    std::map<std::pair<std::string, double>, const Part*> used;
    for (const Part& part : plan_.parts) {
      const double t = loads::welded_thickness_mm(part);
      if (t > 0 && part.role != Role::seal && (part.source == Source::cut || part.source == Source::sawn)) {
        used.emplace(std::pair(part.material, t), &part);
      }
    }
    std::map<std::tuple<std::string, double, double, std::string>, std::set<double>> by_strength;
    for (const auto& [what, part] : used) {
      const auto s = loads::strength_of(what.first, what.second);
      if (s) {
        by_strength[{what.first, s->yield_mpa, s->tensile_mpa, s->source}].insert(what.second);
      } else {
        add(fmt::format("{}, {:.4g} mm", what.first, what.second), "its strength is in no table", "");
      }
    }
    for (const auto& [s, thick] : by_strength) {
      const auto& [name, yield, tensile, source] = s;
      const std::string from = thick.size() > 1 ? fmt::format("{:.4g} mm to ", *thick.begin()) : std::string();
      add(fmt::format("{}, {}{:.4g} mm", name, from, *thick.rbegin()),
          fmt::format("yield {:.0f} MPa, tensile {:.0f} MPa", yield, tensile), source);
    }
    elasticity(used);
    add("weight of a mass", fmt::format("{} m/s2", loads::gravity), "standard gravity (3rd CGPM, 1901)");
    add("factor at rest, on yield", fmt::format("{}", loads::standing_factor), "common practice");
  }

  void elasticity(const std::map<std::pair<std::string, double>, const Part*>& used) {
    std::map<std::pair<double, double>, std::set<std::string>> of;
    for (const auto& [what, part] : used) {
      const loads::Elastic e = loads::elastic_of(*part);
      of[{e.e_mpa, e.g_mpa}].insert(what.first);
    }
    for (const auto& [e, materials] : of) {
      add(fmt::format("{}: E, G", fmt::join(materials, ", ")), fmt::format("{:.0f} MPa, {:.0f} MPa", e.first, e.second),
          e.first < loads::Elastic{}.e_mpa ? "EN 1999-1-1, 3.2.5" : "EN 1993-1-1, 3.2.6");
    }
  }

  void lifting() {
    if (plan_.lift_points.empty()) return;
    add("sling, from vertical", fmt::format("{} degrees", rules_.sling_angle_deg), "lifting.sling_angle");
    add("factor for the hoist", fmt::format("{}", rules_.dynamic), "lifting.dynamic; common practice 1.1 to 1.5");
    const LiftFactors& f = factors_of(rules_.lift);
    add("design factors of lifting", fmt::format("{} on yield, {} on rupture", f.on_yield, f.on_rupture),
        std::string(f.word) + " (lifting.standard)");
  }

  void thrown() {
    for (std::size_t side = 0; side < loads::side_words.size(); ++side) {
      const auto& g = rules_.thrown_g[side];
      add(fmt::format("thrown to the {}", loads::side_words[side]), g ? fmt::format("{} g", *g) : "not stated",
          !g                          ? ""
          : rules_.thrown_why.empty() ? "loads.thrown; the spec does not say whose demand"
                                      : rules_.thrown_why);
    }
    add("pressure on plates and covers",
        rules_.pressure_kpa ? fmt::format("{} kPa", *rules_.pressure_kpa) : "not stated",
        rules_.pressure_kpa ? "loads.pressure" : "");
  }

  void seams_and_bolts() {
    const bool aws = rules_.welds == WeldCode::aws_d1_1;
    add("seams by", std::string(weld_code_words[static_cast<std::size_t>(rules_.welds)]), "loads.welds");
    if (aws) add("weld metal", std::string(rules_.electrode.word), "loads.electrode");
    for (std::size_t rule = 0; rule < plan_.weld_rules.size(); ++rule) intermittent(rule);
    add("bolts of feet and lugs, rods without a class", std::string(rules_.bolts.word),
        "loads.bolts; ISO 898-1, ISO 3506-1");
  }

  void intermittent(std::size_t index) {
    const bool laid = std::any_of(seams_.all.begin(), seams_.all.end(), [&](const Seam& seam) {
      return seam.stitch && plan_.joints[seam.joint].weld_rule == index;
    });
    if (!laid) return;
    const WeldRule& rule = plan_.weld_rules[index];
    add("intermittent fillets, ISO 2553",
        fmt::format("elements of {:.4g} mm, at most {:.4g} mm apart, of full size to their ends; the plate counts as held "
                    "all along: what a continuous seam carries on a mm times (e + l) / l",
                    rule.element_mm, rule.distance_mm),
        rule.stitch_key + "; EN 1993-1-8, 4.5.1 (1) and 4.9, from memory");
  }

  const Plan& plan_;
  const LoadRules& rules_;
  const Seams seams_;
  std::vector<CalculationInput> all_;
};

bool has(const Plan& plan, Role role) {
  return std::any_of(plan.instances.begin(), plan.instances.end(),
                     [&](const Instance& i) { return plan.parts[i.part].role == role; });
}

std::string mount_words(const Plan& plan, Role role, const char* of, const char* one) {
  std::string words = fmt::format("{}: seams of the {}, its bending, its hole and its bolt, all covered.", of, one);
  if (has(plan, Role::ring_member)) return words;
  for (InstanceId id = 0; id < plan.instances.size(); ++id) {
    if (plan.parts[plan.instances[id].part].role != role) continue;
    words += loads::stands_on_edges(plan, id)
                 ? " They stand under the edges of the walls: pressed, these carry as sheet in their plane, pulled through "
                   "their seams; no sheet bends there, so that there is no doubler."
                 : " They lie on the face of a wall or the floor, on a doubler where the sheet is much thinner than they "
                   "are: how the sheet bends between the bolt and the next seam is covered.";
    break;
  }
  return words;
}

std::vector<std::string> load_path(const Plan& plan) {
  std::vector<std::string> path;
  const bool framed = has(plan, Role::ring_member);
  if (has(plan, Role::rail)) {
    path.push_back(
        framed ? "Down: items on rails, rails on the legs of the bottom ring, ring and uprights to what the box "
                 "stands on or hangs from."
               : "Down: items on rails, rails on the floor and its ribs, these through their seams to the "
                 "walls, these as sheet in its plane and across it to what the box stands on or hangs from.");
    path.push_back("An item weighs on all rails that it stands on in equal parts, however stiff each of them is: an assumption.");
  }
  if (has(plan, Role::rod)) {
    path.push_back(
        "Across, and up: items on their rods, rods in the rod plates, these in welds or screws of the uprights. Rods "
        "and rod plates are covered, the screws of a bolted plate are not. The check frame assumes that what rods pull goes "
        "to the welds or screws of their plate as by a stiff body; how the plate's own sheet bends under it, hold-down asks "
        "by itself.");
  }
  if (has(plan, Role::mount_strip))
    path.push_back(
        "Items held by their own holes: screws in strips, strips on their plate or uprights. The screws are covered.");
  if (has(plan, Role::gusset)) {
    path.push_back(
        "Gussets: counted, as sheet as cut, joined to both that they stand between where their seams lie; these seams, and "
        "the gusset's own stress and buckling, are covered. What their tabs and slots bear is not counted.");
  }
  if (has(plan, Role::foot)) path.push_back(mount_words(plan, Role::foot, "Feet", "foot"));
  if (has(plan, Role::lug)) path.push_back(mount_words(plan, Role::lug, "Lugs", "lug"));
  if (has(plan, Role::foot) || has(plan, Role::lug)) {
    path.push_back(
        "The check frame assumes that the box is held beside the bolts of its feet and lugs, at its joints that are nearest "
        "to them: the bolt's lever counts in their own seams and bending, and what it turns in the ring is not covered.");
  }
  if (has(plan, Role::bearer))
    path.push_back("Bearers between boxes: as members of the frame; their bolts are not covered.");
  if (!plan.lift_points.empty()) {
    path.push_back(
        "Lifted: items and frame to the top, the leg or plate under each boss, the boss's beads, its thread, the eye, "
        "the "
        "sling. "
        "Slings, shackles and hook are chosen by the tension that lift says; they are not covered.");
  }
  path.push_back("The vehicle's, vessel's or building's own structure is never covered.");
  return path;
}

/// The edges of a box of plates: those of rectangles that only one of their part has.
void add_edges(DeformedFrame& out, const loads::FrameModel& model, const loads::FrameResult& result) {
  using Edge = std::tuple<InstanceId, std::size_t, std::size_t>;
  std::map<Edge, std::pair<std::vector<Vec3>, std::vector<Vec3>>> edges;
  std::set<Edge> inner;
  for (std::size_t p = 0; p < model.panel_of.size(); ++p) {
    const loads::FramePanel& panel = model.frame.panels[p];
    for (std::size_t c = 0; c < 4; ++c) {
      const std::size_t a = panel.nodes[c], b = panel.nodes[(c + 1) % 4];
      const Edge edge{model.panel_of[p], std::min(a, b), std::max(a, b)};
      std::vector<Vec3> line, moves;
      for (const std::size_t k : {c, (c + 1) % 4}) {
        const std::size_t n = panel.nodes[k];
        line.push_back(model.frame.nodes[n] + panel.link[k]);
        moves.push_back(result.moved[n] + cross(result.turned[n], panel.link[k]));
      }
      if (!edges.emplace(edge, std::pair{line, moves}).second) inner.insert(edge);
    }
  }
  for (auto& [edge, both] : edges) {
    if (inner.contains(edge)) continue;
    for (const Vec3 move : both.second) out.most_mm = std::max(out.most_mm, norm(move));
    out.planned.push_back(std::move(both.first));
    out.moved.push_back(std::move(both.second));
  }
}

DeformedFrame deformed(const loads::FrameModel& model, const loads::SolvedCase& solved, double size_mm) {
  const loads::FrameCase& c = *solved.of;
  const auto& solver = solved.solver;
  const loads::FrameResult& result = solved.result;
  DeformedFrame out;
  out.words = c.words;
  if (model.pieces.empty()) add_edges(out, model, result);
  for (std::size_t p = 0; p < model.pieces.size(); ++p) {
    const loads::FrameMember& m = model.frame.members[p];
    const Vec3 from = model.frame.nodes[m.a] + m.from_a;
    const Vec3 to = model.frame.nodes[m.b] + m.from_b;
    // From node to node: the rigid links at its ends belong to it.
    std::vector<Vec3> line{model.frame.nodes[m.a]}, moves{result.moved[m.a]};
    const loads::MovedAlong moved = solver->moved(result, p);
    for (int i = 0; i <= stations; ++i) {
      const double share = static_cast<double>(i) / stations;
      line.push_back(from + share * (to - from));
      moves.push_back(moved.at(share));
    }
    line.push_back(model.frame.nodes[m.b]);
    moves.push_back(result.moved[m.b]);
    for (const Vec3 move : moves) out.most_mm = std::max(out.most_mm, norm(move));
    out.planned.push_back(std::move(line));
    out.moved.push_back(std::move(moves));
  }
  out.times = out.most_mm > 0 ? shown_share * size_mm / out.most_mm : 1;
  for (std::size_t p = 0; p < out.moved.size(); ++p) {
    for (std::size_t i = 0; i < out.moved[p].size(); ++i) {
      out.moved[p][i] = out.planned[p][i] + out.times * out.moved[p][i];
    }
  }
  return out;
}

/// One picture of each kind of case: the first of it that moves most.
std::vector<DeformedFrame> deformed_frames(const Plan& plan, const loads::FrameModel& model, const Seams& seams) {
  Box3 box;
  for (const Vec3 n : model.frame.nodes) box.add(n);
  const Weights weights = weigh(plan, seams);
  std::vector<DeformedFrame> frames;
  const auto cases = loads::frame_cases(plan, model, weights, plan.load_rules);
  const auto solved = loads::solved(cases);
  if (!solved) return {};
  for (const loads::SolvedCase& s : *solved) {
    DeformedFrame one = deformed(model, s, norm(box.size()));
    const auto same = std::find_if(frames.begin(), frames.end(), [&](const auto& f) { return f.words == one.words; });
    if (same == frames.end()) {
      frames.push_back(std::move(one));
    } else if (one.most_mm > same->most_mm) {
      *same = std::move(one);
    }
  }
  return frames;
}

std::vector<std::string> missing_evidence(const Plan& plan) {
  std::vector<std::string> all{"certificate of the material (EN 10204, 3.1) of sections and sheet",
                               "qualification of the welder and of the procedure (ISO 9606, ISO 15609)",
                               "inspection of the seams (ISO 5817; whose level)",
                               "as-built sizes of the welded frame (bench/as-built.pdf)"};
  if (!plan.lift_points.empty()) {
    all.push_back("proof load of the lift points, and the marks on the eyes that were fitted");
  }
  const auto& thrown = plan.load_rules.thrown_g;
  if (std::none_of(thrown.begin(), thrown.end(), [](const auto& g) { return g.has_value(); })) {
    all.push_back("accelerations that the box must stand, and whose demand they are (loads.thrown, loads.why)");
  }
  if (!plan.load_rules.pressure_kpa) all.push_back("what leans on plates and covers (loads.pressure)");
  all.push_back("masses of the items as weighed");
  return all;
}

}  // namespace

Calculation calculation_of(const Plan& plan) {
  const Seams seams = seams_of(plan);
  const auto model = plan.frames.empty() ? std::nullopt : loads::box_model(plan, seams);
  std::vector<DeformedFrame> frames;
  if (model) frames = deformed_frames(plan, *model, seams);
  return {Inputs(plan).all(),         model ? loads::sections_in(plan, *model) : std::vector<CalculationSection>{},
          loads::threads_in(plan),    loads::sheets_in(plan),
          load_path(plan),            std::move(frames),
          missing_evidence(plan)};
}

}  // namespace fitup
