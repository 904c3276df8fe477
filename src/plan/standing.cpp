// Whether every item stands: in the frame, on something, over what carries it, its foot strips on their rails.
// Entry: check_standing.
#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/rails.h"
#include "plan/support.h"

namespace fitup::plan {

namespace {

constexpr const char* on_level = "put something under it in the level below";

struct Beyond {
  double by_mm = 0;
  const char* what = "";
};

// How much of a width is covered.
double covered_mm(std::vector<Span> spans) {
  std::sort(spans.begin(), spans.end(), [](const Span& a, const Span& b) { return a.low < b.low; });
  double sum = 0;
  double reached = -1e300;
  for (const Span& s : spans) {
    sum += std::max(0.0, s.high - std::max(reached, s.low));
    reached = std::max(reached, s.high);
  }
  return sum;
}

// Across a strip that runs along X, or along Y.
Span width_of(const Box2& area, bool along_x) {
  return along_x ? Span{area.low.y, area.high.y} : Span{area.low.x, area.high.x};
}

std::vector<Span> widths_of(const std::vector<Box2>& areas, bool along_x) {
  std::vector<Span> out;
  for (const Box2& area : areas) out.push_back(width_of(area, along_x));
  return out;
}

class Standing {
 public:
  Standing(Build& build, const std::vector<Host>& rails) : build_(build), rails_(rail_places(build)) {
    for (std::size_t i = 0; i < build.box.items.size(); ++i) add_seat(item_box(build, i), build.box.items[i].name);
    for (const std::vector<Host>* hosts :
         {&rails, &std::as_const(build.shell.deck), &std::as_const(build.shell.cross_bars)}) {
      for (const Host& host : *hosts) add_seat(host.box, build.draft.instance(host.id).name);
    }
  }

  // True if no item leaves the frame.
  bool all_in_frame() {
    bool all = true;
    for (std::size_t i = 0; i < build_.box.items.size(); ++i) all = is_in_frame(i) && all;
    return all;
  }

  void check_all() {
    for (std::size_t i = 0; i < build_.box.items.size(); ++i) check(i);
  }

 private:
  void add_seat(const Box3& box, const std::string& name) {
    seats_.push_back(box);
    names_.push_back(name);
  }

  [[nodiscard]] const PlacedItem& item(std::size_t i) const { return build_.box.items[i]; }
  [[nodiscard]] std::string words(double mm) const { return build_.in_words(mm); }

  bool is_in_frame(std::size_t i) {
    const Box3 box = item_box(build_, i);
    const Vec3 size = build_.shell.size;
    const Beyond all[] = {{-box.low.x, "left face"},   {box.high.x - size.x, "right face"},
                          {-box.low.y, "front face"},  {box.high.y - size.y, "back face"},
                          {-box.low.z, "bottom face"}, {box.high.z - size.z, "top face"}};
    std::string said;
    for (const Beyond& b : all) {
      if (b.by_mm <= tolerance::contact_mm) continue;
      said += fmt::format("{}{} beyond its {}", said.empty() ? "" : ", ", words(b.by_mm), b.what);
    }
    if (!said.empty()) build_.diagnostics.add(diag::say<"item-outside-frame">(item(i).place, item(i).name, said));
    return said.empty();
  }

  void check(std::size_t i) {
    const Box3 box = item_box(build_, i);
    std::vector<Box2> carrying = carried(footprint(box), box.low.z, seats_);
    if (carrying.empty()) return say_stands_on_nothing(i, box);
    if (item(i).item->foot_strips) {
      carrying.clear();
      for (const FootStrip& strip : build_.box.foot_strips) {
        if (strip.item != i) continue;
        const Vec3 shift = build_.shift_of(i);
        const Vec2 flat{shift.x, shift.y};
        const Box2 area{strip.area.low + flat, strip.area.high + flat};
        const std::vector<Box2> on = carried(area, box.low.z, seats_);
        carrying.insert(carrying.end(), on.begin(), on.end());
        const bool along_x = strip.edge == Face::front || strip.edge == Face::back;
        const double off = width_of(area, along_x).width() - covered_mm(widths_of(on, along_x));
        if (off > tolerance::contact_mm) return say_off_rail(strip, area, off);
      }
    }
    const Box2 bottom = footprint(box);
    if (!within_hull(0.5 * (bottom.low + bottom.high), carrying)) say_would_tip(i, box);
  }

