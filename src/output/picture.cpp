// A picture of the assembly as SVG.
// Entry: assembly_svg.

#include "output/picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <set>

#include "output/balloons.h"
#include "output/sight.h"
#include "output/svg.h"
#include "output/text.h"
#include "output/totals.h"
#include "output/units.h"

namespace fitup::output {
namespace {

constexpr double page_width = 1400;
constexpr double margin = 30;
constexpr double gap = 40;
constexpr double label_height = 24;
constexpr double side_room = 112;  // left and right of a view, for balloons and sizes
constexpr double below_room = 58;  // under a view, for sizes
constexpr double size_offset = 26;
constexpr double leader_dot = 2.2;  // its radius
constexpr double balloon_column = 82;

bool is_fastener(Role role) {
  return role == Role::rod || role == Role::nut || role == Role::washer || role == Role::screw || role == Role::insert;
}

bool is_cover(Role role) { return role == Role::cover_sheet || role == Role::cover_flange || role == Role::seal; }

bool is_frame(Role role) {
  return role == Role::ring_member || role == Role::upright || role == Role::rail || role == Role::landing ||
         role == Role::boss || role == Role::bearer || role == Role::foot || role == Role::lug ||
         role == Role::cross_bar || role == Role::brace || role == Role::gusset || role == Role::wall ||
         role == Role::rib || role == Role::doubler || role == Role::nut_strip || role == Role::mount_strip ||
         role == Role::stud;
}

bool is_drawn(Role role) { return !is_fastener(role); }
bool is_inside(Role role) { return !is_fastener(role) && !is_cover(role); }
bool is_skin(Role role) { return is_cover(role) || role == Role::face_plate; }

enum class Sizes { none, frame, whole };

struct Wanted {
  std::string_view label;
  bool (*drawn)(Role);
  bool (*marked)(Role);  // whose marks belong on this view
  Vec3 towards_viewer;
  Vec3 up;
  Sizes sizes;
};

bool nothing(Role) { return false; }

constexpr Vec3 front_left_above{-1, -1.6, 1.1};
constexpr std::array<Wanted, 3> askew{
    {{"All on, sizes of the whole", is_drawn, is_skin, front_left_above, axis::z, Sizes::whole},
     {"Covers off", is_inside, is_inside, front_left_above, axis::z, Sizes::none},
     {"The bare frame, its sizes", is_frame, is_frame, front_left_above, axis::z, Sizes::frame}}};

/// A view square to a face: inside, or of the frame alone where a welded plate shuts that face.
struct Square {
  std::string_view inside;
  std::string_view bare;
  Vec3 towards_viewer;
  Vec3 up;
};
constexpr std::array<Square, 3> square{
    {{"From the front, covers off", "From the front, the bare frame", axis::minus_y, axis::z},
     {"From above, covers off", "From above, the bare frame", axis::z, axis::y},
     {"From the left, covers off", "From the left, the bare frame", axis::minus_x, axis::z}}};

Box3 box_of(const Model& model, const Instance& instance) {
  const Box3& own = model.parts.at(instance.part).bounds;
  Box3 box;
  for (const double x : {own.low.x, own.high.x}) {
    for (const double y : {own.low.y, own.high.y}) {
      for (const double z : {own.low.z, own.high.z}) box.add(instance.pose.point({x, y, z}));
    }
  }
  return box;
}

/// Whether a plate is welded over the first box's face that looks that way.
bool is_shut(const Plan& plan, const Model& model, Vec3 way) {
  const Vec3 middle = plan.frames.empty() ? 0.5 * plan.frame_size : plan.frames.front().space.middle();
  return std::any_of(plan.instances.begin(), plan.instances.end(), [&](const Instance& instance) {
    const auto* flat = std::get_if<Flat>(&plan.parts[instance.part].form);
    if (flat == nullptr || plan.parts[instance.part].role != Role::face_plate) return false;
    const Box3 box = box_of(model, instance);
    const bool along = std::abs(dot(box.size(), way)) < flat->thickness_mm + 1;
    return along && dot(box.middle() - middle, way) > 0;
  });
}

std::vector<Wanted> wanted(const Plan& plan, const Model& model) {
  std::vector<Wanted> all(askew.begin(), askew.end());
  for (const Square& one : square) {
    const bool shut = is_shut(plan, model, one.towards_viewer);
    all.push_back(
        {shut ? one.bare : one.inside, shut ? is_frame : is_inside, nothing, one.towards_viewer, one.up, Sizes::none});
  }
  return all;
}

struct View {
  Wanted what;
  std::vector<std::vector<Vec2>> lines;
  Box2 bounds;
  std::vector<Balloon> balloons;                  // anchors in the view's plane, y up
  std::map<std::string, std::vector<Vec2>> also;  // by mark: further anchors, where sizes may cover the first
};

/// Marks of parts that are seen here and carry none yet. A skin or frame part waits for its own view.
void add_balloons(View& view, const Plan& plan, std::set<std::string>& marked) {
  const Projection projection(view.what.towards_viewer, view.what.up);
  std::vector<InstanceId> drawn;
  for (InstanceId id = 0; id < plan.instances.size(); ++id) {
    if (view.what.drawn(plan.parts.at(plan.instances[id].part).role)) drawn.push_back(id);
  }
  const Sight sight(plan, drawn, projection);
  std::set<std::string> here;
  for (const InstanceId id : drawn) {
    const Part& part = plan.parts.at(plan.instances[id].part);
    const bool again = view.what.sizes != Sizes::none && here.contains(part.mark) && view.also[part.mark].size() < 3;
    if (!view.what.marked(part.role) || (marked.contains(part.mark) && !again)) continue;
    if (view.what.marked == is_inside && is_frame(part.role)) continue;
    const auto point = sight.seen_point(id);
    if (!point) continue;
    if (again) {
      view.also[part.mark].push_back(projection.at(*point));
      continue;
    }
    marked.insert(part.mark);
    here.insert(part.mark);
    view.balloons.push_back({part.mark, projection.at(*point), {}});
  }
}

Result<View> view_of(const Plan& plan, const Model& model, const Wanted& what) {
  Plan drawn = plan;
  std::erase_if(drawn.instances, [&](const Instance& i) { return !what.drawn(plan.parts.at(i.part).role); });
  auto lines = hidden_lines(drawn, model, what.towards_viewer, what.up);
  if (!lines) return lines.error();
  View view{what, std::move(lines).value().visible, {}, {}, {}};
  for (const auto& line : view.lines) {
    for (const Vec2 p : line) view.bounds.add(p);
  }
  return view;
}

/// Of several boxes the sizes run beside corners of the space around them where nothing may stand.
void make_room_for_sizes(View& view, const Plan& plan) {
  if (plan.frames.size() < 2 || view.what.sizes == Sizes::none) return;
  const Box3 box = view.what.sizes == Sizes::whole ? totals_of(plan).overall : all_frames(plan);
  const Projection projection(view.what.towards_viewer, view.what.up);
  for (const double x : {box.low.x, box.high.x}) {
    for (const double y : {box.low.y, box.high.y}) {
      for (const double z : {box.low.z, box.high.z}) view.bounds.add(projection.at({x, y, z}));
    }
  }
}

/// Places of one view on the page.
struct Cell {
  Vec2 corner;  // upper left of the view's bounds
  double scale = 1;
  Box2 bounds;  // of the view, in its own plane
  [[nodiscard]] Vec2 on_page(Vec2 p) const {
    return {corner.x + scale * (p.x - bounds.low.x), corner.y + scale * (bounds.high.y - p.y)};
  }
  [[nodiscard]] Box2 box() const {
    Box2 b;
    b.add(corner);
    b.add(corner + scale * bounds.size());
    return b;
  }
};

std::string drawing_of(const View& view, const Cell& cell) {
  auto lines = view.lines;
  for (auto& line : lines) {
    for (Vec2& p : line) p = cell.on_page(p);
  }
  return svg::path(lines);
}

struct Size {
  Vec2 from;
  Vec2 to;
  Vec2 offset;
  std::string words;
};

/// The three sizes of a box, along its edges nearest to the viewer's lower left, lower right and right.
std::array<Size, 3> sizes_of(const Box3& box, const View& view, const Cell& cell, const PaperUnits& units) {
  const Projection projection(view.what.towards_viewer, view.what.up);
  const auto at = [&](double x, double y, double z) { return cell.on_page(projection.at({x, y, z})); };
  const Vec3 a = box.low;
  const Vec3 b = box.high;
  const Vec2 down{0, size_offset};
  return {{{at(a.x, a.y, a.z), at(b.x, a.y, a.z), down, units.drawn(b.x - a.x)},
           {at(a.x, b.y, a.z), at(a.x, a.y, a.z), down, units.drawn(b.y - a.y)},
           {at(b.x, a.y, a.z), at(b.x, a.y, b.z), {size_offset, 0}, units.drawn(b.z - a.z)}}};
}

/// Whether a leader's end there would lie under the words of a size.
bool is_covered(Vec2 end, const std::vector<Size>& sizes) {
  return std::any_of(sizes.begin(), sizes.end(), [&](const Size& size) {
    const Box2 words = svg::dimension_words_box(size.from, size.to, size.offset, size.words);
    return end.x > words.low.x - leader_dot && end.x < words.high.x + leader_dot && end.y > words.low.y - leader_dot &&
           end.y < words.high.y + leader_dot;
  });
}

std::string size_words(Vec3 size, const PaperUnits& units) {
  return fmt::format("{} x {} x {} {}", units.drawn(size.x), units.drawn(size.y), units.drawn(size.z), units.length());
}

std::string frames_drawn(const Plan& plan, const PaperUnits& units) {
  if (plan.frames.size() < 2) return "frame " + size_words(plan.frame_size, units);
  // One line holds two.
  if (plan.frames.size() > 2) {
    return fmt::format("{} frames, together {}", plan.frames.size(), size_words(all_frames(plan).size(), units));
  }
  std::string out;
  for (const PlacedFrame& frame : plan.frames) {
    out += fmt::format("{}{} frame {}", out.empty() ? "" : ", ", frame.box, size_words(frame.space.size(), units));
  }
  return out;
}

struct Heading {
  std::string words;
  double height = 0;
};

Heading heading(const Plan& plan, const Totals& totals, const JobInfo& info) {
  const PaperUnits units(info.units);
  const std::string title = info.title.empty() ? info.name : info.title;
  const std::string job = fmt::format("{}, revision {}, spec {}{}{}", info.name, info.revision,
                                      short_hash(info.spec_hash), info.warning.empty() ? "" : "; ", info.warning);
  const std::string size =
      fmt::format("{} (across, deep, high), with everything on {}; {} to make, {} in all. Fasteners are not drawn.",
                  frames_drawn(plan, units), size_words(totals.overall.size(), units), units.weight(totals.made_kg),
                  units.weight(totals.all_kg));
  Heading out;
  double y = margin;
  const auto add = [&](const std::string& words, int font, double step) {
    const auto lines = svg::wrapped(words, font, page_width - 2 * margin);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      out.words += svg::text({margin, y + 16}, font, lines[i]);
      y += i + 1 < lines.size() ? 1.3 * font : step;
    }
  };
  add(title, 20, 20);
  add(job, 13, 18);
  add(size, 13, 18);
  out.height = y - margin + 20;
  return out;
}

/// Two views in a row, all of the page at one scale.
class Sheet {
 public:
  Sheet(std::vector<View> views, const Plan& plan, const JobInfo& info)
      : views_(std::move(views)), plan_(plan), info_(info), totals_(totals_of(plan)) {
    double widest = 1;
    for (const View& v : views_) widest = std::max(widest, v.bounds.size().x);
    column_ = (page_width - 2 * margin - gap) / 2;
    scale_ = (column_ - 2 * side_room) / widest;
  }

