// --set key=value: what it reaches, how its value is read, and where a diagnostic about it points.

#include <gtest/gtest.h>

#include "spec/spec_of.h"

namespace fitup {
namespace {

struct Case {
  const char* name;
  const char* key;
  const char* value;
  const char* line;      // of the canonical text
  const char* expected;  // what it says then
};
class Argument : public testing::TestWithParam<Case> {};

TEST_P(Argument, reaches_its_key) {
  const auto& [name, key, value, line, expected] = GetParam();
  const std::string before = test::spec_text({{"spec.toml", test::small_spec}});
  const std::string after = test::spec_text({{"spec.toml", test::small_spec}}, {{key, value}});
  EXPECT_EQ(test::line_of(after, line), expected) << after;
  EXPECT_NE(test::line_of(before, line), expected) << "it stands there without the argument";
}

INSTANTIATE_TEST_SUITE_P(
    Keys, Argument,
    testing::Values(
        Case{"a_size_by_its_bare_name", "gap", "13", "item.plate.size", "(13 mm, 410 mm, 200 mm)"},
        Case{"a_size_by_its_dotted_name", "sizes.gap", "1/2 in", "item.plate.size", "(12.7 mm, 410 mm, 200 mm)"},
        Case{"a_number", "box.main.clearance.left", "10", "box.main.clearance.left", "10 mm"},
        Case{"an_expression_over_sizes", "box.main.clearance.left", "2*gap + 1 mm", "box.main.clearance.left", "25 mm"},
        Case{"a_quoted_expression", "box.main.clearance.left", "\"gap/2\"", "box.main.clearance.left", "6 mm"},
        Case{"a_bare_word", "box.main.frame.bottom_legs", "up", "box.main.frame.bottom_legs", "up"},
        Case{"a_key_that_the_text_leaves_out", "box.main.rails.margin", "4", "box.main.rails.margin", "4 mm"},
        Case{"a_key_of_a_table_that_the_text_leaves_out", "cutter.smallest_hole", "1.5", "cutter.smallest_hole", "1.5"},
        Case{"a_face", "box.main.face.left.closed_by", "plate", "box.main.face.left.closed_by", "plate"},
        Case{"true_and_false", "box.main.face.front.entry", "true", "box.main.face.front.entry", "true"},
        Case{"a_word_that_looks_like_a_number", "box.main.frame.material", "1.4301", "box.main.frame.material",
             "\"1.4301\""},
        Case{"a_text_that_looks_like_a_date", "revision", "2026-11-25", "revision", "\"2026-11-25\""},
        Case{"a_key_at_the_top", "title", "The other box", "title", "\"The other box\""},
        Case{"a_list", "item.block.size", "[160, 430, 220]", "item.block.size", "(160 mm, 430 mm, 220 mm)"},
        Case{"an_entry_of_a_list_of_values", "item.block.size.1", "160", "item.block.size", "(160 mm, 430 mm, 220 mm)"},
        Case{"an_entry_of_a_list_in_a_list", "item.block.rods.at.2.1", "130", "item.block.rods.at.002",
             "(130 mm, 24 mm)"},
        Case{"an_entry_of_a_list_of_tables", "box.main.row.1.count", "4", "box.main.row.001.count", "4"},
        Case{"an_entry_in_brackets", "item.block.keep_clear[1].depth", "55", "item.block.keep_clear.001.depth",
             "55 mm"},
        Case{"a_table_at_the_top", "lifting", "{ thread = \"M12\" }", "lifting.thread", "\"M12\""},
        Case{"a_pattern_in_braces", "cutter.file_name", "{mark}_{name}_{quantity}x", "cutter.file_name",
             "\"{mark}_{name}_{quantity}x\""},
        Case{"a_table_that_is_taken_away", "item.block.rods", "[]", "item.block.rods.thread", "(none)"},
        Case{"a_table_is_merged", "box.main.clearance", "{ left = 20 }", "box.main.clearance.left", "20 mm"},
        Case{"and_its_other_keys_stay", "box.main", "{ clearance = { left = 20 }, rails = { margin = 9 } }",
             "box.main.rails.margin", "9 mm"},
        Case{"a_thing_with_a_name_of_its_own", "item.shelf", "{ size = [50, 60, 70], mass = 2 }", "item.shelf.mass",
             "2 kg"},
        Case{"other_letters", "title", "Geh\xC3\xA4use", "title", "\"Geh\xC3\xA4use\""}),
    [](const auto& tested) { return tested.param.name; });

TEST(Arguments, of_a_table_leave_its_other_keys_alone) {
  const std::string text =
      test::spec_text({{"spec.toml", test::small_spec}}, {{"box.main.clearance", "{ left = 20 }"}});
  EXPECT_EQ(test::line_of(text, "box.main.clearance.right"), "9 mm");
}

TEST(Arguments, are_in_the_units_of_the_spec) {
  const std::string inches = std::string("units = \"in\"\n") + test::small_spec;
  const std::string text = test::spec_text({{"spec.toml", inches}}, {{"box.main.clearance.left", "2"}});
  EXPECT_EQ(test::line_of(text, "box.main.clearance.left"), "50.8 mm");
}

TEST(Arguments, read_units_in_quotes_as_without) {
  const test::Files files{{"spec.toml", test::small_spec}};
  for (const char* units : {"in", "\"in\"", "'in'"}) {
    const std::string text = test::spec_text(files, {{"units", units}, {"box.main.clearance.left", "2"}});
    EXPECT_EQ(test::line_of(text, "box.main.clearance.left"), "50.8 mm") << units;
  }
}

TEST(Arguments, give_turned_places_only_as_a_whole_list) {
  const std::string other = "fitup = 1\nstart_from = \"base.toml\"\nopposite_hand = \"left-right\"\n";
  const std::string base = std::string(test::small_spec) +
                           "\n[lifting]\nthread = \"M10\"\nat = [[23, 100], [23, 400], [500, 100], [500, 400]]\n";
  const test::Files files{{"spec.toml", other}, {"base.toml", base}};
  for (const char* key : {"lifting.at.1", "lifting.at.1.1", "lifting.at[2]"}) {
    const SpecResult refused = test::read_files(files, {{key, "[30, 100]"}});
    ASSERT_EQ(refused.diagnostics.all().size(), 1U) << key;
    EXPECT_EQ(refused.diagnostics.all()[0].id, "set-part-of-turned");
  }
  const std::string turned = test::spec_text(files);
  EXPECT_EQ(test::line_of(turned, "lifting.at.from_right"), "true") << turned;
  const std::string whole = test::spec_text(files, {{"lifting.at", "[[30, 100], [30, 400], [500, 100], [500, 400]]"}});
  EXPECT_EQ(test::line_of(whole, "lifting.at.from_right"), "(none)") << whole;
  EXPECT_EQ(test::line_of(test::spec_text({{"spec.toml", base}}, {{"lifting.at.1.1", "30"}}), "lifting.at"),
            "[(30 mm, 100 mm), (23 mm, 400 mm), (500 mm, 100 mm), (500 mm, 400 mm)]")
      << "a spec that is not turned over";
}

TEST(Arguments, may_be_given_in_any_order) {
  const test::Files files{{"spec.toml", test::small_spec}};
  EXPECT_EQ(test::spec_text(files, {{"gap", "9"}, {"box.main.clearance.left", "gap"}}),
            test::spec_text(files, {{"box.main.clearance.left", "gap"}, {"gap", "9"}}));
}

TEST(Arguments, of_a_size_are_pointed_at_where_what_follows_from_it_is_wrong) {
  std::string text = test::small_spec;
  text.replace(text.find("gap = 12"), 8, "gap = 12\nwide = \"thin + 1\"\nthin = 1\nfar = 3");
  text += "rails = { thickness = \"2*wide\", margin = \"far\" }\n";
  ASSERT_TRUE(test::read_files({{"spec.toml", text}}).spec) << "nothing is wrong as it stands there";
  const SpecResult result = test::read_files({{"spec.toml", text}}, {{"revision", "C"}, {"thin", "70"}});
  ASSERT_EQ(result.diagnostics.all().size(), 1U);
  const Diagnostic& d = result.diagnostics.all()[0];
  EXPECT_EQ(d.id, "out-of-range");
  EXPECT_NE(d.message.find("rails.thickness is 142 mm"), std::string::npos) << d.message;
  EXPECT_EQ(result.sources[static_cast<std::size_t>(d.place.source)].name, "--set");
  EXPECT_EQ(d.place.line, 2);
  EXPECT_EQ(d.place.column, 6);
  const SpecResult other = test::read_files({{"spec.toml", text}}, {{"far", "4"}});
  EXPECT_EQ(other.spec->boxes[0].rails.margin.place.source, 1) << "the argument";
  EXPECT_EQ(other.spec->boxes[0].rails.thickness.place.source, 0) << "no argument has a part in it";
}

struct Pointed {
  const char* name;
  const char* key;
  const char* value;
  const char* id;
  int column;
  int length;
};
class Wrong : public testing::TestWithParam<Pointed> {};

TEST_P(Wrong, argument_is_where_the_diagnostic_points) {
  const auto& [name, key, value, id, column, length] = GetParam();
  const SpecResult result =
      test::read_files({{"spec.toml", test::small_spec}}, {{"gap", "12"}, {key, value}, {"revision", "C"}});
  ASSERT_EQ(result.diagnostics.all().size(), 1U) << test::spec_text({{"spec.toml", test::small_spec}}, {{key, value}});
  const Diagnostic& d = result.diagnostics.all()[0];
  EXPECT_EQ(d.id, id) << d.message;
  ASSERT_LT(static_cast<std::size_t>(d.place.source), result.sources.size());
  EXPECT_EQ(result.sources[static_cast<std::size_t>(d.place.source)].name, "--set");
  EXPECT_EQ(d.place.line, 2) << "the second argument";
  EXPECT_EQ(d.place.column, column);
  EXPECT_EQ(d.place.length, length);
}

INSTANTIATE_TEST_SUITE_P(
    Places, Wrong,
    testing::Values(Pointed{"the_whole_value", "box.main.rails.margin", "900", "out-of-range", 23, 3},
                    Pointed{"a_name_in_an_expression", "box.main.rails.margin", "1 + gpa", "unknown-size", 27, 3},
                    Pointed{"a_name_in_a_quoted_expression", "box.main.rails.margin", "\"gpa\"", "unknown-size", 24, 3},
                    Pointed{"a_word", "box.main.frame.material", "S235JX", "unknown-material", 25, 6},
                    Pointed{"in_a_list", "item.block.size", "[1, 2, \"3 kg\"]", "wrong-quantity", 24, 6},
                    Pointed{"a_part_of_the_key", "box.main.rials.margin", "3", "unknown-key", 10, 5},
                    Pointed{"a_box_that_is_not_there", "as_built.other.front.width_top", "900", "unknown-box", 10, 5},
                    Pointed{"a_measure_that_is_not_there", "as_built.main.front.width", "900", "unknown-key", 21, 5},
                    Pointed{"an_inline_table", "box.main.rails", "{ margin = 3, width = 4 }", "unknown-key", 30, 5},
                    Pointed{"broken_toml", "item.block.size", "[1, 2", "syntax", 22, 1}),
    [](const auto& tested) { return tested.param.name; });

}  // namespace
}  // namespace fitup
