// Writes a drawing as DXF: the entities between the fixed parts of the document.
// Entry: write_dxf.

#include "output/dxf.h"
#include "output/dxf_tags.h"

namespace fitup::output {
namespace {

/// DXF of this release is not UTF-8: what is not ASCII goes out as \U+XXXX, a control character as a space.
std::string dxf_text(std::string_view utf8) {
  std::string out;
  for (std::size_t i = 0; i < utf8.size();) {
    const auto lead = static_cast<unsigned char>(utf8[i]);
    const std::size_t bytes = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
    if (bytes == 1) {
      out.push_back(lead < 0x20 || lead == 0x7F ? ' ' : utf8[i]);
    } else if (bytes == 4 || i + bytes > utf8.size()) {
      out.push_back('?');  // beyond what \U+XXXX can say
    } else {
      unsigned code = lead & (bytes == 2 ? 0x1FU : 0x0FU);
      for (std::size_t k = 1; k < bytes; ++k) code = (code << 6) | (static_cast<unsigned char>(utf8[i + k]) & 0x3FU);
      out += fmt::format("\\U+{:04X}", code);
    }
    i += bytes;
  }
  return out;
}

class Entities {
 public:
  Entities(DxfHandles& handles, std::string owner) : handles_(handles), owner_(std::move(owner)) {
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

  void mark(const DxfLine& line) { open("LINE", "MARK", "AcDbLine").point3(10, line.from).point3(11, line.to); }

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

std::string write_dxf(const DxfDrawing& drawing) {
  DxfHandles handles;
  const DxfAnchors anchors{handles.next(), handles.next(), handles.next(), handles.next()};
  DxfTags body;
  body.append(dxf_tables(handles, anchors, drawing.bounds)).append(dxf_blocks(handles, anchors));
  Entities entities(handles, anchors.model_record);
  for (const Loop& loop : drawing.cut) entities.cut(loop);
  for (const DxfLine& line : drawing.mark) entities.mark(line);
  for (const DxfNote& note : drawing.notes) entities.note(note);
  body.append(entities.close()).append(dxf_objects(handles, anchors, drawing.bounds));
  return dxf_header(drawing.bounds, handles.seed()) + body.text();
}

}  // namespace fitup::output
