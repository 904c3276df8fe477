#pragma once
// What stands in the way of something that comes to its place, all else standing where it belongs.

#include <optional>
#include <string>
#include <vector>

#include "checks/scene.h"
#include "checks/travel.h"

namespace fitup::checks {

/// A mover on its way meets a thing that stands there.
struct Block {
  Thing mover = 0;
  Thing by = 0;
  double before_mm = 0;  // how far before the mover's place
  bool sure = true;      // else no rule decides
};

/// Which things stand there at a moment; index: Thing.
using Standing = std::vector<bool>;

/// A straight way; or, where something low stands in it: above it by `lift_mm`, down `short_mm` before the place, and
/// on from there.
struct Passage {
  Vec3 way;
  double lift_mm = 0;
  double short_mm = 0;
};

class Ways {
 public:
  explicit Ways(const Scene& scene);

  /// With the beads between them.
  [[nodiscard]] std::vector<Thing> with_beads(const std::vector<InstanceId>& instances) const;
  /// With the spaces kept clear for items, and the beads between what stands there.
  void put(Standing& standing, const std::vector<InstanceId>& instances, bool there) const;

  /// All that the movers meet, each with what it meets. Pairs that overlap in their places are left out: that is
  /// another finding.
  [[nodiscard]] std::vector<Block> all_blocks(const std::vector<Thing>& movers, const Standing& standing, Vec3 way,
                                              Vec3 shift = {}, double from_mm = from_afar_mm) const;
  /// Of those the first that is met, a sure one before others.
  [[nodiscard]] std::optional<Block> first_block(const std::vector<Thing>& movers, const Standing& standing,
                                                 Vec3 way) const;
  /// Over what is in the way, down behind it and on to the place; none where that is not free.
  [[nodiscard]] std::optional<Passage> passage_over(const std::vector<Thing>& movers, const Standing& standing,
                                                    Vec3 way) const;
  /// All that the movers meet on a passage.
  [[nodiscard]] std::vector<Block> all_blocks(const std::vector<Thing>& movers, const Standing& standing,
                                              const Passage& passage) const;

  struct Across {
    double by_mm = 0;
    Vec3 direction;
  };
  /// How far the mover must come off its way, at right angles, to pass: the least of four directions, to 1e-4 mm.
  [[nodiscard]] Across across(const Block& block, Vec3 way) const;
  [[nodiscard]] Box3 box_of(const std::vector<Thing>& movers) const;

 private:
  [[nodiscard]] bool overlap_in_place(Thing a, Thing b) const;
  // `through_windows`: what is too high to go over may have a window whose lower edge is not.
  [[nodiscard]] std::optional<Passage> passage_over(const std::vector<Thing>& movers, const Standing& standing,
                                                    Vec3 way, bool through_windows) const;
  // How far above that the mover is clear of what it meets; infinite where it is not by `most_mm`.
  [[nodiscard]] double lift_mm(const Block& block, Vec3 way, Vec3 shift, double most_mm) const;

  const Scene& scene_;
  std::vector<std::vector<Thing>> spaces_;  // index: InstanceId; of items
  std::vector<std::vector<Thing>> beads_;   // index: InstanceId; at which it has a part
};

/// The step by which an instance stands in its place: a joined box's frame is made elsewhere and comes with its box.
[[nodiscard]] std::vector<std::size_t> standing_from(const Plan& plan);

/// "+Y"
[[nodiscard]] std::string way_text(Vec3 way);

}  // namespace fitup::checks
