// Three views of the whole.
// Entry: add_whole_sheet.

#include <fmt/format.h>

#include <algorithm>

#include "bench/assembly_drawing.h"
#include "bench/exploded.h"
#include "bench/part_sheets.h"
#include "bench/strip.h"
#include "bench/title_block.h"
#include "bench/view_layout.h"
#include "output/finish_words.h"
#include "output/totals.h"

namespace fitup::bench {
namespace {

Result<PartView> seen(const Plan& drawn, const Model& model, Vec3 towards_viewer, Vec3 up) {
  auto lines = hidden_lines(drawn, model, towards_viewer, up);
  if (!lines) return lines.error();
  Box2 box;
  for (const auto& line : lines->visible) {
    for (const Vec2 p : line) box.add(p);
  }
  PartView view;
  view.size = box.size();
  for (const auto& line : lines->visible) {
    Stroke stroke{{}, false, narrow_mm};
    for (const Vec2 p : line) stroke.vertices.push_back({{p.x - box.low.x, box.high.y - p.y}});
    view.strokes.push_back(std::move(stroke));
  }
  return view;
}

Result<PartViews> views_of(const Plan& plan, const Model& model, bool first_angle) {
  Plan drawn = plan;
  std::erase_if(drawn.instances, [&](const Instance& one) { return !shown_exploded(plan.parts[one.part].role); });
  PartViews views;
  views.beside_above = !first_angle;
  const auto add = [&](Vec3 towards_viewer, Vec3 up, ViewSlot slot, std::string caption) -> Status {
    auto made = seen(drawn, model, towards_viewer, up);
    if (!made) return made.error();
    PartView view = std::move(made).value();
    view.slot = slot;
    view.caption = std::move(caption);
    view.width = slot != ViewSlot::beside;
    view.height = slot == ViewSlot::front;
    views.all.push_back(std::move(view));
    return Done{};
  };
  auto done = add(axis::minus_y, axis::z, ViewSlot::front, "from the front");
  if (done) done = add(axis::z, axis::y, ViewSlot::beside, "from above");
  if (done && first_angle) done = add(axis::minus_x, axis::z, ViewSlot::right, "from the left");
  if (done && !first_angle) done = add(axis::x, axis::z, ViewSlot::right, "from the right");
  if (!done) return done.error();
  return views;
}

}  // namespace

Status add_whole_sheet(Paper& paper, const Plan& plan, const Model& model, const JobInfo& info, const Type& type) {
  auto views = views_of(plan, model, info.bench.first_angle);
  if (!views) return views.error();
  const output::PaperUnits units(info.units);
  const output::Totals totals = output::totals_of(plan);
  const Vec3 whole = totals.overall.size();
  TitleBlock block;
  block.name = "The whole";
  // In the words and figures of the summary.
  block.facts = {{"without screws and nuts", "sizes over all that is drawn"},
                 {"with everything on", fmt::format("{} x {} x {} {}", units.size(whole.x), units.size(whole.y),
                                                    units.size(whole.z), units.length())},
                 {"to make", units.weight(totals.made_kg)},
                 {"in all", units.weight(totals.all_kg)},
                 {"general tolerances", "welded " + std::string(output::welded_tolerance)},
                 {"lengths", info.units == UnitSystem::in_lb ? "in inches" : "in mm"}};
  block.first_angle = info.bench.first_angle;
  for (PaperFormat format = info.bench.paper;; format = larger(format)) {
    Paper own;
    Page blank;
    blank.format = format;
    blank.landscape = true;
    const double strip = strip_height_mm(info, paper.name, type, format, true);
    Flow flow(own, type, format, true, strip + block_height_mm(block, type, blank));
    const Box2 room = flow.room(flow.left_mm());
    if (!draw_views(flow.page(), room, *views, {}, type, units) && larger(format) != format) continue;
    add_block(flow.page(), block, type, frame_of(flow.page()).high.y - strip);
    paper.pages.insert(paper.pages.end(), own.pages.begin(), own.pages.end());
    return Done{};
  }
}

}  // namespace fitup::bench
