// Sections and sheets of a frame as ladders of what is heavier, and what else stiffens it.
// Entry: frame_knobs, stiffer_frames.
#include "remedies/frame_knobs.h"

#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "remedies/cut_knobs.h"
#include "remedies/ring_knobs.h"

namespace fitup::remedies {

namespace {

void add_section(std::vector<Knob>& knobs, const std::string& key, const Section* now) {
  if (now == nullptr) return;
  if (auto knob = heavier_sections(key, *now)) knobs.push_back(std::move(*knob));
}

void add_members(std::vector<Knob>& knobs, const Concerned& what, const BoxSpec& box, const Spec& spec) {
  const std::string key = fmt::format("box.{}.frame.", box.name);
  if (what.roles.contains(Role::brace) && box.frame.braces) {
    knobs.push_back(
        thicker_sheet(key + "braces.thickness", box.frame.braces->thickness->mm(), *box.frame.material, spec));
  }
  if (what.roles.contains(Role::upright)) add_section(knobs, key + "uprights", spec.section(*box.frame.uprights));
  if (!what.roles.contains(Role::ring_member)) return;
  const bool own_top = box.frame.top_section.given;
  const auto is_top = [](const std::string& name) { return name.starts_with("top "); };
  if (own_top && std::any_of(what.names.begin(), what.names.end(), is_top))
    add_section(knobs, key + "top_section", spec.section(*box.frame.top_section));
  if (!own_top || !std::all_of(what.names.begin(), what.names.end(), is_top))
    add_section(knobs, key + "section", spec.section(*box.frame.section));
}

}  // namespace

std::vector<Knob> frame_knobs(const Concerned& what, const BoxSpec& box, const Spec& spec) {
  std::vector<Knob> knobs;
  if (!what.fails) return knobs;
  const bool of_plates = *box.build == BuildKind::plate;
  if (!of_plates) add_members(knobs, what, box, spec);
  if (what.thickness_mm <= 0) return knobs;
  if (of_plates) {
    const std::string key = fmt::format("box.{}.", box.name);
    const bool own = std::any_of(what.keys.begin(), what.keys.end(),
                                 [&](const std::string& k) { return k.starts_with(key) || k == "lifting"; });
    if (own) knobs.push_back(thicker_sheet(key + "plates.thickness", what.thickness_mm, what.material, spec));
    return knobs;
  }
  for (const Face face : all_faces) {
    const std::string key = fmt::format("box.{}.face.{}", box.name, to_text(face));
    if (what.keys.contains(key))
      knobs.push_back(thicker_sheet(key + ".thickness", what.thickness_mm, what.material, spec));
  }
  return knobs;
}

std::vector<Knob> stiffer_frames(const Concerned& what, const BoxSpec& box, const Spec& spec) {
  const bool of_frame = what.roles.contains(Role::upright) || what.roles.contains(Role::ring_member);
  if (what.check != "seams" || !of_frame || what.roles.contains(Role::rail) || *box.build == BuildKind::plate) return {};
  const std::string key = fmt::format("box.{}.frame.", box.name);
  const auto instead = [&](const std::string& of, const std::string& now, const std::string& other) {
    Knob knob = word_knob(key + of, now, {now, other});
    knob.change_mm = [](int rung) { return 1e6 * rung; };  // whatever the seams carry
    return knob;
  };
  std::vector<Knob> knobs;
  if (!box.frame.gussets) knobs.push_back(instead("gussets", "none", "{}"));
  const Section* uprights = spec.section(*box.frame.uprights);
  const Section* ring = spec.section(*box.frame.section);
  add_section(knobs, key + "uprights", uprights);
  const bool flat_on_angle = uprights != nullptr && ring != nullptr && uprights->shape == SectionShape::flat &&
                             ring->shape == SectionShape::angle;
  if (flat_on_angle)
    knobs.push_back(instead("uprights", fmt::format("\"{}\"", uprights->designation),
                            fmt::format("\"{}\"", ring->designation)));
  return knobs;
}

}  // namespace fitup::remedies
