// The whole's box against the space, and each part against what takes up some of it.
// Entry: check_space.
#include "checks/space.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "checks/distance.h"
#include "checks/order.h"
#include "fitup/tolerances.h"
#include "fitup/welded_sizes.h"

namespace fitup::checks {

namespace {

constexpr double band = tolerance::contact_mm;
constexpr double thickest_packing_mm = 25;  // behind a lug (common practice)

struct Extent {
  InstanceId low = 0;  // what reaches furthest
  InstanceId high = 0;
  double from_mm = 0;
  double to_mm = 0;
  [[nodiscard]] double size_mm() const { return to_mm - from_mm; }
};

class SpaceCheck {
 public:
  SpaceCheck(const Scene& scene, const Space& space) : scene_(scene), plan_(scene.plan()), space_(space) {
    for (InstanceId id = 0; id < plan_.instances.size(); ++id) {
      if (plan_.parts[plan_.instances[id].part].source != Source::printed) standing_.push_back(id);
    }
  }

  std::vector<Finding> findings() {
    for (int axis = 0; axis < 3; ++axis) of_axis(axis);
    for (const Space::Taken& taken : space_.taken) past(taken);
    if (findings_.empty()) findings_.push_back(all_in());
    return std::move(findings_);
  }

 private:
  static constexpr std::array<const char*, 3> words{"across", "deep", "high"};

  [[nodiscard]] Extent extent(int axis) const {
    Extent out{standing_.front(), standing_.front(), 0, 0};
    const auto box = [&](InstanceId id) -> const Box3& { return scene_.body(id).outer.box; };
    for (const InstanceId id : standing_) {
      if (component(box(id).low, axis) < component(box(out.low).low, axis) - band) out.low = id;
      if (component(box(id).high, axis) > component(box(out.high).high, axis) + band) out.high = id;
    }
    out.from_mm = component(box(out.low).low, axis);
    out.to_mm = component(box(out.high).high, axis);
    return out;
  }

  [[nodiscard]] std::string as_drawn() const {
    const bool measured =
        std::any_of(plan_.fits.begin(), plan_.fits.end(), [](const Fit& fit) { return fit.check == "as-built"; });
    return measured ? "; this is of the frame as drawn, not as it was measured" : "";
  }

  // A size has no other place.
  [[nodiscard]] Vec3 middle_of_whole() const {
    const auto middle = [&](int axis) { return (extent(axis).from_mm + extent(axis).to_mm) / 2; };
    return {middle(0), middle(1), middle(2)};
  }

  [[nodiscard]] Finding about(Verdict verdict, std::string key, const Place& place) const {
    Finding f;
    f.check = "space";
    f.verdict = verdict;
    f.unit = "mm";
    f.key = std::move(key);
    f.place = place;
    return f;
  }

  // What the whole needs in a direction, and what the space has. Where it stands on the floor, or touches a wall, it
  // needs no play.
  void of_axis(int axis) {
    constexpr double far = -1e9;
    const Extent whole = extent(axis);
    const double below = whole.from_mm - component(space_.box.low, axis);
    const double above = component(space_.box.high, axis) - whole.to_mm;
    const bool low_stands = std::abs(below) <= band && (space_.placed || axis == 2);
    const bool high_stands = space_.placed && std::abs(above) <= band;
    const double play = ((low_stands ? 0 : 1) + (high_stands ? 0 : 1)) * space_.play_mm;
    const double lacking_low = low_stands ? far : space_.play_mm - below;
    const double lacking_high = high_stands ? far : space_.play_mm - above;
    const double lacking = space_.placed ? std::max(lacking_low, lacking_high)
                                         : whole.size_mm() + play - component(space_.box.size(), axis);
    const Side side{axis, lacking_low > lacking_high, lacking};
    if (hangs_off(whole, side)) return packed(whole, side);
    if (lacking > band) return space_.placed ? too_near(whole, side) : too_large(axis, whole, play, lacking);
    if (axis == 2 && below > band && feet_hang(whole)) feet_on_nothing(whole, below);
    if (lacking <= -doubt_mm(axis) + band) return;
    space_.placed ? near(whole, side) : close(axis, whole, play, -lacking);
  }

