// Rod plates as sheet under the pull of their rods.
// Entry: check_rod_plates.
#include "loads/rod_plate_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "loads/amounts.h"
#include "loads/lift.h"
#include "loads/member_stress.h"
#include "loads/panel_mesh.h"
#include "loads/rectangle_plate.h"
#include "loads/rod_plate_lines.h"
#include "loads/rod_plate_room.h"
#include "loads/strength.h"
#include "loads/thrown.h"
#include "loads/weld_limits.h"
#include "tables/rod_plates.h"

namespace fitup::loads {

namespace {

constexpr double cells_across = 10;
// Half a wave so deep is longer than its span by 0.6 percent: lines that come nearer come by no more (common practice).
constexpr double most_of_span = 1.0 / 20;

/// A rod's hole, and the mass that hangs on the rod.
struct Pull {
  Vec3 at;
  double kg = 0;
};

class RodPlates {
 public:
  RodPlates(const Plan& plan, const Seams& seams) : plan_(plan) {
    for (const Pattern& pattern : plan.patterns) {
      for (const PatternBody& body : pattern.bodies) note(body);
    }
    for (const Seam& seam : seams.all) {
      const Joint& joint = plan.joints[seam.joint];
      if (!holds(seam) || seam.ring_diameter_mm > 0) continue;
      for (const InstanceId id : {joint.a, joint.b}) {
        if (pulls_.contains(id)) seams_[id].push_back(&seam);
      }
    }
  }

  std::vector<Finding> run() {
    for (const auto& [plate, seams] : seams_) look(plate, seams);
    std::vector<Finding> all;
    if (worst_.stress.utilisation >= 0) all.push_back(finding());
    if (leaning_) all.push_back(leans(leaning_->first, leaning_->second));
    return all;
  }

 private:
  struct Worst {
    SheetStress stress;
    InstanceId plate = 0;
    Vec3 at;
    std::size_t side = 0;
    double pull_n = 0;
    double sag_mm = 0;  // by bending alone
    double thickness_mm = 0;
    double span_mm = 0;    // between the lines that hold it; 0: it is held in another way
    HeldStrip stays{};     // where those lines stay where they are
    double stays_mpa = 0;  // in the sheet then,
    double seam_mpa = 0;   // and in the throats of the line with the least
    double seam_limit_mpa = 1;
    std::string seam_source{};
    std::optional<RodPlateRoom> room{};  // before what hangs on it
    [[nodiscard]] double sheet_sag_mm() const { return span_mm > 0 ? most_of_span * span_mm : thickness_mm; }
    /// What hangs on it would meet something first.
    [[nodiscard]] bool meets() const { return room && room->mm < sheet_sag_mm(); }
    [[nodiscard]] double most_sag_mm() const { return meets() ? room->mm : sheet_sag_mm(); }
    [[nodiscard]] bool gives_too_far() const { return sag_mm > most_sag_mm(); }
    [[nodiscard]] double bent_share() const { return std::max(stress.utilisation, stays_mpa / stress.limit_mpa); }
    /// Over 1: it is not passed.
    [[nodiscard]] double badness() const {
      return std::max({bent_share(), seam_mpa / seam_limit_mpa, gives_too_far() ? sag_mm / most_sag_mm() : 0.0});
    }
  };

  [[nodiscard]] const Part& part(InstanceId id) const { return plan_.parts[plan_.instances[id].part]; }

  [[nodiscard]] double flat_thickness_mm(InstanceId id) const {
    const auto* flat = std::get_if<Flat>(&part(id).form);
    return flat == nullptr ? 0 : flat->thickness_mm;
  }

  void note(const PatternBody& body) {
    if (part(body.thing).role != Role::item) return;
    std::set<InstanceId> rods;
    for (const PatternHole& h : body.holes) {
      if (part(h.plate).role == Role::rod_plate) rods.insert(h.fastener);
    }
    for (const PatternHole& h : body.holes) {
      if (part(h.plate).role != Role::rod_plate) continue;
      pulls_[h.plate].push_back({h.at, part(body.thing).mass_kg / static_cast<double>(rods.size())});
    }
  }

