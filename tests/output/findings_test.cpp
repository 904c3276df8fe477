// Findings as JSON and as text.
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "output/findings_files.h"
#include "output/sample.h"

namespace fitup::output {
namespace {

using nlohmann::json;

TEST(FindingsJson, HasTheKeysOfTheSchema) {
  const json list = json::parse(findings_json(sample::failing()));
  ASSERT_EQ(list.size(), 2U);
  const json& fail = list[1];
  EXPECT_EQ(fail["check"], "overlap");
  EXPECT_EQ(fail["verdict"], "fail");
  EXPECT_EQ(fail["value"], 0.2);
  EXPECT_EQ(fail["limit"], 0.0);
  EXPECT_EQ(fail["unit"], "mm");
  EXPECT_EQ(fail["source"], "two solids cannot be in one place");
  EXPECT_EQ(fail["parts"], json::array({"ITM01 block 1", "ANG01 left bottom"}));
  EXPECT_EQ(fail["place"], json::array({1.0, 2.5, 0.0}));
  EXPECT_EQ(fail["key"], "box.main.row");
  EXPECT_EQ(fail["remedy"], (json{{"key", "box.main.row.at"}, {"value", "[8.2, 44, 5]"}, {"marginal", json::array()}}));
  for (const char* key : {"value", "limit", "unit", "source", "place", "key", "remedy"}) {
    EXPECT_TRUE(list[0].contains(key) && list[0][key].is_null()) << key;
  }
  EXPECT_FALSE(fail.contains("line"));
  EXPECT_FALSE(fail.contains("column"));
}

TEST(FindingsJson, CountsVerdictsAndPairs) {
  Findings findings = sample::failing();
  findings.stats = {7, 5, 1};
  const json file = json::parse(findings_json_file(findings, sample::info()));
  EXPECT_EQ(file["counts"], (json{{"fail", 1}, {"marginal", 0}, {"not checked", 0}, {"pass", 1}}));
  EXPECT_EQ(file["pairs"], (json{{"instances", 7}, {"near", 5}, {"by_kernel", 1}}));
  EXPECT_EQ(file["spec_hash"], std::string(64, 'a'));
}

TEST(FindingsJson, SurvivesBytesThatAreNotUtf8) {
  Findings findings = sample::passing();
  findings.all[0].message = "broken \xFF name";
  EXPECT_TRUE(json::accept(findings_json(findings)));
}

TEST(FindingsText, PutsTheWorstFirstWithItsMeasureAndRemedy) {
  EXPECT_EQ(findings_text(sample::failing()),
            "1 fail, 0 marginal, 0 not checked, 1 pass\n"
            "\n"
            "fail         overlap: two parts share space\n"
            "  measured   0.2 mm, limit 0 mm, from two solids cannot be in one place\n"
            "  parts      ITM01 block 1, ANG01 left bottom\n"
            "  place      x 1, y 2.5, z 0 mm\n"
            "  key        box.main.row\n"
            "  to mend    box.main.row.at = [8.2, 44, 5] would pass\n"
            "\n"
            "pass         overlap: no two parts share any space\n");
}

TEST(FindingsText, BreaksLongMessagesUnderTheirStart) {
  Findings findings = sample::passing();
  for (int i = 0; i < 30; ++i) findings.all[0].message += " and more words";
  const std::string text = findings_text(findings);
  std::size_t start = 0;
  for (std::size_t end = text.find('\n'); end != std::string::npos; start = end + 1, end = text.find('\n', start)) {
    EXPECT_LE(end - start, 110U);
  }
  EXPECT_NE(text.find("\n             "), std::string::npos);
}

TEST(FindingsText, SaysWhetherFilesAreWithheldAndEndsWithTheCautions) {
  const std::string withheld = findings_text_file(sample::failing(), sample::info(), Release::withheld);
  EXPECT_NE(withheld.find("no files to cut, print or drill from"), std::string::npos);
  const std::string anyway = findings_text_file(sample::failing(), sample::info(), Release::written_anyway);
  EXPECT_NE(anyway.find("because --anyway was given"), std::string::npos);
  for (const std::string& text :
       {withheld, anyway, findings_text_file(sample::passing(), sample::info(), Release::complete)}) {
    EXPECT_NE(text.find("small-box, revision B, spec aaaaaaaaaaaa"), std::string::npos);
    EXPECT_EQ(text.substr(text.size() - cautions().size()), cautions());
  }
}

// The hazards named wherever such enclosures are built: energy, gas, welding, lifting, edges (common practice).
TEST(Cautions, NameEachHazardAndApproveNothing) {
  for (const char* word : {"approves nothing", "certifies nothing", "high voltage", "hermal runaway", "zinc", "Lifting",
                           "sharp", "licence", "not checked"}) {
    EXPECT_NE(cautions().find(word), std::string::npos) << word;
  }
}

}  // namespace
}  // namespace fitup::output
