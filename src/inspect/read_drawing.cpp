// Reads any DXF text: header, layers, blocks put in their places, entities.
// Entry: read_drawing.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "inspect/draw.h"
#include "inspect/drawing.h"

namespace fitup::inspect {

namespace {

// Entities looked at, those of blocks once for each place: a file of some lines can ask for more than any machine
// holds.
constexpr std::size_t most_entities = 1'000'000;
constexpr std::size_t deepest = 16;
constexpr std::size_t longest_text = 120;

bool one_of(std::string_view word, std::initializer_list<std::string_view> words) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

bool is_thin(std::string_view line_type) {
  const std::string name = upper(line_type);
  for (const std::string_view part : {"CENTER", "CENTRE", "HIDDEN", "DASH", "PHANTOM", "DOT"}) {
    if (name.find(part) != std::string::npos) return true;
  }
  return false;
}

class Reading {
 public:
  explicit Reading(const DxfContent& content) : content_(content) {}

  Drawing drawing() {
    header();
    for (const DxfLayer& layer : content_.layers) {
      const std::uint32_t index = layer_index(layer.name);
      drawing_.layers[index].off = layer.off;
      drawing_.layers[index].line_type = std::string(layer.line_type);
    }
    layer_index("0");
    draw_all(content_.entities, Placing{}, std::nullopt, 0);
    return std::move(drawing_);
  }

 private:
  void header() {
    const auto find = [&](std::string_view name) {
      const auto found = content_.header.find(name);
      return found == content_.header.end() ? std::string_view() : found->second.value;
    };
    drawing_.release = std::string(find("$ACADVER").substr(0, 16));
    drawing_.unit = whole_of(find("$INSUNITS"));
    drawing_.metric = whole_of(find("$MEASUREMENT"));
  }

  std::uint32_t layer_index(std::string_view name) {
    const auto [found, added] = layer_of_.try_emplace(upper(name), static_cast<std::uint32_t>(drawing_.layers.size()));
    if (added) drawing_.layers.push_back({std::string(name.substr(0, longest_text)), false, "", 0});
    return found->second;
  }

  /// Layer 0 inside a block is the layer that the block stands on.
  std::uint32_t layer_of(const DxfEntity& e, std::optional<std::uint32_t> of_block) {
    const std::string_view name = e.text(8);
    if (of_block && (name.empty() || name == "0")) return *of_block;
    return layer_index(name.empty() ? "0" : name);
  }

  bool limit(std::string what) {
    if (std::find(drawing_.limits.begin(), drawing_.limits.end(), what) == drawing_.limits.end()) {
      drawing_.limits.push_back(std::move(what));
    }
    return false;
  }

  /// Long entities count for more.
  bool count(std::size_t lines) {
    seen_ += 1 + lines / 16;
    if (drawing_.held >= most_pieces) return limit("more than 2 million lines and arcs");
    if (seen_ <= most_entities) return true;
    return limit("more than a million entities, with those of blocks in each of their places");
  }

  void draw_all(const std::vector<DxfEntity>& entities, const Placing& placing, std::optional<std::uint32_t> of_block,
                std::size_t depth) {
    drawing_.deepest_block = std::max(drawing_.deepest_block, depth);
    for (std::size_t i = 0; i < entities.size(); ++i) {
      const DxfEntity& e = entities[i];
      std::size_t end = i + 1;
      if (e.type == "POLYLINE" || e.type == "INSERT") {
        while (end < entities.size() && (entities[end].type == "VERTEX" || entities[end].type == "ATTRIB")) ++end;
      }
      if (!count(e.tags.size() + 16 * (end - i - 1))) return;
      draw(e, std::span(entities).subspan(i + 1, end - i - 1), placing, of_block, depth);
      i = end - 1;
      if (i + 1 < entities.size() && entities[i + 1].type == "SEQEND") ++i;
    }
  }

  void draw(const DxfEntity& e, std::span<const DxfEntity> followers, const Placing& placing,
            std::optional<std::uint32_t> of_block, std::size_t depth) {
    if (e.whole(67, 0) == 1) {
      ++drawing_.in_paper_space;
      return;
    }
    const std::uint32_t layer = layer_of(e, of_block);
    ++drawing_.layers[layer].entities;
    if (depth == 0) ++drawing_.entities;
    if (drawing_.layers[layer].off || e.whole(60, 0) == 1) {
      ++drawing_.on_hidden_layers;
      return;
    }
    ++drawing_.types[std::string(e.type.substr(0, longest_text))];
    if (e.type == "INSERT") return insert(e, placing, layer, depth);
    const std::string_view own = e.text(6);
    const bool by_layer = own.empty() || upper(own) == "BYLAYER";
    const Pen pen{drawing_, placing, layer, is_thin(by_layer ? drawing_.layers[layer].line_type : own)};
    if (e.type == "POLYLINE") return draw_old_polyline(pen, e, followers);
    if (!draw_outline(pen, e)) other(e, pen);
  }

