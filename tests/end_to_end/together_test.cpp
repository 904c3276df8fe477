// make of several specs: a folder for each, and one list over all that adds up to their own lists.
// Entry: gtest.
#include <gtest/gtest.h>

#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "end_to_end/program.h"
#include "output/csv.h"

namespace fitup::test {
namespace {

namespace fs = std::filesystem;
using Fields = std::map<std::string, std::string>;

std::vector<Fields> rows_of(const fs::path& list) {
  const auto rows = output::read_csv(read_file(list));
  std::vector<Fields> found;
  if (!rows) ADD_FAILURE() << list << " is no CSV";
  for (std::size_t i = 1; rows && i < rows->size(); ++i) {
    Fields& fields = found.emplace_back();
    for (std::size_t k = 0; k < rows->front().size(); ++k) fields[rows->front()[k]] = (*rows)[i].at(k);
  }
  return found;
}

std::string quantity_in(const Fields& row, const std::string& job) {
  for (const auto& [heading, cell] : row) {
    if (heading.starts_with("quantity for " + job + " ")) return cell;
  }
  return "no such column";
}

fs::path example(const std::string& name) { return fs::path(FITUP_EXAMPLES) / name; }

class Together : public testing::Test {
 protected:
  RunResult make(const std::vector<fs::path>& specs, const std::vector<std::string>& more = {}) {
    std::vector<std::string> arguments{"make"};
    for (const fs::path& spec : specs) arguments.push_back(spec.string());
    arguments.insert(arguments.end(), {"-o", folder().string()});
    arguments.insert(arguments.end(), more.begin(), more.end());
    return fitup(arguments);
  }
  [[nodiscard]] fs::path folder() const { return scratch_.path() / "deep" / "jobs"; }
  [[nodiscard]] fs::path joint(const std::string& list) const { return folder() / "joint-order" / list; }

