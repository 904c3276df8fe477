// Notches in the flanges of covers, where something of others stands in their way.
// Entry: notch_flanges, gives_way.
#include "plan/notches.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/clear_rows.h"
#include "plan/face_axes.h"
#include "plan/flange_edges.h"
#include "plan/flange_leaf.h"
#include "plan/flanged_face.h"

namespace fitup::plan {

namespace {

constexpr double boss_room_mm = 5;     // round a lift boss, for the bead of its weld (common practice)
constexpr double edge_distance = 1.2;  // of a hole's middle from an edge, in hole diameters (common practice)

bool share_space(const Box3& a, const Box3& b) {
  const auto some = [](double low_a, double high_a, double low_b, double high_b) {
    return std::min(high_a, high_b) - std::max(low_a, low_b) > tolerance::contact_mm;
  };
  return some(a.low.x, a.high.x, b.low.x, b.high.x) && some(a.low.y, a.high.y, b.low.y, b.high.y) &&
         some(a.low.z, a.high.z, b.low.z, b.high.z);
}

bool is_of_faces(const Build& build, InstanceId id) {
  return build.draft.instance(id).key.rfind(build.key("face."), 0) == 0;
}

// What a flange is notched for: nothing that closes a face, and nothing that holds that.
bool is_notched_for(const Build& build, InstanceId id) {
  switch (build.draft.part(id).role) {
    case Role::foot:
    case Role::lug:
    case Role::bearer:
    case Role::boss:
    case Role::eye:
    case Role::brace:
    case Role::gusset:
    case Role::cross_bar:
    case Role::stud:
    case Role::doubler:
    case Role::nut_strip:
    case Role::mount_strip: return true;
    case Role::screw:
    case Role::nut:
    case Role::insert:
    case Role::washer: return !is_of_faces(build, id);
    default: return false;
  }
}

// A piece of something that stands in a leaf, and what is cut for it.
struct InTheWay {
  InstanceId id = 0;
  Box2 bare;
  Box2 cut;
};

class Notcher {
 public:
  Notcher(Build& build, Face face)
      : build_(build),
        face_(face),
        word_(to_text(face)),
        spec_(build.box_spec().face(face)),
        key_(build.key("face." + word_)),
        taken_(taken_by_steel(build.draft)) {
    std::erase_if(taken_, [&](const Taken& t) { return t.root || !is_notched_for(build_, t.id); });
  }

  void run() {
    for (const FlangeLeaf& leaf : leaves_of(build_, face_)) notch(leaf);
  }

 private:
  [[nodiscard]] std::string words(double mm) const { return build_.in_words(mm); }
  [[nodiscard]] std::string name(InstanceId id) const { return build_.draft.instance(id).name; }

  [[nodiscard]] std::vector<InTheWay> standing_in(const FlangeLeaf& leaf) const {
    std::vector<InTheWay> found;
    for (const Taken& taken : taken_) {
      if (!share_space(leaf.slab, taken.box)) continue;
      const Role role = build_.draft.part(taken.id).role;
      const bool boss = role == Role::boss || role == Role::eye;
      const double gap = boss ? std::max(spec_.notch_gap->mm(), boss_room_mm) : spec_.notch_gap->mm();
      const Box2 bare = on_leaf(leaf, taken.box);
      found.push_back({taken.id, bare, {bare.low - Vec2{gap, gap}, bare.high + Vec2{gap, gap}}});
    }
    return found;
  }

  void notch(const FlangeLeaf& leaf) {
    const std::vector<InTheWay> all = standing_in(leaf);
    if (all.empty()) return;
    for (const InTheWay& one : all) {
      if (!leaves_enough(leaf, one)) return;
    }
    bool free = true;
    for (const InTheWay& one : all) free = keeps_screws(leaf, one) && free;
    if (!free) return;
    std::vector<Box2> cuts;
    for (const InTheWay& one : all) cuts.push_back(one.cut);
    const std::string problem = cut_leaf(build_, leaf, cuts);
    if (!problem.empty()) say(leaf, all.front(), problem, "");
  }

  void say(const FlangeLeaf& leaf, const InTheWay& one, const std::string& why, const std::string& first,
           const std::string& away = "away from it") {
    const Instance& other = build_.draft.instance(one.id);
    build_.diagnostics.add(
        diag::say<"flange-not-notched">(spec_.style.place, word_, to_text(leaf.beside), other.name, why,
                                        fmt::format("{}move {} {} ({}), or close the {} face by a flat cover", first,
                                                    other.name, away, other.key, word_)));
  }

