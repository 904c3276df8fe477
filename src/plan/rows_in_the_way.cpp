// Rows of cover screws by rule against seams, heads and steel: what is found becomes a gap of the row.
// Entry: keep_rows_clear.
#include "plan/rows_in_the_way.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "geometry/near_boxes.h"
#include "plan/clear_rows.h"
#include "plan/face_axes.h"
#include "plan/mitre.h"
#include "plan/room.h"
#include "plan/section_cut.h"

namespace fitup::plan {

namespace {

constexpr double beside_bead_mm = 2;      // of steel between a bead and the edge of a hole (common practice)
constexpr double between_parts_mm = 0.5;  // from a head or a nut to what it is not joined to

bool share_space(const Box3& a, const Box3& b) {
  for (int axis = 0; axis < 3; ++axis) {
    const double shared =
        std::min(along(a.high, axis), along(b.high, axis)) - std::max(along(a.low, axis), along(b.low, axis));
    if (shared <= tolerance::contact_mm) return false;
  }
  return true;
}

double thinnest(const Box3& box) {
  const Vec3 size = box.size();
  return std::min({size.x, size.y, size.z});
}

// Of a part's wall; of what has none no bead is wider than itself.
double thickness_mm(const Part& part) {
  if (const auto* flat = std::get_if<Flat>(&part.form)) return flat->thickness_mm;
  if (const auto* member = std::get_if<Member>(&part.form)) return member->section.thickness_mm;
  return 1e9;
}

int axis_along(Vec3 direction) { return std::abs(direction.x) > 0.5 ? 0 : std::abs(direction.y) > 0.5 ? 1 : 2; }

// Where a leg, or what of a tube lies on it, is whole. What lies within a mitre is left out: seams there are at the
// ends of a row, which keep their own distance.
Interval whole(const Member& member, Leg leg) {
  const auto run = [&](const EndCut& end) { return end.mitre == leg ? mitre_run_mm(member.section, end) : 0; };
  return {run(member.start), member.length_mm - run(member.end)};
}

// The wall at a mitre's heel is as long as the member.
std::vector<Box3> walls_of_tube(const Member& tube) {
  const Section& s = tube.section;
  const Interval a = whole(tube, Leg::a);
  const Interval b = whole(tube, Leg::b);
  std::vector<Box3> out{{{0, 0, std::max(a.low, b.low)}, {s.leg_a_mm, s.leg_b_mm, std::min(a.high, b.high)}}};
  if (tube.start.mitre == Leg::a || tube.end.mitre == Leg::a)
    out.push_back({{0, 0, b.low}, {s.thickness_mm, s.leg_b_mm, b.high}});
  if (tube.start.mitre == Leg::b || tube.end.mitre == Leg::b)
    out.push_back({{0, 0, a.low}, {s.leg_a_mm, s.thickness_mm, a.high}});
  return out;
}

// Its legs as they are cut.
std::vector<Box3> legs_of(const Member& mitred) {
  if (mitred.section.shape == SectionShape::tube) return walls_of_tube(mitred);
  const Interval whole_a = whole(mitred, Leg::a);
  const Interval whole_b = whole(mitred, Leg::b);
  const Member m = without_mitres(mitred);
  const double t = m.section.thickness_mm;
  std::vector<Box3> out;
  const std::vector<double> points = breakpoints(m);
  for (std::size_t i = 0; i + 1 < points.size(); ++i) {
    const double middle = (points[i] + points[i + 1]) / 2;
    const auto add = [&](Vec3 low, Vec3 high, const Interval& in) {
      low.z = std::max(points[i], in.low);
      high.z = std::min(points[i + 1], in.high);
      if (high.z - low.z > tolerance::contact_mm) out.push_back({low, high});
    };
    for (const Interval& a : kept_at(m, Leg::a, middle)) add({a.low, 0, 0}, {a.high, t, 0}, whole_a);
    for (const Interval& b : kept_at(m, Leg::b, middle)) add({0, b.low, 0}, {t, b.high, 0}, whole_b);
  }
  return out;
}

std::vector<Taken> pieces_of_steel(const Draft& draft) {
  std::vector<Taken> out;
  for (InstanceId id = 0; id < draft.size(); ++id) {
    const Part& part = draft.part(id);
    const Pose& pose = draft.instance(id).pose;
    if (part.role == Role::item || part.role == Role::rod) continue;
    const auto* member = std::get_if<Member>(&part.form);
    if (member != nullptr) {
      for (const Box3& leg : legs_of(*member)) {
        Box3 box;
        box.add(pose.point(leg.low));
        box.add(pose.point(leg.high));
        out.push_back({id, box});
      }
      continue;
    }
    for (const Prism& prism : body_of(part).outer) {
      out.push_back({id, Prism{prism.profile, pose * prism.pose, prism.length_mm}.bounds()});
    }
  }
  return out;
}

// A screw of a row by rule.
struct RowScrew {
  InstanceId id = 0;
  InstanceId host = 0;       // the steel that it holds in
  std::set<InstanceId> own;  // screw, nut, washer, and what it goes through
  std::string row;
  Vec3 at;
  int axis = 0;  // that it stands along
  double hole_mm = 0;
};

// Whose cover a screw holds; none where it holds no cover.
const FaceSpec* face_of(const Draft& draft, const BoxSpec& box, InstanceId screw) {
  const std::string& key = draft.instance(screw).key;
  for (const Face face : all_faces) {
    if (key != fmt::format("box.{}.face.{}", box.name, to_text(face))) continue;
    return *box.face(face).closed_by == Closure::cover ? &box.face(face) : nullptr;
  }
  return nullptr;
}

bool is_by_rule(const Draft& draft, const BoxSpec& box, InstanceId screw) {
  const FaceSpec* face = face_of(draft, box, screw);
  if (face == nullptr) return false;
  const auto& at = face->screws.at;
  return std::none_of(at.begin(), at.end(), [](const auto& given) { return given.has_value(); });
}

std::vector<Box3> boxes_of(const std::vector<Taken>& taken) {
  std::vector<Box3> out;
  out.reserve(taken.size());
  for (const Taken& t : taken) out.push_back(t.box);
  return out;
}

class RowsInTheWay {
 public:
  explicit RowsInTheWay(Build& build)
      : build_(build), draft_(build.draft), taken_(pieces_of_steel(build.draft)), near_(boxes_of(taken_)) {
    for (std::size_t i = 0; i < taken_.size(); ++i) pieces_[taken_[i].id].push_back(i);
    for (const Joint& joint : draft_.joints()) {
      joined_[joint.a].push_back(&joint);
      joined_[joint.b].push_back(&joint);
    }
    for (const Fastener& fastener : draft_.fasteners) add(fastener);
  }

