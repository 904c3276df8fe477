#pragma once
// Seams as whoever welds them sees them: what runs on end to end is one, and what is too short to be one goes with
// another.

#include <string>
#include <vector>

#include "fitup/seams.h"
#include "output/units.h"

namespace fitup::output {

/// A bead starts and stops on more than that: a shorter one is run on from its neighbour (common practice).
inline constexpr double least_listed_mm = 10;

/// Seams of one joint, of one kind, size and side, that follow each other on one line and are laid, parts of them
/// perhaps ground flush; or a stretch that is left free, or is intermittent, by itself.
struct ListedSeam {
  std::vector<std::size_t> pieces;  // of Seams::all, from one end to the other
  Vec3 from;
  Vec3 to;
  double length_mm = 0;        // of the path
  double weld_mm = 0;          // of all pieces
  double flush_mm = 0;         // of those that are ground flush
  std::size_t short_ones = 0;  // others of the joint, shorter than least_listed_mm, that are run on with this one
  double short_mm = 0;         // all together
  [[nodiscard]] bool is_short() const { return length_mm < least_listed_mm; }
  [[nodiscard]] bool mixed() const { return flush_mm > 0 && flush_mm < weld_mm; }
};

/// By joint, then by place. Every seam is in one of them, as a piece or as a short one, but what is shorter than 0.5
/// mm: two edges that end at one corner but for the last digit.
[[nodiscard]] std::vector<ListedSeam> listed_seams(const Seams& seams);

/// "5 × 40 (25)": number, length of the elements, and the distance between them, as ISO 2553 writes it. As coarse as on
/// a picture, since it is laid by a rule; empty of a continuous one.
[[nodiscard]] std::string stitch_words(const Seam& seam, const PaperUnits& units);

}  // namespace fitup::output
