// A bolt through parts that lie on each other, with its washer and nut.
// Entry: add_bolt.
#include "plan/bolt.h"

#include <cassert>

#include "plan/hardware.h"
#include "plan/patterns.h"

namespace fitup::plan {

namespace {

constexpr double turns_beyond = 2;  // of thread beyond the nut (common practice)

struct Threaded {
  const Thread& thread;
  const HexNut& nut;
  const Washer& washer;
  const ButtonHead& head;
};

// The reader takes no thread without them.
Threaded threaded(const std::string& size) {
  return {*tables::find_thread(size), *tables::find_nut(size), *tables::find_washer(size),
          *tables::find_button_head(size)};
}

bool make_holes(Build& build, const Bolt& bolt, const Thread& thread) {
  for (const Layer& layer : bolt.layers) {
    const RoundHole hole{bolt.seat + layer.from_mm * bolt.direction, bolt.direction, thread.clear_medium_mm,
                         HoleKind::clear, "clear " + thread.size};
    if (const auto problem = make_hole(build, layer.instance, hole)) {
      say_no_room(build, bolt.origin.place, hole.diameter_mm, bolt.name, layer.instance, *problem);
      return false;
    }
  }
  return true;
}

}  // namespace

double bolt_length_mm(const std::string& size, double grip_mm) {
  const Threaded t = threaded(size);
  return screw_length_mm(t.thread,
                         grip_mm + t.washer.thickness_mm + t.nut.height_mm + turns_beyond * t.thread.pitch_mm);
}

void add_bolt(Build& build, const Bolt& bolt) {
  const Threaded t = threaded(bolt.thread);
  const double grip = bolt.layers.back().to_mm;
  const double length = bolt_length_mm(bolt.thread, grip);
  // Of all sections and sheets that the reader takes, none are together thicker than the longest.
  assert(length > 0);
  if (!make_holes(build, bolt, t.thread)) return;
  Draft& draft = build.draft;
  const Vec3 back = Vec3{} - bolt.direction;
  const auto pose = [&](double at) { return along(bolt.seat + at * bolt.direction, bolt.direction); };
  const InstanceId screw = draft.add(button_head_screw(t.thread, t.head, length), pose(0), bolt.name, bolt.origin);
  const InstanceId washer = draft.add(plain_washer(t.washer), pose(grip), bolt.name + " washer", bolt.origin);
  const InstanceId nut =
      draft.add(hex_nut(t.thread, t.nut), pose(grip + t.washer.thickness_mm), bolt.name + " nut", bolt.origin);
  draft.join(screw, bolt.layers.front().instance, JointKind::bearing, bolt.direction);
  for (std::size_t i = 1; i < bolt.layers.size(); ++i) {
    draft.join(screw, bolt.layers[i].instance, JointKind::slip, bolt.direction);
  }
  draft.join(washer, bolt.layers.back().instance, JointKind::bearing, back);
  draft.join(washer, screw, JointKind::slip, bolt.direction);
  draft.join(nut, washer, JointKind::bearing, back);
  draft.join(nut, screw, JointKind::thread, bolt.direction, 0, t.thread.major_mm);
  Fastener fastener{bolt.thread, screw, {}, t.nut.height_mm, 0};
  for (const Layer& layer : bolt.layers) fastener.stack.push_back(layer.instance);
  fastener.stack.push_back(washer);
  fastener.stack.push_back(nut);
  draft.fasteners.push_back(std::move(fastener));
  note_bolt(build, bolt.thread, bolt.seat, bolt.direction, bolt.layers, bolt.origin, screw);
}

}  // namespace fitup::plan
