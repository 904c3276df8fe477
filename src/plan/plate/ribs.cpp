// Where ribs stand under rails: on a floor's underside, or between the sides of a base ring.
// Entry: ribs_of.
#include <algorithm>
#include <cmath>
#include <utility>

#include "fitup/tables.h"
#include "fitup/tolerances.h"
#include "plan/held_from_below.h"
#include "plan/plate/shell.h"
#include "plan/rails.h"

namespace fitup::plan::plate {

namespace {

constexpr double least_pad = 2;      // a rib under a lying leg, in thicknesses
constexpr double least_rib_mm = 15;  // lower ones stiffen nothing
constexpr double head_play_mm =
    2;  // between a rib and the heads of screws that go up through its rail (common practice)

// Of a rib, from the box's side.
struct RibSpan {
  double low_z = 0;
  double top_z = 0;
  double begins = 0;           // of the whole rib
  double under_rail = 0;       // of what reaches up to the rail,
  double beside_corner = 0;    // and of that near the sides, beside a window's round corner
  double least_from_side = 0;  // nearer to them the rail lies on the deck's border
};

RibSpan span_on_floor(const Build& build, const Sheets& sheets) {
  const double b = sheets.border_mm;
  return {0, build.shell.deck_mm - sheets.t_mm, 0, b + weld_gap_mm, b + window_radius_mm, b + sheets.t_mm};
}

// Behind the screws in the standing legs, out at the top under the lying ones, clear of what lies under their toes.
RibSpan span_on_ring(const Build& build, const Sheets& sheets, const Ring& ring) {
  const double gap = build.box_spec().frame.cope_gap->mm();
  const double pad = least_pad * sheets.t_mm;
  const double behind = std::min(ring.thickness_mm() + behind_rows * sheets.t_mm, ring.lying_mm - pad);
  const double from = ring.lying_mm + gap;
  return {sheets.t_mm, build.shell.deck_mm,        std::max(behind, ring.root_mm() + gap), from,
          from,        ring.lying_mm + sheets.t_mm};
}

// Under the rail's middle, or where it stands nearest to that between the heads of screws that go up through the rail;
// the middle where it has no room beside them.
double middle_of_rib(const Span& rail, double t, const std::vector<HeldFromBelow>& screws) {
  const auto off_mm = [&](const HeldFromBelow& screw) {
    return tables::find_button_head(screw.thread->size)->head_mm / 2 + head_play_mm + t / 2;
  };
  const auto has_room = [&](double x) {
    return x - t / 2 >= rail.low && x + t / 2 <= rail.high &&
           std::all_of(screws.begin(), screws.end(), [&](const HeldFromBelow& screw) {
             return std::abs(x - screw.across_mm) >= off_mm(screw) - tolerance::contact_mm;
           });
  };
  std::vector<double> places{rail.middle()};
  for (const HeldFromBelow& screw : screws) {
    places.push_back(screw.across_mm - off_mm(screw));
    places.push_back(screw.across_mm + off_mm(screw));
  }
  std::erase_if(places, [&](double x) { return !has_room(x); });
  const auto nearest = std::min_element(places.begin(), places.end(), [&](double a, double b) {
    return std::abs(a - rail.middle()) < std::abs(b - rail.middle());
  });
  return nearest == places.end() ? rail.middle() : *nearest;
}

}  // namespace

std::vector<RibPlace> ribs_of(const Build& build, const Sheets& sheets, const Ring* ring) {
  const Shell& shell = build.shell;
  const double t = sheets.t_mm;
  const RibSpan span = ring != nullptr ? span_on_ring(build, sheets, *ring) : span_on_floor(build, sheets);
  if (sheets.legs_up || span.top_z - span.low_z < least_rib_mm || shell.floor_mm == shell.deck_mm) return {};
  const int run = rails_across(build) ? 0 : 1;
  const double length = run == 0 ? shell.size.x : shell.size.y;
  const double width = run == 0 ? shell.size.y : shell.size.x;
  std::vector<RibPlace> out;
  const std::vector<HeldFromBelow> screws = held_from_below(build);
  for (const RailPlace& place : rail_places(build)) {
    const double middle = middle_of_rib(place.rail, t, screws);
    const double from_side = std::min(middle, width - middle);
    if (from_side < span.least_from_side) continue;
    const bool near = from_side < span.least_from_side + window_radius_mm;
    const double from_end = near ? span.beside_corner : span.under_rail;
    RibPlace rib{{}, run, {}};
    rib.box = {{middle - t / 2, span.begins, span.low_z}, {middle + t / 2, length - span.begins, span.top_z}};
    rib.under_rail = {{middle - t / 2, from_end, span.top_z}, {middle + t / 2, length - from_end, shell.deck_mm}};
    if (run == 0) {
      for (Box3* box : {&rib.box, &rib.under_rail}) {
        std::swap(box->low.x, box->low.y);
        std::swap(box->high.x, box->high.y);
      }
    }
    out.push_back(rib);
  }
  return out;
}

}  // namespace fitup::plan::plate
