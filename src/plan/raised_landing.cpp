// Outward landings that meet in an edge: which of them gives way, how far, and what it stands on.
// Entry: comes_first, behind_ring_mm, raised_mm, as_upstand_mm, add_upstands, let_upstands_touch.
#include "plan/raised_landing.h"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "plan/face_axes.h"
#include "plan/flange_edges.h"
#include "plan/hardware.h"
#include "plan/landing_width.h"
#include "plan/nut_strip.h"
#include "plan/outward_landing.h"
#include "plan/rule_steps.h"
#include "plan/screw_fixing.h"
#include "plan/support.h"

namespace fitup::plan {

namespace {

constexpr double tip_room_mm = 2;  // between a screw's tip and the cover below it (common practice)

// How far what holds a screw behind the strip, or its tip, stands out of it.
double behind_strip_mm(const Build& build, const FaceSpec& face) {
  const ScrewSpec& screws = face.screws;
  const Thread& thread = *tables::find_thread(*screws.thread);
  const double strip = landing_strip_mm(build);
  const Material& material = *tables::find_material(material_of(build));
  const bool apart = *screws.fixing == ScrewFixing::nut_strip && !holds_thread_itself(thread, material, strip);
  const auto hold = apart ? strip_hold(thread, &screws, material) : hold_of(*screws.fixing, thread, strip);
  const double to = hold ? hold->screw_to_mm : 0;
  const double washer = *screws.hole == HoleShape::slot ? tables::find_washer(*screws.thread)->thickness_mm : 0;
  const double off = face.seal ? face.seal->thickness->mm() * (1 - *face.seal->compression) : 0;
  const double grip = washer + face.thickness->mm() + off + strip;
  return std::max(hold ? hold->behind_mm : 0, screw_length_mm(thread, grip + to) - grip);
}

// The upstands of one ring, in the frame.
class Upstands {
 public:
  Upstands(Build& build, Face face, PlateSpec plate, const Origin& origin)
      : build_(build),
        face_(face),
        plate_(std::move(plate)),
        origin_(origin),
        n_(axis_of(face)),
        thick_(landing_strip_mm(build)),
        high_(raised_mm(build, face)) {}

  std::vector<Host> run() {
    const int u = n_ == 0 ? 1 : 0;
    const int v = n_ == 2 ? 1 : 2;
    // Strips of another ring run from end to end: the others stand between them.
    const bool v_whole = is_strip(face_at(u, low)) || is_strip(face_at(u, high));
    const int across_whole = v_whole ? u : v;
    const int across_between = v_whole ? v : u;
    for (const Side side : {low, high}) add(across_whole, across_between, side, 0);
    for (const Side side : {low, high}) {
      add(across_between, across_whole, side, thick_);
      for (const Side end : {low, high}) {
        build_.draft.join(walls_.back().id, walls_[end].id, JointKind::weld, unit(across_whole, end));
      }
    }
    return walls_;
  }

 private:
  [[nodiscard]] bool is_strip(Face beside) const { return as_upstand_mm(build_, beside, face_) > 0; }
  [[nodiscard]] double size(int axis) const { return along(build_.shell.size, axis); }

  // At the edge of the axis across, `from_end` of the frame's sides at both of its ends.
  void add(int across, int run, Side side, double from_end) {
    Box3 box;
    along(box.low, across) = side == low ? 0 : size(across) - thick_;
    along(box.high, across) = side == low ? thick_ : size(across);
    along(box.low, run) = from_end;
    along(box.high, run) = size(run) - from_end;
    along(box.low, n_) = side_of(face_) == low ? -high_ : size(n_);
    along(box.high, n_) = side_of(face_) == low ? 0 : size(n_) + high_;
    const Face beside = face_at(across, side);
    Host wall;
    wall.box = box;
    if (const auto strip = is_strip(beside) ? strip_of(beside) : std::nullopt) {
      wall.id = *strip;
    } else {
      wall.id = add_plate(build_, plate_, box, unit(across, high),
                          fmt::format("{} landing upstand {}", to_text(face_), to_text(beside)), origin_);
      stand_on_frame(wall);
    }
    walls_.push_back(wall);
  }

  void stand_on_frame(const Host& wall) {
    const Vec3 inward = unit(n_, side_of(face_) == low ? high : low);
    for (const Host& host : build_.shell.beside[static_cast<std::size_t>(face_)]) {
      if (face_each_other(wall.box, host.box, inward)) build_.draft.join(wall.id, host.id, JointKind::weld, inward);
    }
  }

