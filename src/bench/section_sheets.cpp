// Sections where covers and bosses sit.
// Entry: add_sections.

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "bench/assembly_drawing.h"
#include "bench/cross_section.h"
#include "checks/placed.h"
#include "output/section.h"
#include "output/units.h"

namespace fitup::bench {
namespace {

using checks::component;

constexpr double cell_height_mm = 62;
constexpr double cell_width_mm = 120;
constexpr double least_words_mm = 14;  // beside the cut, for marks
constexpr double most_words_mm = 34;
constexpr std::size_t most_named = 8;

struct Section {
  std::string what;  // "front cover at screw SCR-M4x8"
  CutPlace place;
};

int axis_of(Vec3 direction) {
  const std::array<double, 3> sizes{std::abs(direction.x), std::abs(direction.y), std::abs(direction.z)};
  return static_cast<int>(std::max_element(sizes.begin(), sizes.end()) - sizes.begin());
}

bool is_cover(Role role) { return role == Role::cover_sheet || role == Role::cover_flange; }

class SectionSheets {
 public:
  SectionSheets(const Plan& plan, const JobInfo& info, const Type& type)
      : plan_(plan), units_(info.units), type_(type) {}

  void add(Flow& flow) {
    std::vector<Section> all = of_covers();
    for (const Section& one : of_bosses()) all.push_back(one);
    if (all.empty()) return;
    if (flow.left_mm() < cell_height_mm + 30) flow.next_page();
    flow.heading("Sections");
    for (std::size_t i = 0; i < all.size(); i += 2) {
      const Box2 room = flow.room(cell_height_mm + 14);
      const double half = 0.5 * room.size().x;
      for (std::size_t k = i; k < std::min(i + 2, all.size()); ++k) {
        const Vec2 low = room.low + Vec2{k == i ? 0 : half + 2, 0};
        draw(flow.page(), box_of(low, low + Vec2{half - 2, cell_height_mm + 12}), all[k], k);
      }
      flow.page().scale = "1:1";
    }
  }

 private:
  [[nodiscard]] const Part& part(InstanceId id) const { return plan_.parts[plan_.instances[id].part]; }

  /// Of each cover the first screw of each of the ways in which its edges run, at most two.
  [[nodiscard]] std::vector<Section> of_covers() const {
    std::vector<Section> all;
    std::map<std::string, std::set<int>> seen;
    for (const Fastener& fastener : plan_.fasteners) {
      const auto cover = std::find_if(fastener.stack.begin(), fastener.stack.end(),
                                      [&](InstanceId id) { return is_cover(part(id).role); });
      if (cover == fastener.stack.end()) continue;
      const auto place = across_edge(*cover, fastener.screw);
      const std::string& group = plan_.instances[*cover].group;
      if (!place || !seen[group].insert(place->axis).second) continue;
      all.push_back({fmt::format("{}, through {}", group, part(fastener.screw).mark), *place});
    }
    return all;
  }

  /// Across the edge that the screw stands beside: the plane holds the screw's axis and runs over the edge.
  [[nodiscard]] std::optional<CutPlace> across_edge(InstanceId cover, InstanceId screw) const {
    const Pose& pose = plan_.instances[screw].pose;
    const int along = axis_of(pose.z());
    Box3 box;
    for (const Prism& prism : body_of(part(cover)).outer) {
      box.add(Prism{prism.profile, plan_.instances[cover].pose * prism.pose, prism.length_mm}.bounds());
    }
    // Of the two ways across the screw the one that the cover's piece is longer in from here is the edge's.
    const int one = (along + 1) % 3;
    const int other = (along + 2) % 3;
    const auto to_edge = [&](int axis) {
      return std::min(component(pose.origin(), axis) - component(box.low, axis),
                      component(box.high, axis) - component(pose.origin(), axis));
    };
    const int edge = to_edge(one) > to_edge(other) ? one : other;
    return at(pose.origin(), edge);
  }

  static CutPlace at(Vec3 point, int axis) {
    return {axis, component(point, axis), output::Look{axis}.on_paper(point)};
  }

  /// One of each kind of boss.
  [[nodiscard]] std::vector<Section> of_bosses() const {
    std::vector<Section> all;
    std::set<PartId> seen;
    for (const LiftPoint& point : plan_.lift_points) {
      if (!seen.insert(plan_.instances[point.boss].part).second) continue;
      all.push_back({fmt::format("{}, {}", part(point.boss).name, part(point.boss).mark), at(point.at, 1)});
    }
    return all;
  }

