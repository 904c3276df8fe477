// The sheets of single parts.
// Entry: add_part_sheets.

#include "bench/part_sheets.h"

#include <fmt/format.h>

#include <algorithm>

#include "bench/flow.h"
#include "bench/strip.h"
#include "bench/title_block.h"
#include "bench/view_layout.h"
#include "output/finish_words.h"
#include "output/flat_drawing.h"
#include "output/member_words.h"
#include "output/part_notes.h"

namespace fitup::bench {
namespace {

using output::PaperUnits;

constexpr double most_of_page = 0.62;  // for the views, where the table runs on to a further page
constexpr double least_views_mm = 60;
constexpr double small_mm = 40;
constexpr double spare_mm = 12;  // a short table wants more room to begin than it takes

class PartSheets {
 public:
  PartSheets(const Plan& plan, PartId id, std::size_t quantity, const JobInfo& info, const Type& type)
      : plan_(plan),
        part_(plan.parts[id]),
        id_(id),
        quantity_(quantity),
        info_(info),
        units_(info.units),
        type_(type) {}

  Status add_to(Paper& paper, const Model& model) {
    auto views = part_views(plan_, model, id_, info_.bench.first_angle);
    if (!views) return views.error();
    const auto rows = feature_rows(part_, units_);
    for (PaperFormat format = info_.bench.paper;; format = larger(format)) {
      Paper own;
      own.name = paper.name;
      const bool sound = lay(own, format, *views, rows);
      if (!sound && larger(format) != format) continue;
      if (is_small(own, *views) && larger(format) != format) {
        Paper more;
        more.name = paper.name;
        if (lay(more, larger(format), *views, rows) && factor_of(more) > factor_of(own)) own = std::move(more);
      }
      paper.pages.insert(paper.pages.end(), own.pages.begin(), own.pages.end());
      return Done{};
    }
  }

 private:
  /// "1:5" is 0.2.
  static double factor_of(const Paper& paper) {
    const std::string& words = paper.pages.front().scale;
    const std::size_t colon = words.find(':');
    return colon == std::string::npos ? 1 : std::stod(words) / std::stod(words.substr(colon + 1));
  }

  /// Drawn so small that a larger sheet is worth its while, if it is drawn larger there.
  static bool is_small(const Paper& paper, const PartViews& views) {
    const Vec2 size = views.all.front().size;
    return factor_of(paper) < 1 && factor_of(paper) * std::max(size.x, size.y) < small_mm;
  }

  bool lay(Paper& own, PaperFormat format, const PartViews& views, const std::vector<FeatureRow>& rows) {
    Page blank;
    blank.format = format;
    blank.landscape = true;
    const TitleBlock block = title_block();
    const double strip = strip_height_mm(info_, own.name, type_, format, true);
    const double block_mm = block_height_mm(block, type_, blank);
    Paper scratch;
    Flow measured(scratch, type_, format, true, strip + block_mm);
    const double whole = measured.left_mm();
    add_words(measured, rows);
    const bool one_page = scratch.pages.size() == 1 && measured.left_mm() > least_views_mm;
    Flow flow(own, type_, format, true, strip + block_mm);
    const Box2 room = flow.room(one_page ? measured.left_mm() - spare_mm : most_of_page * whole);
    const bool sound = draw_views(flow.page(), room, views, rows, type_, units_);
    add_words(flow, rows);
    for (Page& page : own.pages) {
      page.scale = own.pages.front().scale;
      add_block(page, block, type_, frame_of(page).high.y - strip);
    }
    return sound;
  }

  [[nodiscard]] TitleBlock title_block() const {
    TitleBlock block;
    block.name = fmt::format("{} {}", part_.mark, part_.name);
    block.facts = {{"material", part_.material},
                   {"stock", stock_words()},
                   {"count", std::to_string(quantity_)},
                   {fmt::format("{} each", units_.mass()), units_.mass(part_.mass_kg)},
                   {"general tolerances", output::tolerance_note(plan_, id_)},
                   {"lengths", info_.units == UnitSystem::in_lb ? "in inches" : "in mm"}};
    block.first_angle = info_.bench.first_angle;
    return block;
  }

