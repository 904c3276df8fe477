#pragma once
// What stands on a page already, and where a label still finds room beside it.

#include <optional>
#include <vector>

#include "bench/type.h"

namespace fitup::bench {

class Clutter {
 public:
  Clutter(Box2 room) : room_(room) {}
  void add(const Stroke& stroke);
  void add(const Box2& box) { boxes_.push_back(box); }
  /// Labels keep inside the room, off every box, and with `off_lines` off every stroke.
  [[nodiscard]] bool is_free(const Box2& box, bool off_lines) const;
  /// Beside the point where nothing else is written or drawn, the nearest first; a hairline goes to it from farther
  /// away, and always with `pointed`. Over lines only where there is no other room; nothing where words stand all
  /// round.
  bool place(Page& page, const Type& type, const std::string& words, double size_mm, Vec2 at, bool pointed = false);

 private:
  struct Piece {
    Vec2 from;
    Vec2 to;
    Box2 box;
  };
  Box2 room_;
  std::vector<Box2> boxes_;
  std::vector<Piece> lines_;
};

}  // namespace fitup::bench
