// Reads from a fastener's shape what turns it, and lays the tool's room over it.
// Entry: turned_by_hand, all_turned.
#include "checks/tool_room.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "checks/order.h"
#include "tables/tools.h"

namespace fitup::checks {

namespace {

const double corners = 2 / std::sqrt(3.0);  // of a hexagon, to its flats

/// A regular hexagon of straight edges: its width across flats.
std::optional<double> hexagon_mm(const Loop& loop) {
  if (loop.vertices.size() != 6) return std::nullopt;
  const Vec2 middle = loop.bounds().middle();
  double least = 1e300;
  double most = 0;
  for (const Edge& edge : loop.edges()) {
    if (!edge.straight()) return std::nullopt;
    const double off = std::abs(cross(edge.to - edge.from, middle - edge.from)) / norm(edge.to - edge.from);
    least = std::min(least, off);
    most = std::max(most, off);
  }
  return most - least < 1e-3 ? std::optional(2 * least) : std::nullopt;
}

/// A hexagon of a part, where it is along the part's own z.
struct Hexagon {
  double flats_mm = 0;
  double low_mm = 0;
  double high_mm = 0;
  bool socket = false;  // in it, else round it
};

std::vector<Hexagon> hexagons_of(const Part& part) {
  std::vector<Hexagon> all;
  const auto* form = std::get_if<Solidform>(&part.form);
  if (form == nullptr) return all;
  for (const Prism& prism : form->prisms) {
    const double low = prism.pose.origin().z;
    if (std::abs(prism.pose.z().z) < 0.5) continue;
    const double high = low + prism.pose.z().z * prism.length_mm;
    const Interval span{std::min(low, high), std::max(low, high)};
    if (const auto flats = hexagon_mm(prism.profile.outer)) all.push_back({*flats, span.low, span.high, false});
    for (const Loop& hole : prism.profile.holes) {
      if (const auto flats = hexagon_mm(hole)) all.push_back({*flats, span.low, span.high, true});
    }
  }
  return all;
}

/// Half of what the prism is wide.
double half_width(const Prism& p) {
  const Vec3 size = p.bounds().size();
  return std::max(size.x, size.y) / 2;
}

/// What is wider than the shank: how wide, and how long in all.
struct Head {
  double radius_mm = 0;
  double long_mm = 0;
};

Head head_of(const Part& part) {
  double thin = 1e300;
  double thick = 0;
  for (const Prism& p : std::get<Solidform>(part.form).prisms) {
    thin = std::min(thin, half_width(p));
    thick = std::max(thick, half_width(p));
  }
  Interval span{1e300, -1e300};
  for (const Prism& p : std::get<Solidform>(part.form).prisms) {
    if (half_width(p) <= thin + 1e-6) continue;
    span.low = std::min(span.low, p.bounds().low.z);
    span.high = std::max(span.high, p.bounds().high.z);
  }
  return {thick, std::max(0.0, span.length())};
}

double lowest(const Part& part) {
  double low = 1e300;
  for (const Prism& p : std::get<Solidform>(part.form).prisms) low = std::min(low, p.bounds().low.z);
  return low;
}

double highest(const Part& part) {
  double high = -1e300;
  for (const Prism& p : std::get<Solidform>(part.form).prisms) high = std::max(high, p.bounds().high.z);
  return high;
}

std::string mm_words(double mm) { return fmt::format("{:.4g} mm", mm); }

class Tools {
 public:
  Tools(const Scene& scene, InstanceId id)
      : plan_(scene.plan()),
        joints_(scene.joints_of(id)),
        instance_(plan_.instances[id]),
        part_(plan_.parts[instance_.part]) {
    turned_.id = id;
    turned_.in_the_tool.push_back(id);
    for (const std::size_t i : joints_) {
      const Joint& joint = plan_.joints[i];
      if (joint.kind != JointKind::thread) continue;
      const InstanceId other = joint.a == id ? joint.b : joint.a;
      const Role role = plan_.parts[plan_.instances[other].part].role;
      if (role == Role::rod || role == Role::screw) turned_.in_the_tool.push_back(other);
    }
  }

  std::vector<Turned> run() {
    switch (part_.role) {
      case Role::screw: screw(); break;
      case Role::nut: nut(); break;
      case Role::eye: eye(); break;
      case Role::gland: return gland();
      default: return {};
    }
    turned_.known = !turned_.tools.empty();
    return {turned_};
  }

 private:
  /// A column over the part's axis: `up` away from the part's own z, or against it.
  [[nodiscard]] Prism column(double diameter, double from_z, double length, bool up) const {
    const Pose at = instance_.pose * Pose::at({0, 0, from_z}, axis::x, up ? axis::y : axis::minus_y);
    return {{Loop::circle({}, diameter / 2), {}}, at, length};
  }