  /// The frame that the place belongs to: the one that it lies nearest to.
  [[nodiscard]] const PlacedFrame& frame_at(const CutPlace& place) const {
    const auto off = [&](const PlacedFrame& frame) {
      const Box2 box = output::Look{place.axis}.on_paper(frame.space);
      const Vec2 m = place.middle;
      const double along = std::max(component(frame.space.low, place.axis) - place.at_mm,
                                    place.at_mm - component(frame.space.high, place.axis));
      return std::max({along, box.low.x - m.x, m.x - box.high.x, box.low.y - m.y, m.y - box.high.y});
    };
    return *std::min_element(plan_.frames.begin(), plan_.frames.end(),
                             [&](const PlacedFrame& a, const PlacedFrame& b) { return off(a) < off(b); });
  }

  [[nodiscard]] std::string where(const CutPlace& place) const {
    constexpr std::array<const char*, 3> from{"from the left", "from the front", "above the bottom"};
    constexpr std::array<const char*, 3> seen{"seen from the right", "seen from the front", "seen from above"};
    const auto k = static_cast<std::size_t>(place.axis);
    const PlacedFrame& frame = frame_at(place);
    const std::string which = plan_.frames.size() > 1 ? "frame " + frame.box : "the frame";
    return fmt::format("cut {} {} {} of {}, {}", units_.drawn(place.at_mm - component(frame.space.low, place.axis)),
                       units_.length(), from[k], which, seen[k]);
  }

  [[nodiscard]] double room_for_marks() const {
    double widest = least_words_mm;
    for (const Part& one : plan_.parts) widest = std::max(widest, type_.width_mm(one.mark, text_mm) + 2);
    return std::min(widest, most_words_mm);
  }

  void draw(Page& page, const Box2& cell, const Section& section, std::size_t index) const {
    const std::string letter(1, static_cast<char>('A' + index % 26));
    double y = cell.low.y;
    for (const std::string& line :
         type_.wrapped(fmt::format("{0}-{0}  {1}: {2}", letter, section.what, where(section.place)), text_mm, false,
                       cell.size().x)) {
      page.labels.push_back(type_.label({cell.low.x, y + text_mm}, line, text_mm));
      y += text_mm * line_height;
    }
    const double words_mm = room_for_marks();
    const Box2 box = box_of({cell.low.x + words_mm, y + 2},
                            {std::min(cell.high.x - words_mm, cell.low.x + words_mm + cell_width_mm), cell.high.y});
    auto parts = draw_cut(page, box, 1, plan_, section.place);
    if (parts.size() > most_named) parts.resize(most_named);
    name(page, cell, box, parts);
  }

  /// Marks left and right of the cut, each with a line to its part.
  void name(Page& page, const Box2& cell, const Box2& box, const std::vector<CutPart>& parts) const {
    std::vector<CutPart> left;
    std::vector<CutPart> right;
    std::vector<CutPart> sorted = parts;
    std::sort(sorted.begin(), sorted.end(), [](const CutPart& a, const CutPart& b) { return a.at.x < b.at.x; });
    for (std::size_t i = 0; i < sorted.size(); ++i) (2 * i < sorted.size() ? left : right).push_back(sorted[i]);
    for (auto* side : {&left, &right}) {
      std::sort(side->begin(), side->end(), [](const CutPart& a, const CutPart& b) { return a.at.y < b.at.y; });
      const bool at_left = side == &left;
      const double pitch = std::min(12.0, box.size().y / static_cast<double>(side->size() + 1));
      double y = std::max(box.low.y + 3, box.middle().y - 0.5 * pitch * static_cast<double>(side->size()));
      for (const CutPart& one : *side) {
        const std::string& mark = part(one.instance).mark;
        const double x = at_left ? box.low.x - 1.5 : box.high.x + 1.5;
        const auto lines = type_.wrapped(mark, text_mm, false, at_left ? x - cell.low.x : cell.high.x - x);
        page.line({x, y}, one.at, hairline_mm);
        Stroke dot{Loop::circle(one.at, 0.4).vertices, true};
        dot.filled = true;
        page.strokes.push_back(std::move(dot));
        double line_y = y + 0.35 * text_mm;
        for (const std::string& line : lines) {
          page.labels.push_back(type_.label({x, line_y}, line, text_mm, at_left ? Anchor::right : Anchor::left));
          line_y += text_mm * line_height;
        }
        y += std::max(pitch, text_mm * line_height * static_cast<double>(lines.size()));
      }
    }
  }

  const Plan& plan_;
  output::PaperUnits units_;
  const Type& type_;
};

}  // namespace

void add_sections(Flow& flow, const Plan& plan, const JobInfo& info, const Type& type) {
  SectionSheets(plan, info, type).add(flow);
}

}  // namespace fitup::bench
