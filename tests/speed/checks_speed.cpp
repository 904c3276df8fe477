// How long each check takes; and each geometric check's question put to the exact rules and to the solid kernel, pair
// by pair, on the same pairs; the same verdicts, and how many times faster the rules are. Fails where that is less than
// twenty times.
//   checks_speed [SPEC [whole]]     whole: only how long each check takes
// Entry: main().
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <functional>
#include <iostream>
#include <memory>
#include <vector>

#include "checks/clearance.h"
#include "checks/contacts.h"
#include "checks/depth.h"
#include "checks/distance.h"
#include "checks/held.h"
#include "checks/hole_fit.h"
#include "checks/insertion.h"
#include "checks/joints.h"
#include "checks/overlap.h"
#include "checks/reach.h"
#include "checks/tool_room.h"
#include "checks/ways.h"
#include "checks/welds.h"
#include "fitup/tolerances.h"
#include "geometry/near_boxes.h"
#include "speed/job.h"

namespace {

using namespace fitup;
using checks::Scene;
using checks::Thing;

constexpr double least_times = 20;
constexpr double nothing_mm3 = 1e-3;  // a contact band of 1e-4 mm over 10 mm2
constexpr double step_mm = 0.5;       // of a body that is moved through the kernel

template <class Work>
double milliseconds(Work&& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - start).count();
}

/// One question: the rules' verdict and the kernel's.
struct Question {
  std::function<bool()> rules;
  std::function<bool()> kernel;
  std::string words;
};

/// Whether the rules were fast enough and said the same.
bool compare(const char* check, const std::vector<Question>& questions) {
  std::vector<bool> by_rules(questions.size());
  std::vector<bool> by_kernel(questions.size());
  const auto ask = [&](std::vector<bool>& answers, const auto& whom) {
    for (std::size_t i = 0; i < questions.size(); ++i) answers[i] = whom(questions[i]);
  };
  const double rules_ms = milliseconds([&] { ask(by_rules, [](const Question& q) { return q.rules(); }); });
  const double kernel_ms = milliseconds([&] { ask(by_kernel, [](const Question& q) { return q.kernel(); }); });
  std::size_t differ = 0;
  for (std::size_t i = 0; i < questions.size(); ++i) {
    if (by_rules[i] == by_kernel[i]) continue;
    ++differ;
    std::cerr << check << " differs: " << questions[i].words << '\n';
  }
  const double times = kernel_ms / rules_ms;
  std::printf("%-10s %6zu pairs  rules %9.2f ms  kernel %10.1f ms  %8.0f times faster  %zu differ\n", check,
              questions.size(), rules_ms, kernel_ms, times, differ);
  return differ == 0 && (questions.empty() || times >= least_times);
}

/// At most so many, spread evenly: the kernel takes minutes for all.
void thin_out(std::vector<Question>& all, std::size_t most) {
  if (all.size() <= most) return;
  std::vector<Question> some;
  for (std::size_t i = 0; i < most; ++i) some.push_back(all[i * all.size() / most]);
  all = std::move(some);
}

/// Each check as a whole, by the rules alone, on one core.
void time_whole(const Plan& plan) {
  const auto tell = [](const char* what, double ms) { std::printf("%-10s whole %9.1f ms\n", what, ms); };
  std::unique_ptr<Scene> scene;
  tell("scene", milliseconds([&] { scene = std::make_unique<Scene>(plan, checks::Judge{}); }));
  checks::Contacts contacts;
  tell("contacts", milliseconds([&] { contacts = checks::find_contacts(*scene, 1); }));
  tell("overlap", milliseconds([&] { (void)checks::check_overlap(*scene, contacts, 1); }));
  tell("joints", milliseconds([&] { (void)checks::check_joints(*scene, contacts, 1); }));
  CheckStats stats;
  tell("clearance", milliseconds([&] { (void)checks::check_clearance(*scene, stats); }));
  tell("insertion", milliseconds([&] { (void)checks::check_insertion(*scene); }));
  tell("reach", milliseconds([&] { (void)checks::check_reach(*scene, 1); }));
  tell("welds", milliseconds([&] { (void)checks::check_welds(*scene); }));
  tell("held", milliseconds([&] { (void)checks::check_held(*scene); }));
  tell("hole-fit", milliseconds([&] { (void)checks::check_hole_fit(plan); }));
}

