// Holes of a sealed cover that nothing closes, inside the line of its seal, and joints of the walls behind it.
// Entry: check_sealed, joints_to_be_tight.
#include "checks/sealed.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <variant>

#include "checks/order.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

struct Opening {
  Box2 bounds;  // in the sheet's own frame
  std::string purpose;
};

bool covers(const Box3& box, const Box2& hole) {
  return box.low.x <= hole.low.x + tolerance::contact_mm && box.low.y <= hole.low.y + tolerance::contact_mm &&
         box.high.x >= hole.high.x - tolerance::contact_mm && box.high.y >= hole.high.y - tolerance::contact_mm;
}

class SealedCover {
 public:
  SealedCover(const Plan& plan, InstanceId sheet, InstanceId seal)
      : plan_(plan), sheet_(sheet), seal_(seal), within_(in_sheet(seal).front()) {}

  std::vector<Finding> findings() {
    std::vector<Finding> found;
    std::size_t closed = 0;
    for (const Opening& hole : inside()) {
      if (const LiftPoint* point = lift_point_in(hole.bounds)) {
        found.push_back(round_boss(hole, *point));
      } else if (is_closed(hole.bounds)) {
        ++closed;
      } else {
        found.push_back(stated(hole));
      }
    }
    if (found.empty()) found.push_back(tight(closed));
    return found;
  }

 private:
  [[nodiscard]] const Instance& sheet() const { return plan_.instances[sheet_]; }
  [[nodiscard]] const Flat& flat() const { return std::get<Flat>(plan_.parts[sheet().part].form); }
  [[nodiscard]] std::string label(InstanceId id) const {
    return plan_.parts[plan_.instances[id].part].mark + " " + plan_.instances[id].name;
  }

  // The prisms of a part as boxes in the sheet's own frame.
  [[nodiscard]] std::vector<Box3> in_sheet(InstanceId id) const {
    std::vector<Box3> boxes;
    const Pose to_sheet = sheet().pose.inverse() * plan_.instances[id].pose;
    for (Prism prism : body_of(plan_.parts[plan_.instances[id].part]).outer) {
      prism.pose = to_sheet * prism.pose;
      boxes.push_back(prism.bounds());
    }
    return boxes;
  }

  [[nodiscard]] std::vector<Opening> inside() const {
    std::vector<Opening> all;
    const auto add = [&](const Box2& bounds, const std::string& purpose) {
      const Vec2 middle = bounds.middle();
      const bool in = within_.low.x < middle.x && middle.x < within_.high.x && within_.low.y < middle.y &&
                      middle.y < within_.high.y;
      if (in) all.push_back({bounds, purpose});
    };
    for (const Loop& hole : flat().profile.holes) add(hole.bounds(), why_of(hole.bounds()));
    for (const DrilledHole& d : flat().drilled) add(Loop::circle(d.at, d.diameter_mm / 2).bounds(), d.purpose);
    return all;
  }

  // An opening keeps the room behind it free: that zone says what it is for.
  [[nodiscard]] std::string why_of(const Box2& hole) const {
    for (const Zone& zone : plan_.zones) {
      if (zone.owner != sheet_) continue;
      const Vec3 at = sheet().pose.local(zone.box.middle());
      if (hole.low.x < at.x && at.x < hole.high.x && hole.low.y < at.y && at.y < hole.high.y) return zone.why;
    }
    return "opening";
  }

  [[nodiscard]] const LiftPoint* lift_point_in(const Box2& hole) const {
    for (const LiftPoint& point : plan_.lift_points) {
      const Vec3 at = sheet().pose.local(point.at);
      if (hole.low.x < at.x && at.x < hole.high.x && hole.low.y < at.y && at.y < hole.high.y) return &point;
    }
    return nullptr;
  }

  // A thing's prism that touches the sheet and goes beyond the hole all round.
  [[nodiscard]] bool is_closed(const Box2& hole) const {
    for (InstanceId id = 0; id < plan_.instances.size(); ++id) {
      if (id == sheet_ || id == seal_ || plan_.parts[plan_.instances[id].part].role == Role::item) continue;
      for (const Box3& box : in_sheet(id)) {
        const bool lies_on =
            box.high.z >= -tolerance::contact_mm && box.low.z <= flat().thickness_mm + tolerance::contact_mm;
        if (lies_on && covers(box, hole)) return true;
      }
    }
    return false;
  }

  [[nodiscard]] Finding about(Verdict verdict) const {
    Finding f;
    f.check = "sealed";
    f.verdict = verdict;
    f.parts = {label(sheet_)};
    f.key = sheet().key + ".seal";
    f.place = sheet().place;
    return f;
  }
  [[nodiscard]] Finding open_at(Verdict verdict, const Box2& hole) const {
    Finding f = about(verdict);
    f.at = sheet().pose.point({hole.middle().x, hole.middle().y, flat().thickness_mm / 2});
    f.limit = 0;
    f.unit = "mm";
    return f;
  }

  [[nodiscard]] Finding round_boss(const Opening& hole, const LiftPoint& point) const {
    Finding f = open_at(Verdict::fail, hole.bounds);
    double boss_mm = 0;
    for (const Box3& box : in_sheet(point.boss)) boss_mm = std::max(boss_mm, box.size().x);
    f.value = (hole.bounds.size().x - boss_mm) / 2;
    f.cause = "lift bosses in " + sheet().name;
    f.parts.push_back(label(point.boss));
    f.message = fmt::format(
        "{} has a hole {} mm across for {} inside the line of its seal, which stays open by {} mm all round: what the "
        "seal keeps out comes in there. Lift bosses stand within the frame, the seal lies outside of it: seal another "
        "face, leave [lifting] out and lift the box by slings under it, or leave {} out where nothing needs to be kept "
        "out",
        label(sheet_), length_text(hole.bounds.size().x), label(point.boss), length_text(*f.value), f.key);
    return f;
  }

