// The measured faces of the frame, and whether the measures can be.
// Entry: measured_face, check_measures.
#include "plan/as_built.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <string_view>

#include <fmt/format.h>

#include "diag/catalogue.h"

namespace fitup::plan {

namespace {

constexpr double same_mm = 0.01;
// How well a tape is read where the spec does not say (common practice).
constexpr double usual_within_mm = 0.5;
// What covers and plates that are made anew can make up for; beyond it a slip of the tape is likelier.
constexpr double far_off_mm = 10;
constexpr double far_off_share = 0.01;

struct Side4 {
  std::string_view name;
  const std::optional<Measured>* measure;
  double planned_mm;
};

std::array<std::string_view, 4> names_of(Face face) {
  switch (face) {
    case Face::front:
    case Face::back: return {"width_bottom", "width_top", "height_left", "height_right"};
    case Face::left:
    case Face::right: return {"depth_bottom", "depth_top", "height_front", "height_back"};
    default: return {"width_front", "width_back", "depth_left", "depth_right"};
  }
}

Vec2 planned_size(const Build& build, Face face) {
  const FaceAxes axes = axes_of(face);
  return {component(build.shell.size, axes.first), component(build.shell.size, axes.second)};
}

const std::optional<AsBuiltFace>& built_of(const Build& build, Face face) {
  return build.box_spec().as_built[static_cast<std::size_t>(face)];
}

std::optional<double> in_mm(const std::optional<Measured>& measure) {
  return measure ? std::optional(measure->value.mm()) : std::nullopt;
}

geometry::FourSides sides_of(const AsBuiltFace& f) {
  return {f.across_low->value.mm(), f.across_high->value.mm(), f.up_low->value.mm(),
          f.up_high->value.mm(),    in_mm(f.rising),           in_mm(f.falling)};
}

double within_mm(const std::optional<Measured>& measure) {
  return measure && measure->within ? measure->within->mm() : usual_within_mm;
}

std::string key_of(const Build& build, Face face) {
  return fmt::format("as_built.{}.{}", build.box_spec().name, to_text(face));
}

class Measures {
 public:
  Measures(Build& build, Face face, const AsBuiltFace& built)
      : build_(build),
        built_(built),
        names_(names_of(face)),
        size_(planned_size(build, face)),
        key_(key_of(build, face)) {}

  bool check() { return near_plan() && makes_triangles() && closes(); }

 private:
  [[nodiscard]] std::array<Side4, 6> all() const {
    const double diagonal = norm(size_);
    return {Side4{names_[0], &built_.across_low, size_.x},      Side4{names_[1], &built_.across_high, size_.x},
            Side4{names_[2], &built_.up_low, size_.y},          Side4{names_[3], &built_.up_high, size_.y},
            Side4{"diagonal_rising", &built_.rising, diagonal}, Side4{"diagonal_falling", &built_.falling, diagonal}};
  }

  bool near_plan() {
    bool near = true;
    for (const Side4& side : all()) {
      if (!*side.measure) continue;
      const double off = (*side.measure)->value.mm() - side.planned_mm;
      const double most = std::max(far_off_mm, far_off_share * side.planned_mm);
      if (std::abs(off) <= most) continue;
      near = false;
      build_.diagnostics.add(diag::say<"measure-far-off">(
          (*side.measure)->place, fmt::format("{}.{}", key_, side.name), build_.in_words((*side.measure)->value.mm()),
          build_.in_words(side.planned_mm), build_.in_words(std::abs(off)), build_.in_words(most)));
    }
    return near;
  }

  // Near a plan that is a rectangle they always do, but for the flattest ones.
  bool makes_triangles() {
    if (geometry::closed(sides_of(built_))) return true;
    const Measured& diagonal = built_.rising ? *built_.rising : *built_.falling;
    say(diagonal, fmt::format("no four bars of {}, {}, {} and {} have a diagonal of {}", words(built_.across_low),
                              words(built_.across_high), words(built_.up_low), words(built_.up_high),
                              build_.in_words(diagonal.value.mm())));
    return false;
  }

  bool closes() {
    if (!built_.rising || !built_.falling) return true;
    const auto falling = geometry::falling_from(sides_of(built_));
    if (!falling) return makes_triangles();
    const double off = built_.falling->value.mm() - *falling;
    double within = 0;
    for (const Side4& side : all()) within += within_mm(*side.measure);
    if (std::abs(off) <= within) return true;
    say(*built_.falling,
        fmt::format("with its sides and diagonal_rising of {} the falling diagonal is {}; {} was measured, which is {} "
                    "off, and what the six were measured to adds up to {}",
                    words(built_.rising), build_.in_words(*falling), words(built_.falling),
                    build_.in_words(std::abs(off)), build_.in_words(within)));
    return false;
  }

  void say(const Measured& at, const std::string& why) {
    build_.diagnostics.add(diag::say<"measures-contradict">(at.place, key_, why, build_.in_words(at.value.mm())));
  }