  // What the welded frame and the tape may be off.
  [[nodiscard]] double frame_permits_mm(int axis) const {
    return tables::welded_length_permits_mm(extent(axis).size_mm());
  }
  [[nodiscard]] double doubt_mm(int axis) const { return component(space_.within, axis) + frame_permits_mm(axis); }
  /// "the welded frame may be 3 mm off (ISO 13920-B) and the space 5 mm: measure both before it is painted"
  [[nodiscard]] std::string doubt_in_words(int axis) const {
    const double within = component(space_.within, axis);
    return fmt::format("the welded frame may be {} mm off (ISO 13920-B){}: measure both before it is painted{}",
                       length_text(frame_permits_mm(axis)),
                       within > 0 ? fmt::format(" and the space {} mm", length_text(within)) : "", as_drawn());
  }

  /// One side of a space in which the place is given.
  struct Side {
    int axis = 0;
    bool low = false;
    double lacking_mm = 0;  // to space.play; negative: so much more is left
  };

  [[nodiscard]] Finding of_side(const Extent& whole, const Side& side, Verdict verdict) const {
    const InstanceId part = side.low ? whole.low : whole.high;
    Finding f = about(verdict, "space.at", space_.place);
    f.value = space_.play_mm - side.lacking_mm;
    f.limit = space_.play_mm;
    f.source = "space.play";
    f.parts = {scene_.label(part)};
    f.cause = fmt::format("space {}", words[side.axis]);
    // Midway between what reaches furthest and the wall; feet do so in fours.
    Vec3 at = side.axis == 2 ? middle_of_whole() : scene_.body(part).outer.box.middle();
    const double face = side.low ? whole.from_mm : whole.to_mm;
    const double wall = component(side.low ? space_.box.low : space_.box.high, side.axis);
    (side.axis == 0 ? at.x : side.axis == 1 ? at.y : at.z) = (face + wall) / 2;
    f.at = at;
    return f;
  }

  [[nodiscard]] static const char* name_of(const Side& side) {
    constexpr std::array<const char*, 3> lows{"left", "front", "bottom"};
    constexpr std::array<const char*, 3> highs{"right", "back", "top"};
    return side.low ? lows[side.axis] : highs[side.axis];
  }

  // Lugs that lie flat towards a side are fastened to it, and what is between is packed.
  [[nodiscard]] bool hangs_off(const Extent& whole, const Side& side) const {
    const InstanceId id = side.low ? whole.low : whole.high;
    const Vec3 size = scene_.body(id).outer.box.size();
    const bool flat = component(size, side.axis) <= std::min({size.x, size.y, size.z}) + band;
    const double off = space_.play_mm - side.lacking_mm;
    const bool near = off > band && off <= thickest_packing_mm + band;
    return space_.placed && flat && near && plan_.parts[plan_.instances[id].part].role == Role::lug;
  }

  void packed(const Extent& whole, const Side& side) {
    Finding f = of_side(whole, side, Verdict::marginal);
    f.limit = 0;
    f.source = "what lugs are fastened to they lie on";
    f.message = fmt::format(
        "{} leaves {} mm to the {} of the space, which lugs are fastened to: pack them there as thick, or move the "
        "whole "
        "up to it (space.at)",
        f.parts.front(), length_text(*f.value), name_of(side));
    findings_.push_back(std::move(f));
  }

  // With feet as its lowest parts, of which none stands on what is in the way either.
  [[nodiscard]] bool feet_hang(const Extent& whole) const {
    if (!space_.placed || plan_.parts[plan_.instances[whole.low].part].role != Role::foot) return false;
    return std::none_of(space_.taken.begin(), space_.taken.end(), [&](const Space::Taken& taken) {
      return std::any_of(standing_.begin(), standing_.end(), [&](InstanceId id) {
        return plan_.parts[plan_.instances[id].part].role == Role::foot &&
               stands_on(scene_.body(id).outer.box, taken.box);
      });
    });
  }

  void feet_on_nothing(const Extent& whole, double below) {
    Finding f = of_side(whole, {2, true, space_.play_mm - below}, Verdict::marginal);
    f.limit = 0;
    f.source = "what feet are bolted to they stand on";
    f.message = fmt::format(
        "{} hangs {} mm above the bottom of the space and stands on nothing that is stated: with space.at.3 {} mm "
        "lower "
        "it stands there, or state what is under it (space.in_the_way)",
        f.parts.front(), length_text(below), length_text(below));
    findings_.push_back(std::move(f));
  }

  void too_near(const Extent& whole, const Side& side) {
    Finding f = of_side(whole, side, Verdict::fail);
    const double off = *f.value;
    const std::string stands = fmt::format("with space.at.3 {} mm {} it stands there; else ",
                                           length_text(std::abs(off)), off < 0 ? "higher" : "lower");
    f.message = fmt::format(
        "{} leaves {} mm to the {} of the space; {}{} mm must stay free: move space.at, or make the box smaller by {} "
        "mm "
        "there",
        f.parts.front(), length_text(off), name_of(side), side.axis == 2 && side.low ? stands : "",
        length_text(space_.play_mm), length_text(side.lacking_mm));
    findings_.push_back(std::move(f));
  }

