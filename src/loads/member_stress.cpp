// Stresses of members and sheet; both softened where they are bent over their limit.
// Entry: member_stresses, SheetLimits, reliefs.
#include "loads/member_stress.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "loads/amounts.h"
#include "loads/formulas.h"
#include "loads/panel_mesh.h"
#include "loads/strength.h"

namespace fitup::loads {

namespace {

constexpr int stations = 8;  // along each piece
constexpr double least_push_mpa = 0.1;
// Each round softens what is over its limit by the square of what its stress asks for and a little more: what is left
// soft beside it takes less as well, so that the plain quotient needs twice as many rounds.
constexpr int rounds = 24;
constexpr int soon = 16;  // what is far over its limit is in vain that would not end by then
constexpr double a_little_more = 0.98;
constexpr double far_over = 1;       // times the limit, beyond it
constexpr double nearly = 0.1;       // likewise
constexpr double sheet_beside = 15;  // times epsilon and its thickness

const Part& part_of(const Plan& plan, InstanceId id) { return plan.parts[plan.instances[id].part]; }

/// What a section carries in bending beside what it carries when its outermost fibre yields: 1.5 of a solid flat, and
/// of an angle, about any axis at least; 1 where its legs are not class 1 (c / t <= 9 epsilon), and of tubes and rails.
double plastic_share(const Plan& plan, InstanceId id, double yield_mpa) {
  const Part& part = part_of(plan, id);
  if (part.role == Role::rail) return 1;
  const Section section = *section_of(part);
  const double epsilon = std::sqrt(235 / yield_mpa);
  const double t = section.thickness_mm;
  switch (section.shape) {
    case SectionShape::flat: return 1.5;
    case SectionShape::angle: {
      const double free = std::max(section.leg_a_mm, section.leg_b_mm) - t - section.root_radius_mm;
      return free / t <= 9 * epsilon ? 1.5 : 1;
    }
    default: return 1;
  }
}

struct Strut {
  double keeps = 1;
  bool with_sheet = false;
};

/// Second moment of what moves along `way`, about the centroid.
double second_moment(const SectionProperties& s, const CentroidLine& line, Vec3 way) {
  const Vec3 x = (1 / line.length_mm()) * (line.to - line.from);
  const double y = dot(way, line.y), z = dot(way, cross(x, line.y));
  const BeamSection b = s.beam();
  return b.iz_mm4 * y * y + b.iy_mm4 * z * z + 2 * b.iyz_mm4 * y * z;
}

class Members {
 public:
  Members(const Plan& plan, const FrameModel& model, const SolvedCase& solved, YieldAt at)
      : plan_(plan), model_(model), solved_(solved), at_(at) {}

  std::map<InstanceId, MemberStress> run() {
    for (std::size_t first = 0; first < model_.pieces.size();) {
      std::size_t end = first;
      while (end < model_.pieces.size() && model_.pieces[end].of == model_.pieces[first].of) ++end;
      look(first, end);
      first = end;
    }
    return std::move(worst_);
  }

 private:
  void look(std::size_t first, std::size_t end) {
    const InstanceId id = model_.pieces[first].of;
    const Part& part = part_of(plan_, id);
    const auto strength = strength_of(part.material, section_of(part)->thickness_mm);
    if (!strength) return;
    const double push = part.role == Role::rail ? 0 : mean_push_mpa(first, end);
    // A trifling push is no strut; a rail is pressed by what holds its ends, and bends.
    const Strut strut = push > least_push_mpa ? strut_of(id, strength->yield_mpa) : Strut{};
    MemberStress& worst = worst_[id];
    const double limit = strength->yield_mpa / solved_.of->factor;
    const double plastic = at_ == YieldAt::depth ? plastic_share(plan_, id, strength->yield_mpa) : 1;
    for (std::size_t p = first; p < end; ++p) {
      const InnerAlong inner = solved_.solver->inner(solved_.result, p);
      for (int i = 0; i <= stations; ++i) {
        const double along = static_cast<double>(i) / stations;
        const InnerForces whole = inner.at(along);
        InnerForces in = whole;
        in.moment = {in.moment.x, in.moment.y / plastic, in.moment.z / plastic};
        const BeamStress beam = stress_of(model_.sections.at(id), in);
        const double stress = beam.mpa() + push * (1 / strut.keeps - 1);
        if (stress / limit <= worst.utilisation) continue;
        const FramePiece& piece = model_.pieces[p];
        const Vec3 at = centroid_line(plan_, id)->at(piece.from_mm + along * (piece.to_mm - piece.from_mm));
        worst = {stress / limit, stress, limit,   strut.keeps, strut.with_sheet, p, at, strength->source,
                 whole,          beam,   plastic, push};
      }
    }
  }

