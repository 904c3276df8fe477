// Judges an STL file as someone who is to print it would.
// Entry: inspect_stl.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "inspect/mesh_file.h"
#include "inspect/report.h"

namespace fitup::inspect {

namespace {

// What printers take, by far (common practice).
constexpr double largest_mm = 2000;
constexpr double smallest_mm = 5;

void state(Report& report, const MeshFile& mesh, const MeshFacts& facts, const InspectOptions& options) {
  report.words("form", mesh.binary ? "STL, binary" : "STL, text");
  if (!mesh.name.empty()) report.words("name", shown(mesh.name));
  report.words("unit", "not said; taken as millimetres");
  report.number("facets", static_cast<double>(mesh.triangles.size()));
  report.number("bodies", static_cast<double>(facts.bodies));
  if (mesh.triangles.empty()) return;
  const Vec3 size = facts.bounds.size();
  report.number("size x", size.x, "mm");
  report.number("size y", size.y, "mm");
  report.number("size z", size.z, "mm");
  report.number("surface", facts.area, "mm2");
  if (facts.open_edges > 0) return;
  report.number("volume", facts.volume, "mm3");
  if (options.material)
    report.number("mass", std::abs(facts.volume) * 1e-9 * options.material->density_kg_per_m3, "kg");
}

void judge_complete(Report& report, const MeshFile& mesh) {
  if (!mesh.flaw.empty()) {
    report.find("complete", Verdict::fail, mesh.flaw + "; export it again");
  } else if (mesh.broken > 0) {
    report.find("complete", Verdict::fail,
                fmt::format("{} not three corners of finite numbers; export it again",
                            counted(mesh.broken, "facet has", "facets have")));
  } else {
    report.pass("complete", "every facet can be read");
  }
}

void judge_closed(Report& report, const MeshFacts& facts) {
  if (facts.open_edges > 0) {
    const std::string gap =
        facts.widest_gap > 0
            ? fmt::format("the corners there stand apart by {:.2g} mm at most: join corners that near",
                          facts.widest_gap)
            : std::string("close the surface where it was modelled, or add the facets that are missing");
    Finding& finding = report.find("closed", Verdict::fail,
                                   fmt::format("the surface is open: {} to one facet only; {}",
                                               counted(facts.open_edges, "edge belongs", "edges belong"), gap));
    finding.at = facts.first_open;
  } else {
    report.pass("closed", "the surface is closed");
  }
  if (facts.crowded_edges > 0) {
    report.find("two facets an edge", Verdict::fail,
                fmt::format("{} to more than two facets: bodies that touch along an edge, or walls without thickness; "
                            "move or join them",
                            counted(facts.crowded_edges, "edge belongs", "edges belong")));
  } else {
    report.pass("two facets an edge", "no edge belongs to more than two facets");
  }
}

void judge_sense(Report& report, const MeshFile& mesh, const MeshFacts& facts) {
  if (facts.turned_edges > 0) {
    report.find("outward", Verdict::fail,
                fmt::format("{} against {}; turn {} round so that all normals point outward",
                            counted(facts.turned_facets, "facet is turned", "facets are turned"), "the others",
                            facts.turned_facets == 1 ? "it" : "them"));
  } else if (facts.inside_out > 0) {
    report.find("outward", Verdict::fail,
                fmt::format("{} inside out: its volume is negative; turn all its facets round",
                            counted(facts.inside_out, "body is", "bodies are")));
  } else if (mesh.normals_off > 0) {
    report.find("outward", Verdict::marginal,
                fmt::format("the stated normals of {} against the order of the corners; most programs go by the order: "
                            "have the normals worked out anew",
                            counted(mesh.normals_off, "facet point", "facets point")));
  } else {
    report.pass("outward", "all facets face one way, outward where the surface is closed");
  }
}

void judge_facets(Report& report, const MeshFile& mesh, const MeshFacts& facts) {
  if (facts.doubled > 0) {
    report.find("doubled", Verdict::fail,
                fmt::format("{} a second time; delete the copies",
                            counted(facts.doubled, "facet is there", "facets are there")));
  } else {
    report.pass("doubled", "no facet is there twice");
  }
  if (mesh.without_area > 0) {
    report.find("facets without area", Verdict::marginal,
                fmt::format("{} two corners on one place; most programs drop them: have the mesh cleaned",
                            counted(mesh.without_area, "facet has", "facets have")));
  }
}

void judge_size(Report& report, const MeshFacts& facts) {
  const Vec3 size = facts.bounds.size();
  const double largest = std::max({size.x, size.y, size.z});
  const std::string as_mm = fmt::format("{:.5g} mm x {:.5g} mm x {:.5g} mm", size.x, size.y, size.z);
  if (largest >= smallest_mm && largest <= largest_mm) {
    report.pass("unit", fmt::format("STL says no unit; as millimetres it is {}, which makes sense", as_mm));
    return;
  }
  const double by = largest < 0.5 ? 1000 : largest < smallest_mm ? 25.4 : 1 / 25.4;
  const std::string_view other = by == 1000 ? "metres" : by == 25.4 ? "inches" : "millimetres taken for inches";
  report.find(
      "unit", Verdict::fail,
      fmt::format("STL says no unit; as millimetres it is {}, as {} it would be {:.4g} mm at the longest; export it "
                  "in millimetres",
                  as_mm, other, largest * by));
}

}  // namespace

Inspection inspect_stl(std::string_view bytes, const InspectOptions& options) {
  const MeshFile mesh = read_mesh(bytes);
  Report report("STL");
  const MeshFacts facts = facts_of(mesh);
  state(report, mesh, facts, options);
  judge_complete(report, mesh);
  if (mesh.triangles.empty()) {
    report.find("facets", Verdict::fail, "there is no facet in it; export the part again");
    return report.take();
  }
  judge_size(report, facts);
  judge_closed(report, facts);
  judge_sense(report, mesh, facts);
  judge_facets(report, mesh, facts);
  if (facts.bodies > 1) {
    report.find("bodies", Verdict::marginal,
                fmt::format("there are {} bodies in one file; one part a file is what most ask for", facts.bodies));
  }
  return report.take();
}

}  // namespace fitup::inspect
