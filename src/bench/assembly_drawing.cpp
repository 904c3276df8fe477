// The exploded view and the parts list.
// Entry: add_exploded_sheet, add_parts_list.

#include "bench/assembly_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "bench/exploded.h"
#include "bench/flow.h"
#include "bench/part_sheets.h"
#include "bench/strip.h"
#include "output/balloons.h"
#include "output/paths.h"
#include "output/sight.h"
#include "output/units.h"

namespace fitup::bench {
namespace {

using output::Balloon;
using output::PaperUnits;

constexpr Vec3 front_left_above{-1, -1.6, 1.1};
constexpr double gap_share = 0.12;      // of the frame's largest size, between what is pulled apart
constexpr double balloon_scale = 0.29;  // mm on paper for what is 1 where balloons are placed
constexpr double column_mm = 14;        // from the view to the middle of a column of balloons
constexpr double heading_mm = 22;

class ExplodedSheet {
 public:
  ExplodedSheet(const Plan& plan, const Type& type) : plan_(plan), type_(type), drawn_(plan) {}

  Status project(const Model& model) {
    const Vec3 size = plan_.frame_size;
    const auto by = exploded(plan_, gap_share * std::max({size.x, size.y, size.z}));
    std::vector<InstanceId> shown;
    for (InstanceId id = 0; id < plan_.instances.size(); ++id) {
      Instance& one = drawn_.instances[id];
      one.pose = one.pose.moved(by[id]);
      if (shown_exploded(plan_.parts[one.part].role)) shown.push_back(id);
    }
    Plan few = drawn_;
    few.instances.clear();
    for (const InstanceId id : shown) few.instances.push_back(drawn_.instances[id]);
    auto lines = hidden_lines(few, model, front_left_above, axis::z);
    if (!lines) return lines.error();
    lines_ = std::move(lines).value().visible;
    for (const auto& line : lines_) {
      for (const Vec2 p : line) bounds_.add(p);
    }
    find_anchors(shown);
    return Done{};
  }

  [[nodiscard]] bool fits(const Box2& room) const {
    const double column = 24 * balloon_scale * static_cast<double>((anchors_.size() + 1) / 2);
    return column < room.size().y;
  }

  void draw(Page& page, const Box2& room) const {
    const double aside = column_mm + widest_balloon();
    const Vec2 free = room.size() - Vec2{2 * aside, 2};
    const Vec2 size = bounds_.size();
    const double scale = std::min(free.x / size.x, free.y / size.y);
    const auto on_page = [&](Vec2 p) {
      return room.middle() + Vec2{scale * (p.x - bounds_.middle().x), -scale * (p.y - bounds_.middle().y)};
    };
    for (const auto& line : lines_) {
      Stroke stroke{{}, false, narrow_mm};
      for (const Vec2 p : line) stroke.vertices.push_back({on_page(p)});
      page.strokes.push_back(std::move(stroke));
    }
    // Balloons are placed in their own units.
    std::vector<Balloon> balloons = anchors_;
    for (Balloon& b : balloons) b.anchor = (1 / balloon_scale) * on_page(b.anchor);
    const Vec2 half = 0.5 * scale * size;
    const double margin = 4;
    const double high = std::max(half.y, 0.5 * room.size().y - margin);
    Box2 view = box_of(room.middle() - Vec2{half.x, high}, room.middle() + Vec2{half.x, high});
    view = box_of((1 / balloon_scale) * view.low, (1 / balloon_scale) * view.high);
    output::place_balloons(balloons, view, column_mm / balloon_scale);
    for (const Balloon& b : balloons) add_balloon(page, b);
  }

 private:
  void find_anchors(const std::vector<InstanceId>& shown) {
    const output::Projection projection(front_left_above, axis::z);
    const output::Sight sight(drawn_, shown, projection);
    std::set<std::string> marked;
    for (const InstanceId id : shown) {
      const std::string& mark = plan_.parts[drawn_.instances[id].part].mark;
      if (marked.count(mark) > 0) continue;
      const auto point = sight.seen_point(id);
      if (!point) continue;
      marked.insert(mark);
      anchors_.push_back({mark, projection.at(*point), {}});
    }
  }