  void near(const Extent& whole, const Side& side) {
    Finding f = of_side(whole, side, Verdict::marginal);
    f.message =
        fmt::format("{} leaves {} mm to the {} of the space, {} mm more than space.play; {}", f.parts.front(),
                    length_text(*f.value), name_of(side), length_text(-side.lacking_mm), doubt_in_words(side.axis));
    findings_.push_back(std::move(f));
  }

  [[nodiscard]] Finding of_size(int axis, const Extent& whole, double play, Verdict verdict) const {
    Finding f = about(verdict, "space.size", space_.place);
    const double size = component(space_.box.size(), axis);
    f.value = whole.size_mm();
    f.limit = size - play;
    f.source = fmt::format("space.size, {}, less space.play", words[axis]);
    f.parts = {scene_.label(whole.low)};
    if (whole.high != whole.low) f.parts.push_back(scene_.label(whole.high));
    f.cause = fmt::format("space {}", words[axis]);
    return f;
  }

  void too_large(int axis, const Extent& whole, double play, double lacking) {
    Finding f = of_size(axis, whole, play, Verdict::fail);
    f.at = middle_of_whole();
    const double size = component(space_.box.size(), axis);
    f.message = fmt::format(
        "the whole is {} mm {}, from {} to {}; the space is {} mm and {} mm must stay free: {} mm too "
        "much. Smaller clearances in the box mend it, or a larger space (space.size){}",
        length_text(whole.size_mm()), words[axis], scene_.label(whole.low), scene_.label(whole.high), length_text(size),
        length_text(play), length_text(lacking), as_drawn());
    findings_.push_back(std::move(f));
  }

  // It fits as drawn and as measured.
  void close(int axis, const Extent& whole, double play, double left) {
    Finding f = of_size(axis, whole, play, Verdict::marginal);
    f.at = middle_of_whole();
    f.message = fmt::format("the whole is {} mm {} and goes in with {} mm left beyond space.play; {}",
                            length_text(whole.size_mm()), words[axis], length_text(left), doubt_in_words(axis));
    findings_.push_back(std::move(f));
  }

  // How far a part must move along the axes until it is free of a box.
  [[nodiscard]] static double depth_mm(const PlacedBody& body, const PlacedBody& box) {
    double least = 1e9;
    for (const Vec3 way : {axis::x, axis::minus_x, axis::y, axis::minus_y, axis::z, axis::minus_z}) {
      double in = 0;
      double out = norm(body.outer.box.size()) + norm(box.outer.box.size());
      while (out - in > 1e-4) {
        const double middle = (in + out) / 2;
        (decide(moved(body, middle * way), box) == Decision::overlap ? in : out) = middle;
      }
      least = std::min(least, out);
    }
    return std::round(1000 * least) / 1000;
  }

  void past(const Space::Taken& taken) {
    const PlacedBody box = body_of_box(taken.box);
    std::optional<InstanceId> deepest;
    double depth = 0;
    std::size_t others = 0;
    for (const InstanceId id : standing_) {
      if (apart(scene_.body(id).outer.box, taken.box, -band)) continue;
      const Decision decision = decide(scene_.body(id), box);
      if (decision == Decision::unsure) not_decided(taken, id);
      if (decision != Decision::overlap) continue;
      const double by = depth_mm(scene_.body(id), box);
      if (deepest) ++others;
      if (by <= depth + band) continue;
      deepest = id;
      depth = by;
    }
    if (!deepest) return beside(taken, box);
    Finding f = about(Verdict::fail, taken.key, taken.place);
    f.value = depth;
    f.limit = 0;
    f.source = taken.key;
    f.parts = {scene_.label(*deepest)};
    f.at = common(scene_.body(*deepest).outer.box, taken.box).middle();
    f.cause = "space " + taken.key;
    f.message = fmt::format(
        "{} stands in what is in the way in the space ({}), by {} mm{}: "
        "move the whole (space.at), or make the box smaller there{}",
        f.parts.front(), taken.why, length_text(depth), others == 0 ? "" : fmt::format("; with it {} more", others),
        as_drawn());
    findings_.push_back(std::move(f));
  }