  ScratchFolder scratch_;
  const fs::path front_ = example("park-locomotive/front-box.toml");
  const fs::path rear_ = example("park-locomotive/rear-box.toml");
  const fs::path cabinet_ = example("cabin-inverter/cabinet.toml");
};

TEST_F(Together, EachMarkOfEachJobIsInOneRowWithItsQuantity) {
  const RunResult result = make({front_, rear_, cabinet_}, {"--only", "dxf,lists"});
  ASSERT_EQ(result.status, 0) << result.errors;
  for (const auto& [list, own] : {std::pair{"order.csv", "flat/order.csv"},
                                  {"cut-list.csv", "bench/cut-list.csv"},
                                  {"bought.csv", "bought.csv"}}) {
    std::map<std::string, std::string> joint_count;
    for (const Fields& row : rows_of(joint(list))) {
      std::size_t sum = 0;
      for (const std::string job : {"front-box", "rear-box", "cabinet"}) {
        sum += std::stoul(quantity_in(row, job));
        const std::string mark = row.at("mark in " + job);
        EXPECT_EQ(mark.empty(), quantity_in(row, job) == "0");
        if (mark.empty()) continue;
        EXPECT_TRUE(joint_count.emplace(job + " " + mark, quantity_in(row, job)).second) << mark;
      }
      EXPECT_EQ(std::to_string(sum), row.at("quantity")) << list;
    }
    std::size_t all = 0;
    for (const std::string job : {"front-box", "rear-box", "cabinet"}) {
      for (const Fields& row : rows_of(folder() / job / own)) {
        EXPECT_EQ(joint_count[job + " " + row.at("mark")], row.at("quantity")) << list << ": " << row.at("mark");
        ++all;
      }
    }
    EXPECT_EQ(joint_count.size(), all) << list;
  }
}

/// How often each mark is sawn, and from how much that is bought.
struct Sawn {
  std::map<std::string, std::size_t> pieces;
  double bought_mm = 0;
};

Sawn sawn_in(const fs::path& list) {
  Sawn sawn;
  std::set<std::string> seen;
  for (const Fields& row : rows_of(list)) {
    ++sawn.pieces[row.at("mark")];
    const std::string bar = row.at("section") + row.at("material") + row.at("bar");
    if (row.at("bar from") == "bought" && seen.insert(bar).second) sawn.bought_mm += std::stod(row.at("bar length mm"));
  }
  return sawn;
}

TEST_F(Together, AllPiecesAreLaidOnCommonBars) {
  ASSERT_EQ(make({front_, rear_}, {"--only", "lists,paper"}).status, 0);
  const Sawn joint_bars = sawn_in(joint("bars.csv"));
  Sawn own;
  for (const char* job : {"front-box", "rear-box"}) {
    const Sawn sawn = sawn_in(folder() / job / "bench/bars.csv");
    for (const auto& [mark, count] : sawn.pieces) own.pieces[mark] += count;
    own.bought_mm += sawn.bought_mm;
  }
  EXPECT_EQ(joint_bars.pieces, own.pieces);
  EXPECT_LT(joint_bars.bought_mm, own.bought_mm);
  EXPECT_TRUE(read_file(joint("bars.pdf")).starts_with("%PDF"));
}

// Each saw takes its own kerf: there is no one way to lay them out.
TEST_F(Together, JobsWithDifferentSawsHaveNoCommonBars) {
  write_file(scratch_.path() / "slow.toml",
             "fitup = 1\nname = \"slow\"\nstart_from = \"" + front_.string() + "\"\n[stock]\nkerf = 3\n");
  ASSERT_EQ(make({front_, scratch_.path() / "slow.toml"}, {"--only", "lists"}).status, 0);
  EXPECT_FALSE(fs::exists(joint("bars.csv")));
  EXPECT_TRUE(fs::exists(joint("cut-list.csv")));
}

// Both boxes are 518 deep and 329 high, so that side plates, side flanges, rails and uprights are of one shape; what is
// as wide as the box (984 and 822) is not.
TEST_F(Together, WhatTwoBoxesShareIsCountedTogether) {
  ASSERT_EQ(make({front_, rear_}, {"--only", "dxf,lists"}).status, 0);
  std::map<std::string, std::string> count;
  for (const char* list : {"order.csv", "cut-list.csv", "bought.csv"}) {
    for (const Fields& row : rows_of(joint(list))) {
      const std::string mark = row.at("mark in front-box");
      if (!mark.empty()) count[mark] = row.at("quantity");
      if (!row.contains("file")) continue;
      EXPECT_TRUE(fs::exists(folder() / row.at("file"))) << row.at("file");
    }
  }
  EXPECT_EQ(count["PLT20"], "4");     // side plates, two for each
  EXPECT_EQ(count["RAL02"], "9");     // inner rails under six blocks and five: 5 + 4
  EXPECT_EQ(count["NUT-M6"], "176");  // 16 for each of eleven blocks
  EXPECT_EQ(count["EYE-M10"], "8");
  EXPECT_EQ(count["PLT30"], "1");  // the covers are of two widths
}

// The front cover's top flange and the top cover's back flange are cut alike and marked for different neighbours, from
// the other end: two marks, two files, in each job and over both, each the other's hand.
TEST_F(Together, PartsThatAreCutAlikeAndMarkedOtherwiseStayTwo) {
  std::vector<fs::path> specs;
  for (const char* name : {"one", "another"}) {
    ASSERT_EQ(fitup({"begin", (scratch_.path() / name).string()}).status, 0);
    specs.push_back(scratch_.path() / (std::string(name) + ".toml"));
  }
  const RunResult result =
      make(specs, {"--only", "dxf,lists", "--anyway", "--set", "box.main.face.front.flange_depth=25", "--set",
                   "box.main.face.front.screws.max_spacing=120", "--set",
                   "box.main.face.top={closed_by=\"cover\",style=\"flanged\",flange_depth=25}", "--set",
                   "box.main.face.back={closed_by=\"cover\",style=\"flat\",thickness=2}"});
  std::set<std::string> files;
  for (const Fields& row : rows_of(joint("order.csv"))) {
    const bool front = row.at("mark in one") == "PLT32";
    if (!front && row.at("mark in one") != "PLT82") continue;
    EXPECT_NE(row.at("notes").find(front ? "PLT82 is the other" : "PLT32 is the other"), std::string::npos);
    EXPECT_EQ(row.at("mark in one"), row.at("mark in another"));
    EXPECT_EQ(row.at("quantity"), "2");
    files.insert(row.at("file"));
  }
  EXPECT_EQ(files.size(), 2U) << result.errors;
}

// The same box in both hands: each part that is its own mirror image is one with the other's, each that is not is two.
TEST_F(Together, OppositeHandsAreToldApart) {
  const fs::path one = scratch_.path() / "one.toml";
  const fs::path other = scratch_.path() / "other.toml";
  // Screws out of the middle: the member that they are tapped into is not its own mirror image.
  std::string text = read_file(cabinet_);
  const std::string plain = R"(style = "flat", thickness = 2 })";
  ASSERT_NE(text.find(plain), std::string::npos);
  text.replace(text.find(plain), plain.size(),
               R"(style = "flat", thickness = 2, screws = { at = { bottom = [60, 170, 280, 380] } } })");
  write_file(one, text);
  write_file(other, "fitup = 1\nname = \"other\"\nstart_from = \"one.toml\"\nopposite_hand = \"left-right\"\n");
  ASSERT_EQ(make({one, other}, {"--only", "dxf,lists"}).status, 0);
  for (const char* list : {"cut-list.csv", "order.csv"}) {
    for (const Fields& row : rows_of(joint(list))) {
      if (quantity_in(row, "one") != "0" && quantity_in(row, "other") != "0") {
        EXPECT_EQ(quantity_in(row, "one"), quantity_in(row, "other")) << list << ": " << row.at("description");
      }
    }
  }
  // A mark is one shape, whichever job says it.
  std::map<std::string, std::string> description_of;
  for (const char* list : {"cut-list.csv", "order.csv"}) {
    for (const Fields& row : rows_of(joint(list))) {
      std::set<std::string> marks;
      for (const std::string job : {"one", "other"}) {
        if (!row.at("mark in " + job).empty()) marks.insert(row.at("mark in " + job));
      }
      EXPECT_EQ(marks.size(), 1U) << list << ": " << row.at("description");
      for (const std::string& mark : marks) {
        EXPECT_TRUE(description_of.emplace(mark, row.at("description")).second) << mark << " is in two rows";
        if (row.contains("file")) {
          EXPECT_NE(row.at("file").find(mark + "_"), std::string::npos) << row.at("file");
        }
      }
    }
  }
  for (const Fields& row : rows_of(joint("bought.csv"))) {
    const bool small = row.at("mark in one").starts_with("SCR-");
    const std::size_t all = std::stoul(row.at("quantity"));
    EXPECT_GE(std::stoul(row.at("with spares")), small ? all + 1 : all) << row.at("description");
  }
  std::map<std::string, std::size_t> rows_of_hand;
  for (const Fields& row : rows_of(joint("cut-list.csv"))) {
    for (const std::string job : {"one", "other"}) {
      if (row.at("quantity") == quantity_in(row, job)) ++rows_of_hand[job];
    }
  }
  EXPECT_EQ(rows_of_hand["one"], 1U) << "the bottom member at the front";
  EXPECT_EQ(rows_of_hand["other"], 1U);
  // A box beside itself in the same hand shares everything.
  write_file(other, "fitup = 1\nname = \"other\"\nstart_from = \"one.toml\"\n");
  ASSERT_EQ(make({one, other}, {"--only", "dxf,lists"}).status, 0);
  for (const Fields& row : rows_of(joint("order.csv"))) {
    EXPECT_EQ(quantity_in(row, "one"), quantity_in(row, "other")) << row.at("description");
  }
}

TEST_F(Together, AllOrNothingAndTheWorstStatusCounts) {
  ASSERT_EQ(make({front_, rear_}, {"--only", "dxf,lists"}).status, 0);
  ASSERT_TRUE(fs::exists(joint("order.csv")));
  const fs::path broken = scratch_.path() / "broken.toml";
  write_file(broken, "fitup = 1\n");
  const RunResult result = make({front_, broken}, {"--only", "dxf,lists", "--json"});
  EXPECT_EQ(result.status, 2);
  const auto said = nlohmann::json::parse(result.output);
  EXPECT_EQ(said["verdict"], "error");
  ASSERT_EQ(said["jobs"].size(), 2U);
  EXPECT_EQ(said["jobs"][0]["verdict"], "marginal");
  EXPECT_EQ(said["jobs"][1]["verdict"], "error");
  ASSERT_FALSE(said["diagnostics"].empty());
  EXPECT_EQ(said["diagnostics"][0]["job"], "broken");
  EXPECT_TRUE(fs::exists(folder() / "front-box" / "flat" / "order.csv"));
  EXPECT_FALSE(fs::exists(joint("order.csv"))) << "it no longer matches";
  EXPECT_FALSE(fs::exists(folder() / "broken"));
}

TEST_F(Together, TheSameBytesWithOneCoreOrTwo) {
  ASSERT_EQ(make({front_, rear_}, {"--only", "dxf,lists", "--cores", "1"}).status, 0);
  const auto first = files_in(folder());
  ASSERT_EQ(make({front_, rear_}, {"--only", "dxf,lists", "--cores", "2"}).status, 0);
  EXPECT_EQ(first, files_in(folder()));
}

TEST_F(Together, TwoSpecsOfOneNameAreRefused) {
  const fs::path twin = scratch_.path() / "front-box.toml";
  write_file(twin, read_file(front_));
  const RunResult result = make({front_, twin});
  EXPECT_EQ(result.status, 2);
  EXPECT_NE(result.errors.find("would be written to one folder"), std::string::npos) << result.errors;
}

}  // namespace
}  // namespace fitup::test
