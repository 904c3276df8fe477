#pragma once
// Facing edges of one narrow place, of which a curve drawn as short lines has many, as one. Private to geometry.

#include <array>
#include <functional>
#include <map>
#include <tuple>
#include <utility>
#include <vector>

#include "geometry/narrow.h"

namespace fitup::geometry {

class NarrowGroups {
 public:
  using Edges = std::pair<std::size_t, std::size_t>;

  /// Between two edges. Beyond some ten thousand of one kind and pair of loops only the narrowest is kept.
  void add(const NarrowPlace& place, Edges between);
  /// Of a whole cut-out: it is the narrowest of its own, or nothing new.
  void add_whole(const NarrowPlace& place);

  /// Ascending by width, then along X and Y, and whether there are more. `beside`: an edge with the ones before and after
  /// it.
  [[nodiscard]] NarrowSearch told_apart(
      const std::function<std::array<std::size_t, 3>(std::size_t)>& beside) const;

 private:
  struct Facing {
    NarrowPlace place;
    Edges between;
  };
  struct Group {
    std::vector<Facing> all;
    NarrowPlace narrowest;
  };
  [[nodiscard]] static std::vector<NarrowPlace> of_group(
      const Group& group, const std::function<std::array<std::size_t, 3>(std::size_t)>& beside);

  std::map<std::tuple<NarrowKind, std::size_t, std::size_t>, Group> groups_;
};

}  // namespace fitup::geometry
