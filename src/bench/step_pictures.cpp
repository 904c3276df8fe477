// A small picture of what a step adds.
// Entry: StepPictures::draw.

#include "bench/step_pictures.h"

#include <algorithm>

#include "output/sight.h"

namespace fitup::bench {
namespace {

constexpr double light_grey = 0.6;
constexpr double dot_mm = 0.7;

Vec3 middle_of(const Plan& plan, const Model& model, InstanceId id) {
  const Instance& instance = plan.instances[id];
  return instance.pose.point(model.parts.at(instance.part).bounds.middle());
}

}  // namespace

bool is_fastener(const Plan& plan, InstanceId id) {
  const Role role = plan.parts[plan.instances[id].part].role;
  return role == Role::rod || role == Role::nut || role == Role::washer || role == Role::screw ||
         role == Role::insert || role == Role::stud;
}

Result<StepPictures::Lines> StepPictures::lines_of(std::vector<InstanceId> shown, Vec3 towards) {
  std::erase_if(shown, [&](InstanceId id) { return is_fastener(plan_, id); });
  std::sort(shown.begin(), shown.end());
  const auto key = std::pair{shown, towards.y < 0};
  if (const auto found = made_.find(key); found != made_.end()) return found->second;
  Lines lines;
  if (!shown.empty()) {
    std::vector<Instance> placed;
    for (const InstanceId id : shown) placed.push_back(plan_.instances[id]);
    auto seen = views_.hidden_lines(placed, towards, axis::z);
    if (!seen) return seen.error();
    lines = std::move(seen).value().visible;
  }
  made_[key] = lines;
  return lines;
}

Status StepPictures::draw(Page& page, const Box2& room, const std::vector<InstanceId>& there,
                          const std::vector<InstanceId>& added, Vec3 towards) {
  auto light = lines_of(there, towards);
  if (!light) return light.error();
  auto bold = lines_of(added, towards);
  if (!bold) return bold.error();
  const output::Projection projection(towards, axis::z);
  std::vector<Vec2> dots;
  for (const InstanceId id : added) {
    if (is_fastener(plan_, id)) dots.push_back(projection.at(middle_of(plan_, model_, id)));
  }
  Box2 bounds;
  for (const Lines* lines : {&*light, &*bold}) {
    for (const auto& line : *lines) {
      for (const Vec2 p : line) bounds.add(p);
    }
  }
  for (const Vec2 p : dots) bounds.add(p);
  const Vec2 size = bounds.size();
  if (!(size.x > 0) || !(size.y > 0)) return Done{};
  const double scale = std::min(room.size().x / size.x, room.size().y / size.y);
  const Vec2 middle = bounds.middle();
  const auto on_page = [&](Vec2 p) {
    return room.middle() + Vec2{scale * (p.x - middle.x), -scale * (p.y - middle.y)};
  };
  const auto add = [&](const Lines& lines, double width_mm, double grey) {
    for (const auto& line : lines) {
      Stroke stroke{{}, false, width_mm, Dash::none, grey};
      for (const Vec2 p : line) stroke.vertices.push_back({on_page(p)});
      page.strokes.push_back(std::move(stroke));
    }
  };
  add(*light, hairline_mm, light_grey);
  add(*bold, 0.35, 0);
  for (const Vec2 p : dots) {
    Stroke dot{Loop::circle(on_page(p), dot_mm).vertices, true};
    dot.filled = true;
    page.strokes.push_back(std::move(dot));
  }
  return Done{};
}

}  // namespace fitup::bench