  // The axis along which a part is farthest from a box.
  [[nodiscard]] static std::pair<int, double> farthest_axis(const Box3& part, const Box3& box) {
    std::pair<int, double> most{0, -1e9};
    for (int axis = 0; axis < 3; ++axis) {
      const double off = std::max(component(box.low, axis) - component(part.high, axis),
                                  component(part.low, axis) - component(box.high, axis));
      if (off > most.second) most = {axis, off};
    }
    return most;
  }
  // As on the floor: it needs no play under it.
  [[nodiscard]] static bool stands_on(const Box3& part, const Box3& box) {
    return std::abs(part.low.z - box.high.z) <= band && part.low.x < box.high.x && box.low.x < part.high.x &&
           part.low.y < box.high.y && box.low.y < part.high.y;
  }

  struct Beside {
    InstanceId id = 0;
    int axis = 0;  // along which it is farthest off
    Nearest nearest;
  };

  // Clear of it; but how near?
  void beside(const Space::Taken& taken, const PlacedBody& box) {
    std::optional<Beside> least;
    for (const InstanceId id : standing_) {
      const Box3& outer = scene_.body(id).outer.box;
      const int axis = farthest_axis(outer, taken.box).first;
      const double below = space_.play_mm + doubt_mm(axis);
      const double between_boxes = distance_mm(outer, taken.box);
      if (stands_on(outer, taken.box) || between_boxes >= below) continue;
      const auto exact = nearest(scene_.body(id), box, below);
      if (!exact && between_boxes <= band) continue;  // clear of it, and nobody knows by how much
      // What has no closed form is at least as far off as its box.
      const Nearest here = exact ? *exact : Nearest{between_boxes, 0.5 * (outer.middle() + taken.box.middle())};
      if (here.mm < below - band && (!least || here.mm < least->nearest.mm - band)) least = Beside{id, axis, here};
    }
    if (least) say_beside(taken, *least);
  }

  void say_beside(const Space::Taken& taken, const Beside& beside) {
    const double lacking = space_.play_mm - beside.nearest.mm;
    Finding f = about(lacking > band ? Verdict::fail : Verdict::marginal, taken.key, taken.place);
    f.value = beside.nearest.mm;
    f.limit = space_.play_mm;
    f.source = "space.play";
    f.parts = {scene_.label(beside.id)};
    f.at = beside.nearest.at;
    f.cause = "space " + taken.key;
    f.message = lacking > band
                    ? fmt::format(
                          "{} stands {} mm from what is in the way in the space ({}); {} mm must stay free round "
                          "it: move the whole (space.at), or make the box smaller by {} mm there{}",
                          f.parts.front(), length_text(beside.nearest.mm), taken.why, length_text(space_.play_mm),
                          length_text(lacking), as_drawn())
                    : fmt::format(
                          "{} stands {} mm from what is in the way in the space ({}), {} mm more than "
                          "space.play; {}",
                          f.parts.front(), length_text(beside.nearest.mm), taken.why, length_text(-lacking),
                          doubt_in_words(beside.axis));
    findings_.push_back(std::move(f));
  }

  void not_decided(const Space::Taken& taken, InstanceId id) {
    Finding f = about(Verdict::not_checked, taken.key, taken.place);
    f.parts = {scene_.label(id)};
    f.message = fmt::format(
        "not decided whether {} stands in what is in the way in the space ({}): no exact rule knows "
        "its shape",
        f.parts.front(), taken.why);
    findings_.push_back(std::move(f));
  }

  [[nodiscard]] Finding all_in() const {
    Finding f = about(Verdict::pass, "space.size", space_.place);
    f.unit.clear();
    std::string sizes;
    for (int axis = 0; axis < 3; ++axis) {
      sizes += fmt::format("{}{} mm {} in {}", axis == 0 ? "" : ", ", length_text(extent(axis).size_mm()), words[axis],
                           length_text(component(space_.box.size(), axis)));
    }
    const bool no_eyes = std::none_of(plan_.instances.begin(), plan_.instances.end(),
                                      [&](const Instance& i) { return plan_.parts[i.part].role == Role::eye; });
    f.message = fmt::format("the whole goes into the space: {}{}{}", sizes,
                            space_.taken.empty() ? "" : ", past all that is in the way there",
                            no_eyes && !plan_.lift_points.empty() ? "; lifting eyes are taken out, as drawn" : "");
    return f;
  }

  const Scene& scene_;
  const Plan& plan_;
  const Space& space_;
  std::vector<InstanceId> standing_;
  std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> check_space(const Scene& scene) {
  const Plan& plan = scene.plan();
  if (!plan.space || plan.instances.empty()) return {};
  return SpaceCheck(scene, *plan.space).findings();
}

}  // namespace fitup::checks
