// Covers, plates and rod plates made anew to the frame as it was measured.
// Entry: true_up.
#include <algorithm>
#include <cmath>

#include "fitup/tolerances.h"
#include "plan/as_built.h"
#include "plan/size_words.h"

namespace fitup::plan {

namespace {

// Of an outline that is cut by laser: nobody reads a tape finer.
double to_grid(double mm) { return std::round(mm * 100) / 100; }
Vec2 to_grid(Vec2 p) { return {to_grid(p.x), to_grid(p.y)}; }

// One measured face. A flanged cover stays square: it laps round the rectangle that holds the whole face, and so keeps
// at least its gap. What lies on the face follows its outline. Screws go where the frame's holes went. What the items
// ask for (the holes for their rods, windows) keeps its place.
class FaceTrueUp {
 public:
  FaceTrueUp(Build& build, const MeasuredFace& measured)
      : build_(build),
        measured_(measured),
        axes_(axes_of(measured.face)),
        key_(build.key("face." + std::string(to_text(measured.face)))),
        square_(is_flanged(build.box_spec(), measured.face)) {}

  void run() {
    for (InstanceId id = 0; id < build_.draft.size(); ++id) {
      if (closes_face(id)) {
        closure(id);
      } else if (is_of_rod_plate(id)) {
        rod_plate(id);
      }
    }
  }

 private:
  [[nodiscard]] Role role(InstanceId id) const { return build_.draft.part(id).role; }

  // A landing or a lug is welded to the frame already.
  [[nodiscard]] bool closes_face(InstanceId id) const {
    const std::string& key = build_.draft.instance(id).key;
    const Role r = role(id);
    const bool moves = r == Role::cover_sheet || r == Role::cover_flange || r == Role::face_plate || r == Role::screw ||
                       r == Role::gland || r == Role::edge_strip || r == Role::nut || r == Role::washer;
    return moves && (key == key_ || key.rfind(key_ + ".", 0) == 0);
  }

  [[nodiscard]] bool is_of_rod_plate(InstanceId id) const {
    if (axes_.across != 1 || build_.draft.instance(id).key != build_.key("rod_plates")) return false;
    const Role r = role(id);
    const bool front = build_.draft.pose(id).origin().y < build_.shell.size.y / 2;
    return front == (measured_.face == Face::front) &&
           (r == Role::rod_plate || r == Role::rod_plate_flange || r == Role::screw);
  }

  [[nodiscard]] Vec2 in_face(Vec3 p) const { return {component(p, axes_.first), component(p, axes_.second)}; }
  [[nodiscard]] Vec3 put(Vec3 p, Vec2 q) const {
    return with_component(with_component(p, axes_.first, q.x), axes_.second, q.y);
  }

  /// What is beside the face's outline goes with its nearer edge.
  [[nodiscard]] Vec2 squared(Vec2 q) const {
    const Box2 to = measured_.bounds();
    return {q.x + (q.x < measured_.size.x / 2 ? to.low.x : to.high.x - measured_.size.x),
            q.y + (q.y < measured_.size.y / 2 ? to.low.y : to.high.y - measured_.size.y)};
  }
  [[nodiscard]] Vec2 outline(Vec2 q) const { return square_ ? squared(q) : measured_.carried(q); }

  /// A hole or a screw in a flange goes along the bar under it, and with the flange away from it.
  [[nodiscard]] Vec2 beside(Vec2 q, bool across_first) const {
    const Vec2 on_bar =
        measured_.carried({std::clamp(q.x, 0.0, measured_.size.x), std::clamp(q.y, 0.0, measured_.size.y)});
    const Vec2 with_flange = squared(q);
    return across_first ? Vec2{with_flange.x, on_bar.y} : Vec2{on_bar.x, with_flange.y};
  }

  [[nodiscard]] bool lies_in_face(Vec3 direction) const { return std::abs(component(direction, axes_.across)) > 0.5; }

  void closure(InstanceId id) {
    const Pose& pose = build_.draft.pose(id);
    const bool in_plane = lies_in_face(pose.z());
    const bool across_first = std::abs(component(pose.z(), axes_.first)) > 0.5;
    const auto hole = [&](Vec2 q) { return in_plane ? measured_.carried(q) : beside(q, across_first); };
    const Part& part = build_.draft.part(id);
    if (const auto* member = std::get_if<Member>(&part.form)) return angle(id, *member);
    const auto* flat = std::get_if<Flat>(&part.form);
    if (flat == nullptr) {
      build_.draft.true_up(id, pose.moved(moved_by(pose.origin(), hole)));
      return;
    }
    if (!flat->bends.empty()) return bent(id, *flat);
    // Only across itself does a plate move as a whole.
    Pose to = pose;
    if (!in_plane)
      to = pose.moved(dot(moved_by(pose.origin(), [&](Vec2 q) { return squared(q); }), pose.z()) * pose.z());
    remake(
        id, *flat, to, [&](Vec2 q) { return outline(q); }, hole);
  }