  // Of another face's ring, which is there already, but where that could not be made. Instances of further boxes carry
  // the box's name before their own.
  [[nodiscard]] std::optional<InstanceId> strip_of(Face beside) const {
    const std::string name = fmt::format("{} landing {}", to_text(beside), to_text(face_));
    const std::string key = build_.key(fmt::format("face.{}", to_text(beside)));
    for (InstanceId id = 0; id < build_.draft.size(); ++id) {
      const Instance& instance = build_.draft.instance(id);
      if (build_.draft.part(id).role == Role::landing && instance.key == key && instance.name.ends_with(name)) return id;
    }
    return std::nullopt;
  }

  Build& build_;
  Face face_;
  PlateSpec plate_;
  const Origin& origin_;
  int n_;
  double thick_;
  double high_;
  std::vector<Host> walls_;
};

Box3 box_of(const Draft& draft, InstanceId id) {
  Box3 box;
  for (Prism prism : body_of(draft.part(id)).outer) {
    prism.pose = draft.instance(id).pose * prism.pose;
    box.add(prism.bounds());
  }
  return box;
}

/// A landing's flat bar that stands on end: square to the face that it belongs to, whose strips lie along it.
bool is_upstand(const Draft& draft, InstanceId id, const std::string& face_key, Face face) {
  const Part& part = draft.part(id);
  return part.role == Role::landing && std::holds_alternative<Flat>(part.form) && draft.instance(id).key.starts_with(face_key) &&
         std::abs(along(draft.instance(id).pose.z(), axis_of(face))) < 0.5;
}

bool is_joined(const Draft& draft, InstanceId a, InstanceId b) {
  return std::any_of(draft.joints().begin(), draft.joints().end(),
                     [&](const Joint& j) { return std::minmax(j.a, j.b) == std::minmax(a, b); });
}

}  // namespace

bool is_outward(const FaceSpec& face) {
  return *face.closed_by == Closure::cover && *face.style == CoverStyle::flat && *face.landing == Landing::outward;
}

bool comes_first(const BoxSpec& box, Face other, Face face) {
  const FaceSpec& beside = box.face(other);
  if (axis_of(other) == axis_of(face) || *beside.closed_by != Closure::cover) return false;
  if (is_outward(beside)) return flange_rank(other) < flange_rank(face);
  if (is_flanged(box, other)) return edge_of(box, other, face) != CoverEdge::laps;
  return axis_of(other) == 1;
}

double behind_ring_mm(const Build& build, Face face) {
  return behind_strip_mm(build, build.box_spec().face(face)) + tip_room_mm;
}

double raised_mm(const Build& build, Face face) {
  const BoxSpec& box = build.box_spec();
  const FaceSpec& spec = box.face(face);
  if (!is_outward(spec)) return 0;
  std::optional<double> reaches;
  for (const Face other : all_faces) {
    if (!comes_first(box, other, face)) continue;
    const double over = is_outward(box.face(other)) ? landing_width_mm(build, other) : 0;
    reaches = std::max(reaches.value_or(0), over);
  }
  if (!reaches) return 0;
  const double least = *reaches + landing_strip_mm(build) + behind_ring_mm(build, face);
  return steps_of(*tables::find_thread(*spec.screws.thread)).place_up(least);
}

double as_upstand_mm(const Build& build, Face face, Face beside) {
  const BoxSpec& box = build.box_spec();
  const bool gives_way = is_outward(box.face(face)) && comes_first(box, face, beside);
  return gives_way && raised_mm(build, face) == 0 ? raised_mm(build, beside) : 0;
}

std::vector<Host> add_upstands(Build& build, Face face, const std::string& mark, const Origin& origin) {
  return Upstands(build, face, {mark, "landing upstand", Role::landing, material_of(build)}, origin).run();
}

void let_upstands_touch(Build& build) {
  Draft& draft = build.draft;
  for (InstanceId id = 0; id < draft.size(); ++id) {
    const bool is_any = std::any_of(all_faces.begin(), all_faces.end(), [&](Face face) {
      return is_upstand(draft, id, build.key(fmt::format("face.{}", to_text(face))), face);
    });
    if (!is_any) continue;
    const Box3 own = box_of(draft, id);
    for (InstanceId other = 0; other < draft.size(); ++other) {
      const Role role = draft.part(other).role;
      const bool may = role == Role::landing || role == Role::face_plate || role == Role::wall;
      if (other == id || !may || !meet_along_edge(own, box_of(draft, other)) || is_joined(draft, id, other)) continue;
      draft.join(id, other, JointKind::slip, unit(0, own.middle().x < build.shell.size.x / 2 ? low : high));
    }
  }
}

}  // namespace fitup::plan
