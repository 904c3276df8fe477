// The key table against the reader: each row's type, range, words, default and need are what the reader enforces.

#include "spec/keys.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>
#include <sstream>
#include <string>

#include "fitup/spec.h"

namespace fitup::spec {

void PrintTo(const Rule& rule, std::ostream* out) { *out << rule.key; }

namespace {

/// A spec with every key that can be absent but matters, by dotted key; lists of tables have one entry.
using Keys = std::map<std::string, std::string>;

Keys full_spec() {
  return {{"fitup", "1"},
          {"name", "\"box\""},
          {"item.block.size", "[150, 430, 220]"},
          {"item.block.mass", "23"},
          {"item.block.rods.thread", "\"M6\""},
          {"item.block.rods.at", "[[16, 24]]"},
          {"item.block.rods.projection", "20"},
          {"item.block.rods.strength", "\"8.8\""},
          {"item.block.rods.bore", "\"7 mm\""},
          {"space.size", "[\"1000 mm\", \"1000 mm\", \"1000 mm\"]"},
          {"space.at", "[10, 10, 10]"},
          {"space.in_the_way.at", "[0, 0, 0]"},
          {"space.in_the_way.size", "[10, 10, 10]"},
          {"box.main.sequence", "[\"block 1\"]"},
          {"item.block.foot_strips.sides", "\"left right\""},
          {"item.block.foot_strips.width", "16"},
          {"item.block.keep_clear.face", "\"front\""},
          {"item.block.keep_clear.at", "[43, 130]"},
          {"item.block.keep_clear.size", "[64, 44]"},
          {"item.block.keep_clear.depth", "40"},
          {"item.block.mounts.face", "\"back\""},
          {"item.block.mounts.at", "[[10, 10]]"},
          {"item.block.mounts.ear", "\"3 mm\""},
          {"section.rim.kind", "\"angle\""},
          {"section.rim.width", "\"60 mm\""},
          {"section.rim.thickness", "\"5 mm\""},
          {"box.main.frame.section", "\"L 40x40x4\""},
          {"box.main.frame.uprights", "\"40x4\""},
          {"box.main.frame.top_section", "\"L 40x40x4\""},
          {"box.main.frame.cross_bars.section", "\"40x4\""},
          {"box.main.frame.cross_bars.count", "2"},
          {"box.main.frame.braces.width", "\"40 mm\""},
          {"box.main.frame.braces.left", "\"rising\""},
          {"box.main.frame.gussets.thickness", "\"4 mm\""},
          {"box.main.clearance.left", "8"},
          {"box.main.clearance.right", "8"},
          {"box.main.clearance.front", "44"},
          {"box.main.clearance.back", "36"},
          {"box.main.clearance.top", "60"},
          {"box.main.rod_plates.thickness", "\"3 mm\""},
          {"box.main.face.front.closed_by", "\"cover\""},
          {"box.main.face.front.landing", "\"outward\""},
          {"box.main.face.front.seal.width", "\"15 mm\""},
          {"box.main.face.front.seal.thickness", "\"6 mm\""},
          {"box.main.face.back.closed_by", "\"cover\""},
          {"box.main.face.back.style", "\"flanged\""},
          {"box.main.face.back.flanges", "\"bent\""},
          {"box.main.face.back.bend.radius", "\"2 mm\""},
          {"box.main.face.front.openings.kind", "\"round\""},
          {"box.main.face.front.openings.at", "[200, 100]"},
          {"box.main.face.front.openings.diameter", "20"},
          {"box.main.face.front.screws.fixing", "\"nut strip\""},
          {"box.main.face.front.screws.at.left", "[40, 80]"},
          {"box.main.face.front.earth.at", "[40, 80]"},
          {"box.main.face.front.earth.thread", "\"M8\""},
          {"box.base.frame.section", "\"L 40x40x4\""},
          {"box.base.clearance.left", "8"},
          {"box.base.clearance.right", "8"},
          {"box.base.clearance.front", "44"},
          {"box.base.clearance.back", "36"},
          {"box.base.clearance.top", "60"},
          {"box.base.row.of", "\"block\""},
          {"box.main.on", "\"base\""},
          {"box.main.at", "[0, 0]"},
          {"box.main.bearers.section", "\"40x8\""},
          {"box.main.bearers.screw", "\"M8\""},
          {"box.main.welds.leg", "\"4 mm\""},
          {"box.base.face.left.closed_by", "\"plate\""},
          {"box.base.welds.stitch.length", "\"40 mm\""},
          {"box.base.welds.stitch.gap", "\"25 mm\""},
          {"box.base.face.left.stitch.length", "\"40 mm\""},
          {"box.base.face.left.stitch.gap", "\"25 mm\""},
          {"box.main.bay.front", "\"900 mm\""},
          {"box.main.bay.back", "\"900 mm\""},
          {"box.main.bay.left", "\"900 mm\""},
          {"box.main.bay.right", "\"900 mm\""},
          {"box.main.bay.top", "\"900 mm\""},
          {"box.main.bay.bottom", "\"900 mm\""},
          {"box.main.feet.thread", "\"M8\""},
          {"box.main.feet.width", "\"50 mm\""},
          {"box.main.face.front.lugs.thread", "\"M8\""},
          {"box.main.face.front.lugs.width", "\"50 mm\""},
          {"box.main.row.of", "\"block\""},
          {"box.main.row.count", "2"},
          {"box.main.row.turned", "90"},
          {"box.main.row.line", "1"},
          {"box.main.row.level", "1"},
          {"box.main.outside", "[\"1000 mm\", \"600 mm\", \"400 mm\"]"},
          {"lifting.points", "4"},
          {"loads.thrown.front", "3"},
          {"loads.thrown.bottom", "2"},
          {"loads.why", "\"a rule\""},
          {"loads.welds", "\"AWS D1.1\""},
          {"loads.pressure", "2"},
          {"loads.seal_pressure", "60"},
          {"print.bush", "\"12 mm\""},
          {"finish.kind", "\"powder\""},
          {"finish.thickness", "\"0.1 mm\""},
          {"prices.material", "2.5"},
          {"prices.bought.part", "\"SCR-M4x8\""},
          {"prices.bought.each", "0.05"},
          {"keep_apart.what", "\"block\""},
          {"keep_apart.from", "\"frame\""},
          {"keep_apart.least", "\"5 mm\""},
          {"cutter.sheets", "[[\"3000 mm\", \"1500 mm\"]]"},
          {"cutter.on_shelf.material", "\"S235JR\""},
          {"cutter.on_shelf.thickness", "[\"3 mm\"]"},
          {"bench.paper", "\"A3\""},
          {"bench.torque.thread", "\"M6\""},
          {"bench.torque.newton_metres", "4"},
          {"stock.lengths", "[\"6000 mm\", \"3000 mm\"]"},
          {"stock.shelf.section", "\"L 40x40x4\""},
          {"stock.shelf.thickness", "\"2 mm\""},
          {"stock.remnant.section", "\"40x4\""},
          {"stock.remnant.length", "\"2300 mm\""},
          {"as_built.main.front.width_bottom", "\"984 mm\""},
          {"as_built.main.front.width_top", "\"984 mm\""},
          {"as_built.main.front.height_left", "\"330 mm\""},
          {"as_built.main.front.height_right", "\"330 mm\""},
          {"as_built.main.front.diagonal_rising", "\"1037.9 mm\""},
          {"as_built.main.front.diagonal_falling", "\"1037.9 mm\""}};
}

std::string toml_of(const Keys& keys) {
  std::string text;
  std::map<std::string, std::string> lists;
  for (const auto& [key, value] : keys) {
    const std::size_t dot = key.rfind('.');
    const std::string table = key.substr(0, dot == std::string::npos ? 0 : dot);
    if (table == "box.main.row" || table == "box.base.row" || table == "item.block.keep_clear" ||
        table == "keep_apart" || table == "space.in_the_way" || table == "prices.bought" || table == "stock.remnant" || table == "stock.shelf" ||
        table == "cutter.on_shelf" || table == "bench.torque" || table == "box.main.face.front.openings" ||
        table == "box.main.face.front.earth") {
      std::string& entry = lists[table];
      entry += (entry.empty() ? "" : ", ") + key.substr(dot + 1) + " = " + value;
    } else {
      text += key + " = " + value + "\n";
    }
  }
  for (const auto& [table, entry] : lists) text += table + " = [{ " + entry + " }]\n";
  return text;
}

std::string concrete(std::string_view key) {
  std::string out(key);
  const auto replace = [&](std::string_view part, std::string_view by) {
    const std::size_t at = out.find(part);
    if (at != std::string::npos) out.replace(at, part.size(), by);
  };
  replace("sizes.NAME", "sizes.gap");
  replace("item.NAME", "item.block");
  replace("section.NAME", "section.rim");
  // A box with a seal has no intermittent seams.
  const bool without_gaps = key.find(".stitch") != std::string_view::npos;
  replace("box.NAME", without_gaps ? "box.base" : "box.main");
  replace("as_built.NAME", "as_built.main");
  // One cover cannot have a seal and bent flanges, or a seal without its landing.
  const bool without_seal =
      key.find(".bend") != std::string_view::npos || key.ends_with("FACE.style") || key.ends_with("FACE.landing");
  replace("FACE", without_gaps ? "left" : without_seal ? "back" : "front");
  return out;
}

/// As messages name it: an entry of a list of tables by its number.
std::string said(std::string_view key) {
  std::string out = concrete(key);
  for (const Rule& list : rules()) {
    const std::string around = concrete(list.key) + ".";
    if (list.type == Type::tables && out.starts_with(around)) out.insert(around.size(), "1.");
  }
  return out;
}

SpecResult read_with(std::string_view key, const std::string& value) {
  Keys keys = full_spec();
  keys[concrete(key)] = value;
  if (key == "box.NAME.face.FACE.openings.edge_strip") {
    keys[concrete("box.NAME.face.FACE.openings.kind")] = "\"hose\"";
  }
  if (key == "box.NAME.face.FACE.openings.kind") {  // what the other kinds need
    keys[concrete("box.NAME.face.FACE.openings.size")] = "[30, 6]";
    keys[concrete("box.NAME.face.FACE.openings.thread")] = "\"M20\"";
  }
  return read_spec("box.toml", toml_of(keys));
}

bool says(const SpecResult& result, std::string_view id, const std::string& part = "") {
  const auto& all = result.diagnostics.all();
  return std::any_of(all.begin(), all.end(),
                     [&](const Diagnostic& d) { return d.id == id && d.message.find(part) != std::string::npos; });
}

std::string all_of(const SpecResult& result) {
  std::string out;
  for (const Diagnostic& d : result.diagnostics.all()) out += render(d, result.sources, false);
  return out;
}

bool is_table(Type type) { return type == Type::table || type == Type::tables || type == Type::named; }

/// A value of the rule's type that holds this number.
std::string holding(const Rule& rule, double number) {
  std::ostringstream out;
  out.imbue(std::locale::classic());
  out.precision(12);
  switch (rule.type) {
    case Type::two_lengths: out << "[" << number << ", " << rule.range.high << "]"; break;
    case Type::three_lengths:
    case Type::three_measured: out << "[" << number << ", " << rule.range.high << ", " << rule.range.high << "]"; break;
    case Type::lengths: out << "[" << number << "]"; break;
    case Type::length_pairs: out << "[[" << number << ", " << rule.range.high << "]]"; break;
    default: out << number;
  }
  return out.str();
}

class EachKey : public testing::TestWithParam<Rule> {};

TEST_P(EachKey, takes_its_range_and_nothing_beyond) {
  const Rule& rule = GetParam();
  if (rule.range.low == 0 && rule.range.high == 0) return;
  const std::string key = said(rule.key);
  const double step = rule.type == Type::count ? 1 : 1e-3;
  const auto refused = [&](double number) {
    return says(read_with(rule.key, holding(rule, number)), "out-of-range", key);
  };
  EXPECT_TRUE(refused(rule.range.low - step)) << key;
  EXPECT_TRUE(refused(rule.range.high + step)) << key;
  EXPECT_FALSE(refused(rule.range.high)) << key;
  EXPECT_EQ(refused(rule.range.low), rule.range.above_low) << key;
  if (rule.range.above_low) {
    EXPECT_FALSE(refused(rule.range.low + step)) << key;
  }
}

TEST_P(EachKey, takes_its_words_and_no_other) {
  const Rule& rule = GetParam();
  if (rule.type != Type::word || rule.key == "opposite_hand") return;  // tests of its own: it needs another file
  std::set<std::string> texts;
  const auto words = words_of(rule.words);
  for (const std::string& word : words) {
    const SpecResult result = read_with(rule.key, "\"" + word + "\"");
    ASSERT_TRUE(result.spec) << all_of(result);
    texts.insert(to_text(*result.spec));
  }
  EXPECT_EQ(texts.size(), words.size()) << rule.key << ": each word must make a difference";
  EXPECT_TRUE(says(read_with(rule.key, "\"something\""), "unknown-word", said(rule.key)));
}

TEST(KeyTable, the_opposite_hand_knows_no_other_word) {
  EXPECT_TRUE(says(read_with("opposite_hand", "\"something\""), "unknown-word", "opposite_hand"));
}

TEST_P(EachKey, refuses_a_value_of_another_type_by_name) {
  const Rule& rule = GetParam();
  if (is_table(rule.type) && rule.key != "sizes") return;
  const SpecResult result = read_with(rule.key, "2026-11-25");
  EXPECT_TRUE(says(result, "wrong-type", said(rule.key))) << all_of(result);
  EXPECT_FALSE(result.spec);
}

TEST_P(EachKey, its_default_is_what_its_absence_means) {
  const Rule& rule = GetParam();
  if (rule.need != Need::filled || is_table(rule.type)) return;
  const bool in_quotes = rule.type != Type::yes_no;
  Keys keys = full_spec();
  keys.erase(concrete(rule.key));
  keys["box.main.rod_plates.back"] = "\"welded\"";  // so that the table is there without its thickness
  keys["lifting.thread"] = "\"M10\"";
  for (const UnitSystem shop : {UnitSystem::mm_kg, UnitSystem::in_lb}) {
    keys["shop"] = shop == UnitSystem::mm_kg ? "\"metric\"" : "\"inch\"";
    keys.erase(concrete(rule.key));
    const SpecResult absent = read_spec("box.toml", toml_of(keys));
    const std::string fallback(rule.fallback.of(shop));
    keys[concrete(rule.key)] = in_quotes ? "\"" + fallback + "\"" : fallback;
    const SpecResult written = read_spec("box.toml", toml_of(keys));
    ASSERT_TRUE(absent.spec) << all_of(absent);
    ASSERT_TRUE(written.spec) << all_of(written);
    EXPECT_EQ(to_text(*absent.spec), to_text(*written.spec)) << rule.key << " of " << keys["shop"];
  }
}

TEST_P(EachKey, is_missed_exactly_if_it_is_required) {
  const Rule& rule = GetParam();
  const std::string key = concrete(rule.key);
  Keys keys = full_spec();
  std::erase_if(keys, [&](const auto& entry) { return entry.first == key || entry.first.rfind(key + ".", 0) == 0; });
  const std::string last = key.substr(key.rfind('.') + 1);
  const SpecResult result = read_spec("box.toml", toml_of(keys));
  EXPECT_EQ(says(result, "missing-key", last + " ("), rule.need == Need::must || rule.need == Need::framed) << all_of(result);
}

INSTANTIATE_TEST_SUITE_P(Rules, EachKey, testing::ValuesIn(rules()), [](const auto& tested) {
  std::string name(tested.param.key);
  std::replace(name.begin(), name.end(), '.', '_');
  return name;
});

TEST(KeyTable, the_full_spec_of_these_tests_is_sound) {
  const SpecResult result = read_spec("box.toml", toml_of(full_spec()));
  EXPECT_TRUE(result.diagnostics.all().empty()) << all_of(result);
}

TEST(KeyTable, has_one_row_for_each_key_and_says_what_it_means) {
  std::set<std::string> keys;
  for (const KeyRow& row : key_table()) {
    EXPECT_TRUE(keys.insert(row.key).second) << row.key;
    EXPECT_FALSE(row.type.empty()) << row.key;
    EXPECT_GE(row.meaning.size(), 8U) << row.key;
    EXPECT_FALSE(row.required && !row.fallback.empty()) << row.key << ": required and yet with a default";
  }
  EXPECT_EQ(keys.size(), rules().size());
}

TEST(KeyTable, the_table_of_each_key_has_a_row_of_its_own) {
  std::set<std::string_view> keys;
  for (const Rule& rule : rules()) keys.insert(rule.key);
  for (const Rule& rule : rules()) {
    const std::size_t dot = rule.key.rfind('.');
    if (dot != std::string_view::npos) {
      EXPECT_EQ(keys.count(rule.key.substr(0, dot)), 1U) << rule.key;
    }
  }
}

TEST(KeyTable, ranges_are_said_with_their_unit) {
  std::map<std::string, KeyRow> rows;
  for (const KeyRow& row : key_table()) rows[row.key] = row;
  EXPECT_EQ(rows["box.NAME.rails.thickness"].range, "1 mm to 50 mm");
  EXPECT_EQ(rows["box.NAME.rails.thickness"].fallback, "5 mm");
  EXPECT_EQ(rows["item.NAME.mass"].range, "more than 0 kg up to 50000 kg");
  EXPECT_EQ(rows["box.NAME.frame.bottom_legs"].range, "down, up");
  EXPECT_EQ(rows["lifting.points"].range, "2 to 4");
  EXPECT_TRUE(rows["box.NAME.frame.section"].required);
}

TEST(KeyTable, each_place_in_a_box_says_what_the_opposite_hand_does_to_it) {
  for (const Rule& rule : rules()) {
    if (rule.key.rfind("item.", 0) != 0 && rule.key.ends_with(".at")) {
      EXPECT_NE(rule.hand, Hand::stays) << rule.key;
    }
  }
}

TEST(Faces, have_the_words_of_the_key_table) {
  std::string words;
  for (const Face face : all_faces) words += (words.empty() ? "" : ", ") + std::string(to_text(face));
  for (const Rule& rule : rules()) {
    if (rule.key == "item.NAME.keep_clear.face") {
      EXPECT_EQ(rule.words, words);
    }
  }
}

}  // namespace
}  // namespace fitup::spec