  /// Its grid has a line through each hole and each seam.
  [[nodiscard]] std::optional<PanelMesh> mesh_of(InstanceId plate, const std::vector<const Seam*>& seams) const {
    const auto* flat = std::get_if<Flat>(&part(plate).form);
    if (flat == nullptr) return std::nullopt;
    const Vec2 size = flat->profile.bounds().size();
    WorldGrid grid;
    grid.cell_mm = std::min(size.x, size.y) / cells_across;
    const auto add = [&grid](Vec3 at) {
      grid.lines[0].push_back(at.x);
      grid.lines[1].push_back(at.y);
      grid.lines[2].push_back(at.z);
    };
    for (const Pull& pull : pulls_.at(plate)) add(pull.at);
    for (const Seam* seam : seams) {
      const Vec3 path = seam->to - seam->from;
      const Vec3 middle = 0.5 * (seam->from + seam->to);
      if (std::abs(path.x) < 1e-6) grid.lines[0].push_back(middle.x);
      if (std::abs(path.y) < 1e-6) grid.lines[1].push_back(middle.y);
      if (std::abs(path.z) < 1e-6) grid.lines[2].push_back(middle.z);
    }
    return panel_mesh(plan_, plate, grid);
  }

  void look(InstanceId plate, const std::vector<const Seam*>& seams) {
    auto mesh = mesh_of(plate, seams);
    if (!mesh) return;
    std::set<std::size_t> held;
    for (const Seam* seam : seams) {
      for (const SeamNode& n : nodes_on(*mesh, *seam, mesh->thickness_mm + 2)) held.insert(n.node);
    }
    if (held.size() < 3) return;
    std::vector<bool> is_held(mesh->node_count(), false);
    for (const std::size_t n : held) is_held[n] = true;
    mesh->keep_what_hangs_on(is_held);
    const FrameModel model = model_of(*mesh);
    const HeldLines lines = held_lines(seams, mesh->pose.z());
    for (std::size_t side = 0; side < ways.size(); ++side) {
      const auto& g = plan_.load_rules.thrown_g[side];
      if (g && std::abs(dot(ways[side], mesh->pose.z())) > 0.999) throw_it(*mesh, model, held, lines, side, *g);
    }
  }

  [[nodiscard]] FrameModel model_of(const PanelMesh& mesh) const {
    FrameModel model;
    for (std::size_t n = 0; n < mesh.node_count(); ++n) model.frame.nodes.push_back(mesh.at(n));
    for (std::size_t c = 0; c < mesh.cells.size(); ++c) {
      if (!mesh.cells[c]) continue;
      FramePanel panel = mesh.panel(c, elastic_of(part(mesh.of)));
      panel.nodes = mesh.corners(c);
      model.frame.panels.push_back(panel);
      model.panel_of.push_back(mesh.of);
      model.panel_at_seam.push_back(false);
    }
    return model;
  }

  // Beyond half its thickness.
  void between_lines(Worst& w, const HeldLines& lines) const {
    if (w.sag_mm <= w.thickness_mm / 2 || lines.span_mm <= 0) return;
    const Part& sheet = part(w.plate);
    w.span_mm = lines.span_mm;
    w.stays = strip_between_lines_that_stay(w.sag_mm, lines.span_mm, w.thickness_mm, elastic_of(sheet).e_mpa);
    w.stays_mpa = w.stays.bent_share * w.stress.stress_mpa + w.stays.membrane_mpa;
    const double along = length_along_mm(std::get<Flat>(sheet.form), plan_.instances[w.plate].pose, lines);
    const double stretch = w.stays.membrane_mpa * w.thickness_mm * along;
    const auto strength = strength_of(sheet.material, w.thickness_mm);
    if (!strength) return;
    w.seam_mpa = std::hypot(stretch, w.pull_n) / lines.throat_mm2;
    const WeldLimit limit = weld_limit(plan_.load_rules, *strength, LoadKind::thrown);
    w.seam_limit_mpa = limit.mpa;
    w.seam_source = limit.source;
  }

