// Rails: strips under the foot strips, and under the edges of items that nothing else carries, across the bottom ring.
// Entry: add_rails, needs_rails.
#include "plan/rails.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/held_from_below.h"
#include "plan/holes.h"
#include "plan/rule_steps.h"
#include "plan/support.h"

namespace fitup::plan {

namespace {

// Foot strips nearer than this share a rail: a thermal plate's gap, not an item's width.
constexpr double share_mm = 30;
// What an item without foot strips bears with along its left and right edge (common practice).
constexpr double edge_bearing_mm = 20;
// An item is set on the frame's own legs only if it reaches this far over them (common practice).
constexpr double least_bearing_mm = 10;

std::vector<Box3> item_boxes(const Build& build) {
  std::vector<Box3> out;
  for (std::size_t i = 0; i < build.box.items.size(); ++i) out.push_back(item_box(build, i));
  return out;
}

std::vector<Span> shared(std::vector<Span> spans) {
  std::sort(spans.begin(), spans.end(), [](const Span& a, const Span& b) { return a.low < b.low; });
  std::vector<Span> out;
  for (const Span& s : spans) {
    if (!out.empty() && s.low - out.back().high <= share_mm) {
      out.back().high = std::max(out.back().high, s.high);
    } else {
      out.push_back(s);
    }
  }
  return out;
}

bool reaches_over(const Box2& bearing, Vec3 item) {
  return bearing.size().x >= std::min(least_bearing_mm, item.x) - tolerance::contact_mm &&
         bearing.size().y >= std::min(least_bearing_mm, item.y) - tolerance::contact_mm;
}

struct Widths {
  double margin = 0;
  std::optional<double> outer;
  RuleSteps steps;  // rounded up to what is easily cut and read
};

Widths widths_of(const Build& build) {
  const RailsSpec& spec = build.box_spec().rails;
  const Section* section = build.spec.section(*build.box_spec().frame.section);
  Widths out{spec.margin->mm(), std::nullopt, section != nullptr ? steps_of(*section) : RuleSteps{}};
  if (spec.outer_width) out.outer = (*spec.outer_width)->mm();
  return out;
}

// Where rails may lie, along the axis on which they are placed.
struct Ground {
  double inset_mm = 0;
  double width_mm = 0;
};

Ground ground_of(const Build& build) {
  const Shell& shell = build.shell;
  if (rails_across(build)) return {shell.rail_beside_mm.y, shell.size.y};
  return {shell.rail_beside_mm.x, shell.size.x};
}

// The span and its margin on both sides. An outer rail of a given width begins at the wall if it still carries its
// span from there; every rail keeps off the wall.
Span rail_under(const Ground& ground, const Widths& widths, const Span& carries, bool first, bool last) {
  const Span room{ground.inset_mm, ground.width_mm - ground.inset_mm};
  double width = rounded_up(carries.width() + 2 * widths.margin, widths.steps.size_mm);
  if ((first || last) && widths.outer) {
    width = *widths.outer;
    const Span left{room.low, room.low + width};
    const Span right{room.high - width, room.high};
    if (first && left.covers(carries)) return left;
    if (last && right.covers(carries)) return right;
  }
  const double low = std::max(room.low, std::min(carries.middle() - width / 2, room.high - width));
  return {low, low + width};
}

std::vector<RailPlace> places_under(const Ground& ground, const Widths& widths, const std::vector<Span>& spans) {
  std::vector<RailPlace> out;
  for (std::size_t i = 0; i < spans.size(); ++i) {
    out.push_back({rail_under(ground, widths, spans[i], i == 0, i + 1 == spans.size()), spans[i]});
  }
  return out;
}

bool apart(const RailPlace& a, const RailPlace& b) { return b.rail.low - a.rail.high > tolerance::contact_mm; }

// The widest that leaves all rails apart, in whole steps below what is given; none down to `least`.
std::optional<double> widest_apart(const Ground& ground, const std::vector<Span>& spans, Widths& widths, double& width,
                                   double least) {
  const double step = widths.steps.place_mm;
  for (width = step * (std::ceil(width / step) - 1); width >= least; width -= step) {
    const std::vector<RailPlace> places = places_under(ground, widths, spans);
    const auto meets = [](const RailPlace& a, const RailPlace& b) { return !apart(a, b); };
    if (std::adjacent_find(places.begin(), places.end(), meets) == places.end()) return width;
  }
  return std::nullopt;
}

// The kinds of item without foot strips that stand on the floor, widest first: narrow ones often stand on the rails
// of their neighbours.
std::vector<const ItemSpec*> kinds_without_strips(const Build& build) {
  std::vector<const ItemSpec*> kinds;
  for (std::size_t i = 0; i < build.box.items.size(); ++i) {
    const ItemSpec* kind = build.box.items[i].item;
    if (kind->foot_strips || !on_floor(build, i)) continue;
    if (std::find(kinds.begin(), kinds.end(), kind) == kinds.end()) kinds.push_back(kind);
  }
  std::stable_sort(kinds.begin(), kinds.end(),
                   [](const ItemSpec* a, const ItemSpec* b) { return (*a->size)[0].mm() > (*b->size)[0].mm(); });
  return kinds;
}

// Adds the edges of all items of a kind that what is there does not carry yet.
void add_edges(const Build& build, const ItemSpec* kind, std::vector<Span>& spans) {
  std::vector<Box3> seats = item_boxes(build);
  const std::vector<Box3> items = seats;
  for (const RailPlace& p : places_under(ground_of(build), widths_of(build), shared(spans)))
    seats.push_back(rail_box(build, p.rail));
  for (std::size_t i = 0; i < items.size(); ++i) {
    const Box3& box = items[i];
    if (build.box.items[i].item != kind || !on_floor(build, i) || stands(box, seats)) continue;
    const Span whole = across_rails(build, footprint(box));
    const double width = std::min(edge_bearing_mm, whole.width() / 2);
    spans.push_back({whole.low, whole.low + width});
    spans.push_back({whole.high - width, whole.high});
  }
}

// What holds an item from below needs steel round its holes: a span that has one at its edge reaches beyond it.
void reach_over_holes(const Build& build, std::vector<Span>& spans) {
  const double web = unasked_web_mm(build, build.box_spec().rails.thickness->mm());
  for (const HeldFromBelow& held : held_from_below(build)) {
    const double hole = held.thread->clear_medium_mm / 2;
    const double room = hole + web - widths_of(build).margin;
    const double x = held.across_mm;
    for (Span& span : spans) {
      if (x + hole <= span.low || x - hole >= span.high) continue;
      span = {std::min(span.low, x - room), std::max(span.high, x + room)};
    }
  }
}

std::vector<RailPlace> by_rule(const Build& build) {
  std::vector<Span> spans;
  for (const FootStrip& s : build.box.foot_strips) {
    const Vec3 shift = build.shift_of(s.item);
    const Vec2 flat{shift.x, shift.y};
    if (on_floor(build, s.item)) spans.push_back(across_rails(build, {s.area.low + flat, s.area.high + flat}));
  }
  for (const ItemSpec* kind : kinds_without_strips(build)) add_edges(build, kind, spans);
  reach_over_holes(build, spans);
  return places_under(ground_of(build), widths_of(build), shared(std::move(spans)));
}

class Rails {
 public:
  explicit Rails(Build& build) : build_(build), places_(rail_places(build)) {}

