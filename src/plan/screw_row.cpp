// Where the screws of a row stand.
// Entry: places_along, heights_of, clear_of_seam_mm.
#include "plan/screw_row.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/clear_rows.h"
#include "plan/face_axes.h"

namespace fitup::plan {

namespace {

constexpr double beside_bead_mm = 2;  // of steel between a bead and the edge of a hole (common practice)
constexpr double between_heads_mm = 1;

// Places that are given, and what they must keep.
struct Given {
  Place place;
  std::string key;
  std::string thread;
  std::vector<double> at;
  double least = 0;
  double most = 0;
  double spacing = 0;  // largest; 0: none is asked for
};

double heads_apart_mm(const std::string& thread) {
  return tables::find_button_head(thread)->head_mm + between_heads_mm;
}

void say(Build& build, const Given& given, double at, const std::string& why, const std::string& remedy) {
  build.diagnostics.add(diag::say<"screw-place">(given.place, given.key, build.in_words(at), why, remedy));
}

bool within_row(Build& build, const Given& given) {
  for (const double at : given.at) {
    if (at >= given.least - tolerance::contact_mm && at <= given.most + tolerance::contact_mm) continue;
    const bool any = given.least <= given.most;
    say(build, given, at, "is too near to an end of the row or beyond it: to an edge, a seam or an upright",
        any ? fmt::format("keep it between {} and {}", build.at_least(given.least), build.at_most(given.most))
            : std::string("that row has room for none"));
    return false;
  }
  return true;
}

bool apart(Build& build, const Given& given) {
  const double least = heads_apart_mm(given.thread);
  for (std::size_t i = 1; i < given.at.size(); ++i) {
    const double step = given.at[i] - given.at[i - 1];
    if (step < least - tolerance::contact_mm) {
      say(build, given, given.at[i], fmt::format("is {} from the one before it", build.in_words(step)),
          fmt::format("their heads need at least {}", build.at_least(least)));
      return false;
    }
    if (given.spacing > 0 && step > given.spacing + tolerance::contact_mm) {
      say(build, given, given.at[i],
          fmt::format("is {} from the one before it, more than max_spacing, {}", build.in_words(step),
                      build.in_words(given.spacing)),
          "put one between them, or give a larger max_spacing");
      return false;
    }
  }
  return true;
}

// From the row's ends no further than from screw to screw.
bool reaches_ends(Build& build, const Given& given) {
  if (given.spacing <= 0 || given.at.empty()) return true;
  for (const auto& [at, off, place] : {std::tuple{given.at.front(), given.at.front() - given.least, given.least},
                                       std::tuple{given.at.back(), given.most - given.at.back(), given.most}}) {
    if (off <= given.spacing + tolerance::contact_mm) continue;
    say(build, given, at,
        fmt::format("leaves {} to the row's end without a screw, more than max_spacing, {}", build.in_words(off),
                    build.in_words(given.spacing)),
        fmt::format("put one near {} too, or give a larger max_spacing", build.in_words(place)));
    return false;
  }
  return true;
}

// None where something speaks against them, which is said.
std::vector<double> checked(Build& build, Given given) {
  std::sort(given.at.begin(), given.at.end());
  if (!within_row(build, given) || !apart(build, given) || !reaches_ends(build, given)) return {};
  return given.at;
}

double in_frame(const Build& build, const CountedFrom& from, int run, double at) {
  const bool turned = (run == 0 && from.right) || (run == 1 && from.back);
  return turned ? along(build.shell.size, run) - at : at;
}

}  // namespace

double clear_of_seam_mm(double leg_mm, double hole_mm) { return 2 * leg_mm + beside_bead_mm + hole_mm / 2; }

std::vector<double> places_along(Build& build, const ScrewRow& row, const std::vector<double>& by_rule) {
  const ScrewSpec& screws = build.box_spec().face(row.face).screws;
  const auto& at = screws.at[static_cast<std::size_t>(row.edge)];
  if (!at) {
    const std::string name =
        row.name.empty() ? fmt::format("{} cover screw {}", to_text(row.face), to_text(row.edge)) : row.name;
    return out_of_gaps(build.row_gaps, name, by_rule, heads_apart_mm(*screws.thread), screws.max_spacing->mm());
  }
  Given given;
  given.place = at->places.place;
  given.key = build.key(fmt::format("face.{}.screws.at.{}", to_text(row.face), to_text(row.edge)));
  given.thread = *screws.thread;
  for (const Length place : *at->places) given.at.push_back(in_frame(build, at->from, row.run, place.mm()));
  given.least = row.least;
  given.most = row.most;
  given.spacing = screws.max_spacing.given ? screws.max_spacing->mm() : 0;
  return checked(build, std::move(given));
}

std::vector<double> heights_of(Build& build, const RodPlatesSpec& plates, double least, double most,
                               const std::vector<double>& by_rule) {
  if (!plates.screw_at) return by_rule;
  Given given;
  given.place = plates.screw_at->place;
  given.key = build.key("rod_plates.screw_at");
  given.thread = *plates.screw;
  for (const Length place : **plates.screw_at) given.at.push_back(place.mm());
  given.least = least;
  given.most = most;
  return checked(build, std::move(given));
}

}  // namespace fitup::plan
