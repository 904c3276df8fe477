// Warns of keys without effect.
// Entry: report_slips.

#include "spec/slips.h"

#include <fmt/format.h>

#include <algorithm>

#include "diag/catalogue.h"
#include "diag/words.h"
#include "fitup/welded_sizes.h"

namespace fitup::spec {

namespace {

using diag::say;

class Slips {
 public:
  Slips(UnitSystem units, Diagnostics& diagnostics) : units_(units), diagnostics_(diagnostics) {}

  void row(const std::string& box, std::size_t number, const RowEntry& entry) {
    if (*entry.count != 1) return;
    constexpr std::string_view why = "it stands between two of the item, and count is 1";
    const std::string key = fmt::format("box.{}.row.{}.", box, number);
    if (entry.between) idle(*entry.between, key + "between", why);
    if (entry.gap) idle(*entry.gap, key + "gap", why);
  }

  void rod_plates(const BoxSpec& box) {
    const RodPlatesSpec& plates = *box.rod_plates;
    const std::string key = fmt::format("box.{}.rod_plates.", box.name);
    if (*plates.front != Fixing::bolted && *plates.back != Fixing::bolted) {
      constexpr std::string_view why = "no rod plate is bolted";
      idle(plates.screw, key + "screw", why);
      idle(plates.screw_fixing, key + "screw_fixing", why);
      idle(plates.screw_hole, key + "screw_hole", why);
      idle(plates.screw_slot, key + "screw_slot", why);
      idle(plates.screw_at, key + "screw_at", why);
    } else if (*plates.screw_hole == HoleShape::round) {
      idle(plates.screw_slot, key + "screw_slot", "the holes are round; give screw_hole = \"slot\"");
    }
  }

  void lines(const BoxSpec& box) {
    const auto& row = box.row;
    const bool one = std::all_of(row.begin(), row.end(), [&](const RowEntry& e) { return *e.line == *row[0].line; });
    if (one) idle(box.line_gap, fmt::format("box.{}.line_gap", box.name), "all of the row stands in one line");
  }

  void welds(const BoxSpec& box) {
    const bool none = std::none_of(all_faces.begin(), all_faces.end(),
                                   [&](Face f) { return *box.face(f).closed_by == Closure::plate; });
    const std::string key = fmt::format("box.{}.welds.", box.name);
    const bool of_rails = *box.build == BuildKind::plate;  // on its floor
    if (none && !of_rails && box.welds.stitch) {
      diagnostics_.add(say<"no-effect">(box.welds.stitch->place, key + "stitch", "no face is closed by a plate"));
    }
    run_together(box.welds.stitch, key);
  }

  /// What stands on its rails does not rise: its height may be off, not where its top is to be.
  void clearance(const BoxSpec& box) {
    if (!box.clearance.top.within) return;
    diagnostics_.add(say<"no-effect">(box.clearance.top.place, fmt::format("within of box.{}.clearance.top", box.name),
                                      "nothing moves up from its rails; leave it out, and say what the items' heights "
                                      "were measured within (item.NAME.size)"));
  }

  /// A slip in closed_by or style is likelier than idle text.
  void face(const std::string& box, Face which, const FaceSpec& face) {
    const std::string key = fmt::format("box.{}.face.{}.", box, to_text(which));
    const bool cover = *face.closed_by == Closure::cover;
    const bool flanged = cover && *face.style == CoverStyle::flanged;
    if (*face.closed_by == Closure::open) idle(face.thickness, key + "thickness", "the face is open");
    if (!cover) not_of_a_cover(key, face);
    if (cover && *face.screws.hole == HoleShape::round)
      idle(face.screws.slot, key + "screws.slot", "the holes are round; give hole = \"slot\"");
    if (!flanged) {
      constexpr std::string_view why = "only a cover of style \"flanged\" has it";
      idle(face.flange_depth, key + "flange_depth", why);
      idle(face.gap, key + "gap", why);
      idle(face.screws.depth, key + "screws.depth", why);
    }
    if (!cover || flanged) {
      idle(face.landing, key + "landing", "only a cover of style \"flat\" has it");
    }
    if (face.seal) seal(face.seal->place, key, face);
    closing(key, face, flanged);
    if (!cover || flanged) idle(face.landing_width, key + "landing_width", "only a cover of style \"flat\" has it");
  }

  /// On a cover it is no slip: who asks for a seal counts on it. `place`: of the seal, be it sound or not.
  void seal(const Place& place, const std::string& key, const FaceSpec& face) {
    if (*face.closed_by != Closure::cover) {
      const bool plate = *face.closed_by == Closure::plate;
      diagnostics_.add(say<"no-effect">(
          place, key + "seal",
          fmt::format("{}; only a flat cover on an outward landing holds one: closed_by = \"cover\" with landing = "
                      "\"outward\" makes it one",
                      plate ? "the face is closed by a plate, whose seams are welded" : "the face is open")));
    } else if (*face.style == CoverStyle::flanged) {
      diagnostics_.add(say<"seal-not-held">(place, key + "seal", "a flanged cover, which laps the frame,",
                                            "style = \"flat\" with landing = \"outward\""));
    } else if (*face.landing == Landing::inward) {
      diagnostics_.add(say<"seal-not-held">(place, key + "seal", "a flat cover on an inward landing",
                                            "landing = \"outward\""));
    }
  }