  void throw_it(const PanelMesh& mesh, const FrameModel& model, const std::set<std::size_t>& held, const HeldLines& lines,
                std::size_t side, double g) {
    FrameCase c;
    c.frame = model.frame;
    const std::vector<bool> used = mesh.used();
    for (std::size_t n = 0; n < used.size(); ++n) {
      if (!used[n]) c.frame.supports.push_back({n, clamped});
    }
    // At its seams it turns as it likes but in its own plane.
    const Vec3 z = mesh.pose.z();
    const Freedoms at_seam{true, true, true, std::abs(z.x) > 0.9, std::abs(z.y) > 0.9, std::abs(z.z) > 0.9};
    for (const std::size_t n : held) {
      if (used[n]) c.frame.supports.push_back({n, at_seam});
    }
    double sum = 0;
    for (const Pull& pull : pulls_.at(mesh.of)) {
      const double n = pull.kg * g * gravity;
      sum += n;
      c.load.nodes.push_back({nearest(mesh, used, pull.at), n * ways[side], {}});
    }
    const auto solver = FrameSolver::factor(c.frame);
    if (!solver) return;
    const SolvedCase s{&c, std::make_shared<const FrameSolver>(*solver), solver->solve(c.load)};
    double sag = 0;
    for (const Vec3 moved : s.result.moved) sag = std::max(sag, std::abs(dot(moved, ways[side])));
    const SheetLimits limits(plan_, model);
    Worst here;
    for (std::size_t p = 0; p < model.panel_of.size(); ++p) {
      const SheetStress stress = limits.stress(s, p, s.solver->panel(s.result, p), YieldAt::fibre);
      if (stress.utilisation <= here.stress.utilisation) continue;
      const auto& nodes = model.frame.panels[p].nodes;
      here = {stress,
              mesh.of,
              0.5 * (model.frame.nodes[nodes[0]] + model.frame.nodes[nodes[2]]),
              side,
              sum,
              sag,
              flat_thickness_mm(mesh.of)};
    }
    const RoomBefore room = room_before(plan_, mesh.of, ways[side]);
    here.room = room.least;
    if (room.leaning && !leaning_) leaning_ = std::pair{here, *room.leaning};
    between_lines(here, lines);
    if (here.badness() > worst_.badness()) worst_ = here;
  }

  [[nodiscard]] static std::size_t nearest(const PanelMesh& mesh, const std::vector<bool>& used, Vec3 at) {
    std::size_t best = 0;
    double least = 1e300;
    for (std::size_t n = 0; n < used.size(); ++n) {
      const double off = norm(mesh.at(n) - at);
      if (!used[n] || off >= least) continue;
      least = off;
      best = n;
    }
    return best;
  }

  [[nodiscard]] Finding finding() const {
    const Worst& w = worst_;
    Finding f;
    f.check = "hold-down";
    f.verdict = w.badness() > 1 ? Verdict::fail : Verdict::pass;
    const bool seam = w.seam_mpa / w.seam_limit_mpa > w.bent_share();
    judge(f, w, seam);
    f.parts = {label_of(plan_, w.plate)};
    f.at = w.at;
    f.key = plan_.instances[w.plate].key;
    f.place = plan_.instances[w.plate].place;
    f.message = fmt::format(
        "{}: thrown to the {} with {} g, its rods pull at it with {:.0f} N in all; it bends with {} of {}, {:.0f} "
        "percent ({}), and gives by {:.2f} mm{}. As sheet held along its seams, as cut, elastic; the other plate takes "
        "nothing of that pull, friction counts as nothing{}",
        plan_.instances[w.plate].name, side_words[w.side], *plan_.load_rules.thrown_g[w.side], w.pull_n,
        mpa_words(w.stress.stress_mpa), mpa_words(w.stress.limit_mpa), 100 * w.stress.utilisation, in_words(w.stress),
        w.sag_mm, words_of_room(w), words_beyond(w));
    if (f.verdict == Verdict::fail) f.message += "; " + what_mends(w, seam);
    return f;
  }

  /// However little it gives.
  [[nodiscard]] Finding leans(const Worst& w, const RodPlateRoom& touches) const {
    Finding f;
    f.check = "hold-down";
    f.verdict = Verdict::marginal;
    f.value = w.sag_mm;
    f.limit = 0;
    f.unit = "mm";
    f.source = "statics: what touches takes part of the push";
    f.parts = {label_of(plan_, touches.moves), label_of(plan_, touches.before)};
    f.at = w.at;
    f.key = plan_.instances[touches.moves].key;
    f.place = plan_.instances[touches.moves].place;
    f.message = fmt::format(
        "{}: thrown to the {} with {} g it gives by {:.2f} mm, and {} touches {} there: whether this bears the push is not "
        "checked; room between the two (clearance) mends it",
        plan_.instances[w.plate].name, side_words[w.side], *plan_.load_rules.thrown_g[w.side], w.sag_mm, f.parts[0],
        f.parts[1]);
    return f;
  }

