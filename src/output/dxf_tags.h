#pragma once
// Group codes and values of a DXF text, and the handles that it has given out.

#include <fmt/format.h>

#include <string>
#include <string_view>
#include <vector>

#include "fitup/geometry.h"
#include "output/dxf.h"
#include "output/text.h"

namespace fitup::output {

class DxfTags {
 public:
  explicit DxfTags(int decimals = 6) : decimals_(decimals) {}
  DxfTags& tag(int code, std::string_view value) {
    text_ += fmt::format("{:>3}\n{}\n", code, value);
    return *this;
  }
  DxfTags& tag(int code, int value) { return tag(code, std::to_string(value)); }
  DxfTags& real(int code, double value) { return real(code, value, decimals_); }
  DxfTags& real(int code, double value, int decimals) { return tag(code, fixed(value, decimals)); }
  DxfTags& point(int code, Vec2 at) { return real(code, at.x).real(code + 10, at.y); }
  DxfTags& point3(int code, Vec2 at, double z = 0) { return point(code, at).real(code + 20, z); }
  DxfTags& append(std::string_view text) {
    text_ += text;
    return *this;
  }
  [[nodiscard]] const std::string& text() const { return text_; }

 private:
  std::string text_;
  int decimals_;
};

/// Decimals of a coordinate in a unit of the file: 1e-6 mm or finer.
[[nodiscard]] inline int decimals_in(UnitSystem units) { return units == UnitSystem::in_lb ? 8 : 6; }

/// Hexadecimal, counted from 1.
class DxfHandles {
 public:
  [[nodiscard]] std::string next() { return fmt::format("{:X}", next_++); }
  [[nodiscard]] std::string seed() const { return fmt::format("{:X}", next_); }

 private:
  int next_ = 1;
};

/// The handles that the parts of a document point to.
struct DxfAnchors {
  std::string model_record;
  std::string paper_record;
  std::string model_layout;
  std::string paper_layout;
};

/// Everything of the document that does not depend on the drawing's entities.
[[nodiscard]] std::string dxf_header(const Box2& bounds, UnitSystem units, const std::string& handle_seed);
[[nodiscard]] std::string dxf_tables(DxfHandles& handles, const DxfAnchors& anchors, const DxfDrawing& drawing);
[[nodiscard]] std::string dxf_blocks(DxfHandles& handles, const DxfAnchors& anchors);
/// The whole file of release R12, the drawing already in the file's units.
[[nodiscard]] std::string dxf_r12(const DxfDrawing& drawing);
/// Layer 0 and CUT are always there; of the others those that something lies on.
[[nodiscard]] std::vector<std::string_view> dxf_layers(const DxfDrawing& drawing);
[[nodiscard]] std::string dxf_objects(DxfHandles& handles, const DxfAnchors& anchors, const Box2& bounds);

}  // namespace fitup::output
