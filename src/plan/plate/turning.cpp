// Whether a plate of the shell that is turned round or over still finds its slots, and whether that would be wrong: its
// other holes, or what is welded on by its marks, would be elsewhere.
// Entry: keep_from_turning.
#include "plan/plate/turning.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <vector>

#include "plan/face_axes.h"
#include "plan/plate/joints.h"

namespace fitup::plan::plate {

namespace {

constexpr double same_hole_mm = 0.05;  // below what a hole's place may be off by when it is cut
constexpr double same_mark_mm = 0.5;   // what is set by a line is not set nearer (common practice)
constexpr double least_moment = 1e-6;  // of holes about the middle, times their area and the plate's size: 0 is less

/// The two axes of a plate about its middle, exchanged and reversed: all ways in which it can lie in its own plane.
struct Turn {
  bool swapped;
  double u;
  double v;
  [[nodiscard]] Vec2 operator()(Vec2 p) const { return swapped ? Vec2{u * p.y, v * p.x} : Vec2{u * p.x, v * p.y}; }
};
constexpr std::array<Turn, 7> turns{
    {{false, -1, 1}, {false, 1, -1}, {false, -1, -1}, {true, 1, 1}, {true, -1, 1}, {true, 1, -1}, {true, -1, -1}}};

/// A cut-out or a place to be drilled by where it is and how large.
struct Spot {
  Vec2 at;
  Vec2 size;
};
using Spots = std::vector<Spot>;

Spots turned(const Spots& spots, const Turn& turn) {
  Spots out;
  for (const Spot& s : spots) {
    const Vec2 size = turn(s.size);
    out.push_back({turn(s.at), {std::abs(size.x), std::abs(size.y)}});
  }
  return out;
}

bool near(Vec2 a, Vec2 b, double by_mm) { return std::abs(a.x - b.x) <= by_mm && std::abs(a.y - b.y) <= by_mm; }

bool same(const Spots& a, const Spots& b, double by_mm) {
  return a.size() == b.size() && std::all_of(a.begin(), a.end(), [&](const Spot& s) {
           return std::any_of(b.begin(), b.end(),
                              [&](const Spot& t) { return near(s.at, t.at, by_mm) && near(s.size, t.size, by_mm); });
         });
}

/// A plate in the box's axes about its middle: its corners, the slots that other plates stand in, all else that is cut
/// or drilled, and what is welded on at its low and its high side.
struct Features {
  int u = 0;  // axes
  int v = 1;
  double size_mm = 0;
  Spots corners;
  Spots slots;
  Spots holes;
  std::array<Spots, 2> welded_on;
};

/// What has a place on the plate and no slot that finds it: odd about the plate's middle where a turn would be wrong.
Spots places_of(const Features& f) {
  Spots all = f.holes;
  for (const Spots& side : f.welded_on) all.insert(all.end(), side.begin(), side.end());
  return all;
}

/// The sign of a moment of all that about the plate's middle: 0 where it is even about it.
int sign_of(const Features& f, int power_u, int power_v) {
  double sum = 0;
  double all = 0;
  for (const Spot& s : places_of(f)) {
    const double area = s.size.x * s.size.y;
    sum += area * std::pow(s.at.x / f.size_mm, power_u) * std::pow(s.at.y / f.size_mm, power_v);
    all += area;
  }
  return std::abs(sum) <= least_moment * all ? 0 : sum > 0 ? 1 : -1;
}

// Odd along one axis and even along the other: reflected, it changes its sign where the plate does.
int way_along(const Features& f, bool u) {
  for (const auto& [odd, even] : {std::pair(1, 0), std::pair(3, 0), std::pair(1, 2)}) {
    if (const int sign = u ? sign_of(f, odd, even) : sign_of(f, even, odd)) return sign;
  }
  return 0;
}

int twist_of(const Features& f) {
  for (const auto& [a, b] : {std::pair(1, 1), std::pair(3, 1), std::pair(1, 3)}) {
    if (const int sign = sign_of(f, a, b)) return sign;
  }
  return 1;
}

class Shellwork {
 public:
  explicit Shellwork(Build& build) : build_(build) {
    for (const SetUp& set : build.draft.set_up) bounds_.push_back(bounds_of(set.part));
  }

  void run() {
    for (std::size_t i = 0; i < bounds_.size(); ++i) {
      const InstanceId id = build_.draft.set_up[i].part;
      const auto* flat = std::get_if<Flat>(&build_.draft.part(id).form);
      // A tray has no tabs: what is marked on it says which way round it lies.
      if (flat == nullptr || !flat->bends.empty()) continue;
      Features f = features_of(i, *flat);
      add_welded_on(i, f);
      for (const Turn& turn : turns) {
        if (goes_in_wrongly(*flat, f, turn)) keep_from(turn, f, build_.one_way[build_.draft.instance(id).name]);
      }
    }
  }

 private:
  [[nodiscard]] Box3 bounds_of(InstanceId id) const {
    Box3 box;
    for (const Prism& prism : body_of(build_.draft.part(id)).outer) {
      Prism placed = prism;
      placed.pose = build_.draft.instance(id).pose * prism.pose;
      box.add(placed.bounds());
    }
    return box;
  }

