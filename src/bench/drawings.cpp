// One sheet a part.
// Entry: drawings_paper, feature_rows.

#include "bench/drawings.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "bench/dimension.h"
#include "bench/flow.h"
#include "bench/strip.h"
#include "bench/template_shapes.h"
#include "output/finish_words.h"
#include "output/flat_drawing.h"
#include "output/member_words.h"
#include "output/part_notes.h"
#include "output/paths.h"

namespace fitup::bench {
namespace {

using output::PaperUnits;

constexpr const char* paper_name = "Drawings";
constexpr double view_height_mm = 88;
constexpr double around_mm = 20;  // of the view, for its dimensions
constexpr double note_mm = 2.9;
constexpr double cross_mm = 2;  // beyond the edge of a hole

/// A feature by itself, before like ones are put on one line.
struct Feature {
  std::string size;
  std::string level;
  double level_mm = 0;
  double along_mm = 0;
  Vec2 at;
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
    all.push_back({shape.centres[i].words, level_of(member, hole, units), shape.centres[i].at.y, hole.along_mm,
                   shape.centres[i].at});
  }
  return all;
}

/// Cut-outs that are no circles are located by the middle of their bounds.
std::vector<Feature> features_of_flat(const Part& part, const PaperUnits& units) {
  const auto& flat = std::get<Flat>(part.form);
  const TemplateShape shape = flat_template(part, units);
  std::vector<Feature> all;
  const auto add = [&](std::string size, Vec2 at) {
    const double up = shape.size.y - at.y;
    all.push_back({std::move(size), units.length(up) + " from the lower edge", up, at.x, at});
  };
  for (const Centre& centre : shape.centres) add(centre.words, centre.at);
  for (const Loop& hole : output::profile_at_origin(flat).holes) {
    if (hole.as_circle()) continue;
    const Box2 box = hole.bounds();
    const Vec2 middle = box.middle();
    add(fmt::format("cut-out {} x {}, its middle", units.length(box.size().x), units.length(box.size().y)),
        {middle.x, shape.size.y - middle.y});
  }
  return all;
}

/// A, B, ... Z, AA, AB
std::string letters(std::size_t index) {
  std::string out(1, static_cast<char>('A' + index % 26));
  return index < 26 ? out : letters(index / 26 - 1) + out;
}

class DrawingSheets {
 public:
  DrawingSheets(const Plan& plan, const JobInfo& info, const Type& type)
      : plan_(plan), info_(info), units_(info.units), type_(type), count_(output::quantities(plan)) {
    paper_.name = paper_name;
    strip_mm_ = strip_height_mm(info, paper_name, type, info.bench.paper, true);
  }

  Paper made() {
    std::vector<PartId> ids;
    for (PartId id = 0; id < plan_.parts.size(); ++id) {
      const Part& part = plan_.parts[id];
      const bool member = part.source == Source::sawn && std::holds_alternative<Member>(part.form);
      if (member || output::is_cut(part)) ids.push_back(id);
    }
    std::sort(ids.begin(), ids.end(), [&](PartId a, PartId b) { return plan_.parts[a].mark < plan_.parts[b].mark; });
    for (const PartId id : ids) add(id);
    add_strips(paper_, info_, type_);
    return std::move(paper_);
  }

 private:
  void add(PartId id) {
    const Part& part = plan_.parts[id];
    Flow flow(paper_, type_, info_.bench.paper, true, strip_mm_);
    const auto* member = std::get_if<Member>(&part.form);
    const TemplateShape shape = member ? wrap_template(part, units_) : flat_template(part, units_);
    flow.heading(fmt::format("{} {}", part.mark, part.name));
    flow.sentence(about(id));
    view(flow, part, shape, member != nullptr);
    notes(flow, id, member);
    features(flow, part);
  }

  [[nodiscard]] std::string about(PartId id) const {
    const Part& part = plan_.parts[id];
    const auto* member = std::get_if<Member>(&part.form);
    const std::string stock =
        member ? member->section.designation
               : fmt::format("{} {} thick", units_.length(std::get<Flat>(part.form).bought_mm()), units_.length());
    return fmt::format("{}, {}; {} of it, {} {} each. Lengths in {}. {}. {}", part.material, stock, count_[id],
                       units_.mass(part.mass_kg), units_.mass(), units_.length(), output::tolerance_note(plan_, id),
                       member ? unfolded(member->section) : "Seen as in its cut file.");
  }

