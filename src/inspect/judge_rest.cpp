// Judges what stands in a flat file beside its outlines.
// Entry: judge_rest.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "inspect/judge_drawing.h"

namespace fitup::inspect {

namespace {

Vec3 in_space(Vec2 p) { return {p.x, p.y, 0}; }

void judge_writing(Report& report, const Judged& judged) {
  std::size_t cut = 0;
  std::size_t unclear = 0;
  const Writing* first = nullptr;
  const Writing* first_unclear = nullptr;
  for (const Writing& w : judged.drawing.writings) {
    if (judged.cut_layer[w.layer]) {
      if (cut++ == 0) first = &w;
    } else if (!is_note_layer(judged.drawing.layers[w.layer].name)) {
      if (unclear++ == 0) first_unclear = &w;
    }
  }
  const auto named = [&](const Writing& w) {
    const std::string what = w.dimension ? "a dimension" : fmt::format("the text \"{}\"", shown(w.text));
    return fmt::format("{} on layer {}", what, shown(judged.drawing.layers[w.layer].name));
  };
  if (first != nullptr) {
    Finding& finding = report.find(
        "text", Verdict::fail,
        fmt::format("{} on a layer that is cut, such as {}, and would be cut or refused; move it to a layer for notes "
                    "(NOTE), or delete it",
                    counted(cut, "text or dimension stands", "texts or dimensions stand"), named(*first)));
    finding.at = in_space(first->at);
  } else if (first_unclear != nullptr) {
    Finding& finding = report.find(
        "text", Verdict::marginal,
        fmt::format(
            "{} on a layer whose name does not say that it is not cut, such as {}; call the layer NOTE, or delete "
            "the text",
            counted(unclear, "text or dimension stands", "texts or dimensions stand"), named(*first_unclear)));
    finding.at = in_space(first_unclear->at);
  } else {
    report.pass("text", judged.drawing.writings.empty() ? "there is no text in it" : "texts stand on layers for notes");
  }
}

void judge_points(Report& report, const Judged& judged) {
  std::size_t count = 0;
  Vec2 first;
  for (const auto& [layer, points] : judged.drawing.points) {
    if (is_note_layer(judged.drawing.layers[layer].name)) continue;
    if (count == 0) first = points.first;
    count += points.count;
  }
  if (count == 0) return;
  Finding& finding =
      report.find("points", Verdict::marginal,
                  fmt::format("{} in it: a cutter may pierce there; delete them, or move them to a layer for "
                              "marks",
                              counted(count, "point is", "points are")));
  finding.at = in_space(first);
}

void judge_other_types(Report& report, const Drawing& drawing) {
  std::vector<std::string> types;
  for (const auto& [type, count] : drawing.not_read) {
    if (types.size() < 6) types.push_back(fmt::format("{} {}", count, shown(type)));
  }
  if (!types.empty()) {
    report.find(
        "other things", Verdict::marginal,
        fmt::format("it also holds what is no outline: {}; delete what is not to be cut", fmt::join(types, ", ")));
  }
  if (!drawing.thin.empty()) {
    Finding& finding = report.find(
        "thin lines", Verdict::fail,
        fmt::format(
            "{} in a line type of centre or hidden lines: a cutter cuts them all the same; delete them, or move them "
            "to a layer that is not cut",
            counted(drawing.thin.size(), "line is", "lines are")));
    finding.at = in_space(drawing.thin.front().edge.from);
  }
}

void judge_layers(Report& report, const Drawing& drawing) {
  if (drawing.on_hidden_layers > 0) {
    report.find(
        "hidden", Verdict::marginal,
        fmt::format("{} hidden or on a layer that is off or frozen: some programs cut them all the same; delete them",
                    counted(drawing.on_hidden_layers, "entity is", "entities are")));
  }
  if (drawing.in_paper_space > 0) {
    report.find("paper space", Verdict::marginal,
                fmt::format("{} on a layout page, beside the model; leave the page out",
                            counted(drawing.in_paper_space, "entity stands", "entities stand")));
  }
  if (drawing.inserts > 0) {
    report.find("blocks", Verdict::marginal,
                fmt::format("{} placed in the drawing{}: some cutters' programs leave blocks out; explode them",
                            counted(drawing.inserts, "block is", "blocks are"),
                            drawing.deepest_block > 1 ? fmt::format(", nested {} deep", drawing.deepest_block) : ""));
  }
}

}  // namespace

void judge_rest(Report& report, const Judged& judged) {
  judge_writing(report, judged);
  judge_points(report, judged);
  judge_other_types(report, judged.drawing);
  judge_layers(report, judged.drawing);
}

}  // namespace fitup::inspect
