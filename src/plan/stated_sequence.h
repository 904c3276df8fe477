#pragma once
// The sequence that a spec states for a box: what it names comes to its place only after what is named before it.

#include <string>
#include <vector>

#include "fitup/plan.h"
#include "plan/boxes.h"

namespace fitup::plan {

/// The names of box.NAME.sequence in the finished box: where the spec was turned to the opposite hand, items count from
/// the other end and faces are exchanged. Empty where none is stated.
[[nodiscard]] std::vector<std::string> stated_sequence(const BoxLayout& box);

/// `derived` as the frames' `sequence` asks for it: each step as early as it was, but after what is named before it,
/// after the item that it stands on and, of screws and nuts, after all that they hold. Names that fit nothing are
/// passed over; where a sequence cannot be followed, `derived` comes back as it was. What moves along with a box, and
/// what each waits for, is still to be found.
[[nodiscard]] std::vector<Step> in_stated_order(const Plan& plan, const std::vector<Step>& derived);

/// Names that nothing comes to its place by, or that stand twice, and what cannot come before what it needs.
void check_sequences(const Spec& spec, const Plan& plan, Diagnostics& diagnostics);

}  // namespace fitup::plan
