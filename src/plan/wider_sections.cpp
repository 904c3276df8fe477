// Which section of the tables has room, by the key that decides it.
// Entry: wider_section_words.
#include "plan/wider_sections.h"

#include <fmt/format.h>

#include "fitup/tables.h"
#include "fitup/tolerances.h"
#include "plan/rule_steps.h"

namespace fitup::plan {

namespace {

bool is_like(const Section& s, const Section& is) {
  const bool equal = s.shape != SectionShape::angle || s.leg_a_mm == s.leg_b_mm;
  const bool as_thick = s.thickness_mm > is.thickness_mm - tolerance::contact_mm;  // threads hold in it as now
  return s.shape == is.shape && equal && as_thick && steps_of(s).place_mm == steps_of(is).place_mm;
}

}  // namespace

std::string wider_section_words(const Build& build, Side level, const std::function<bool(const Section&)>& has_room) {
  const FrameSpec& frame = build.box_spec().frame;
  const bool top = level == high && frame.top_section.given;
  const Section* is = build.spec.section(top ? *frame.top_section : *frame.section);
  if (is == nullptr || *build.box_spec().build == BuildKind::plate) return {};
  const Section* least = nullptr;
  for (const Section& s : tables::sections()) {
    if (!is_like(s, *is) || !has_room(s)) continue;
    if (least == nullptr || s.published_mass_kg_per_m < least->published_mass_kg_per_m) least = &s;
  }
  if (least == nullptr) return {};
  return fmt::format("{} = \"{}\"", build.key(top ? "frame.top_section" : "frame.section"), least->designation);
}

}  // namespace fitup::plan
