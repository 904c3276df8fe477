// The keys of intermittent seams.
// Entry: stitch_knobs.
#include "remedies/stitch_knobs.h"

#include <optional>
#include <string>

namespace fitup::remedies {

namespace {

// Elements of a welded plate, or of rails on plates, that shut something in, as the two parts' code allows their gaps
// for sheet of 2 mm and 1 mm.
std::vector<Knob> opened(const Concerned& what, const Spec& spec) {
  const bool inches = spec.units == UnitSystem::in_lb;
  const std::vector<std::string> words{
      "as it is", inches ? R"({ length = "1 1/2 in", gap = "3/4 in" })" : "{ length = 40, gap = 20 }",
      inches ? R"({ length = "1 1/2 in", gap = "3/8 in" })" : "{ length = 40, gap = 10 }"};
  std::vector<Knob> knobs;
  const auto add = [&](const std::string& key) {
    Knob knob = word_knob(key, words.front(), words);
    knob.change_mm = [](int rung) { return 1e6 * rung; };  // however much is shut in
    knobs.push_back(std::move(knob));
  };
  for (const BoxSpec& box : spec.boxes) {
    const std::string of_box = "box." + box.name;
    for (const Face face : all_faces) {
      const std::string key = of_box + ".face." + std::string(to_text(face));
      if (what.keys.contains(key) && *box.face(face).closed_by == Closure::plate && !box.face(face).stitch)
        add(key + ".stitch");
    }
    const bool rails = *box.build == BuildKind::plate && what.keys.contains(of_box + ".rails");
    if (rails && !box.welds.stitch) add(of_box + ".welds.stitch");
  }
  return knobs;
}

}  // namespace

std::vector<Knob> stitch_knobs(const Concerned& what, const Spec& spec) {
  if (what.check == "finish" && what.cause == "shut overlap") return opened(what, spec);
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
