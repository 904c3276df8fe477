// STEP files of the program's own writer, whole and damaged.
// Entry: step_cases.
#include <cmath>

#include "fitup/model.h"
#include "inspect/cases.h"

namespace fitup::test {

namespace {

/// A plate of 60 x 40 x 3 with a hole of 9.
std::string plate_step() {
  Profile profile{Loop::rectangle({0, 0}, {60, 40}), {Loop::circle({20, 20}, 4.5)}};
  const auto solid = solid::extrude(profile, Pose(), 3);
  if (!solid) return {};
  const auto measured = solid::measure(*solid);
  if (!measured) return {};
  Part part;
  part.mark = "PLT01";
  part.name = "side plate";
  auto text =
      write_part_step(part, *measured, {"PLT01 side plate", "a test", "2026-01-01T00:00:00", StepSchema::ap242});
  return text ? *text : std::string();
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  return at == std::string::npos ? std::string() : text.replace(at, from.size(), to);
}

/// The shell without its first face.
std::string without_a_face(const std::string& text) {
  const std::size_t shell = text.find("CLOSED_SHELL('',(");
  if (shell == std::string::npos) return {};
  const std::size_t first = text.find('#', shell);
  return text.substr(0, first) + text.substr(text.find(',', first) + 1);
}

}  // namespace

std::vector<FileCase> step_cases() {
  const std::string good = plate_step();
  const double area = 60 * 40 - M_PI * 4.5 * 4.5;
  InspectOptions steel;
  if (const Material* s235 = tables::find_material("S235JR")) steel.material = *s235;
  std::vector<FileCase> all;
  all.push_back({"StepOfAPlate",
                 good,
                 {},
                 {},
                 {{"volume", 3 * area}, {"mass", 3 * area * 7.85e-6}, {"solids", 1}, {"faces", 7}, {"size x", 60}},
                 "",
                 steel});
  all.push_back({"StepWithoutAFace", without_a_face(good), {"closed"}, {}, {}, "to one face only", {}});
  all.push_back({"StepWithATurnedFace",
                 [&] {
                   const std::size_t at = good.find("FACE_BOUND(");
                   std::string text = good;
                   const std::size_t sense = text.find(".", at);
                   return text.replace(sense, 3, text.substr(sense, 3) == ".T." ? ".F." : ".T.");
                 }(),
                 {"closed"},
                 {},
                 {},
                 "face that is turned",
                 {{}, {}, false}});
  all.push_back({"StepInMetres",
                 replaced(good, "SI_UNIT(.MILLI.,.METRE.)", "SI_UNIT($,.METRE.)"),
                 {},
                 {"unit"},
                 {},
                 "unusual size",
                 {{}, {}, false}});
  all.push_back({"StepWithoutAUnit",
                 replaced(good, "LENGTH_UNIT()", "MASS_UNIT()"),
                 {"unit"},
                 {},
                 {},
                 "no unit",
                 {{}, {}, false}});
  all.push_back(
      {"StepOfASurface",
       replaced(replaced(good, "MANIFOLD_SOLID_BREP", "SHELL_BASED_SURFACE_MODEL"), "CLOSED_SHELL", "OPEN_SHELL"),
       {"solids"},
       {},
       {},
       "only surfaces",
       {{}, {}, false}});
  all.push_back({"StepWithoutAName",
                 replaced(good, "PRODUCT('PLT01','PLT01 side plate'", "PRODUCT('',''"),
                 {},
                 {"names"},
                 {},
                 "",
                 {{}, {}, false}});
  all.push_back({"StepWithComments",
                 replaced(good, "DATA;", "DATA;\n/* a comment; with 'quotes */"),
                 {},
                 {},
                 {{"faces", 7}},
                 "",
                 {{}, {}, false}});
  all.push_back({"StepCutShort", good.substr(0, good.size() / 2), {"complete"}, {}, {}, "", {}});
  all.push_back({"StepWithALostReference",
                 [&] {
                   const std::size_t at = good.find("\n#", good.find("CARTESIAN_POINT"));
                   return good.substr(0, at) + good.substr(good.find(";\n", at) + 1);
                 }(),
                 {"complete"},
                 {},
                 {},
                 "not there",
                 {{}, {}, false}});
  all.push_back({"StepOfNothing",
                 "ISO-10303-21;\nHEADER;\nENDSEC;\nDATA;\nENDSEC;\nEND-ISO-10303-21;\n",
                 {"solids", "unit"},
                 {},
                 {},
                 "no body",
                 {}});
  return all;
}

std::vector<FileCase> other_cases() {
  std::vector<FileCase> all;
  all.push_back({"Empty", "", {"format"}, {}, {}, "empty", {}});
  all.push_back({"Blank", "\n \n", {"format"}, {}, {}, "empty", {}});
  all.push_back({"BinaryDxf", "Any Binary DXF\r\n\x1a and more", {"format"}, {}, {}, "ASCII DXF", {}});
  all.push_back({"BinaryDrawing", "AC1027 and more", {"format"}, {}, {}, "binary form", {}});
  all.push_back({"ZipArchive", "PK\x03\x04 and more", {"format"}, {}, {}, "ZIP", {}});
  all.push_back({"Words", "a letter to the cutter\n", {"format"}, {}, {}, "neither", {}});
  return all;
}

}  // namespace fitup::test