  [[nodiscard]] bool others_stand_at(std::size_t own, Vec3 p) const {
    for (std::size_t i = 0; i < bounds_.size(); ++i) {
      const Box3& b = bounds_[i];
      const bool inside =
          p.x > b.low.x && p.x < b.high.x && p.y > b.low.y && p.y < b.high.y && p.z > b.low.z && p.z < b.high.z;
      if (i != own && inside) return true;
    }
    return false;
  }

  [[nodiscard]] Features features_of(std::size_t i, const Flat& flat) const {
    const Pose& pose = build_.draft.instance(build_.draft.set_up[i].part).pose;
    const int square = std::abs(pose.z().x) > 0.5 ? 0 : std::abs(pose.z().y) > 0.5 ? 1 : 2;
    Features out{square == 0 ? 1 : 0, square == 2 ? 1 : 2, norm(flat.profile.bounds().size()), {}, {}, {}, {}};
    const auto in_space = [&](Vec2 p) { return pose.point({p.x, p.y, flat.thickness_mm / 2}); };
    const Vec3 middle = in_space(flat.profile.bounds().middle());
    const auto flattened = [&](Vec3 p) { return Vec2{along(p, out.u), along(p, out.v)}; };
    const auto spot = [&](Vec2 at, Vec2 size) {
      const Vec2 turned_size = flattened(pose.turn({size.x, size.y, 0}));
      return Spot{flattened(in_space(at) - middle), {std::abs(turned_size.x), std::abs(turned_size.y)}};
    };
    for (const Vertex& v : flat.profile.outer.vertices) out.corners.push_back(spot(v.at, {}));
    for (const Loop& hole : flat.profile.holes) {
      const Box2 b = hole.bounds();
      (others_stand_at(i, in_space(b.middle())) ? out.slots : out.holes).push_back(spot(b.middle(), b.size()));
    }
    for (const DrilledHole& hole : flat.drilled) {
      out.holes.push_back(spot(hole.at, {hole.diameter_mm, hole.diameter_mm}));
    }
    return out;
  }

  // By joints: what finds its own place in a slot is none of them, nor is what is bought and only lies there.
  void add_welded_on(std::size_t i, Features& f) const {
    const InstanceId own = build_.draft.set_up[i].part;
    const int square = 3 - f.u - f.v;
    const Vec3 middle = bounds_[i].middle();
    std::set<InstanceId> seen;
    for (const Joint& joint : build_.draft.joints()) {
      if (joint.kind != JointKind::weld || (joint.a != own && joint.b != own)) continue;
      const InstanceId other = joint.a == own ? joint.b : joint.a;
      if (finds_its_place(other) || !seen.insert(other).second) continue;
      const Box3 box = bounds_of(other);
      const Vec3 from = box.middle() - middle;
      const Vec3 size = box.size();
      f.welded_on[along(from, square) > 0 ? 1 : 0].push_back(
          {{along(from, f.u), along(from, f.v)}, {along(size, f.u), along(size, f.v)}});
    }
  }

  [[nodiscard]] bool finds_its_place(InstanceId id) const {
    const auto& all = build_.draft.set_up;
    return std::any_of(all.begin(), all.end(), [id](const SetUp& set) { return set.part == id; });
  }

  // Turned over it would show its marks on the wrong side; turned round in its plane they would be in wrong places.
  static bool marks_fall_elsewhere(const Features& f, const Turn& turn) {
    const bool over = turn.swapped ? turn.u * turn.v > 0 : turn.u * turn.v < 0;
    return !over && std::any_of(f.welded_on.begin(), f.welded_on.end(),
                                [&](const Spots& side) { return !same(turned(side, turn), side, same_mark_mm); });
  }

  [[nodiscard]] bool goes_in_wrongly(const Flat& flat, const Features& f, const Turn& turn) const {
    const bool steel = tables::find_material(material_of(build_))->steel;
    const double play_mm = joint_fit(flat.thickness_mm, steel, build_.spec.cutter.rules.tolerance).longer_mm();
    return same(turned(f.corners, turn), f.corners, play_mm) && same(turned(f.slots, turn), f.slots, play_mm) &&
           (!same(turned(f.holes, turn), f.holes, same_hole_mm) || marks_fall_elsewhere(f, turn));
  }

  // Tabs that are set aside along an axis keep the plate from every turn that reverses it, or exchanges it.
  static void keep_from(const Turn& turn, const Features& f, TabsAside& aside) {
    const bool by_u =
        turn.swapped || (turn.u < 0 && (turn.v > 0 || way_along(f, true) != 0 || way_along(f, false) == 0));
    const auto axis = static_cast<std::size_t>(by_u ? f.u : f.v);
    aside.way[axis] = way_along(f, by_u);
    if (aside.way[axis] == 0) aside.twist[axis] = twist_of(f);
  }

  Build& build_;
  std::vector<Box3> bounds_;  // index: that of Draft::set_up
};

}  // namespace

void keep_from_turning(Build& build) { Shellwork(build).run(); }

}  // namespace fitup::plan::plate
