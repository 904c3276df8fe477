// The first box decides how the whole is modelled.
// Entry: box_model, boxes_left_out.
#include "loads/box_model.h"

#include <fmt/format.h>

#include <algorithm>

#include "fitup/weight.h"
#include "loads/hung_boxes.h"
#include "loads/plate_model.h"

namespace fitup::loads {

namespace {

bool is_of_plates(const Plan& plan, std::size_t frame) {
  return std::any_of(plan.instances.begin(), plan.instances.end(), [&](const Instance& i) {
    return plan.parts[i.part].role == Role::wall && frame_of(plan, i) == frame;
  });
}

Finding left_out(std::size_t of, const Plan& plan) {
  const PlacedFrame& frame = plan.frames[of];
  const PlacedFrame& first = plan.frames.front();
  const bool both_framed = !is_of_plates(plan, 0) && !is_of_plates(plan, of);
  const std::string why = both_framed ? fmt::format("since nothing that is reckoned with joins it to box {}", first.box)
                                      : fmt::format("since it and box {} are not both framed", first.box);
  Finding f;
  f.check = "frame";
  f.message = fmt::format(
      "box {} is not in the frame that is reckoned with, {}: what its members, plates and seams carry, and what joins "
      "it to box {}, is not checked. What it weighs is counted, where it is joined to box {}. {} reckoned with "
      "by itself in a spec of its own",
      frame.box, why, first.box, first.box,
      both_framed ? "Each box is" : "Two framed boxes are reckoned with together, and each box is");
  f.key = "box." + frame.box;
  const auto own = std::find_if(plan.instances.begin(), plan.instances.end(),
                                [&](const Instance& i) { return i.key.starts_with(f.key + "."); });
  if (own != plan.instances.end()) f.place = own->place;
  return f;
}

}  // namespace

std::optional<FrameModel> box_model(const Plan& plan, const Seams& seams) {
  if (!is_of_plates(plan, 0)) {
    if (auto model = frame_model(plan, seams)) return model;
  }
  return plate_model(plan, seams);
}

std::vector<Finding> boxes_left_out(const Plan& plan, const FrameModel& model) {
  const std::vector<bool> stands = frames_in(plan, model);
  std::vector<Finding> findings;
  for (std::size_t i = 1; i < plan.frames.size(); ++i) {
    if (!stands[i]) findings.push_back(left_out(i, plan));
  }
  return findings;
}

}  // namespace fitup::loads
