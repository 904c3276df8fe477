// Lays each tool's room over its fastener and asks the pair rules what stands in it.
// Entry: check_reach.
#include "checks/reach.h"

#include <algorithm>
#include <cmath>

#include "checks/bay_room.h"
#include "checks/contacts.h"
#include "checks/gland_move.h"
#include "checks/meeting_place.h"
#include "checks/order.h"
#include "checks/reach_words.h"
#include "checks/seams.h"
#include "checks/tool_room.h"
#include "checks/ways.h"
#include "fitup/tolerances.h"
#include "geometry/near_boxes.h"

namespace fitup::checks {

namespace {

constexpr double band = tolerance::contact_mm;
constexpr double first_step_mm = 1e-3;
constexpr double precision_mm = 1e-5;
constexpr double ball_end_deg = 25;    // how far a key with a ball end leans (common practice)
constexpr double swing_step_deg = 15;  // between the places tried for a handle (half a flat of a nut)

PlacedBody room_body(const Prism& prism) { return place(Body{{prism}, {prism}, true, {}}, Pose{}); }

/// Of all things; what is kept clear for leads and plugs is no obstacle to a tool.
std::vector<Box3> boxes_of(const Scene& scene) {
  std::vector<Box3> boxes;
  for (Thing t = 0; t < scene.things(); ++t) {
    const bool is_zone = t >= scene.plan().instances.size() && scene.bead_of(t) == nullptr;
    boxes.push_back(is_zone ? Box3{} : scene.body(t).outer.box);
  }
  return boxes;
}

class Reach {
 public:
  explicit Reach(const Scene& scene)
      : scene_(scene),
        plan_(scene.plan()),
        near_(boxes_of(scene)),
        step_of_(plan_.instances.size(), 0),
        from_(standing_from(plan_)),
        words_(scene, step_of_) {
    for (std::size_t s = 0; s < plan_.steps.size(); ++s) {
      for (const InstanceId i : plan_.steps[s].adds) step_of_[i] = s;
    }
  }

  /// Of the first tool that would find room if beads were left away that may be: those beads. None where one finds room
  /// as it is.
  [[nodiscard]] std::vector<KeepFree> beads_in(const Turned& turned) const {
    auto free = beads_before(turned);
    const auto beside = beside_each(turned);
    const auto any_bead = [&](const std::vector<Thing>& all) {
      return std::any_of(all.begin(), all.end(), [&](Thing t) { return scene_.bead_of(t) != nullptr; });
    };
    if (std::none_of(beside.begin(), beside.end(), any_bead) || any_finds_room(turned, beside)) return free;
    for (std::size_t i = 0; i < turned.tools.size(); ++i) {
      const auto beads = beads_of(turned.tools[i], beside[i], turned.id);
      free.insert(free.end(), beads.begin(), beads.end());
      if (!beads.empty()) break;
    }
    return free;
  }

  /// Nothing where it goes in, and a tool finds room.
  [[nodiscard]] std::optional<Finding> look(const Turned& turned) const {
    if (!turned.known) return words_.no_tool(turned.id);
    const auto first = before_it_goes_in(turned);
    if (first && first->verdict != Verdict::marginal) return first;
    const auto beside = beside_each(turned);
    // By how much is worked out only where no tool does.
    const auto then = any_finds_room(turned, beside) ? beyond_the_bay(turned, beside)
                                                     : std::optional(none_finds_room(turned, beside));
    return then ? then : first;
  }

 private:
  /// What is wrong with the room that it needs itself, along its axis.
  [[nodiscard]] std::optional<Finding> before_it_goes_in(const Turned& turned) const {
    if (!turned.way_in) return std::nullopt;
    const auto beside = near(*turned.way_in, turned);
    const auto taken = worst_in(turned.way_in->column, beside);
    if (!taken) return std::nullopt;
    if (!taken->sure) return words_.not_decided(turned.id, *turned.way_in, *taken);
    // What is slim leans in its clear hole as a key with a ball end does.
    return words_.does_not_go_in(turned.id, *turned.way_in, *taken, leans_past(*turned.way_in, beside));
  }

  [[nodiscard]] Role role(InstanceId i) const { return plan_.parts[plan_.instances[i].part].role; }

