// Which boxes stand in the model, where the others hang on it, and how their weight is shared there.
// Entry: frames_in, hung_at, shared_stiffly.
#include "loads/hung_boxes.h"

#include <Eigen/Dense>
#include <algorithm>
#include <set>

#include "fitup/weight.h"
#include "loads/held_bodies.h"

namespace fitup::loads {

namespace {

constexpr double least_share = 1e-9;  // of the largest moment of inertia: less, and they are on a line or in one place

Eigen::Vector3d eigen(Vec3 v) { return {v.x, v.y, v.z}; }
Vec3 vec(const Eigen::Vector3d& v) { return {v.x(), v.y(), v.z()}; }

}  // namespace

std::vector<bool> frames_in(const Plan& plan, const FrameModel& model) {
  std::vector<bool> stands(plan.frames.size(), false);
  for (const InstanceId id : all_in(model)) {
    const Instance& instance = plan.instances[id];
    if (plan.parts[instance.part].role != Role::bearer) stands[frame_of(plan, instance)] = true;
  }
  return stands;
}

std::vector<Vec3> hung_at(const Plan& plan, const FrameModel& model, std::size_t frame) {
  const std::set<InstanceId> in = all_in(model);
  const auto is_hung = [&](InstanceId id) { return !in.contains(id) && frame_of(plan, plan.instances[id]) == frame; };
  std::vector<Vec3> places;
  for (const Joint& j : plan.joints) {
    const bool joins = (is_hung(j.a) && in.contains(j.b)) || (is_hung(j.b) && in.contains(j.a));
    if (j.kind == JointKind::weld && joins) places.push_back(middle_of_both(box_of(plan, j.a), box_of(plan, j.b)));
  }
  for (const Fastener& f : plan.fasteners) {
    const bool holds_in = std::any_of(f.stack.begin(), f.stack.end(), [&](InstanceId id) { return in.contains(id); });
    const bool holds_hung = std::any_of(f.stack.begin(), f.stack.end(), is_hung);
    if (holds_in && holds_hung) places.push_back(plan.instances[f.screw].pose.origin());
  }
  return places;
}

std::vector<Share> shared_stiffly(Vec3 force, Vec3 moment, const std::vector<Vec3>& places) {
  const double each = 1.0 / static_cast<double>(places.size());
  Vec3 middle;
  for (const Vec3 p : places) middle = middle + each * p;
  Eigen::Matrix3d inertia = Eigen::Matrix3d::Zero();
  for (const Vec3 p : places) {
    const Eigen::Vector3d d = eigen(p - middle);
    inertia += d.squaredNorm() * Eigen::Matrix3d::Identity() - d * d.transpose();
  }
  const Eigen::Vector3d about_middle = eigen(moment - cross(middle, force));
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> axes(inertia);
  Eigen::Vector3d theta = Eigen::Vector3d::Zero(), left = about_middle;
  for (Eigen::Index i = 0; i < 3; ++i) {
    if (axes.eigenvalues()(i) <= std::max(least_share * axes.eigenvalues()(2), 1e-12)) continue;
    const Eigen::Vector3d axis = axes.eigenvectors().col(i);
    theta += axis.dot(about_middle) / axes.eigenvalues()(i) * axis;
    left -= axis.dot(about_middle) * axis;
  }
  std::vector<Share> shares;
  for (const Vec3 p : places) shares.push_back({each * force + cross(vec(theta), p - middle), each * vec(left)});
  return shares;
}

}  // namespace fitup::loads