  std::vector<Host> run() {
    if (!one_way()) return {};
    const auto& at = build_.box_spec().rails.at;
    if (at && at->value.size() != places_.size()) {
      build_.diagnostics.add(diag::say<"rail-count">(at->place, at->value.size(), by_rule(build_).size()));
      return {};
    }
    std::vector<Host> out;
    for (std::size_t i = 0; i < places_.size(); ++i) out.push_back(add(i));
    for (std::size_t i = 0; i < places_.size(); ++i) carry(i);
    for (std::size_t i = 1; i < places_.size(); ++i) keep_apart(i - 1, i);
    return out;
  }

 private:
  // A strip along the other edges would lie across the rails.
  bool one_way() {
    const FootStrip* first = nullptr;
    const auto along_x = [](const FootStrip& strip) { return strip.edge == Face::front || strip.edge == Face::back; };
    for (const FootStrip& strip : build_.box.foot_strips) {
      if (!on_floor(build_, strip.item)) continue;
      if (first == nullptr) first = &strip;
      if (along_x(strip) == along_x(*first)) continue;
      const auto& items = build_.box.items;
      build_.diagnostics.add(diag::say<"strips-cross">(items[strip.item].place, items[first->item].name,
                                                       to_text(first->edge), items[strip.item].name,
                                                       to_text(strip.edge)));
      return false;
    }
    return true;
  }

