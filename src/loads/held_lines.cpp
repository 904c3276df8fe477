// Seams of a plate to the lines that hold it.
// Entry: held_lines, is_welded_round.
#include "loads/held_lines.h"

#include <algorithm>
#include <cmath>
#include <variant>

#include "loads/seam_group.h"

namespace fitup::loads {

namespace {

constexpr double all_round_share = 0.8;  // of an outline
constexpr double on_one_line_mm = 0.5;

InstanceId other_of(const Joint& joint, InstanceId id) { return joint.a == id ? joint.b : joint.a; }

void add(std::vector<HeldLine>& lines, const Seam& seam, InstanceId root, Vec3 normal, Vec3 place) {
  const Vec3 path = seam.to - seam.from;
  if (norm(path) < least_seam_mm / 2 || std::abs(dot(path, normal)) > 0.01 * norm(path)) return;
  HeldLine line;
  line.along = (1 / norm(path)) * path;
  line.root = root;
  line.share = share_of(seam);
  const Vec3 off = seam.from - place;
  line.off_mm = std::abs(dot(off, cross(normal, line.along)));
  line.from_mm = dot(off, line.along);
  line.to_mm = line.from_mm + norm(path);
  line.at = seam.from - line.from_mm * line.along;
  for (HeldLine& known : lines) {
    const double way = dot(known.along, line.along);
    if (known.root != root || std::abs(way) < 0.999 || std::abs(known.off_mm - line.off_mm) > on_one_line_mm) continue;
    const double a = way > 0 ? line.from_mm : -line.to_mm;
    const double b = way > 0 ? line.to_mm : -line.from_mm;
    known.from_mm = std::min(known.from_mm, a);
    known.to_mm = std::max(known.to_mm, b);
    known.share = std::min(known.share, line.share);
    return;
  }
  lines.push_back(line);
}

}  // namespace

std::vector<HeldLine> held_lines(const Plan& plan, const Seams& seams, InstanceId plate, Vec3 place,
                                 const std::set<InstanceId>& but) {
  const Vec3 normal = plan.instances[plate].pose.z();
  std::vector<HeldLine> lines;
  for (const Seam& seam : seams.all) {
    const Joint& joint = plan.joints[seam.joint];
    if (!holds(seam) || seam.ring_diameter_mm > 0 || (joint.a != plate && joint.b != plate)) continue;
    const InstanceId other = other_of(joint, plate);
    if (!but.contains(other)) add(lines, seam, other, normal, place);
  }
  std::erase_if(lines, [](const HeldLine& line) { return line.from_mm >= 0 || line.to_mm <= 0; });
  std::stable_sort(lines.begin(), lines.end(),
                   [](const HeldLine& a, const HeldLine& b) { return a.off_mm < b.off_mm; });
  return lines;
}

bool is_welded_round(const Plan& plan, const Seams& seams, InstanceId flat, const std::set<InstanceId>& but) {
  const Vec2 size = std::get<Flat>(plan.parts[plan.instances[flat].part].form).profile.bounds().size();
  double welded = 0;
  for (const Seam& s : seams.all) {
    const Joint& j = plan.joints[s.joint];
    if (!holds(s) || s.ring_diameter_mm > 0 || (j.a != flat && j.b != flat)) continue;
    if (!but.contains(other_of(j, flat))) welded += weld_mm(s);
  }
  return welded >= all_round_share * 2 * (size.x + size.y);
}

}  // namespace fitup::loads
