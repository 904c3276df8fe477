// start_from and like: a spec that is put together from parts is the same as the one that is written out.

#include <gtest/gtest.h>

#include <algorithm>

#include "spec/spec_of.h"

namespace fitup {
namespace {

using test::Files;

struct Case {
  const char* name;
  Files files;
  std::vector<std::pair<const char*, const char*>> lines;  // of the canonical text
};
class Merged : public testing::TestWithParam<Case> {};

TEST_P(Merged, spec_says_this) {
  Files files = GetParam().files;
  files.emplace("base.toml", test::small_spec);
  const std::string text = test::spec_text(files);
  for (const auto& [key, expected] : GetParam().lines) EXPECT_EQ(test::line_of(text, key), expected) << text;
}

const Case cases[] = {
    {"nothing_else_is_the_other", {{"spec.toml", "start_from = \"base.toml\""}}, {{"item.block.mass", "23 kg"}}},
    {"a_value_is_replaced",
     {{"spec.toml", "start_from = \"base.toml\"\nbox.main.clearance.left = 20"}},
     {{"box.main.clearance.left", "20 mm"}, {"box.main.clearance.right", "9 mm"}}},
    {"an_array_is_replaced",
     {{"spec.toml", "start_from = \"base.toml\"\nbox.main.row = [{ of = \"plate\" }]"}},
     {{"box.main.row.001.of", "\"plate\""}, {"box.main.row.001.count", "1"}, {"box.main.row.001.between", "(none)"}}},
    {"a_size_of_its_own_reaches_expressions_of_the_other",
     {{"spec.toml", "start_from = \"base.toml\"\nsizes.gap = 15"}},
     {{"item.plate.size", "(15 mm, 410 mm, 200 mm)"}}},
    {"a_new_item_and_a_new_table",
     {{"spec.toml", "start_from = \"base.toml\"\nitem.pump = { size = [1, 2, \"gap\"], mass = 3 }\nlifting = {}"}},
     {{"item.pump.size", "(1 mm, 2 mm, 12 mm)"}, {"lifting.thread", "\"M10\""}}},
    {"an_empty_list_takes_a_table_away",
     {{"spec.toml", "start_from = \"lifted.toml\"\nlifting = []\nitem.block.rods = []"},
      {"lifted.toml", "start_from = \"base.toml\"\nlifting = { thread = \"M12\" }"}},
     {{"lifting.thread", "(none)"}, {"item.block.rods.thread", "(none)"}, {"item.block.mass", "23 kg"}}},
    {"and_a_single_value_so_that_its_rule_holds_again",
     {{"spec.toml", "start_from = \"lifted.toml\"\nlifting.boss_height = []"},
      {"lifted.toml", "start_from = \"base.toml\"\nlifting = { thread = \"M12\", boss_height = 40 }"}},
     {{"lifting.thread", "\"M12\""}, {"lifting.boss_height", "(none)"}}},
    {"what_was_taken_away_may_be_put_there_anew",
     {{"spec.toml", "start_from = \"bare.toml\"\nlifting = { points = 4 }"},
      {"bare.toml", "start_from = \"lifted.toml\"\nlifting = []"},
      {"lifted.toml", "start_from = \"base.toml\"\nlifting = { thread = \"M12\" }"}},
     {{"lifting.thread", "\"M10\""}}},
    {"what_a_job_is_called_is_not_taken_over",
     {{"spec.toml", "start_from = \"named.toml\""},
      {"named.toml", "start_from = \"base.toml\"\nname = \"front\"\ntitle = \"Front\"\nrevision = \"D\""}},
     {{"name", "\"spec\""}, {"title", "\"spec\""}, {"revision", "\"A\""}}},
    {"what_was_measured_on_a_frame_is_not_taken_over",
     {{"spec.toml", "start_from = \"measured.toml\""},
      {"measured.toml",
       "start_from = \"base.toml\"\n[as_built.main.front]\nwidth_bottom = 985\nwidth_top = 985\nheight_left = "
       "330\nheight_right = 330\ndiagonal_rising = 1038"}},
     {{"as_built.main.front.width_bottom", "(none)"}}},
    {"a_chain_in_folders",
     {{"spec.toml", "start_from = \"a/one.toml\""},
      {"a/one.toml", "start_from = \"b/two.toml\"\nbox.main.clearance.left = 1"},
      {"a/b/two.toml", "start_from = \"../../base.toml\"\nbox.main.clearance = { left = 2, right = 3 }"}},
     {{"box.main.clearance.left", "1 mm"}, {"box.main.clearance.right", "3 mm"}, {"box.main.clearance.top", "60 mm"}}},
    {"a_bare_number_is_in_the_units_of_its_file",
     {{"spec.toml", "start_from = \"base.toml\"\nunits = \"in\"\nbox.main.clearance.left = 2\nitem.block.mass = 10"}},
     {{"units", "in"},
      {"box.main.clearance.left", "50.8 mm"},
      {"box.main.clearance.right", "9 mm"},
      {"item.block.mass", "4.5359237 kg"},
      {"item.plate.mass", "1.1 kg"}}},
    {"a_size_in_inches_in_an_expression_in_millimetres",
     {{"spec.toml",
       "start_from = \"base.toml\"\nunits = \"in\"\nsizes.gap = 0.5\nbox.main.clearance.left = \"gap/2 + 1\""}},
     {{"item.plate.size", "(12.7 mm, 410 mm, 200 mm)"}, {"box.main.clearance.left", "31.75 mm"}}},
    {"a_size_in_millimetres_in_an_expression_in_inches",
     {{"spec.toml",
       "start_from = \"base.toml\"\nunits = \"in\"\nbox.main.clearance = { left = \"2*gap + 1\", right = \"gap/3\" }"}},
     {{"box.main.clearance.left", "49.4 mm"}, {"box.main.clearance.right", "4 mm"}}},
    {"a_count_from_sizes_stays_a_count",
     {{"spec.toml",
       "start_from = \"base.toml\"\nunits = \"in\"\nbox.main.row = [{ of = \"block\", count = \"gap/4 + 1\" }]"}},
     {{"box.main.row.001.count", "4"}}},
    {"units_go_on_down_the_chain",
     {{"spec.toml", "start_from = \"inch.toml\"\nbox.main.clearance.left = 2"},
      {"inch.toml", "start_from = \"base.toml\"\nunits = \"in\""}},
     {{"box.main.clearance.left", "50.8 mm"}, {"units", "in"}}},
    {"like_takes_all_but_what_it_says",
     {{"spec.toml", "start_from = \"base.toml\"\n[item.half]\nlike = \"block\"\nsize = [150, 310, 220]\nmass = 16.5"}},
     {{"item.half.size", "(150 mm, 310 mm, 220 mm)"},
      {"item.half.mass", "16.5 kg"},
      {"item.half.rods.thread", "\"M6\""},
      {"item.half.keep_clear.001.depth", "40 mm"},
      {"item.block.mass", "23 kg"}}},
    {"like_merges_tables",
     {{"spec.toml", "start_from = \"base.toml\"\n[item.half]\nlike = \"block\"\nrods.projection = 25"}},
     {{"item.half.rods.projection", "25 mm"}, {"item.half.rods.thread", "\"M6\""}, {"item.half.mass", "23 kg"}}},
    {"like_in_a_chain_in_any_order",
     {{"spec.toml",
       "start_from = \"base.toml\"\n[item.a]\nlike = \"b\"\n[item.b]\nlike = \"block\"\nmass = 5\n[item.z]\nlike = "
       "\"a\""}},
     {{"item.a.mass", "5 kg"}, {"item.z.mass", "5 kg"}, {"item.z.size", "(150 mm, 430 mm, 220 mm)"}}},
    {"like_sees_what_stands_in_this_file",
     {{"base.toml", std::string(test::small_spec) + "[item.half]\nlike = \"block\"\n"},
      {"spec.toml", "start_from = \"base.toml\"\nitem.block.rods.projection = 33"}},
     {{"item.half.rods.projection", "33 mm"}}},
    {"the_same_size_needs_no_mass",
     {{"spec.toml", "start_from = \"base.toml\"\n[item.half]\nlike = \"block\"\nsize = [\"15 cm\", 430, 220]"}},
     {{"item.half.mass", "23 kg"}}},
    {"measured_values_keep_their_tolerance",
     {{"spec.toml",
       "start_from = \"base.toml\"\nitem.block.size = [{ value = \"gap*12\", within = 0.5 }, 430, { value = 220 }]\n"
       "box.main.clearance.left = { value = 8, within = \"1/16 in\" }"}},
     {{"item.block.size", "(144 mm, 430 mm, 220 mm)"},
      {"item.block.size.within.001", "0.5 mm"},
      {"item.block.size.within.002", "(none)"},
      {"box.main.clearance.left", "8 mm"},
      {"box.main.clearance.left.within", "1.5875 mm"},
      {"box.main.clearance.right.within", "(none)"}}},
};

INSTANTIATE_TEST_SUITE_P(Cases, Merged, testing::ValuesIn(cases), [](const auto& tested) { return tested.param.name; });

TEST(StartFrom, a_spec_in_two_files_is_the_same_as_in_one) {
  std::string whole = test::small_spec;
  const std::size_t at = whole.find("[item.plate]");
  const Files parts{{"spec.toml", "start_from = \"rest.toml\"\n" + whole.substr(0, at)},
                    {"rest.toml", whole.substr(at)}};
  EXPECT_EQ(test::spec_text(parts), test::spec_text({{"spec.toml", whole}}));
}

TEST(StartFrom, a_diagnostic_points_into_the_file_that_is_wrong) {
  Files files{{"spec.toml", "start_from = \"base.toml\"\nbox.main.clearance.left = -1"},
              {"base.toml", test::small_spec}};
  std::string& base = files["base.toml"];
  base.replace(base.find("mass = 23"), 9, "mass = -2");
  const SpecResult result = test::read_files(files);
  ASSERT_EQ(result.diagnostics.all().size(), 2U);
  const Diagnostic& own = result.diagnostics.all()[0];
  const Diagnostic& others = result.diagnostics.all()[1];
  EXPECT_EQ(result.sources.at(static_cast<std::size_t>(own.place.source)).name, "spec.toml");
  EXPECT_EQ(own.place.line, 2);
  EXPECT_EQ(result.sources.at(static_cast<std::size_t>(others.place.source)).name, "base.toml");
  EXPECT_EQ(others.place.line, 6);
}

TEST(StartFrom, a_missing_file_is_trouble_with_a_file_and_names_the_chain) {
  const SpecResult result = test::read_files(
      {{"spec.toml", "start_from = \"a/middle.toml\""}, {"a/middle.toml", "\n  start_from = \"none.toml\""}});
  EXPECT_TRUE(result.file_trouble);
  ASSERT_EQ(result.diagnostics.all().size(), 1U);
  const Diagnostic& d = result.diagnostics.all()[0];
  EXPECT_EQ(d.id, "start-from-unreadable");
  EXPECT_NE(d.message.find("spec.toml starts from a/middle.toml, which starts from a/none.toml"), std::string::npos)
      << d.message;
  EXPECT_EQ(result.sources.at(static_cast<std::size_t>(d.place.source)).name, "a/middle.toml");
  EXPECT_EQ(d.place.line, 2);
}

TEST(StartFrom, without_a_reader_says_so) {
  const SpecResult result = read_spec("spec.toml", "start_from = \"base.toml\"");
  EXPECT_FALSE(result.spec);
  EXPECT_TRUE(result.file_trouble);
}

TEST(StartFrom, a_chain_of_eight_files_is_read) {
  Files files{{"8.toml", test::small_spec}};
  const auto name = [](int i) { return i == 1 ? std::string("spec.toml") : std::to_string(i) + ".toml"; };
  for (int i = 1; i < 8; ++i) files[name(i)] = "start_from = \"" + name(i + 1) + "\"\n";
  EXPECT_TRUE(test::read_files(files).spec) << test::spec_text(files);
}

TEST(Like, may_come_from_an_argument) {
  const Files files{{"spec.toml", std::string(test::small_spec) + "[item.half]\nmass = 5\n"}};
  const std::string text = test::spec_text(files, {{"item.half.like", "block"}});
  EXPECT_EQ(test::line_of(text, "item.half.rods.thread"), "\"M6\"") << text;
  EXPECT_EQ(test::line_of(text, "item.half.mass"), "5 kg");
}

TEST(Like, that_would_copy_without_end_is_refused) {
  std::string text = std::string(test::small_spec) + "[item.a0]\nlike = \"block\"\nfoot_strips = { x = [";
  for (int i = 0; i < 20000; ++i) text += "1,";
  text += "] }\n";
  for (int i = 1; i < 150; ++i) text += "[item.b" + std::to_string(i) + "]\nlike = \"a0\"\n";
  const SpecResult result = test::read_files({{"spec.toml", text}});
  const auto& all = result.diagnostics.all();
  EXPECT_TRUE(std::any_of(all.begin(), all.end(), [](const Diagnostic& d) { return d.id == "too-many"; }));
}

}  // namespace
}  // namespace fitup