  void say_stands_on_nothing(std::size_t i, const Box3& box) {
    std::string below = "and nothing is below it";
    double z = build_.shell.deck_mm + build_.box_spec().rails.thickness->mm();
    double nearest = -1e300;
    for (std::size_t s = 0; s < seats_.size(); ++s) {
      const Box3& seat = seats_[s];
      if (seat.high.z > box.low.z || seat.high.z <= nearest || !common(footprint(seat), footprint(box))) continue;
      nearest = seat.high.z;
      below = fmt::format("{} above {}", words(box.low.z - seat.high.z), names_[s]);
    }
    // On the legs alone nothing stands that does not reach two of them: rails are laid for it.
    if (nearest > build_.shell.deck_mm + tolerance::contact_mm) z = nearest;
    std::string remedy = "move a rail under it in rails.at";
    if (!on_floor(build_, i)) {
      remedy = item(i).in_frame ? fmt::format("give its at a Z of {}, or put something under it", words(z)) : on_level;
    }
    build_.diagnostics.add(
        diag::say<"stands-on-nothing">(item(i).place, item(i).name, words(box.low.z), below, remedy));
  }

  void say_would_tip(std::size_t i, const Box3& box) {
    std::string on;
    for (std::size_t s = 0; s < seats_.size(); ++s) {
      if (carried(footprint(box), box.low.z, {seats_[s]}).empty()) continue;
      on += (on.empty() ? "" : ", ") + names_[s];
    }
    std::string remedy = "give it foot_strips, and rails are laid under them";
    if (!on_floor(build_, i)) remedy = on_level;
    if (item(i).in_frame) remedy = "move it by its at, or put something under its free side";
    if (build_.box_spec().rails.at && on_floor(build_, i)) remedy = "move a rail under its free side in rails.at";
    const Vec3 middle = 0.5 * (box.low + box.high);
    build_.diagnostics.add(
        diag::say<"would-tip">(item(i).place, item(i).name, words(middle.x), words(middle.y), on, remedy));
  }

  void say_off_rail(const FootStrip& strip, const Box2& area, double off_mm) {
    const bool along_x = strip.edge == Face::front || strip.edge == Face::back;
    const Span span = width_of(area, along_x);
    const bool rail = on_floor(build_, strip.item);
    const char* a = along_x ? "Y" : "X";
    build_.diagnostics.add(diag::say<"strip-off-rail">(
        item(strip.item).place, to_text(strip.edge), item(strip.item).name, a, words(span.low), a, words(span.high),
        words(off_mm), rail ? "no rail" : "nothing", rail ? rail_remedy(strip, span, off_mm) : at_remedy(strip)));
  }

  [[nodiscard]] std::string at_remedy(const FootStrip& strip) const {
    if (!item(strip.item).in_frame) return on_level;
    return fmt::format("move {} by its at", item(strip.item).name);
  }

  [[nodiscard]] std::string rail_remedy(const FootStrip& strip, const Span& span, double off_mm) const {
    const char* a = axis_of_rails(build_);
    std::size_t i = 0;
    while (i + 1 < rails_.size() && !rails_[i].carries.covers(span)) ++i;
    const auto& [rail, carries] = rails_[i];
    const std::string there =
        fmt::format("rail {} runs from {} {} to {} {}", i + 1, a, words(rail.low), a, words(rail.high));
    if (build_.box_spec().rails.at) {
      return fmt::format("{}, so give it a centre from {} {} to {} {} in rails.at", there, a,
                         build_.at_least(carries.high - rail.width() / 2), a,
                         build_.at_most(carries.low + rail.width() / 2));
    }
    if (item(strip.item).in_frame) {
      return fmt::format("{}, as near the wall as a rail can; move {} {} away from the wall by its at", there,
                         item(strip.item).name, words(off_mm));
    }
    const bool low_side = span.low < rail.low;
    const ClearanceSpec& c = build_.box_spec().clearance;
    const bool across = rails_across(build_);
    const Measured& now = low_side ? (across ? c.front : c.left) : (across ? c.back : c.right);
    const char* side = low_side ? (across ? "front" : "left") : (across ? "back" : "right");
    return fmt::format("{}, as near the wall as a rail can; make clearance.{} at least {}", there, side,
                       build_.at_least(now->mm() + off_mm));
  }

  Build& build_;
  std::vector<RailPlace> rails_;
  std::vector<Box3> seats_;
  std::vector<std::string> names_;
};

}  // namespace

bool check_standing(Build& build, const std::vector<Host>& rails) {
  const bool rails_are_right = !build.diagnostics.has_errors();
  Standing standing(build, rails);
  const bool all_in_frame = standing.all_in_frame();
  // Where a rail is wrong, that is said; what stands on it is judged once it is right.
  if (rails_are_right && all_in_frame) standing.check_all();
  return all_in_frame;
}

}  // namespace fitup::plan
