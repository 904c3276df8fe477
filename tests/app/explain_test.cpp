// explain: every key can be asked for, in every way that a user might write it.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "app/commands.h"
#include "app/key_lookup.h"
#include "fitup/tables.h"

namespace fitup::app {
namespace {

using testing::HasSubstr;

Outcome explained(const std::string& key) { return explain({{}, key}); }

TEST(Explain, KnowsEveryKeyOfTheTable) {
  ASSERT_FALSE(key_table().empty());
  for (const KeyRow& row : key_table()) {
    const Outcome outcome = explained(row.key);
    EXPECT_EQ(outcome.status, ExitStatus::fine) << row.key;
    EXPECT_THAT(outcome.text, HasSubstr(row.key));
    EXPECT_THAT(outcome.text, HasSubstr(row.type));
    EXPECT_THAT(outcome.text, HasSubstr(row.meaning));
    const std::string presence = row.required           ? "must be given"
                                 : row.fallback.empty() ? "may be left out"
                                                        : "default " + row.fallback;
    EXPECT_THAT(outcome.text, HasSubstr(presence)) << row.key;
    EXPECT_EQ(outcome.text.find("of an inch shop " + row.inch_fallback + "\n") != std::string::npos,
              row.inch_fallback != row.fallback)
        << row.key << ": " << outcome.text;
  }
  EXPECT_THAT(explained("rails.thickness").text, HasSubstr("default 5 mm, of an inch shop 3/16 in\n"));
}

TEST(Explain, EveryRowSaysWhatItIs) {
  std::set<std::string> seen;
  for (const KeyRow& row : key_table()) {
    EXPECT_TRUE(seen.insert(row.key).second) << row.key << " stands twice";
    EXPECT_FALSE(row.type.empty()) << row.key;
    EXPECT_FALSE(row.meaning.empty()) << row.key;
    EXPECT_FALSE(row.required && !row.fallback.empty()) << row.key << " is required and has a default";
  }
}

TEST(Explain, TheListNamesEveryKeyUnderItsTable) {
  const std::string list = explain({}).text;
  for (const KeyRow& row : key_table()) {
    if (is_table(row)) continue;
    const std::string table = table_of(row.key).empty() ? "at the top of the file" : "[" + table_of(row.key) + "]";
    const std::size_t heading = ("\n" + list).find("\n" + table);
    ASSERT_NE(heading, std::string::npos) << table;
    const std::string group = list.substr(heading, list.find("\n\n", heading) - heading);
    EXPECT_THAT(group, HasSubstr("\n  " + last_word(row.key) + " ")) << row.key;
  }
}

TEST(Explain, ANameOfTheUsersOwnStandsForNAME) {
  const auto rows = find_keys("box.main.rails.thickness");
  ASSERT_EQ(rows.size(), 1U);
  EXPECT_EQ(rows.front()->key, "box.NAME.rails.thickness");
}

TEST(Explain, ATableListsItsKeys) {
  const auto rows = find_keys("[box.main.rails]");
  EXPECT_GE(rows.size(), 3U);
  for (const KeyRow* row : rows) EXPECT_THAT(row->key, testing::StartsWith("box.NAME.rails"));
}

TEST(Explain, ALastWordAloneFindsEveryKeyThatEndsInIt) {
  const auto rows = find_keys("cope_gap");
  ASSERT_EQ(rows.size(), 1U);
  EXPECT_THAT(rows.front()->key, HasSubstr("frame.cope_gap"));
}

TEST(Explain, ASuffixSaysAsMuchAsTheWholeKey) {
  for (const char* whole : {"box.NAME.rails", "box.NAME.rod_plates", "item.NAME.keep_clear", "lifting.thread"}) {
    const std::string suffix = last_word(whole);
    for (const KeyRow* row : find_keys(whole)) {
      EXPECT_THAT(find_keys(suffix), testing::Contains(row)) << suffix << " leaves out " << row->key;
    }
  }
  EXPECT_THAT(explained("rails").text, HasSubstr("box.NAME.rails.outer_width"));
}

TEST(Explain, AnUnknownKeyIsAnErrorThatNamesTheNearest) {
  const Outcome outcome = explained("box.NAME.rails.thicknes");
  EXPECT_EQ(outcome.status, ExitStatus::wrong_input);
  ASSERT_EQ(outcome.diagnostics.all().size(), 1U);
  EXPECT_THAT(outcome.diagnostics.all().front().message, HasSubstr("did you mean \"box.NAME.rails.thickness\"?"));
}

TEST(Explain, JsonHoldsTheRowsAsData) {
  const auto json = nlohmann::json::parse(to_json(explain({})));
  ASSERT_EQ(json["keys"].size(), key_table().size());
  for (std::size_t i = 0; i < key_table().size(); ++i) {
    EXPECT_EQ(json["keys"][i]["key"], key_table()[i].key);
    EXPECT_EQ(json["keys"][i]["required"], key_table()[i].required);
  }
}

TEST(Explain, ListsWhatASectionAThreadOrAMaterialMayBe) {
  for (const Material& m : tables::materials())
    EXPECT_NE(explained("box.NAME.frame.material").text.find(m.name), std::string::npos) << m.name;
  for (const Section& s : tables::sections()) {
    EXPECT_NE(explained("box.NAME.frame.uprights").text.find(s.designation), std::string::npos) << s.designation;
    if (s.shape == SectionShape::flat) continue;
    EXPECT_NE(explained("box.NAME.frame.section").text.find(s.designation), std::string::npos) << s.designation;
  }
  EXPECT_NE(explained("item.NAME.rods.thread").text.find("M6"), std::string::npos);
  EXPECT_NE(explained("lifting.thread").text.find("M10"), std::string::npos);
  EXPECT_EQ(explained("item.NAME.mass").text.find("there are"), std::string::npos);
}

}  // namespace
}  // namespace fitup::app
