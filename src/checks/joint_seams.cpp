// The contact of a joint's parts, its edges, a bead for each; pieces of one line and one section become one seam.
// Entry: straight_seams, contact_outlines.
#include "checks/joint_seams.h"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "checks/bead_section.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr double band = tolerance::contact_mm;

std::optional<int> axis_along(Vec3 normal) {
  for (int i = 0; i < 3; ++i) {
    if (std::abs(std::abs(component(normal, i)) - norm(normal)) <= tolerance::direction) return i;
  }
  return std::nullopt;
}

Vec3 direction(Vec2 in_plane, int axis) { return from_plane(in_plane, 0, axis); }
Vec3 up(int axis) { return from_plane({0, 0}, 1, axis); }

// A piece of edge with its section; `from` to `to` runs so that out, up and the way along are right-handed.
struct Run {
  ContactEdge edge;
  BeadSection section;
  [[nodiscard]] Vec2 way() const { return (1 / norm(edge.to - edge.from)) * (edge.to - edge.from); }
  [[nodiscard]] double offset() const { return dot(edge.from, edge.out); }
  [[nodiscard]] double start() const { return dot(edge.from, way()); }
};

// Along x cross y of (out, up): seen in the plane, the contact's inside is at the right of the way.
void turn_along(ContactEdge& edge) {
  if (cross(edge.to - edge.from, edge.out) < 0) std::swap(edge.from, edge.to);
}

bool goes_on(const Run& a, const Run& b) {
  // Slivers that are not asked about lie between pieces of one line.
  constexpr double sliver_mm = 4 * probe_mm;
  return a.section.kind == b.section.kind && a.section.climbs_high == b.section.climbs_high &&
         std::abs(a.section.size_mm - b.section.size_mm) <= band && norm(a.edge.out - b.edge.out) <= band &&
         std::abs(a.offset() - b.offset()) <= band && norm(a.edge.to - b.edge.from) <= sliver_mm;
}

std::vector<Run> joined(std::vector<Run> runs) {
  std::sort(runs.begin(), runs.end(), [](const Run& a, const Run& b) {
    const auto key = [](const Run& r) {
      return std::tuple(std::round(r.edge.out.x * 1e6), std::round(r.edge.out.y * 1e6), std::round(r.offset() * 1e3),
                        r.start());
    };
    return key(a) < key(b);
  });
  std::vector<Run> out;
  for (const Run& run : runs) {
    if (!out.empty() && goes_on(out.back(), run)) {
      out.back().edge.to = run.edge.to;
    } else {
      out.push_back(run);
    }
  }
  return out;
}

Seam seam_of(const Facing& facing, const Run& run) {
  const int axis = facing.axis();
  const bool fillet = run.section.kind == SeamKind::fillet;
  const double height = !fillet ? facing.gap_mm() / 2 : run.section.climbs_high ? 0 : facing.gap_mm();
  Seam seam;
  seam.kind = run.section.kind;
  seam.from = facing.point(run.edge.from, height);
  seam.to = facing.point(run.edge.to, height);
  seam.length_mm = norm(seam.to - seam.from);
  seam.size_mm = run.section.size_mm;
  seam.gap_mm = facing.gap_mm();
  seam.side = direction(run.edge.out, axis);
  if (fillet) seam.rises = (run.section.climbs_high ? 1.0 : -1.0) * up(axis);
  seam.bead = {
      {run.section.outline, {}}, Pose::at(facing.point(run.edge.from, 0), seam.side, up(axis)), seam.length_mm};
  return seam;
}

Box2 bounds_of(const FacePlane& plane) {
  Box2 box;
  for (const Edge& e : plane.edges) {
    box.add(e.from);
    box.add(e.to);
  }
  return box;
}

// Of both faces, what comes near where they can meet.
std::vector<Edge> edges_near(const FacePlane& a, const FacePlane& b) {
  const Box2 in_a = bounds_of(a);
  const Box2 in_b = bounds_of(b);
  const Vec2 low{std::max(in_a.low.x, in_b.low.x) - band, std::max(in_a.low.y, in_b.low.y) - band};
  const Vec2 high{std::min(in_a.high.x, in_b.high.x) + band, std::min(in_a.high.y, in_b.high.y) + band};
  std::vector<Edge> out;
  if (low.x > high.x || low.y > high.y) return out;
  for (const FacePlane* plane : {&a, &b}) {
    for (const Edge& e : plane->edges) {
      const Box2 box = e.bounds();
      const bool near = box.low.x <= high.x && box.high.x >= low.x && box.low.y <= high.y && box.high.y >= low.y;
      if (near) out.push_back(e);
    }
  }
  return out;
}

std::vector<Vec2> corners_of(const Stack& stack, int axis) {
  std::vector<Vec2> out;
  for (const PlacedPrism& p : stack.prisms) {
    for (const Vec3 corner : {p.box.low, p.box.high}) {
      out.push_back({component(corner, (axis + 1) % 3), component(corner, (axis + 2) % 3)});
    }
  }
  return out;
}

class StraightSeams {
 public:
  StraightSeams(const WeldTask& task, int axis)
      : task_(task),
        axis_(axis),
        low_(component(task.joint.normal, axis) > 0 ? task.a.outer : task.b.outer),
        high_(component(task.joint.normal, axis) > 0 ? task.b.outer : task.a.outer) {}

  std::optional<Offered> find() {
    breaks_ = corners_of(low_, axis_);
    for (const Vec2 p : corners_of(high_, axis_)) breaks_.push_back(p);
    for_each_contact([this](const Facing& facing, const std::vector<Edge>& edges) { add(facing, edges); });
    if (round_mm_ == 0) return std::nullopt;
    drop_short();
    return Offered{std::move(seams_), round_mm_};
  }

