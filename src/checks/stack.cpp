// Each row against the space that it has, and against the pitch of its holes.
// Entry: check_stack.
#include "checks/stack.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "checks/order.h"
#include "fitup/tolerances.h"
#include "plan/as_built.h"

namespace fitup::checks {

namespace {

// What a size that says nothing was measured to (common practice for a rule or a tape, as for the measured frame).
constexpr double unsaid_mm = 0.5;
constexpr const char* stack_source = "common practice: worst case, and root of the sum of squares";

std::string label(const Plan& plan, InstanceId id) {
  const Instance& instance = plan.instances[id];
  return plan.parts[instance.part].mark + " " + instance.name;
}

bool is_thing(const StackPiece& piece) { return piece.size_mm > 0; }

Vec3 middle_of(const Plan& plan, const RowStack& stack) {
  Box3 span;
  for (const StackPiece& piece : stack.pieces) {
    const Instance& instance = plan.instances[piece.thing];
    const auto* form = std::get_if<Solidform>(&plan.parts[instance.part].form);
    if (form == nullptr || form->prisms.empty()) continue;
    const Box3 box = form->prisms.front().bounds();
    span.add(instance.pose.point(box.low));
    span.add(instance.pose.point(box.high));
  }
  return span.middle();
}

Verdict verdict_of(const Growth& growth, double room_mm) {
  if (growth.statistical_mm > room_mm + tolerance::contact_mm) return Verdict::fail;
  return growth.worst_mm > room_mm + tolerance::contact_mm ? Verdict::marginal : Verdict::pass;
}

Finding finding_of(const Plan& plan, const RowStack& stack, const Growth& growth, double room_mm) {
  Finding f;
  f.check = "stack";
  f.verdict = verdict_of(growth, room_mm);
  f.value = room_mm - growth.statistical_mm;  // what is left
  f.limit = 0;
  f.unit = "mm";
  f.source = stack_source;
  for (const StackPiece& piece : stack.pieces) {
    if (is_thing(piece)) f.parts.push_back(label(plan, piece.thing));
  }
  f.at = middle_of(plan, stack);
  f.key = stack.key;
  f.place = stack.place;
  return f;
}

double swelling_of(const RowStack& stack) {
  double sum = 0;
  for (const StackPiece& piece : stack.pieces) sum += piece.swelling_mm;
  return sum;
}

std::string swelling_in_words(double mm) {
  return mm > 0 ? fmt::format("{} mm of swelling and ", length_text(mm)) : "";
}

bool is_measured(const Plan& plan) {
  return std::any_of(plan.fits.begin(), plan.fits.end(), [](const Fit& fit) { return fit.check == "as-built"; });
}

// The frame's own tolerance comes to it: it is welded.
Finding in_space(const Plan& built, const RowStack& stack) {
  std::vector<double> within;
  std::size_t unsaid = 0;
  std::size_t things = 0;
  for (const StackPiece& piece : stack.pieces) {
    within.push_back(piece.within_mm.value_or(unsaid_mm));
    things += is_thing(piece) ? 1 : 0;
    unsaid += piece.within_mm ? 0 : 1;
  }
  const double frame = plan::welded_length_permits_mm(stack.space_mm);
  within.push_back(frame);
  const Growth growth = growth_of(within, swelling_of(stack));
  Finding f = finding_of(built, stack, growth, stack.free_mm);
  f.message = fmt::format(
      "{}: {} in {} mm leave {} mm; they may be longer by {} mm at worst and {} mm "
      "statistically, {}the welded frame's {} mm (ISO 13920-B) included",
      stack.name, things == 1 ? "1 thing" : fmt::format("{} things", things), length_text(stack.space_mm),
      length_text(stack.free_mm),
      length_text(growth.worst_mm), length_text(growth.statistical_mm), swelling_in_words(swelling_of(stack)),
      length_text(frame));
  if (things < stack.pieces.size()) f.message += ", and what the clearances were measured within";
  if (is_measured(built)) f.message += "; as drawn: what is left in the frame as it was measured, as-built says";
  if (unsaid > 0) {
    f.message += fmt::format("; {} of them do not say what they were measured within: {} mm is taken (common practice)",
                             unsaid, length_text(unsaid_mm));
  }
  return f;
}

/// From the middle of one thing in holes to that of another: half of these two, all of what is between, less the gaps,
/// which take it up first.
struct Pitch {
  Growth growth;
  double play_mm = 0;
  [[nodiscard]] double left_mm() const { return play_mm - growth.statistical_mm; }
  [[nodiscard]] double left_at_worst_mm() const { return play_mm - growth.worst_mm; }
};

/// None where no size in between says a tolerance: a size that says nothing is taken at its word.
std::optional<Pitch> pitch_between(const RowStack& stack, std::size_t first, std::size_t last) {
  std::vector<double> within;
  double swelling = 0;
  double empty = 0;
  bool said = false;
  for (std::size_t i = first; i <= last; ++i) {
    const StackPiece& piece = stack.pieces[i];
    const double share = i == first || i == last ? 0.5 : 1;
    within.push_back(share * piece.within_mm.value_or(0));
    swelling += share * piece.swelling_mm;
    empty += i > first ? piece.empty_mm : 0;
    said = said || piece.within_mm || piece.swelling_mm > 0;
  }
  if (!said) return std::nullopt;
  Growth growth = growth_of(within, swelling);
  growth.worst_mm = std::max(0.0, growth.worst_mm - empty);
  growth.statistical_mm = std::max(0.0, growth.statistical_mm - empty);
  return Pitch{growth, std::min(stack.pieces[first].hole_play_mm, stack.pieces[last].hole_play_mm)};
}

/// Of all pairs the one that is left least; of those alike the one that spans most.
std::optional<Pitch> tightest_pitch(const RowStack& stack) {
  std::optional<Pitch> tightest;
  for (std::size_t first = 0; first < stack.pieces.size(); ++first) {
    for (std::size_t last = stack.pieces.size(); last-- > first + 1;) {
      if (stack.pieces[first].hole_play_mm <= 0 || stack.pieces[last].hole_play_mm <= 0) continue;
      const auto pitch = pitch_between(stack, first, last);
      if (!pitch) continue;
      const auto rank = [](const Pitch& p) { return std::pair(p.left_mm(), p.left_at_worst_mm()); };
      if (!tightest || rank(*pitch) < rank(*tightest)) tightest = pitch;
    }
  }
  return tightest;
}

Finding on_holes(const Plan& plan, const RowStack& stack, const Pitch& pitch) {
  Finding f = finding_of(plan, stack, pitch.growth, pitch.play_mm);
  for (const StackPiece& piece : stack.pieces) {
    if (piece.within_mm || piece.swelling_mm > 0) f.key = piece.key;
  }
  f.message = fmt::format(
      "{}: from the first to the last the row may be longer by {} mm at worst and {} mm statistically than the holes "
      "in "
      "the rod plates are apart, and rods have {} mm of play in these",
      stack.name, length_text(pitch.growth.worst_mm), length_text(pitch.growth.statistical_mm),
      length_text(pitch.play_mm));
  return f;
}

}  // namespace

Growth growth_of(const std::vector<double>& within_mm, double swelling_mm) {
  double sum = 0;
  double squares = 0;
  for (const double w : within_mm) {
    sum += w;
    squares += w * w;
  }
  return {sum + swelling_mm, std::sqrt(squares) + swelling_mm};
}

std::vector<Finding> check_stack(const Plan& plan) {
  std::vector<Finding> findings;
  for (const RowStack& stack : plan.stacks) {
    findings.push_back(in_space(plan, stack));
    if (const auto pitch = tightest_pitch(stack)) findings.push_back(on_holes(plan, stack, *pitch));
  }
  return findings;
}

}  // namespace fitup::checks