class Comparison {
 public:
  explicit Comparison(const speed::Job& job) : plan_(*job.plan), model_(*job.model), scene_(plan_, {}) {}

  bool all() {
    const bool overlap = compare("overlap", overlaps());
    const bool joints = compare("joints", joints_meet());
    const bool clearance = compare("clearance", clearances());
    const bool insertion = compare("insertion", ways());
    const bool reach = compare("reach", tool_rooms());
    return overlap && joints && clearance && insertion && reach;
  }

 private:
  [[nodiscard]] const Solid& solid(InstanceId i) const { return model_.parts[plan_.instances[i].part].solid; }
  [[nodiscard]] const Pose& pose(InstanceId i) const { return plan_.instances[i].pose; }
  [[nodiscard]] std::string both(InstanceId a, InstanceId b) const {
    return plan_.instances[a].name + " and " + plan_.instances[b].name;
  }
  [[nodiscard]] bool share(InstanceId a, Vec3 shift, InstanceId b) const {
    const auto volume = solid::common_volume_mm3(solid(a), pose(a).moved(shift), solid(b), pose(b));
    return volume && *volume > nothing_mm3;
  }
  [[nodiscard]] double apart_mm(InstanceId a, InstanceId b) const {
    const auto mm = solid::distance_mm(solid(a), pose(a), solid(b), pose(b));
    return mm ? *mm : -1;
  }
  /// To the kernel the annulus of a thread is common volume, to the rules none.
  [[nodiscard]] bool in_a_thread(InstanceId a, InstanceId b) const { return scene_.options(a, b).thread_major_mm > 0; }

  [[nodiscard]] std::vector<Question> overlaps() const {
    std::vector<Box3> boxes;
    for (InstanceId i = 0; i < plan_.instances.size(); ++i) boxes.push_back(scene_.body(i).outer.box);
    std::vector<Question> all;
    for (const auto& [first, second] : geometry::near_pairs(boxes, -0.01)) {
      const InstanceId a = first;
      const InstanceId b = second;
      if (in_a_thread(a, b)) continue;
      all.push_back({[this, a, b] { return scene_.by_rules(a, b) == checks::Decision::overlap; },
                     [this, a, b] { return share(a, {}, b); }, both(a, b)});
    }
    return all;
  }

  [[nodiscard]] std::vector<Question> joints_meet() const {
    std::vector<Question> all;
    for (const Joint& joint : plan_.joints) {
      if (joint.kind == JointKind::thread || joint.kind == JointKind::slip) continue;
      const double most = joint.largest_gap_mm + joint.filled_mm;
      all.push_back({[this, &joint, most] {
                       const auto gap = checks::gap_along(scene_, joint.a, joint.b, joint.normal, most + 1);
                       return gap.mm && *gap.mm <= most + 1e-3;
                     },
                     [this, &joint, most] { return apart_mm(joint.a, joint.b) <= most + 1e-3; },
                     both(joint.a, joint.b)});
    }
    thin_out(all, 300);
    return all;
  }

  // Whether each made part keeps 20 mm from each item.
  [[nodiscard]] std::vector<Question> clearances() const {
    constexpr double least_mm = 20;
    std::vector<Question> all;
    for (InstanceId a = 0; a < plan_.instances.size(); ++a) {
      if (plan_.parts[plan_.instances[a].part].role != Role::item) continue;
      for (InstanceId b = 0; b < plan_.instances.size(); ++b) {
        const Part& other = plan_.parts[plan_.instances[b].part];
        if (other.role == Role::item || other.source == Source::bought) continue;
        if (!checks::nearest(scene_.body(a), scene_.body(b), least_mm)) continue;
        all.push_back({[this, a, b] {
                         const auto near = checks::nearest(scene_.body(a), scene_.body(b), least_mm);
                         return near && near->mm < least_mm - tolerance::contact_mm;
                       },
                       [this, a, b] { return apart_mm(a, b) < least_mm - tolerance::contact_mm; }, both(a, b)});
      }
    }
    thin_out(all, 300);
    return all;
  }

