#pragma once
// What every page must be: all words inside the frame, none over another.

#include <gtest/gtest.h>

#include "bench/sheet.h"

namespace fitup::bench {

inline void expect_inside_and_apart(const Paper& paper) {
  for (std::size_t p = 0; p < paper.pages.size(); ++p) {
    const Page& page = paper.pages[p];
    const Box2 frame = frame_of(page);
    for (std::size_t i = 0; i < page.labels.size(); ++i) {
      const Label& label = page.labels[i];
      const Box2& a = label.box;
      EXPECT_TRUE(a.low.x >= frame.low.x && a.low.y >= frame.low.y && a.high.x <= frame.high.x &&
                  a.high.y <= frame.high.y)
          << paper.name << ", page " << p + 1 << ": " << label.words;
      for (std::size_t k = 0; k < i; ++k) {
        const Box2& b = page.labels[k].box;
        const bool meet = a.low.x < b.high.x && b.low.x < a.high.x && a.low.y < b.high.y && b.low.y < a.high.y;
        EXPECT_FALSE(meet) << paper.name << ", page " << p + 1 << ": " << label.words << " over "
                           << page.labels[k].words;
      }
    }
  }
}

}  // namespace fitup::bench
