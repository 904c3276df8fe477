// What the whole comes to: size with everything on, and mass.
// Entry: totals_of, job_sizes_of, frames_in_words, all_frames, eyes_not_in_model.

#include "output/totals.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <fmt/format.h>

namespace fitup::output {
namespace {

void add_bounds(Box3& box, const Body& body, const Pose& at) {
  for (const Prism& prism : body.outer) box.add(Prism{prism.profile, at * prism.pose, prism.length_mm}.bounds());
}

}  // namespace

std::map<std::string, std::size_t> eyes_not_in_model(const Plan& plan) {
  const auto is_eye = [](const Part& part) { return part.role == Role::eye; };
  if (std::any_of(plan.parts.begin(), plan.parts.end(), is_eye)) return {};
  std::map<std::string, std::size_t> count;
  for (const LiftPoint& point : plan.lift_points) ++count[point.thread];
  return count;
}

Totals totals_of(const Plan& plan) {
  std::vector<Body> bodies;
  for (const Part& part : plan.parts) bodies.push_back(body_of(part));
  Totals totals;
  for (const Instance& instance : plan.instances) {
    const Part& part = plan.parts.at(instance.part);
    if (part.source == Source::printed) continue;
    totals.all_kg += part.mass_kg;
    if (part.source == Source::cut || part.source == Source::sawn) totals.made_kg += part.mass_kg;
    add_bounds(totals.overall, bodies[instance.part], instance.pose);
  }
  return totals;
}

namespace {

std::array<double, 3> rounded(Vec3 v) {
  const auto round = [](double mm) { return std::round(1000 * mm) / 1000 + 0.0; };
  return {round(v.x), round(v.y), round(v.z)};
}

}  // namespace

JobSizes job_sizes_of(const Plan& plan) {
  JobSizes sizes;
  for (const PlacedFrame& frame : plan.frames) {
    sizes.frames.push_back({frame.box, rounded(frame.space.size()), rounded(frame.space.low)});
  }
  if (plan.frames.empty()) sizes.frames.push_back({"", rounded(plan.frame_size), {}});
  sizes.overall_mm = rounded(totals_of(plan).overall.size());
  return sizes;
}

std::string frames_in_words(const Plan& plan, const PaperUnits& units) {
  const auto words = [&units](Vec3 s) {
    return fmt::format("{} x {} x {} {}", units.size(s.x), units.size(s.y), units.size(s.z), units.length());
  };
  if (plan.frames.size() < 2) return "frame " + words(plan.frame_size);
  std::string out;
  for (const PlacedFrame& frame : plan.frames) {
    out += fmt::format("{}{} frame {}", out.empty() ? "" : ", ", frame.box, words(frame.space.size()));
  }
  return out;
}

Box3 all_frames(const Plan& plan) {
  Box3 box{{}, plan.frame_size};
  for (const PlacedFrame& frame : plan.frames) box.add(frame.space);
  return box;
}

}  // namespace fitup::output
