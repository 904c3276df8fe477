#pragma once
// Writes DXF files as other programs do, and as they should not.

#include <string>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::test {

/// Builds up the sections of one file; `text()` puts them together.
class DxfMaker {
 public:
  DxfMaker() = default;
  explicit DxfMaker(std::string release) : release_(std::move(release)) {}

  DxfMaker& units(int code) { return header("$INSUNITS", 70, std::to_string(code)); }
  DxfMaker& header(const std::string& name, int code, const std::string& value);
  DxfMaker& layer(const std::string& name, int colour = 7, int flags = 0, const std::string& line_type = "CONTINUOUS");

  /// What follows stands in this block, until end_block.
  DxfMaker& begin_block(const std::string& name, Vec2 base = {});
  DxfMaker& end_block();
  DxfMaker& on(const std::string& layer);

  DxfMaker& line(Vec2 from, Vec2 to);
  DxfMaker& line3(Vec3 from, Vec3 to);
  DxfMaker& arc(Vec2 centre, double radius, double from_deg, double to_deg);
  DxfMaker& circle(Vec2 centre, double radius);
  DxfMaker& polyline(const std::vector<Vertex>& corners, bool closed = true);
  DxfMaker& old_polyline(const std::vector<Vertex>& corners, bool closed = true);
  DxfMaker& rectangle(Vec2 low, Vec2 high);
  DxfMaker& text(Vec2 at, const std::string& words);
  DxfMaker& insert(const std::string& block, Vec2 at, Vec2 size = {1, 1}, double turn_deg = 0);
  /// A code and a value, for what has no function of its own: {0, "POINT"}, {10, "3"}.
  DxfMaker& pair(int code, const std::string& value);
  DxfMaker& pair(int code, double value);

  [[nodiscard]] std::string text() const;

 private:
  DxfMaker& entity(const std::string& type);
  DxfMaker& point(int code, Vec2 p);
  std::string& body() { return in_block_ ? blocks_ : entities_; }

  std::string release_ = "AC1015";
  std::string layer_ = "0";
  std::string header_;
  std::string layers_;
  std::string blocks_;
  std::string entities_;
  bool in_block_ = false;
};

}  // namespace fitup::test