  static std::string unfolded(const Section& section) {
    switch (section.shape) {
      case SectionShape::angle:
        return "Both legs from outside, unfolded about the heel (chain line): leg B above, leg A below, the start at "
               "the "
               "left.";
      case SectionShape::tube:
        return "All sides from outside, unfolded: from above side B, A, opposite B, opposite A, the start at the left.";
      case SectionShape::flat: return "The start at the left, the edge from which widths count above.";
    }
    return {};
  }

  void view(Flow& flow, const Part& part, const TemplateShape& shape, bool member) {
    const Box2 room = flow.room(view_height_mm);
    Page& page = flow.page();
    const Vec2 free = room.size() - Vec2{2 * around_mm, 30};
    const Scale scale = scale_for(shape.size, free);
    page.scale = scale.words;
    const Vec2 drawn = scale.factor * shape.size;
    const Vec2 low{room.middle().x - 0.5 * drawn.x, room.low.y + 0.5 * (view_height_mm - around_mm - drawn.y) + 2};
    for (const Stroke& stroke : shape.strokes) {
      Stroke moved = stroke;
      for (Vertex& v : moved.vertices) v.at = low + scale.factor * v.at;
      if (moved.dash == Dash::none) moved.width_mm = wide_mm;
      page.strokes.push_back(std::move(moved));
    }
    dimension_across(page, type_, low.x, low.x + drawn.x, low.y + drawn.y + 9, low.y + drawn.y,
                     units_.length(shape.size.x));
    if (member) {
      legs(page, std::get<Member>(part.form), low, scale.factor);
    } else {
      dimension_up(page, type_, low.y, low.y + drawn.y, low.x - 8, low.x, units_.length(shape.size.y));
    }
    centres(page, part, low, scale.factor, room);
  }

  /// The legs' widths, one beside the other; of a tube its section says all.
  void legs(Page& page, const Member& member, Vec2 low, double factor) {
    const Section& section = member.section;
    if (section.shape == SectionShape::tube) return;
    const double heel = low.y + factor * section.leg_b_mm;
    if (section.leg_b_mm > 0) {
      dimension_up(page, type_, low.y, heel, low.x - 8, low.x, units_.length(section.leg_b_mm));
    }
    dimension_up(page, type_, heel, heel + factor * section.leg_a_mm, low.x - (section.leg_b_mm > 0 ? 15 : 8), low.x,
                 units_.length(section.leg_a_mm));
  }

  void centres(Page& page, const Part& part, Vec2 low, double factor, const Box2& room) {
    std::vector<Box2> taken;
    for (const Label& label : page.labels) taken.push_back(label.box);
    const auto rows = feature_rows(part, units_);
    for (std::size_t r = 0; r < rows.size(); ++r) {
      for (std::size_t k = 0; k < rows[r].at.size(); ++k) {
        const Vec2 at = low + factor * rows[r].at[k];
        page.line(at - Vec2{cross_mm, 0}, at + Vec2{cross_mm, 0}, hairline_mm, Dash::none);
        page.line(at - Vec2{0, cross_mm}, at + Vec2{0, cross_mm}, hairline_mm, Dash::none);
        taken.push_back(box_of(at - Vec2{0.8, 0.8}, at + Vec2{0.8, 0.8}));
      }
    }
    for (std::size_t r = 0; r < rows.size(); ++r) {
      for (std::size_t k = 0; k < rows[r].at.size(); ++k) {
        const std::string words = rows[r].at.size() == 1 ? letters(r) : fmt::format("{}{}", letters(r), k + 1);
        name(page, words, low + factor * rows[r].at[k], room, taken);
      }
    }
  }

