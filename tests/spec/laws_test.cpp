// What must hold for any spec: its text form does not depend on how the same thing was written.

#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>
#include <string>
#include <vector>

#include "fitup/spec.h"

namespace fitup {
namespace {

std::string canonical(const std::string& text, const std::vector<Override>& overrides = {}) {
  const SpecResult result = read_spec("spec.toml", text, overrides);
  std::string said;
  for (const Diagnostic& d : result.diagnostics.all()) said += render(d, result.sources, false);
  EXPECT_TRUE(result.spec) << said;
  return result.spec ? to_text(*result.spec) : said;
}

const char* const metric = R"(
fitup = 1
name = "pump-box"
[sizes]
gap = 12.7
[item.pump]
size = [152.4, 431.8, 4.7625]
mass = 22.6796185
[item.plate]
size = ["gap", 400, 200]
mass = 1
[box.main]
row = [{ of = "pump", count = 2, between = "plate" }, { of = "pump", gap = 5 }]
clearance = { left = 8, right = 8, front = 44, back = 36, top = 60 }
frame = { section = "L 40x40x4" }
)";

TEST(SpecLaw, units_and_fractions_do_not_change_the_box) {
  const std::string respelled = R"(
fitup = 1
name = "pump-box"
[sizes]
gap = "1/2 in"
[item.pump]
size = ["6 in", "1 ft + 5 in", "3/16 in"]
mass = "50 lb"
[item.plate]
size = ["2*gap/2", "0.4 m", "20 cm"]
mass = "1000 g"
[box.main]
row = [{ of = "pump", count = "1 + 1", between = "plate" }, { of = "pump", gap = "0.5 cm" }]
clearance = { left = "8 mm", right = "16/2 mm", front = "40 + 4 mm", back = "3 * 12", top = "(2*10 + 10) * 2" }
frame = { section = "l40x40x4", uprights = "40 x 4", cope_gap = "1 mm" }
)";
  EXPECT_EQ(canonical(metric), canonical(respelled));
}

// What is not stated is no question of spelling: whose sizes it falls to is said by `shop`.
TEST(SpecLaw, a_spec_in_inches_describes_the_same_box_of_the_same_shop) {
  std::string in_inches = R"(
fitup = 1
name = "pump-box"
units = "in"
shop = "metric"
[sizes]
gap = "1/2"
[item.pump]
size = [6, 17, "3/16"]
mass = 50
[item.plate]
size = ["gap", "400 mm", "200 mm"]
mass = "1 kg"
[box.main]
row = [{ of = "pump", count = 2, between = "plate" }, { of = "pump", gap = "5 mm" }]
clearance = { left = "8 mm", right = "8 mm", front = "44 mm", back = "36 mm", top = "60 mm" }
frame = { section = "L 40x40x4" }
)";
  std::string expected = canonical(metric);
  const std::size_t at = expected.find("\nunits = mm") + 1;
  ASSERT_NE(at, 0U);
  expected.replace(at, 10, "units = in");
  expected.insert(expected.find("\ntitle = ") + 1, "shop = \"metric\"\n");
  EXPECT_EQ(canonical(in_inches), expected);
}

std::string value_of(const std::string& text, const std::string& key) {
  const std::size_t at = ("\n" + text).find("\n" + key + " = ");
  if (at == std::string::npos) return "";
  const std::size_t begin = at + key.size() + 3;
  return text.substr(begin, text.find('\n', begin) - begin);
}

TEST(SpecLaw, what_is_not_stated_falls_to_the_sizes_of_the_shop) {
  const std::string of_metric = canonical(metric);
  const std::string of_inch = canonical(metric, {{"shop", "inch"}});
  EXPECT_EQ(value_of(of_inch, "units"), "mm");
  EXPECT_EQ(value_of(of_metric, "box.main.frame.material"), "\"S235JR\"");
  EXPECT_EQ(value_of(of_inch, "box.main.frame.material"), "\"A36\"");
  EXPECT_EQ(value_of(of_metric, "box.main.face.front.screws.thread"), "\"M4\"");
  EXPECT_EQ(value_of(of_inch, "box.main.face.front.screws.thread"), "\"#8-32\"");
  EXPECT_EQ(value_of(of_inch, "cutter.units"), "in");
  // 14 gauge of steel is 0.0747 in (Manufacturers' Standard Gauge).
  EXPECT_EQ(value_of(of_inch, "box.main.face.front.thickness"), "1.89738 mm");
  // What is stated stays as it is stated.
  EXPECT_EQ(canonical(metric, {{"shop", "inch"}, {"box.main.frame.material", "S235JR"}}).find("A36"),
            std::string::npos);
}

