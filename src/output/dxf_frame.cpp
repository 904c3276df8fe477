// The fixed parts of a DXF document of release AC1015: header, tables, blocks, objects.
// Entry: dxf_header, dxf_tables, dxf_blocks, dxf_objects.

#include <algorithm>
#include <array>
#include <vector>

#include "output/dxf_tags.h"

namespace fitup::output {
namespace {

constexpr int colour = 7;  // one colour throughout: cutters that tell jobs apart by colour see a single one

/// A symbol table: what every one opens with. `more` is what DIMSTYLE has besides.
void open_table(DxfTags& out, std::string_view name, const std::string& handle, int count) {
  out.tag(0, "TABLE").tag(2, name).tag(5, handle).tag(330, "0").tag(100, "AcDbSymbolTable").tag(70, count);
}

void close_table(DxfTags& out) { out.tag(0, "ENDTAB"); }

/// The start of a record, up to its own subclass.
DxfTags& open_record(DxfTags& out, std::string_view type, DxfHandles& handles, const std::string& table,
                     std::string_view subclass) {
  const int handle_code = type == "DIMSTYLE" ? 105 : 5;
  return out.tag(0, type)
      .tag(handle_code, handles.next())
      .tag(330, table)
      .tag(100, "AcDbSymbolTableRecord")
      .tag(100, subclass);
}

void write_viewports(DxfTags& out, DxfHandles& handles, const Box2& bounds) {
  const std::string table = handles.next();
  open_table(out, "VPORT", table, 1);
  open_record(out, "VPORT", handles, table, "AcDbViewportTableRecord").tag(2, "*Active").tag(70, 0);
  out.point(10, {0, 0}).point(11, {1, 1}).point(12, bounds.middle()).point(13, {0, 0}).point(14, {10, 10});
  out.point(15, {10, 10}).point3(16, {0, 0}, 1).point3(17, {0, 0});
  out.real(40, 1.2 * std::max({bounds.size().x, bounds.size().y, 1.0})).real(41, 1.5).real(42, 50);
  out.real(43, 0).real(44, 0).real(50, 0).real(51, 0);
  for (const auto& [code, value] :
       {std::pair{71, 0}, {72, 100}, {73, 1}, {74, 3}, {75, 0}, {76, 0}, {77, 0}, {78, 0}}) {
    out.tag(code, value);
  }
  close_table(out);
}

void write_line_types(DxfTags& out, DxfHandles& handles) {
  const std::string table = handles.next();
  open_table(out, "LTYPE", table, 3);
  for (const std::string_view name : {"ByBlock", "ByLayer", "Continuous"}) {
    open_record(out, "LTYPE", handles, table, "AcDbLinetypeTableRecord").tag(2, name).tag(70, 0);
    out.tag(3, name == "Continuous" ? "Solid line" : "").tag(72, 65).tag(73, 0).real(40, 0);
  }
  close_table(out);
}

void write_layers(DxfTags& out, DxfHandles& handles, const DxfDrawing& drawing) {
  const auto names = dxf_layers(drawing);
  const std::string table = handles.next();
  open_table(out, "LAYER", table, static_cast<int>(names.size()));
  for (const std::string_view name : names) {
    open_record(out, "LAYER", handles, table, "AcDbLayerTableRecord").tag(2, name).tag(70, 0);
    out.tag(62, colour).tag(6, "Continuous");
  }
  close_table(out);
}

void write_small_tables(DxfTags& out, DxfHandles& handles) {
  std::string table = handles.next();
  open_table(out, "STYLE", table, 1);
  open_record(out, "STYLE", handles, table, "AcDbTextStyleTableRecord").tag(2, "Standard").tag(70, 0);
  out.real(40, 0).real(41, 1).real(50, 0).tag(71, 0).real(42, 2.5).tag(3, "txt").tag(4, "");
  close_table(out);
  open_table(out, "VIEW", handles.next(), 0);
  close_table(out);
  open_table(out, "UCS", handles.next(), 0);
  close_table(out);
  table = handles.next();
  open_table(out, "APPID", table, 1);
  open_record(out, "APPID", handles, table, "AcDbRegAppTableRecord").tag(2, "ACAD").tag(70, 0);
  close_table(out);
  table = handles.next();
  open_table(out, "DIMSTYLE", table, 1);
  out.tag(100, "AcDbDimStyleTable").tag(71, 0);
  open_record(out, "DIMSTYLE", handles, table, "AcDbDimStyleTableRecord").tag(2, "Standard").tag(70, 0);
  close_table(out);
}

void write_block_records(DxfTags& out, DxfHandles& handles, const DxfAnchors& anchors) {
  const std::string table = handles.next();
  open_table(out, "BLOCK_RECORD", table, 2);
  const auto record = [&](std::string_view name, const std::string& handle, const std::string& layout) {
    out.tag(0, "BLOCK_RECORD").tag(5, handle).tag(330, table).tag(100, "AcDbSymbolTableRecord");
    out.tag(100, "AcDbBlockTableRecord").tag(2, name).tag(340, layout);
  };
  record("*Model_Space", anchors.model_record, anchors.model_layout);
  record("*Paper_Space", anchors.paper_record, anchors.paper_layout);
  close_table(out);
}

void write_layout(DxfTags& out, std::string_view name, const std::string& handle, const std::string& dictionary,
                  const std::string& record, const Box2& bounds) {
  const bool model = name == "Model";
  out.tag(0, "LAYOUT")
      .tag(5, handle)
      .tag(330, dictionary)
      .tag(100, "AcDbPlotSettings")
      .tag(1, "")
      .tag(2, "none_device");
  out.tag(4, "").tag(6, "");
  for (const int code : {40, 41, 42, 43, 44, 45, 46, 47, 48, 49, 140, 141}) out.real(code, 0);
  out.real(142, 1).real(143, 1).tag(70, model ? 1024 : 0).tag(72, 1).tag(73, 0).tag(74, 5).tag(7, "").tag(75, 16);
  out.real(147, 1).real(148, 0).real(149, 0).tag(100, "AcDbLayout").tag(1, name).tag(70, 1).tag(71, model ? 0 : 1);
  out.point(10, {0, 0}).point(11, {420, 297}).point3(12, {0, 0});
  out.point3(14, model ? bounds.low : Vec2{}).point3(15, model ? bounds.high : Vec2{});
  out.real(146, 0).point3(13, {0, 0}).point3(16, {1, 0}).point3(17, {0, 1}).tag(76, 0).tag(330, record);
}

}  // namespace

std::vector<std::string_view> dxf_layers(const DxfDrawing& drawing) {
  std::vector<std::string_view> names{"0", "CUT"};
  if (!drawing.mark.empty()) names.emplace_back("MARK");
  if (!drawing.bend.empty()) names.emplace_back("BEND");
  if (!drawing.notes.empty()) names.emplace_back("NOTE");
  return names;
}

std::string dxf_header(const Box2& bounds, UnitSystem units, const std::string& handle_seed) {
  DxfTags out;
  out.tag(0, "SECTION").tag(2, "HEADER");
  out.tag(9, "$ACADVER").tag(1, "AC1015").tag(9, "$DWGCODEPAGE").tag(3, "ANSI_1252");
  out.tag(9, "$EXTMIN").point3(10, bounds.low).tag(9, "$EXTMAX").point3(10, bounds.high);
  out.tag(9, "$LIMMIN").point(10, bounds.low).tag(9, "$LIMMAX").point(10, bounds.high);
  out.tag(9, "$CLAYER").tag(8, "CUT").tag(9, "$LUNITS").tag(70, 2).tag(9, "$LUPREC").tag(70, 4);
  const bool inches = units == UnitSystem::in_lb;
  out.tag(9, "$INSUNITS").tag(70, inches ? 1 : 4);
  out.tag(9, "$MEASUREMENT").tag(70, inches ? 0 : 1);
  out.tag(9, "$HANDSEED").tag(5, handle_seed).tag(0, "ENDSEC");
  out.tag(0, "SECTION").tag(2, "CLASSES");
  out.tag(0, "CLASS").tag(1, "LAYOUT").tag(2, "AcDbLayout").tag(3, "ObjectDBX Classes");
  out.tag(90, 0).tag(280, 0).tag(281, 0).tag(0, "ENDSEC");
  return out.text();
}

std::string dxf_tables(DxfHandles& handles, const DxfAnchors& anchors, const DxfDrawing& drawing) {
  DxfTags out;
  out.tag(0, "SECTION").tag(2, "TABLES");
  write_viewports(out, handles, drawing.bounds);
  write_line_types(out, handles);
  write_layers(out, handles, drawing);
  write_small_tables(out, handles);
  write_block_records(out, handles, anchors);
  out.tag(0, "ENDSEC");
  return out.text();
}

std::string dxf_blocks(DxfHandles& handles, const DxfAnchors& anchors) {
  DxfTags out;
  out.tag(0, "SECTION").tag(2, "BLOCKS");
  const auto block = [&](std::string_view name, const std::string& record, bool paper) {
    const auto open = [&](std::string_view type) {
      out.tag(0, type).tag(5, handles.next()).tag(330, record).tag(100, "AcDbEntity");
      if (paper) out.tag(67, 1);
      out.tag(8, "0");
    };
    open("BLOCK");
    out.tag(100, "AcDbBlockBegin").tag(2, name).tag(70, 0).point3(10, {0, 0}).tag(3, name).tag(1, "");
    open("ENDBLK");
    out.tag(100, "AcDbBlockEnd");
  };
  block("*Model_Space", anchors.model_record, false);
  block("*Paper_Space", anchors.paper_record, true);
  out.tag(0, "ENDSEC");
  return out.text();
}

std::string dxf_objects(DxfHandles& handles, const DxfAnchors& anchors, const Box2& bounds) {
  const std::string root = handles.next();
  const std::string groups = handles.next();
  const std::string layouts = handles.next();
  DxfTags out;
  const auto dictionary = [&](const std::string& handle, const std::string& owner) -> DxfTags& {
    return out.tag(0, "DICTIONARY").tag(5, handle).tag(330, owner).tag(100, "AcDbDictionary").tag(281, 1);
  };
  out.tag(0, "SECTION").tag(2, "OBJECTS");
  dictionary(root, "0").tag(3, "ACAD_GROUP").tag(350, groups).tag(3, "ACAD_LAYOUT").tag(350, layouts);
  dictionary(groups, root);
  dictionary(layouts, root)
      .tag(3, "Model")
      .tag(350, anchors.model_layout)
      .tag(3, "Layout1")
      .tag(350, anchors.paper_layout);
  write_layout(out, "Model", anchors.model_layout, layouts, anchors.model_record, bounds);
  write_layout(out, "Layout1", anchors.paper_layout, layouts, anchors.paper_record, bounds);
  out.tag(0, "ENDSEC").tag(0, "EOF");
  return out.text();
}

}  // namespace fitup::output