  // An angle of a flange stays square and sawn as it is; it grows with the cover, and its holes go along the bars.
  void angle(InstanceId id, const Member& member) {
    const Pose& pose = build_.draft.pose(id);
    const auto put_at = [&](double along_mm) {
      const Vec3 p = pose.point({0, 0, along_mm});
      return put(p, squared(in_face(p)));
    };
    const Vec3 start = put_at(0);
    Member made = member;
    made.length_mm = to_grid(dot(put_at(member.length_mm) - start, pose.z()));
    const Pose to = pose.moved(start - pose.origin());
    const bool across_first = std::abs(component(pose.z(), axes_.second)) > 0.5;
    for (MemberHole& hole : made.holes) {
      const Vec3 p = pose.point({0, 0, hole.along_mm});
      hole.along_mm = to_grid(to.local(put(p, beside(in_face(p), across_first))).z);
    }
    for (MemberNotch& notch : made.notches) {
      const Vec3 p = pose.point({0, 0, (notch.from_mm + notch.to_mm) / 2});
      const double half = (notch.to_mm - notch.from_mm) / 2;
      const double middle = to_grid(to.local(put(p, beside(in_face(p), across_first))).z);
      notch.from_mm = middle - half;
      notch.to_mm = middle + half;
    }
    build_.draft.true_up(id, to, std::move(made));
  }

  // A bent cover's pattern lies in the face's plane: what is bent up goes with its edge, a hole in it along its bar.
  void bent(InstanceId id, const Flat& flat) {
    const Pose pose = build_.draft.pose(id);
    const auto hole = [&](Vec2 q) {
      const bool beside_first = q.x < 0 || q.x > measured_.size.x;
      const bool beside_second = q.y < 0 || q.y > measured_.size.y;
      return beside_first || beside_second ? beside(q, beside_first) : measured_.carried(q);
    };
    Flat made = flat;
    const auto line_end = [&](Vec2& at) {
      const Vec3 p = pose.point({at.x, at.y, 0});
      const Vec3 q = pose.local(put(p, squared(in_face(p))));
      at = to_grid({q.x, q.y});
    };
    for (Bend& bend : made.bends) {
      line_end(bend.from);
      line_end(bend.to);
    }
    remake(
        id, made, pose, [&](Vec2 q) { return squared(q); }, hole);
  }

  template <class Where>
  [[nodiscard]] Vec3 moved_by(Vec3 p, const Where& where) const {
    return put(p, where(in_face(p))) - p;
  }

  template <class Outline, class Hole>
  void remake(InstanceId id, const Flat& flat, const Pose& to, const Outline& outline, const Hole& hole) {
    const Pose& from = build_.draft.pose(id);
    const auto local = [&](Vec2 at, const auto& where) {
      const Vec3 p = from.point({at.x, at.y, 0});
      const Vec3 q = to.local(put(p, where(in_face(p))));
      return to_grid({q.x, q.y});
    };
    Flat made = flat;
    for (Vertex& v : made.profile.outer.vertices) v.at = local(v.at, outline);
    for (Loop& loop : made.profile.holes) {
      const Vec2 middle = loop.bounds().middle();
      loop = loop.moved(local(middle, hole) - middle);
    }
    for (DrilledHole& drilled : made.drilled) drilled.at = local(drilled.at, hole);
    build_.draft.true_up(id, to, std::move(made));
  }

  /// As far from the outside of the nearer upright as planned: bars do not stretch across themselves.
  [[nodiscard]] Vec2 by_upright(Vec2 q) const {
    const double edge = q.x < measured_.size.x / 2 ? 0 : measured_.size.x;
    return {measured_.carried({edge, q.y}).x + q.x - edge, measured_.carried(q).y};
  }

  void rod_plate(InstanceId id) {
    const Pose& pose = build_.draft.pose(id);
    const auto* flat = std::get_if<Flat>(&build_.draft.part(id).form);
    if (flat == nullptr) {
      build_.draft.true_up(id, pose.moved(moved_by(pose.origin(), [&](Vec2 q) { return by_upright(q); })));
    } else if (role(id) == Role::rod_plate) {
      rod_plate_sheet(id, *flat);
    } else {
      return_flange(id, *flat);
    }
  }

  // Its ends follow the uprights; its holes, its windows and its height are the items'.
  void rod_plate_sheet(InstanceId id, const Flat& flat) {
    const Pose& pose = build_.draft.pose(id);
    const Box2 bounds = flat.profile.bounds();
    const auto ends = [&](Vec2 q) {
      const double x = q.x - pose.origin().x;
      const bool at_end = std::min(x - bounds.low.x, bounds.high.x - x) < tolerance::contact_mm;
      return at_end ? Vec2{by_upright(q).x, q.y} : q;
    };
    remake(id, flat, pose, ends, [](Vec2 q) { return q; });
  }

  // Turned with its upright, its screws where the upright's holes went.
  void return_flange(InstanceId id, const Flat& flat) {
    const Pose& pose = build_.draft.pose(id);
    const Vec3 low = pose.origin();
    const Vec3 high = pose.point({0, flat.profile.bounds().high.y, 0});
    const Vec3 foot = put(low, by_upright(in_face(low)));
    const Vec3 along = put(high, by_upright(in_face(high))) - foot;
    const Pose to = Pose::at(foot, pose.x(), (1 / norm(along)) * along);
    Flat made = flat;
    for (Loop& loop : made.profile.holes) {
      const Vec2 middle = loop.bounds().middle();
      const Vec3 p = pose.point({middle.x, middle.y, 0});
      const Vec3 q = to.local(put(p, by_upright(in_face(p))));
      loop = loop.moved(to_grid({q.x, q.y}) - middle);
    }
    build_.draft.true_up(id, to, std::move(made));
  }

  Build& build_;
  const MeasuredFace& measured_;
  FaceAxes axes_;
  std::string key_;
  bool square_;
};

}  // namespace

void true_up(Build& build) {
  if (!check_measures(build) || build.diagnostics.has_errors()) return;
  for (const Face face : all_faces) {
    const auto measured = measured_face(build, face);
    if (!measured) continue;
    if (!measured->as_planned()) FaceTrueUp(build, *measured).run();
    add_as_built_fits(build, *measured);
  }
}

}  // namespace fitup::plan