TEST(SpecLaw, without_a_shop_the_units_of_the_whole_spec_say_which) {
  EXPECT_EQ(canonical(metric, {{"shop", "metric"}}), canonical(metric));
  // Bare numbers stay what the file that they stand in says.
  const SpecFiles files = [](const std::string&) -> Result<std::string> { return std::string(metric); };
  const auto other = [&](const std::string& text) {
    const SpecResult result = read_spec("other.toml", text, {}, files);
    EXPECT_TRUE(result.spec);
    return result.spec ? to_text(*result.spec) : std::string{};
  };
  const std::string begun = "fitup = 1\nstart_from = \"base.toml\"\n";
  const std::string in_inches = other(begun + "units = \"in\"\n");
  EXPECT_EQ(value_of(in_inches, "box.main.face.front.screws.thread"), "\"#8-32\"");
  EXPECT_EQ(value_of(in_inches, "box.main.clearance.front"), value_of(other(begun), "box.main.clearance.front"));
  const std::string kept = other(begun + "units = \"in\"\nshop = \"metric\"\n");
  EXPECT_EQ(value_of(kept, "box.main.face.front.screws.thread"), "\"M4\"");
}

TEST(SpecLaw, the_order_of_tables_and_keys_does_not_matter) {
  const std::string reordered = R"(
name = "pump-box"
fitup = 1
[box.main]
frame = { section = "L 40x40x4" }
clearance = { top = 60, back = 36, front = 44, right = 8, left = 8 }
row = [{ between = "plate", count = 2, of = "pump" }, { gap = 5, of = "pump" }]
[item.plate]
mass = 1
size = ["gap", 400, 200]
[item.pump]
mass = 22.6796185
size = [152.4, 431.8, 4.7625]
[sizes]
gap = 12.7
)";
  EXPECT_EQ(canonical(metric), canonical(reordered));
}

TEST(SpecLaw, the_order_of_the_row_does_matter) {
  std::string turned = metric;
  const std::string row = R"({ of = "pump", count = 2, between = "plate" }, { of = "pump", gap = 5 })";
  const std::string other = R"({ of = "pump", gap = 5 }, { of = "pump", count = 2, between = "plate" })";
  turned.replace(turned.find(row), row.size(), other);
  EXPECT_NE(canonical(metric), canonical(turned));
}

TEST(SpecLaw, a_default_that_is_written_out_changes_nothing) {
  std::string written = metric;
  const std::string frame = R"(frame = { section = "L 40x40x4" })";
  written.replace(written.find(frame), frame.size(),
                  R"(frame = { section = "L 40x40x4", uprights = "40x4", bottom_legs = "down", material = "S235JR" }
build = "framed"
rails = { thickness = 5, margin = 3 }
face.front = { entry = false, closed_by = "open", screws = { thread = "M4" } })");
  EXPECT_EQ(canonical(metric), canonical(written));
}

TEST(SpecLaw, an_argument_is_as_good_as_the_text) {
  std::string edited = metric;
  const std::string size = "gap = 12.7";
  edited.replace(edited.find(size), size.size(), "gap = \"9 mm\"");
  EXPECT_EQ(canonical(metric, {{"gap", "9"}}), canonical(edited));
  EXPECT_NE(canonical(metric, {{"gap", "9"}}), canonical(metric));
}

TEST(SpecLaw, the_text_form_is_sorted_and_says_each_key_once) {
  std::vector<std::string> keys;
  std::istringstream lines(canonical(metric));
  for (std::string line; std::getline(lines, line);) keys.push_back(line.substr(0, line.find(" = ")));
  EXPECT_TRUE(std::is_sorted(keys.begin(), keys.end()));
  EXPECT_EQ(std::adjacent_find(keys.begin(), keys.end()), keys.end());
  EXPECT_GT(keys.size(), 60U);
}

TEST(SpecLaw, comments_blanks_and_line_ends_do_not_matter) {
  std::string text = metric;
  for (std::size_t at = 0; (at = text.find('\n', at)) != std::string::npos; at += 14)
    text.replace(at, 1, "  # comment\r\n\n");
  EXPECT_EQ(canonical(metric), canonical(text));
}

struct FileName {
  const char* name;
  const char* file;
  const char* expected;
};
class NameFromFile : public testing::TestWithParam<FileName> {};

TEST_P(NameFromFile, is_usable) {
  std::string text = metric;
  text.replace(text.find("name = \"pump-box\"\n"), 18, "");
  const SpecResult result = read_spec(GetParam().file, text);
  ASSERT_TRUE(result.spec);
  EXPECT_EQ(result.spec->name, GetParam().expected);
  EXPECT_EQ(result.spec->title, GetParam().expected);
}

INSTANTIATE_TEST_SUITE_P(Names, NameFromFile,
                         testing::Values(FileName{"plain", "front-box.toml", "front-box"},
                                         FileName{"in_a_folder", "../a.b/front-box.toml", "front-box"},
                                         FileName{"with_blanks", "my front  box.toml", "my-front-box"},
                                         FileName{"with_other_letters", "Geh\xC3\xA4use.toml", "Geh-use"},
                                         FileName{"hidden", ".toml", "enclosure"}, FileName{"a_pipe", "-", "enclosure"},
                                         FileName{"no_end", "box", "box"}, FileName{"empty", "", "enclosure"}),
                         [](const auto& tested) { return tested.param.name; });

}  // namespace
}  // namespace fitup
