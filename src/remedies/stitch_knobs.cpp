// The keys of intermittent seams.
// Entry: stitch_knobs.
#include "remedies/stitch_knobs.h"

#include <optional>
#include <string>

namespace fitup::remedies {

std::vector<Knob> stitch_knobs(const Concerned& what, const Spec& spec) {
  std::vector<Knob> knobs;
  const auto add = [&](const std::optional<StitchSpec>& stitch, const std::string& key) {
    if (!stitch || !what.keys.contains(key)) return;
    knobs.push_back(length_knob(key + ".length", *stitch->length, spec.units, Fineness::whole));
    knobs.push_back(length_knob(key + ".gap", *stitch->gap, spec.units, Fineness::whole));
  };
  for (const BoxSpec& box : spec.boxes) {
    const std::string of_box = "box." + box.name;
    add(box.welds.stitch, of_box + ".welds.stitch");
    for (const Face face : all_faces) {
      add(box.face(face).stitch, of_box + ".face." + std::string(to_text(face)) + ".stitch");
    }
  }
  return knobs;
}

}  // namespace fitup::remedies
