// The cut list and the list of bought parts.
// Entry: cut_rows, bought_rows.

#include "output/bench_lists.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "output/cut_numbers.h"
#include "output/finish_words.h"
#include "output/grade.h"
#include "output/member_words.h"
#include "output/part_notes.h"
#include "output/paths.h"
#include "output/text.h"
#include "output/totals.h"
#include "tables/standards.h"

namespace fitup::output {
namespace {

std::vector<PartId> of_source(const Plan& plan, Source source) {
  std::vector<PartId> ids;
  for (PartId id = 0; id < plan.parts.size(); ++id) {
    if (plan.parts[id].source == source) ids.push_back(id);
  }
  std::sort(ids.begin(), ids.end(), [&](PartId a, PartId b) { return plan.parts[a].mark < plan.parts[b].mark; });
  return ids;
}

std::string total(const PaperUnits& units, std::size_t quantity, double kg) {
  return units.mass(static_cast<double>(quantity) * kg);
}

std::string joined(const std::vector<std::string>& pieces) {
  std::string text;
  for (const std::string& piece : pieces) {
    if (!piece.empty()) text += (text.empty() ? "" : "; ") + piece;
  }
  return text;
}

/// Section, length, short point, sawn length, hand, start, end, holes of what is no member: a round.
std::vector<std::string> round_cells(const Part& part, const PartSolid& solid, const PaperUnits& units) {
  const Vec3 size = solid.bounds.size();
  const std::string length = units.length(size.z);
  return {fmt::format("round {}", units.length(size.x)),
          length,
          length,
          length,
          "either",
          "square",
          "square",
          units.sizes(part.size)};
}

std::vector<std::string> member_cells(const Plan& plan, PartId id, const Member& member, const JobInfo& info) {
  const PaperUnits units(info.units);
  return {member.section.designation,
          units.length(member.length_mm),
          units.length(short_point_mm(member)),
          units.length(member.length_mm + info.bench.trim_allowance_mm),
          hand_words(plan, id),
          end_words(member.start, member.section, units),
          end_words(member.end, member.section, units),
          hole_words(member, units)};
}

CsvRow cut_row(const Plan& plan, const Model& model, PartId id, std::size_t quantity, const JobInfo& info) {
  const Part& part = plan.parts[id];
  const PaperUnits units(info.units);
  const auto* member = std::get_if<Member>(&part.form);
  const auto cells = member ? member_cells(plan, id, *member, info) : round_cells(part, model.parts.at(id), units);
  CsvRow row{part.mark, part.name, std::to_string(quantity), part.material};
  row.insert(row.end(), cells.begin(), cells.end());
  row.insert(row.end(),
             {units.mass(part.mass_kg), total(units, quantity, part.mass_kg),
              joined({fixing_note(plan, id, units), true_up_note(plan, id), member ? reading_words(*member) : ""}),
              tolerance_note(plan, id)});
  add_job(row, info);
  return row;
}

CsvRow bought_row(const std::string& kind, const Part& part, std::size_t quantity, const std::string& size,
                  const std::string& grade, const std::string& note, const JobInfo& info) {
  const PaperUnits units(info.units);
  const bool weighed = part.mass_kg > 0;
  CsvRow row{kind,
             part.mark,
             part.name,
             size,
             grade,
             std::to_string(quantity),
             std::to_string(with_spares(part, quantity, info.bench.spares_percent)),
             weighed ? units.mass(part.mass_kg) : "",
             weighed ? total(units, quantity, part.mass_kg) : "",
             note};
  add_job(row, info);
  return row;
}

std::string hardware_note(const Part& part) {
  if (part.role == Role::eye) return "for lifting only, taken out afterwards where it is in the way";
  if (part.role == Role::stud) return "earth stud: welded on, its thread and the steel round it stay bare";
  return "";
}

/// Where its nuts sit, by which it is told how long it must be and how far they are turned on.
std::string rod_note(const Plan& plan, PartId id, const PaperUnits& units) {
  const auto rods = nuts_on_rods(plan, id, units);
  std::string words;
  for (const RodNuts& rod : rods) {
    words += words.empty() ? "" : "; ";
    words += rods.size() == 1 ? rod.words : fmt::format("{} of them: {}", rod.count, rod.words);
  }
  return words + "; often comes with the item; its mass is the item's";
}

void add_eyes(std::vector<CsvRow>& rows, const Plan& plan, const JobInfo& info) {
  for (const auto& [thread, quantity] : eyes_not_in_model(plan)) {
    Part eye;
    eye.mark = "EYE-" + thread;
    eye.name = "lifting eye";
    rows.push_back(bought_row("bought", eye, quantity, fmt::format("{} {}", thread, tables::eye_standard(thread)), "",
                              "not in the model; for lifting only, taken out afterwards where it is in the way", info));
  }
}

/// Across, deep, high, as the item stands.
std::string item_size(const Plan& plan, const Model& model, PartId id, const PaperUnits& units) {
  Box3 box;
  const auto stands =
      std::find_if(plan.instances.begin(), plan.instances.end(), [&](const Instance& i) { return i.part == id; });
  const Pose pose = stands == plan.instances.end() ? Pose() : stands->pose;
  box.add(pose.point(model.parts.at(id).bounds.low));
  box.add(pose.point(model.parts.at(id).bounds.high));
  const Vec3 s = box.size();
  return fmt::format("{} x {} x {} {}", units.length(s.x), units.length(s.y), units.length(s.z), units.length());
}

}  // namespace

void add_job(CsvRow& row, const JobInfo& info) {
  row.insert(row.end(), {info.name, info.revision, short_hash(info.spec_hash)});
}

std::vector<CsvRow> cut_rows(const Plan& plan, const Model& model, const JobInfo& info) {
  const PaperUnits units(info.units);
  const std::string length(units.length());
  const std::string mass(units.mass());
  std::vector<CsvRow> rows{{"mark", "description", "quantity", "material", "section", "length " + length,
                            "short point " + length, "sawn length " + length, "hand", "start cut " + length,
                            "end cut " + length, "holes " + length, "mass " + mass + " each", "mass " + mass + " total",
                            "notes", "general tolerance", "job", "revision", "spec"}};
  const auto count = quantities(plan);
  for (const PartId id : of_source(plan, Source::sawn)) rows.push_back(cut_row(plan, model, id, count[id], info));
  return rows;
}

std::vector<CsvRow> bought_rows(const Plan& plan, const Model& model, const JobInfo& info) {
  const PaperUnits units(info.units);
  const std::string mass(units.mass());
  std::vector<CsvRow> rows{{"kind", "mark", "description", "size", "grade", "quantity", "with spares",
                            "mass " + mass + " each", "mass " + mass + " total", "notes", "job", "revision", "spec"}};
  const auto count = quantities(plan);
  for (const PartId id : of_source(plan, Source::bought)) {
    const Part& part = plan.parts[id];
    const std::string note = part.role == Role::rod ? rod_note(plan, id, units) : hardware_note(part);
    rows.push_back(
        bought_row("bought", part, count[id], part.size, grade_words(plan, part, info.bench.hardware), note, info));
  }
  add_eyes(rows, plan, info);
  for (const PartId id : of_source(plan, Source::stand_in)) {
    rows.push_back(bought_row("item", plan.parts[id], count[id], item_size(plan, model, id, units), "",
                              "a stand-in for what you have; nothing to make", info));
  }
  return rows;
}

}  // namespace fitup::output
