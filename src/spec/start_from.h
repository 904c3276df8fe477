#pragma once
// A spec's text and the files that it starts from to one value tree.

#include <map>
#include <optional>

#include "fitup/spec.h"
#include "spec/value.h"

namespace fitup::spec {

/// Files in a chain of `start_from`, the spec itself included.
inline constexpr std::size_t longest_chain = 8;

/// An odd number of times in all.
struct Reflected {
  bool left_right = false;
  bool front_back = false;
};

struct MergedText {
  std::optional<Value> root;       // absent after an error
  std::map<int, Place> reflected;  // texts that are read in the opposite hand, and where that is asked for
  Reflected hand{};                // of the first file of the chain in the spec
  bool file_trouble = false;
};

/// `sources[0]` is the spec; the files it starts from are added behind what is there. Each bare number of the tree
/// knows the units of its file. `hand`: opposite_hand from the command line.
[[nodiscard]] MergedText read_merged(SourceTexts& sources, const SpecFiles& files, std::optional<Member> hand,
                                     Diagnostics& diagnostics);

/// What a bare number means in a file: what it says, or `otherwise`.
[[nodiscard]] UnitSystem units_of(const Value& root, UnitSystem otherwise);

/// Whose sizes stand in for what is not stated: the shop's that the whole spec names, or that of its units.
[[nodiscard]] UnitSystem shop_of(const Value& root);

}  // namespace fitup::spec
