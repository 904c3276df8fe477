// Writes DXF files pair by pair.
// Entry: DxfMaker.
#include "inspect/dxf_maker.h"

#include <fmt/format.h>

namespace fitup::test {

namespace {

std::string pair_text(int code, const std::string& value) { return fmt::format("{:>3}\n{}\n", code, value); }

std::string section(const std::string& name, const std::string& body) {
  return pair_text(0, "SECTION") + pair_text(2, name) + body + pair_text(0, "ENDSEC");
}

}  // namespace

DxfMaker& DxfMaker::header(const std::string& name, int code, const std::string& value) {
  header_ += pair_text(9, name) + pair_text(code, value);
  return *this;
}

DxfMaker& DxfMaker::layer(const std::string& name, int colour, int flags, const std::string& line_type) {
  layers_ += pair_text(0, "LAYER") + pair_text(2, name) + pair_text(70, std::to_string(flags)) +
             pair_text(62, std::to_string(colour)) + pair_text(6, line_type);
  return *this;
}

DxfMaker& DxfMaker::begin_block(const std::string& name, Vec2 base) {
  in_block_ = true;
  return entity("BLOCK").pair(2, name).pair(70, "0").point(10, base);
}

DxfMaker& DxfMaker::end_block() {
  entity("ENDBLK");
  in_block_ = false;
  return *this;
}

DxfMaker& DxfMaker::on(const std::string& layer) {
  layer_ = layer;
  return *this;
}

DxfMaker& DxfMaker::entity(const std::string& type) { return pair(0, type).pair(8, layer_); }

DxfMaker& DxfMaker::pair(int code, const std::string& value) {
  body() += pair_text(code, value);
  return *this;
}

DxfMaker& DxfMaker::pair(int code, double value) { return pair(code, fmt::format("{}", value)); }

DxfMaker& DxfMaker::point(int code, Vec2 p) { return pair(code, p.x).pair(code + 10, p.y); }

DxfMaker& DxfMaker::line(Vec2 from, Vec2 to) { return entity("LINE").point(10, from).point(11, to); }

DxfMaker& DxfMaker::line3(Vec3 from, Vec3 to) {
  return entity("LINE").point(10, {from.x, from.y}).pair(30, from.z).point(11, {to.x, to.y}).pair(31, to.z);
}

DxfMaker& DxfMaker::arc(Vec2 centre, double radius, double from_deg, double to_deg) {
  return entity("ARC").point(10, centre).pair(40, radius).pair(50, from_deg).pair(51, to_deg);
}

DxfMaker& DxfMaker::circle(Vec2 centre, double radius) { return entity("CIRCLE").point(10, centre).pair(40, radius); }

DxfMaker& DxfMaker::polyline(const std::vector<Vertex>& corners, bool closed) {
  entity("LWPOLYLINE").pair(90, std::to_string(corners.size())).pair(70, closed ? "1" : "0");
  for (const Vertex& v : corners) {
    point(10, v.at);
    if (v.bulge != 0) pair(42, v.bulge);
  }
  return *this;
}

DxfMaker& DxfMaker::old_polyline(const std::vector<Vertex>& corners, bool closed) {
  entity("POLYLINE").pair(66, "1").pair(70, closed ? "1" : "0");
  for (const Vertex& v : corners) {
    entity("VERTEX").point(10, v.at);
    if (v.bulge != 0) pair(42, v.bulge);
  }
  return entity("SEQEND");
}

DxfMaker& DxfMaker::rectangle(Vec2 low, Vec2 high) {
  return polyline({{low, 0}, {{high.x, low.y}, 0}, {high, 0}, {{low.x, high.y}, 0}});
}

DxfMaker& DxfMaker::text(Vec2 at, const std::string& words) {
  return entity("TEXT").point(10, at).pair(40, "5").pair(1, words);
}

DxfMaker& DxfMaker::insert(const std::string& block, Vec2 at, Vec2 size, double turn_deg) {
  return entity("INSERT").pair(2, block).point(10, at).pair(41, size.x).pair(42, size.y).pair(50, turn_deg);
}

std::string DxfMaker::text() const {
  std::string text;
  std::string head = header_;
  if (!release_.empty()) head = pair_text(9, "$ACADVER") + pair_text(1, release_) + head;
  if (!head.empty()) text += section("HEADER", head);
  if (!layers_.empty()) {
    text += section("TABLES", pair_text(0, "TABLE") + pair_text(2, "LAYER") + layers_ + pair_text(0, "ENDTAB"));
  }
  if (!blocks_.empty()) text += section("BLOCKS", blocks_);
  return text + section("ENTITIES", entities_) + pair_text(0, "EOF");
}

}  // namespace fitup::test
