// How a box is built, and its sheets, from checked cells.
// Entry: read_plates, check_build.

#include "spec/build_plates.h"

#include <array>
#include <utility>

#include <fmt/format.h>

#include "diag/catalogue.h"

namespace fitup::spec {

namespace {

using diag::say;

std::optional<Sourced<Length>> length(const Cell* cell) {
  return cell == nullptr ? std::nullopt : std::optional(cell->get<Length>());
}

void read_floor(const Cell& plates, BoxSpec& box) {
  const auto floor = plates["floor"].get<std::string>();
  box.plates.floor = {*floor == "tray" ? FloorKind::tray : FloorKind::flat, floor.place, floor.given};
  box.plates.tray_depth = length(plates.find("tray_depth"));
  if (const Cell* bend = plates.find("bend")) {
    box.plates.bend = BendSpec{bend->place, length(bend->find("radius")), std::nullopt};
    if (const Cell* k = bend->find("k")) box.plates.bend->k = k->get<double>();
  }
}

template <class Idle>
void check_floor(const BoxSpec& box, const Idle& idle) {
  const Sourced<Legs>& legs = box.frame.bottom_legs;
  if (*box.plates.floor == FloorKind::tray) {
    if (legs.given && *legs == Legs::down) idle(legs.place, ".frame.bottom_legs", "the edges of a tray stand up");
    return;
  }
  constexpr const char* why = "the floor is a flat plate; say floor = \"tray\" to bend its edges up";
  if (box.plates.tray_depth) idle(box.plates.tray_depth->place, ".plates.tray_depth", why);
  if (box.plates.bend) idle(box.plates.bend->place, ".plates.bend", why);
}

// Under a base ring a plate is laid on at the bottom; elsewhere the box's own one closes what is closed by a plate.
template <class Idle>
void check_walls(const BoxSpec& box, const Idle& idle) {
  for (const Face face : all_faces) {
    const FaceSpec& f = box.face(face);
    const bool laid_on = face == Face::bottom && box.plates.base_ring;
    if (*f.closed_by != Closure::plate || laid_on) continue;
    const std::string key = fmt::format(".face.{}", to_text(face));
    if (f.set.given) idle(f.set.place, key + ".set", "the box's own plate closes it, level with its edges");
    // What another file says of it was meant for a frame.
    if (f.thickness.given && f.thickness.place.source == box.build.place.source) {
      idle(f.thickness.place, key + ".thickness",
           "the box's own plate closes it, and all of these are of one thickness; say plates.thickness");
    }
  }
}

}  // namespace

void read_plates(const Cell& cell, BoxSpec& box) {
  const auto build = cell["build"].get<std::string>();
  box.build = {*build == "plate" ? BuildKind::plate : BuildKind::framed, build.place, build.given};
  const Cell& plates = cell["plates"];
  box.plates.place = plates.place;
  box.plates.thickness = length(plates.find("thickness"));
  box.plates.border = length(plates.find("border"));
  if (const Cell* ring = plates.find("base_ring")) box.plates.base_ring = ring->get<std::string>();
  const auto tabs = plates["tabs"].get<std::string>();
  box.plates.tabs = {*tabs == "flush"   ? Tabs::flush
                     : *tabs == "proud" ? Tabs::proud
                                        : Tabs::short_of,
                     tabs.place, tabs.given};
  read_floor(plates, box);
}

void check_build(const BoxSpec& box, Diagnostics& diagnostics) {
  const std::string of_box = "box." + box.name;
  const auto idle = [&](const Place& place, const std::string& key, const char* why) {
    diagnostics.add(say<"no-effect">(place, of_box + key, why));
  };
  if (*box.build == BuildKind::framed) {
    constexpr const char* why = "the box is framed; say build = \"plate\" to build it from plates";
    if (box.plates.thickness) idle(box.plates.thickness->place, ".plates.thickness", why);
    if (box.plates.border) idle(box.plates.border->place, ".plates.border", why);
    if (box.plates.base_ring) idle(box.plates.base_ring->place, ".plates.base_ring", why);
    if (box.plates.tabs.given) idle(box.plates.tabs.place, ".plates.tabs", why);
    if (box.plates.floor.given) idle(box.plates.floor.place, ".plates.floor", why);
    if (box.plates.tray_depth) idle(box.plates.tray_depth->place, ".plates.tray_depth", why);
    if (box.plates.bend) idle(box.plates.bend->place, ".plates.bend", why);
    return;
  }
  check_floor(box, idle);
  constexpr const char* why = "the box is built from plates, which have no such members";
  const FrameSpec& frame = box.frame;
  if (frame.cross_bars) idle(frame.cross_bars->place, ".frame.cross_bars", why);
  if (frame.braces) idle(frame.braces->place, ".frame.braces", why);
  check_walls(box, idle);
}

}  // namespace fitup::spec
