// Words of messages: quantities, quotes, near misses.

#include "diag/words.h"

#include <gtest/gtest.h>

namespace fitup::diag {
namespace {

TEST(Words, quantities_are_said_in_the_units_of_the_user) {
  EXPECT_EQ(in_units(Length::mm(4.7625), UnitSystem::mm_kg), "4.7625 mm");
  EXPECT_EQ(in_units(Length::mm(4.7625), UnitSystem::in_lb), "0.1875 in");  // 3/16 in
  EXPECT_EQ(in_units(Length::mm(12), UnitSystem::in_lb), "0.4724 in");      // 12 / 25.4 = 0.472440...
  EXPECT_EQ(in_units(Length::mm(0.001), UnitSystem::in_lb), "0.000039 in");
  EXPECT_EQ(in_units(Length::mm(0), UnitSystem::in_lb), "0 in");
  EXPECT_EQ(in_units(Length::mm(-12), UnitSystem::mm_kg), "-12 mm");
  EXPECT_EQ(in_units(Mass::kg(23), UnitSystem::mm_kg), "23 kg");
  EXPECT_EQ(in_units(Mass::kg(0.45359237), UnitSystem::in_lb), "1 lb");  // the pound's definition of 1959
}

TEST(Words, limits_hold_for_the_number_as_it_is_said) {
  EXPECT_EQ(exactly_in_units(Length::mm(0.396875), UnitSystem::in_lb), "0.015625 in");  // 1/64 in
  EXPECT_EQ(at_least_in_units(Length::mm(12), UnitSystem::in_lb), "0.4725 in");
  EXPECT_EQ(at_most_in_units(Length::mm(12), UnitSystem::in_lb), "0.4724 in");
  EXPECT_EQ(at_least_in_units(Length::mm(12.7), UnitSystem::in_lb), "0.5 in");
  EXPECT_EQ(at_most_in_units(Length::mm(12.7), UnitSystem::in_lb), "0.5 in");
  EXPECT_EQ(at_least_in_units(Length::mm(12.00045), UnitSystem::mm_kg), "12.001 mm");
  EXPECT_EQ(at_most_in_units(Length::mm(12.00045), UnitSystem::mm_kg), "12 mm");
  EXPECT_EQ(at_least_in_units(Length::mm(0.1 + 0.2), UnitSystem::mm_kg), "0.3 mm");
}

struct Near {
  const char* name;
  const char* word;
  std::vector<std::string> candidates;
  const char* expected;
};
class Nearest : public testing::TestWithParam<Near> {};

TEST_P(Nearest, finds_what_was_meant) {
  EXPECT_EQ(nearest(GetParam().word, GetParam().candidates), GetParam().expected);
}

INSTANTIATE_TEST_SUITE_P(
    Spelling, Nearest,
    testing::Values(Near{"a_letter_missing", "thicknes", {"margin", "thickness"}, "thickness"},
                    Near{"two_letters_swapped", "margni", {"margin", "thickness"}, "margin"},
                    Near{"another_letter", "blook", {"block", "plate"}, "block"},
                    Near{"a_letter_too_many", "lefft", {"left", "right"}, "left"},
                    Near{"another_case", "Front", {"back", "front"}, "front"},
                    Near{"the_beginning_of_the_word", "thick", {"margin", "thickness"}, "thickness"},
                    Near{"nothing_near", "colour", {"margin", "thickness"}, ""},
                    Near{"a_short_word_is_not_near_to_everything", "of", {"at"}, ""},
                    Near{"the_first_of_equals", "bat", {"cat", "hat"}, "cat"}, Near{"an_empty_word", "", {"a"}, ""}),
    [](const auto& tested) { return tested.param.name; });

TEST(Words, a_suggestion_names_the_near_miss_or_else_what_there_is) {
  EXPECT_EQ(suggestion("blok", {"block", "plate"}), "; did you mean \"block\"?");
  EXPECT_EQ(suggestion("pump", {"block", "plate"}), "; there are: block, plate");
  EXPECT_EQ(suggestion("pump", {"block"}), "; there is only block");
  EXPECT_EQ(suggestion("pump", {}), "");
}

TEST(Words, a_long_list_is_cut) { EXPECT_EQ(listed({"a", "b", "c"}, 2), "a, b and 1 more"); }

TEST(Words, what_a_terminal_could_obey_is_not_shown) {
  EXPECT_EQ(printable("a\x1b[2Jb\x7f\n"), "a?[2Jb??");
  EXPECT_EQ(printable("\xC2\x9B"
                      "2J"),
            "?2J");  // U+009B, a control sequence introducer
  EXPECT_EQ(printable("\xC3\xA4\xF0\x9F\x94\xA7"), "\xC3\xA4\xF0\x9F\x94\xA7");
  EXPECT_EQ(printable("\xC3"), "?");                 // cut off
  EXPECT_EQ(printable("\xC0\xAF"), "??");            // overlong, Unicode 15 table 3-7
  EXPECT_EQ(printable("\xED\xA0\x80"), "???");       // a surrogate
  EXPECT_EQ(printable("\xF4\x90\x80\x80"), "????");  // beyond U+10FFFF
}

TEST(Words, a_long_word_is_shortened_in_quotes) {
  EXPECT_EQ(in_quotes("gap"), "\"gap\"");
  EXPECT_EQ(in_quotes(std::string(1000, 'x')), "\"" + std::string(60, 'x') + "...\"");
}

}  // namespace
}  // namespace fitup::diag
