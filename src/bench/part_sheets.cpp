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
      paper.pages.insert(paper.pages.end(), own.pages.begin(), own.pages.end());
      return Done{};
    }
  }

 private:
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
      return fmt::format("{} {} thick", units_.length(flat->bought_mm()), units_.length());
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
    if (const auto* flat = std::get_if<Flat>(&part_.form)) {
      if (!flat->bends.empty()) all.push_back("At each chain line: " + output::bend_note(flat->bends[0], units_) + ".");
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
      for (const double mm : row.along_mm) along += (along.empty() ? "" : ", ") + units_.length(mm);
      table.rows.push_back({{row.name, row.size, row.level, along}, {}});
    }
    if (!table.rows.empty()) flow.table(table);
    for (const std::string& note : notes()) flow.sentence(note);
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
