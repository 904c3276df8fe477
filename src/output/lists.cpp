// The order list for the cutter and the list for the 3D printer.
// Entry: order_rows, print_rows.

#include "output/lists.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <limits>
#include <map>
#include <tuple>

#include "output/bench_lists.h"
#include "output/finish_words.h"
#include "output/flat_drawing.h"
#include "output/mark_notes.h"
#include "output/part_notes.h"
#include "output/paths.h"
#include "output/text.h"
#include "output/units.h"

namespace fitup::output {
namespace {

/// Of what is squeezed when it is built in, the list having it as it is bought.
std::string squeezed_note(const Flat& flat, const PaperUnits& units) {
  if (flat.free_mm <= 0) return {};
  return fmt::format("{} {} thick as bought, squeezed to {} {}", units.length(flat.free_mm), units.length(),
                     units.length(flat.thickness_mm), units.length());
}

/// What it is fixed to, what comes through it, what its marks leave unsaid; parts that are empty left out.
std::string order_note(const Plan& plan, PartId id, const PaperUnits& units) {
  std::string text;
  for (const std::string& piece : {screw_tip_note(plan, id, units), fixing_note(plan, id, units),
                                   squeezed_note(std::get<Flat>(plan.parts[id].form), units), true_up_note(plan, id),
                                   mark_note(plan, id, units)}) {
    if (!piece.empty()) text += (text.empty() ? "" : "; ") + piece;
  }
  return text;
}

/// Of what is cut out: a circle's diameter, else the shorter side of its bounds; empty without cut-outs.
std::string narrowest_cut_out(const Flat& flat, const PaperUnits& units) {
  double least_mm = std::numeric_limits<double>::infinity();
  for (const Loop& hole : flat.profile.holes) {
    const Vec2 size = hole.bounds().size();
    least_mm = std::min({least_mm, size.x, size.y});
  }
  return flat.profile.holes.empty() ? "" : units.length(least_mm);
}

CsvRow order_row(const Plan& plan, PartId id, std::size_t quantity, const JobInfo& info, bool with_file) {
  const Part& part = plan.parts[id];
  const Flat& flat = std::get<Flat>(part.form);
  const Vec2 size = flat.profile.bounds().size();
  const PaperUnits units(info.units);
  CsvRow row{part.mark,
             part.name,
             std::to_string(quantity),
             part.material,
             units.length(flat.bought_mm()),
             units.length(size.x),
             units.length(size.y),
             units.area(flat.profile.area_mm2()),
             units.length(flat.profile.perimeter_mm()),
             units.length(static_cast<double>(quantity) * flat.profile.perimeter_mm()),
             std::to_string(1 + flat.profile.holes.size()),
             std::to_string(flat.profile.holes.size()),
             narrowest_cut_out(flat, units),
             std::to_string(flat.drilled.size()),
             units.mass(part.mass_kg),
             units.mass(static_cast<double>(quantity) * part.mass_kg),
             with_file ? dxf_path(plan, id, info) : "",
             work_after_cutting(flat, units),
             order_note(plan, id, units),
             tolerance_note(plan, id)};
  add_job(row, info);
  return row;
}

std::string print_purpose(Role role) {
  switch (role) {
    case Role::spacer: return "stands in for an item while things are fitted";
    case Role::drill_guide: return "guides the drill to the pattern of the item's rods or mounting holes";
    case Role::row_guide: return "guides the drill from hole to hole along a row, its lip against the edge";
    case Role::rod_bush: return "holds a rod in the middle of its hole while the plate is fixed";
    case Role::nut_gauge: return "flush with the rod's end, it shows where the inner nut's outer face belongs";
    case Role::corner_square: return "squares a corner of the frame for tacking; the relieved edge lies in the roots";
    case Role::shim: return "holds the gap under a flange while the cover is screwed on";
    default: return "aid for fitting";
  }
}

/// "4 holes for a 7.5 mm drill", the drill as it is bought.
std::string guide_words(const std::string& size, const PaperUnits& units) {
  constexpr std::string_view before = " holes for a ";
  constexpr std::string_view unit = " mm";
  const std::size_t from = size.find(before);
  const std::size_t to = from == std::string::npos ? from : size.find(unit, from);
  double drill_mm = 0;
  if (to == std::string::npos) return units.sizes(size);
  const std::size_t at = from + before.size();
  std::from_chars(size.data() + at, size.data() + to, drill_mm);
  const std::string rest = size.substr(to + unit.size());
  const std::string name = units.drill(drill_mm);
  const bool says_unit = name.find_first_not_of("0123456789.") != std::string::npos;
  return size.substr(0, at) + name + std::string(says_unit ? "" : unit) + units.sizes(rest);
}

std::string print_note(const Part& part, const PaperUnits& units) {
  const bool guides = part.role == Role::drill_guide || part.role == Role::row_guide;
  const std::string size = guides ? guide_words(part.size, units) : units.sizes(part.size);
  const std::string scale = size + (size.empty() ? "" : "; ") + "print at 100 %, measure the three sizes before use";
  if (part.role == Role::row_guide) return scale + "; pin the last hole with a second drill, drill the next";
  if (guides) return scale + "; try the drill in one hole first";
  return part.role == Role::rod_bush ? scale + "; run a drill through a bore that is tight" : scale;
}

/// Parts of one kind in the order of the list.
template <class Wanted, class Before>
std::vector<PartId> chosen(const Plan& plan, Wanted wanted, Before before) {
  std::vector<PartId> ids;
  for (PartId id = 0; id < plan.parts.size(); ++id) {
    if (wanted(plan.parts[id])) ids.push_back(id);
  }
  std::stable_sort(ids.begin(), ids.end(), [&](PartId a, PartId b) { return before(plan.parts[a], plan.parts[b]); });
  return ids;
}

}  // namespace

bool asked_for(const std::set<FileGroup>& only, std::initializer_list<FileGroup> groups) {
  return only.empty() || std::any_of(groups.begin(), groups.end(), [&](FileGroup g) { return only.count(g) > 0; });
}

std::string work_after_cutting(const Flat& flat, const PaperUnits& units) {
  std::map<std::pair<double, std::string>, std::size_t> kinds;
  for (const DrilledHole& hole : flat.drilled) ++kinds[{hole.diameter_mm, hole.purpose}];
  std::string text;
  for (const auto& [kind, count] : kinds) {
    const std::string where = count == 1 ? "mark the centre" : fmt::format("mark {} centres", count);
    if (!text.empty()) text += "; ";
    text += fmt::format("{}, drill {}", where, units.drill(kind.first));
    if (!kind.second.empty()) text += ", " + kind.second;
  }
  std::map<std::string, std::size_t> bends;
  for (const Bend& bend : flat.bends) ++bends[bend_note(bend, units)];
  for (const auto& [note, count] : bends) {
    text += fmt::format("{}{} x {} as on the drawing", text.empty() ? "" : "; ", count, note);
  }
  return text;
}

std::vector<CsvRow> order_rows(const Plan& plan, const JobInfo& info, const std::set<FileGroup>& only) {
  const PaperUnits units(info.units);
  const std::string length(units.length());
  const std::string mass(units.mass());
  const std::string area(units.area());
  std::vector<CsvRow> rows{{"mark",
                            "description",
                            "quantity",
                            "material",
                            "thickness " + length,
                            "width " + length,
                            "height " + length,
                            "area " + area,
                            "cut length " + length,
                            "cut length " + length + " total",
                            "piercings",
                            "holes cut",
                            "narrowest cut-out " + length,
                            "drilled holes",
                            "mass " + mass + " each",
                            "mass " + mass + " total",
                            "file",
                            "after cutting",
                            "notes",
                            "general tolerance",
                            "job",
                            "revision",
                            "spec"}};
  const auto count = quantities(plan);
  const auto order = [](const Part& p) { return std::tuple(p.material, std::get<Flat>(p.form).bought_mm(), p.mark); };
  const auto before = [&](const Part& a, const Part& b) { return order(a) < order(b); };
  const bool with_file = asked_for(only, {FileGroup::dxf});
  for (const PartId id : chosen(plan, is_cut, before)) rows.push_back(order_row(plan, id, count[id], info, with_file));
  return rows;
}

std::vector<CsvRow> print_rows(const Plan& plan, const Model& model, const JobInfo& info,
                               const std::set<FileGroup>& only) {
  const PaperUnits units(info.units);
  const std::string length(units.length());
  std::vector<CsvRow> rows{{"mark", "name", "quantity", "size x " + length, "size y " + length, "size z " + length,
                            "volume " + std::string(units.volume()), "purpose", "note", "file", "3MF file", "job",
                            "revision", "spec"}};
  const auto count = quantities(plan);
  const auto before = [](const Part& a, const Part& b) { return a.mark < b.mark; };
  for (const PartId id : chosen(plan, is_printed, before)) {
    const Part& part = plan.parts[id];
    const Vec3 size = model.parts.at(id).bounds.size();
    CsvRow row{part.mark,
               part.name,
               std::to_string(count[id]),
               units.length(size.x),
               units.length(size.y),
               units.length(size.z),
               units.volume(model.parts.at(id).volume_mm3),
               print_purpose(part.role),
               print_note(part, units),
               asked_for(only, {FileGroup::stl}) ? stl_path(part) : "",
               asked_for(only, {FileGroup::threemf}) ? threemf_path(part) : ""};
    add_job(row, info);
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace fitup::output