  [[nodiscard]] const char* axis_word() const { return axis_of_rails(build_); }

  [[nodiscard]] bool outer(std::size_t i) const { return i == 0 || i + 1 == places_.size(); }

  // A leg that lies, without the rounded edge of its toe.
  [[nodiscard]] Box3 flat_of(Box3 leg) const {
    const double toe = build_.shell.deck_toe_mm - 2 * tolerance::contact_mm;  // where it begins, two still touch
    if (toe <= 0) return leg;
    const Vec3 middle = 0.5 * build_.shell.size;
    if (leg.size().x < leg.size().y) {
      (leg.middle().x < middle.x ? leg.high.x : leg.low.x) += leg.middle().x < middle.x ? -toe : toe;
    } else {
      (leg.middle().y < middle.y ? leg.high.y : leg.low.y) += leg.middle().y < middle.y ? -toe : toe;
    }
    return leg;
  }

  Host add(std::size_t i) {
    const RailsSpec& spec = build_.box_spec().rails;
    const Box3 box = rail_box(build_, places_[i].rail);
    const PlateSpec plate{fmt::format("RAL{:02}", outer(i) ? 1 : 2), outer(i) ? "outer rail" : "inner rail", Role::rail,
                          material_of(build_)};
    const InstanceId id = add_plate(build_, plate, box, axis::z, fmt::format("rail {}", i + 1),
                                    {build_.key("rails"), spec.thickness.place, "frame"});
    int legs = 0;
    for (const Host& host : build_.shell.deck) {
      if (direction_to(box, flat_of(host.box)) != axis::minus_z) continue;
      build_.draft.join(id, host.id, JointKind::weld, axis::minus_z);
      ++legs;
    }
    for (const Host& bar : build_.shell.cross_bars) {
      if (direction_to(box, bar.box) == axis::minus_z) build_.draft.join(id, bar.id, JointKind::weld, axis::minus_z);
    }
    const Span& rail = places_[i].rail;
    constexpr double band = tolerance::contact_mm;
    if (rail.low < -band || rail.high > ground_.width_mm + band || legs < 2) off_frame(i, legs);
    return {id, box};
  }

  void off_frame(std::size_t i, int legs) {
    const Span& rail = places_[i].rail;
    const double inset = ground_.inset_mm;
    const double half = rail.width() / 2;
    std::string remedy = "make it narrower, by rails.outer_width or rails.margin";
    if (build_.box_spec().rails.at) {
      remedy = fmt::format("give it a centre from {} {} to {} {} in rails.at", axis_word(),
                           build_.at_least(inset + half), axis_word(), build_.at_most(ground_.width_mm - inset - half));
    }
    const char* a = axis_word();
    build_.diagnostics.add(diag::say<"rail-off-frame">(
        place(i), i + 1, a, words(rail.low), a, words(rail.high), a, a, words(ground_.width_mm), legs,
        rails_across(build_) ? "left and the right" : "front and the back", remedy));
  }

  void keep_apart(std::size_t i, std::size_t next) {
    if (apart(places_[i], places_[next])) return;
    const double overlap = places_[i].rail.high - places_[next].rail.low;
    build_.diagnostics.add(diag::say<"rails-meet">(
        place(outer(i) ? i : next), i + 1, axis_word(), words(places_[i].rail.high), next + 1, axis_word(),
        words(places_[next].rail.low),
        build_.box_spec().rails.at
            ? fmt::format("move them apart by more than {} in rails.at", build_.at_least(overlap))
            : narrower(outer(i) || outer(next))));
  }

  [[nodiscard]] std::string narrower(bool outer_rail) const {
    std::vector<Span> spans;
    for (const RailPlace& p : places_) spans.push_back(p.carries);
    Widths widths = widths_of(build_);
    if (widths.outer && outer_rail) {
      const auto width = widest_apart(ground_, spans, widths, *widths.outer, 1);
      return width ? fmt::format("make rails.outer_width at most {}", build_.at_most(*width))
                   : "leave rails.outer_width out";
    }
    const auto margin = widest_apart(ground_, spans, widths, widths.margin, 0);
    return margin ? fmt::format("make rails.margin at most {}", build_.at_most(*margin)) : "move the items apart";
  }

