// Writes a drawing as DXF of release R12 (AC1009): no handles, no objects, contours as POLYLINE.
// Entry: dxf_r12.

#include "output/dxf_tags.h"

namespace fitup::output {
namespace {

constexpr int colour = 7;

std::string header(const DxfDrawing& drawing) {
  DxfTags out(decimals_in(drawing.units));
  out.tag(0, "SECTION").tag(2, "HEADER").tag(9, "$ACADVER").tag(1, "AC1009");
  out.tag(9, "$EXTMIN").point3(10, drawing.bounds.low).tag(9, "$EXTMAX").point3(10, drawing.bounds.high);
  out.tag(9, "$LIMMIN").point(10, drawing.bounds.low).tag(9, "$LIMMAX").point(10, drawing.bounds.high);
  out.tag(9, "$CLAYER").tag(8, "CUT").tag(9, "$LUNITS").tag(70, 2).tag(9, "$LUPREC").tag(70, 4);
  return out.tag(0, "ENDSEC").text();
}

std::string tables(const DxfDrawing& drawing) {
  DxfTags out;
  out.tag(0, "SECTION").tag(2, "TABLES").tag(0, "TABLE").tag(2, "LTYPE").tag(70, 1);
  out.tag(0, "LTYPE").tag(2, "CONTINUOUS").tag(70, 0).tag(3, "Solid line").tag(72, 65).tag(73, 0).real(40, 0);
  out.tag(0, "ENDTAB");
  const auto layers = dxf_layers(drawing);
  out.tag(0, "TABLE").tag(2, "LAYER").tag(70, static_cast<int>(layers.size()));
  for (const std::string_view layer : layers) {
    out.tag(0, "LAYER").tag(2, layer).tag(70, 0).tag(62, colour).tag(6, "CONTINUOUS");
  }
  out.tag(0, "ENDTAB").tag(0, "TABLE").tag(2, "STYLE").tag(70, 1);
  out.tag(0, "STYLE").tag(2, "STANDARD").tag(70, 0).real(40, 0).real(41, 1).real(50, 0).tag(71, 0).real(42, 2.5);
  return out.tag(3, "txt").tag(4, "").tag(0, "ENDTAB").tag(0, "ENDSEC").text();
}

void write_contour(DxfTags& out, const Loop& loop) {
  if (const auto circle = loop.as_circle()) {
    out.tag(0, "CIRCLE").tag(8, "CUT").point3(10, circle->centre).real(40, circle->radius);
    return;
  }
  out.tag(0, "POLYLINE").tag(8, "CUT").tag(66, 1).point3(10, {}).tag(70, 1);
  for (const Vertex& v : loop.vertices) {
    out.tag(0, "VERTEX").tag(8, "CUT").point3(10, v.at);
    if (v.bulge != 0) out.real(42, v.bulge, 12);
  }
  out.tag(0, "SEQEND").tag(8, "CUT");
}

std::string entities(const DxfDrawing& drawing) {
  DxfTags out(decimals_in(drawing.units));
  out.tag(0, "SECTION").tag(2, "ENTITIES");
  for (const Loop& loop : drawing.cut) write_contour(out, loop);
  for (const DxfLine& line : drawing.mark) {
    out.tag(0, "LINE").tag(8, "MARK").point3(10, line.from).point3(11, line.to);
  }
  for (const DxfLine& line : drawing.bend) {
    out.tag(0, "LINE").tag(8, "BEND").point3(10, line.from).point3(11, line.to);
  }
  for (const DxfNote& note : drawing.notes) {
    out.tag(0, "TEXT").tag(8, "NOTE").point3(10, note.at).real(40, note.height_mm).tag(1, dxf_text(note.text));
  }
  return out.tag(0, "ENDSEC").tag(0, "EOF").text();
}

}  // namespace

std::string dxf_r12(const DxfDrawing& drawing) {
  const std::string blocks = DxfTags().tag(0, "SECTION").tag(2, "BLOCKS").tag(0, "ENDSEC").text();
  return header(drawing) + tables(drawing) + blocks + entities(drawing);
}

}  // namespace fitup::output
