// [bench] and [stock]: from checked cells, and to the canonical text.
// Entry: bench_options, bench_lines.

#include "spec/bench_keys.h"

#include <fmt/format.h>

#include "spec/spec_lines.h"

namespace fitup::spec {
namespace {

BenchOptions usual(UnitSystem shop) {
  BenchOptions bench;
  if (shop == UnitSystem::mm_kg) return bench;
  bench.paper = PaperFormat::letter;
  bench.first_angle = false;
  bench.stock.lengths_mm = {6096};  // 20 ft
  return bench;
}

double mm(const Cell& cell) { return cell.get<Length>()->mm(); }

std::string mm_text(double value_mm) { return decimal(value_mm, 6); }

Remnant remnant(const Cell& cell, const Spec& spec) {
  const std::string name = *cell["section"].get<std::string>();
  const Section* section = spec.section(name);
  return {section != nullptr ? section->designation : name, mm(cell["length"]),
          static_cast<int>(*cell["count"].get<double>())};
}

void put_on_shelf(const Cell& cell, const Spec& spec, BarStock& stock) {
  if (const Cell* named = cell.find("section")) {
    const std::string name = *named->get<std::string>();
    const Section* section = spec.section(name);
    stock.shelf_sections.push_back(section != nullptr ? section->designation : name);
  }
  if (const Cell* thickness = cell.find("thickness")) stock.shelf_thicknesses_mm.push_back(mm(*thickness));
}

}  // namespace

BenchOptions bench_options(const Cell& root, const Spec& spec) {
  BenchOptions out = usual(spec.shop);
  const Cell& bench = root["bench"];
  if (const Cell* paper = bench.find("paper")) {
    for (const SheetSize& sheet : sheet_sizes) {
      if (sheet.name == *paper->get<std::string>()) out.paper = sheet.format;
    }
  }
  out.trim_allowance_mm = mm(bench["trim_allowance"]);
  out.spares_percent = *bench["spares"].get<double>();
  for (std::size_t i = 0; i < hardware_words.size(); ++i) {
    if (hardware_words[i] == *bench["hardware"].get<std::string>()) out.hardware = static_cast<Hardware>(i);
  }
  if (const Cell* torques = bench.find("torque")) {
    for (const Cell& entry : torques->entries) {
      out.torques.push_back({*entry["thread"].get<std::string>(), *entry["newton_metres"].get<double>(),
                             *entry["why"].get<std::string>()});
    }
  }
  const Cell& stock = root["stock"];
  if (const Cell* lengths = stock.find("lengths")) {
    const auto given = lengths->get<std::vector<Length>>();
    if (!given->empty()) out.stock.lengths_mm.clear();
    for (const Length length : *given) out.stock.lengths_mm.push_back(length.mm());
  }
  out.stock.kerf_mm = mm(stock["kerf"]);
  out.stock.end_trim_mm = mm(stock["end_trim"]);
  if (const Cell* shelf = stock.find("shelf")) {
    for (const Cell& entry : shelf->entries) put_on_shelf(entry, spec, out.stock);
  }
  if (const Cell* remnants = stock.find("remnant")) {
    for (const Cell& entry : remnants->entries) out.stock.remnants.push_back(remnant(entry, spec));
  }
  return out;
}

std::vector<std::string> bench_lines(const Spec& spec) {
  const BenchOptions& is = spec.bench;
  const BenchOptions usually = usual(spec.shop);
  std::vector<std::string> lines;
  const auto add = [&](std::string_view key, double value, double usual_value) {
    if (value != usual_value) lines.push_back(fmt::format("{} = {}", key, mm_text(value)));
  };
  if (is.paper != usually.paper) lines.push_back(fmt::format("bench.paper = {}", size_of(is.paper).name));
  add("bench.trim_allowance", is.trim_allowance_mm, usually.trim_allowance_mm);
  add("bench.spares", is.spares_percent, usually.spares_percent);
  if (is.hardware != usually.hardware) {
    lines.push_back(fmt::format("bench.hardware = {}", hardware_words[static_cast<std::size_t>(is.hardware)]));
  }
  for (const OwnTorque& own : is.torques) {
    lines.push_back(fmt::format("bench.torque = {}, {}, {}", own.thread, mm_text(own.newton_metres), own.why));
  }
  if (is.stock.lengths_mm != usually.stock.lengths_mm) {
    std::string all;
    for (const double length_mm : is.stock.lengths_mm) all += (all.empty() ? "" : ", ") + mm_text(length_mm);
    lines.push_back(fmt::format("stock.lengths = {}", all));
  }
  add("stock.kerf", is.stock.kerf_mm, usually.stock.kerf_mm);
  add("stock.end_trim", is.stock.end_trim_mm, usually.stock.end_trim_mm);
  for (const Remnant& one : is.stock.remnants) {
    lines.push_back(fmt::format("stock.remnant = {} x {} x {}", one.count, one.section, mm_text(one.length_mm)));
  }
  for (const std::string& section : is.stock.shelf_sections) lines.push_back("stock.shelf.section = " + section);
  for (const double thickness : is.stock.shelf_thicknesses_mm) {
    lines.push_back("stock.shelf.thickness = " + mm_text(thickness));
  }
  return lines;
}

}  // namespace fitup::spec