  /// Where it is drawn counts as nothing.
  [[nodiscard]] double mean_push_mpa(std::size_t first, std::size_t end) const {
    double sum = 0, length = 0;
    for (std::size_t p = first; p < end; ++p) {
      const double along = model_.pieces[p].to_mm - model_.pieces[p].from_mm;
      sum += std::max(0.0, -solved_.solver->inner(solved_.result, p).at(0.5).force.x) * along;
      length += along;
    }
    return sum / length / model_.sections.at(model_.pieces[first].of).area_mm2;
  }

  [[nodiscard]] Strut strut_of(InstanceId id, double yield_mpa) const {
    const SectionProperties& section = model_.sections.at(id);
    double second = section.iv_mm4, area = section.area_mm2;
    const std::optional<InstanceId> sheet = sheet_along(id);
    if (sheet) {
      const CentroidLine line = *centroid_line(plan_, id);
      const Pose& pose = plan_.instances[*sheet].pose;
      const double t = std::get<Flat>(part_of(plan_, *sheet).form).thickness_mm;
      const double beside = sheet_beside * std::sqrt(235 / yield_mpa) * t * t;
      const double off = dot(line.from - pose.origin(), pose.z()) - t / 2;
      second =
          second_moment(section, line, pose.z()) + area * beside / (area + beside) * off * off + beside * t * t / 12;
      area += beside;
    }
    const auto curve =
        section_of(part_of(plan_, id))->shape == SectionShape::angle ? BucklingCurve::b : BucklingCurve::c;
    const double length = centroid_line(plan_, id)->length_mm();
    const double slender =
        slenderness(length, std::sqrt(second / area), yield_mpa, elastic_of(part_of(plan_, id)).e_mpa);
    return {buckling_factor(slender, curve), sheet.has_value()};
  }

  /// Flat sheet whose seams hold more than half of the member.
  [[nodiscard]] std::optional<InstanceId> sheet_along(InstanceId id) const {
    const CentroidLine line = *centroid_line(plan_, id);
    std::map<InstanceId, std::pair<double, double>> reach;
    for (const PanelTie& tie : model_.ties) {
      if (tie.member != id) continue;
      const double a = line.along(tie.seam.from), b = line.along(tie.seam.to);
      auto& span = reach.emplace(tie.plate, std::pair{a, a}).first->second;
      span = {std::min({span.first, a, b}), std::max({span.second, a, b})};
    }
    for (const auto& [plate, span] : reach) {
      if (span.second - span.first > line.length_mm() / 2) return plate;
    }
    return std::nullopt;
  }

  const Plan& plan_;
  const FrameModel& model_;
  const SolvedCase& solved_;
  YieldAt at_;
  std::map<InstanceId, MemberStress> worst_;
};

double eased(double utilisation) { return std::pow(a_little_more / utilisation, 2); }

void soften(FrameMember& member, double share) {
  member.section.iy_mm4 *= share;
  member.section.iz_mm4 *= share;
  member.section.iyz_mm4 *= share;
  member.section.j_mm4 *= share;
}

void soften(FramePanel& panel, double share) {
  panel.elastic.e_mpa *= share;
  panel.elastic.g_mpa *= share;
}

/// One case made softer round by round.
class Softening {
 public:
  Softening(const Plan& plan, const FrameModel& model, const SheetLimits& limits, const SolvedCase& solved)
      : plan_(plan), model_(model), limits_(limits), out_(std::make_unique<Relieved>()) {
    out_->softened = *solved.of;
    out_->solved = solved;
  }

