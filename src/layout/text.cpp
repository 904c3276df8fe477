// The stable text form of a Layout, for reading and for tests.
// Entry: to_text.
#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "fitup/layout.h"

namespace fitup {

namespace {

/// " within 0.5 mm": nothing where the spec does not say how well it was measured.
std::string within(const std::optional<Length>& tolerance) {
  return tolerance ? fmt::format(" within {:.3f}", tolerance->mm()) : std::string();
}

void add_measured(const BoxLayout& box, std::string& out) {
  const ClearanceSpec& c = box.spec->clearance;
  const std::pair<const char*, const Measured&> sides[] = {
      {"left", c.left}, {"right", c.right}, {"front", c.front}, {"back", c.back}, {"top", c.top}};
  for (const auto& [name, measured] : sides) {
    if (measured.within)
      out += fmt::format("  clearance {} {:.3f}{} mm\n", name, measured.value.mm(), within(measured.within));
  }
}

/// Of each kind that stands there once.
void add_measured_items(const BoxLayout& box, std::string& out) {
  std::vector<const ItemSpec*> said;
  for (const PlacedItem& placed : box.items) {
    const ItemSpec& item = *placed.item;
    const bool any = std::any_of(item.size_within.begin(), item.size_within.end(),
                                 [](const auto& tolerance) { return tolerance.has_value(); });
    if (!any || std::find(said.begin(), said.end(), &item) != said.end()) continue;
    said.push_back(&item);
    out += fmt::format("  measured {}:", item.name);
    for (std::size_t i = 0; i < 3; ++i)
      out += fmt::format("{} {:.3f}{}", i == 0 ? "" : ",", (*item.size)[i].mm(), within(item.size_within[i]));
    out += " mm\n";
  }
}

std::string text_of(const PlacedItem& p) {
  const std::string turned = p.quarters == 0 ? std::string() : fmt::format(" turned by {}", 90 * p.quarters);
  const bool other_side = p.from.right || p.from.back;
  const char* given = !p.in_frame  ? ""
                      : other_side ? " (given, from the frame's other side)"
                                   : " (given, frame coordinates)";
  return fmt::format("  item {:<18} at {:.3f}, {:.3f}, {:.3f}{}{}\n", p.name, p.corner.x, p.corner.y, p.corner.z,
                     turned, given);
}

std::string text_of(const FootStrip& s, const BoxLayout& box) {
  return fmt::format("  {} foot strip of {:<18} x {:.3f} to {:.3f}, y {:.3f} to {:.3f}\n", to_text(s.edge),
                     box.items[s.item].name, s.area.low.x, s.area.high.x, s.area.low.y, s.area.high.y);
}

std::string text_of(const PlacedRod& r, const BoxLayout& box) {
  const bool x = r.along_x();
  return fmt::format("  rod {} of {:<18} {} {:.3f} z {:.3f}, {} {:.3f} to {:.3f}\n", r.thread, box.items[r.item].name,
                     x ? "y" : "x", x ? r.low.y : r.low.x, r.low.z, x ? "x" : "y", x ? r.low.x : r.low.y,
                     x ? r.high.x : r.high.y);
}

std::string text_of(const PlacedZone& z, const BoxLayout& box) {
  return fmt::format("  keep clear, {} of {}: x {:.3f} to {:.3f}, y {:.3f} to {:.3f}, z {:.3f} to {:.3f}\n", z.why,
                     box.items[z.item].name, z.box.low.x, z.box.high.x, z.box.low.y, z.box.high.y, z.box.low.z,
                     z.box.high.z);
}

}  // namespace

std::string to_text(const Layout& layout) {
  std::string out;
  for (const BoxLayout& box : layout.boxes) {
    out += fmt::format("box {}: inside {:.3f} x {:.3f} x {:.3f} mm\n", box.spec->name, box.inside.x, box.inside.y,
                       box.inside.z);
    add_measured(box, out);
    add_measured_items(box, out);
    for (const Face f : box.entered) out += fmt::format("  entered through {}\n", to_text(f));
    for (const PlacedItem& p : box.items) out += text_of(p);
    for (const FootStrip& s : box.foot_strips) out += text_of(s, box);
    for (const PlacedRod& r : box.rods) out += text_of(r, box);
    for (const PlacedZone& z : box.zones) out += text_of(z, box);
  }
  return out;
}

}  // namespace fitup
