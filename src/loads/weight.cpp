// Masses part by part, box by box and of the whole, with where each comes from and how far it may be off.
// Entry: weigh.
#include "fitup/weight.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "fitup/tables.h"

namespace fitup {

std::string_view to_text(MassSource source) {
  switch (source) {
    case MassSource::computed: return "computed";
    case MassSource::given: return "given";
    case MassSource::estimated: return "estimated";
  }
  return "";
}

std::string_view to_text(LoadState state) {
  switch (state) {
    case LoadState::bare_frame: return "bare frame";
    case LoadState::empty: return "empty";
    case LoadState::loaded: return "loaded";
    case LoadState::as_lifted: return "as lifted";
  }
  return "";
}

std::size_t frame_of(const Plan& plan, const Instance& instance) {
  for (std::size_t i = 0; i < plan.frames.size(); ++i) {
    if (instance.key.starts_with("box." + plan.frames[i].box + ".")) return i;
  }
  for (std::size_t i = 1; i < plan.frames.size(); ++i) {
    if (instance.group.starts_with(plan.frames[i].box + " ")) return i;
  }
  return 0;
}

namespace {

// How far off each may be, of the mass (common practice; rolled sections and sheet are within 2 to 8 percent of their
// nominal thickness, and what is rolled tends to be light).
constexpr double computed_share = 0.03;
constexpr double given_share = 0.02;
constexpr double bought_share = 0.1;
constexpr double allowance_share = 0.3;

double share_of(const Part& part, MassSource source) {
  if (source == MassSource::given) return given_share;
  if (source == MassSource::estimated) return allowance_share;
  return part.source == Source::bought ? bought_share : computed_share;
}

MassSource source_of(const Part& part) {
  if (part.source == Source::stand_in || part.role == Role::eye || part.mass_kg == 0) return MassSource::given;
  return part.role == Role::seal ? MassSource::estimated : MassSource::computed;
}

std::string note_of(const Part& part) {
  if (part.source == Source::stand_in) return "as the spec says, rods included; its centre is taken to be its middle";
  if (part.mass_kg == 0) return "in the mass of the item";
  if (part.role == Role::eye) return "table of eyes";
  if (part.role == Role::seal) return "an allowance: density of its material";
  if (part.source == Source::bought) return "as drawn, at its largest size";
  return "drawn size and density";
}

LoadState state_of(Role role) {
  static const std::set<Role> frame{Role::ring_member, Role::upright, Role::cross_bar, Role::brace,
                                    Role::gusset,      Role::landing, Role::cap,       Role::boss,
                                    Role::wall,        Role::rib,     Role::doubler};
  static const std::set<Role> items{Role::item, Role::rod};
  if (role == Role::eye) return LoadState::as_lifted;
  if (items.contains(role)) return LoadState::loaded;
  return frame.contains(role) ? LoadState::bare_frame : LoadState::empty;
}

/// Sums in which a centre of mass is a first moment.
class MassSum {
 public:
  void add(const MassAt& mass, MassSource source) {
    kg_ += mass.kg;
    moment_ = moment_ + mass.kg * mass.centre;
    within_[static_cast<std::size_t>(source)] += mass.within_kg;
  }

  [[nodiscard]] MassAt sum() const {
    double squares = 0;
    for (const double w : within_) squares += w * w;
    return {kg_, std::sqrt(squares), kg_ > 0 ? (1 / kg_) * moment_ : Vec3{}};
  }

 private:
  double kg_ = 0;
  Vec3 moment_;
  std::array<double, all_mass_sources.size()> within_{};
};

class Weighing {
 public:
  Weighing(const Plan& plan, const Seams& seams) : plan_(plan), seams_(seams) {
    for (const Part& part : plan.parts) centres_.push_back(centre_of(part));
  }

  Weights run() {
    parts();
    weld_metal();
    coat();
    eyes_that_are_not_drawn();
    std::stable_sort(result_.rows.begin(), result_.rows.end(), [this](const WeightRow& a, const WeightRow& b) {
      return std::tuple(place_of(a.box), a.from, a.mark.empty(), a.mark) <
             std::tuple(place_of(b.box), b.from, b.mark.empty(), b.mark);
    });
    if (plan_.frames.size() > 1) {
      for (const PlacedFrame& frame : plan_.frames) totals_of(frame.box);
    }
    totals_of("");
    return std::move(result_);
  }

 private:
  [[nodiscard]] std::string box_name(std::size_t frame) const {
    return frame < plan_.frames.size() ? plan_.frames[frame].box : std::string{};
  }

  [[nodiscard]] std::size_t place_of(const std::string& box) const {
    for (std::size_t i = 0; i < plan_.frames.size(); ++i) {
      if (plan_.frames[i].box == box) return i;
    }
    return plan_.frames.size();
  }

