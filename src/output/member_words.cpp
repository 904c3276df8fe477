// What is sawn and drilled on a member, in words and numbers for the bench.
// Entry: end_words, hole_words.

#include "output/member_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <tuple>
#include <vector>

namespace fitup::output {
namespace {

constexpr double same_mm = 1e-6;

bool is_square(const LegCut& cut) {
  return cut.corners.empty() &&
         std::all_of(cut.steps.begin(), cut.steps.end(), [](const CutStep& s) { return s.set_back_mm < same_mm; });
}

std::string corner_words(const CutCorner& corner, const PaperUnits& units) {
  const std::string size = units.length(corner.size_mm);
  const std::string at = units.length(corner.at_mm);
  if (corner.kind == CornerKind::chamfer) return fmt::format("corner at {} as a chamfer {} x 45 degrees", at, size);
  return fmt::format("corner at {} with radius {}", at, size);
}

std::string leg_words(std::string_view leg, const LegCut& cut, const PaperUnits& units) {
  const bool whole = cut.steps.size() == 1;
  if (whole && cut.corners.empty()) {
    return fmt::format("{} removed for {} from the end", leg, units.length(cut.steps.front().set_back_mm));
  }
  std::string text = fmt::format("{}: ", leg);
  bool first = true;
  const auto add = [&](const std::string& piece) {
    text += (first ? "" : ", ") + piece;
    first = false;
  };
  for (const CutStep& step : cut.steps) {
    if (step.set_back_mm < same_mm) continue;
    add(fmt::format("back {} over {} to {} from the heel", units.length(step.set_back_mm), units.length(step.from_mm),
                    units.length(step.to_mm)));
  }
  for (const CutCorner& corner : cut.corners) {
    if (corner.kind != CornerKind::square) add(corner_words(corner, units));
  }
  return text;
}

/// A tapped hole is drilled at the bit's own size, any other is a hole of the list's units.
std::string drill_words(const MemberHole& hole, const PaperUnits& units) {
  if (hole.kind == HoleKind::tapped) {
    return fmt::format("drill {}{}{}", units.drill(hole.diameter_mm), hole.purpose.empty() ? "" : ", ", hole.purpose);
  }
  const std::string purpose = hole.purpose.empty() ? "" : fmt::format(" ({})", hole.purpose);
  if (hole.slot_mm > 0) {
    return fmt::format("a slot {} wide, {} long{}, drilled {} to either side of its middle and sawn out",
                       units.length(hole.diameter_mm), units.length(hole.diameter_mm + hole.slot_mm), purpose,
                       units.length(hole.slot_mm / 2));
  }
  return fmt::format("{} wide{}", units.length(hole.diameter_mm), purpose);
}

/// Holes on one line of one leg are one setting of the fence: same leg, same distance from the heel as it is
/// printed, same drill.
struct HoleLine {
  Leg leg = Leg::a;
  bool far = false;
  double across_mm = 0;
  std::string across;
  std::string drill;
  std::vector<double> along_mm;
};

std::vector<HoleLine> hole_lines(const Member& member, const PaperUnits& units) {
  std::vector<HoleLine> lines;
  for (const MemberHole& hole : member.holes) {
    const HoleLine wanted{
        hole.leg, hole.far_wall, hole.across_mm, units.length(hole.across_mm), drill_words(hole, units), {}};
    auto found = std::find_if(lines.begin(), lines.end(), [&](const HoleLine& line) {
      return std::tie(line.leg, line.far, line.across, line.drill) ==
             std::tie(wanted.leg, wanted.far, wanted.across, wanted.drill);
    });
    if (found == lines.end()) found = lines.insert(lines.end(), wanted);
    found->along_mm.push_back(hole.along_mm);
  }
  for (HoleLine& line : lines) std::sort(line.along_mm.begin(), line.along_mm.end());
  std::sort(lines.begin(), lines.end(), [](const HoleLine& a, const HoleLine& b) {
    return std::tie(a.leg, a.far, a.across_mm, a.drill) < std::tie(b.leg, b.far, b.across_mm, b.drill);
  });
  return lines;
}

/// "leg A, 20 mm from the heel", "side opposite B, 20 mm from side A"
std::string line_words(const HoleLine& line, SectionShape shape, const PaperUnits& units) {
  const std::string across = units.length(line.across_mm);
  const bool a = line.leg == Leg::a;
  if (shape == SectionShape::flat) return across + " from the edge";
  if (shape == SectionShape::angle) return fmt::format("leg {}, {} from the heel", a ? "A" : "B", across);
  return fmt::format("side {}{}, {} from side {}", line.far ? "opposite " : "", a ? "A" : "B", across, a ? "B" : "A");
}

}  // namespace

std::string end_words(const EndCut& cut, const Section& section, const PaperUnits& units) {
  if (cut.mitre && section.shape == SectionShape::tube) {
    return *cut.mitre == Leg::a ? "mitre 45 degrees through the tube, long at side B, shorter along side A"
                                : "mitre 45 degrees through the tube, long at side A, shorter along side B";
  }
  if (cut.mitre) {
    return fmt::format("mitre 45 degrees through both legs, long at the heel, shorter along leg {}",
                       *cut.mitre == Leg::a ? "A" : "B");
  }
  const bool flat = section.shape == SectionShape::flat;
  std::string text;
  for (const auto& [name, leg] : {std::pair{flat ? "bar" : "leg A", &cut.a}, std::pair{"leg B", &cut.b}}) {
    if (leg->steps.empty() || is_square(*leg)) continue;
    text += (text.empty() ? "" : "; ") + leg_words(name, *leg, units);
  }
  return text.empty() ? "square" : text;
}

std::string hole_words(const Member& member, const PaperUnits& units, Along along) {
  const auto place = [&](double mm) { return along == Along::by_tape ? units.drawn(mm) : units.length(mm); };
  std::string text;
  for (const MemberNotch& n : member.notches) {
    text += fmt::format("{}leg {}: notch from {} to {} from the start, {} deep from the toe", text.empty() ? "" : "; ",
                        n.leg == Leg::a ? "A" : "B", units.length(n.from_mm), units.length(n.to_mm),
                        units.length(n.depth_mm));
  }
  for (const HoleLine& line : hole_lines(member, units)) {
    const std::size_t count = line.along_mm.size();
    text += fmt::format("{}{}: {} hole{}, {}, at ", text.empty() ? "" : "; ",
                        line_words(line, member.section.shape, units), count, count == 1 ? "" : "s", line.drill);
    for (std::size_t i = 0; i < count; ++i) text += (i == 0 ? "" : ", ") + place(line.along_mm[i]);
    text += " from the start";
  }
  return text;
}

std::string reading_words(const Member& member) {
  // The section is drawn in x-y and runs along z from the start: seen so by who looks at the end cut.
  const std::string seen = "seen with the end cut towards you and the start cut away from you";
  if (member.section.shape == SectionShape::flat) {
    return member.holes.empty() ? "" : seen + ", the thickness below: widths count from the left";
  }
  if (member.section.shape == SectionShape::tube) {
    const bool mitred = member.start.mitre || member.end.mitre;
    return member.holes.empty() && !mitred ? "" : seen + ": side A is below, side B at the left";
  }
  return seen + ", the heel at the lower left: leg A lies to the right, leg B stands up";
}

}  // namespace fitup::output