  [[nodiscard]] std::string stock_words() const {
    if (const auto* member = std::get_if<Member>(&part_.form)) return member->section.designation;
    if (const auto* flat = std::get_if<Flat>(&part_.form)) {
      const std::string bought = fmt::format("{} {} thick", units_.length(flat->bought_mm()), units_.length());
      if (flat->free_mm <= 0) return bought;
      return fmt::format("{}, squeezed to {}", bought, units_.length(flat->thickness_mm));
    }
    return units_.sentence(part_.size);
  }

  [[nodiscard]] std::vector<std::string> notes() const {
    std::vector<std::string> all;
    if (const auto* member = std::get_if<Member>(&part_.form)) {
      if (member->start.mitre)
        all.push_back("Start: " + output::end_words(member->start, member->section, units_) + ".");
      if (member->end.mitre) all.push_back("End: " + output::end_words(member->end, member->section, units_) + ".");
    }
    for (const std::string& note : {output::fixing_note(plan_, id_, units_), output::true_up_note(plan_, id_)}) {
      if (!note.empty()) all.push_back("Then: " + note + ".");
    }
    return all;
  }

  void add_words(Flow& flow, const std::vector<FeatureRow>& rows) const {
    const bool member = std::holds_alternative<Member>(part_.form);
    const bool upright = !rows.empty() && rows.front().upright;
    Table table{{{"hole"},
                 {"size"},
                 {"where"},
                 {member    ? "from the start"
                  : upright ? "from the lower edge"
                            : "from the left edge"}},
                {}};
    for (const FeatureRow& row : rows) {
      std::string along;
      // Along a bar it is measured with a tape, what is cut from sheet comes from its file.
      for (const double mm : row.along_mm) {
        along += (along.empty() ? "" : ", ") + (member ? units_.drawn(mm) : units_.length(mm));
      }
      table.rows.push_back({{row.name, row.size, row.level, along}, {}});
    }
    if (!table.rows.empty()) flow.table(table);
    add_bends(flow);
    for (const std::string& note : notes()) flow.sentence(note);
  }

  /// Where the lines are the view says; here what is done at them.
  void add_bends(Flow& flow) const {
    const auto* flat = std::get_if<Flat>(&part_.form);
    if (flat == nullptr || flat->bends.empty()) return;
    const std::string unit(units_.length());
    Table table{{{"bend"},
                 {"towards"},
                 {"angle", Anchor::right},
                 {"inside radius " + unit, Anchor::right},
                 {"length " + unit, Anchor::right},
                 {"arc in the flat " + unit, Anchor::right}},
                {}};
    for (std::size_t i = 0; i < flat->bends.size(); ++i) {
      const Bend& bend = flat->bends[i];
      table.rows.push_back(
          {{bend_name(i), bend.up ? "up, to who looks at the pattern" : "down, away from who looks at it", "90°",
            units_.length(bend.radius_mm), units_.length(norm(bend.to - bend.from)), units_.length(bend.zone_mm)}});
    }
    flow.table(table);
    Box3 bent;
    for (const Prism& prism : body_of(part_).outer) bent.add(prism.bounds());
    const Vec3 size = bent.size();
    flow.sentence(fmt::format("Chain lines: the middles of the arcs. Bent, to check: {} x {} x {} over all.",
                              units_.length(size.x), units_.length(size.y), units_.length(size.z)));
  }

  const Plan& plan_;
  const Part& part_;
  PartId id_;
  std::size_t quantity_;
  const JobInfo& info_;
  PaperUnits units_;
  const Type& type_;
};

}  // namespace

PaperFormat larger(PaperFormat format) {
  switch (format) {
    case PaperFormat::a4:
    case PaperFormat::a3: return PaperFormat::a3;
    case PaperFormat::letter:
    case PaperFormat::tabloid: return PaperFormat::tabloid;
  }
  return format;
}

Status add_part_sheets(Paper& paper, const Plan& plan, const Model& model, PartId id, std::size_t quantity,
                       const JobInfo& info, const Type& type) {
  return PartSheets(plan, id, quantity, info, type).add_to(paper, model);
}

}  // namespace fitup::bench
