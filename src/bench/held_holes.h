#pragma once
// Holes that hold the screws of what goes on: which are marked through and drilled once the frame is welded, which are
// cut already, and the rivet nuts that are set after that.

#include <cstddef>
#include <set>
#include <string>
#include <vector>

#include "bench/flow.h"
#include "fitup/plan.h"
#include "output/units.h"

namespace fitup::bench {

/// Like holes of one row of screws whose places the findings take as transferred from the part that goes on.
struct HeldHoles {
  std::string row;             // "screws of the front cover"
  bool cut = false;            // with the flat part that they are in; else marked through and drilled
  double diameter_mm = 0;      // of the hole that is drilled or cut
  std::string purpose;         // as the plan has it: "tap M4", "rivet nut M4", "weld nut M4", "clear M4"
  std::vector<InstanceId> in;  // ascending
  std::size_t count = 0;
};

/// In the order of the plan's patterns. Bolts of feet and lugs go into what the box stands on and are none of them.
[[nodiscard]] std::vector<HeldHoles> held_holes(const Plan& plan);

/// Weld nuts that come on once their holes are marked through and drilled.
[[nodiscard]] std::set<InstanceId> nuts_after_drilling(const Plan& plan);

/// What is to be drilled: "[  ]", the row, how many, the drill, and what is done in each then.
[[nodiscard]] Table drilled_holes_table(const Plan& plan, const std::vector<HeldHoles>& all,
                                        const output::PaperUnits& units);

/// "screws of the front cover (28, their weld nuts are on)": those that are cut already; empty where none is.
[[nodiscard]] std::string cut_holes_words(const std::vector<HeldHoles>& all);

/// The rows whose holes are cut in what a step adds, each once; `added` ascends.
[[nodiscard]] std::string rows_cut_in(const std::vector<HeldHoles>& all, const std::vector<InstanceId>& added);

/// Rivet nuts of one size for one row, of those that come with the frame: set once it is welded, and coated if it is.
struct RivetNuts {
  std::string size;  // "M4"
  std::string row;   // the group of what they hold: "front cover"
  std::size_t count = 0;
};

/// Size by size.
[[nodiscard]] std::vector<RivetNuts> rivet_nuts(const Plan& plan);

/// "40 M4 and 28 M5 rivet nuts, each with its tool: M4 of the front cover 20, back cover 20; M5 of the left cover 14";
/// empty where there are none.
[[nodiscard]] std::string rivet_nut_words(const std::vector<RivetNuts>& all);

}  // namespace fitup::bench
