// The coat: its allowance in holes, what it leaves of gaps.
// Entry: coat_in_hole_mm, coat_of, add_coat_fits.
#include "plan/coat.h"

#include <array>

#include <fmt/format.h>

#include "plan/as_built.h"

namespace fitup::plan {

namespace {

constexpr double drill_step_mm = 0.1;

struct Kind {
  const char* words;
  double density_kg_per_m3;
};
// Dry films: common practice, from memory; zinc: the metal's.
constexpr std::array<Kind, 4> kinds{{{"", 0}, {"paint", 1400}, {"powder coat", 1500}, {"hot dip zinc", 7140}}};

std::size_t index(const FinishSpec& finish) { return static_cast<std::size_t>(*finish.kind); }

Fit gap_fit(const Build& build, const std::string& between, double gap_mm) {
  const FinishSpec& finish = build.spec.finish;
  const double both = 2 * finish.surface_mm();
  Fit fit;
  fit.check = "finish";
  fit.value = gap_mm;
  fit.limit = both;
  fit.source = "the coat of both surfaces";
  fit.key = "finish.thickness";
  fit.place = finish.thickness.place;
  fit.message = fmt::format("{} there are {:.2f} mm; {} on both surfaces takes {:.2f} mm of it", between, gap_mm,
                            kinds[index(finish)].words, both);
  return fit;
}

void add_flange_gaps(Build& build) {
  for (const Face face : all_faces) {
    if (!is_flanged(build.box_spec(), face)) continue;
    const std::string word(to_text(face));
    const std::string of_box = build.spec.boxes.size() > 1 ? " of " + build.box_spec().name : "";
    const Sourced<Length>& gap = build.box_spec().face(face).gap;
    Fit fit =
        gap_fit(build, fmt::format("between the frame and the flanges of the {} cover{}", word, of_box), gap->mm());
    fit.key = build.key("face." + word + ".gap");
    fit.place = gap.place;
    fit.at = middle_of(build, face);
    for (InstanceId id = 0; id < build.draft.size(); ++id) {
      const Part& part = build.draft.part(id);
      const auto* flat = std::get_if<Flat>(&part.form);
      const bool flange = part.role == Role::cover_flange || (flat != nullptr && !flat->bends.empty());
      if (flange && build.draft.instance(id).key == build.key("face." + word)) fit.parts.push_back(id);
    }
    build.draft.fits.push_back(std::move(fit));
  }
}

// What is bolted in goes in and comes out coated.
void add_rod_plate_gaps(Build& build) {
  for (InstanceId id = 0; id < build.draft.size(); ++id) {
    const Part& part = build.draft.part(id);
    const Instance& instance = build.draft.instance(id);
    // What is welded in belongs to the frame; of a box that is not the first, to "NAME frame".
    if (part.role != Role::rod_plate || instance.group.ends_with("frame")) continue;
    const Box2 bounds = std::get<Flat>(part.form).profile.bounds();
    const Vec3 low = build.draft.pose(id).point({bounds.low.x, bounds.low.y, 0});
    const auto& uprights = build.shell.upright[low.y < build.shell.size.y / 2 ? Side::low : Side::high];
    // Its return flanges stand no farther off than the plate itself.
    const Sourced<Length>& gap = build.box_spec().rod_plates->gap;
    Fit fit =
        gap_fit(build, fmt::format("between the return flanges of {} and the uprights", instance.name), gap->mm());
    fit.key = build.key("rod_plates.gap");
    fit.place = gap.place;
    fit.at = build.draft.pose(id).point({bounds.middle().x, bounds.middle().y, 0});
    fit.parts = {id, uprights[Side::low].id};
    build.draft.fits.push_back(std::move(fit));
  }
}

double surface_mm2(const Profile& profile, double length_mm) {
  return 2 * profile.area_mm2() + profile.perimeter_mm() * length_mm;
}

/// Ends are taken square, and surfaces that are welded or lie on each other are counted: an allowance.
double surface_mm2(const Part& part) {
  if (const auto* flat = std::get_if<Flat>(&part.form)) return surface_mm2(flat->profile, flat->thickness_mm);
  if (const auto* member = std::get_if<Member>(&part.form))
    return surface_mm2(profile_of(member->section), member->length_mm);
  double sum = 0;
  for (const Prism& prism : std::get<Solidform>(part.form).prisms) sum += surface_mm2(prism.profile, prism.length_mm);
  return sum;
}

}  // namespace

double coat_in_hole_mm(const Spec& spec) { return rounded_up(2 * spec.finish.surface_mm(), drill_step_mm); }

std::optional<Coat> coat_of(const Spec& spec, const Plan& plan) {
  const FinishSpec& finish = spec.finish;
  if (*finish.kind == FinishKind::none) return std::nullopt;
  double area_mm2 = 0;
  for (const Instance& instance : plan.instances) {
    const Part& part = plan.parts[instance.part];
    if (part.source == Source::cut || part.source == Source::sawn) area_mm2 += surface_mm2(part);
  }
  const Kind& kind = kinds[index(finish)];
  const double mass_kg = area_mm2 * finish.surface_mm() * 1e-9 * kind.density_kg_per_m3;
  return Coat{kind.words, finish.surface_mm(), mass_kg, *finish.kind == FinishKind::zinc, finish.kind.place};
}

void add_coat_fits(Build& build) {
  if (*build.spec.finish.kind == FinishKind::none || build.diagnostics.has_errors()) return;
  add_flange_gaps(build);
  add_rod_plate_gaps(build);
}

}  // namespace fitup::plan