  [[nodiscard]] Finding none_finds_room(const Turned& turned, const std::vector<std::vector<Thing>>& beside) const {
    std::optional<Taken> least;
    const ToolRoom* tool = nullptr;
    for (std::size_t i = 0; i < turned.tools.size(); ++i) {
      const auto taken = taken_of(turned.tools[i], beside[i]);
      if (least && (taken->sure && !least->sure)) continue;
      if (least && taken->sure == least->sure && taken->by_mm >= least->by_mm - band) continue;
      least = taken;
      tool = &turned.tools[i];
    }
    if (!least->sure) return words_.not_decided(turned.id, *tool, *least);
    if (role(turned.id) == Role::gland) return words_.by_pliers(turned.id, *tool, *least, moves_of_gland(turned.id));
    for (std::size_t i = 0; i < turned.tools.size(); ++i) {
      const ToolRoom& room = turned.tools[i];
      if (room.ball_end && leans_past(room, beside[i])) return words_.leaning(turned.id, room, *least);
    }
    return words_.not_reached(turned.id, *tool, *least);
  }

  [[nodiscard]] GlandMoves moves_of_gland(InstanceId id) const {
    const auto sides = turned_by_hand(scene_, id);
    const GlandSeat seat(scene_, id);
    const auto turns = [&](Vec3 by) {
      return std::all_of(sides.begin(), sides.end(), [&](const Turned& side) {
        return std::any_of(side.tools.begin(), side.tools.end(), [&](const ToolRoom& tool) {
          const ToolRoom there = moved_room(tool, by);
          return finds_room(there, near(there, side));
        });
      });
    };
    const auto all = [&](Vec3 by) { return seat.is_good(by) && turns(by); };
    return {short_move(plan_.instances[id].pose.z(), turns), short_move(plan_.instances[id].pose.z(), all)};
  }

  /// Of those that find room in the box, the one that asks for least of the bay's.
  [[nodiscard]] std::optional<Finding> beyond_the_bay(const Turned& turned,
                                                      const std::vector<std::vector<Thing>>& beside) const {
    // Eyes are screwed in where it hangs, not in the bay.
    if (role(turned.id) == Role::eye) return std::nullopt;
    const BayRoom bay(plan_, turned.id);
    if (!bay.stated()) return std::nullopt;
    if (turned.way_in) {
      if (const auto lacking = bay.lacking(turned.way_in->column))
        return words_.beyond_the_bay(turned.id, *turned.way_in, *lacking);
    }
    std::optional<Lacking> least;
    const ToolRoom* tool = nullptr;
    for (std::size_t i = 0; i < turned.tools.size(); ++i) {
      if (!stands_free(turned.tools[i], beside[i])) continue;
      for (const Prism& swing : swings(turned.tools[i])) {
        if (!is_free(swing, beside[i])) continue;
        const auto lacking = bay.lacking(turned.tools[i].head.value_or(turned.tools[i].column), &swing);
        if (!lacking) return std::nullopt;
        if (least && lacking->needed_mm - lacking->bay_mm >= least->needed_mm - least->bay_mm) continue;
        least = lacking;
        tool = &turned.tools[i];
      }
    }
    return words_.beyond_the_bay(turned.id, *tool, *least);
  }

  /// Where a handle may swing; of a tool without one its column.
  [[nodiscard]] static std::vector<Prism> swings(const ToolRoom& room) {
    if (!room.swing) return {room.column};
    std::vector<Prism> all;
    for (double from = 0; from < 360; from += swing_step_deg) all.push_back(swing_room(room, from));
    return all;
  }

  /// The beads that alone are in the way of what goes in.
  [[nodiscard]] std::vector<KeepFree> beads_before(const Turned& turned) const {
    if (!turned.way_in) return {};
    return beads_of(*turned.way_in, near(*turned.way_in, turned), turned.id);
  }

  // A ball end leans by so much; where it begins, what is in the way must be no farther aside than the shaft has gone
  // by then. What else it meets farther out is not asked.
  [[nodiscard]] bool leans_past(const ToolRoom& room, const std::vector<Thing>& beside) const {
    const PlacedBody body = room_body(room.column);
    const Vec3 out = room.column.pose.z();
    for (const Thing i : beside) {
      if (decide(body, scene_.body(i)) != Decision::overlap) continue;
      const double length = room.column.length_mm;
      const auto stop = stop_of(body, scene_.body(i), out, length).sure_mm;
      if (!stop || aside_mm(body, i, out) > (length - *stop) * std::tan(ball_end_deg * M_PI / 180)) return false;
    }
    return true;
  }

