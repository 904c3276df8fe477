// The views of a part.
// Entry: part_views.

#include "bench/part_views.h"

#include <algorithm>
#include <cmath>

#include "bench/template_shapes.h"
#include "output/flat_drawing.h"
#include "output/paths.h"

namespace fitup::bench {
namespace {

constexpr double hatch_mm = 3;  // between lines on the part; ISO 128-50 leaves the distance free
constexpr double bend_dash_mm = narrow_mm;

Box2 bounds_of(const HiddenLines& lines) {
  Box2 box;
  for (const auto* all : {&lines.visible, &lines.hidden}) {
    for (const auto& line : *all) {
      for (const Vec2 p : line) box.add(p);
    }
  }
  return box;
}

Result<PartView> projected(const Model& model, PartId id, Vec3 towards_viewer, Vec3 up, bool with_hidden = true) {
  Plan alone;
  Instance& one = alone.instances.emplace_back();
  one.part = id;
  auto seen = hidden_lines(alone, model, towards_viewer, up);
  if (!seen) return seen.error();
  const Box2 box = bounds_of(*seen);
  PartView view;
  view.size = box.size();
  const auto add = [&](const std::vector<std::vector<Vec2>>& lines, double width_mm, Dash dash) {
    for (const auto& line : lines) {
      Stroke stroke{{}, false, width_mm, dash};
      for (const Vec2 p : line) stroke.vertices.push_back({{p.x - box.low.x, box.high.y - p.y}});
      view.strokes.push_back(std::move(stroke));
    }
  };
  if (with_hidden) add(seen->hidden, narrow_mm, Dash::dashed);
  add(seen->visible, wide_mm, Dash::none);
  return view;
}

OutlineSizes turned_over(OutlineSizes sizes, double height_mm) {
  for (Coordinate& c : sizes.x) std::tie(c.from_mm, c.to_mm) = std::pair(height_mm - c.to_mm, height_mm - c.from_mm);
  for (Coordinate& c : sizes.y) c.at_mm = height_mm - c.at_mm;
  for (CornerSize& c : sizes.corners) c.at.y = height_mm - c.at.y;
  return sizes;
}

/// What is kept of a side as it is seen from outside.
Loop seen_outline(const Member& member, Leg leg) {
  if (member.section.shape != SectionShape::tube) return {outer_outline(member, leg)};
  const double width = leg == Leg::a ? member.section.leg_a_mm : member.section.leg_b_mm;
  const double start = member.start.mitre == leg ? width : 0;
  const double end = member.length_mm - (member.end.mitre == leg ? width : 0);
  return Loop::polygon({{0, 0}, {member.length_mm, 0}, {end, width}, {start, width}});
}

void locate(PartView& view, const Member& member, Leg leg) {
  const double width = leg == Leg::a ? member.section.leg_a_mm : member.section.leg_b_mm;
  OutlineSizes sizes = outline_sizes(seen_outline(member, leg));
  sizes.leave_out(box_of({0, 0}, {member.length_mm, width}));
  const bool down = leg == Leg::a;
  view.sizes = down ? sizes : turned_over(std::move(sizes), width);
  view.datum = {0, down ? 0 : width};
}

std::string side_words(const Section& section, Leg leg) {
  if (section.shape == SectionShape::flat) return leg == Leg::a ? "front" : "edge";
  const char* what = section.shape == SectionShape::angle ? "leg" : "side";
  return std::string(what) + (leg == Leg::a ? " A" : " B") + ", start at the left";
}

/// Leg A from outside with the heel above, leg B from above, an end.
Result<PartViews> views_of_member(const Part& part, const Model& model, PartId id, bool first_angle) {
  const auto& member = std::get<Member>(part.form);
  auto front = projected(model, id, axis::minus_y, axis::minus_x);
  if (!front) return front.error();
  auto beside = projected(model, id, axis::minus_x, axis::y);
  if (!beside) return beside.error();
  auto end = projected(model, id, first_angle ? axis::minus_z : axis::z, axis::minus_x);
  if (!end) return end.error();
  PartViews views;
  views.beside_above = !first_angle;
  views.all = {std::move(front).value(), std::move(beside).value(), std::move(end).value()};
  locate(views.all[0], member, Leg::a);
  if (member.section.shape != SectionShape::flat) locate(views.all[1], member, Leg::b);
  views.all[0].caption = side_words(member.section, Leg::a);
  views.all[1].caption = side_words(member.section, Leg::b);
  views.all[2].caption = first_angle ? "start" : "end";
  views.all[1].slot = ViewSlot::beside;
  views.all[2].slot = ViewSlot::right;
  views.all[0].width = views.all[2].width = views.all[2].height = true;
  return views;
}

PartView outline_view(const Flat& flat) {
  const Profile profile = output::profile_at_origin(flat);
  const Vec2 low = flat.profile.bounds().low;
  PartView view;
  view.size = profile.bounds().size();
  const double height = view.size.y;
  const auto add = [&](const Loop& loop) {
    Stroke stroke{{}, true, wide_mm};
    for (const Vertex& v : loop.vertices) stroke.vertices.push_back({{v.at.x, height - v.at.y}, -v.bulge});
    view.strokes.push_back(std::move(stroke));
  };
  add(profile.outer);
  for (const Loop& hole : profile.holes) add(hole);
  for (const DrilledHole& hole : flat.drilled) add(Loop::circle(hole.at - low, hole.diameter_mm / 2));
  OutlineSizes sizes = outline_sizes(profile.outer);
  sizes.leave_out(profile.bounds());
  for (const Loop& hole : profile.holes) {
    if (cut_out(hole).kind != CutOut::Kind::other) continue;
    sizes.add(outline_sizes(hole));
  }
  for (std::size_t i = 0; i < flat.bends.size(); ++i) {
    const Bend& bend = flat.bends[i];
    const auto on_page = [&](Vec2 p) { return Vec2{p.x - low.x, height - (p.y - low.y)}; };
    view.words.push_back({on_page(0.4 * bend.from + 0.6 * bend.to), bend_name(i)});
    view.strokes.push_back({{{on_page(bend.from)}, {on_page(bend.to)}}, false, bend_dash_mm, Dash::chain});
    // A bend's line is located as an edge is.
    const Vec2 a = bend.from - low;
    const Vec2 b = bend.to - low;
    OutlineSizes line;
    if (std::abs(a.x - b.x) < 1e-6) line.x.push_back({a.x, std::min(a.y, b.y), std::max(a.y, b.y)});
    if (std::abs(a.y - b.y) < 1e-6) line.y.push_back({a.y, std::min(a.x, b.x), std::max(a.x, b.x)});
    sizes.add(line);
  }
  view.sizes = turned_over(std::move(sizes), height);
  view.datum = {0, height};
  view.width = view.height = true;
  return view;
}

/// The flat part without what is in it: an edge view shows no hole that its table says.
Result<Model> bare(const Flat& flat) {
  auto solid = solid::extrude({flat.profile.outer, {}}, Pose{}, flat.thickness_mm);
  if (!solid) return solid.error();
  Model model;
  model.parts.push_back({std::move(solid).value(), 0, 0, {}, {}});
  return model;
}

/// As in its cut file, with its edge; of a bent part the bent body instead, seen from above and from the side.
Result<PartViews> views_of_flat(const Part& part, const Model& model, PartId id, bool first_angle) {
  const auto& flat = std::get<Flat>(part.form);
  PartViews views;
  views.all_round = true;
  views.all.push_back(outline_view(flat));
  const bool wide = views.all[0].size.x >= views.all[0].size.y;
  const Vec3 towards = wide ? (first_angle ? axis::minus_y : axis::y) : (first_angle ? axis::minus_x : axis::x);
  const Vec3 up = wide ? (first_angle ? axis::z : axis::minus_z) : axis::y;
  const bool bent = !flat.bends.empty();
  auto plain = bent ? Result<Model>(Model{}) : bare(flat);
  if (!plain) return plain.error();
  auto edge = projected(bent ? model : *plain, bent ? id : 0, towards, up, bent);
  if (!edge) return edge.error();
  PartView& second = views.all.emplace_back(std::move(edge).value());
  second.slot = wide ? ViewSlot::beside : ViewSlot::right;
  (wide ? second.height : second.width) = true;
  if (bent) {
    views.all[0].caption = "flat pattern";
    second.caption = "bent";
  }
  return views;
}

/// The section's hatching at 45 degrees: `length` by `height`, from the upper left corner.
std::vector<Stroke> hatched(double length, double height) {
  std::vector<Stroke> strokes;
  for (double at = hatch_mm - height; at < length; at += hatch_mm) {
    const double from = std::max(0.0, -at);
    const double to = std::min(height, length - at);
    strokes.push_back({{{{at + from, height - from}}, {{at + to, height - to}}}, false, hairline_mm});
  }
  return strokes;
}

double widest_of(const Prism& prism) { return prism.profile.outer.bounds().size().y; }

/// The thread of a boss in its bore: its major diameter as ISO 6410-1 draws it, and how it is tapped.
void add_thread(PartView& front, const Plan& plan, PartId id, double x, double length, double bore) {
  const double middle = 0.5 * front.size.y;
  for (const LiftPoint& point : plan.lift_points) {
    if (plan.instances[point.boss].part != id) continue;
    const Thread* thread = tables::find_thread(point.thread);
    if (thread == nullptr || thread->major_mm <= bore) continue;
    for (const double y : {middle - 0.5 * thread->major_mm, middle + 0.5 * thread->major_mm}) {
      front.strokes.push_back({{{{x, y}}, {{x + length, y}}}, false, narrow_mm});
    }
    break;
  }
  const std::string& size = plan.parts[id].size;
  const std::size_t comma = size.find(", ");
  if (comma != std::string::npos) front.words.push_back({{x + length, middle - 0.5 * bore}, size.substr(comma + 2)});
}

/// Cut along its axis, and its end.
Result<PartViews> views_of_round(const Plan& plan, const Model& model, PartId id, bool first_angle) {
  const Part& part = plan.parts[id];
  const auto& prisms = std::get<Solidform>(part.form).prisms;
  auto end = projected(model, id, first_angle ? axis::minus_z : axis::z, axis::y);
  if (!end) return end.error();
  PartView front;
  const double high = end->size.y;
  front.size.y = high;
  double x = 0;
  for (const Prism& prism : prisms) {
    const double width = widest_of(prism);
    const double bore = prism.profile.holes.empty() ? 0 : prism.profile.holes[0].bounds().size().y;
    const auto rectangle = [&](double across) {
      const Loop box = Loop::rectangle({x, 0.5 * (high - across)}, {x + prism.length_mm, 0.5 * (high + across)});
      front.strokes.push_back({box.vertices, true, wide_mm});
    };
    rectangle(width);
    if (bore > 0) rectangle(bore);
    const auto lines = hatched(prism.length_mm, 0.5 * (width - bore));
    for (const double top : {0.5 * (high - width), 0.5 * (high + bore)}) {
      for (Stroke stroke : lines) {
        for (Vertex& v : stroke.vertices) v.at = v.at + Vec2{x, top};
        front.strokes.push_back(std::move(stroke));
      }
    }
    if (bore > 0) add_thread(front, plan, id, x, prism.length_mm, bore);
    x += prism.length_mm;
  }
  front.size.x = x;
  front.strokes.push_back({{{{-3, 0.5 * high}}, {{x + 3, 0.5 * high}}}, false, narrow_mm, Dash::chain});
  front.width = front.height = true;
  front.height_sign = "Ø";
  front.caption = "cut along its axis";
  PartViews views;
  views.all = {std::move(front), std::move(end).value()};
  views.all[1].slot = ViewSlot::right;
  return views;
}

bool is_round(const Part& part) {
  const auto* form = std::get_if<Solidform>(&part.form);
  return form != nullptr && part.source == Source::sawn && !form->prisms.empty() &&
         std::all_of(form->prisms.begin(), form->prisms.end(),
                     [](const Prism& prism) { return prism.profile.outer.as_circle().has_value(); });
}

}  // namespace

std::string bend_name(std::size_t index) { return "bend " + std::to_string(index + 1); }

bool is_drawn(const Part& part) {
  return output::is_cut(part) || is_round(part) ||
         (part.source == Source::sawn && std::holds_alternative<Member>(part.form));
}

Result<PartViews> part_views(const Plan& plan, const Model& model, PartId id, bool first_angle) {
  const Part& part = plan.parts.at(id);
  if (std::holds_alternative<Member>(part.form)) return views_of_member(part, model, id, first_angle);
  if (std::holds_alternative<Flat>(part.form)) return views_of_flat(part, model, id, first_angle);
  return views_of_round(plan, model, id, first_angle);
}

}  // namespace fitup::bench
