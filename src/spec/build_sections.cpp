// Sections by their own sizes from checked cells.
// Entry: own_sections, choose_uprights, check_own_sections.

#include "spec/build_sections.h"

#include <fmt/format.h>

#include <algorithm>

#include "diag/catalogue.h"
#include "diag/words.h"

namespace fitup::spec {

namespace {

constexpr double mm_per_in = 25.4;
constexpr std::string_view source = "the spec; mass = area x 7850 kg/m3";

double mm_of(const Cell* cell, double otherwise) { return cell == nullptr ? otherwise : cell->get<Length>()->mm(); }

std::string designation_of(const std::string& name, const Section& s, UnitSystem units) {
  const double unit_mm = units == UnitSystem::mm_kg ? 1 : mm_per_in;
  const auto size = [unit_mm](double mm) { return fmt::format("{:.7g}", mm / unit_mm); };
  const bool angle = s.shape == SectionShape::angle;
  return fmt::format("{} {}{}{}x{}{}", name, angle ? "L " : "", size(s.leg_a_mm), angle ? "x" + size(s.leg_b_mm) : "",
                     size(s.thickness_mm), units == UnitSystem::mm_kg ? "" : " in");
}

Section section_of(const std::string& name, const Cell& cell, UnitSystem units) {
  Section s;
  s.shape = *cell["kind"].get<std::string>() == "angle" ? SectionShape::angle : SectionShape::flat;
  s.leg_a_mm = mm_of(cell.find("width"), 0);
  s.thickness_mm = mm_of(cell.find("thickness"), 0);
  if (s.shape == SectionShape::angle) {
    s.leg_b_mm = mm_of(cell.find("height"), s.leg_a_mm);
    s.root_radius_mm = mm_of(cell.find("root_radius"), s.thickness_mm);
    s.toe_radius_mm = mm_of(cell.find("toe_radius"), s.root_radius_mm / 2);
  }
  s.designation = designation_of(name, s, units);
  s.source = std::string(source);
  return s;
}

/// What makes it impossible, in words that follow its name; empty if nothing does.
std::string flaw_of(const Section& s, UnitSystem units) {
  const auto words = [units](double mm) { return diag::in_units(Length::mm(mm), units); };
  const bool angle = s.shape == SectionShape::angle;
  const double shorter = angle ? std::min(s.leg_a_mm, s.leg_b_mm) : s.leg_a_mm;
  const double toe = std::min(s.toe_radius_mm, s.thickness_mm);
  const double needed = s.thickness_mm + s.root_radius_mm + toe;
  if (!angle && s.thickness_mm > s.leg_a_mm) {
    return fmt::format("is {} thick and {} wide: exchange thickness and width", words(s.thickness_mm),
                       words(s.leg_a_mm));
  }
  if (!angle || needed < shorter) return {};
  return fmt::format(
      "has a leg of {}, and its thickness, root radius and toe radius are {} together: make the leg longer, or the "
      "thickness or the radii smaller",
      words(shorter), words(needed));
}

}  // namespace

std::vector<OwnSection> own_sections(const Cell* cell, UnitSystem units) {
  std::vector<OwnSection> out;
  if (cell == nullptr) return out;
  for (const auto& [name, child] : cell->children) {
    Section section = section_of(name, child, units);
    if (child.sound) section.published_mass_kg_per_m = tables::steel_mass_kg_per_m(section);
    out.push_back({name, child.place, std::move(section)});
  }
  return out;
}

void choose_uprights(const Spec& spec, FrameSpec& frame) {
  const Section* ring = spec.section(*frame.section);
  if (ring == nullptr) return;
  Section like = *ring;
  const auto [shorter, longer] = std::minmax(ring->leg_a_mm, ring->leg_b_mm);
  like.leg_a_mm = *frame.long_side == LongSide::flat ? longer : shorter;
  if (frame.uprights->empty()) frame.uprights.value = tables::flat_like_leg(like).designation;
  if (!frame.cross_bars || !frame.cross_bars->section->empty()) return;
  // Under a floor on legs that point up there is no room for an angle.
  const bool angle = *frame.bottom_legs == Legs::down;
  frame.cross_bars->section.value = angle ? *frame.section : tables::flat_like_leg(like).designation;
}

void check_own_sections(const Spec& spec, const Cell& root, Diagnostics& diagnostics) {
  for (const OwnSection& own : spec.sections) {
    if (!root["section"][own.name].sound) continue;
    const std::string flaw = flaw_of(own.section, spec.units);
    if (!flaw.empty()) diagnostics.add(diag::say<"section-impossible">(own.place, own.name, flaw));
  }
}

}  // namespace fitup::spec

namespace fitup {

const Section* Spec::section(std::string_view sought) const {
  const auto own =
      std::find_if(sections.begin(), sections.end(), [&](const OwnSection& s) { return s.name == sought; });
  return own != sections.end() ? &own->section : tables::find_section(sought);
}

}  // namespace fitup