  [[nodiscard]] std::string words(const std::optional<Measured>& m) const { return build_.in_words(m->value.mm()); }

  Build& build_;
  const AsBuiltFace& built_;
  std::array<std::string_view, 4> names_;
  Vec2 size_;
  std::string key_;
};

/// An edge of the frame as two faces name it: which of their four sides it is.
struct SharedEdge {
  Face a;
  int side_a;
  Face b;
  int side_b;
};

constexpr std::array<SharedEdge, 12> shared_edges{{{Face::front, 0, Face::bottom, 0},
                                                   {Face::front, 1, Face::top, 0},
                                                   {Face::back, 0, Face::bottom, 1},
                                                   {Face::back, 1, Face::top, 1},
                                                   {Face::front, 2, Face::left, 2},
                                                   {Face::front, 3, Face::right, 2},
                                                   {Face::back, 2, Face::left, 3},
                                                   {Face::back, 3, Face::right, 3},
                                                   {Face::left, 0, Face::bottom, 2},
                                                   {Face::left, 1, Face::top, 2},
                                                   {Face::right, 0, Face::bottom, 3},
                                                   {Face::right, 1, Face::top, 3}}};

const Measured& side_of(const AsBuiltFace& face, int side) {
  const std::array<const std::optional<Measured>*, 4> all{&face.across_low, &face.across_high, &face.up_low,
                                                          &face.up_high};
  return **all[static_cast<std::size_t>(side)];
}

/// The same bar measured from two sides.
bool edges_agree(Build& build) {
  bool agree = true;
  for (const SharedEdge& edge : shared_edges) {
    const auto& a = built_of(build, edge.a);
    const auto& b = built_of(build, edge.b);
    if (!a || !b) continue;
    const Measured& of_a = side_of(*a, edge.side_a);
    const Measured& of_b = side_of(*b, edge.side_b);
    const double within = within_mm(of_a) + within_mm(of_b);
    const double off = std::abs(of_a.value.mm() - of_b.value.mm());
    if (off <= within) continue;
    agree = false;
    const auto name = [](Face face, int side) { return names_of(face)[static_cast<std::size_t>(side)]; };
    const std::string why = fmt::format(
        "its {} and the {} of as_built.{}.{} are one edge, and {} and {} differ by {}, where what both were measured "
        "to "
        "adds up to {}",
        name(edge.b, edge.side_b), name(edge.a, edge.side_a), build.box_spec().name, to_text(edge.a),
        build.in_words(of_b.value.mm()), build.in_words(of_a.value.mm()), build.in_words(off), build.in_words(within));
    build.diagnostics.add(
        diag::say<"measures-contradict">(of_b.place, key_of(build, edge.b), why, build.in_words(of_b.value.mm())));
  }
  return agree;
}

}  // namespace

FaceAxes axes_of(Face face) {
  switch (face) {
    case Face::front:
    case Face::back: return {0, 2, 1};
    case Face::left:
    case Face::right: return {1, 2, 0};
    default: return {0, 1, 2};
  }
}

double component(Vec3 v, int axis) { return axis == 0 ? v.x : axis == 1 ? v.y : v.z; }

Vec3 with_component(Vec3 v, int axis, double value) {
  (axis == 0 ? v.x : axis == 1 ? v.y : v.z) = value;
  return v;
}

Vec3 middle_of(const Build& build, Face face) {
  const int across = axes_of(face).across;
  const bool far_side = face == Face::back || face == Face::right || face == Face::top;
  return with_component(0.5 * build.shell.size, across, far_side ? component(build.shell.size, across) : 0);
}

Box2 MeasuredFace::bounds() const {
  Box2 box;
  for (const Vec2 corner : corners) box.add(corner);
  return box;
}

bool MeasuredFace::as_planned() const {
  const geometry::Corners4 planned{Vec2{0, 0}, Vec2{size.x, 0}, size, Vec2{0, size.y}};
  for (std::size_t i = 0; i < 4; ++i) {
    if (norm(corners[i] - planned[i]) > same_mm) return false;
  }
  return true;
}

std::optional<MeasuredFace> measured_face(const Build& build, Face face) {
  const auto& built = built_of(build, face);
  if (!built || !built->complete()) return std::nullopt;
  const auto sides = geometry::closed(sides_of(*built));
  const auto corners = sides ? geometry::corners_from(*sides) : std::nullopt;
  if (!corners) return std::nullopt;
  const Vec2 size = planned_size(build, face);
  return MeasuredFace{face, size, *sides, geometry::laid_on(*corners, size)};
}

bool check_measures(Build& build) {
  bool good = true;
  for (const Face face : all_faces) {
    const auto& built = built_of(build, face);
    if (built && built->complete()) good = Measures(build, face, *built).check() && good;
  }
  return edges_agree(build) && good;
}

}  // namespace fitup::plan