  void run() {
    for (const auto& [row, screws] : rows_) {
      if (screws.size() < 2) continue;
      const Vec3 way = screws.back().at - screws.front().at;
      run_ = axis_along((1 / norm(way)) * way);
      for (const RowScrew& screw : screws) {
        clear_of_beads(screw, screws);
        clear_of_parts(screw, screws);
      }
      say_wide_steps(screws);
    }
  }

 private:
  void add(const Fastener& fastener) {
    if (!is_by_rule(draft_, build_.box_spec(), fastener.screw)) return;
    RowScrew screw;
    screw.id = fastener.screw;
    screw.own.insert(fastener.screw);
    for (const InstanceId id : fastener.stack) {
      screw.own.insert(id);
      if (draft_.part(id).source != Source::bought) screw.host = id;
    }
    for (const InstanceId id : std::set<InstanceId>(screw.own)) {
      if (draft_.part(id).source != Source::bought) continue;
      for (const Joint* joint : joined_[id]) screw.own.insert(joint->a == id ? joint->b : joint->a);
    }
    screw.row = row_of(draft_, fastener.screw);
    for (const InstanceId id : screw.own) {
      if (draft_.part(id).source == Source::bought) row_of_hardware_[id] = screw.row;
    }
    screw.at = draft_.instance(fastener.screw).pose.origin();
    screw.axis = axis_along(draft_.instance(fastener.screw).pose.z());
    screw.hole_mm = tables::find_thread(fastener.thread)->clear_medium_mm;
    rows_[screw.row].push_back(std::move(screw));
  }

  // Said of the last trial, in which nothing moves any more.
  void say_wide_steps(std::vector<RowScrew> row) {
    std::sort(row.begin(), row.end(),
              [this](const RowScrew& a, const RowScrew& b) { return along(a.at, run_) < along(b.at, run_); });
    const Sourced<Length>& most = face_of(draft_, build_.box_spec(), row.front().id)->screws.max_spacing;
    for (std::size_t i = 1; i < row.size(); ++i) {
      const double step = along(row[i].at, run_) - along(row[i - 1].at, run_);
      if (step <= most->mm() + tolerance::contact_mm) continue;
      build_.diagnostics.add(diag::say<"row-interrupted">(most.place, draft_.instance(row[i - 1].id).name,
                                                          build_.in_words(step),
                                                          build_.in_words(most->mm()) + what_keeps_out(row, i)));
      return;
    }
  }

