// How plates and the flanges of covers are made, from checked cells.
// Entry: read_closing, choose_flanges.

#include "spec/build_closing.h"

#include <algorithm>

namespace fitup::spec {

namespace {

/// The enumerator whose word was written: the words are those of the key table, in its order.
template <class E>
Sourced<E> word(const Cell& cell, std::initializer_list<std::string_view> words) {
  const auto written = cell.get<std::string>();
  Sourced<E> out{E{}, written.place, written.given};
  int index = 0;
  for (const std::string_view name : words) {
    if (name == *written) out.value = static_cast<E>(index);
    ++index;
  }
  return out;
}

template <class T>
std::optional<Sourced<T>> optional(const Cell* cell) {
  if (cell == nullptr) return std::nullopt;
  return cell->get<T>();
}

}  // namespace

void read_closing(const Cell& cell, FaceSpec& face) {
  face.set = word<PlateSet>(cell["set"], {"outside", "inside", "inset"});
  face.flanges = word<Flanges>(cell["flanges"], {"flat", "angle", "bent"});
  face.flange_section = cell["flange_section"].get<std::string>();
  face.flange_corners = word<FlangeCorners>(cell["flange_corners"], {"mitred", "butted", "coped"});
  face.notch_gap = cell["notch_gap"].get<Length>();
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