  /// How far the tool must go aside to be free of the thing.
  [[nodiscard]] double aside_mm(const PlacedBody& tool, Thing by, Vec3 out) const {
    double least = 1e300;
    for (const Vec3 way : {axis::x, axis::minus_x, axis::y, axis::minus_y, axis::z, axis::minus_z}) {
      if (std::abs(dot(way, out)) < 0.5) least = std::min(least, free_after(tool, by, way, least));
    }
    return least;
  }

  // On the bench its own step's parts alone, else all that came before and its own.
  [[nodiscard]] bool stands_there(InstanceId i, std::size_t step) const {
    return words_.on_bench(step) ? step_of_[i] == step : from_[i] <= step;
  }

  // Both of a bead's parts: it is laid when the later one comes.
  [[nodiscard]] bool is_laid(const Bead& bead, std::size_t step) const {
    return stands_there(bead.a, step) && stands_there(bead.b, step);
  }

  /// The beads that a tool would meet if it were alone with them; none where something else is in its room.
  [[nodiscard]] std::vector<KeepFree> beads_of(const ToolRoom& room, const std::vector<Thing>& beside,
                                               InstanceId turned) const {
    std::vector<Thing> beads;
    std::vector<Thing> others;
    for (const Thing t : beside) {
      const Bead* bead = scene_.bead_of(t);
      (bead != nullptr && scene_.may_give_way(*bead) ? beads : others).push_back(t);
    }
    if (!finds_room(room, others)) return {};
    std::vector<KeepFree> found;
    for (const Prism& part : still(room)) {
      const auto met = met_in(part, beads, turned);
      found.insert(found.end(), met.begin(), met.end());
    }
    if (!room.swing) return found;
    std::optional<std::vector<KeepFree>> least;
    for (double from = 0; from < 360; from += swing_step_deg) {
      const Prism swing = swing_room(room, from);
      if (!is_free(swing, others)) continue;
      auto met = met_in(swing, beads, turned);
      if (!least || met.size() < least->size()) least = std::move(met);
    }
    if (least) found.insert(found.end(), least->begin(), least->end());
    return found;
  }

  [[nodiscard]] std::vector<KeepFree> met_in(const Prism& room, const std::vector<Thing>& beads,
                                             InstanceId turned) const {
    std::vector<KeepFree> met;
    for (const Thing t : beads) {
      if (!is_free(room, {t})) met.push_back({scene_.bead_of(t)->seam, room.bounds(), turned});
    }
    return met;
  }

  [[nodiscard]] std::vector<Thing> near(const ToolRoom& room, const Turned& turned) const {
    const std::size_t step = step_of_[turned.id];
    Box3 box = room.column.bounds();
    if (room.swing) {
      const double r = room.swing->radius_mm + room.swing->wide_mm;
      const Box3 disc = Prism{{Loop::circle({}, r), {}}, room.column.pose, room.column.length_mm}.bounds();
      box.add(disc);
    }
    std::vector<Thing> found = near_.near(box, 0);
    std::erase_if(found, [&](Thing t) {
      if (const Bead* bead = scene_.bead_of(t)) return !is_laid(*bead, step);
      const auto& own = turned.in_the_tool;
      return !stands_there(t, step) || std::find(own.begin(), own.end(), t) != own.end();
    });
    return found;
  }

  /// What stands beside the fastener, for each of its tools.
  [[nodiscard]] std::vector<std::vector<Thing>> beside_each(const Turned& turned) const {
    std::vector<std::vector<Thing>> all;
    for (const ToolRoom& room : turned.tools) all.push_back(near(room, turned));
    return all;
  }

  [[nodiscard]] bool any_finds_room(const Turned& turned, const std::vector<std::vector<Thing>>& beside) const {
    for (std::size_t i = 0; i < turned.tools.size(); ++i) {
      if (finds_room(turned.tools[i], beside[i])) return true;
    }
    return false;
  }

  /// What of the tool stays where it is while the handle swings.
  [[nodiscard]] static std::vector<Prism> still(const ToolRoom& room) {
    std::vector<Prism> all{room.column};
    if (room.head) all.push_back(*room.head);
    return all;
  }
  [[nodiscard]] bool stands_free(const ToolRoom& room, const std::vector<Thing>& beside) const {
    const auto all = still(room);
    return std::all_of(all.begin(), all.end(), [&](const Prism& p) { return is_free(p, beside); });
  }

  [[nodiscard]] bool finds_room(const ToolRoom& room, const std::vector<Thing>& beside) const {
    if (!stands_free(room, beside)) return false;
    if (!room.swing) return true;
    for (double from = 0; from < 360; from += swing_step_deg) {
      if (is_free(swing_room(room, from), beside)) return true;
    }
    return false;
  }