  // " (in the way: left gusset, sill)": what the screw before that place of the row would meet if it stood on along it.
  [[nodiscard]] std::string what_keeps_out(const std::vector<RowScrew>& row, std::size_t i) {
    constexpr int places = 48;
    constexpr std::size_t most_named = 3;
    const double from = along(row[i - 1].at, run_);
    const double step = along(row[i].at, run_) - from;
    std::map<std::string, int> met;
    for (int k = 1; k < places; ++k) {
      tried_mm_ = step * k / places;
      met_ = std::set<InstanceId>();
      RowScrew screw = row[i - 1];
      along(screw.at, run_) = from + tried_mm_;
      clear_of_beads(screw, row);
      clear_of_parts(screw, row);
      for (const InstanceId id : *met_) ++met[draft_.instance(id).name];
    }
    met_.reset();
    tried_mm_ = 0;
    std::vector<std::pair<int, std::string>> order;
    for (const auto& [name, count] : met) order.emplace_back(-count, name);
    std::sort(order.begin(), order.end());
    std::vector<std::string> names;
    for (const auto& [count, name] : order) names.push_back(name);
    if (names.size() > most_named) names.resize(most_named);
    if (names.empty() && has_cut_outs(row[i - 1], from, from + step))
      names.push_back("what is cut into " + draft_.instance(row[i - 1].host).name);
    return names.empty() ? "" : fmt::format(" (in the way: {})", fmt::join(names, ", "));
  }

  // Beside the row, between these places along it: a hole there would leave a narrow web.
  [[nodiscard]] bool has_cut_outs(const RowScrew& screw, double from, double to) const {
    const auto* flat = std::get_if<Flat>(&draft_.part(screw.host).form);
    if (flat == nullptr) return false;
    const Pose& pose = draft_.instance(screw.host).pose;
    const double room = screw.hole_mm / 2 + 2 * flat->thickness_mm;
    return std::any_of(flat->profile.holes.begin(), flat->profile.holes.end(), [&](const Loop& hole) {
      const Box3 box = Prism{{hole, {}}, pose, flat->thickness_mm}.bounds();
      bool beside = along(box.low, run_) > from && along(box.high, run_) < to;
      for (int axis = 0; axis < 3; ++axis) {
        if (axis == run_ || axis == screw.axis) continue;
        beside = beside && along(box.low, axis) - room < along(screw.at, axis) &&
                 along(box.high, axis) + room > along(screw.at, axis);
      }
      return beside;
    });
  }

  // Along the row; nothing where all of it would lie in the gap.
  void wish(const RowScrew& screw, const std::vector<RowScrew>& row, InstanceId met, double from, double to) {
    const double at = along(screw.at, run_);
    if (at <= from + tolerance::contact_mm || at >= to - tolerance::contact_mm) return;
    if (met_) {
      met_->insert(met);
      return;
    }
    const bool all = std::all_of(row.begin(), row.end(), [&](const RowScrew& other) {
      return along(other.at, run_) > from && along(other.at, run_) < to;
    });
    if (!all) add_row_gap(build_, {screw.row, from, to});
  }

  // The wall of the host that the screw goes through.
  [[nodiscard]] std::optional<Box3> wall_of(const RowScrew& screw) const {
    std::optional<Box3> found;
    for (const std::size_t piece : pieces_of(screw.host)) {
      const Taken& t = taken_[piece];
      bool here = true;
      for (int axis = 0; axis < 3; ++axis) {
        const double p = along(screw.at, axis);
        here = here && (axis == screw.axis || (p > along(t.box.low, axis) && p < along(t.box.high, axis)));
      }
      const bool thinner = !found || along(t.box.size(), screw.axis) < along(found->size(), screw.axis);
      if (here && thinner) found = t.box;
    }
    return found;
  }

  void clear_of_beads(const RowScrew& screw, const std::vector<RowScrew>& row) {
    const auto wall = wall_of(screw);
    if (!wall) return;
    for (const Joint* joint : joined_[screw.host]) {
      if (joint->kind != JointKind::weld) continue;
      const InstanceId other = joint->a == screw.host ? joint->b : joint->a;
      if (is_of_row(other, screw.row)) continue;  // each weld nut moves with its own screw
      std::vector<Interval> beads;
      for (const std::size_t piece : pieces_of(other)) add_bead(screw, *wall, *joint, taken_[piece].box, beads);
      for (const Interval& bead : beads) wish(screw, row, other, bead.low, bead.high);
    }
  }

