#pragma once
// Two jobs side by side: a function from two summaries to their differences.
//
// Laws: compared(x, x) says that nothing differs; compared(b, a) is compared(a, b) with the sides exchanged: what is
// added is gone, and each change is read backwards.

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "fitup/job.h"
#include "fitup/prices.h"
#include "output/job_summary.h"

namespace fitup::compare {

/// One of the two: a spec as it is planned, or a job folder as it was written.
struct Side {
  std::string path;  // as it was given
  std::string name;
  std::string revision;
  std::string spec_hash;
  std::string version;                   // of the program that planned it
  std::string finish;                    // in words; empty: none
  std::string hand{};                    // of a spec as spec/hand.h says it; a folder keeps none
  UnitSystem units = UnitSystem::mm_kg;  // of its lists
  std::optional<Prices> prices;          // of a spec; a folder keeps none
  output::JobSizes sizes;
  output::JobSummary parts;
};

/// changed: one part stands for the other, of another size, shape or material. other_hand: each is the other's mirror
/// image. count: the same part, in another number. elsewhere: the same in every way but where it stands.
enum class ChangeKind { changed, other_hand, count, gone, added, elsewhere };
[[nodiscard]] std::string_view to_text(ChangeKind kind);  // "changed", "other hand", "count", ...

/// A kind of part that is not the same on both sides. Of gone only `a` is there, of added only `b`.
struct Change {
  ChangeKind kind = ChangeKind::changed;
  std::optional<output::PartLine> a;
  std::optional<output::PartLine> b;
};

enum class Measure { count, length, mass, money };

/// What a side comes to in one respect.
struct Total {
  const char* key = "";   // for programs: "cut_mm"
  const char* what = "";  // for people: "cut length"
  Measure measure = Measure::count;
  double a = 0;
  double b = 0;
  [[nodiscard]] bool differs() const;
};

struct Comparison {
  std::vector<Change> changes;  // by who makes the part, then by mark
  std::vector<Total> totals;
  bool sizes_differ = false;  // of a frame, or of the whole with everything on
  bool finish_differs = false;
  [[nodiscard]] bool nothing_differs() const;
  /// Some parts are the other hand, and nothing differs but that and where parts stand: read from what changed, so that
  /// it is told of folders too, which keep no hand. Whether a part that did not change has a hand is not asked.
  [[nodiscard]] bool opposite_hands() const;
};

/// Parts are matched by their role: first those of one shape, however they are marked, called or turned; then mirror
/// images; then, of what is left, the most alike. Name, revision and title of the jobs take no part in it.
[[nodiscard]] Comparison compared(const Side& a, const Side& b);

/// In what respects two parts differ: "2 x 325 x 486 -> 3 x 325 x 486 mm", "3 -> 4 pieces".
[[nodiscard]] std::vector<std::string> differences(const Change& change, UnitSystem units);

/// For people: aligned, no line wider than the page but for a name that is. `quiet`: nothing where nothing differs.
[[nodiscard]] std::string comparison_text(const Comparison& comparison, const Side& a, const Side& b, UnitSystem units,
                                          bool quiet);

/// For programs: one JSON object, in mm and kg.
[[nodiscard]] std::string comparison_json(const Comparison& comparison, const Side& a, const Side& b);

}  // namespace fitup::compare
