#pragma once
// Weight: what each part, each box and the whole weigh, and where they balance. A function from Plan to value; no
// solids. Kilograms; places in the Plan's coordinates.

#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "fitup/plan.h"
#include "fitup/seams.h"

namespace fitup {

/// Where a mass comes from: from drawn sizes and the material's density, from the spec or a table, or from an
/// allowance.
enum class MassSource { computed, given, estimated };
inline constexpr std::array<MassSource, 3> all_mass_sources{MassSource::computed, MassSource::given,
                                                            MassSource::estimated};
[[nodiscard]] std::string_view to_text(MassSource source);

/// bare_frame: rings, uprights and what stiffens them, landings and lift bosses. empty: with all else but the items
/// and what comes with them. loaded: with the items. as_lifted: with the lifting eyes, drawn or not.
enum class LoadState { bare_frame, empty, loaded, as_lifted };
inline constexpr std::array<LoadState, 4> all_load_states{LoadState::bare_frame, LoadState::empty, LoadState::loaded,
                                                          LoadState::as_lifted};
[[nodiscard]] std::string_view to_text(LoadState state);  // "bare frame", "empty", "loaded", "as lifted"

struct MassAt {
  double kg = 0;
  double within_kg = 0;  // how far off, either way
  Vec3 centre;           // of mass
};

/// All pieces of one part in one box, or one allowance.
struct WeightRow {
  std::string box;
  std::string mark;  // empty for an allowance
  std::string name;
  std::size_t count = 1;
  MassAt all;
  MassSource source = MassSource::computed;
  LoadState from = LoadState::empty;  // the first state that it belongs to; the later ones have it too
  std::string note;                   // what the figure rests on
};

struct WeightTotal {
  std::string box;  // empty: the whole
  LoadState state = LoadState::loaded;
  MassAt mass;
};

/// Rows by box, state and mark; a total for each box (where there are several) and the whole, in each state. What the
/// whole weighs is the sum of the rows. Errors of one source are taken to lie the same way, those of two sources to be
/// independent: within = sqrt(sum over sources of (sum of within)^2).
struct Weights {
  std::vector<WeightRow> rows;
  std::vector<WeightTotal> totals;
  /// Of the whole.
  [[nodiscard]] const MassAt& whole(LoadState state) const;
};
[[nodiscard]] Weights weigh(const Plan& plan, const Seams& seams);

/// Centre of volume in the part's own frame, from its data. Of an end cut that is no prism: between what contains it
/// and what it contains.
[[nodiscard]] Vec3 centre_of(const Part& part);

/// The box that an instance belongs to, by its key, else its group: index into Plan::frames.
[[nodiscard]] std::size_t frame_of(const Plan& plan, const Instance& instance);

}  // namespace fitup
