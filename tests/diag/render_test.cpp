// The form in which diagnostics are shown.

#include <gtest/gtest.h>

#include <regex>
#include <string>

#include "fitup/diagnostic.h"

namespace fitup {
namespace {

Diagnostic error_at(Place place, std::string message = "wall is 4 mm") {
  return Diagnostic{"thread-too-short", Severity::error, std::move(message), place, {}};
}

SourceTexts box(std::string text) { return {{"box.toml", std::move(text)}}; }

TEST(Rendering, shows_place_message_id_source_line_and_caret) {
  std::string text(13, '\n');
  text += "thickness = 4\n";
  Diagnostic d = error_at({0, 14, 13, 1}, "wall is 4 mm; M5 threads in S235 need at least 5 mm");
  d.notes.push_back({"also-here", Severity::note, "screws chosen here", {0, 9, 9, 1}, {}});
  EXPECT_EQ(render(d, box(text), false),
            "box.toml:14:13: error: wall is 4 mm; M5 threads in S235 need at least 5 mm [thread-too-short]\n"
            "  14 | thickness = 4\n"
            "     |             ^\n"
            "box.toml:9:9: note: screws chosen here\n");
}

TEST(Rendering, underlines_the_whole_value) {
  EXPECT_EQ(render(error_at({0, 1, 5, 4}), box("a = true"), false),
            "box.toml:1:5: error: wall is 4 mm [thread-too-short]\n"
            "   1 | a = true\n"
            "     |     ^~~~\n");
}

TEST(Rendering, counts_characters_and_not_bytes) {
  EXPECT_EQ(render(error_at({0, 1, 6, 1}), box("\xC3\xA4\xE2\x82\xAC = 4"), false),
            "box.toml:1:6: error: wall is 4 mm [thread-too-short]\n"
            "   1 | \xC3\xA4\xE2\x82\xAC = 4\n"
            "     |      ^\n");
}

TEST(Rendering, shows_a_tab_as_one_blank_so_that_the_caret_stays_under_its_place) {
  const std::string shown = render(error_at({0, 1, 6, 1}), box("\ta\t=\t4"), false);
  EXPECT_NE(shown.find("   1 |  a = 4\n     |      ^\n"), std::string::npos) << shown;
}

TEST(Rendering, without_a_line_names_the_file_only) {
  EXPECT_EQ(render(error_at({0, 0, 0, 1}), box("a = 4"), false), "box.toml: error: wall is 4 mm [thread-too-short]\n");
}

TEST(Rendering, survives_places_that_are_not_in_the_text) {
  for (const Place place : {Place{0, 99, 1, 1}, Place{0, 1, 99, 9}, Place{7, 1, 1, 1}, Place{-1, 1, 1, 1},
                            Place{0, 1, -3, -3}, Place{0, -1, 1, 1}}) {
    EXPECT_NE(render(error_at(place), box("a = 4"), false).find("error: wall is 4 mm"), std::string::npos);
  }
}

TEST(Rendering, shows_only_the_part_of_a_long_line_around_the_caret) {
  const std::string line = std::string(5000, 'a') + "X" + std::string(5000, 'b');
  const std::string shown = render(error_at({0, 1, 5001, 1}), box(line), false);
  EXPECT_LT(shown.size(), 400U);
  const std::size_t excerpt = shown.find("   1 | ");
  const std::size_t caret = shown.find("     | ");
  const std::size_t mark = shown.find('^');
  ASSERT_NE(mark, std::string::npos);
  EXPECT_EQ(shown[excerpt + (mark - caret)], 'X');
}

TEST(Rendering, lets_no_control_character_of_the_text_reach_the_terminal) {
  const SourceTexts sources{{"a\x1b[2J.toml", "a = \x1b[31m4"}};
  EXPECT_EQ(render(error_at({0, 1, 1, 1}), sources, false).find('\x1b'), std::string::npos);
}

TEST(Rendering, says_the_same_with_and_without_colour) {
  Diagnostic d = error_at({0, 1, 5, 1});
  d.notes.push_back({"also-here", Severity::note, "here", {0, 1, 1, 1}, {}});
  const std::string coloured = render(d, box("a = 4"), true);
  EXPECT_NE(coloured.find('\x1b'), std::string::npos);
  EXPECT_EQ(std::regex_replace(coloured, std::regex("\x1b\\[[0-9;]*m"), ""), render(d, box("a = 4"), false));
}

TEST(Rendering, names_an_argument_as_the_source) {
  const SourceTexts sources{{"box.toml", ""}, {"--set", "gap=1O"}};
  EXPECT_EQ(render(error_at({1, 1, 5, 2}), sources, false),
            "--set:1:5: error: wall is 4 mm [thread-too-short]\n"
            "   1 | gap=1O\n"
            "     |     ^~\n");
}

TEST(Diagnostics, are_ordered_by_place_and_then_by_arrival) {
  Diagnostics all;
  all.add(error_at({0, 2, 1, 1}, "third"));
  all.add(error_at({1, 1, 1, 1}, "last"));
  all.add(error_at({0, 1, 9, 1}, "first"));
  all.add(error_at({0, 1, 9, 1}, "second"));
  all.sort();
  std::string order;
  for (const Diagnostic& d : all.all()) order += d.message + " ";
  EXPECT_EQ(order, "first second third last ");
}

TEST(Diagnostics, what_was_said_twice_of_one_place_is_kept_once) {
  Diagnostics all;
  all.add(error_at({0, 2, 1, 1}, "again"));
  all.add(error_at({0, 1, 1, 1}, "again"));
  all.add(error_at({0, 2, 1, 1}, "other"));
  all.add(error_at({0, 2, 1, 1}, "again"));
  all.sort();
  std::string order;
  for (const Diagnostic& d : all.all()) order += std::to_string(d.place.line) + d.message + " ";
  EXPECT_EQ(order, "1again 2again 2other ");
}

TEST(Diagnostics, a_warning_alone_is_no_error) {
  Diagnostics all;
  all.add({"w", Severity::warning, "w", {}, {}});
  EXPECT_FALSE(all.has_errors());
  all.add(error_at({}));
  EXPECT_TRUE(all.has_errors());
}

}  // namespace
}  // namespace fitup
