#pragma once
// What a job comes to, part by part: what job.json keeps of a plan, so that two jobs can be set side by side later.

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "fitup/plan.h"
#include "output/totals.h"

namespace fitup::output {

/// Openings, or bends, of one kind and size in one piece of a part.
struct HoleCount {
  std::string what;     // "hole", "cut-out", "drilled hole", "bend of radius"
  std::string purpose;  // "tap M4"
  std::array<double, 2>
      size_mm{};  // of a round one its diameter twice, of a bend its radius, else the sides of its bounds, longer first
  std::size_t count = 0;
  bool operator==(const HoleCount&) const = default;
};

/// One kind of part. Prints are 32 hexadecimal digits that two parts share where what they are of is the same, however
/// the parts are called, marked or turned.
struct PartLine {
  std::string mark;
  std::string name;
  std::string role;    // to_text(Role)
  std::string source;  // to_text(Source)
  std::string material;
  std::string form;                 // "flat", "member", "solid"
  std::string section;              // of a member: "L 40x40x4"
  std::string size;                 // what is ordered of a bought part: "M4 x 8 ISO 7380-1"
  std::array<double, 3> size_mm{};  // flat: thickness as bought, shorter, longer side; member: length; others: x, y, z
  std::size_t quantity = 0;
  bool in_model = true;  // else only in the lists
  double mass_kg = 0;    // of one
  double cut_mm = 0;     // all contours of one
  std::size_t piercings = 0;
  double sawn_mm = 0;  // length of bar in one
  std::vector<HoleCount> holes;
  std::string shape;            // print of its geometry, its material and who makes it
  std::string mirrored;         // print of its mirror image, left for right
  std::string mirrored_across;  // the same, front for back: its arrow to the FRONT points the other way
  std::string outline;          // print without its holes
  std::string places;           // print of where its pieces stand in the frame's coordinates
  bool operator==(const PartLine&) const = default;
};

struct SeamTotals {
  std::size_t count = 0;
  double laid_mm = 0;
  double ground_flush_mm = 0;
  double left_free_mm = 0;
  std::size_t not_worked_out = 0;  // joints
  bool operator==(const SeamTotals&) const = default;
};

struct JobSummary {
  std::vector<PartLine> parts;  // in the plan's order, then what is bought and no part of the model
  SeamTotals seams;
  bool operator==(const JobSummary&) const = default;
};

[[nodiscard]] JobSummary summary_of(const Plan& plan);

}  // namespace fitup::output
