#pragma once
// What flanged covers take of the faces beside them, decided from the spec and the frame before any of them stands.
// Private to the plan.

#include <string>

#include "plan/build.h"

namespace fitup::plan {

/// How a flanged cover ends towards a neighbouring face. laps: its flange lies over that face. behind: the neighbour's
/// flange lies over this one, and the sheet begins behind it. level: the sheet ends with the frame.
enum class CoverEdge { laps, behind, level };
[[nodiscard]] CoverEdge edge_of(const BoxSpec& box, Face cover, Face neighbour);

/// Of two flanged covers that meet, the one with the lower rank laps the other.
[[nodiscard]] int flange_rank(Face face);

/// From the neighbour's side, what its flange takes of this face with a little room behind it; 0 if none laps it.
[[nodiscard]] double lapped_mm(const BoxSpec& box, Face face, Face neighbour);

/// From the frame's edge to that of a sheet where nothing laps it: 2 mm, and less on thin walls, so that the sheet
/// still lies on a millimetre of them (common practice).
[[nodiscard]] double hold_back_mm(const Shell& shell);

/// From the face of the frame to the row of screws of that cover's flange, at least: clear of rounded corners of the
/// uprights, with steel round the thread.
[[nodiscard]] double least_flange_row_mm(const Build& build, Face face);

/// From a tube's side to where the axis of a screw of that cover may stand, at least: its wall is flat beside the hole.
/// 0 of anything else.
[[nodiscard]] double beside_round_mm(const Build& build, Face face, const Host& host);

/// How the flange of that cover may be made to reach no farther than `most_mm` over the frame, by the key that decides
/// it: "a flange_depth of at most 33 mm". Empty where there is no such flange.
[[nodiscard]] std::string shallower_flange(const Build& build, Face cover, double most_mm);

/// What mends a row of that cover beside `neighbour`, whose flange takes so much that `lacking_mm` of steel are
/// missing.
[[nodiscard]] std::string more_room_for_row(const Build& build, Face cover, Face neighbour, double lacking_mm);

/// Whether a sheet on the left or the right lies on the sawn end of a ring's front or back member, which is an angle:
/// on one of its two legs. True of anything else.
[[nodiscard]] bool meets_end(const Build& build, Face face, const Host& host, const Box3& sheet);

/// Whether strips for the flange of the left or the right face's cover stand in the opening of the front or the back.
[[nodiscard]] bool needs_strip(const Build& build, Face end, Face side);

}  // namespace fitup::plan