  std::string document() {
    page_.width = page_width;
    page_.name = info_.name;
    const Heading head = heading(plan_, totals_, info_);
    page_.words = head.words;
    double top = margin + head.height;
    for (std::size_t i = 0; i < views_.size(); i += 2) {
      const std::size_t end = std::min(i + 2, views_.size());
      double height = 0;
      for (std::size_t k = i; k < end; ++k) height = std::max(height, height_of(views_[k]));
      for (std::size_t k = i; k < end; ++k) {
        const double left = margin + static_cast<double>(k - i) * (column_ + gap);
        page_.words += svg::text({left, top + 13}, 14, views_[k].what.label);
        const Vec2 size = scale_ * views_[k].bounds.size();
        add(views_[k], {{left + 0.5 * (column_ - size.x), top + label_height + 0.5 * (height - size.y)},
                        scale_,
                        views_[k].bounds});
      }
      top += label_height + height + below_room;
    }
    page_.height = top;
    return svg::document(page_);
  }

 private:
  /// Enough for the view itself and for its balloons.
  [[nodiscard]] double height_of(const View& view) const {
    const double balloons = 0.5 * static_cast<double>(view.balloons.size() + 1) * (balloon_height + 6);
    return std::max(scale_ * view.bounds.size().y, balloons);
  }