  [[nodiscard]] Relief run() {
    for (int round = 0; round < rounds; ++round) {
      const double before = over_;
      over_ = 0;
      members();
      sheet();
      if (over_ <= 0) return {true, std::move(out_), round, false};
      if (stuck_ || is_in_vain(round, before)) return {true, nullptr, round, stuck_};
      auto solver = FrameSolver::factor(out_->softened.frame, out_->solved.solver.get());
      if (!solver) return {true, nullptr, round, false};
      FrameResult result = solver->solve(out_->softened.load);
      out_->solved = {&out_->softened, std::make_shared<const FrameSolver>(std::move(*solver)), std::move(result)};
    }
    return {true, nullptr, rounds, false};
  }

 private:
  /// At the pace of the last round it would end far over its limit. Near that the pace is of a hair, and says nothing.
  [[nodiscard]] bool is_in_vain(int round, double before) const {
    return round >= 2 && over_ > nearly && over_ * std::pow(over_ / before, std::max(0, soon - 1 - round)) > far_over;
  }

  void members() {
    for (const auto& [id, stress] : member_stresses(plan_, model_, out_->solved, YieldAt::depth)) {
      if (part_of(plan_, id).role == Role::rail || stress.utilisation <= 1) continue;
      over_ = std::max(over_, stress.utilisation - 1);
      if (plastic_share(plan_, id, stress.limit_mpa * out_->softened.factor) <= 1) stuck_ = true;
      for (std::size_t p = 0; p < model_.pieces.size(); ++p) {
        if (model_.pieces[p].of == id) soften(out_->softened.frame.members[p], eased(stress.utilisation));
      }
    }
  }

  void sheet() {
    for (std::size_t p = 0; p < model_.panel_of.size(); ++p) {
      const PanelForces f = out_->solved.solver->panel(out_->solved.result, p);
      const double utilisation = limits_.stress(out_->solved, p, f, YieldAt::depth).utilisation;
      if (utilisation <= 1) continue;
      over_ = std::max(over_, utilisation - 1);
      soften(out_->softened.frame.panels[p], eased(utilisation));
    }
  }