  // A given outer width may be less than what lies on it.
  void carry(std::size_t i) {
    const auto& [rail, carries] = places_[i];
    if (rail.width() >= carries.width() - tolerance::contact_mm) return;
    build_.diagnostics.add(diag::say<"rail-too-narrow">(place(i), i + 1, words(rail.width()), axis_word(),
                                                        words(carries.low), axis_word(), words(carries.high),
                                                        build_.at_least(carries.width())));
  }

  // The key that decides where this rail lies.
  [[nodiscard]] Place place(std::size_t i) const {
    const RailsSpec& spec = build_.box_spec().rails;
    if (spec.outer_width && outer(i)) return spec.outer_width->place;
    return spec.at ? spec.at->place : spec.margin.place;
  }

  [[nodiscard]] std::string words(double mm) const { return build_.in_words(mm); }

  Build& build_;
  std::vector<RailPlace> places_;
  Ground ground_ = ground_of(build_);
};

}  // namespace

Box3 rail_box(const Build& build, const Span& rail) {
  const Shell& shell = build.shell;
  if (rails_across(build)) {
    return {{shell.rail_inset_mm, rail.low, shell.deck_mm},
            {shell.size.x - shell.rail_inset_mm, rail.high, shell.floor_mm}};
  }
  return {{rail.low, shell.rail_inset_mm, shell.deck_mm},
          {rail.high, shell.size.y - shell.rail_inset_mm, shell.floor_mm}};
}

bool Span::covers(const Span& other) const {
  return low <= other.low + tolerance::contact_mm && high >= other.high - tolerance::contact_mm;
}

bool rails_across(const Build& build) {
  return std::any_of(build.box.foot_strips.begin(), build.box.foot_strips.end(), [&](const FootStrip& strip) {
    return (strip.edge == Face::front || strip.edge == Face::back) && on_floor(build, strip.item);
  });
}

const char* axis_of_rails(const Build& build) { return rails_across(build) ? "Y" : "X"; }

Span across_rails(const Build& build, const Box2& box) {
  if (rails_across(build)) return {box.low.y, box.high.y};
  return {box.low.x, box.high.x};
}

bool on_floor(const Build& build, std::size_t item) {
  return std::abs(item_box(build, item).low.z - build.shell.floor_mm) <= tolerance::contact_mm;
}

std::vector<RailPlace> rail_places(const Build& build) {
  if (build.shell.floor_mm <= build.shell.deck_mm) return {};
  std::vector<RailPlace> places = by_rule(build);
  const auto& at = build.box_spec().rails.at;
  if (!at) return places;
  if (at->value.size() != places.size()) return {};
  const CountedFrom& from = build.box_spec().rails.at_from;
  std::vector<double> centres;
  const bool across = rails_across(build);
  for (const Length centre : at->value) {
    const Vec2 place = build.in_frame({centre.mm(), centre.mm()}, from);
    centres.push_back(across ? place.y : place.x);
  }
  std::sort(centres.begin(), centres.end());
  for (std::size_t i = 0; i < places.size(); ++i) {
    const double half = places[i].rail.width() / 2;
    places[i].rail = {centres[i] - half, centres[i] + half};
  }
  return places;
}

bool needs_rails(const Build& build) {
  if (build.box_spec().rails.at) return true;
  const std::vector<Box3> items = item_boxes(build);
  for (std::size_t i = 0; i < items.size(); ++i) {
    if (!on_floor(build, i)) continue;
    const PlacedItem& placed = build.box.items[i];
    if (placed.in_frame || placed.item->foot_strips) return true;
    // What stands in a row is let down onto the legs if they carry it.
    std::vector<Box3> seats = items;
    for (const Host& leg : build.shell.deck) {
      const auto bearing = common(footprint(items[i]), footprint(leg.box));
      if (!bearing || !reaches_over(*bearing, items[i].size())) continue;
      seats.push_back(leg.box);
      seats.back().high.z = build.shell.floor_mm;
    }
    if (!stands(items[i], seats)) return true;
  }
  return false;
}

std::vector<Host> add_rails(Build& build) { return Rails(build).run(); }

}  // namespace fitup::plan
