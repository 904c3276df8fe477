// What is in an item's way to the sides that it is thrown to, by the boxes around all parts.
// Entry: check_unheld_items.
#include "loads/unheld_items.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <string>

#include "loads/lift.h"
#include "loads/load_paths.h"
#include "loads/thrown.h"

namespace fitup::loads {

namespace {

class UnheldItems {
 public:
  UnheldItems(const Plan& plan, const LoadRules& rules, const std::set<InstanceId>& held)
      : plan_(plan), rules_(rules), held_(held) {
    for (InstanceId i = 0; i < plan.instances.size(); ++i) boxes_.push_back(box_of(plan, i));
  }

  std::vector<Finding> run() {
    std::vector<InstanceId> free;
    std::vector<InstanceId> enclosed;
    std::optional<std::size_t> out;
    for (InstanceId id = 0; id < plan_.instances.size(); ++id) {
      if (part(id).role != Role::item || held_.contains(id) || !is_thrown()) continue;
      const auto side = open_side(id);
      if (side && !out) out = side;
      (side ? free : enclosed).push_back(id);
    }
    std::vector<Finding> findings;
    if (!free.empty()) findings.push_back(leaves(free, *out));
    if (!enclosed.empty()) findings.push_back(stays_between(enclosed));
    return findings;
  }

 private:
  [[nodiscard]] const Part& part(InstanceId id) const { return plan_.parts[plan_.instances[id].part]; }

  // Friction counts as nothing; thrown up with less than its weight it stays down.
  [[nodiscard]] bool moves_it(std::size_t side) const {
    const auto& g = rules_.thrown_g[side];
    return g && *g > (ways[side].z > 0 ? 1 : 0) && ways[side].z >= 0;
  }
  [[nodiscard]] bool is_thrown() const {
    for (std::size_t side = 0; side < ways.size(); ++side) {
      if (moves_it(side)) return true;
    }
    return false;
  }

  [[nodiscard]] bool stands_before(InstanceId other, InstanceId id, Vec3 way) const {
    if (other == id || part(other).source == Source::printed) return false;
    return gap_before(boxes_[id], boxes_[other], way).has_value();
  }

  // A side that it is thrown to and where nothing is before it; its own rods and their nuts go with it.
  [[nodiscard]] std::optional<std::size_t> open_side(InstanceId id) const {
    for (std::size_t side = 0; side < ways.size(); ++side) {
      if (!moves_it(side)) continue;
      bool open = true;
      for (InstanceId other = 0; open && other < plan_.instances.size(); ++other) {
        const Role role = part(other).role;
        const bool hardware = role == Role::rod || role == Role::nut || role == Role::washer || role == Role::screw;
        open = hardware || !stands_before(other, id, ways[side]);
      }
      if (open) return side;
    }
    return std::nullopt;
  }

  [[nodiscard]] Finding about(const std::vector<InstanceId>& items, Verdict verdict) const {
    Finding f;
    f.check = "hold-down";
    f.verdict = verdict;
    f.value = static_cast<double>(items.size());
    f.limit = 0;
    f.unit = "items";
    f.cause = "items that nothing holds";
    f.source = "statics: friction counts as nothing";
    for (const InstanceId id : items) f.parts.push_back(label_of(plan_, id));
    f.at = boxes_[items.front()].middle();
    f.key = plan_.instances[items.front()].key;
    f.place = plan_.instances[items.front()].place;
    return f;
  }

  static std::string who(const Finding& f) {
    return f.parts.size() == 1 ? f.parts.front() + " is"
                               : fmt::format("{} and {} more are", f.parts.front(), f.parts.size() - 1);
  }

