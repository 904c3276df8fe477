// The cut list as pages.
// Entry: cut_list_paper.

#include "bench/cut_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "bench/flow.h"
#include "bench/strip.h"
#include "fitup/welded_sizes.h"
#include "output/bench_lists.h"
#include "output/cut_numbers.h"
#include "output/finish_words.h"
#include "output/member_words.h"
#include "output/part_notes.h"
#include "output/paths.h"

namespace fitup::bench {
namespace {

using output::PaperUnits;

constexpr const char* paper_name = "Cut list";

class CutList {
 public:
  CutList(const Plan& plan, const Model& model, const JobInfo& info, const Type& type)
      : plan_(plan),
        model_(model),
        info_(info),
        units_(info.units),
        count_(output::quantities(plan)),
        flow_(paper_, type, info.bench.paper, true, strip_height_mm(info, paper_name, type, info.bench.paper, true)) {
    paper_.name = paper_name;
  }

  Paper made(const Type& type) {
    members();
    rounds();
    rods();
    bought();
    add_strips(paper_, info_, type);
    return std::move(paper_);
  }

 private:
  [[nodiscard]] std::vector<PartId> parts_where(bool (*wanted)(const Part&)) const {
    std::vector<PartId> ids;
    for (PartId id = 0; id < plan_.parts.size(); ++id) {
      if (wanted(plan_.parts[id])) ids.push_back(id);
    }
    std::sort(ids.begin(), ids.end(), [&](PartId a, PartId b) { return plan_.parts[a].mark < plan_.parts[b].mark; });
    return ids;
  }

  void how_to_read(const std::vector<PartId>& ids) {
    std::set<SectionShape> told;
    for (const PartId id : ids) {
      const auto& member = std::get<Member>(plan_.parts[id].form);
      const std::string words = output::reading_words(member);
      if (words.empty() || !told.insert(member.section.shape).second) continue;
      constexpr std::array<std::string_view, 3> shapes{"Angles", "Flat bars", "Tubes"};
      flow_.sentence(fmt::format("{} are {}.", shapes.at(static_cast<std::size_t>(member.section.shape)), words));
    }
    if (info_.bench.trim_allowance_mm > 0) {
      flow_.sentence(fmt::format("Saw at: the length and {} {} to trim when the frame is fitted.",
                                 units_.length(info_.bench.trim_allowance_mm), units_.length()));
    }
    flow_.space(2);
  }

  [[nodiscard]] Row member_row(PartId id) const {
    const Part& part = plan_.parts[id];
    const auto& member = std::get<Member>(part.form);
    Row row;
    row.tick = true;
    const std::string length = units_.length(member.length_mm);
    const double short_mm = output::short_point_mm(member);
    row.cells = {"",
                 part.mark,
                 part.name,
                 std::to_string(count_[id]),
                 member.section.designation,
                 part.material,
                 length,
                 units_.length(short_mm),
                 output::hand_words(plan_, id),
                 units_.mass(part.mass_kg)};
    if (info_.bench.trim_allowance_mm > 0) {
      row.cells.insert(row.cells.begin() + 6, units_.length(member.length_mm + info_.bench.trim_allowance_mm));
    }
    const std::string start = output::end_words(member.start, member.section, units_);
    const std::string end = output::end_words(member.end, member.section, units_);
    if (start == end) {
      row.below.emplace_back("both ends", start);
    } else {
      row.below.emplace_back("start", start);
      row.below.emplace_back("end", end);
    }
    const std::string holes = output::hole_words(member, units_, output::Along::by_tape);
    if (!holes.empty()) row.below.emplace_back("holes", holes);
    for (const std::string& note : {output::fixing_note(plan_, id, units_), output::true_up_note(plan_, id)}) {
      if (!note.empty()) row.below.emplace_back("then", note);
    }
    return row;
  }

  void members() {
    const auto ids = parts_where(
        [](const Part& part) { return part.source == Source::sawn && std::holds_alternative<Member>(part.form); });
    if (ids.empty()) return;
    flow_.heading("Members to saw and drill");
    how_to_read(ids);
    const std::string unit(units_.length());
    Table table{{{"done"},
                 {"mark"},
                 {"what"},
                 {"count", Anchor::right},
                 {"section"},
                 {"material"},
                 {"long point " + unit, Anchor::right},
                 {"short point " + unit, Anchor::right},
                 {"hand"},
                 {fmt::format("{} each", units_.mass()), Anchor::right}},
                {}};
    if (info_.bench.trim_allowance_mm > 0) {
      table.columns.insert(table.columns.begin() + 6, {"saw at " + unit, Anchor::right});
    }
    for (const PartId id : ids) table.rows.push_back(member_row(id));
    flow_.table(table);
    flow_.sentence(units_.sentence(fmt::format("Tolerance where nothing is said: {}{}; of the welded frame {}.",
                                               output::sawn_tolerance, permits(ids), output::welded_tolerance)));
  }