  /// The number that decides, and where it is from.
  static void judge(Finding& f, const Worst& w, bool seam) {
    if (w.gives_too_far() && w.sag_mm / w.most_sag_mm() >= w.badness()) {
      f.value = w.sag_mm;
      f.limit = w.most_sag_mm();
      f.unit = "mm";
      f.source = w.meets()         ? "as far as it may go before what hangs on it meets something, as drawn"
                 : w.span_mm > 0 ? "a twentieth of what is between the lines that hold it: common practice"
                                 : "its thickness: small deflections cover no more";
      return;
    }
    f.value = seam ? w.seam_mpa : std::max(w.stress.stress_mpa, w.stays_mpa);
    f.limit = seam ? w.seam_limit_mpa : w.stress.limit_mpa;
    f.unit = "MPa";
    f.source = fmt::format("{:.0f} MPa ({}): yield is where it lets go", w.stress.limit_mpa, w.stress.source);
    if (seam) f.source = w.seam_source;
  }

  // Stress goes with the inverse square of the thickness, deflection with that of its cube.
  [[nodiscard]] static std::string what_mends(const Worst& w, bool seam) {
    if (seam) return "longer seams or a larger leg (welds.leg) mend it, or a thicker plate, which stretches less";
    const double by_stress = std::sqrt(w.stress.utilisation);
    const double by_sag = std::cbrt(w.sag_mm / w.most_sag_mm());
    const double needed = w.thickness_mm * std::max(by_stress, by_sag);
    if (needed > tables::thickest_rod_plate_mm) {
      return fmt::format("it would take {:.0f} mm, and no plate is thicker than {:.0f} mm: fewer items between two "
                         "uprights, or boxes of their own, mend it",
                         needed, tables::thickest_rod_plate_mm);
    }
    const std::string room =
        w.meets() && w.gives_too_far()
            ? fmt::format("{:.1f} mm more room before what hangs on it (clearance), ", std::ceil(10 * (w.sag_mm - w.room->mm)) / 10)
            : std::string();
    return fmt::format("a plate of about {:.1f} mm (rod_plates.thickness), {}or fewer items between two uprights, mends it",
                       std::ceil(2 * needed) / 2, room);
  }

  [[nodiscard]] static std::string words_beyond(const Worst& w) {
    if (w.sag_mm <= w.thickness_mm / 2) return "";
    if (w.span_mm <= 0) {
      return w.sag_mm > w.sheet_sag_mm()
                 ? fmt::format(
                       "; that is more than its thickness of {:.4g} mm, which small deflections do not cover, and "
                       "large ones of a plate that is held so are not reckoned: it is not passed",
                       w.thickness_mm)
                 : std::string(
                       "; beyond half its thickness it carries a little more, as a skin, which counts as nothing");
    }
    return fmt::format(
        "; that is more than half its thickness of {:.4g} mm, and counts where the two lines that hold it come nearer "
        "to "
        "each other, {:.0f} mm apart. Where they stay it gives by {:.2f} mm and carries as a skin too: {:.0f} MPa of "
        "{:.0f} "
        "MPa, {:.0f} MPa of it stretch, with {:.0f} MPa of {:.0f} MPa in the throats that hold it; the truth is "
        "between the "
        "two{}",
        w.thickness_mm, w.span_mm, w.stays.deflection_mm, w.stays_mpa, w.stress.limit_mpa, w.stays.membrane_mpa,
        w.seam_mpa, w.seam_limit_mpa,
        w.sag_mm > w.sheet_sag_mm()
            ? fmt::format(". More than {:.0f} mm, a twentieth of that, is not passed", w.sheet_sag_mm())
            : std::string());
  }

  [[nodiscard]] std::string words_of_room(const Worst& w) const {
    if (!w.room) return "";
    return fmt::format("; {} has {:.1f} mm there to {}", plan_.instances[w.room->moves].name, w.room->mm,
                       plan_.instances[w.room->before].name);
  }

  const Plan& plan_;
  std::map<InstanceId, std::vector<Pull>> pulls_;
  std::map<InstanceId, std::vector<const Seam*>> seams_;
  Worst worst_;
  std::optional<std::pair<Worst, RodPlateRoom>> leaning_;  // the first that is thrown against what its items touch
};

}  // namespace

std::vector<Finding> check_rod_plates(const Plan& plan, const Seams& seams) { return RodPlates(plan, seams).run(); }

}  // namespace fitup::loads
