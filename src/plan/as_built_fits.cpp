// What fits the measured frame, for the check "as-built" to judge.
// Entry: add_as_built_fits.
#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "plan/as_built.h"
#include "plan/opening.h"

namespace fitup::plan {

namespace {

constexpr double drawn_with_ease_mm = 2;
constexpr double as_read_mm = 0.5;  // off a tape
constexpr double air_mm = 1;        // beside what is put in by hand (common practice)

class Fits {
 public:
  Fits(Build& build, const MeasuredFace& measured)
      : build_(build),
        measured_(measured),
        axes_(axes_of(measured.face)),
        word_(to_text(measured.face)),
        of_box_(build.spec.boxes.size() > 1 ? " of " + build.box_spec().name : ""),
        built_(*build.box_spec().as_built[static_cast<std::size_t>(measured.face)]) {}

  void run() {
    lengths();
    squareness();
    if (is_flanged(build_.box_spec(), measured_.face)) flange();
    if (*build_.box_spec().face(measured_.face).entry) entry();
    clearances();
  }

 private:
  void add(Fit fit) {
    fit.check = "as-built";
    fit.key = fmt::format("as_built.{}.{}", build_.box_spec().name, word_);
    fit.place = built_.place;
    fit.at = middle_of(build_, measured_.face);
    build_.draft.fits.push_back(std::move(fit));
  }

  void lengths() {
    const std::array<std::pair<double, double>, 4> sides{{{built_.across_low->value.mm(), measured_.size.x},
                                                          {built_.across_high->value.mm(), measured_.size.x},
                                                          {built_.up_low->value.mm(), measured_.size.y},
                                                          {built_.up_high->value.mm(), measured_.size.y}}};
    const auto share = [](const auto& s) { return std::abs(s.first - s.second) / welded_length_permits_mm(s.second); };
    const auto& worst = *std::max_element(sides.begin(), sides.end(),
                                          [&](const auto& a, const auto& b) { return share(a) < share(b); });
    Fit fit;
    fit.value = std::abs(worst.first - worst.second);
    fit.limit = welded_length_permits_mm(worst.second);
    fit.at_most = true;
    fit.only_marginal = true;
    fit.source = "ISO 13920, table 1, class B";
    fit.message =
        fmt::format("of the sides of the {} face{} as welded, the one of {:.1f} mm is farthest from its {:.1f} mm",
                    word_, of_box_, worst.first, worst.second);
    add(std::move(fit));
  }

  // At the end of the shorter leg, as the standard measures it.
  void squareness() {
    double most_rad = 0;
    for (std::size_t i = 0; i < 4; ++i) {
      const Vec2 at = measured_.corners[i];
      const Vec2 a = measured_.corners[(i + 1) % 4] - at;
      const Vec2 b = measured_.corners[(i + 3) % 4] - at;
      most_rad = std::max(most_rad, std::abs(std::atan2(cross(a, b), dot(a, b)) - std::numbers::pi / 2));
    }
    const double leg = std::min(measured_.size.x, measured_.size.y);
    Fit fit;
    fit.value = leg * std::tan(most_rad);
    fit.limit = leg * std::tan(welded_angle_permits_minutes(leg) / 60 * std::numbers::pi / 180);
    fit.at_most = true;
    fit.only_marginal = true;
    fit.source = "ISO 13920, table 2, class B";
    fit.message =
        fmt::format("the {} face{} as welded is out of square by {:.1f} mm over its shorter side of {:.1f} mm", word_,
                    of_box_, fit.value, leg);
    add(std::move(fit));
  }

  // The cover is square and holds the whole face, so that its gap is widest where the face falls back most.
  void flange() {
    const Box2 box = measured_.bounds();
    const auto& c = measured_.corners;
    // The bottom has no flange.
    const double back = std::max({c[0].x - box.low.x, c[3].x - box.low.x, box.high.x - c[1].x, box.high.x - c[2].x,
                                  box.high.y - c[2].y, box.high.y - c[3].y});
    const Sourced<Length>& gap = build_.box_spec().face(measured_.face).gap;
    Fit fit;
    fit.value = gap->mm() + back;
    fit.limit = tables::flange_drawn_at_most_mm;
    fit.marginal_from = std::max(drawn_with_ease_mm, gap->mm()) + as_read_mm;
    fit.at_most = true;
    fit.source = "EN 1090-2, from memory; of a flange common practice";
    for (InstanceId id = 0; id < build_.draft.size(); ++id) {
      const Instance& i = build_.draft.instance(id);
      const Part& part = build_.draft.part(id);
      const auto* flat = std::get_if<Flat>(&part.form);
      const bool flange = part.role == Role::cover_flange || (flat != nullptr && !flat->bends.empty());
      if (flange && i.key == build_.key("face." + word_)) fit.parts.push_back(id);
    }
    fit.message = fmt::format(
        "the {} cover{} is square and laps round all of the measured face: under its flanges the gap of {:.1f} mm "
        "grows "
        "to {:.1f} mm where the frame is out of square, and the screws draw at most {:.1f} mm together",
        word_, of_box_, gap->mm(), fit.value, tables::flange_drawn_at_most_mm);
    if (fit.value > *fit.marginal_from) fit.message += "; straighten the frame, or lay a flat cover on it";
    add(std::move(fit));
  }