  [[nodiscard]] double widest_balloon() const {
    double widest = 0;
    for (const Balloon& b : anchors_) widest = std::max(widest, type_.width_mm(b.mark, text_mm) + 4);
    return 0.5 * widest + 1;
  }

  void add_balloon(Page& page, const Balloon& balloon) const {
    const Vec2 at = balloon_scale * balloon.at;
    const Vec2 anchor = balloon_scale * balloon.anchor;
    const Vec2 half{0.5 * type_.width_mm(balloon.mark, text_mm) + 1.6, 2.5};
    const bool left = at.x < anchor.x;
    page.line({at.x + (left ? half.x : -half.x), at.y}, anchor, hairline_mm);
    Stroke dot{Loop::circle(anchor, 0.5).vertices, true};
    dot.filled = true;
    page.strokes.push_back(std::move(dot));
    page.strokes.push_back({Loop::rounded_rectangle(at - half, at + half, half.y).vertices, true, narrow_mm});
    page.labels.push_back(type_.label({at.x, at.y + 0.35 * text_mm}, balloon.mark, text_mm, Anchor::middle));
  }

  const Plan& plan_;
  const Type& type_;
  Plan drawn_;
  std::vector<std::vector<Vec2>> lines_;
  Box2 bounds_;
  std::vector<Balloon> anchors_;  // in the view's plane
};

/// What is made, what is bought, what it is made for.
int rank_of(const Part& part) {
  switch (part.source) {
    case Source::sawn: return 0;
    case Source::cut: return 1;
    case Source::bought: return 2;
    default: return 3;
  }
}

}  // namespace

Status add_exploded_sheet(Paper& paper, const Plan& plan, const Model& model, const JobInfo& info, const Type& type) {
  ExplodedSheet sheet(plan, type);
  if (auto done = sheet.project(model); !done) return done;
  for (PaperFormat format = info.bench.paper;; format = larger(format)) {
    Paper own;
    own.name = paper.name;
    Flow flow(own, type, format, true, strip_height_mm(info, paper.name, type, format, true));
    flow.heading("Exploded view");
    flow.sentence(
        "Each part is drawn back along the way that it comes in on, the welded frame as one. Marks as in the parts "
        "list; "
        "screws, nuts and rods stand there alone. Not to scale.");
    const Box2 room = flow.room(flow.left_mm());
    if (!sheet.fits(room) && larger(format) != format) continue;
    sheet.draw(flow.page(), room);
    paper.pages.insert(paper.pages.end(), own.pages.begin(), own.pages.end());
    return Done{};
  }
}

void add_parts_list(Flow& flow, const Plan& plan, const JobInfo& info) {
  const PaperUnits units(info.units);
  const auto count = output::quantities(plan);
  std::vector<PartId> ids;
  for (PartId id = 0; id < plan.parts.size(); ++id) {
    if (count[id] > 0 && !output::is_printed(plan.parts[id])) ids.push_back(id);
  }
  std::stable_sort(ids.begin(), ids.end(), [&](PartId a, PartId b) {
    return std::pair(rank_of(plan.parts[a]), plan.parts[a].mark) <
           std::pair(rank_of(plan.parts[b]), plan.parts[b].mark);
  });
  flow.heading("Parts list");
  Table table{{{"mark"},
               {"count", Anchor::right},
               {"part"},
               {"size, " + std::string(units.length())},
               {"material"},
               {std::string(units.mass()) + " each", Anchor::right}},
              {}};
  for (const PartId id : ids) {
    const Part& part = plan.parts[id];
    table.rows.push_back({{part.mark, std::to_string(count[id]), part.name, units.sentence(part.size), part.material,
                           part.mass_kg > 0 ? units.mass(part.mass_kg) : ""},
                          {}});
  }
  flow.table(table);
}

}  // namespace fitup::bench