  /// Seen square to its face; sills, headers and rings leave the middle open.
  [[nodiscard]] bool covers(InstanceId plate, Vec3 point) const {
    const auto* flat = std::get_if<Flat>(&part(plate).form);
    if (flat == nullptr) return false;
    const Vec3 at = plan_.instances[plate].pose.inverse().point(point);
    const auto holds = [&](const Loop& loop) {
      const Box2 b = loop.bounds();
      return at.x > b.low.x && at.x < b.high.x && at.y > b.low.y && at.y < b.high.y;
    };
    return holds(flat->profile.outer) && std::none_of(flat->profile.holes.begin(), flat->profile.holes.end(), holds);
  }

  /// A plate that is welded over the front or the back shuts the outer nuts of a rod plate in.
  [[nodiscard]] bool is_shut(InstanceId item, const char* side) const {
    const std::string& of = plan_.instances[item].key;
    const std::string key = fmt::format("{}.face.{}", of.substr(0, of.find('.', of.find('.') + 1)), side);
    for (InstanceId other = 0; other < plan_.instances.size(); ++other) {
      const Role role = part(other).role;
      const bool plate = (role == Role::wall || role == Role::face_plate) && plan_.instances[other].key == key;
      if (plate && covers(other, boxes_[item].middle())) return true;
    }
    return false;
  }

  /// Its rods stand out there, and no item stands before it.
  [[nodiscard]] bool reaches(InstanceId id, std::size_t side) const {
    bool out = false;
    for (InstanceId other = 0; other < plan_.instances.size(); ++other) {
      const bool item = part(other).role == Role::item;
      if (item && stands_before(other, id, ways[side])) return false;
      if (part(other).role != Role::rod) continue;
      const Vec3 middle = boxes_[other].middle();
      const Box3& own = boxes_[id];
      const bool its = middle.x > own.low.x && middle.x < own.high.x && middle.z > own.low.z && middle.z < own.high.z &&
                       middle.y > own.low.y && middle.y < own.high.y;
      out = out || (its && (side == 0 ? boxes_[other].low.y < own.low.y : boxes_[other].high.y > own.high.y));
    }
    return out;
  }

  /// Only what these items and their box take.
  [[nodiscard]] std::string mended(const std::vector<InstanceId>& items) const {
    std::vector<std::string> plates;
    for (const std::size_t side : {0, 1}) {
      const bool may = std::any_of(items.begin(), items.end(),
                                   [&](InstanceId id) { return reaches(id, side) && !is_shut(id, side_words[side]); });
      if (may) plates.push_back(fmt::format("rod_plates.{}", side_words[side]));
    }
    constexpr const char* own = "screws through holes of their own (item.NAME.mounts)";
    if (plates.empty()) return fmt::format("{} would hold them", own);
    return fmt::format("a rod plate at a face that their rods reach ({}), or {}, would hold them",
                       fmt::join(plates, ", "), own);
  }

  [[nodiscard]] Finding leaves(const std::vector<InstanceId>& items, std::size_t side) const {
    Finding f = about(items, Verdict::fail);
    f.message = fmt::format(
        "items: {} held by neither rods in a plate nor screws, and nothing stands before {} at the {}, to "
        "which the box is thrown with {} g; {}",
        who(f), items.size() == 1 ? "it" : "the first", side_words[side], *rules_.thrown_g[side], mended(items));
    return f;
  }

  [[nodiscard]] Finding stays_between(const std::vector<InstanceId>& items) const {
    Finding f = about(items, Verdict::marginal);
    f.message = fmt::format(
        "items: {} held by neither rods in a plate nor screws: thrown, they slide until what stands in their way stops "
        "them, and whether this bears the push is not checked; {}",
        who(f), mended(items));
    return f;
  }

  const Plan& plan_;
  const LoadRules& rules_;
  const std::set<InstanceId>& held_;
  std::vector<Box3> boxes_;
};

}  // namespace

std::vector<Finding> check_unheld_items(const Plan& plan, const LoadRules& rules, const std::set<InstanceId>& held) {
  return UnheldItems(plan, rules, held).run();
}

}  // namespace fitup::loads