  /// Items stand in the draft in the order of the layout.
  [[nodiscard]] std::vector<InstanceId> instance_of(std::size_t item) const {
    std::size_t before = 0;
    for (InstanceId id = 0; id < build_.draft.size(); ++id) {
      if (build_.draft.part(id).role == Role::item && before++ == item) return {id};
    }
    return {};
  }

  struct Extent {
    Vec2 low, high;
  };

  /// Of an item, in the plane of the face; its rods stick out along Y.
  [[nodiscard]] Extent extent_of(std::size_t item, bool with_rods) const {
    Box3 box = item_box(build_, item);
    const ItemSpec& spec = *build_.box.items[item].item;
    const double rods = with_rods && spec.rods ? spec.rods->projection->mm() : 0;
    box.low.y -= rods;
    box.high.y += rods;
    return {in_face(box.low), in_face(box.high)};
  }
  [[nodiscard]] Vec2 in_face(Vec3 p) const { return {component(p, axes_.first), component(p, axes_.second)}; }

  /// What the two uprights, or edges, at these planned places leave beside the extent: the lesser side.
  [[nodiscard]] double beside_mm(const Extent& e, double low, double high) const {
    double room = 1e300;
    for (const double y : {e.low.y, e.high.y}) {
      const double at = std::clamp(y, 0.0, measured_.size.y);
      room = std::min({room, e.low.x - measured_.carried({low, at}).x, measured_.carried({high, at}).x - e.high.x});
    }
    return room;
  }
  [[nodiscard]] double above_mm(const Extent& e, double low, double high) const {
    double room = 1e300;
    for (const double x : {e.low.x, e.high.x}) {
      const double at = std::clamp(x, 0.0, measured_.size.x);
      const double opening = measured_.carried({at, high}).y - measured_.carried({at, low}).y;
      room = std::min(room, (opening - (e.high.y - e.low.y)) / 2);
    }
    return room;
  }

  void entry() {
    if (measured_.face == Face::bottom) return;
    const Opening opening = opening_of(build_, measured_.face);
    std::size_t tightest = 0;
    double least = 1e300;
    for (std::size_t i = 0; i < build_.box.items.size(); ++i) {
      const Extent e = extent_of(i, true);
      const double room = std::min(beside_mm(e, opening.low_mm[0], opening.high_mm[0]),
                                   above_mm(e, opening.low_mm[1], opening.high_mm[1]));
      if (room < least) {
        least = room;
        tightest = i;
      }
    }
    Fit fit;
    fit.value = least;
    fit.limit = air_mm;
    fit.source = "common practice";
    fit.parts = instance_of(tightest);
    fit.message = fmt::format(
        "going in through the {} face{} as it was measured, {} has {:.1f} mm on its narrower side and needs {:.1f} mm",
        word_, of_box_, build_.box.items[tightest].name, least, air_mm);
    if (least < air_mm) fit.message += "; straighten the frame there, or let it in through another face";
    add(std::move(fit));
  }

  // From the items to the inside of the bars, along the face's first axis and, where it is Z, up.
  void clearances() {
    const double wall = axes_.first == 0 ? build_.shell.side_wall_mm : build_.shell.end_wall_mm;
    std::size_t tightest = 0;
    double least = 1e300;
    for (std::size_t i = 0; i < build_.box.items.size(); ++i) {
      const double room = beside_mm(extent_of(i, false), wall, measured_.size.x - wall);
      if (room < least) {
        least = room;
        tightest = i;
      }
    }
    Fit fit;
    fit.value = least;
    fit.limit = 0;
    fit.source = "the frame as it was measured";
    fit.parts = instance_of(tightest);
    fit.message = fmt::format("between {} and the inside of the frame, {:.1f} mm are left at the {} face{} as welded",
                              build_.box.items[tightest].name, least, word_, of_box_);
    if (least < 0) fit.message += "; the row needs that much less between its items, or the frame that much more";
    add(std::move(fit));
  }

  Build& build_;
  const MeasuredFace& measured_;
  FaceAxes axes_;
  std::string word_;
  std::string of_box_;  // where there are several
  const AsBuiltFace& built_;
};

}  // namespace

void add_as_built_fits(Build& build, const MeasuredFace& face) { Fits(build, face).run(); }

}  // namespace fitup::plan
