// Masses to line and node loads.
// Entry: loads_of.
#include "loads/frame_loads.h"

#include <algorithm>
#include <cmath>

#include "fitup/weight.h"
#include "loads/hung_boxes.h"
#include "loads/lay_on.h"

namespace fitup::loads {

namespace {

/// What acts on several parts that are held together.
struct Together {
  Vec3 force;
  Vec3 moment;  // about the origin
  Vec3 last;    // where some of it is

  void add(Vec3 at, Vec3 more, Vec3 turns = {}) {
    force = force + more;
    moment = moment + turns + cross(at, more);
    last = at;
  }
};

class Loading {
 public:
  Loading(const Plan& plan, const FrameModel& model, const LoadPaths& paths, Vec3 per_kg_n, const Bound& bound)
      : plan_(plan), model_(model), paths_(paths), per_kg_(per_kg_n), bound_(bound), laying_(model, paths.rod_plates) {
    on_body_.resize(paths.bodies.size());
    on_box_.resize(paths.frame_in.size());
  }

  PlanLoads run() {
    for (InstanceId i = 0; i < plan_.instances.size(); ++i) {
      const Part& part = plan_.parts[plan_.instances[i].part];
      if (part.source == Source::printed || part.mass_kg <= 0) continue;
      const Vec3 at = plan_.instances[i].pose.point(centre_of(part));
      const Vec3 force = part.mass_kg * per_kg_;
      if (laying_.holds(i)) {
        laying_.over(i, force);
      } else if (paths_.items.contains(i)) {
        item(i, at, force, plan_.instances.size());
      } else if (const auto body = paths_.body_of.find(i); body != paths_.body_of.end()) {
        on_body_[body->second].add(at, force);
      } else {
        on_box_[frame_of(plan_, plan_.instances[i])].add(at, force);
      }
    }
    for (std::size_t i = 0; i < on_box_.size(); ++i) {
      if (!paths_.frame_in[i]) lay(on_box_[i], hung_at(plan_, model_, i));
    }
    for (std::size_t i = 0; i < on_body_.size(); ++i) share(on_body_[i], paths_.bodies[i].holds);
    return {laying_.take(), left_out_};
  }

 private:
  void lay(const Together& all, const std::vector<Vec3>& places) {
    if (places.empty()) return laying_.at_nearest(all.last, all.force, all.moment - cross(all.last, all.force));
    const std::vector<Share> shares = shared_stiffly(all.force, all.moment, places);
    for (std::size_t i = 0; i < places.size(); ++i) laying_.at_nearest(places[i], shares[i].force, shares[i].moment);
  }

  void share(const Together& all, const std::vector<Hold>& holds) {
    if (norm(all.force) <= 0 && norm(all.moment) <= 0) return;
    std::vector<Vec3> places;
    for (const Hold& h : holds) places.push_back(h.at);
    if (places.empty()) return lay(all, places);
    const std::vector<Share> shares = shared_stiffly(all.force, all.moment, places);
    for (std::size_t i = 0; i < holds.size(); ++i) on(holds[i], shares[i].force, shares[i].moment);
  }

  /// On something that is no item.
  void on(const Hold& hold, Vec3 force, Vec3 moment = {}) {
    const auto body = paths_.body_of.find(hold.on);
    if (body == paths_.body_of.end()) return laying_.at(hold.on, hold.at, force, moment);
    on_body_[body->second].add(hold.at, force, moment);
  }

  /// `deep`: how many items may still pass it on to each other.
  void item(InstanceId id, Vec3 at, Vec3 force, std::size_t deep) {
    const ItemHolds& holds = paths_.items.at(id);
    Vec3 rest = force;
    if (!holds.seats.empty()) {
      const Vec3 on_seats = bound_.thrown ? Vec3{0, 0, std::min(force.z, 0.0)} : force;
      rest = rest - on_seats;
      const double each = 1 / static_cast<double>(holds.seats.size());
      if (norm(on_seats) > 0) {
        for (const InstanceId seat : holds.seats) on_seat(id, seat, each * on_seats, deep);
      }
    }
    if (norm(rest) <= 1e-9 * norm(force)) return;
    if (!holds.rods.empty()) return by_rods(holds, at, rest);
    if (!holds.screws.empty()) return share(once(at, rest), holds.screws);
    if (!bound_.thrown) return laying_.at_nearest(at, rest);
    for (const Vec3 part : {Vec3{rest.x, 0, 0}, {0, rest.y, 0}, {0, 0, rest.z}}) {
      if (norm(part) > 0) stopped(id, at, part, deep);
    }
  }

