// Sections by their own sizes from checked cells.
// Entry: own_sections, choose_uprights, choose_corners, check_own_sections.

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
  const bool flat = s.shape == SectionShape::flat;
  const char* shape = flat ? "" : s.shape == SectionShape::angle ? "L " : "tube ";
  return fmt::format("{} {}{}{}x{}{}", name, shape, size(s.leg_a_mm), flat ? "" : "x" + size(s.leg_b_mm),
                     size(s.thickness_mm), units == UnitSystem::mm_kg ? "" : " in");
}

SectionShape shape_of(const std::string& kind) {
  return kind == "angle" ? SectionShape::angle : kind == "tube" ? SectionShape::tube : SectionShape::flat;
}

Section section_of(const std::string& name, const Cell& cell, UnitSystem units) {
  Section s;
  s.shape = shape_of(*cell["kind"].get<std::string>());
  s.leg_a_mm = mm_of(cell.find("width"), 0);
  s.thickness_mm = mm_of(cell.find("thickness"), 0);
  if (s.shape == SectionShape::tube) {
    s.leg_b_mm = mm_of(cell.find("height"), s.leg_a_mm);
    s.corner_radius_mm = mm_of(cell.find("corner_radius"), tables::tube_corner_radius_mm(s.thickness_mm));
  }
  if (s.shape == SectionShape::angle) {
    s.leg_b_mm = mm_of(cell.find("height"), s.leg_a_mm);
    s.root_radius_mm = mm_of(cell.find("root_radius"), s.thickness_mm);
    s.toe_radius_mm = mm_of(cell.find("toe_radius"), s.root_radius_mm / 2);
  }
  s.designation = designation_of(name, s, units);
  s.source = std::string(source);
  return s;
}

/// Its shorter side must have something flat between the corners, and something hollow between the walls.
template <class Words>
std::string flaw_of_tube(const Section& s, const Words& words) {
  const double shorter = std::min(s.leg_a_mm, s.leg_b_mm);
  const double needed = 2 * std::max(s.corner_radius_mm, s.thickness_mm);
  if (s.corner_radius_mm > 0 && s.corner_radius_mm < s.thickness_mm) {
    return fmt::format(
        "has an outer corner radius of {}, less than its thickness of {}: make it 0 for a sharp corner, or "
        "as large as the thickness or larger",
        words(s.corner_radius_mm), words(s.thickness_mm));
  }
  if (needed < shorter) return {};
  return fmt::format(
      "has a side of {}, and its two corners or walls take {}: make the side longer, or the thickness or "
      "corner_radius smaller",
      words(shorter), words(needed));
}

/// What makes it impossible, in words that follow its name; empty if nothing does.
std::string flaw_of(const Section& s, UnitSystem units) {
  const auto words = [units](double mm) { return diag::in_units(Length::mm(mm), units); };
  if (s.shape == SectionShape::tube) return flaw_of_tube(s, words);
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
  const bool tube = ring->shape == SectionShape::tube;
  if (tube && frame.uprights->empty()) frame.uprights.value = *frame.section;
  Section like = *ring;
  const auto [shorter, longer] = std::minmax(ring->leg_a_mm, ring->leg_b_mm);
  like.leg_a_mm = *frame.long_side == LongSide::flat ? longer : shorter;
  if (frame.uprights->empty()) frame.uprights.value = tables::flat_like_leg(like).designation;
  if (!frame.cross_bars || !frame.cross_bars->section->empty()) return;
  // Under a floor on legs that point up there is no room for an angle.
  const bool angle = !tube && *frame.bottom_legs == Legs::down;
  frame.cross_bars->section.value = angle || tube ? *frame.section : tables::flat_like_leg(like).designation;
}

void choose_corners(const Spec& spec, FrameSpec& frame) {
  const Section* ring = spec.section(*frame.section);
  if (ring != nullptr && ring->shape == SectionShape::tube && !frame.corners.given)
    frame.corners.value = Corners::butted;
}

namespace {

/// A radius that its kind has not.
void report_idle_radii(const OwnSection& own, const Cell& cell, Diagnostics& diagnostics) {
  const bool angle = own.section.shape == SectionShape::angle;
  const bool tube = own.section.shape == SectionShape::tube;
  const auto idle = [&](const char* key, bool used, const char* why) {
    const Cell* given = cell.find(key);
    if (given == nullptr || used) return;
    diagnostics.add(diag::say<"no-effect">(given->place, fmt::format("section.{}.{}", own.name, key), why));
  };
  idle("root_radius", angle, "only an angle has it");
  idle("toe_radius", angle, "only an angle has it");
  idle("corner_radius", tube, "only a tube has it");
}

}  // namespace

void check_own_sections(const Spec& spec, const Cell& root, Diagnostics& diagnostics) {
  for (const OwnSection& own : spec.sections) {
    if (!root["section"][own.name].sound) continue;
    const std::string flaw = flaw_of(own.section, spec.units);
    if (!flaw.empty()) diagnostics.add(diag::say<"section-impossible">(own.place, own.name, flaw));
    report_idle_radii(own, root["section"][own.name], diagnostics);
  }
}

void check_frame_tubes(const Spec& spec, const Cell& root, Diagnostics& diagnostics) {
  for (const BoxSpec& box : spec.boxes) {
    const FrameSpec& frame = box.frame;
    const Cell& cell = root["box"][box.name]["frame"];
    const Section* ring = spec.section(*frame.section);
    const Section* upright = spec.section(*frame.uprights);
    if (!cell.sound || ring == nullptr || upright == nullptr) continue;
    const bool tube = ring->shape == SectionShape::tube;
    const auto idle = [&](const auto& value, const char* key, const char* why) {
      if (value.given) diagnostics.add(diag::say<"no-effect">(value.place, "box." + box.name + ".frame." + key, why));
    };
    if (tube && *frame.corners == Corners::coped)
      diagnostics.add(diag::say<"tube-not-coped">(frame.corners.place, ring->designation));
    if (tube) idle(frame.bottom_legs, "bottom_legs", "a tube has no legs");
    if (!tube && upright->shape != SectionShape::tube) {
      idle(frame.vents, "vents", "nothing of the frame is a tube");
      idle(frame.vent_diameter, "vent_diameter", "nothing of the frame is a tube");
    } else if (*frame.vents == Vents::none) {
      idle(frame.vent_diameter, "vent_diameter", "vents is \"none\"");
    }
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
