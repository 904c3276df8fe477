// Writes a drawing as DXF: the entities between the fixed parts of the document.
// Entry: write_dxf.

#include "output/dxf.h"

#include <algorithm>

#include "output/dxf_tags.h"

namespace fitup::output {
namespace {

/// One character of several bytes as \U+XXXX; '?' where that form cannot say it.
std::string escaped(std::string_view character) {
  if (character.size() > 3) return "?";
  unsigned code = static_cast<unsigned char>(character[0]) & (character.size() == 2 ? 0x1FU : 0x0FU);
  for (const char c : character.substr(1)) code = (code << 6) | (static_cast<unsigned char>(c) & 0x3FU);
  return fmt::format("\\U+{:04X}", code);
}

std::size_t bytes_of_character(unsigned char lead) {
  if (lead < 0xC0) return 1;
  if (lead < 0xE0) return 2;
  return lead < 0xF0 ? 3 : 4;
}

class Entities {
 public:
  Entities(DxfHandles& handles, std::string owner, int decimals)
      : handles_(handles), owner_(std::move(owner)), out_(decimals) {
    out_.tag(0, "SECTION").tag(2, "ENTITIES");
  }

  void cut(const Loop& loop) {
    if (const auto circle = loop.as_circle()) {
      open("CIRCLE", "CUT", "AcDbCircle").point3(10, circle->centre).real(40, circle->radius);
      return;
    }
    open("LWPOLYLINE", "CUT", "AcDbPolyline").tag(90, static_cast<int>(loop.vertices.size())).tag(70, 1).real(43, 0);
    for (const Vertex& v : loop.vertices) {
      out_.point(10, v.at);
      if (v.bulge != 0) out_.real(42, v.bulge, 12);
    }
  }

  void line(const DxfLine& line, std::string_view layer) {
    open("LINE", layer, "AcDbLine").point3(10, line.from).point3(11, line.to);
  }

  void note(const DxfNote& note) {
    open("TEXT", "NOTE", "AcDbText").point3(10, note.at).real(40, note.height_mm).tag(1, dxf_text(note.text));
    out_.tag(7, "Standard").tag(100, "AcDbText");
  }

  [[nodiscard]] std::string close() { return out_.tag(0, "ENDSEC").text(); }

 private:
  DxfTags& open(std::string_view type, std::string_view layer, std::string_view subclass) {
    out_.tag(0, type).tag(5, handles_.next()).tag(330, owner_).tag(100, "AcDbEntity").tag(8, layer);
    return out_.tag(100, subclass);
  }

  DxfHandles& handles_;
  std::string owner_;
  DxfTags out_;
};

}  // namespace

// DXF of this release is not UTF-8: what is not ASCII goes out by its code, a control character as a space.
std::string dxf_text(std::string_view utf8) {
  std::string out;
  while (!utf8.empty()) {
    const auto lead = static_cast<unsigned char>(utf8.front());
    const std::size_t bytes = std::min(bytes_of_character(lead), utf8.size());
    if (bytes > 1) {
      out += escaped(utf8.substr(0, bytes));
    } else if (lead > 0x7F) {
      out += '?';
    } else {
      out += lead < 0x20 || lead == 0x7F ? ' ' : utf8.front();
    }
    utf8.remove_prefix(bytes);
  }
  return out;
}

DxfDrawing scaled(DxfDrawing drawing, double factor) {
  if (factor == 1) return drawing;
  for (Loop& loop : drawing.cut) {
    for (Vertex& v : loop.vertices) v.at = factor * v.at;
  }
  for (auto* lines : {&drawing.mark, &drawing.bend}) {
    for (DxfLine& line : *lines) line = {factor * line.from, factor * line.to};
  }
  for (DxfNote& note : drawing.notes) {
    note.at = factor * note.at;
    note.height_mm *= factor;
  }
  drawing.bounds = {factor * drawing.bounds.low, factor * drawing.bounds.high};
  return drawing;
}

std::string write_dxf(const DxfDrawing& in_mm) {
  const DxfDrawing drawing = scaled(in_mm, 1 / mm_in_unit(in_mm.units));
  if (drawing.release == DxfRelease::r12) return dxf_r12(drawing);
  DxfHandles handles;
  const DxfAnchors anchors{handles.next(), handles.next(), handles.next(), handles.next()};
  DxfTags body;
  body.append(dxf_tables(handles, anchors, drawing)).append(dxf_blocks(handles, anchors));
  Entities entities(handles, anchors.model_record, decimals_in(drawing.units));
  for (const Loop& loop : drawing.cut) entities.cut(loop);
  for (const DxfLine& line : drawing.mark) entities.line(line, "MARK");
  for (const DxfLine& line : drawing.bend) entities.line(line, "BEND");
  for (const DxfNote& note : drawing.notes) entities.note(note);
  body.append(entities.close()).append(dxf_objects(handles, anchors, drawing.bounds));
  return dxf_header(drawing.bounds, drawing.units, handles.seed()) + body.text();
}

}  // namespace fitup::output