  // A flange that ends before what stands in it, if it still holds its screws.
  [[nodiscard]] std::string shallower(const FlangeLeaf& leaf, const InTheWay& one) {
    if (leaf.kind == FlangeLeaf::Kind::leg_a) return {};
    const FlangedFace f(build_, face_);
    const double over = f.reach - (leaf.height_mm - one.bare.low.y);
    if (over < std::max(f.ring_row_mm(), f.side_row_mm()) + f.edge_mm()) return {};
    return fmt::format("choose {}, ", shallower_flange(build_, face_, over));
  }

  bool leaves_enough(const FlangeLeaf& leaf, const InTheWay& one) {
    const double left = one.cut.low.y;
    if (left >= leaf.least_mm - tolerance::contact_mm) return true;
    const Face from = leaf.kind == FlangeLeaf::Kind::leg_a ? leaf.beside : face_;
    say(leaf, one,
        fmt::format("{} of its {} would stay and {} must, {}", words(std::max(left, 0.0)), words(leaf.height_mm),
                    build_.at_least(leaf.least_mm), leaf.why),
        shallower(leaf, one),
        fmt::format("at least {} farther from the {} face", build_.at_least(leaf.least_mm - left), to_text(from)));
    return false;
  }

  // Holes of the leaf: where their middles are, and which row they are of.
  bool keeps_screws(const FlangeLeaf& leaf, const InTheWay& one) {
    const double hole = tables::find_thread(*spec_.screws.thread)->clear_medium_mm;
    const double needed = edge_distance * hole;
    bool free = true;
    for (const Fastener& fastener : build_.draft.fasteners) {
      const auto& stack = fastener.stack;
      if (std::find(stack.begin(), stack.end(), leaf.id) == stack.end()) continue;
      const Vec3 axis = build_.draft.pose(fastener.screw).origin();
      const Box3 screw = box_around(build_.draft, fastener.screw);
      if (!share_space(leaf.slab, screw)) continue;
      const Vec2 at = on_leaf(leaf, {axis, axis}).low;
      const double beside = std::max({one.cut.low.x - at.x, at.x - one.cut.high.x, 0.0});
      const double below = std::max({one.cut.low.y - at.y, at.y - one.cut.high.y, 0.0});
      const double apart = std::hypot(beside, below);
      if (apart >= needed - tolerance::contact_mm) continue;
      free = false;
      clash(leaf, one, fastener.screw, apart, needed);
    }
    return free;
  }

  void clash(const FlangeLeaf& leaf, const InTheWay& one, InstanceId screw, double apart, double needed) {
    const Vec3 a = leaf.corner + (one.cut.low.x - needed) * leaf.along;
    const Vec3 b = leaf.corner + (one.cut.high.x + needed) * leaf.along;
    const int run = std::abs(leaf.along.x) > 0.5 ? 0 : std::abs(leaf.along.y) > 0.5 ? 1 : 2;
    const double from = std::min(along(a, run), along(b, run));
    const double to = std::max(along(a, run), along(b, run));
    wish_for_gap(build_, screw, from, to);
    say(leaf, one,
        fmt::format("{} would stand {} from the notch and needs {}", name(screw), words(apart),
                    build_.at_least(needed)),
        fmt::format("give its row places that are not between {} and {} ({}.screws.at.{}), ", build_.at_most(from),
                    build_.at_least(to), key_, to_text(leaf.beside)));
  }

  Build& build_;
  Face face_;
  std::string word_;
  const FaceSpec& spec_;
  std::string key_;
  std::vector<Taken> taken_;
};

}  // namespace

void notch_flanges(Build& build) {
  for (const Face face : all_faces) {
    if (is_flanged(build.box_spec(), face)) Notcher(build, face).run();
  }
}

bool gives_way(const Build& build, const Taken& taken) {
  const std::string& key = build.draft.instance(taken.id).key;
  const Part& part = build.draft.part(taken.id);
  for (const Face face : all_faces) {
    if (!is_flanged(build.box_spec(), face) || key != build.key("face." + std::string(to_text(face)))) continue;
    if (part.role == Role::cover_flange) return true;
    if (part.role == Role::cover_sheet) {
      const auto& flat = std::get<Flat>(part.form);
      return along(taken.box.size(), axis_of(face)) > flat.thickness_mm + tolerance::contact_mm;
    }
    const auto& at = build.box_spec().face(face).screws.at;
    const bool by_rule = std::none_of(at.begin(), at.end(), [](const auto& row) { return row.has_value(); });
    return by_rule && part.source == Source::bought;
  }
  return false;
}

}  // namespace fitup::plan
