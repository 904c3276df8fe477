// How plates and the flanges of covers are made, from checked cells.
// Entry: read_closing, choose_flanges.

#include "spec/build_closing.h"

#include <algorithm>

#include "spec/build_welds.h"
#include "spec/from_cell.h"

namespace fitup::spec {

void read_closing(const Cell& cell, FaceSpec& face) {
  face.set = word<PlateSet>(cell["set"], {"outside", "inside", "inset"});
  face.flanges = word<Flanges>(cell["flanges"], {"flat", "angle", "bent"});
  face.flange_section = cell["flange_section"].get<std::string>();
  face.flange_corners = word<FlangeCorners>(cell["flange_corners"], {"mitred", "butted", "coped"});
  face.notch_gap = cell["notch_gap"].get<Length>();
  face.stitch = read_stitch(cell);
  if (const Cell* bend = cell.find("bend")) {
    face.bend = BendSpec{bend->place, optional<Length>(bend->find("radius")), optional<double>(bend->find("k"))};
  }
}

void choose_flanges(const Spec& spec, BoxSpec& box) {
  for (FaceSpec& face : box.faces) {
    const bool flanged = *face.closed_by == Closure::cover && *face.style == CoverStyle::flanged;
    const Section* section = spec.section(*face.flange_section);
    if (!flanged || *face.flanges != Flanges::angle || section == nullptr) continue;
    const double reach = section->leg_b_mm - section->thickness_mm - face.thickness->mm();
    face.flange_depth = {Length::mm(std::max(reach, 0.0)), face.flange_section.place, false};
  }
}

}  // namespace fitup::spec