  void screw() {
    for (const Hexagon& hex : hexagons_of(part_)) {
      const bool at_low_end = hex.low_mm <= lowest(part_) + 1e-6;
      const double end = at_low_end ? hex.low_mm : hex.high_mm;
      comes_from(at_low_end ? lowest(part_) : highest(part_), !at_low_end);
      if (hex.socket) {
        key(hex.flats_mm, end, hex.high_mm - hex.low_mm, !at_low_end);
      } else {
        sockets(hex.flats_mm, at_low_end ? hex.high_mm : hex.low_mm, !at_low_end);
        flat_spanner(hex.flats_mm, at_low_end ? hex.high_mm : hex.low_mm, !at_low_end);
      }
      return;
    }
  }

  /// As long as its shank is, its head over its place: before the shank enters the first hole.
  void comes_from(double end, bool up) {
    const Head head = head_of(part_);
    const double shank = highest(part_) - lowest(part_) - head.long_mm;
    if (shank <= 0) return;
    turned_.way_in = ToolRoom{"the screw itself, as it is put in,", column(2 * head.radius_mm, end, shank, up), {}};
  }

  void key(double flats, double end, double depth, bool up) {
    const tables::HexKey* key = tables::find_hex_key(flats);
    if (key == nullptr) return;
    const double thick = key->flats_mm * corners;
    const auto add = [&](const char* arm, double in_mm, double swung_mm) {
      const double above = in_mm - depth;
      turned_.tools.push_back({fmt::format("a {} hexagon key, its {} arm in", mm_words(flats), arm),
                               column(thick, end, above, up),
                               ToolRoom::Swing{above - thick, above, swung_mm, thick, tables::key_swing_deg},
                               {},
                               in_mm > swung_mm});
    };
    add("short", key->short_arm_mm, key->long_arm_mm);
    add("long", key->long_arm_mm, key->short_arm_mm);
  }

  // From the nut's seat to the ratchet; what stands out of the nut must end before the drive.
  void sockets(double flats, double seat, bool up) {
    const tables::SocketTool* tool = tables::find_socket_tool(flats);
    if (tool == nullptr) return;
    const double out = stands_out(seat, up);
    const auto add = [&](const std::string& words, double length, double depth) {
      if (out > depth) return;
      const double whole = length + tool->head_high_mm;
      const Prism head = column(tool->head_mm, seat + (up ? length : -length), tool->head_high_mm, up);
      turned_.tools.push_back(
          {words + mm_words(flats) + " on a ratchet", column(tables::socket_outside_mm(flats), seat, whole, up),
           ToolRoom::Swing{length, whole, tool->handle_mm, tool->handle_wide_mm, tables::ratchet_swing_deg}, head});
    };
    add("a socket of ", tool->length_mm, tool->length_mm - tool->drive_mm);
    add("a deep socket of ", tool->deep_mm, tool->deep_mm - tool->drive_mm);
    add("a deep socket with an extension of ", tool->deep_mm + tool->extension_mm, tool->deep_mm - tool->drive_mm);
  }

  /// How far the rod or screw in its thread reaches beyond the seat.
  [[nodiscard]] double stands_out(double seat, bool up) const {
    const Vec3 along = up ? instance_.pose.z() : Vec3{} - instance_.pose.z();
    const double from = dot(instance_.pose.point({0, 0, seat}), along);
    double out = 0;
    for (std::size_t i = 1; i < turned_.in_the_tool.size(); ++i) {
      const Instance& other = plan_.instances[turned_.in_the_tool[i]];
      for (const Prism& p : std::get<Solidform>(plan_.parts[other.part].form).prisms) {
        const Box3 box = Prism{p.profile, other.pose * p.pose, p.length_mm}.bounds();
        out = std::max({out, dot(box.low, along) - from, dot(box.high, along) - from});
      }
    }
    return out;
  }

  void flat_spanner(double flats, double seat, bool up) {
    const tables::Spanner s = tables::spanner(flats);
    turned_.tools.push_back({fmt::format("a flat spanner of {}", mm_words(flats)),
                             column(s.head_mm, seat, s.thick_mm, up),
                             ToolRoom::Swing{0, s.thick_mm, s.long_mm, s.wide_mm, tables::spanner_swing_deg}});
  }

  // Tightened against what it bears on, from the other side.
  void nut() {
    const auto all = hexagons_of(part_);
    if (all.empty()) return;
    const bool up = bears_below();
    const double seat = up ? lowest(part_) : highest(part_);
    // It comes from beyond the end of a rod; onto a screw it need not come, which finds it held in its place.
    // One that is drawn against a plate from within comes from the nearer end too.
    const double other_way = stands_out(up ? highest(part_) : lowest(part_), !up);
    const bool from_up = other_way > 0 && other_way < stands_out(seat, up) ? !up : up;
    const double out = from_up == up ? stands_out(seat, up) : other_way;
    if (out > 0 && is_on_a_rod()) {
      turned_.way_in =
          ToolRoom{"the nut itself, as it is put on,",
                   column(all.front().flats_mm * corners, from_up ? highest(part_) : lowest(part_), out, from_up),
                   {}};
    }
    flat_spanner(all.front().flats_mm, seat, up);
    sockets(all.front().flats_mm, seat, up);
    if (is_on_a_screw()) hold_still();
  }

