#pragma once
// The entities of a DXF file, before they are understood.

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "fitup/geometry.h"
#include "inspect/dxf_tags.h"

namespace fitup::inspect {

/// An entity: its type and its pairs, the one of its type left out. A POLYLINE is followed by its VERTEX entities.
struct DxfEntity {
  std::string_view type;
  std::span<const DxfTag> tags;

  /// The first value of that code; empty where there is none.
  [[nodiscard]] std::string_view text(int code) const;
  [[nodiscard]] std::optional<double> real(int code) const { return real_of(text(code)); }
  [[nodiscard]] double real(int code, double otherwise) const;
  [[nodiscard]] int whole(int code, int otherwise) const;
  /// Codes 10, 20 and so on; none where x or y cannot be read.
  [[nodiscard]] std::optional<Vec3> point(int code) const;
};

struct DxfBlock {
  Vec2 base;
  std::vector<DxfEntity> entities;
};

struct DxfLayer {
  std::string_view name;
  bool off = false;
  std::string_view line_type;
};

struct DxfContent {
  std::map<std::string_view, DxfTag> header;  // a variable's first pair
  std::vector<DxfLayer> layers;
  std::map<std::string, DxfBlock> blocks;  // by upper-case name
  std::vector<DxfEntity> entities;
};

/// Sorts the pairs into sections; what stands outside them is left out.
[[nodiscard]] DxfContent content_of(std::span<const DxfTag> tags);

[[nodiscard]] std::string upper(std::string_view text);

}  // namespace fitup::inspect
