// The sag of rails and cross bars under the items' mass, from their free spans.
// Entry: RailLoads, add_rail_fits.
#include "plan/rail_sag.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>

#include <fmt/format.h>

#include "fitup/tolerances.h"
#include "plan/size_words.h"
#include "plan/support.h"

namespace fitup::plan {

namespace {

constexpr double said_to_mm = 0.01;

double shared(const Span& a, const Span& b) { return std::max(0.0, std::min(a.high, b.high) - std::max(a.low, b.low)); }

// Each item's own mass and what stands on it, from the top down.
std::vector<double> masses_kg(const Build& build, const std::vector<Box3>& boxes) {
  std::vector<double> out;
  for (const PlacedItem& placed : build.box.items) out.push_back(placed.item->mass->kg());
  std::vector<std::size_t> order(boxes.size());
  std::iota(order.begin(), order.end(), 0U);
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return boxes[a].low.z > boxes[b].low.z; });
  for (const std::size_t i : order) {
    std::vector<std::size_t> below;
    for (std::size_t j = 0; j < boxes.size(); ++j) {
      if (direction_to(boxes[i], boxes[j]) == axis::minus_z) below.push_back(j);
    }
    for (const std::size_t j : below) out[j] += out[i] / static_cast<double>(below.size());
  }
  return out;
}

double inertia_mm4(const Box3& rail, bool across) {
  const Vec3 size = rail.size();
  return (across ? size.y : size.x) * std::pow(size.z, 3) / 12;
}

// Of a rectangle with rounded corners: what they lack of their squares is so much, with its middle so far from the two
// edges (10 - 3 pi) / (12 - 3 pi) of the radius; the lack's own inertia is left out.
double rounded_inertia_mm4(double wide, double high, double radius) {
  const double r = std::max(0.0, radius);
  const double lack = (1 - std::numbers::pi / 4) * r * r;
  const double from_middle = high / 2 - (10 - 3 * std::numbers::pi) / (12 - 3 * std::numbers::pi) * r;
  return wide * std::pow(high, 3) / 12 - 4 * lack * from_middle * from_middle;
}

std::string words(double mm) { return plain(std::round(mm / said_to_mm) * said_to_mm) + " mm"; }

Fit fit_of(const Sag& sag, const std::string& what) {
  Fit fit;
  fit.check = "rails";
  fit.value = sag.sag_mm;
  fit.limit = largest_part_of_span * sag.span_mm;
  fit.marginal_from = fair_part_of_span * sag.span_mm;
  fit.at_most = true;
  fit.source =
      "w = 3 F l^3 / 384 E I of a strip welded at both ends, at most l / 100, fair up to l / 200 (common practice)";
  fit.message =
      fmt::format("{} of {} between its welds carries {:.1f} kg and sags by {}; 1/200 of the span is {}", what,
                  words(sag.span_mm), sag.load_n / n_per_kg, words(sag.sag_mm), words(fair_part_of_span * sag.span_mm));
  return fit;
}

// The worst, with all that are as bad as to be said.
std::optional<Fit> worst_of(const Build& build, const std::vector<Sag>& sags, const std::vector<Host>& hosts) {
  const auto less = [](const Sag& a, const Sag& b) { return a.part_of_span() < b.part_of_span(); };
  const auto worst = std::max_element(sags.begin(), sags.end(), less);
  if (worst == sags.end() || worst->span_mm <= 0) return std::nullopt;
  const Host& host = hosts[worst->index];
  Fit fit = fit_of(*worst, build.draft.instance(host.id).name + ", a span");
  fit.parts = {host.id};
  fit.at = host.box.middle();
  fit.key = build.draft.instance(host.id).key;
  fit.place = build.draft.instance(host.id).place;
  for (const Sag& sag : sags) {
    if (&sag != &*worst && sag.part_of_span() > fair_part_of_span) fit.parts.push_back(hosts[sag.index].id);
  }
  return fit;
}

}  // namespace

double sag_mm(double load_n, double span_mm, double inertia_mm4) {
  return 3 * load_n * std::pow(span_mm, 3) / (384 * steel_n_per_mm2 * inertia_mm4);
}

double inertia_mm4(const Section& s, Leg upright) {
  const double high = upright == Leg::a ? s.leg_a_mm : s.leg_b_mm;
  const double wide = upright == Leg::a ? s.leg_b_mm : s.leg_a_mm;
  const double t = s.thickness_mm;
  if (s.shape == SectionShape::tube)
    return rounded_inertia_mm4(wide, high, s.corner_radius_mm) -
           rounded_inertia_mm4(wide - 2 * t, high - 2 * t, s.corner_radius_mm - t);
  if (s.shape != SectionShape::angle)
    return upright == Leg::a ? t * std::pow(high, 3) / 12 : wide * std::pow(t, 3) / 12;
  const double web = t * high;
  const double rest = (wide - t) * t;
  const double middle = (web * high / 2 + rest * t / 2) / (web + rest);
  return t * std::pow(high, 3) / 12 + web * std::pow(high / 2 - middle, 2) + (wide - t) * std::pow(t, 3) / 12 +
         rest * std::pow(t / 2 - middle, 2);
}

