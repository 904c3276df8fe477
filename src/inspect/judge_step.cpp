// Judges a STEP file as someone who is to quote or machine it would.
// Entry: inspect_step.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

#include "inspect/report.h"
#include "inspect/step_file.h"
#include "solid/step_measure.h"

namespace fitup::inspect {

namespace {

constexpr std::size_t names_shown = 6;
// Parts of workshops, by far (common practice).
constexpr double largest_mm = 20'000;
constexpr double smallest_mm = 1;

std::string schema_words(const std::string& schema) {
  if (schema.find("AP242") != std::string::npos) return "AP242";
  if (schema.find("AUTOMOTIVE_DESIGN") != std::string::npos) return "AP214";
  if (schema.find("CONFIG_CONTROL_DESIGN") != std::string::npos) return "AP203";
  return schema.empty() ? "not said" : shown(schema);
}

std::string names(const std::vector<std::string>& all) {
  std::vector<std::string> first;
  for (std::size_t i = 0; i < std::min(all.size(), names_shown); ++i) {
    first.push_back(all[i].empty() ? "(no name)" : shown(all[i]));
  }
  const std::string more = all.size() > names_shown ? fmt::format(" and {} more", all.size() - names_shown) : "";
  return fmt::format("{}{}", fmt::join(first, ", "), more);
}

void state(Report& report, const StepFile& file) {
  report.words("form", "STEP, " + schema_words(file.schema));
  report.words("unit", file.units.empty() ? "not said" : fmt::format("{}", fmt::join(file.units, " and ")));
  report.number("products", static_cast<double>(file.products.size()));
  if (!file.products.empty()) report.words("names", names(file.products));
  report.number("solids", static_cast<double>(file.solids.size()));
  if (file.surface_models > 0) report.number("surfaces", static_cast<double>(file.surface_models));
  std::size_t faces = 0;
  for (const StepSolid& s : file.solids) faces += s.faces;
  if (faces > 0) report.number("faces", static_cast<double>(faces));
}

void judge_complete(Report& report, const StepFile& file) {
  if (!file.flaw.empty()) {
    report.find("complete", Verdict::fail, file.flaw + "; export it again");
  } else if (file.lost_references > 0) {
    report.find("complete", Verdict::fail,
                fmt::format("{} to something that is not there; export it again",
                            counted(file.lost_references, "reference leads", "references lead")));
  } else if (!file.limits.empty()) {
    report.find("complete", Verdict::not_checked, fmt::format("left out: {}", fmt::join(file.limits, ", ")));
  } else {
    report.pass("complete", "the file is complete");
  }
}

void judge_unit(Report& report, const StepFile& file) {
  if (file.units.empty()) {
    report.find("unit", Verdict::fail, "the file assigns no unit of length; export it again in millimetres");
    return;
  }
  if (file.units.size() > 1) {
    report.find("unit", Verdict::marginal,
                fmt::format("the file is partly in {}; not every program keeps them apart: export it in one unit",
                            fmt::join(file.units, ", partly in ")));
    return;
  }
  double largest = 0;
  for (const StepSolid& s : file.solids) {
    if (s.corners.empty()) continue;
    const Vec3 size = file.mm_per_unit * s.corners.size();
    largest = std::max({largest, size.x, size.y, size.z});
  }
  if (file.mm_per_unit == 0) {
    report.find("unit", Verdict::fail,
                fmt::format("the unit of length is {}, which is none that is known; export it in "
                            "millimetres",
                            shown(file.units.front())));
  } else if (largest > 0 && (largest < smallest_mm || largest > largest_mm)) {
    report.find(
        "unit", Verdict::marginal,
        fmt::format("in {} the largest body is {:.4g} mm long, an unusual size; make sure that it was exported 1:1",
                    file.units.front(), largest));
  } else {
    report.pass("unit", fmt::format("the unit is {}, by the file", file.units.front()));
  }
}

std::string body_name(const StepFile& file, std::size_t i) {
  const std::string& name = file.solids[i].name;
  return name.empty() ? fmt::format("solid {}", i + 1) : fmt::format("solid {} ({})", i + 1, shown(name));
}

void judge_shells(Report& report, const StepFile& file) {
  std::size_t sound = 0;
  std::size_t said = 0;
  constexpr std::size_t most_said = 8;
  for (std::size_t i = 0; i < file.solids.size(); ++i) {
    const StepSolid& s = file.solids[i];
    const std::size_t wrong = s.open_edges + s.crowded_edges + s.turned_edges;
    if (wrong == 0 && s.faces > 0) ++sound;
    if ((wrong == 0 && s.faces > 0) || ++said > most_said) continue;
    const std::string what =
        s.faces == 0 ? std::string("has no face")
        : s.open_edges > 0
            ? fmt::format("is open: {} to one face only", counted(s.open_edges, "edge belongs", "edges belong"))
        : s.turned_edges > 0 ? fmt::format("has a face that is turned: {} the same way by both its faces",
                                           counted(s.turned_edges, "edge is used", "edges are used"))
                             : fmt::format("has {} of more than two faces", counted(s.crowded_edges, "edge"));
    report.find(
        "closed", Verdict::fail,
        fmt::format("{} {}; mend the body where it was modelled and export it as a solid", body_name(file, i), what));
  }
  if (!file.solids.empty() && sound == file.solids.size()) {
    report.pass("closed",
                sound == 1 ? std::string("the solid is closed") : fmt::format("all {} solids are closed", sound));
  }
}

void judge_content(Report& report, const StepFile& file) {
  if (file.solids.empty()) {
    const std::string what = file.surface_models > 0 ? "only surfaces"
                             : file.wire_models > 0  ? "only curves"
                             : file.meshes > 0       ? "only facets"
                                                     : "no body";
    report.find("solids", Verdict::fail,
                fmt::format("there is {} in it, no solid; join the surfaces to a solid and export that", what));
    return;
  }
  if (file.surface_models + file.wire_models > 0) {
    report.find("solids", Verdict::marginal,
                fmt::format("beside the {} there {} that {} no solid; leave out what is not to be made",
                            counted(file.solids.size(), "solid"),
                            counted(file.surface_models + file.wire_models, "model is", "models are"),
                            file.surface_models + file.wire_models == 1 ? "is" : "are"));
  } else {
    report.pass("solids", fmt::format("the file holds {}", counted(file.solids.size(), "solid")));
  }
  if (file.meshes > 0) {
    report.find("facets", Verdict::marginal,
                "bodies are made of facets; round holes and bends are then flats: export exact surfaces");
  }
  const bool nameless =
      std::any_of(file.products.begin(), file.products.end(), [](const auto& n) { return n.empty(); });
  if (nameless || file.products.empty()) {
    report.find("names", Verdict::marginal, "a product has no name; name the parts, so that the order can be read");
  } else {
    report.pass("names", file.products.size() == 1 ? "the product has a name" : "every product has a name");
  }
}

void judge_bodies(Report& report, const std::vector<solid::StepBodyMeasure>& bodies) {
  const auto count = [&bodies](auto is) {
    return static_cast<std::size_t>(std::count_if(bodies.begin(), bodies.end(), is));
  };
  const std::size_t invalid = count([](const auto& b) { return !b.valid; });
  const std::size_t inside_out = count([](const auto& b) { return b.volume_mm3 < 0; });
  if (inside_out > 0) {
    report.find("volume", Verdict::fail,
                fmt::format("{} inside out; turn the faces round and export again",
                            counted(inside_out, "body is", "bodies are")));
  } else if (invalid > 0) {
    report.find("volume", Verdict::marginal,
                fmt::format("the kernel finds faults in {}; have the body checked and healed where it was modelled",
                            counted(invalid, "body", "bodies")));
  } else {
    report.pass("volume", bodies.size() == 1 ? "the kernel finds no fault in the body"
                                             : "the kernel finds no fault in the bodies");
  }
}

void measure(Report& report, std::string_view bytes, const InspectOptions& options) {
  const auto bodies = solid::measure_step(bytes);
  if (!bodies) {
    report.find("volume", Verdict::not_checked,
                fmt::format("the solids were not measured: {}", shown(bodies.error().reason)));
    return;
  }
  if (bodies->empty()) return;
  Box3 box;
  double volume = 0;
  double area = 0;
  for (const auto& b : *bodies) {
    if (!b.bounds.empty()) box.add(b.bounds);
    volume += b.volume_mm3;
    area += b.area_mm2;
  }
  report.number("bodies in place", static_cast<double>(bodies->size()));
  if (!box.empty()) {
    report.number("size x", box.size().x, "mm");
    report.number("size y", box.size().y, "mm");
    report.number("size z", box.size().z, "mm");
  }
  report.number("surface", area, "mm2");
  report.number("volume", volume, "mm3");
  if (options.material) report.number("mass", volume * 1e-9 * options.material->density_kg_per_m3, "kg");
  judge_bodies(report, *bodies);
}

}  // namespace

Inspection inspect_step(std::string_view bytes, const InspectOptions& options) {
  const StepFile file = read_step_file(bytes);
  Report report("STEP");
  state(report, file);
  judge_complete(report, file);
  if (!file.flaw.empty()) return report.take();
  judge_unit(report, file);
  judge_content(report, file);
  judge_shells(report, file);
  const bool sound = std::all_of(file.solids.begin(), file.solids.end(), [](const StepSolid& s) {
    return s.faces > 0 && s.open_edges + s.crowded_edges + s.turned_edges == 0;
  });
  // The volume of what is open means nothing.
  if (options.measure_solids && sound && !file.solids.empty()) measure(report, bytes, options);
  return report.take();
}

}  // namespace fitup::inspect