  void add(View& view, const Cell& cell) {
    page_.drawing += drawing_of(view, cell);
    const std::vector<Size> sizes = sizes_on(view, cell);
    for (Balloon& balloon : view.balloons) {
      balloon.anchor = cell.on_page(balloon.anchor);
      for (const Vec2 other : view.also[balloon.mark]) {
        if (!is_covered(balloon.anchor, sizes)) break;
        balloon.anchor = cell.on_page(other);
      }
    }
    place_balloons(view.balloons, cell.box(), balloon_column);
    for (const Balloon& balloon : view.balloons) page_.notes += svg::balloon(balloon);
    // Sizes after leaders: the white behind their words keeps them readable.
    for (const Size& size : sizes) page_.notes += svg::dimension(size.from, size.to, size.offset, size.words);
  }

  [[nodiscard]] std::vector<Size> sizes_on(const View& view, const Cell& cell) const {
    if (view.what.sizes == Sizes::none) return {};
    const Box3 box = view.what.sizes == Sizes::whole ? totals_.overall : all_frames(plan_);
    const auto sizes = sizes_of(box, view, cell, PaperUnits(info_.units));
    return {sizes.begin(), sizes.end()};
  }

  std::vector<View> views_;
  const Plan& plan_;
  const JobInfo& info_;
  Totals totals_;
  double column_ = 0;
  double scale_ = 1;
  svg::Page page_;
};

}  // namespace

Result<std::string> assembly_svg(const Plan& plan, const Model& model, const JobInfo& info) {
  std::vector<View> views;
  std::set<std::string> marked;
  for (const Wanted& what : wanted(plan, model)) {
    if (interrupt_requested()) {
      return Failure{Failure::Kind::interrupted, "draw the assembly", "interrupted; nothing was written"};
    }
    auto view = view_of(plan, model, what);
    if (!view) return view.error();
    if (view->lines.empty()) continue;
    views.push_back(std::move(view).value());
    make_room_for_sizes(views.back(), plan);
    add_balloons(views.back(), plan, marked);
  }
  return Sheet(std::move(views), plan, info).document();
}

}  // namespace fitup::output
