// An item's own holes that hold it, tapped in its body or through its ears.
// Entry: item_prisms, hole_in_item, reach_of, check_all_holes.
#include "plan/item_holes.h"

#include <algorithm>
#include <cmath>
#include <set>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/face_axes.h"

namespace fitup::plan {

namespace {

constexpr double least_wall_mm = 1;   // of the item round a tapped hole (common practice)
constexpr double round_head_mm = 2;   // of an ear beyond the screw's head
constexpr double beside_body_mm = 1;  // of air between the head and the body

struct Rectangle {
  Vec2 low;
  Vec2 high;
};

double size_mm(const ItemSpec& item, int axis) { return (*item.size)[static_cast<std::size_t>(axis)].mm(); }

Vec2 at_mm(const Lengths<2>& at) { return {(*at)[0].mm(), (*at)[1].mm()}; }

const Thread& thread_of(const ItemMountsSpec& mounts) { return *tables::find_thread(*mounts.thread); }

double head_mm(const ItemMountsSpec& mounts) {
  const double head = tables::find_button_head(*mounts.thread)->head_mm;
  const Washer* washer = tables::find_washer(*mounts.thread);
  return washer == nullptr ? head : std::max(head, washer->outer_mm);
}

Rectangle body(const ItemSpec& item) {
  const OwnFace face = own_face(*item.mounts->face);
  return {{0, 0}, {size_mm(item, face.u), size_mm(item, face.v)}};
}

// Where a hole stands beside the body: the axis in the face, 0 or 1, and the side; none where it is not beside exactly
// one edge.
struct Beside {
  int axis = 0;
  Side side = low;
  double away_mm = 0;
};

std::optional<Beside> beside(const ItemSpec& item, Vec2 at) {
  const Rectangle b = body(item);
  std::optional<Beside> found;
  for (const int axis : {0, 1}) {
    const double place = axis == 0 ? at.x : at.y;
    const double most = axis == 0 ? b.high.x : b.high.y;
    if (place >= 0 && place <= most) continue;
    if (found) return std::nullopt;
    found = Beside{axis, place < 0 ? low : high, place < 0 ? -place : place - most};
  }
  return found;
}

double half_ear_mm(const ItemMountsSpec& mounts) { return head_mm(mounts) / 2 + round_head_mm; }

// From the body's edge to beyond the head.
Rectangle ear(const ItemSpec& item, Vec2 at, const Beside& where) {
  const Rectangle b = body(item);
  const double half = half_ear_mm(*item.mounts);
  Rectangle out{at - Vec2{half, half}, at + Vec2{half, half}};
  double& near =
      where.axis == 0 ? (where.side == low ? out.high.x : out.low.x) : (where.side == low ? out.high.y : out.low.y);
  near = where.side == low ? 0 : (where.axis == 0 ? b.high.x : b.high.y);
  return out;
}

// A slab of the item behind its face, as thick as this: the pose whose x and y are the face's two axes. Of the front
// and the back z runs to the front.
Pose slab(const ItemSpec& item, const OwnFace& face, double from_face_mm, double thick_mm) {
  const bool against = face.n == 1;
  const double near = face.side == low ? from_face_mm : size_mm(item, face.n) - from_face_mm - thick_mm;
  Vec3 origin;
  along(origin, face.n) = against ? near + thick_mm : near;
  return Pose::at(origin, unit(face.u, high), unit(face.v, high));
}

// Own coordinates to those of the part.
Pose to_part(const ItemSpec& item) { return Pose::at({0, size_mm(item, 1), 0}, axis::x, axis::z).inverse(); }

std::vector<Loop> rod_holes(const ItemSpec& item) {
  std::vector<Loop> holes;
  if (!item.rods) return holes;
  const double radius = tables::find_thread(*item.rods->thread)->major_mm / 2;
  for (const auto& at : item.rods->at) holes.push_back(Loop::circle(at_mm(at), radius));
  return holes;
}

Profile body_profile(const ItemSpec& item, const OwnFace& face) {
  return {Loop::rectangle({0, 0}, {size_mm(item, face.u), size_mm(item, face.v)}), rod_holes(item)};
}

}  // namespace

OwnFace own_face(Face face) {
  const int n = axis_of(face);
  return {n == 0 ? 1 : 0, n == 2 ? 1 : 2, n, side_of(face)};
}

Vec3 hole_in_item(const ItemSpec& item, const Lengths<2>& at) {
  const OwnFace face = own_face(*item.mounts->face);
  Vec3 out;
  along(out, face.u) = at_mm(at).x;
  along(out, face.v) = at_mm(at).y;
  along(out, face.n) = face.side == low ? 0 : size_mm(item, face.n);
  return out;
}

std::vector<Prism> item_prisms(const ItemSpec& item) {
  if (!item.mounts) return {{body_profile(item, own_face(Face::back)), Pose{}, size_mm(item, 1)}};
  const ItemMountsSpec& mounts = *item.mounts;
  const OwnFace face = own_face(*mounts.face);
  const double deep = mounts.depth ? (*mounts.depth)->mm() : 0;
  const Pose own = to_part(item);
  std::vector<Prism> prisms;
  if (deep > 0) {
    Profile drilled = body_profile(item, face);
    for (const auto& at : mounts.at)
      drilled.holes.push_back(Loop::circle(at_mm(at), thread_of(mounts).tap_drill_mm / 2));
    prisms.push_back({drilled, own * slab(item, face, 0, deep), deep});
    const double rest = size_mm(item, face.n) - deep;
    prisms.push_back({body_profile(item, face), own * slab(item, face, deep, rest), rest});
    return prisms;
  }
  const OwnFace back = own_face(Face::back);
  prisms.push_back({body_profile(item, back), own * slab(item, back, 0, size_mm(item, 1)), size_mm(item, 1)});
  const double thick = (*mounts.ear)->mm();
  for (const auto& at : mounts.at) {
    const auto where = beside(item, at_mm(at));
    if (!where) continue;
    const Rectangle r = ear(item, at_mm(at), *where);
    const Loop hole = Loop::circle(at_mm(at), thread_of(mounts).clear_medium_mm / 2);
    prisms.push_back({{Loop::rectangle(r.low, r.high), {hole}}, own * slab(item, face, 0, thick), thick});
  }
  return prisms;
}

Box3 reach_of(const ItemSpec& item) {
  Box3 box;
  box.add(Vec3{0, 0, 0});
  box.add(Vec3{size_mm(item, 0), size_mm(item, 1), size_mm(item, 2)});
  if (!item.mounts || !item.mounts->ear) return box;
  const OwnFace face = own_face(*item.mounts->face);
  for (const auto& at : item.mounts->at) {
    const auto where = beside(item, at_mm(at));
    if (!where) continue;
    const Rectangle r = ear(item, at_mm(at), *where);
    along(box.low, face.u) = std::min(along(box.low, face.u), r.low.x);
    along(box.low, face.v) = std::min(along(box.low, face.v), r.low.y);
    along(box.high, face.u) = std::max(along(box.high, face.u), r.high.x);
    along(box.high, face.v) = std::max(along(box.high, face.v), r.high.y);
  }
  return box;
}

namespace {

struct Misfit {
  std::string why;
  std::string remedy;
};

std::optional<Misfit> of_tapped(const Build& build, const ItemSpec& item, Vec2 at) {
  const ItemMountsSpec& mounts = *item.mounts;
  const Rectangle b = body(item);
  const double edge = thread_of(mounts).major_mm / 2 + least_wall_mm;
  if (at.x >= edge && at.y >= edge && at.x <= b.high.x - edge && at.y <= b.high.y - edge) return std::nullopt;
  return Misfit{fmt::format("leaves the item no wall round it, whose face is {} x {}", build.in_words(b.high.x),
                            build.in_words(b.high.y)),
                fmt::format("keep it at least {} inside, or give ear in place of depth", build.at_least(edge))};
}

std::optional<Misfit> of_ear(const Build& build, const ItemSpec& item, Vec2 at) {
  const double least = head_mm(*item.mounts) / 2 + beside_body_mm;
  const auto where = beside(item, at);
  if (where && where->away_mm >= least - tolerance::contact_mm) return std::nullopt;
  return Misfit{"is not beside the body, where a screw's head finds room on an ear",
                fmt::format("put it at least {} beyond one edge of the face, or give depth in place of ear",
                            build.at_least(least))};
}

std::optional<Misfit> beside_others(const Build& build, const ItemSpec& item, std::size_t index) {
  const ItemMountsSpec& mounts = *item.mounts;
  const double least =
      mounts.ear ? 2 * half_ear_mm(mounts) : std::max(head_mm(mounts), thread_of(mounts).major_mm + least_wall_mm);
  for (std::size_t i = 0; i < index; ++i) {
    const double apart = norm(at_mm(mounts.at[index]) - at_mm(mounts.at[i]));
    if (apart >= least - tolerance::contact_mm) continue;
    return Misfit{fmt::format("is {} from another one", build.in_words(apart)),
                  fmt::format("put them at least {} apart", build.at_least(least))};
  }
  return std::nullopt;
}

std::optional<Misfit> of_whole(const Build& build, const ItemSpec& item) {
  const ItemMountsSpec& mounts = *item.mounts;
  const OwnFace face = own_face(*mounts.face);
  if (!mounts.depth) return std::nullopt;
  const double deep = (*mounts.depth)->mm();
  const double most = size_mm(item, face.n);
  if (deep >= most - tolerance::contact_mm) {
    return Misfit{fmt::format("is as deep as the item, {}", build.in_words(most)), "give a smaller depth"};
  }
  if (deep < thread_of(mounts).major_mm - tolerance::contact_mm) {
    return Misfit{
        fmt::format("is {} deep, and {} needs one diameter of thread", build.in_words(deep), *mounts.thread),
        fmt::format("give a depth of at least {}, or a smaller thread", build.at_least(thread_of(mounts).major_mm))};
  }
  if (item.rods && face.n != 1) {
    return Misfit{"is beside rods that run through the item to its front and back",
                  "hold it at its front or back, or leave the rods out"};
  }
  return std::nullopt;
}

void say(Build& build, const ItemSpec& item, std::size_t index, const Misfit& misfit) {
  const Lengths<2>& at = item.mounts->at[index];
  build.diagnostics.add(diag::say<"item-hole-misfit">(at.place, "item." + item.name + ".mounts",
                                                      build.in_words(at_mm(at).x), build.in_words(at_mm(at).y),
                                                      misfit.why, misfit.remedy));
}

bool check_holes(Build& build, const ItemSpec& item) {
  if (const auto misfit = of_whole(build, item)) {
    say(build, item, 0, *misfit);
    return false;
  }
  for (std::size_t i = 0; i < item.mounts->at.size(); ++i) {
    const Vec2 at = at_mm(item.mounts->at[i]);
    auto misfit = item.mounts->depth ? of_tapped(build, item, at) : of_ear(build, item, at);
    if (!misfit) misfit = beside_others(build, item, i);
    if (!misfit) continue;
    say(build, item, i, *misfit);
    return false;
  }
  return true;
}

}  // namespace

bool check_all_holes(Build& build) {
  std::set<const ItemSpec*> asked;
  bool sound = true;
  for (const PlacedItem& placed : build.box.items) {
    const bool first = placed.item->mounts && asked.insert(placed.item).second;
    if (first) sound = check_holes(build, *placed.item) && sound;
  }
  return sound;
}

}  // namespace fitup::plan
