#pragma once
// What stands above a drawing's strip: the part, its material, count, mass, tolerances, and the symbol of projection.

#include "bench/type.h"

namespace fitup::bench {

struct TitleBlock {
  std::string name;                                        // "ANG01 front ring member"
  std::vector<std::pair<std::string, std::string>> facts;  // "material", "S235JR"
  bool projected = true;                                   // carries the symbol
  bool first_angle = true;
};

[[nodiscard]] double block_height_mm(const TitleBlock& block, const Type& type, const Page& page);
/// Its lower edge at `bottom_mm`.
void add_block(Page& page, const TitleBlock& block, const Type& type, double bottom_mm);

/// The symbol of ISO 5456-2 in a box: a cone's frustum and its smaller end, which in first angle stands at the right,
/// in third angle at the left.
void add_projection_symbol(Page& page, const Box2& box, bool first_angle);

}  // namespace fitup::bench
