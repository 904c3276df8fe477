// tables: the built-in tables as people and programs read them.
// Entry: list_tables.
#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "app/table_text.h"
#include "diag/words.h"
#include "fitup/seal_materials.h"
#include "fitup/tables.h"

namespace fitup::app {

namespace {

using Json = nlohmann::ordered_json;

std::string mm(double value) { return fmt::format("{:.6g}", value); }

TextTable sections(std::string name, std::string title, SectionShape shape) {
  TextTable table{
      std::move(name),
      std::move(title),
      {"section", "width mm", "height mm", "thickness mm", "root radius mm", "toe radius mm", "mass kg/m", "source"},
      {}};
  for (const Section& s : tables::sections()) {
    if (s.shape != shape) continue;
    table.rows.push_back({s.designation, mm(s.leg_a_mm), mm(s.leg_b_mm), mm(s.thickness_mm), mm(s.root_radius_mm),
                          mm(s.toe_radius_mm), fmt::format("{:.4g}", s.published_mass_kg_per_m), s.source});
  }
  return table;
}

TextTable tubes() {
  TextTable table{
      "tubes",
      "square and rectangular tubes",
      {"section", "height mm", "width mm", "thickness mm", "corner radius mm", "area cm2", "mass kg/m", "source"},
      {}};
  for (const Section& s : tables::sections()) {
    if (s.shape != SectionShape::tube) continue;
    table.rows.push_back({s.designation, mm(s.leg_a_mm), mm(s.leg_b_mm), mm(s.thickness_mm), mm(s.corner_radius_mm),
                          mm(s.published_area_mm2 / 100), fmt::format("{:.4g}", s.published_mass_kg_per_m), s.source});
  }
  return table;
}

TextTable threads() {
  TextTable table{"threads",
                  "screw threads and their holes",
                  {"thread", "diameter mm", "pitch mm", "tap drill mm", "close hole mm", "medium hole mm",
                   "loose hole mm", "stress area mm2", "source"},
                  {}};
  for (const Thread& t : tables::threads()) {
    table.rows.push_back({t.size, mm(t.major_mm), mm(t.pitch_mm), mm(t.tap_drill_mm), mm(t.clear_close_mm),
                          mm(t.clear_medium_mm), mm(t.clear_loose_mm), mm(t.stress_area_mm2), t.source});
  }
  return table;
}

TextTable screws() {
  TextTable table{"screws",
                  "button head screws",
                  {"thread", "head mm", "head height mm", "key mm", "socket depth mm", "source"},
                  {}};
  for (const ButtonHead& b : tables::button_heads())
    table.rows.push_back({b.size, mm(b.head_mm), mm(b.height_mm), mm(b.key_mm), mm(b.socket_depth_mm), b.source});
  return table;
}

TextTable nuts() {
  TextTable table{"nuts", "hexagon nuts", {"thread", "across flats mm", "height mm", "source"}, {}};
  for (const HexNut& n : tables::nuts())
    table.rows.push_back({n.size, mm(n.across_flats_mm), mm(n.height_mm), n.source});
  return table;
}

TextTable washers() {
  TextTable table{"washers", "plain washers", {"thread", "hole mm", "outside mm", "thickness mm", "source"}, {}};
  for (const Washer& w : tables::washers())
    table.rows.push_back({w.size, mm(w.inner_mm), mm(w.outer_mm), mm(w.thickness_mm), w.source});
  return table;
}

TextTable lock_nuts() {
  TextTable table{"locknuts", "prevailing torque nuts", {"thread", "across flats mm", "height mm", "source"}, {}};
  for (const LockNut& n : tables::lock_nuts())
    table.rows.push_back({n.size, mm(n.across_flats_mm), mm(n.height_mm), n.source});
  return table;
}

TextTable weld_nuts() {
  TextTable table{"weld nuts",
                  "hexagon weld nuts",
                  {"thread", "across flats mm", "height mm", "hole mm", "pilot mm", "source"},
                  {}};
  for (const WeldNut& n : tables::weld_nuts()) {
    table.rows.push_back({n.size, mm(n.across_flats_mm), mm(n.height_mm), mm(n.hole_mm), mm(n.pilot_mm), n.source});
  }
  return table;
}

TextTable rivet_nuts() {
  TextTable table{"rivet nuts",
                  "rivet nuts, blind",
                  {"thread", "hole mm", "least grip mm", "largest grip mm", "bulge mm", "behind mm", "source"},
                  {}};
  for (const RivetNut& n : tables::rivet_nuts()) {
    table.rows.push_back(
        {n.size, mm(n.hole_mm), mm(n.least_grip_mm), mm(n.most_grip_mm), mm(n.bulge_mm), mm(n.behind_mm), n.source});
  }
  return table;
}

TextTable large_washers() {
  TextTable table{"large washers", "large washers", {"thread", "hole mm", "outside mm", "thickness mm", "source"}, {}};
  for (const Washer& w : tables::large_washers())
    table.rows.push_back({w.size, mm(w.inner_mm), mm(w.outer_mm), mm(w.thickness_mm), w.source});
  return table;
}

TextTable eyes() {
  TextTable table{"eyes",
                  "lifting eyes: loads as the source prints them, for one eye",
                  {"thread", "collar mm", "hole depth mm", "shank mm", "straight kg", "at 45 degrees kg", "source"},
                  {}};
  for (const Eye& e : tables::eyes()) {
    table.rows.push_back({e.size, mm(e.collar_mm), mm(e.hole_depth_mm), mm(e.shank_mm), mm(e.axial_kg),
                          mm(e.at_45_degrees_kg), e.source});
  }
  return table;
}

TextTable glands() {
  TextTable table{
      "glands",
      "cable glands of metric thread, pitch 1.5 mm",
      {"thread", "hole mm", "locknut flats mm", "locknut mm", "inside mm", "body flats mm", "outside mm", "source"},
      {}};
  for (const Gland& g : tables::glands()) {
    table.rows.push_back({g.size, mm(g.hole_mm), mm(g.locknut_flats_mm), mm(g.locknut_mm), mm(g.inside_mm),
                          mm(g.body_flats_mm), mm(g.outside_mm), g.source});
  }
  return table;
}

TextTable gauges() {
  TextTable table{"gauges", "gauges of steel sheet", {"gauge", "thickness mm", "thickness in", "source"}, {}};
  for (const SheetGauge& g : tables::sheet_gauges())
    table.rows.push_back({fmt::format("{} ga", g.number), mm(g.steel_mm), mm(g.steel_mm / 25.4), g.source});
  return table;
}

TextTable materials() {
  TextTable table{"materials", "materials", {"material", "density kg/m3", "source"}, {}};
  for (const auto* all : {&tables::materials(), &tables::seal_materials()}) {
    for (const Material& m : *all) table.rows.push_back({m.name, mm(m.density_kg_per_m3), m.source});
  }
  return table;
}

std::vector<TextTable> all_tables() {
  return {sections("sections", "rolled angles", SectionShape::angle),
          sections("flats", "flat bars", SectionShape::flat),
          tubes(),
          threads(),
          screws(),
          nuts(),
          lock_nuts(),
          weld_nuts(),
          rivet_nuts(),
          washers(),
          large_washers(),
          eyes(),
          glands(),
          gauges(),
          materials()};
}

std::string plain(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c != ' ') out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return out;
}

/// The table of that name, or from every table the rows whose first cell holds the word.
std::vector<TextTable> tables_about(const std::string& word) {
  const std::string wanted = plain(word);
  std::vector<TextTable> found = all_tables();
  for (TextTable& table : found) {
    const std::string name = plain(table.name);
    if (name == wanted || name == wanted + "s") return {table};
  }
  for (TextTable& table : found) {
    std::erase_if(table.rows, [&](const auto& row) { return plain(row[0]).find(wanted) == std::string::npos; });
  }
  std::erase_if(found, [](const TextTable& table) { return table.rows.empty(); });
  return found;
}

Json to_json(const std::vector<TextTable>& tables) {
  Json all = Json::array();
  for (const TextTable& table : tables) {
    Json rows = Json::array();
    for (const auto& row : table.rows) {
      Json entry;
      for (std::size_t i = 0; i < row.size(); ++i) entry[table.columns[i]] = row[i];
      rows.push_back(std::move(entry));
    }
    all.push_back({{"name", table.name}, {"title", table.title}, {"rows", std::move(rows)}});
  }
  return all;
}

}  // namespace