  /// It is held, and the screw turned by its head: the handle stays where it is.
  void hold_still() {
    for (ToolRoom& room : turned_.tools) {
      if (room.swing) room.swing->sweep_deg = 0;
    }
  }

  [[nodiscard]] bool is_on_a_screw() const {
    return std::any_of(turned_.in_the_tool.begin() + 1, turned_.in_the_tool.end(),
                       [&](InstanceId other) { return plan_.parts[plan_.instances[other].part].role == Role::screw; });
  }

  [[nodiscard]] bool is_on_a_rod() const {
    return std::any_of(turned_.in_the_tool.begin() + 1, turned_.in_the_tool.end(),
                       [&](InstanceId other) { return plan_.parts[plan_.instances[other].part].role == Role::rod; });
  }

  [[nodiscard]] const Joint* bearing() const {
    const auto it = std::find_if(joints_.begin(), joints_.end(), [&](std::size_t i) {
      return plan_.joints[i].kind == JointKind::bearing && plan_.joints[i].a == turned_.id;
    });
    return it == joints_.end() ? nullptr : &plan_.joints[*it];
  }

  [[nodiscard]] bool bears_below() const {
    const Joint* joint = bearing();
    return joint == nullptr || dot(joint->normal, instance_.pose.z()) < 0;
  }

  // Screwed in by its ring: all that the ring sweeps.
  void eye() {
    double radius = 0;
    Box3 ring;
    for (const Prism& p : std::get<Solidform>(part_.form).prisms) {
      if (std::abs(p.pose.z().z) > 0.5) continue;
      ring.add(p.bounds());
    }
    if (ring.empty()) return;
    radius = std::max({std::abs(ring.low.x), ring.high.x, std::abs(ring.low.y), ring.high.y});
    turned_.tools.push_back({"its own ring, as it is screwed in,",
                             column(2 * radius, ring.low.z, ring.high.z - ring.low.z, true), std::nullopt});
  }

  // The body is turned from outside, the locknut is held or turned from inside.
  std::vector<Turned> gland() {
    std::vector<Turned> both;
    for (const Hexagon& hex : hexagons_of(part_)) {
      const bool outside = hex.high_mm <= 1e-6;
      turned_.tools.clear();
      flat_spanner(hex.flats_mm, outside ? hex.high_mm : hex.low_mm, !outside);
      both.push_back(turned_);
    }
    return both;
  }

  const Plan& plan_;
  const std::vector<std::size_t>& joints_;  // of this instance, in Plan::joints
  const Instance& instance_;
  const Part& part_;
  Turned turned_;
};

}  // namespace

std::vector<Turned> turned_by_hand(const Scene& scene, InstanceId id) { return Tools(scene, id).run(); }

Prism swing_room(const ToolRoom& tool, double from_deg) {
  const ToolRoom::Swing& swing = *tool.swing;
  const double first = from_deg * M_PI / 180;
  const double sweep = swing.sweep_deg * M_PI / 180;
  const auto ray = [](double angle) { return Vec2{std::cos(angle), std::sin(angle)}; };
  const Vec2 a = ray(first);
  const Vec2 b = ray(first + sweep);
  const double half = swing.wide_mm / 2;
  const Vec2 beside_a{half * a.y, -half * a.x};
  const Vec2 beside_b{-half * b.y, half * b.x};
  // The handle's outer corners run on a circle a little larger than its length.
  const double more = 2 * std::atan2(half, swing.radius_mm);
  Loop outline{{{beside_a},
                {beside_a + swing.radius_mm * a, std::tan((sweep + more) / 4)},
                {beside_b + swing.radius_mm * b},
                {beside_b}}};
  return {{outline, {}}, tool.column.pose * Pose::at({0, 0, swing.from_mm}), swing.to_mm - swing.from_mm};
}

std::vector<Turned> all_turned(const Scene& scene) {
  const Plan& plan = scene.plan();
  std::vector<bool> welded(plan.instances.size(), false);
  for (const Joint& joint : plan.joints) {
    if (joint.kind == JointKind::weld) welded[joint.a] = welded[joint.b] = true;
  }
  std::vector<Turned> all;
  for (InstanceId i = 0; i < plan.instances.size(); ++i) {
    if (welded[i]) continue;
    for (Turned& turned : turned_by_hand(scene, i)) all.push_back(std::move(turned));
  }
  return all;
}

}  // namespace fitup::checks