RailLoads::RailLoads(const Build& build) : across_(rails_across(build)) {
  for (const RailPlace& place : rail_places(build)) {
    Rail rail{rail_box(build, place.rail), {}, {}};
    for (const Host& leg : build.shell.deck) {
      if (direction_to(rail.box, leg.box) == axis::minus_z) rail.legs.push_back(along_rails(leg.box));
    }
    rails_.push_back(std::move(rail));
  }
  put_items_on(build);
}

void RailLoads::put_items_on(const Build& build) {
  std::vector<Box3> boxes;
  for (std::size_t i = 0; i < build.box.items.size(); ++i) boxes.push_back(item_box(build, i));
  const std::vector<double> masses = masses_kg(build, boxes);
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    std::vector<Rail*> under;
    for (Rail& rail : rails_) {
      if (direction_to(boxes[i], rail.box) == axis::minus_z) under.push_back(&rail);
    }
    for (Rail* rail : under)
      rail->loads.push_back({along_rails(boxes[i]), masses[i] * n_per_kg / static_cast<double>(under.size())});
  }
}

Span RailLoads::along_rails(const Box3& box) const {
  return across_ ? Span{box.low.x, box.high.x} : Span{box.low.y, box.high.y};
}

std::vector<Span> RailLoads::free_spans(const Rail& rail, const std::vector<Box3>& bars) const {
  std::vector<Span> supports = rail.legs;
  for (const Box3& bar : bars) {
    if (direction_to(rail.box, bar) == axis::minus_z) supports.push_back(along_rails(bar));
  }
  std::sort(supports.begin(), supports.end(), [](const Span& a, const Span& b) { return a.low < b.low; });
  std::vector<Span> out;
  double reached = supports.empty() ? 0 : supports.front().high;
  for (const Span& support : supports) {
    if (support.low - reached > tolerance::contact_mm) out.push_back({reached, support.low});
    reached = std::max(reached, support.high);
  }
  return out;
}

double RailLoads::between_n(const Rail& rail, const Span& span) {
  double sum = 0;
  for (const Load& load : rail.loads) sum += load.force_n * shared(load.along, span) / load.along.width();
  return sum;
}

std::vector<Sag> RailLoads::sags(const std::vector<Box3>& bars) const {
  std::vector<Sag> out;
  for (std::size_t i = 0; i < rails_.size(); ++i) {
    Sag worst{i, 0, 0, 0};
    for (const Span& span : free_spans(rails_[i], bars)) {
      const double load = between_n(rails_[i], span);
      const Sag sag{i, span.width(), load, plan::sag_mm(load, span.width(), inertia_mm4(rails_[i].box, across_))};
      if (worst.span_mm == 0 || sag.part_of_span() > worst.part_of_span()) worst = sag;
    }
    out.push_back(worst);
  }
  return out;
}

double RailLoads::on_bar_n(const Box3& bar, const std::vector<Box3>& bars) const {
  const Span own = along_rails(bar);
  double sum = 0;
  for (const Rail& rail : rails_) {
    if (direction_to(rail.box, bar) != axis::minus_z) continue;
    for (const Span& span : free_spans(rail, bars)) {
      const bool beside = std::abs(span.high - own.low) <= tolerance::contact_mm ||
                          std::abs(span.low - own.high) <= tolerance::contact_mm;
      if (beside) sum += between_n(rail, span) / 2;
    }
    // A side member's leg under it carries it there.
    const bool on_leg =
        std::any_of(rail.legs.begin(), rail.legs.end(), [&](const Span& l) { return shared(l, own) > 0; });
    if (!on_leg) sum += between_n(rail, own);
  }
  return sum;
}

void add_rail_fits(Build& build, const std::vector<Host>& rails) {
  if (rails.empty() || build.diagnostics.has_errors()) return;
  const RailLoads loads(build);
  const std::vector<Host>& bars = build.shell.cross_bars;
  std::vector<Box3> boxes;
  for (const Host& bar : bars) boxes.push_back(bar.box);
  if (auto fit = worst_of(build, loads.sags(boxes), rails)) build.draft.fits.push_back(*std::move(fit));
  std::vector<Sag> sags;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    const Vec3 size = boxes[i].size();
    const auto* member = std::get_if<Member>(&build.draft.part(bars[i].id).form);
    if (member == nullptr) continue;  // a rib stands along its rail
    const double span = (rails_across(build) ? size.y : size.x) + 2 * build.shell.weld_gap_mm;
    const double load = loads.on_bar_n(boxes[i], boxes);
    const Pose& pose = build.draft.pose(bars[i].id);
    const Leg upright = std::abs(pose.x().z) > 0.5 ? Leg::a : Leg::b;
    const Section& section = member->section;
    sags.push_back({i, span, load, sag_mm(load, span, inertia_mm4(section, upright))});
  }
  if (auto fit = worst_of(build, sags, bars)) build.draft.fits.push_back(*std::move(fit));
}

}  // namespace fitup::plan
