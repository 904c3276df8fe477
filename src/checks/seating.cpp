// The worst strip of each rail.
// Entry: check_seating.
#include "checks/seating.h"

#include <fmt/format.h>

#include <algorithm>

#include "checks/order.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr double rail_off_mm = 1;    // a rail that is set to a mark and tacked (common practice)
constexpr double least_share = 0.5;  // of a strip that must stand (common practice)
constexpr double marginal_share = 0.75;

std::string label(const Plan& plan, InstanceId id) {
  const Instance& instance = plan.instances[id];
  return plan.parts[instance.part].mark + " " + instance.name;
}

Finding finding_of(const Plan& plan, const StripSeat& seat) {
  const double strip = seat.strip_high_mm - seat.strip_low_mm;
  const double off = rail_off_mm + seat.item_shift_mm;
  const double left = width_left_mm(seat, off);
  Finding f;
  f.check = "seating";
  f.value = left;
  f.limit = least_share * strip;
  f.unit = "mm";
  f.source = "common practice: half of a foot strip stands, whatever is off its place";
  f.verdict = left < *f.limit - tolerance::contact_mm                 ? Verdict::fail
              : left < marginal_share * strip - tolerance::contact_mm ? Verdict::marginal
                                                                      : Verdict::pass;
  f.parts = {label(plan, seat.item), label(plan, seat.rail)};
  f.cause = plan.instances[seat.rail].key;
  f.at = seat.at;
  f.key = seat.key;
  f.place = seat.place;
  f.message = fmt::format(
      "{} mm of the {} mm wide foot strip of {} stay on {} when the rail is off its place by {} mm and the item by {} "
      "mm",
      length_text(left), length_text(strip), f.parts[0], f.parts[1], length_text(rail_off_mm),
      length_text(seat.item_shift_mm));
  return f;
}

}  // namespace

double width_left_mm(const StripSeat& seat, double off_mm) {
  const auto common = [&](double off) {
    return std::min(seat.strip_high_mm + off, seat.rail_high_mm) - std::max(seat.strip_low_mm + off, seat.rail_low_mm);
  };
  return std::max(0.0, std::min(common(-off_mm), common(off_mm)));
}

// The least width first, so that it is the one that is named.
std::vector<Finding> check_seating(const Plan& plan) {
  std::vector<Finding> findings;
  for (const StripSeat& seat : plan.seats) findings.push_back(finding_of(plan, seat));
  std::stable_sort(findings.begin(), findings.end(),
                   [](const Finding& a, const Finding& b) { return *a.value < *b.value; });
  return findings;
}

}  // namespace fitup::checks
