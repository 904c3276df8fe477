// What all printed aids are made of: plates with their first layers set in.
// Entry: printed_plate, printed.
#include "plan/printed_part.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"

namespace fitup::plan {

namespace {

constexpr double print_density_kg_per_m3 = 1240;  // PLA, common practice

Vec2 turned_by(Vec2 v, double angle) {
  return {v.x * std::cos(angle) - v.y * std::sin(angle), v.x * std::sin(angle) + v.y * std::cos(angle)};
}

// Inward normals of an edge at its start and its end: an arc's tangents stand off its chord by half its angle.
std::pair<Vec2, Vec2> normals(Vec2 from, Vec2 to, double bulge) {
  const Vec2 chord = (1 / norm(to - from)) * (to - from);
  const Vec2 left{-chord.y, chord.x};
  const double half_angle = 2 * std::atan(bulge);
  return {turned_by(left, -half_angle), turned_by(left, half_angle)};
}

}  // namespace

Loop inset(const Loop& loop, double by_mm) {
  Loop out = loop;
  const std::size_t n = loop.vertices.size();
  for (std::size_t i = 0; i < n; ++i) {
    const Vertex& before = loop.vertices[(i + n - 1) % n];
    const Vertex& here = loop.vertices[i];
    const Vertex& after = loop.vertices[(i + 1) % n];
    const Vec2 in = normals(before.at, here.at, before.bulge).second;
    const Vec2 on = normals(here.at, after.at, here.bulge).first;
    out.vertices[i].at = here.at + (by_mm / (1 + dot(in, on))) * (in + on);
  }
  return out;
}

Profile smaller(const Profile& profile, double by_mm) {
  Profile out{inset(profile.outer, by_mm), {}};
  for (const Loop& hole : profile.holes) out.holes.push_back(inset(hole, -by_mm));
  return out;
}

std::vector<Prism> printed_plate(const Build& build, const Profile& profile, double thickness_mm) {
  const double by_mm = build.spec.print.first_layer->mm();
  if (by_mm < tolerance::contact_mm || thickness_mm < 2 * first_layers_mm) return {{profile, Pose{}, thickness_mm}};
  const Pose above = Pose{}.moved({0, 0, first_layers_mm});
  return {{smaller(profile, by_mm), Pose{}, first_layers_mm}, {profile, above, thickness_mm - first_layers_mm}};
}

Part printed(PrintedWords words, std::vector<Prism> prisms) {
  Part part;
  part.mark = fmt::format("PRT{:02}", words.number);
  part.name = std::move(words.name);
  part.role = words.role;
  part.source = Source::printed;
  part.material = "print";
  part.size = std::move(words.size);
  for (const Prism& prism : prisms) part.mass_kg += prism.volume_mm3() * 1e-9 * print_density_kg_per_m3;
  part.form = Solidform{std::move(prisms)};
  return part;
}

void say_no_aid(const Build& build, const std::string& what, double gap_mm, const std::string& gap) {
  const double fit = build.spec.print.fit->mm();
  build.diagnostics.add(diag::say<"no-printed-aid">(
      build.spec.print.fit.place, what,
      fmt::format("{} of {} less print.fit of {} leaves {}, and at least {} can be printed; make print.fit smaller",
                  gap, build.in_words(gap_mm), build.in_words(fit), build.in_words(std::max(0.0, gap_mm - fit)),
                  build.in_words(least_print_mm))));
}

}  // namespace fitup::plan