  // Of a tool that does not find room.
  [[nodiscard]] std::optional<Taken> taken_of(const ToolRoom& room, const std::vector<Thing>& beside) const {
    for (const Prism& part : still(room)) {
      if (auto taken = worst_in(part, beside)) return taken;
    }
    if (!room.swing) return std::nullopt;
    std::optional<Taken> least;
    for (double from = 0; from < 360; from += swing_step_deg) {
      const auto taken = worst_in(swing_room(room, from), beside);
      if (!least || taken->by_mm < least->by_mm - band) least = taken;
    }
    return least;
  }

  [[nodiscard]] bool is_free(const Prism& room, const std::vector<Thing>& beside) const {
    const PlacedBody body = room_body(room);
    return std::all_of(beside.begin(), beside.end(), [&](Thing i) {
      const Decision d = decide(body, scene_.body(i));
      return d == Decision::clear || d == Decision::touch;
    });
  }

  [[nodiscard]] std::optional<Taken> worst_in(const Prism& room, const std::vector<Thing>& beside) const {
    const PlacedBody body = room_body(room);
    std::optional<Taken> worst;
    for (const Thing i : beside) {
      const Decision d = decide(body, scene_.body(i));
      if (d == Decision::clear || d == Decision::touch) continue;
      const Taken taken = out_of(body, i, d == Decision::overlap);
      if (!worst || taken.by_mm > worst->by_mm + band) worst = taken;
    }
    return worst;
  }

  /// How far it must go along the way to be free, to 1e-4 mm; some more than `enough_mm` where it is more.
  [[nodiscard]] double free_after(const PlacedBody& tool, Thing by, Vec3 way, double enough_mm) const {
    const auto free = [&](double t) {
      const Decision d = decide(moved(tool, t * way), scene_.body(by));
      return d == Decision::clear || d == Decision::touch;
    };
    double low = 0;
    double high = first_step_mm;
    while (low < enough_mm && !free(high)) {
      low = high;
      high *= 2;
    }
    if (low >= enough_mm) return high;
    while (high - low > precision_mm) {
      const double middle = (low + high) / 2;
      (free(middle) ? high : low) = middle;
    }
    return std::round((high + band) / band) * band;
  }

  /// The least way out of the thing, along X, Y or Z, to and fro.
  [[nodiscard]] Taken out_of(const PlacedBody& tool, Thing by, bool sure) const {
    Taken best{by, 1e300, {}, meeting_box(tool, scene_.body(by)).middle(), sure};
    for (const Vec3 way : {axis::x, axis::minus_x, axis::y, axis::minus_y, axis::z, axis::minus_z}) {
      const double by_mm = free_after(tool, by, way, best.by_mm);
      if (by_mm >= best.by_mm - precision_mm) continue;
      best.by_mm = by_mm;
      best.direction = way;
    }
    return best;
  }

  const Scene& scene_;
  const Plan& plan_;
  geometry::NearBoxes near_;          // of all things but zones
  std::vector<std::size_t> step_of_;  // index: InstanceId
  std::vector<std::size_t> from_;     // likewise: by which step it stands there
  ReachWords words_;
};

}  // namespace

std::vector<KeepFree> beads_in_tool_rooms(const Scene& scene, int cores) {
  if (scene.plan().steps.empty() || scene.beads().empty()) return {};
  const Reach reach(scene);
  const auto turned = all_turned(scene);
  std::vector<std::vector<KeepFree>> found(turned.size());
  for_each_index(turned.size(), cores, [&](std::size_t i) {
    if (turned[i].known) found[i] = reach.beads_in(turned[i]);
  });
  std::vector<KeepFree> all;
  for (const auto& some : found) all.insert(all.end(), some.begin(), some.end());
  return all;
}

std::vector<Finding> check_reach(const Scene& scene, int cores, const std::function<bool()>& stop) {
  if (scene.plan().steps.empty()) return {};
  const Reach reach(scene);
  const auto turned = all_turned(scene);
  std::vector<std::optional<Finding>> found(turned.size());
  for_each_index(turned.size(), cores, [&](std::size_t i) {
    if (!stop || !stop()) found[i] = reach.look(turned[i]);
  });
  std::vector<Finding> findings;
  for (auto& f : found) {
    if (f) findings.push_back(std::move(*f));
  }
  if (findings.empty() && !turned.empty()) findings.push_back(all_reached(turned.size()));
  sort_worst_first(findings);
  return findings;
}

}  // namespace fitup::checks