  [[nodiscard]] Finding stated(const Opening& hole) const {
    Finding f = open_at(Verdict::marginal, hole.bounds);
    const Vec2 size = hole.bounds.size();
    f.value = std::min(size.x, size.y);
    f.cause = "openings in " + sheet().name;
    f.message = fmt::format(
        "{} has an opening ({}) of {} mm by {} mm inside the line of its seal: the seal keeps out what comes under the "
        "cover, not what comes in there. Close it by a gland or a hose in its strip, put it into another face, or "
        "leave "
        "it if it is to stay open",
        label(sheet_), hole.purpose, length_text(size.x), length_text(size.y));
    return f;
  }

  [[nodiscard]] Finding tight(std::size_t closed) const {
    Finding f = about(Verdict::pass);
    f.message = fmt::format("{} has no open hole inside the line of its seal; holes there that are closed: {}",
                            label(sheet_), closed);
    const std::vector<std::string> open = open_faces();
    if (!open.empty()) {
      f.message += fmt::format("; the box is open at the {}, and what comes in there no seal keeps out",
                               fmt::join(open, " and the "));
    }
    return f;
  }

  // Of the box that the cover closes: the plan names a face of the first box alone, one of another after its box.
  [[nodiscard]] std::vector<std::string> open_faces() const {
    std::vector<std::string> open;
    for (const std::string& name : plan_.open_faces) {
      const std::size_t blank = name.rfind(' ');
      const bool first = blank == std::string::npos;
      const std::string box = first ? plan_.frames.front().box : name.substr(0, blank);
      if (sheet().key.starts_with("box." + box + ".")) open.push_back(first ? name : name.substr(blank + 1));
    }
    return open;
  }

  const Plan& plan_;
  InstanceId sheet_;
  InstanceId seal_;
  Box3 within_;
};

/// "box.main." of "box.main.face.top".
std::string box_of(const std::string& key) {
  const std::size_t dot = key.find('.');
  return dot == std::string::npos ? key : key.substr(0, key.find('.', dot + 1)) + ".";
}

bool is_of_wall(const Plan& plan, InstanceId id) {
  const Part& part = plan.parts[plan.instances[id].part];
  return part.role == Role::wall && std::holds_alternative<Flat>(part.form);
}

/// Beside each other in one plane.
bool are_pieces(const Plan& plan, const Joint& joint) {
  if (joint.kind != JointKind::weld || !is_of_wall(plan, joint.a) || !is_of_wall(plan, joint.b)) return false;
  const Instance& a = plan.instances[joint.a];
  const Instance& b = plan.instances[joint.b];
  if (a.key != b.key) return false;
  const Vec3 origin = a.pose.local(b.pose.origin());
  return std::abs(dot(a.pose.z(), b.pose.z()) - 1) < tolerance::direction && std::abs(origin.z) < tolerance::contact_mm;
}

Finding joint_in_walls(const Plan& plan, std::size_t which) {
  const Joint& joint = plan.joints[which];
  const Instance& a = plan.instances[joint.a];
  Finding f;
  f.check = "sealed";
  f.verdict = Verdict::marginal;
  for (const InstanceId id : {joint.a, joint.b}) {
    f.parts.push_back(plan.parts[plan.instances[id].part].mark + " " + plan.instances[id].name);
  }
  f.key = a.key;
  f.place = a.place;
  f.cause = "joints in the walls of " + box_of(a.key);
  f.message = fmt::format(
      "{} and {} are pieces of one plate of a box with a sealed cover: what the seal keeps out comes in between the "
      "teeth of their joint, unless it is welded tight all along, round the teeth too, as welds.csv says of it, and "
      "tried with soap water or dye. A larger sheet (cutter.sheets) keeps the plate whole",
      f.parts[0], f.parts[1]);
  return f;
}

}  // namespace

std::vector<std::size_t> joints_to_be_tight(const Plan& plan) {
  std::set<std::string> sealed;
  for (const Instance& i : plan.instances) {
    if (plan.parts[i.part].role == Role::seal) sealed.insert(box_of(i.key));
  }
  std::vector<std::size_t> joints;
  for (std::size_t j = 0; !sealed.empty() && j < plan.joints.size(); ++j) {
    const Joint& joint = plan.joints[j];
    if (are_pieces(plan, joint) && sealed.contains(box_of(plan.instances[joint.a].key))) joints.push_back(j);
  }
  return joints;
}

std::vector<Finding> check_sealed(const Plan& plan) {
  std::vector<Finding> findings;
  const auto role = [&](InstanceId id) { return plan.parts[plan.instances[id].part].role; };
  for (const Joint& joint : plan.joints) {
    if (joint.kind != JointKind::bearing || role(joint.a) != Role::cover_sheet || role(joint.b) != Role::seal) continue;
    for (Finding& f : SealedCover(plan, joint.a, joint.b).findings()) findings.push_back(std::move(f));
  }
  for (const std::size_t joint : joints_to_be_tight(plan)) findings.push_back(joint_in_walls(plan, joint));
  return findings;
}

}  // namespace fitup::checks
