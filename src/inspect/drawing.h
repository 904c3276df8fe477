#pragma once
// A drawing as read from DXF: the lines and arcs of its model space, blocks put in their places. Millimetres once the
// unit is settled (`scale`), units of the drawing before.

#include <cstdint>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "fitup/geometry.h"

namespace fitup::inspect {

/// What a piece of outline was drawn as.
enum class DrawnAs : std::uint8_t { line, arc, polyline, circle, spline, ellipse };

/// An edge with loose ends, or one of a closed shape.
struct Piece {
  Edge edge;
  std::uint32_t layer = 0;
  DrawnAs as = DrawnAs::line;
};

/// What is closed by itself: a circle, a polyline with its flag set, a full ellipse, a closed spline.
struct Shape {
  Loop loop;
  std::uint32_t layer = 0;
  DrawnAs as = DrawnAs::polyline;
};

struct Writing {
  Vec2 at;
  std::string text;
  std::uint32_t layer = 0;
  bool dimension = false;
};

struct Layer {
  std::string name;
  bool off = false;  // off or frozen
  std::string line_type;
  std::size_t entities = 0;
};

/// Something that is counted, not drawn.
struct Count {
  std::size_t count = 0;
  Vec2 first;
};

struct Drawing {
  std::string release;        // "AC1015"; empty where the header does not say
  std::optional<int> unit;    // $INSUNITS
  std::optional<int> metric;  // $MEASUREMENT: 1 metric, 0 inches
  std::vector<Layer> layers;
  std::vector<Piece> pieces;
  std::vector<Shape> shapes;
  std::vector<Writing> writings;
  std::vector<Piece> thin;                        // in a line type of centre or hidden lines
  std::map<std::uint32_t, Count> points;          // by layer
  std::map<std::uint32_t, std::size_t> splines;   // by layer
  std::map<std::uint32_t, std::size_t> ellipses;  // by layer
  std::map<std::string, std::size_t> types;       // of the entities in the file and in the blocks put in place
  std::map<std::string, std::size_t> not_read;    // types that are no outline: hatches, solids, pictures
  std::vector<Vec2> no_length;                    // pieces whose ends are one point
  std::size_t held = 0;                           // pieces and edges of shapes so far
  std::size_t entities = 0;                       // in model space
  std::size_t inserts = 0;
  std::size_t deepest_block = 0;
  std::size_t in_paper_space = 0;
  std::size_t on_hidden_layers = 0;
  std::size_t not_flat = 0;         // tilted out of the plane, or with ends at different heights
  std::size_t broken = 0;           // a number of it is missing or cannot be read
  std::size_t far_away = 0;         // farther than any shop can cut
  std::string flaw;                 // why reading stopped early; empty: it did not
  std::vector<std::string> limits;  // what was left out so that reading ends
};

/// Any bytes.
[[nodiscard]] Drawing read_drawing(std::string_view bytes);

/// Multiplies every length.
void scale(Drawing& drawing, double by);

}  // namespace fitup::inspect
