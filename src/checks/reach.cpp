// Lays each tool's room over its fastener and asks the pair rules what stands in it.
// Entry: check_reach.
#include "checks/reach.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "checks/contacts.h"
#include "checks/near.h"
#include "checks/order.h"
#include "checks/seams.h"
#include "checks/tool_room.h"
#include "checks/ways.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr const char* name = "reach";
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

/// What is worst in a tool's room.
struct Taken {
  Thing by = 0;
  double by_mm = 0;
  Vec3 direction;  // moves the tool out of it
  Vec3 at;
  bool sure = true;
};

class Reach {
 public:
  explicit Reach(const Scene& scene)
      : scene_(scene),
        plan_(scene.plan()),
        near_(boxes_of(scene)),
        step_of_(plan_.instances.size(), 0),
        from_(standing_from(plan_)) {
    for (std::size_t s = 0; s < plan_.steps.size(); ++s) {
      for (const InstanceId i : plan_.steps[s].adds) step_of_[i] = s;
    }
  }

  /// Of the first tool that would find room if beads were left away that may be: those beads. None where one finds room
  /// as it is.
  [[nodiscard]] std::vector<KeepFree> beads_in(const Turned& turned) const {
    const auto beside = beside_each(turned);
    const auto any_bead = [&](const std::vector<Thing>& all) {
      return std::any_of(all.begin(), all.end(), [&](Thing t) { return scene_.bead_of(t) != nullptr; });
    };
    if (std::none_of(beside.begin(), beside.end(), any_bead) || any_finds_room(turned, beside)) return {};
    for (std::size_t i = 0; i < turned.tools.size(); ++i) {
      const auto beads = beads_of(turned.tools[i], beside[i], turned.id);
      if (!beads.empty()) return beads;
    }
    return {};
  }

  /// Nothing where a tool finds room.
  [[nodiscard]] std::optional<Finding> look(const Turned& turned) const {
    if (!turned.known) return no_tool(turned.id);
    const auto beside = beside_each(turned);
    // By how much is worked out only where no tool does.
    if (any_finds_room(turned, beside)) return std::nullopt;
    std::optional<Taken> least;
    const ToolRoom* tool = nullptr;
    for (std::size_t i = 0; i < turned.tools.size(); ++i) {
      const auto taken = taken_of(turned.tools[i], beside[i]);
      if (least && (taken->sure && !least->sure)) continue;
      if (least && taken->sure == least->sure && taken->by_mm >= least->by_mm - band) continue;
      least = taken;
      tool = &turned.tools[i];
    }
    if (!least->sure) return not_decided(turned.id, *tool, *least);
    if (role(turned.id) == Role::gland) return by_pliers(turned.id, *tool, *least);
    for (std::size_t i = 0; i < turned.tools.size(); ++i) {
      const ToolRoom& room = turned.tools[i];
      if (room.ball_end && leans_past(room, beside[i])) return leaning(turned.id, room, *least);
    }
    return not_reached(turned.id, *tool, *least);
  }

 private:
  [[nodiscard]] Role role(InstanceId i) const { return plan_.parts[plan_.instances[i].part].role; }

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

  [[nodiscard]] bool on_bench(std::size_t step) const { return plan_.steps[step].kind == StepKind::place; }