  /// What is no outline.
  void other(const DxfEntity& e, const Pen& pen) {
    const auto at = e.point(10);
    const Vec2 place = at ? pen.placing.point({at->x, at->y}) : Vec2{};
    const Vec2 there = std::abs(place.x) <= farthest && std::abs(place.y) <= farthest ? place : Vec2{};
    if (one_of(e.type, {"TEXT", "MTEXT", "ATTDEF"})) {
      drawing_.writings.push_back({there, std::string(e.text(1).substr(0, longest_text)), pen.layer, false});
    } else if (one_of(e.type, {"DIMENSION", "LEADER", "MLEADER", "MULTILEADER", "TOLERANCE"})) {
      drawing_.writings.push_back({there, "", pen.layer, true});
    } else if (e.type == "POINT") {
      Count& count = drawing_.points[pen.layer];
      if (count.count++ == 0) count.first = there;
    } else if (!one_of(e.type, {"VIEWPORT", "SEQEND", "VERTEX", "ATTRIB"})) {
      ++drawing_.not_read[std::string(e.type.substr(0, longest_text))];
    }
  }

  void insert(const DxfEntity& e, const Placing& placing, std::uint32_t layer, std::size_t depth) {
    const std::string name = upper(e.text(2));
    const auto block = content_.blocks.find(name);
    const auto at = e.point(10);
    const auto plane = own_plane(e);
    ++drawing_.inserts;
    if (block == content_.blocks.end() || !at) {
      ++drawing_.broken;
      return;
    }
    if (!plane) {
      ++drawing_.not_flat;
      return;
    }
    if (depth >= deepest || std::find(open_.begin(), open_.end(), name) != open_.end()) {
      limit(depth >= deepest ? "blocks nested deeper than 16" : "a block that holds itself");
      return;
    }
    open_.push_back(name);
    place_copies(e, {at->x, at->y}, block->second, placing * *plane, layer, depth);
    open_.pop_back();
  }

  /// In rows and columns, one of each by default.
  void place_copies(const DxfEntity& e, Vec2 at, const DxfBlock& block, const Placing& above, std::uint32_t layer,
                    std::size_t depth) {
    const double angle = std::fmod(e.real(50, 0), 360.0) * M_PI / 180;
    const Vec2 u{std::cos(angle), std::sin(angle)};
    const Vec2 v{-u.y, u.x};
    Placing own{e.real(41, 1) * u, e.real(42, 1) * v, at};
    own.origin = own.point(-1.0 * block.base);
    const int columns = std::max(1, e.whole(70, 1));
    const int rows = std::max(1, e.whole(71, 1));
    for (int row = 0; row < rows; ++row) {
      for (int column = 0; column < columns; ++column) {
        if (!count(0)) return;
        Placing copy = own;
        copy.origin = own.origin + (column * e.real(44, 0)) * u + (row * e.real(45, 0)) * v;
        draw_all(block.entities, above * copy, layer, depth + 1);
      }
    }
  }

  const DxfContent& content_;
  Drawing drawing_;
  std::map<std::string, std::uint32_t> layer_of_;
  std::vector<std::string> open_;  // blocks that are being drawn
  std::size_t seen_ = 0;
};

void scale_edge(Edge& e, double by) {
  e.from = by * e.from;
  e.to = by * e.to;
}

}  // namespace

Drawing read_drawing(std::string_view bytes) {
  constexpr std::string_view mark = "\xEF\xBB\xBF";  // of UTF-8
  if (bytes.substr(0, mark.size()) == mark) bytes.remove_prefix(mark.size());
  const DxfTags read = read_dxf_tags(bytes);
  const DxfContent content = content_of(read.tags);
  Drawing drawing = Reading(content).drawing();
  drawing.flaw = read.flaw;
  return drawing;
}

void scale(Drawing& drawing, double by) {
  for (Piece& p : drawing.pieces) scale_edge(p.edge, by);
  for (Piece& p : drawing.thin) scale_edge(p.edge, by);
  for (Shape& s : drawing.shapes) {
    for (Vertex& v : s.loop.vertices) v.at = by * v.at;
  }
  for (Writing& w : drawing.writings) w.at = by * w.at;
  for (auto& [layer, count] : drawing.points) count.first = by * count.first;
  for (Vec2& p : drawing.no_length) p = by * p;
}

}  // namespace fitup::inspect
