// Printed guides for rows of screws in sawn members: pin the last hole, drill the next.
// Entry: add_row_guides.
#include "plan/row_guides.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <tuple>
#include <vector>

#include <fmt/format.h>

#include "fitup/tolerances.h"
#include "plan/clear_rows.h"
#include "plan/loose_hardware.h"
#include "plan/printed_part.h"
#include "plan/size_words.h"

namespace fitup::plan {

namespace {

constexpr double thickness_mm = 8;
constexpr double rim_mm = 12;            // beyond the holes' centres
constexpr double lip_width_mm = 6;       // beside the member
constexpr double longest_lip_mm = 5;     // down the member's edge
constexpr double bush_wall_mm = 1;       // of a drill bush round its drill
constexpr double longest_step_mm = 196;  // a printer's plate of 220 mm, less a rim at either end (common practice)
constexpr int first_number = 31;

struct Step {
  double step_mm = 0;
  double across_mm = 0;  // from the member's edge
  double drill_mm = 0;
  double lip_mm = 0;
  friend auto operator<=>(const Step&, const Step&) = default;
};

double to_micron(double mm) { return std::round(1000 * mm) / 1000; }

// The hole of a sawn member that a screw stands in.
const MemberHole* hole_of(const Draft& draft, InstanceId screw, InstanceId host) {
  const auto* member = std::get_if<Member>(&draft.part(host).form);
  if (member == nullptr || draft.part(host).source != Source::sawn) return nullptr;
  const Vec3 at = draft.instance(host).pose.local(draft.instance(screw).pose.origin());
  for (const MemberHole& hole : member->holes) {
    const double across = hole.leg == Leg::a ? at.x : at.y;
    if (std::abs(hole.along_mm - at.z) < tolerance::contact_mm &&
        std::abs(hole.across_mm - across) < tolerance::contact_mm)
      return &hole;
  }
  return nullptr;
}

struct Row {
  std::vector<MemberHole> holes;
  double thickness_mm = 0;  // of the member's leg
};

std::map<std::string, Row> rows_in_members(const Draft& draft) {
  std::map<std::string, Row> rows;
  for (const Fastener& fastener : draft.fasteners) {
    for (const InstanceId host : fastener.stack) {
      const MemberHole* hole = hole_of(draft, fastener.screw, host);
      if (hole == nullptr) continue;
      Row& row = rows[row_of(draft, fastener.screw)];
      row.holes.push_back(*hole);
      row.thickness_mm = std::get<Member>(draft.part(host).form).section.thickness_mm;
    }
  }
  return rows;
}

std::optional<Step> step_of(Row row) {
  auto& holes = row.holes;
  std::sort(holes.begin(), holes.end(), [](const auto& a, const auto& b) { return a.along_mm < b.along_mm; });
  if (holes.size() < 2) return std::nullopt;
  const double step = holes[1].along_mm - holes[0].along_mm;
  for (std::size_t i = 1; i < holes.size(); ++i) {
    const bool as_first = holes[i].leg == holes[0].leg &&
                          std::abs(holes[i].across_mm - holes[0].across_mm) < tolerance::contact_mm &&
                          holes[i].diameter_mm == holes[0].diameter_mm;
    const double here = holes[i].along_mm - holes[i - 1].along_mm;
    if (!as_first || std::abs(here - step) > tolerance::contact_mm) return std::nullopt;
  }
  return Step{to_micron(step), to_micron(holes[0].across_mm), holes[0].diameter_mm,
              std::min(longest_lip_mm, row.thickness_mm)};
}

// Lies upside down on the printer: the lip stands up.
void add_guide(Build& build, const Step& step, int number) {
  const auto& bush = build.spec.print.bush;
  const double hole = drawn_hole_mm(build, bush ? bush->value.mm() : step.drill_mm);
  const double length = step.step_mm + 2 * rim_mm;
  Profile plate{Loop::rectangle({0, -lip_width_mm}, {length, step.across_mm + rim_mm}), {}};
  for (const double x : {rim_mm, rim_mm + step.step_mm}) {
    plate.holes.push_back(Loop::circle({x, step.across_mm}, hole / 2));
  }
  auto prisms = printed_plate(build, plate, thickness_mm);
  prisms.push_back(
      {Profile{Loop::rectangle({0, -lip_width_mm}, {length, 0}), {}}, Pose{}.moved({0, 0, thickness_mm}), step.lip_mm});
  std::string size = fmt::format("2 holes for a {} mm drill, a step of {} mm along a row {} mm from the edge",
                                 plain(step.drill_mm), plain(step.step_mm), plain(step.across_mm));
  if (bush) size += fmt::format(", in bushes of {} mm outside", plain(bush->value.mm()));
  build.draft.add_loose(printed({number, "row guide", Role::row_guide, size}, std::move(prisms)), 1);
  if (bush) list_drill_bushes(build, bush->value.mm(), step.drill_mm, 2);
}

bool can_be_printed(const Build& build, const Step& step) {
  const auto& bush = build.spec.print.bush;
  const double hole = bush ? bush->value.mm() : step.drill_mm;
  const bool bush_holds = !bush || bush->value.mm() >= step.drill_mm + 2 * bush_wall_mm - tolerance::contact_mm;
  return bush_holds && step.step_mm <= longest_step_mm && step.step_mm >= hole + 2 && step.across_mm >= hole / 2;
}

}  // namespace

void add_row_guides(Build& build) {
  std::vector<Step> steps;
  for (const auto& [name, row] : rows_in_members(build.draft)) {
    const auto step = step_of(row);
    if (step && can_be_printed(build, *step)) steps.push_back(*step);
  }
  std::sort(steps.begin(), steps.end());
  steps.erase(std::unique(steps.begin(), steps.end()), steps.end());
  int number = first_number;
  for (const Step& step : steps) add_guide(build, step, number++);
}

}  // namespace fitup::plan