  // On the bench its own step's parts alone, else all that came before and its own.
  [[nodiscard]] bool stands_there(InstanceId i, std::size_t step) const {
    return on_bench(step) ? step_of_[i] == step : from_[i] <= step;
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
    std::vector<KeepFree> found = met_in(room.column, beads, turned);
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

  [[nodiscard]] bool finds_room(const ToolRoom& room, const std::vector<Thing>& beside) const {
    if (!is_free(room.column, beside)) return false;
    if (!room.swing) return true;
    for (double from = 0; from < 360; from += swing_step_deg) {
      if (is_free(swing_room(room, from), beside)) return true;
    }
    return false;
  }

  // Of a tool that does not find room.
  [[nodiscard]] std::optional<Taken> taken_of(const ToolRoom& room, const std::vector<Thing>& beside) const {
    if (auto taken = worst_in(room.column, beside)) return taken;
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
    Taken best{by, 1e300, {}, common_box(tool, scene_.body(by)).middle(), sure};
    for (const Vec3 way : {axis::x, axis::minus_x, axis::y, axis::minus_y, axis::z, axis::minus_z}) {
      const double by_mm = free_after(tool, by, way, best.by_mm);
      if (by_mm >= best.by_mm - precision_mm) continue;
      best.by_mm = by_mm;
      best.direction = way;
    }
    return best;
  }

  [[nodiscard]] Finding blank(InstanceId id, Verdict verdict) const {
    Finding f;
    f.check = name;
    f.verdict = verdict;
    f.key = plan_.instances[id].key;
    f.place = plan_.instances[id].place;
    f.parts = {scene_.label(id)};
    return f;
  }

  // Where a bead is in the way, how the parts are welded decides it.
  void name_other(Thing other, InstanceId id, Finding& f) const {
    for (std::string& label : scene_.labels(other)) f.parts.push_back(std::move(label));
    f.cause = scene_.cause(id, other);
    const Bead* bead = scene_.bead_of(other);
    if (bead == nullptr) return;
    const WeldRule& rule = weld_rule(plan_, plan_.joints[scene_.seams().all[bead->seam].joint]);
    f.key = rule.key;
    f.place = rule.place;
  }

  [[nodiscard]] std::string moment(InstanceId id) const {
    const Step& step = plan_.steps[step_of_[id]];
    return on_bench(step_of_[id]) ? "on the bench, when " + step.what + " is made up"
                                  : "when the " + step.what + " go in";
  }

  [[nodiscard]] Finding not_reached(InstanceId id, const ToolRoom& tool, const Taken& taken) const {
    Finding f = blank(id, Verdict::fail);
    name_other(taken.by, id, f);
    f.value = taken.by_mm;
    f.limit = band;
    f.unit = "mm";
    f.source = "tool sizes: ISO 2936 and DIN 3124 from memory, ASME B18.3, common practice";
    f.at = taken.at;
    f.message = fmt::format(
        "{} is not reached {}: {} needs the room that {} takes by {} mm (free when it moves that "
        "far along {}); no other tool does better",
        scene_.label(id), moment(id), tool.words, scene_.words(taken.by), length_text(taken.by_mm),
        way_text(Vec3{} - taken.direction));
    return f;
  }

  [[nodiscard]] Finding leaning(InstanceId id, const ToolRoom& tool, const Taken& taken) const {
    Finding f = not_reached(id, tool, taken);
    f.verdict = Verdict::marginal;
    f.source = "ball-end hexagon keys lean by 25 degrees (common practice)";
    f.message = fmt::format(
        "{} is reached {} only by a key with a ball end that leans: {} takes {} mm of the straight "
        "one's room",
        scene_.label(id), moment(id), scene_.words(taken.by), length_text(taken.by_mm));
    return f;
  }

  // Glands are tightened by hand and a little more: what holds is the seal, not the torque.
  [[nodiscard]] Finding by_pliers(InstanceId id, const ToolRoom& tool, const Taken& taken) const {
    Finding f = not_reached(id, tool, taken);
    f.verdict = Verdict::marginal;
    f.message = fmt::format("{}: {} finds no room beside {}, by {} mm; it must be held with the fingers or with pliers",
                            scene_.label(id), tool.words, scene_.words(taken.by), length_text(taken.by_mm));
    return f;
  }

  [[nodiscard]] Finding not_decided(InstanceId id, const ToolRoom& tool, const Taken& taken) const {
    Finding f = blank(id, Verdict::not_checked);
    name_other(taken.by, id, f);
    f.message = fmt::format("{}: not decided whether {} finds room beside {}: no exact rule knows its shape",
                            scene_.label(id), tool.words, scene_.words(taken.by));
    return f;
  }

  [[nodiscard]] Finding no_tool(InstanceId id) const {
    Finding f = blank(id, Verdict::not_checked);
    f.cause = std::to_string(plan_.instances[id].part);
    f.message =
        fmt::format("{}: the tables have no tool for it, so it is not asked whether one reaches it", scene_.label(id));
    return f;
  }

  const Scene& scene_;
  const Plan& plan_;
  NearBoxes near_;                    // of all things but zones
  std::vector<std::size_t> step_of_;  // index: InstanceId
  std::vector<std::size_t> from_;     // likewise: by which step it stands there
};

Finding all_reached(std::size_t count) {
  Finding f;
  f.check = name;
  f.verdict = Verdict::pass;
  f.message = fmt::format(
      "{} screws, nuts, eyes and glands, each with room for a key, socket or spanner when it is "
      "tightened",
      grouped(count));
  return f;
}

/// Not what is welded on.
std::vector<Turned> all_turned(const Scene& scene) {
  const Plan& plan = scene.plan();
  std::vector<bool> welded(plan.instances.size(), false);
  for (const Joint& joint : plan.joints) {
    if (joint.kind == JointKind::weld) welded[joint.a] = welded[joint.b] = true;
  }
  std::vector<Turned> all;
  for (InstanceId i = 0; i < plan.instances.size(); ++i) {
    if (welded[i]) continue;
    for (Turned& turned : turned_by_hand(scene, i)) all.push_back(std::move(turned));
  }
  return all;
}

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
