// A flat part as the cutter gets it: contours, marks and notes.
// Entry: flat_drawing.

#include "output/flat_drawing.h"

#include <fmt/format.h>

#include <algorithm>

#include "geometry/offset.h"
#include "geometry/strokes.h"
#include "output/text.h"
#include "output/units.h"

namespace fitup::output {
namespace {

// Read on a screen beside the part, not engraved: common sizes of lettering, ISO 3098 (from memory).
constexpr double note_height_mm = 5;
constexpr double drill_note_height_mm = 2.5;
constexpr double line_pitch = 1.6;
constexpr double gap_beside_part_mm = 10;

// A mark that the drill takes away again: shorter than the hole is wide, and never longer than a punch needs.
constexpr double cross_of_hole = 0.8;
constexpr double longest_cross_mm = 3;

void add_cross(DxfDrawing& drawing, Vec2 at, const DrilledHole& hole) {
  const double arm = 0.5 * std::min(longest_cross_mm, cross_of_hole * hole.diameter_mm);
  drawing.mark.push_back({at - Vec2{arm, 0}, at + Vec2{arm, 0}});
  drawing.mark.push_back({at - Vec2{0, arm}, at + Vec2{0, arm}});
  const Vec2 beside = at + Vec2{0.5 * hole.diameter_mm + 1, 1};
  drawing.notes.push_back({beside, drill_note_height_mm, drill_note(hole, drawing.units)});
}

// Seen from the drawing's side: up is towards who looks at it.
void add_bend(DxfDrawing& drawing, const Bend& bend, Vec2 by, const PaperUnits& units) {
  drawing.bend.push_back({bend.from + by, bend.to + by});
  const Vec2 middle = 0.5 * (bend.from + bend.to) + by;
  drawing.notes.push_back({middle + Vec2{1, 1}, drill_note_height_mm, bend_note(bend, units)});
}

void add_marks(DxfDrawing& drawing, const FaceMarks& marks, Vec2 by) {
  for (const FaceLine& line : marks.lines) drawing.mark.push_back({line.from + by, line.to + by});
  for (const FaceWord& word : marks.words) {
    for (const auto& [from, to] : geometry::strokes_of(word.text, word.at + by, word.height_mm)) {
      drawing.mark.push_back({from, to});
    }
  }
}

std::vector<std::string> title_of(const Part& part, double thickness_mm, const JobInfo& info, bool kerf,
                                  std::string_view warning) {
  const PaperUnits units(info.flat.units);
  std::vector<std::string> lines{
      fmt::format("{}  {}", part.mark, part.name),
      fmt::format("{}, {} {}", part.material, units.length(thickness_mm), units.length()),
      fmt::format("drawn 1:1 in {}", info.flat.units == UnitSystem::in_lb ? "inches" : "millimetres"),
      fmt::format("{}, revision {}", info.name, info.revision), fmt::format("spec {}", short_hash(info.spec_hash))};
  if (kerf) {
    lines.push_back(fmt::format("outlines allow for a cut {} {} wide: run the cut's middle along them",
                                units.length(info.flat.kerf_mm), units.length()));
  }
  if (!warning.empty()) lines.emplace_back(warning);
  return lines;
}

}  // namespace

std::string drill_note(const DrilledHole& hole, UnitSystem units) {
  const std::string drill = fmt::format("drill {}", PaperUnits(units).drill(hole.diameter_mm));
  return hole.purpose.empty() ? drill : fmt::format("{}, {}", drill, hole.purpose);
}

std::string bend_note(const Bend& bend, const PaperUnits& units) {
  return fmt::format("bend {} 90 degrees, inside radius {} {}", bend.up ? "up" : "down", units.length(bend.radius_mm),
                     units.length());
}

Profile moved_to_origin(const Profile& profile) {
  const Vec2 by = Vec2{} - profile.bounds().low;
  Profile at_origin{profile.outer.moved(by), {}};
  for (const Loop& hole : profile.holes) at_origin.holes.push_back(hole.moved(by));
  return at_origin;
}

Profile profile_at_origin(const Flat& flat) { return moved_to_origin(flat.profile); }

CutProfile cut_profile(const Flat& flat, double kerf_mm) {
  const auto beside = kerf_mm > 0 ? geometry::offset(flat.profile, kerf_mm / 2) : std::nullopt;
  return {beside.value_or(flat.profile), beside.has_value()};
}

DxfDrawing flat_drawing(const Part& part, const JobInfo& info, std::string_view warning) {
  const Flat& flat = std::get<Flat>(part.form);
  const CutProfile cut = cut_profile(flat, info.flat.kerf_mm);
  const Profile profile = moved_to_origin(cut.profile);
  DxfDrawing drawing;
  drawing.units = info.flat.units;
  drawing.release = info.flat.release;
  drawing.bounds = profile.bounds();
  drawing.cut = profile.holes;  // holes first: the part stays fixed in the sheet until its outline is cut
  drawing.cut.push_back(profile.outer);
  const Vec2 by = Vec2{} - cut.profile.bounds().low;
  for (const DrilledHole& hole : flat.drilled) add_cross(drawing, hole.at + by, hole);
  add_marks(drawing, flat.marks, by);
  for (const Bend& bend : flat.bends) add_bend(drawing, bend, by, PaperUnits(info.flat.units));

  Vec2 at{drawing.bounds.high.x + gap_beside_part_mm, drawing.bounds.high.y - note_height_mm};
  for (const std::string& line : title_of(part, flat.bought_mm(), info, cut.allows_for_kerf, warning)) {
    drawing.notes.push_back({at, note_height_mm, line});
    at.y -= line_pitch * note_height_mm;
  }
  return drawing;
}

}  // namespace fitup::output