  /// Stepped by half a millimetre wherever the boxes overlap.
  [[nodiscard]] bool meets_on_the_way(InstanceId mover, InstanceId by, Vec3 way) const {
    const Box3 box = scene_.body(mover).outer.box;
    for (double before = 1500; before >= 0; before -= step_mm) {
      const Vec3 at = -before * way;
      if (checks::apart({box.low + at, box.high + at}, scene_.body(by).outer.box, -1e-3)) continue;
      if (share(mover, at, by)) return true;
    }
    return false;
  }

  [[nodiscard]] std::vector<Question> ways() const {
    std::vector<Question> all;
    for (std::size_t s = 0; s < plan_.steps.size(); ++s) {
      if (plan_.steps[s].ways.empty()) continue;
      const Vec3 way = plan_.steps[s].ways.front();
      for (std::size_t before = 0; before < s; ++before) {
        for (const InstanceId by : plan_.steps[before].adds) {
          for (const InstanceId mover : plan_.steps[s].adds) {
            if (in_a_thread(mover, by)) continue;
            if (!checks::may_meet(scene_.body(mover).outer.box, scene_.body(by).outer.box, way)) continue;
            all.push_back({[this, mover, by, way] {
                             return checks::stop_of(scene_.body(mover), scene_.body(by), way).decision() ==
                                    checks::Decision::overlap;
                           },
                           [this, mover, by, way] { return meets_on_the_way(mover, by, way); }, both(mover, by)});
          }
        }
      }
    }
    thin_out(all, 30);
    return all;
  }

  [[nodiscard]] std::vector<Question> tool_rooms() const {
    std::vector<Question> all;
    for (InstanceId i = 0; i < plan_.instances.size(); ++i) {
      for (const checks::Turned& turned : checks::turned_by_hand(scene_, i)) {
        for (const checks::ToolRoom& tool : turned.tools) add_room(tool.column, i, all);
        for (const checks::ToolRoom& tool : turned.tools) {
          if (tool.swing) add_room(checks::swing_room(tool, 0), i, all);
        }
      }
    }
    thin_out(all, 400);
    return all;
  }

  // Among everything that stands there in the end: more than in the check.
  void add_room(const Prism& room, InstanceId turned, std::vector<Question>& all) const {
    const auto body = std::make_shared<checks::PlacedBody>(checks::place(Body{{room}, {room}, true, {}}, Pose{}));
    const auto made = solid::extrude(room.profile, Pose{}, room.length_mm);
    if (!made) return;
    for (InstanceId by = 0; by < plan_.instances.size(); ++by) {
      if (by == turned || in_a_thread(by, turned)) continue;
      if (checks::apart(body->outer.box, scene_.body(by).outer.box, -0.01)) continue;
      const auto verdict = checks::decide(*body, scene_.body(by));
      if (verdict == checks::Decision::unsure) continue;
      all.push_back({[this, body, by] { return checks::decide(*body, scene_.body(by)) == checks::Decision::overlap; },
                     [this, room = *made, at = room.pose, by] {
                       const auto volume = solid::common_volume_mm3(room, at, solid(by), pose(by));
                       return volume && *volume > nothing_mm3;
                     },
                     "a tool on " + both(turned, by)});
    }
  }

  const Plan& plan_;
  const Model& model_;
  Scene scene_;
};

}  // namespace

int main(int count, char** values) {
  const auto job = speed::make_job(count > 1 ? values[1] : FITUP_EXAMPLES "/park-locomotive/front-box.toml");
  if (!job) {
    std::cerr << "the spec leads to no model; see `fitup check`\n";
    return 1;
  }
  time_whole(*job->plan);
  if (count > 2) return 0;
  return Comparison(*job).all() ? 0 : 1;
}