  /// Beside its cross where nothing else is written, else farther away with a line to it.
  void name(Page& page, const std::string& words, Vec2 at, const Box2& room, std::vector<Box2>& taken) const {
    for (double away = 1.2; away < 60; away += 1.5) {
      for (const Vec2 way : {Vec2{1, -1}, Vec2{1, 2.2}, Vec2{-1, -1}, Vec2{-1, 2.2}, Vec2{0.2, -1.6}, Vec2{0.2, 3}}) {
        Label label = type_.label(at + away * way, words, note_mm, way.x > 0 ? Anchor::left : Anchor::right);
        const auto meets = [&](const Box2& b) {
          return b.low.x < label.box.high.x && label.box.low.x < b.high.x && b.low.y < label.box.high.y &&
                 label.box.low.y < b.high.y;
        };
        const bool inside = label.box.low.x >= room.low.x && label.box.high.x <= room.high.x &&
                            label.box.low.y >= room.low.y && label.box.high.y <= room.high.y;
        if (!inside || std::any_of(taken.begin(), taken.end(), meets)) continue;
        if (away > 5)
          page.line(
              at, label.box.middle().y < at.y ? Vec2{label.at.x, label.box.high.y} : Vec2{label.at.x, label.box.low.y},
              hairline_mm);
        taken.push_back(label.box);
        page.labels.push_back(std::move(label));
        return;
      }
    }
  }

  void notes(Flow& flow, PartId id, const Member* member) {
    std::vector<std::string> all;
    if (member != nullptr) {
      all.push_back("Start: " + output::end_words(member->start, member->section, units_) + ".");
      all.push_back("End: " + output::end_words(member->end, member->section, units_) + ".");
    }
    for (const std::string& note : {output::fixing_note(plan_, id), output::true_up_note(plan_, id)}) {
      if (!note.empty()) all.push_back("Then: " + note + ".");
    }
    for (const std::string& note : all) flow.sentence(note);
  }

  void features(Flow& flow, const Part& part) {
    const bool member = std::holds_alternative<Member>(part.form);
    Table table{{{"hole"}, {"size"}, {"where"}, {member ? "from the start" : "from the left edge"}}, {}};
    for (const FeatureRow& row : feature_rows(part, units_)) {
      std::string along;
      for (const double mm : row.along_mm) along += (along.empty() ? "" : ", ") + units_.length(mm);
      table.rows.push_back({{row.name, row.size, row.level, along}, {}});
    }
    if (!table.rows.empty()) flow.table(table);
  }

  const Plan& plan_;
  const JobInfo& info_;
  PaperUnits units_;
  const Type& type_;
  std::vector<std::size_t> count_;
  Paper paper_;
  double strip_mm_ = 0;
};

}  // namespace

std::vector<FeatureRow> feature_rows(const Part& part, const PaperUnits& units) {
  std::vector<Feature> all =
      std::holds_alternative<Member>(part.form) ? features_of_member(part, units) : features_of_flat(part, units);
  std::map<std::pair<std::string, std::string>, std::vector<Feature>> by_line;
  for (Feature& feature : all) by_line[{feature.size, feature.level}].push_back(std::move(feature));
  std::vector<std::vector<Feature>> lines;
  for (auto& [key, line] : by_line) {
    std::sort(line.begin(), line.end(), [](const Feature& a, const Feature& b) { return a.along_mm < b.along_mm; });
    lines.push_back(std::move(line));
  }
  std::sort(lines.begin(), lines.end(), [](const auto& a, const auto& b) {
    return std::tie(a[0].size, a[0].level_mm, a[0].level) < std::tie(b[0].size, b[0].level_mm, b[0].level);
  });
  std::vector<FeatureRow> rows;
  for (const auto& line : lines) {
    const std::string letter = letters(rows.size());
    FeatureRow row{line.size() == 1 ? letter : fmt::format("{0}1 to {0}{1}", letter, line.size()),
                   line[0].size,
                   line[0].level,
                   {},
                   {}};
    for (const Feature& feature : line) {
      row.along_mm.push_back(feature.along_mm);
      row.at.push_back(feature.at);
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

Paper drawings_paper(const Plan& plan, const JobInfo& info, const Type& type) {
  return DrawingSheets(plan, info, type).made();
}

}  // namespace fitup::bench
