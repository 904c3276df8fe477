// Judges what is to be cut: closed, once, apart, of lines and arcs.
// Entry: judge_outlines.
#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "inspect/judge_drawing.h"
#include "inspect/line_rounds.h"

namespace fitup::inspect {

namespace {

const std::string gap_source = "common practice of laser shops: a gap of 0.01 to 0.1 mm at most";

Vec3 in_space(Vec2 p) { return {p.x, p.y, 0}; }

bool long_enough(const OpenChain& chain) {
  double length = 0;
  for (const Edge& e : chain.edges) length += e.length_mm();
  return length > 0;
}

void judge_gaps(Report& report, const Contours& contours) {
  const auto& gaps = contours.gaps;
  const double widest = gaps.empty() ? 0 : gaps.front().width_mm;
  const auto wide = static_cast<std::size_t>(
      std::count_if(gaps.begin(), gaps.end(), [](const Gap& g) { return g.width_mm > closed_gap_mm + 1e-9; }));
  if (widest <= closed_gap_mm + 1e-9) {
    report.pass("closed", widest == 0
                              ? fmt::format("{} closed", counted(contours.closed.size(), "contour is", "contours are"))
                              : fmt::format("every contour is closed within {:.2g} mm", widest));
    return;
  }
  const Verdict verdict = widest > asked_gap_mm ? Verdict::fail : Verdict::marginal;
  const std::string what = verdict == Verdict::fail ? "an open contour has no inside and is refused"
                                                    : "some cutters close such a gap, some send it back";
  Finding& finding = report.find("closed", verdict,
                                 fmt::format("{} open, by {:.3g} mm at most: {}; make the ends meet",
                                             counted(wide, "contour corner is", "contour corners are"), widest, what),
                                 widest, verdict == Verdict::fail ? asked_gap_mm : closed_gap_mm, gap_source);
  finding.at = in_space(gaps.front().at);
}

void judge_open(Report& report, const Contours& contours) {
  std::size_t count = 0;
  const OpenChain* first = nullptr;
  for (const OpenChain& chain : contours.open) {
    if (chain.tangled || !long_enough(chain)) continue;
    if (count++ == 0) first = &chain;
  }
  if (first == nullptr) return;
  const double apart = norm(first->edges.back().to - first->edges.front().from);
  Finding& finding = report.find(
      "closed", Verdict::fail,
      fmt::format("{} on a layer that is cut and {} nothing (the first has its ends {:.4g} mm apart); close them, move "
                  "them to a layer for marks, or delete them",
                  counted(count, "line or chain of lines lies", "lines or chains of lines lie"),
                  count == 1 ? "closes" : "close", apart));
  finding.at = in_space(first->edges.front().from);
}

void judge_closed(Report& report, const Contours& contours) {
  const bool open =
      std::any_of(contours.open.begin(), contours.open.end(), [](const OpenChain& c) { return !c.tangled; });
  if (!open || (!contours.gaps.empty() && contours.gaps.front().width_mm > closed_gap_mm)) judge_gaps(report, contours);
  judge_open(report, contours);
}

void judge_doubled(Report& report, const Judged& judged) {
  const auto overlapping = std::count_if(judged.meetings.all.begin(), judged.meetings.all.end(),
                                         [](const Meeting& m) { return m.kind == MeetingKind::overlapping; });
  const std::size_t count = judged.contours.doubled.size() + static_cast<std::size_t>(overlapping);
  if (count == 0) {
    report.pass("drawn once", "no outline is drawn twice");
    return;
  }
  Vec2 at;
  if (judged.contours.doubled.empty()) {
    at = std::find_if(judged.meetings.all.begin(), judged.meetings.all.end(), [](const Meeting& m) {
           return m.kind == MeetingKind::overlapping;
         })->at;
  } else {
    at = judged.contours.doubled.front();
  }
  Finding& finding = report.find("drawn once", Verdict::fail,
                                 fmt::format("{} on another and would be cut twice; delete the copies",
                                             counted(count, "outline lies", "outlines lie")));
  finding.at = in_space(at);
}

void judge_apart(Report& report, const Judged& judged) {
  const auto& all = judged.meetings.all;
  const auto meets = [](const Meeting& m) { return m.kind != MeetingKind::overlapping; };
  const auto first = std::find_if(all.begin(), all.end(), meets);
  const auto count = static_cast<std::size_t>(std::count_if(all.begin(), all.end(), meets));
  const auto& branches = judged.contours.branches;
  if (first != all.end()) {
    const std::string_view whose = first->itself ? "an outline crosses or touches itself" : "outlines cross or touch";
    Finding& finding =
        report.find("apart", Verdict::fail,
                    fmt::format("{}, {}; contours must lie apart, cut-outs wholly inside: trim or move them", whose,
                                counted(count, "place", "places")));
    finding.at = in_space(first->at);
  }
  if (!branches.empty()) {
    Finding& finding = report.find(
        "apart", Verdict::fail,
        fmt::format("three or more lines meet in {}, so that it is open which of them bound the part; give every "
                    "contour its own closed outline",
                    counted(branches.size(), "place", "places")));
    finding.at = in_space(branches.front());
  }
  if (!judged.meetings.complete) {
    report.find("apart", Verdict::not_checked, "there are too many lines on one place to compare them all");
  } else if (first == all.end() && branches.empty()) {
    report.pass("apart", "no two outlines cross or touch");
  }
}

void judge_no_length(Report& report, const Judged& judged) {
  std::vector<Vec2> places = judged.drawing.no_length;
  places.insert(places.end(), judged.contours.no_length.begin(), judged.contours.no_length.end());
  if (places.empty()) return;
  Finding& finding = report.find("lines of no length", Verdict::marginal,
                                 fmt::format("{} no length: a cutter may pierce or stop there; delete them",
                                             counted(places.size(), "line has", "lines have")));
  finding.at = in_space(places.front());
}

void judge_curves(Report& report, const Judged& judged) {
  std::size_t splines = 0;
  std::size_t ellipses = 0;
  for (std::size_t i = 0; i < judged.cut_layer.size(); ++i) {
    if (!judged.cut_layer[i]) continue;
    const auto layer = static_cast<std::uint32_t>(i);
    if (const auto found = judged.drawing.splines.find(layer); found != judged.drawing.splines.end()) {
      splines += found->second;
    }
    if (const auto found = judged.drawing.ellipses.find(layer); found != judged.drawing.ellipses.end()) {
      ellipses += found->second;
    }
  }
  if (splines + ellipses == 0) {
    report.pass("lines and arcs", "outlines are lines, arcs and circles");
    return;
  }
  std::string what = splines > 0 ? counted(splines, "spline") : std::string();
  if (ellipses > 0) what += (what.empty() ? "" : " and ") + counted(ellipses, "ellipse");
  report.find(
      "lines and arcs", Verdict::marginal,
      fmt::format("{} in what is cut: some cutters refuse them, others turn them into short lines; export lines and "
                  "arcs. Lengths and areas are measured along chords",
                  what));
}

void judge_short_lines(Report& report, const Contours& contours) {
  std::size_t rounds = 0;
  LineRound first;
  for (const Contour& c : contours.closed) {
    if (c.curved) continue;
    for (const LineRound& round : line_rounds(c.loop)) {
      if (rounds++ == 0) first = round;
    }
  }
  if (rounds == 0) return;
  Finding& finding = report.find(
      "short lines", Verdict::marginal,
      fmt::format("{} drawn as short lines (the first, {} mm across, as {}): they come out rough and too small; draw "
                  "circles and arcs",
                  counted(rounds, "round is", "rounds are"), fmt::format("{:.4g}", 2 * first.circle.radius),
                  counted(first.lines, "line")));
  finding.at = in_space(first.circle.centre);
}

}  // namespace

void judge_outlines(Report& report, const Judged& judged) {
  const Contours& contours = judged.contours;
  if (contours.closed.empty() && contours.open.empty()) {
    const bool elsewhere = !judged.drawing.pieces.empty() || !judged.drawing.shapes.empty();
    report.find("outline", Verdict::fail,
                elsewhere
                    ? "nothing lies on a layer that is cut, only on layers for marks and notes; put the outline on a "
                      "layer of its own, such as CUT"
                    : "there is no outline in it to cut; export the flat shape of the part");
    return;
  }
  if (judged.drawing.not_flat > 0) {
    report.find("flat", Verdict::fail,
                fmt::format("{} not in the plane of the drawing; export a flat view from straight above",
                            counted(judged.drawing.not_flat, "entity lies", "entities lie")));
  }
  judge_closed(report, contours);
  judge_doubled(report, judged);
  judge_apart(report, judged);
  judge_no_length(report, judged);
  judge_curves(report, judged);
  judge_short_lines(report, contours);
}

}  // namespace fitup::inspect