  void parts() {
    std::map<std::pair<std::size_t, PartId>, std::vector<const Instance*>> of;
    for (const Instance& i : plan_.instances) {
      if (plan_.parts[i.part].source != Source::printed) of[{frame_of(plan_, i), i.part}].push_back(&i);
    }
    for (const auto& [where, instances] : of) add_part(box_name(where.first), where.second, instances);
  }

  void add_part(const std::string& box, PartId id, const std::vector<const Instance*>& instances) {
    const Part& part = plan_.parts[id];
    WeightRow row{box, part.mark, part.name, instances.size(), {}, source_of(part), state_of(part.role), note_of(part)};
    Vec3 sum;
    for (const Instance* i : instances) sum = sum + i->pose.point(centres_[id]);
    const auto n = static_cast<double>(instances.size());
    row.all = {n * part.mass_kg, n * part.mass_kg * share_of(part, row.source), (1 / n) * sum};
    result_.rows.push_back(std::move(row));
  }

  void add_allowance(const std::string& box, const char* name, MassAt mass, LoadState from, std::string note) {
    if (mass.kg <= 0) return;
    mass.within_kg = mass.kg * allowance_share;
    result_.rows.push_back({box, "", name, 1, mass, MassSource::estimated, from, std::move(note)});
  }

  void weld_metal() {
    std::map<std::pair<std::size_t, LoadState>, MassSum> of;
    for (const Seam& seam : seams_.all) {
      if (!holds(seam)) continue;
      const Joint& joint = plan_.joints[seam.joint];
      const Instance& a = plan_.instances[joint.a];
      const Role other = plan_.parts[plan_.instances[joint.b].part].role;
      const Material* material = tables::find_material(plan_.parts[a.part].material);
      const double density = material == nullptr ? 7850 : material->density_kg_per_m3;
      const LoadState state = std::max(state_of(plan_.parts[a.part].role), state_of(other));
      of[{frame_of(plan_, a), state}].add({metal_mm3(seam) * 1e-9 * density, 0, 0.5 * (seam.from + seam.to)},
                                          MassSource::estimated);
    }
    for (const auto& [where, sum] : of) {
      add_allowance(box_name(where.first), "weld metal", sum.sum(), where.second,
                    "an allowance: the seams of welds.csv at their stated size");
    }
  }

  void coat() {
    if (!plan_.coat || plan_.coat->mass_kg <= 0) return;
    MassSum made;
    for (const Instance& i : plan_.instances) {
      const Part& part = plan_.parts[i.part];
      if (part.source != Source::cut && part.source != Source::sawn) continue;
      made.add({part.mass_kg, 0, i.pose.point(centres_[i.part])}, MassSource::computed);
    }
    const MassAt mass{plan_.coat->mass_kg, 0, made.sum().centre};
    add_allowance(
        plan_.frames.size() > 1 ? "" : box_name(0), "finish", mass, LoadState::empty,
        fmt::format("an allowance: {} of {:.3f} mm on all made steel", plan_.coat->words, plan_.coat->surface_mm));
  }

  void eyes_that_are_not_drawn() {
    const auto drawn = [this](const Instance& i) { return plan_.parts[i.part].role == Role::eye; };
    if (plan_.lift_points.empty() || std::any_of(plan_.instances.begin(), plan_.instances.end(), drawn)) return;
    const Eye* eye = tables::find_eye(plan_.lift_points.front().thread);
    if (eye == nullptr) return;
    Vec3 sum;
    for (const LiftPoint& point : plan_.lift_points) sum = sum + point.at + Vec3{0, 0, eye->height_mm / 2};
    const auto n = static_cast<double>(plan_.lift_points.size());
    const Instance& boss = plan_.instances[plan_.lift_points.front().boss];
    result_.rows.push_back({box_name(frame_of(plan_, boss)),
                            "",
                            eye->size + " lifting eye",
                            plan_.lift_points.size(),
                            {n * eye->mass_kg, n * eye->mass_kg * given_share, (1 / n) * sum},
                            MassSource::given,
                            LoadState::as_lifted,
                            "table of eyes; not in the model"});
  }

  void totals_of(const std::string& box) {
    for (const LoadState state : all_load_states) {
      MassSum sum;
      for (const WeightRow& row : result_.rows) {
        if (row.from <= state && (box.empty() || row.box == box)) sum.add(row.all, row.source);
      }
      result_.totals.push_back({box, state, sum.sum()});
    }
  }

  const Plan& plan_;
  const Seams& seams_;
  std::vector<Vec3> centres_;
  Weights result_;
};

}  // namespace

const MassAt& Weights::whole(LoadState state) const {
  static const MassAt nothing{};
  for (const WeightTotal& total : totals) {
    if (total.box.empty() && total.state == state) return total.mass;
  }
  return nothing;
}

Weights weigh(const Plan& plan, const Seams& seams) { return Weighing(plan, seams).run(); }

}  // namespace fitup