  std::vector<ContactOutline> outlines() {
    std::vector<ContactOutline> found;
    for_each_contact([&](const Facing& facing, const std::vector<Edge>& edges) {
      for (const std::vector<ContactEdge>& patch : patches_of(contact_edges(facing, edges, {}))) {
        found.push_back(outline_of(facing, patch));
      }
    });
    return found;
  }

 private:
  template <class Work>
  void for_each_contact(const Work& work) {
    for (const FacePlane& low : face_planes(low_, axis_)) {
      for (const FacePlane& high : face_planes(high_, axis_)) {
        const double gap = high.at_mm - low.at_mm;
        if (gap < -band || gap > task_.joint.largest_gap_mm + band) continue;
        work(Facing(low_, high_, axis_, low.at_mm, std::abs(gap) <= band ? low.at_mm : high.at_mm),
             edges_near(low, high));
      }
    }
  }

  [[nodiscard]] ContactOutline outline_of(const Facing& facing, const std::vector<ContactEdge>& edges) const {
    ContactOutline outline;
    outline.gap_mm = facing.gap_mm();
    for (const ContactEdge& e : edges) {
      outline.edges.push_back({facing.point(e.from, 0), facing.point(e.to, 0), direction(e.out, axis_)});
    }
    outline.area_mm2 = area_within(edges);
    return outline;
  }

  // By the surveyor's formula; from where an edge ends to the nearest that begins, over a rounded corner, it goes
  // straight.
  static double area_within(const std::vector<ContactEdge>& edges) {
    const std::vector<std::size_t> next = next_of(edges);
    double twice = 0;
    for (std::size_t i = 0; i < edges.size(); ++i)
      twice += cross(edges[i].from, edges[i].to) + cross(edges[i].to, edges[next[i]].from);
    return twice / 2;
  }

  static std::vector<std::size_t> next_of(const std::vector<ContactEdge>& edges) {
    std::vector<std::size_t> out;
    std::vector<bool> begun(edges.size(), false);
    for (const ContactEdge& e : edges) {
      std::size_t next = edges.size();
      for (std::size_t i = 0; i < edges.size(); ++i) {
        if (begun[i]) continue;
        if (next == edges.size() || norm(edges[i].from - e.to) < norm(edges[next].from - e.to)) next = i;
      }
      begun[next] = true;
      out.push_back(next);
    }
    return out;
  }

  /// What two planes share in several places, each with the contact at the left of its edges and with its own holes.
  static std::vector<std::vector<ContactEdge>> patches_of(std::vector<ContactEdge> edges) {
    for (ContactEdge& e : edges) {
      if (cross(e.to - e.from, e.out) > 0) std::swap(e.from, e.to);
    }
    const std::vector<std::size_t> next = next_of(edges);
    std::vector<bool> taken(edges.size(), false);
    std::vector<std::vector<ContactEdge>> patches, holes;
    for (std::size_t first = 0; first < edges.size(); ++first) {
      std::vector<ContactEdge> loop;
      for (std::size_t i = first; !taken[i]; i = next[i]) {
        taken[i] = true;
        loop.push_back(edges[i]);
      }
      if (!loop.empty()) (area_within(loop) > 0 ? patches : holes).push_back(std::move(loop));
    }
    for (const std::vector<ContactEdge>& hole : holes) {
      const auto round = std::find_if(patches.begin(), patches.end(), [&](const auto& p) { return is_round(p, hole); });
      if (round != patches.end()) round->insert(round->end(), hole.begin(), hole.end());
    }
    return patches;
  }

  /// By their extents: patches of two bodies' faces do not stand in each other's holes.
  static bool is_round(const std::vector<ContactEdge>& patch, const std::vector<ContactEdge>& hole) {
    Box2 box;
    for (const ContactEdge& e : patch) box.add(e.from);
    const Vec2 in = hole.front().from;
    return in.x > box.low.x && in.x < box.high.x && in.y > box.low.y && in.y < box.high.y;
  }

  void add(const Facing& facing, const std::vector<Edge>& edges) {
    std::vector<Run> runs;
    for (ContactEdge edge : contact_edges(facing, edges, breaks_)) {
      round_mm_ += norm(edge.to - edge.from);
      turn_along(edge);
      if (const auto section = bead_section(facing, edge, task_.wanted_mm)) runs.push_back({edge, *section});
    }
    for (const Run& run : joined(std::move(runs))) seams_.push_back(seam_of(facing, run));
  }

  // Where all are short, as between two edges that cross, they are what there is.
  void drop_short() {
    const auto is_long = [](const Seam& s) { return s.length_mm >= least_lengths * s.size_mm - band; };
    if (std::none_of(seams_.begin(), seams_.end(), is_long)) return;
    std::erase_if(seams_, [&](const Seam& s) { return !is_long(s); });
  }

  const WeldTask& task_;
  int axis_;
  const Stack& low_;
  const Stack& high_;
  std::vector<Vec2> breaks_;
  double round_mm_ = 0;
  std::vector<Seam> seams_;
};

}  // namespace

std::vector<ContactOutline> contact_outlines(const WeldTask& task) {
  const auto axis = axis_along(task.joint.normal);
  return axis ? StraightSeams(task, *axis).outlines() : std::vector<ContactOutline>{};
}

std::optional<Offered> straight_seams(const WeldTask& task) {
  const auto axis = axis_along(task.joint.normal);
  if (!axis) return std::nullopt;
  return StraightSeams(task, *axis).find();
}

}  // namespace fitup::checks
