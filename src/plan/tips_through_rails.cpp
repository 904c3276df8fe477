// Screws of bottom covers that come through the legs that the rails lie on.
// Entry: let_through_rails.
#include "plan/tips_through_rails.h"

#include <algorithm>
#include <optional>
#include <string>

#include <fmt/format.h>

#include "fitup/tolerances.h"
#include "plan/clear_rows.h"
#include "plan/coat.h"
#include "plan/face_axes.h"
#include "plan/holes.h"
#include "plan/plate/walls.h"

namespace fitup::plan {

namespace {

struct Span {
  double low = 0;
  double high = 0;
  [[nodiscard]] bool holds(double at, double within) const { return at >= low + within && at <= high - within; }
};

Span span_of(const Box3& box, int axis) { return {along(box.low, axis), along(box.high, axis)}; }

class TipsThroughRails {
 public:
  TipsThroughRails(Build& build, InstanceId host, const std::vector<Host>& rails)
      : build_(build), host_(host), rails_(rails) {
    const Vec3 size = box_around(build.draft, host).size();
    run_ = size.x > size.y ? 0 : 1;
  }

  void run() {
    for (const Host& rail : rails_) {
      for (const ScrewTip& tip : build_.draft.screw_tips) {
        if (tip.into == host_ && std::abs(tip.direction.z) > 0.5) keep_off_edges(tip, rail);
      }
      clear_screw_tips(build_, host_, rail.id, remedy(rail));
    }
  }

 private:
  [[nodiscard]] double radius_mm(const ScrewTip& tip) const { return (tip.hole_mm + coat_in_hole_mm(build_.spec)) / 2; }
  // From a hole's middle to the edge of the rail that it goes through.
  [[nodiscard]] double inside_mm(const ScrewTip& tip, const Host& rail) const {
    return radius_mm(tip) + web_mm(rail.box.size().z);
  }
  // Its tip comes up under the rail, or touches an edge of it.
  [[nodiscard]] bool meets(const ScrewTip& tip, const Host& rail) const {
    const double r = radius_mm(tip) - tolerance::contact_mm;
    return span_of(rail.box, 0).holds(tip.out_at.x, -r) && span_of(rail.box, 1).holds(tip.out_at.y, -r);
  }

  void keep_off_edges(const ScrewTip& tip, const Host& rail) {
    if (!meets(tip, rail)) return;
    const Span lies = span_of(rail.box, run_);
    const double in = inside_mm(tip, rail);
    const double beside = radius_mm(tip) + tolerance::contact_mm;
    const double at = along(tip.out_at, run_);
    const bool within = lies.holds(at, in - tolerance::contact_mm);
    const bool across = span_of(rail.box, 1 - run_).holds(along(tip.out_at, 1 - run_), in - tolerance::contact_mm);
    if (!across || lies.high - lies.low < 2 * in) {
      wish_for_gap(build_, tip.screw, lies.low - beside, lies.high + beside);
    } else if (!within) {
      const bool near_low = at < (lies.low + lies.high) / 2;
      const double from = near_low ? lies.low - beside : lies.high - in;
      wish_for_gap(build_, tip.screw, from, near_low ? lies.low + in : lies.high + beside);
    }
  }

  // An outer rail of a given width lies up to the wall; others are moved.
  [[nodiscard]] std::string remedy(const Host& rail) const {
    std::string elsewhere = fmt::format("choose another screw with {}, or lay the rails elsewhere with {}",
                                        build_.key("face.bottom.screws.thread"), build_.key("rails.at"));
    // Beside the box no rail lies over its screws.
    if (is_of_plates(build_.box_spec()) && *build_.box_spec().face(Face::bottom).closed_by == Closure::cover)
      elsewhere += fmt::format(", or set {} = \"outward\"", build_.key("face.bottom.landing"));
    const auto width = width_from_wall_mm(rail);
    if (!width) return elsewhere;
    return fmt::format("give {} = {}, so that it lies up to the wall and holds them, or {}",
                       build_.key("rails.outer_width"), build_.at_least(*width), elsewhere);
  }

  // The width with which an outer rail that lies up to the wall still reaches as far in and holds these holes; none of
  // a rail between others, and where holes stand too near to the wall.
  [[nodiscard]] std::optional<double> width_from_wall_mm(const Host& rail) const {
    if (rail.id != rails_.front().id && rail.id != rails_.back().id) return std::nullopt;
    const int axis = rail.box.size().y < rail.box.size().x ? 1 : 0;
    const double inset = axis == 1 ? build_.shell.rail_beside_mm.y : build_.shell.rail_beside_mm.x;
    const Span lies = span_of(rail.box, axis);
    const double far = along(build_.shell.size, axis);
    const bool first = lies.low + lies.high < far;
    const auto from_wall = [&](double at) { return (first ? at : far - at) - inset; };
    double width = from_wall(first ? lies.high : lies.low);
    for (const ScrewTip& tip : build_.draft.screw_tips) {
      if (tip.into != host_ || !meets(tip, rail)) continue;
      const double at = from_wall(along(tip.out_at, axis));
      if (at < inside_mm(tip, rail) - tolerance::contact_mm) return std::nullopt;
      width = std::max(width, at + inside_mm(tip, rail));
    }
    return width > lies.high - lies.low + tolerance::contact_mm ? std::optional(width) : std::nullopt;
  }

  Build& build_;
  InstanceId host_;
  const std::vector<Host>& rails_;
  int run_ = 0;
};

}  // namespace

void let_through_rails(Build& build, const std::vector<InstanceId>& hosts, const std::vector<Host>& rails) {
  for (const InstanceId host : hosts) TipsThroughRails(build, host, rails).run();
}

}  // namespace fitup::plan
