// The holes and cut-outs of a part.
// Entry: feature_rows.

#include "bench/feature_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "bench/outline_sizes.h"
#include "bench/template_shapes.h"
#include "output/flat_drawing.h"

namespace fitup::bench {
namespace {

using output::PaperUnits;

/// A feature by itself, before like ones are put on one line.
struct Feature {
  std::string size;
  std::string level;
  double level_mm = 0;
  double along_mm = 0;
  ViewSlot view = ViewSlot::front;
  bool far = false;
  Vec2 at;
  bool upright = false;
};

std::string level_of(const Member& member, const MemberHole& hole, const PaperUnits& units) {
  const std::string across = units.length(hole.across_mm);
  const bool a = hole.leg == Leg::a;
  switch (member.section.shape) {
    case SectionShape::flat: return across + " from the edge";
    case SectionShape::angle: return fmt::format("leg {}, {} from the heel", a ? "A" : "B", across);
    case SectionShape::tube:
      return fmt::format("side {}{}, {} from side {}", hole.far_wall ? "opposite " : "", a ? "A" : "B", across,
                         a ? "B" : "A");
  }
  return across;
}

std::vector<Feature> features_of_member(const Part& part, const PaperUnits& units) {
  const auto& member = std::get<Member>(part.form);
  const TemplateShape shape = wrap_template(part, units);
  std::vector<Feature> all;
  for (std::size_t i = 0; i < member.holes.size(); ++i) {
    const MemberHole& hole = member.holes[i];
    const Vec2 at{hole.along_mm, across_on_view_mm(member.section, hole.leg, hole.across_mm)};
    std::string words = shape.centres[i].words;
    if (hole.slot_mm > 0) {
      words += fmt::format("; drill {} at {} to either side of it, saw out the rest", units.length(hole.diameter_mm),
                           units.length(hole.slot_mm / 2));
    }
    all.push_back({words, level_of(member, hole, units), hole.across_mm, hole.along_mm,
                   hole.leg == Leg::a ? ViewSlot::front : ViewSlot::beside, hole.far_wall, at});
  }
  for (const MemberNotch& n : member.notches) {
    const double toe = n.leg == Leg::a ? member.section.leg_a_mm : member.section.leg_b_mm;
    const Vec2 at{n.from_mm, across_on_view_mm(member.section, n.leg, toe)};
    all.push_back({fmt::format("notch {} long, {} deep, its beginning", units.length(n.to_mm - n.from_mm),
                               units.length(n.depth_mm)),
                   fmt::format("leg {}, at its toe", n.leg == Leg::a ? "A" : "B"), toe, n.from_mm,
                   n.leg == Leg::a ? ViewSlot::front : ViewSlot::beside, false, at});
  }
  return all;
}

std::string cut_out_words(const Loop& hole, const PaperUnits& units) {
  const CutOut what = cut_out(hole);
  const Vec2 size = hole.bounds().size();
  const std::string sizes = fmt::format("{} x {}", units.length(size.x), units.length(size.y));
  const std::string radius = units.length(what.radius_mm);
  switch (what.kind) {
    case CutOut::Kind::circle: return "Ø" + units.length(2 * what.radius_mm);
    case CutOut::Kind::slot: return fmt::format("slot {}, its middle", sizes);
    case CutOut::Kind::rectangle:
      if (what.relief) return fmt::format("slot {} with its corners' R {}, its middle", sizes, radius);
      if (what.radius_mm > 0) return fmt::format("cut-out {}, corners R {}, its middle", sizes, radius);
      return fmt::format("cut-out {}, its middle", sizes);
    case CutOut::Kind::other: break;
  }
  return fmt::format("cut-out {} over all, the middle of that", sizes);
}

/// Cut-outs that are no circles are located by the middle of their bounds.
std::vector<Feature> features_of_flat(const Part& part, const PaperUnits& units, bool upright) {
  const auto& flat = std::get<Flat>(part.form);
  const TemplateShape shape = flat_template(part, units);
  std::vector<Feature> all;
  const auto add = [&](std::string size, Vec2 at) {
    const double up = shape.size.y - at.y;
    if (upright) {
      all.push_back(
          {std::move(size), units.length(at.x) + " from the left edge", at.x, up, ViewSlot::front, false, at, true});
    } else {
      all.push_back({std::move(size), units.length(up) + " from the lower edge", up, at.x, ViewSlot::front, false, at});
    }
  };
  for (const Centre& centre : shape.centres) add(centre.words, centre.at);
  for (const Loop& hole : output::profile_at_origin(flat).holes) {
    if (hole.as_circle()) continue;
    const Vec2 middle = hole.bounds().middle();
    add(cut_out_words(hole, units), {middle.x, shape.size.y - middle.y});
  }
  return all;
}

/// A, B, ... Z, AA, AB
std::string letters(std::size_t index) {
  std::string out(1, static_cast<char>('A' + index % 26));
  return index < 26 ? out : letters(index / 26 - 1) + out;
}

using Line = std::vector<Feature>;

/// Like features at one level, in order.
std::vector<Line> lines_of(std::vector<Feature> all) {
  std::map<std::pair<std::string, std::string>, Line> by_line;
  for (Feature& feature : all) by_line[{feature.size, feature.level}].push_back(std::move(feature));
  std::vector<Line> lines;
  for (auto& [key, line] : by_line) {
    std::sort(line.begin(), line.end(), [](const Feature& a, const Feature& b) { return a.along_mm < b.along_mm; });
    lines.push_back(std::move(line));
  }
  return lines;
}

FeatureRow row_of(const Line& line, std::string letter) {
  FeatureRow row;
  row.name = line.size() == 1 ? letter : fmt::format("{0}1 to {0}{1}", letter, line.size());
  row.letter = std::move(letter);
  row.size = line[0].size;
  row.level = line[0].level;
  row.view = line[0].view;
  row.far = line[0].far;
  row.upright = line[0].upright;
  for (const Feature& feature : line) {
    row.along_mm.push_back(feature.along_mm);
    row.at.push_back(feature.at);
  }
  return row;
}

}  // namespace

double across_on_view_mm(const Section& section, Leg leg, double across_mm) {
  return leg == Leg::a ? across_mm : section.leg_b_mm - across_mm;
}

std::string FeatureRow::name_of(std::size_t index) const {
  return at.size() == 1 ? letter : fmt::format("{}{}", letter, index + 1);
}

std::vector<FeatureRow> feature_rows(const Part& part, const PaperUnits& units) {
  if (std::holds_alternative<Solidform>(part.form)) return {};
  std::vector<Line> lines;
  if (std::holds_alternative<Member>(part.form)) {
    lines = lines_of(features_of_member(part, units));
  } else {
    const Vec2 size = std::get<Flat>(part.form).profile.bounds().size();
    lines = lines_of(features_of_flat(part, units, size.y > size.x));
    auto others = lines_of(features_of_flat(part, units, size.y <= size.x));
    if (others.size() < lines.size()) lines = std::move(others);
  }
  std::sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) {
    return std::tie(a[0].size, a[0].level_mm, a[0].level) < std::tie(b[0].size, b[0].level_mm, b[0].level);
  });
  std::vector<FeatureRow> rows;
  for (const Line& line : lines) rows.push_back(row_of(line, letters(rows.size())));
  return rows;
}

}  // namespace fitup::bench
