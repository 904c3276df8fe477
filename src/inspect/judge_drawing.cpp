// Judges a DXF file as someone who is to cut it would.
// Entry: inspect_dxf.
#include "inspect/judge_drawing.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <set>

#include "inspect/dxf_entity.h"
#include "inspect/unit_sense.h"

namespace fitup::inspect {

namespace {

constexpr std::size_t layers_shown = 8;

std::string release_words(const std::string& release) {
  // $ACADVER, of the DXF reference.
  constexpr std::array<std::pair<std::string_view, std::string_view>, 10> known{{{"AC1006", "R10"},
                                                                                 {"AC1009", "R12"},
                                                                                 {"AC1012", "R13"},
                                                                                 {"AC1014", "R14"},
                                                                                 {"AC1015", "2000"},
                                                                                 {"AC1018", "2004"},
                                                                                 {"AC1021", "2007"},
                                                                                 {"AC1024", "2010"},
                                                                                 {"AC1027", "2013"},
                                                                                 {"AC1032", "2018"}}};
  for (const auto& [code, words] : known) {
    if (release == code) return fmt::format("DXF, release {}", words);
  }
  return release.empty() ? "DXF, release not said" : fmt::format("DXF, release {}", shown(release));
}

std::vector<bool> layers_with_outlines(const Drawing& drawing) {
  std::vector<bool> with(drawing.layers.size(), false);
  for (const Piece& p : drawing.pieces) with[p.layer] = true;
  for (const Shape& s : drawing.shapes) with[s.layer] = true;
  return with;
}

std::string layer_list(const Judged& judged) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < judged.drawing.layers.size(); ++i) {
    const Layer& layer = judged.drawing.layers[i];
    if (layer.entities == 0) continue;
    const std::string_view role = layer.off ? " (off)" : judged.cut_layer[i] ? " (cut)" : "";
    names.push_back(fmt::format("{}{}", shown(layer.name), role));
  }
  if (names.size() > layers_shown) {
    const std::size_t more = names.size() - layers_shown;
    names.resize(layers_shown);
    names.push_back(fmt::format("and {} more", more));
  }
  return fmt::format("{}", fmt::join(names, ", "));
}

void judge_complete(Report& report, const Drawing& drawing) {
  if (!drawing.limits.empty()) {
    report.find("complete", Verdict::fail,
                fmt::format("there is more in it than is read: {}; export the part alone, without blocks",
                            fmt::join(drawing.limits, ", ")));
  } else if (!drawing.flaw.empty()) {
    report.find("complete", Verdict::fail, drawing.flaw + "; export it again");
  } else if (drawing.broken > 0) {
    report.find("complete", Verdict::fail,
                fmt::format("{} a number or a block that is missing or cannot be read; export it again",
                            counted(drawing.broken, "entity has", "entities have")));
  } else if (drawing.far_away > 0) {
    report.find("complete", Verdict::fail,
                fmt::format("{} farther from the origin than any workshop reaches; move the part to the origin",
                            counted(drawing.far_away, "line lies", "lines lie")));
  } else {
    report.pass("complete", "every entity can be read");
  }
}

}  // namespace

bool is_note_layer(std::string_view name) {
  constexpr std::array<std::string_view, 19> words{
      "MARK",  "ETCH",   "ENGRAV", "GRAV",   "SCRIB",  "BEND",   "FOLD",     "NOTE", "TEXT", "DIM",
      "TITLE", "BORDER", "CENTER", "CENTRE", "HIDDEN", "CONSTR", "DEFPOINT", "ANNO", "LABEL"};
  const std::string plain = upper(name);
  return std::any_of(words.begin(), words.end(),
                     [&](std::string_view word) { return plain.find(word) != std::string::npos; });
}

Inspection inspect_dxf(std::string_view bytes, const InspectOptions& options) {
  Report report("DXF");
  Judged judged;
  judged.drawing = read_drawing(bytes);
  judged.cut_layer = layers_with_outlines(judged.drawing);
  for (std::size_t i = 0; i < judged.cut_layer.size(); ++i) {
    if (is_note_layer(judged.drawing.layers[i].name)) judged.cut_layer[i] = false;
  }
  const UnitJudgement unit = judge_unit(judged.drawing, numbers_of(judged.drawing, judged.cut_layer));
  scale(judged.drawing, unit.mm_per_unit);
  judged.contours = join(judged.drawing, judged.cut_layer);
  judged.meetings = meetings_of(judged.contours);
  judged.nesting = nest(judged.contours.closed);

  report.words("form", release_words(judged.drawing.release));
  report.words("unit", unit.words);
  report.words("layers", layer_list(judged));
  report.number("entities", static_cast<double>(judged.drawing.entities));
  judge_complete(report, judged.drawing);
  report.find("unit", unit.verdict, unit.message);
  judge_outlines(report, judged);
  judge_rest(report, judged);
  judge_plates(report, judged, options);
  return report.take();
}

}  // namespace fitup::inspect