  const Plan& plan_;
  const FrameModel& model_;
  const SheetLimits& limits_;
  std::unique_ptr<Relieved> out_;
  double over_ = 0;  // what is most over its limit, by how many times of it
  bool stuck_ = false;
};

/// Of what is to be relieved, the most that is used of a limit: of members by fibre, of sheet by depth.
double most_used(const Plan& plan, const FrameModel& model, const SheetLimits& limits, const SolvedCase& solved) {
  double most = 0;
  for (const auto& [id, stress] : member_stresses(plan, model, solved)) {
    if (part_of(plan, id).role != Role::rail) most = std::max(most, stress.utilisation);
  }
  for (std::size_t p = 0; p < model.panel_of.size(); ++p) {
    const PanelForces f = solved.solver->panel(solved.result, p);
    most = std::max(most, limits.stress(solved, p, f, YieldAt::depth).utilisation);
  }
  return most;
}

double von_mises(const PlaneStress& s) { return std::sqrt(s.x * s.x - s.x * s.y + s.y * s.y + 3 * s.xy * s.xy); }

PlaneStress operator+(const PlaneStress& a, const PlaneStress& b) { return {a.x + b.x, a.y + b.y, a.xy + b.xy}; }

std::string words_of(const PlaneStress& s) {
  return fmt::format("s_x {}, s_y {}, shear {}", mpa_words(s.x), mpa_words(s.y), mpa_words(s.xy));
}

}  // namespace

std::map<InstanceId, MemberStress> member_stresses(const Plan& plan, const FrameModel& model, const SolvedCase& solved,
                                                   YieldAt at) {
  return Members(plan, model, solved, at).run();
}

SheetLimits::SheetLimits(const Plan& plan, const FrameModel& model) : model_(model) {
  std::map<InstanceId, std::optional<Strength>> known;
  for (std::size_t p = 0; p < model.panel_of.size(); ++p) {
    const InstanceId id = model.panel_of[p];
    const auto [of, is_new] = known.try_emplace(id);
    if (is_new) of->second = strength_of(part_of(plan, id).material, model.frame.panels[p].thickness_mm);
    const auto& strength = of->second;
    const bool softened = strength && strength->is_aluminium() && model.panel_at_seam[p];
    limits_.push_back(!strength  ? Limit{}
                      : softened ? Limit{strength->haz_yield_mpa, "EN 1999-1-1, table 3.2, beside a weld"}
                                 : Limit{strength->yield_mpa, strength->source});
  }
}

SheetStress SheetLimits::stress(const SolvedCase& solved, std::size_t panel, const PanelForces& f, YieldAt at) const {
  const Limit& limit = limits_[panel];
  if (limit.yield_mpa <= 0) return {};
  const double t = model_.frame.panels[panel].thickness_mm;
  const double modulus = at == YieldAt::depth ? t * t / 4 : t * t / 6;
  SheetStress out;
  out.limit_mpa = limit.yield_mpa / solved.of->factor;
  out.source = limit.source;
  out.in_plane = {f.n_x / t, f.n_y / t, f.n_xy / t};
  for (const double face : {-1 / modulus, 1 / modulus}) {
    const PlaneStress bent{face * f.m_x, face * f.m_y, face * f.m_xy};
    const double stress = von_mises(out.in_plane + bent);
    if (stress <= out.stress_mpa) continue;
    out.stress_mpa = stress;
    out.bent = bent;
  }
  out.utilisation = out.stress_mpa / out.limit_mpa;
  return out;
}

std::string in_words(const MemberStress& s) {
  const InnerForces& in = s.inner;
  const auto nm = [](double nmm) { return in_words(nmm / 1000, 1) + " Nm"; };
  std::string words = fmt::format(
      "N {} N, M_y {}, M_z {}, torsion {}, V_y {} N, V_z {} N; at the section's corner y {} mm, z {} mm{} {} along it "
      "and "
      "{} of shear",
      in_words(in.force.x, 0), nm(in.moment.y), nm(in.moment.z), nm(in.moment.x), in_words(in.force.y, 0),
      in_words(in.force.z, 0), in_words(s.beam.corner.x, 1), in_words(s.beam.corner.y, 1),
      s.plastic > 1 ? fmt::format(", its moments over {} as it is plastic,", s.plastic) : "",
      mpa_words(s.beam.direct_mpa), mpa_words(s.beam.shear_mpa));
  if (s.buckles < 1) words += fmt::format("; pressed with {} on the mean", mpa_words(s.push_mpa));
  return words;
}

std::string in_words(const SheetStress& s) {
  return fmt::format("in its plane {}; of bending at its face {}", words_of(s.in_plane), words_of(s.bent));
}

std::string why_not_relieved(const Relief& relief) {
  if (relief.may_not_bend) return "a member that is over its limit is not stout enough to bend along";
  return fmt::format("in {} of softening no state in balance within the limits was found",
                     counted(static_cast<std::size_t>(relief.rounds), "round"));
}

std::vector<Relief> reliefs(const Plan& plan, const FrameModel& model, const std::vector<SolvedCase>& cases,
                            Until until) {
  const SheetLimits limits(plan, model);
  std::vector<std::pair<double, std::size_t>> over;
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const double most = most_used(plan, model, limits, cases[i]);
    if (most > 1) over.emplace_back(-most, i);
  }
  std::sort(over.begin(), over.end());
  std::vector<Relief> all(cases.size());
  bool known = false;
  for (const auto& [most, i] : over) {
    all[i].over = true;
    if (known) continue;
    all[i] = Softening(plan, model, limits, cases[i]).run();
    if (until == Until::one_fails && !all[i].soft) break;
    known = until == Until::verdicts_are_known && !all[i].soft;
  }
  return all;
}

}  // namespace fitup::loads
