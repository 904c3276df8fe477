// The stable text form of a Layout, for reading and for tests.
// Entry: to_text.
#include <fmt/format.h>

#include "fitup/layout.h"

namespace fitup {

std::string to_text(const Layout& layout) {
  std::string out;
  const auto line = [&out](const std::string& s) { out += s + "\n"; };
  for (const BoxLayout& box : layout.boxes) {
    line(fmt::format("box {}: inside {:.3f} x {:.3f} x {:.3f} mm", box.spec->name, box.inside.x, box.inside.y,
                     box.inside.z));
    for (const Face f : box.entered) line(fmt::format("  entered through {}", to_text(f)));
    for (const PlacedItem& p : box.items) {
      line(fmt::format("  item {:<18} at {:.3f}, {:.3f}, {:.3f}{}", p.name, p.corner.x, p.corner.y, p.corner.z,
                       !p.in_frame                   ? ""
                       : p.from.right || p.from.back ? " (given, from the frame's other side)"
                                                     : " (given, frame coordinates)"));
    }
    for (const FootStrip& s : box.foot_strips) {
      line(fmt::format("  {} foot strip of {:<18} x {:.3f} to {:.3f}, y {:.3f} to {:.3f}", to_text(s.edge),
                       box.items[s.item].name, s.area.low.x, s.area.high.x, s.area.low.y, s.area.high.y));
    }
    for (const PlacedRod& r : box.rods) {
      line(fmt::format("  rod {} of {:<18} x {:.3f} z {:.3f}, y {:.3f} to {:.3f}", r.thread, box.items[r.item].name,
                       r.x, r.z, r.front_y, r.back_y));
    }
    for (const PlacedZone& z : box.zones) {
      line(fmt::format("  keep clear, {} of {}: x {:.3f} to {:.3f}, y {:.3f} to {:.3f}, z {:.3f} to {:.3f}", z.why,
                       box.items[z.item].name, z.box.low.x, z.box.high.x, z.box.low.y, z.box.high.y, z.box.low.z,
                       z.box.high.z));
    }
  }
  return out;
}

}  // namespace fitup
