#pragma once
// What the steps of judging a flat file share.

#include "geometry/narrow.h"
#include "inspect/contours.h"
#include "inspect/meetings.h"
#include "inspect/plates.h"
#include "inspect/report.h"

namespace fitup::inspect {

/// A drawing with everything that was worked out from it.
struct Judged {
  Drawing drawing;
  std::vector<bool> cut_layer;  // by layer: what stands on it would be cut
  Contours contours;
  Meetings meetings;
  Nesting nesting;
};

/// Whether a layer is for marks, bends or notes, by its name (common practice).
[[nodiscard]] bool is_note_layer(std::string_view name);

/// Outlines: closed, drawn once, apart from each other, of lines and arcs.
void judge_outlines(Report& report, const Judged& judged);
/// Everything else that stands in the file: texts, points, blocks, layers that are off.
void judge_rest(Report& report, const Judged& judged);
/// Plates and their cut-outs against the thickness: facts, holes, slots, webs.
void judge_plates(Report& report, const Judged& judged, const InspectOptions& options);

}  // namespace fitup::inspect