 private:
  void closing(const std::string& key, const FaceSpec& face, bool flanged) {
    const bool plate = *face.closed_by == Closure::plate;
    if (!plate) idle(face.set, key + "set", "only a plate has it");
    if (!plate && face.stitch) {
      diagnostics_.add(say<"no-effect">(face.stitch->place, key + "stitch", "only a plate has it"));
    }
    run_together(face.stitch, key);
    constexpr std::string_view no_flanges = "only a cover of style \"flanged\" has it";
    constexpr std::string_view no_angle = "only a cover with flanges = \"angle\" has it";
    const bool angle = flanged && *face.flanges == Flanges::angle;
    if (!flanged) idle(face.flanges, key + "flanges", no_flanges);
    if (!flanged) idle(face.notch_gap, key + "notch_gap", no_flanges);
    if (!angle) idle(face.flange_section, key + "flange_section", no_angle);
    if (!angle) idle(face.flange_corners, key + "flange_corners", no_angle);
    if (angle) idle(face.flange_depth, key + "flange_depth", "flanges of angle reach as far as their section");
    if (face.bend && (!flanged || *face.flanges != Flanges::bent)) {
      diagnostics_.add(say<"no-effect">(face.bend->place, key + "bend", "only a cover with flanges = \"bent\" has it"));
    }
  }

  void run_together(const std::optional<StitchSpec>& stitch, const std::string& key) {
    if (!stitch || *stitch->gap <= Length::mm(0) || *stitch->gap >= Length::mm(tables::least_stitch_gap_mm)) return;
    const std::string at_least = diag::at_least_in_units(Length::mm(tables::least_stitch_gap_mm), units_);
    diagnostics_.add(say<"no-effect">(stitch->gap.place, key + "stitch.gap",
                                      fmt::format("a bead needs {} to start and stop (common practice), and elements that "
                                                  "are nearer to each other run together; make it larger, or 0",
                                                  at_least)));
  }

  void not_of_a_cover(const std::string& key, const FaceSpec& face) {
    constexpr std::string_view why = "only a cover has it, and closed_by is not \"cover\"";
    idle(face.style, key + "style", why);
    idle(face.screws.thread, key + "screws.thread", why);
    idle(face.screws.max_spacing, key + "screws.max_spacing", why);
    idle(face.screws.fixing, key + "screws.fixing", why);
    idle(face.screws.hole, key + "screws.hole", why);
    idle(face.screws.slot, key + "screws.slot", why);
    for (const Face edge : all_faces) {
      const auto& at = face.screws.at[static_cast<std::size_t>(edge)];
      if (at) idle(at->places, fmt::format("{}screws.at.{}", key, to_text(edge)), why);
    }
  }

  template <class T>
  void idle(const std::optional<Sourced<T>>& value, std::string_view key, std::string_view why) {
    if (value) idle(*value, key, why);
  }
  template <class T>
  void idle(const Sourced<T>& value, std::string_view key, std::string_view why) {
    if (value.given) diagnostics_.add(say<"no-effect">(value.place, key, why));
  }

  UnitSystem units_;
  Diagnostics& diagnostics_;
};

}  // namespace

void report_slips(const Spec& spec, const Cell& root, Diagnostics& diagnostics) {
  Slips slips(spec.units, diagnostics);
  for (const BoxSpec& box : spec.boxes) {
    const Cell& cell = root["box"][box.name];
    for (std::size_t i = 0; i < box.row.size(); ++i) {
      if (cell["row"].sound) slips.row(box.name, i + 1, box.row[i]);
    }
    if (cell["row"].sound) slips.lines(box);
    slips.welds(box);
    if (box.rod_plates && cell["rod_plates"].sound) slips.rod_plates(box);
    slips.clearance(box);
    for (const Face face : all_faces) {
      const Cell& own = cell["face"][to_text(face)];
      const Cell* seal = own.find("seal");
      if (own.sound) slips.face(box.name, face, box.face(face));
      // `seal = true` is no table; where none can be, that is to be known before its sizes are.
      const bool placed = own["closed_by"].sound && own["style"].sound && own["landing"].sound;
      if (seal != nullptr && !seal->sound && placed)
        slips.seal(seal->place, fmt::format("box.{}.face.{}.", box.name, to_text(face)), box.face(face));
    }
  }
}

}  // namespace fitup::spec
