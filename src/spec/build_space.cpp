// The space that the whole goes into, and what is in the way there.
// Entry: read_space.
#include "spec/build_space.h"

#include <algorithm>

#include "spec/from_cell.h"

namespace fitup::spec {

std::optional<SpaceSpec> read_space(const Cell* cell) {
  if (cell == nullptr) return std::nullopt;
  SpaceSpec space;
  space.place = cell->place;
  space.size = lengths<3>((*cell)["size"]);
  const auto& within = (*cell)["size"].within;
  std::copy_n(within.begin(), std::min(within.size(), space.size_within.size()), space.size_within.begin());
  space.play = length((*cell)["play"]);
  if (const Cell* at = cell->find("at")) {
    space.at = lengths<3>(*at);
    space.at_from = counted_from(*at);
  }
  for (const Cell& entry : (*cell)["in_the_way"].entries) {
    space.in_the_way.push_back({entry.place, lengths<3>(entry["at"]), counted_from(entry["at"]),
                                lengths<3>(entry["size"]), text(entry["why"])});
  }
  return space;
}

}  // namespace fitup::spec