std::vector<std::string> rows_for(const std::string& type) {
  std::vector<std::string> names;
  for (const TextTable& table : all_tables()) {
    const bool wanted = (type.find("angle") != std::string::npos && table.name == "sections") ||
                        (type.find("flat") != std::string::npos && table.name == "flats") ||
                        (type.find("tube") != std::string::npos && table.name == "tubes") ||
                        (type == "material" && table.name == "materials") ||
                        (type == "thread" && table.name == "screws") ||
                        (type == "thread of a rod" && table.name == "nuts") ||
                        (type == "thread of a lifting eye" && table.name == "eyes");
    if (!wanted) continue;
    for (const auto& row : table.rows) names.push_back(row[0]);
  }
  return names;
}

namespace {

/// Of pipe thread there is nothing to list.
std::string about_pipe_thread(const std::string& word) {
  if (plain(word).find("npt") == std::string::npos) return {};
  return "; pipe threads are not in the tables: cable glands are of metric thread (fitup tables glands), and a hole "
         "for "
         "another fitting is a round opening of its diameter";
}

}  // namespace

Outcome list_tables(const TablesRequest& request) {
  Outcome outcome{.command = "tables"};
  const std::vector<TextTable> found = request.word ? tables_about(*request.word) : all_tables();
  if (found.empty()) {
    std::vector<std::string> known;
    for (const TextTable& table : all_tables()) known.push_back(table.name);
    add_error(outcome, ExitStatus::wrong_input, "unknown-table",
              fmt::format("no table is called {0} and no row of them holds it{1}{2}", diag::in_quotes(*request.word),
                          diag::suggestion(*request.word, known), about_pipe_thread(*request.word)));
  }
  for (const TextTable& table : found) outcome.text += (outcome.text.empty() ? "" : "\n") + to_text(table);
  outcome.extra_key = "tables";
  outcome.extra_json = to_json(found).dump();
  return outcome;
}

}  // namespace fitup::app
