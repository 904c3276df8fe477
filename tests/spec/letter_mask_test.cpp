// Letters beyond ASCII on their way through the TOML library.

#include "spec/letter_mask.h"

#include <gtest/gtest.h>

#include <string>

#include "fitup/spec.h"

namespace fitup::spec {
namespace {

std::string utf8(unsigned point) {
  if (point < 0x80) return {static_cast<char>(point)};
  if (point < 0x800) return {static_cast<char>(0xC0 | (point >> 6)), static_cast<char>(0x80 | (point & 0x3F))};
  return {static_cast<char>(0xE0 | (point >> 12)), static_cast<char>(0x80 | ((point >> 6) & 0x3F)),
          static_cast<char>(0x80 | (point & 0x3F))};
}

TEST(LetterMask, gives_back_every_character_of_plane_0) {
  for (unsigned point = 0; point < 0x10000; ++point) {
    if (point >= 0xD800 && point < 0xE000) continue;  // surrogates are no characters
    const std::string letter = utf8(point);
    const std::string hidden = masked(letter);
    EXPECT_EQ(hidden.size(), point < 0x80 ? 1U : 4U) << point;
    EXPECT_EQ(restored(hidden), letter) << point;
  }
}

TEST(LetterMask, leaves_what_is_not_utf8_and_what_stands_above_plane_0) {
  for (const char* text : {"\xFF", "\xC3", "\xED\xA0\x80", "a\x80z", "\xF0\x9F\x94\xA7", "plain"}) {
    EXPECT_EQ(masked(text), text);
    EXPECT_EQ(restored(text), text);
  }
}

TEST(LetterMask, replaces_private_characters) { EXPECT_EQ(restored(masked("\xF3\xB0\x83\xA9")), "\xEF\xBF\xBD"); }

TEST(Letters, beyond_ascii_beside_a_value_are_answered_at_their_place) {
  // U+00E9 and U+FC00 ran into undefined behaviour; U+00A0 is no blank of TOML 1.0.
  for (const unsigned point : {0xE9U, 0xFC00U, 0xA0U, 0x2028U}) {
    const SpecResult result = read_spec("box.toml", "fitup = 1\nmass = 23" + utf8(point) + "\n");
    ASSERT_EQ(result.diagnostics.all().size(), 1U);
    EXPECT_EQ(result.diagnostics.all()[0].id, "syntax");
    EXPECT_EQ(result.diagnostics.all()[0].place.line, 2);
    EXPECT_EQ(result.diagnostics.all()[0].place.column, 10) << point;
  }
}

TEST(Letters, a_byte_order_mark_is_no_part_of_the_text) {
  const SpecResult result = read_spec("box.toml", "\xEF\xBB\xBFunit = 1\n");
  ASSERT_FALSE(result.diagnostics.all().empty());
  EXPECT_EQ(result.diagnostics.all().back().id, "unknown-key");
  EXPECT_EQ(result.diagnostics.all().back().place, (Place{0, 1, 1, 4}));
}

}  // namespace
}  // namespace fitup::spec
