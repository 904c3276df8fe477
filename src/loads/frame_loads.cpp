// Masses to line and node loads.
// Entry: loads_of.
#include "loads/frame_loads.h"

#include <algorithm>
#include <limits>
#include <set>

#include "fitup/weight.h"
#include "loads/held_bodies.h"
#include "loads/hung_boxes.h"
#include "loads/lay_on.h"

namespace fitup::loads {

namespace {

class Loading {
 public:
  Loading(const Plan& plan, const FrameModel& model, Vec3 per_kg_n, Bearing bearing)
      : plan_(plan), model_(model), per_kg_(per_kg_n), bearing_(bearing) {
    for (std::size_t i = 0; i < model.pieces.size(); ++i) pieces_[model.pieces[i].of].push_back(i);
    for (std::size_t i = 0; i < model.panel_of.size(); ++i) panels_[model.panel_of[i]].push_back(i);
    for (const Joint& j : plan.joints) {
      if (j.kind != JointKind::bearing) continue;
      note_seat(j.a, j.b);
      note_seat(j.b, j.a);
    }
    const std::vector<bool> in = frames_in(plan, model);
    for (std::size_t i = 0; i < in.size(); ++i) {
      if (!in[i]) hung_.emplace(i, Together{});
    }
    note_bodies();
  }

  LoadCase run() {
    for (InstanceId i = 0; i < plan_.instances.size(); ++i) {
      const Part& part = plan_.parts[plan_.instances[i].part];
      if (part.source == Source::printed || part.mass_kg <= 0) continue;
      if (pieces_.contains(i)) {
        along(i, part.mass_kg * per_kg_);
      } else if (panels_.contains(i)) {
        over_panels(panels_[i], part.mass_kg * per_kg_);
      } else if (seats_.contains(i)) {
        for (const InstanceId rail : seats_[i]) {
          on_rail(rail, (part.mass_kg / static_cast<double>(seats_[i].size())) * per_kg_, i);
        }
      } else {
        elsewhere(i, plan_.instances[i].pose.point(centre_of(part)), part.mass_kg * per_kg_);
      }
    }
    for (const auto& [frame, hung] : hung_) {
      std::vector<Hold> holds;
      for (const Vec3 place : hung_at(plan_, model_, frame)) holds.push_back({none, place});
      lay_on(holds, hung);
    }
    for (std::size_t i = 0; i < bodies_.size(); ++i) lay_on(bodies_[i].holds, on_body_[i]);
    LoadCase all = laying_.take();
    all.nodes.insert(all.nodes.end(), load_.nodes.begin(), load_.nodes.end());
    all.lines.insert(all.lines.end(), load_.lines.begin(), load_.lines.end());
    return all;
  }

 private:
  void note_seat(InstanceId item, InstanceId rail) {
    const Role role = plan_.parts[plan_.instances[item].part].role;
    if (role == Role::item && (pieces_.contains(rail) || panels_.contains(rail))) seats_[item].push_back(rail);
  }

  [[nodiscard]] double length_of(InstanceId beam) const {
    double sum = 0;
    for (const std::size_t p : pieces_.at(beam)) sum += model_.pieces[p].to_mm - model_.pieces[p].from_mm;
    return sum;
  }

  void along(InstanceId beam, Vec3 force) {
    for (const std::size_t p : pieces_.at(beam)) load_.lines.push_back({p, (1 / length_of(beam)) * force, false});
  }

  void on_rail(InstanceId rail, Vec3 force, InstanceId item) {
    if (bearing_ == Bearing::even) {
      pieces_.contains(rail) ? along(rail, force) : over_panels(panels_.at(rail), force);
      return;
    }
    const auto line = *centroid_line(plan_, rail);
    const Box3 box = box_of(plan_, item);
    for (const Vec3 corner : {box.low, box.high}) {
      const double along = std::clamp(line.along(corner), 0.0, line.length_mm());
      laying_.at_nearest(line.at(along), 0.5 * force);
    }
  }

  void over_panels(const std::vector<std::size_t>& panels, Vec3 force) {
    double area = 0;
    for (const std::size_t p : panels) area += model_.frame.panels[p].width_mm * model_.frame.panels[p].height_mm;
    for (const std::size_t p : panels) {
      const FramePanel& panel = model_.frame.panels[p];
      const Vec3 each = (0.25 * panel.width_mm * panel.height_mm / area) * force;
      for (std::size_t c = 0; c < panel.nodes.size(); ++c) {
        load_.nodes.push_back({panel.nodes[c], each, cross(panel.link[c], each)});
      }
    }
  }

  /// What several parts weigh that are held together.
  struct Together {
    Vec3 force;
    Vec3 moment;  // about the origin
    Vec3 last;    // where some of it is
  };
  static constexpr InstanceId none = std::numeric_limits<InstanceId>::max();

  // Items on seats are laid on these, boxes that hang where they do.
  void note_bodies() {
    std::set<InstanceId> apart;
    for (const auto& [item, rails] : seats_) apart.insert(item);
    for (InstanceId i = 0; i < plan_.instances.size(); ++i) {
      if (hung_.contains(frame_of(plan_, plan_.instances[i]))) apart.insert(i);
    }
    bodies_ = held_bodies(plan_, model_, apart);
    on_body_.resize(bodies_.size());
    for (std::size_t i = 0; i < bodies_.size(); ++i) {
      for (const InstanceId part : bodies_[i].parts) body_of_part_[part] = i;
    }
  }

  void elsewhere(InstanceId id, Vec3 at, Vec3 force) {
    const auto hung = hung_.find(frame_of(plan_, plan_.instances[id]));
    Together& into = hung != hung_.end() ? hung->second : on_body_[body_of_part_.at(id)];
    into.force = into.force + force;
    into.moment = into.moment + cross(at, force);
    into.last = at;
  }

  void lay_on(const std::vector<Hold>& holds, const Together& all) {
    if (holds.empty()) return laying_.at_nearest(all.last, all.force, all.moment - cross(all.last, all.force));
    std::vector<Vec3> places;
    for (const Hold& h : holds) places.push_back(h.at);
    const std::vector<Share> shares = shared_stiffly(all.force, all.moment, places);
    for (std::size_t i = 0; i < holds.size(); ++i) {
      laying_.at(holds[i].on, holds[i].at, shares[i].force, shares[i].moment);
    }
  }

  const Plan& plan_;
  const FrameModel& model_;
  Vec3 per_kg_;
  Bearing bearing_;
  std::map<InstanceId, std::vector<std::size_t>> pieces_;
  std::map<InstanceId, std::vector<std::size_t>> panels_;
  std::map<InstanceId, std::vector<InstanceId>> seats_;
  std::map<std::size_t, Together> hung_;  // by box
  std::vector<HeldBody> bodies_;
  std::vector<Together> on_body_;  // likewise
  std::map<InstanceId, std::size_t> body_of_part_;
  Laying laying_{model_};
  LoadCase load_;
};

}  // namespace

LoadCase loads_of(const Plan& plan, const FrameModel& model, Vec3 per_kg_n, Bearing bearing) {
  return Loading(plan, model, per_kg_n, bearing).run();
}

}  // namespace fitup::loads