  // The bead lies beside what is welded on, as wide as the thinner of both is thick; along pieces that meet it is one.
  void add_bead(const RowScrew& screw, const Box3& wall, const Joint& joint, const Box3& welded,
                std::vector<Interval>& beads) const {
    const double rule = draft_.weld_rules.empty() ? 0 : draft_.weld_rules.back().leg_mm;
    const double thinner = std::min({along(wall.size(), screw.axis), thinnest(welded),
                                     thickness_mm(draft_.part(joint.a)), thickness_mm(draft_.part(joint.b))});
    const double leg = rule > 0 ? rule : thinner;
    const double room = screw.hole_mm / 2 + beside_bead_mm + leg;
    const double gap = joint.largest_gap_mm + 2 * tolerance::contact_mm;
    Box3 needed;
    for (const Side end : {low, high}) {
      Vec3 corner = end == low ? wall.low : wall.high;
      for (int axis = 0; axis < 3; ++axis) {
        const double off = end == low ? -1 : 1;
        along(corner, axis) = axis == screw.axis ? along(corner, axis) + off * gap : along(screw.at, axis) + off * room;
      }
      needed.add(corner);
    }
    if (!share_space(needed, welded)) return;
    Interval bead{along(welded.low, run_) - room, along(welded.high, run_) + room};
    const auto met = [&](const Interval& other) { return other.low < bead.high && bead.low < other.high; };
    for (auto other = std::find_if(beads.begin(), beads.end(), met); other != beads.end();
         other = std::find_if(beads.begin(), beads.end(), met)) {
      bead = {std::min(bead.low, other->low), std::max(bead.high, other->high)};
      beads.erase(other);
    }
    beads.push_back(bead);
  }

  [[nodiscard]] bool is_of_row(InstanceId id, const std::string& row) const {
    const auto found = row_of_hardware_.find(id);
    return found != row_of_hardware_.end() && found->second == row;
  }

  // Of two screws by rule the later one moves.
  [[nodiscard]] bool yields_to(const RowScrew& screw, InstanceId other) const {
    if (screw.own.count(other) > 0 || is_of_row(other, screw.row)) return false;
    if (draft_.part(other).role != Role::screw) return true;
    return other < screw.id || !is_by_rule(draft_, build_.box_spec(), other);
  }

  void clear_of_parts(const RowScrew& screw, const std::vector<RowScrew>& row) {
    for (const InstanceId id : screw.own) {
      if (draft_.part(id).source != Source::bought) continue;
      for (const std::size_t piece : pieces_of(id)) {
        Box3 own = taken_[piece].box;
        along(own.low, run_) += tried_mm_;
        along(own.high, run_) += tried_mm_;
        clear_of_part(screw, row, own);
      }
    }
  }

  void clear_of_part(const RowScrew& screw, const std::vector<RowScrew>& row, const Box3& own) {
    const double half = along(own.size(), run_) / 2 + between_parts_mm;
    for (const std::size_t piece : near_.near(own, -tolerance::contact_mm)) {
      const Taken& other = taken_[piece];
      if (!yields_to(screw, other.id)) continue;
      wish(screw, row, other.id, along(other.box.low, run_) - half, along(other.box.high, run_) + half);
    }
  }

  [[nodiscard]] const std::vector<std::size_t>& pieces_of(InstanceId id) const {
    static const std::vector<std::size_t> none;
    const auto found = pieces_.find(id);
    return found == pieces_.end() ? none : found->second;
  }

  Build& build_;
  const Draft& draft_;
  std::vector<Taken> taken_;
  geometry::NearBoxes near_;
  std::map<InstanceId, std::vector<std::size_t>> pieces_;  // places in taken_
  std::map<InstanceId, std::vector<const Joint*>> joined_;
  std::map<std::string, std::vector<RowScrew>> rows_;
  std::map<InstanceId, std::string> row_of_hardware_;  // screws, nuts and washers
  int run_ = 0;
  double tried_mm_ = 0;                        // a screw that is tried stands so far from where it was planned
  std::optional<std::set<InstanceId>> met_{};  // while one is tried: what it meets
};

}  // namespace

void keep_rows_clear(Build& build) {
  if (!build.diagnostics.has_errors()) RowsInTheWay(build).run();
}

}  // namespace fitup::plan
