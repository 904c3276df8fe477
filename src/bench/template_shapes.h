#pragma once
// What a template shows, at true size and before it is known on which pages: flat parts as they are, members with their
// outer faces unfolded about the heel.

#include <string>
#include <vector>

#include "bench/sheet.h"
#include "fitup/plan.h"
#include "output/units.h"

namespace fitup::bench {

/// A centre to punch, or the middle of what two of them make.
struct Centre {
  Vec2 at;
  double diameter_mm = 0;
  std::string words;   // size and purpose; empty: another centre says it
  double slot_mm = 0;  // of a slot's middle: from the centre at one end to that at the other, level on the page
  bool to_punch = true;
};

/// Millimetres, y down; bounds from the origin on.
struct TemplateShape {
  std::string title;            // "PLT20 side plate"
  std::string how;              // how it lies on the part
  std::vector<Stroke> strokes;  // outlines, bend lines
  std::vector<Centre> centres;  // of a member one for each hole in its order, then the ends of its slots
  Vec2 size;
};

/// A flat part, seen as in its cut file, with the middles of its bends; its left and lower edges are the datum.
[[nodiscard]] TemplateShape flat_template(const Part& part, const output::PaperUnits& units);

/// The outer faces of a member as one sheet of paper to lay round it: across the sheet go leg B, the heel, leg A; of a
/// tube then the sides opposite B and A. As wide as the section is round, measured on its outside: an angle's two legs,
/// a tube's circumference with its round corners. Of an angle with square ends that is marked on one leg, that leg
/// alone.
[[nodiscard]] TemplateShape wrap_template(const Part& part, const output::PaperUnits& units);

/// What is kept of a leg as it is seen from outside, as `kept_outline` counts: a mitre moves the corners of a square
/// end. Precondition: no tube.
[[nodiscard]] std::vector<Vertex> outer_outline(const Member& member, Leg leg);

/// How wide that sheet is.
[[nodiscard]] double developed_mm(const Section& section);

/// Whether there is anything on the member to mark: a hole, or an end that is not square.
[[nodiscard]] bool wants_template(const Member& member);

}  // namespace fitup::bench