  /// ", 0.5 mm either way up to 400 mm, 0.8 mm up to 1000 mm": the rows that these lengths fall in.
  [[nodiscard]] std::string permits(const std::vector<PartId>& ids) const {
    std::map<double, double> rows;
    for (const PartId id : ids) {
      const auto row = tables::sawn_length_permit(std::get<Member>(plan_.parts[id].form).length_mm);
      rows[row.up_to_mm] = row.mm;
    }
    std::string words;
    for (const auto& [up_to, mm] : rows) {
      words += fmt::format(", {} mm {}up to {:.0f} mm", mm, words.empty() ? "either way " : "", up_to);
    }
    return words;
  }

  void rounds() {
    const auto ids = parts_where(
        [](const Part& part) { return part.source == Source::sawn && !std::holds_alternative<Member>(part.form); });
    if (ids.empty()) return;
    flow_.heading("Round stock");
    const std::string unit(units_.length());
    Table table{{{"done"},
                 {"mark"},
                 {"what"},
                 {"count", Anchor::right},
                 {"diameter " + unit, Anchor::right},
                 {"length " + unit, Anchor::right},
                 {"material"},
                 {"work"}},
                {}};
    for (const PartId id : ids) {
      const Part& part = plan_.parts[id];
      const Vec3 size = model_.parts.at(id).bounds.size();
      Row row{{"", part.mark, part.name, std::to_string(count_[id]), units_.length(size.x), units_.length(size.z),
               part.material, units_.sizes(part.size)}};
      row.tick = true;
      const std::string fixing = output::fixing_note(plan_, id, units_);
      if (!fixing.empty()) row.below.emplace_back("then", fixing);
      table.rows.push_back(std::move(row));
    }
    flow_.table(table);
  }

  void rods() {
    const auto ids = parts_where([](const Part& part) { return part.role == Role::rod; });
    if (ids.empty()) return;
    flow_.heading("Threaded rod");
    flow_.sentence(
        fmt::format("Places of nuts ({}): from the rod's end to the nut's nearer face. Rods often come with "
                    "the item: measure them first.",
                    units_.length()));
    Table table{{{"done"}, {"mark"}, {"size"}, {"count", Anchor::right}, {"nuts"}}, {}};
    for (const PartId id : ids) {
      for (const output::RodNuts& rod : output::nuts_on_rods(plan_, id, units_)) {
        const Part& part = plan_.parts[id];
        table.rows.push_back(
            {{"", part.mark, units_.sizes(part.size), std::to_string(rod.count), rod.words}, {}, true});
      }
    }
    flow_.table(table);
  }

  /// The rows of bought.csv, without items.
  void bought() {
    const auto rows = output::bought_rows(plan_, model_, info_);
    Table table{{{"got"},
                 {"mark"},
                 {"what"},
                 {"size"},
                 {"grade"},
                 {"needed", Anchor::right},
                 {"with spares", Anchor::right},
                 {"notes"}},
                {}};
    for (std::size_t i = 1; i < rows.size(); ++i) {
      const auto& row = rows[i];
      if (row[0] != "bought") continue;
      const bool rod = row[1].starts_with("ROD-");
      table.rows.push_back(
          {{"", row[1], row[2], row[3], row[4], row[5], row[6], rod ? "see threaded rod" : row[9]}, {}, true});
    }
    if (table.rows.empty()) return;
    flow_.heading("Bought parts");
    flow_.table(table);
    flow_.sentence(fmt::format("Spares: {} percent of screws, nuts and washers, rounded up.",
                               fmt::format("{:g}", info_.bench.spares_percent)));
  }

  const Plan& plan_;
  const Model& model_;
  const JobInfo& info_;
  PaperUnits units_;
  std::vector<std::size_t> count_;
  Paper paper_;
  Flow flow_;
};

}  // namespace

Paper cut_list_paper(const Plan& plan, const Model& model, const JobInfo& info, const Type& type) {
  return CutList(plan, model, info, type).made(type);
}

}  // namespace fitup::bench