  static Together once(Vec3 at, Vec3 force) {
    Together one;
    one.add(at, force);
    return one;
  }

  void on_seat(InstanceId id, InstanceId seat, Vec3 force, std::size_t deep) {
    const Vec3 middle = middle_of_both(paths_.boxes[id], paths_.boxes[seat]);
    if (paths_.items.contains(seat)) {
      if (deep > 0) item(seat, middle, force, deep - 1);
    } else if (!laying_.holds(seat)) {
      on({seat, middle}, force);
    } else if (bound_.bearing == Bearing::even) {
      laying_.over_about(seat, middle, force);
    } else {
      const auto line = *centroid_line(plan_, seat);
      for (const Vec3 corner : {paths_.boxes[id].low, paths_.boxes[id].high}) {
        const double along = std::clamp(line.along(corner), 0.0, line.length_mm());
        laying_.at_nearest(line.at(along), 0.5 * force);
      }
    }
  }

  /// Across in both plates, along in the one that is asked.
  void by_rods(const ItemHolds& holds, Vec3 at, Vec3 force) {
    const Vec3 pull = dot(force, holds.along) * holds.along;
    share(once(at, force - pull), holds.rods);
    const Vec3 way = bound_.pulled == Pulled::towards ? pull : -1 * pull;
    const auto before = [&way](const Hold& a, const Hold& b) { return dot(a.at, way) < dot(b.at, way); };
    const InstanceId plate = std::max_element(holds.rods.begin(), holds.rods.end(), before)->on;
    std::vector<Hold> in_plate;
    std::copy_if(holds.rods.begin(), holds.rods.end(), std::back_inserter(in_plate),
                 [plate](const Hold& h) { return h.on == plate; });
    share(once(at, pull), in_plate);
  }

  /// By the first thing before it, there where that is nearest to the middle.
  void stopped(InstanceId id, Vec3 at, Vec3 force, std::size_t deep) {
    const auto by = first_before(plan_, paths_, id, (1 / norm(force)) * force);
    const bool is_item = by && paths_.items.contains(*by);
    if (!by || deep == 0 || (!is_item && !laying_.holds(*by) && !paths_.body_of.contains(*by))) {
      ++left_out_;
      return;
    }
    const Box3 &a = paths_.boxes[id], &b = paths_.boxes[*by];
    const auto nearest = [](double x, double low_a, double high_a, double low_b, double high_b) {
      const double low = std::max(low_a, low_b), high = std::min(high_a, high_b);
      return low <= high ? std::clamp(x, low, high) : (low + high) / 2;
    };
    const Vec3 place{nearest(at.x, a.low.x, a.high.x, b.low.x, b.high.x),
                     nearest(at.y, a.low.y, a.high.y, b.low.y, b.high.y),
                     nearest(at.z, a.low.z, a.high.z, b.low.z, b.high.z)};
    is_item ? item(*by, place, force, deep - 1) : on({*by, place}, force);
  }

  const Plan& plan_;
  const FrameModel& model_;
  const LoadPaths& paths_;
  Vec3 per_kg_;
  const Bound& bound_;
  Laying laying_;
  std::vector<Together> on_body_;  // by body
  std::vector<Together> on_box_;   // by box
  std::size_t left_out_ = 0;
};

}  // namespace

PlanLoads loads_of(const Plan& plan, const FrameModel& model, const LoadPaths& paths, Vec3 per_kg_n,
                   const Bound& bound) {
  return Loading(plan, model, paths, per_kg_n, bound).run();
}

}  // namespace fitup::loads
