// Words of the canonical text, and its lines in order.
// Entry: words, Writer::sorted.

#include "spec/spec_writer.h"

#include <fmt/format.h>

#include <algorithm>

#include "spec/spec_lines.h"

namespace fitup::spec {

std::string words(Length length) { return decimal(length.mm(), 6) + " mm"; }
std::string words(Mass mass) { return decimal(mass.kg(), 9) + " kg"; }
std::string words(bool yes) { return yes ? "true" : "false"; }
std::string words(int number) { return fmt::format("{}", number); }
std::string words(double number) { return fmt::format("{}", number); }
std::string words(const std::string& text) { return "\"" + text + "\""; }
std::string words(Face face) { return std::string(to_text(face)); }
std::string words(OpeningIn in) { return in == OpeningIn::face ? "face" : "rod plate"; }
std::string words(OpeningKind kind) {
  constexpr std::array<std::string_view, 6> names{"round", "rectangle", "slot", "gland", "drain", "hose"};
  return std::string(names[static_cast<std::size_t>(kind)]);
}
std::string words(Making making) { return std::string(error_of(making).word); }

std::string words(FinishKind kind) {
  constexpr std::array<std::string_view, 4> names{"none", "paint", "powder", "zinc"};
  return std::string(names[static_cast<std::size_t>(kind)]);
}
std::string words(UnitSystem units) { return units == UnitSystem::mm_kg ? "mm" : "in"; }
std::string words(DxfRelease release) { return release == DxfRelease::r2000 ? "r2000" : "r12"; }
std::string words(Corners corners) {
  return corners == Corners::coped ? "coped" : corners == Corners::butted ? "butted" : "mitred";
}
std::string words(LongSide side) { return side == LongSide::standing ? "standing" : "flat"; }
std::string words(Slope slope) { return slope == Slope::none ? "none" : slope == Slope::rising ? "rising" : "falling"; }
std::string words(Legs legs) { return legs == Legs::down ? "down" : "up"; }
std::string words(CoverStyle style) { return style == CoverStyle::flat ? "flat" : "flanged"; }
std::string words(HoleClass hole) {
  return hole == HoleClass::close ? "close" : hole == HoleClass::medium ? "medium" : "loose";
}
std::string words(Fixing fixing) {
  return fixing == Fixing::none ? "none" : fixing == Fixing::bolted ? "bolted" : "welded";
}
std::string words(Closure closure) {
  return closure == Closure::open ? "open" : closure == Closure::plate ? "plate" : "cover";
}

std::string words(BuildKind build) { return build == BuildKind::plate ? "plate" : "framed"; }
std::string words(Tabs tabs) { return tabs == Tabs::short_of ? "short" : tabs == Tabs::flush ? "flush" : "proud"; }
std::string words(FloorKind floor) { return floor == FloorKind::tray ? "tray" : "flat"; }
std::string words(WeldSides sides) { return sides == WeldSides::clear ? "clear" : "all"; }
std::string words(Landing landing) { return landing == Landing::inward ? "inward" : "outward"; }
std::string words(PlateSet set) {
  return set == PlateSet::outside ? "outside" : set == PlateSet::inside ? "inside" : "inset";
}
std::string words(Flanges flanges) {
  return flanges == Flanges::flat ? "flat" : flanges == Flanges::angle ? "angle" : "bent";
}
std::string words(FlangeCorners corners) {
  return corners == FlangeCorners::mitred ? "mitred" : corners == FlangeCorners::butted ? "butted" : "coped";
}
std::string words(BoltedTo bolted) {
  return bolted == BoltedTo::this_box ? "this" : bolted == BoltedTo::other_box ? "other" : "neither";
}
std::string words(ScrewFixing fixing) {
  constexpr std::array<std::string_view, 6> names{"tapped", "nut", "locknut", "weld nut", "insert", "nut strip"};
  return std::string(names[static_cast<std::size_t>(fixing)]);
}
std::string words(Vents vents) { return vents == Vents::none ? "none" : "ends"; }
std::string words(HoleShape shape) { return shape == HoleShape::round ? "round" : "slot"; }
std::string words(RodWasher washer) { return washer == RodWasher::plain ? "plain" : "large"; }
std::string words(MountKind kind) { return kind == MountKind::plate ? "plate" : "angle"; }
std::string words(Along along) {
  return along == Along::left_right ? "left right" : along == Along::front_back ? "front back" : "top bottom";
}

std::string Writer::sorted() {
  std::sort(lines_.begin(), lines_.end());
  std::string out;
  for (const std::string& line : lines_) out += line + "\n";
  return out;
}

std::string numbered(const std::string& key, std::size_t index) { return fmt::format("{}.{:03}", key, index + 1); }

}  // namespace fitup::spec
