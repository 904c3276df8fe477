// Findings of reach in words.
// Entry: ReachWords.
#include "checks/reach_words.h"

#include <fmt/format.h>

#include <array>
#include <utility>

#include "checks/order.h"
#include "checks/seams.h"
#include "checks/ways.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr const char* name = "reach";
constexpr double band = tolerance::contact_mm;

// "13.60 mm along +Y and 8.60 mm along -Z"
std::string move_text(Vec3 move) {
  std::string words;
  for (const Vec3 way : {axis::x, axis::minus_x, axis::y, axis::minus_y, axis::z, axis::minus_z}) {
    const double mm = dot(move, way);
    if (mm <= band) continue;
    words += fmt::format("{}{} mm along {}", words.empty() ? "" : " and ", length_text(mm), way_text(way));
  }
  return words;
}

}  // namespace

Finding ReachWords::blank(InstanceId id, Verdict verdict) const {
  Finding f;
  f.check = name;
  f.verdict = verdict;
  f.key = plan_.instances[id].key;
  f.place = plan_.instances[id].place;
  f.parts = {scene_.label(id)};
  return f;
}

// Where a bead is in the way, how the parts are welded decides it.
void ReachWords::name_other(Thing other, InstanceId id, Finding& f) const {
  for (std::string& label : scene_.labels(other)) f.parts.push_back(std::move(label));
  f.cause = scene_.cause(id, other);
  const Bead* bead = scene_.bead_of(other);
  if (bead == nullptr) return;
  const WeldRule& rule = weld_rule(plan_, plan_.joints[scene_.seams().all[bead->seam].joint]);
  f.key = rule.key;
  f.place = rule.place;
}

std::string ReachWords::moment(InstanceId id) const {
  const Step& step = plan_.steps[step_of_[id]];
  return on_bench(step_of_[id]) ? "on the bench, when " + step.what + " is made up"
                                : "when the " + step.what + " go in";
}

Finding ReachWords::not_reached(InstanceId id, const ToolRoom& tool, const Taken& taken) const {
  Finding f = blank(id, Verdict::fail);
  name_other(taken.by, id, f);
  f.value = taken.by_mm;
  f.limit = band;
  f.unit = "mm";
  f.source = "tool sizes: ISO 2936 and DIN 3124 from memory, ASME B18.3, common practice";
  f.at = taken.at;
  f.message = fmt::format(
      "{} is not reached {}: {} needs the room that {} takes by {} mm (free when it moves that "
      "far along {}); no other tool does better",
      scene_.label(id), moment(id), tool.words, scene_.words(taken.by), length_text(taken.by_mm),
      way_text(Vec3{} - taken.direction));
  return f;
}

Finding ReachWords::does_not_go_in(InstanceId id, const ToolRoom& way_in, const Taken& taken, bool leans) const {
  Finding f = not_reached(id, way_in, taken);
  if (leans) f.verdict = Verdict::marginal;
  f.source = "what is put in along its axis stands before its place first";
  f.message = fmt::format(
      "{} {} {}: before its place it needs {} mm along its axis, and {} is in its way by {} mm (free when "
      "it "
      "moves that far along {})",
      scene_.label(id), leans ? "goes in only if it leans" : "does not go in", moment(id),
      length_text(way_in.column.length_mm), scene_.words(taken.by), length_text(taken.by_mm),
      way_text(Vec3{} - taken.direction));
  return f;
}

Finding ReachWords::beyond_the_bay(InstanceId id, const ToolRoom& tool, const Lacking& lacking) const {
  constexpr std::array<const char*, 6> faces{"front", "back", "left", "right", "top", "bottom"};
  Finding f = blank(id, Verdict::fail);
  f.value = lacking.bay_mm;
  f.limit = lacking.needed_mm;
  f.unit = "mm";
  f.source = "tool sizes: ISO 2936 and DIN 3124 from memory, ASME B18.3, common practice";
  f.at = tool.column.bounds().middle();
  f.cause = fmt::format("bay {}", faces[lacking.face]);
  f.message = fmt::format(
      "{} is not reached {}: {} needs {} mm of room before the {} of the frame, and the bay leaves {} mm there",
      scene_.label(id), moment(id), tool.words, length_text(lacking.needed_mm), faces[lacking.face],
      length_text(lacking.bay_mm));
  return f;
}

Finding ReachWords::leaning(InstanceId id, const ToolRoom& tool, const Taken& taken) const {
  Finding f = not_reached(id, tool, taken);
  f.verdict = Verdict::marginal;
  f.source = "ball-end hexagon keys lean by 25 degrees (common practice)";
  f.message = fmt::format(
      "{} is reached {} only by a key with a ball end that leans: {} takes {} mm of the straight "
      "one's room",
      scene_.label(id), moment(id), scene_.words(taken.by), length_text(taken.by_mm));
  return f;
}

Finding ReachWords::by_pliers(InstanceId id, const ToolRoom& tool, const Taken& taken, const GlandMoves& moves) const {
  Finding f = not_reached(id, tool, taken);
  f.verdict = Verdict::marginal;
  f.key = plan_.instances[id].key;
  f.place = plan_.instances[id].place;
  const std::string mend =
      moves.all ? fmt::format("it does where the gland is moved {}", move_text(*moves.all))
                : fmt::format(
                      "nor within {} mm of there, with its hole and its cable; a smaller gland, or another "
                      "face, may leave it some",
                      length_text(farthest_move_mm));
  f.value = moves.all ? norm(*moves.all) : moves.spanners ? norm(*moves.spanners) : taken.by_mm;
  f.message = fmt::format(
      "{}: {} finds no room beside {}; {} (the at of the opening in {}). Where it stands it must be held with the "
      "fingers or with pliers",
      scene_.label(id), tool.words, scene_.words(taken.by), mend, f.key);
  return f;
}

Finding ReachWords::not_decided(InstanceId id, const ToolRoom& tool, const Taken& taken) const {
  Finding f = blank(id, Verdict::not_checked);
  name_other(taken.by, id, f);
  f.message = fmt::format("{}: not decided whether {} finds room beside {}: no exact rule knows its shape",
                          scene_.label(id), tool.words, scene_.words(taken.by));
  return f;
}

Finding ReachWords::no_tool(InstanceId id) const {
  Finding f = blank(id, Verdict::not_checked);
  f.cause = std::to_string(plan_.instances[id].part);
  f.message =
      fmt::format("{}: the tables have no tool for it, so it is not asked whether one reaches it", scene_.label(id));
  return f;
}

Finding all_reached(std::size_t count) {
  Finding f;
  f.check = name;
  f.verdict = Verdict::pass;
  f.message = fmt::format(
      "{} screws, nuts, eyes and glands, each with room for a key, socket or spanner when it is "
      "tightened",
      grouped(count));
  return f;
}

}  // namespace fitup::checks
