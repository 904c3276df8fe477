// The front box with a box below it, from spec to job folder: its sizes, and the front box's own lines in the lists.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>

#include "end_to_end/program.h"
#include "output/csv.h"

namespace fitup::test {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

struct Job {
  ScratchFolder scratch;
  RunResult made;
  [[nodiscard]] std::filesystem::path folder() const { return scratch.path() / "job"; }
};

// Made once.
const Job& two_boxes() {
  static const std::unique_ptr<const Job> job = [] {
    auto making = std::make_unique<Job>();
    const auto spec = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive" / "front-box-with-lower.toml";
    making->made = fitup({"make", spec.string(), "-o", making->folder().string()});
    return making;
  }();
  return *job;
}

class TwoBoxes : public testing::Test {
 protected:
  void SetUp() override { ASSERT_EQ(made_.status, 0) << made_.output << made_.errors; }

  const RunResult& made_ = two_boxes().made;
  std::filesystem::path folder_ = two_boxes().folder();
};

// By hand: one half block of 150, two clearances of 12, two uprights of 3 make 180; 310 + 44 + 36 + 2 x 3 = 396;
// 220 + 60 + 5 (rail) + 3 + 30 = 318. Centred in 984 x 518, below a flat 8 thick.
TEST_F(TwoBoxes, SayTheSizesOfBothFramesAndOfTheWhole) {
  EXPECT_THAT(made_.output, HasSubstr("main frame 984 x 518 x 329 mm, lower frame 180 x 396 x 318 mm"));
  EXPECT_THAT(made_.output, HasSubstr("open faces: top, bottom, lower top, lower bottom"));
  EXPECT_THAT(read_file(folder_ / "assembly.svg"), HasSubstr("lower frame 180 x 396 x 318 mm"));
  const auto job = nlohmann::json::parse(read_file(folder_ / "job.json"));
  ASSERT_EQ(job["frames"].size(), 2U);
  EXPECT_THAT(job["frames"][0]["size_mm"], ElementsAre(984, 518, 329));
  EXPECT_THAT(job["frames"][1]["size_mm"], ElementsAre(180, 396, 318));
  EXPECT_THAT(job["frames"][1]["corner_mm"], ElementsAre(402, 61, -326));
  // The lower box's frame ends 326 below; the heads of the screws in the main cover's flange stand out 2.2 at most
  // (ISO 7380-1) over its 4, and so do those at the sides.
  EXPECT_NEAR(job["overall_size_mm"][2].get<double>(), 326 + 329 + 4 + 2.2, 1e-6);
  EXPECT_NEAR(job["overall_size_mm"][0].get<double>(), 984 + 2 * (4 + 2.2), 1e-6);
}

/// Rows by mark, without what counts and joins: quantity, total mass, notes, job, revision, spec.
std::map<std::string, std::string> makings(const std::filesystem::path& list) {
  std::map<std::string, std::string> found;
  const auto rows = output::read_csv(read_file(list));
  if (!rows) return found;
  const auto& heading = rows->front();
  for (std::size_t r = 1; r < rows->size(); ++r) {
    const auto& row = (*rows)[r];
    std::string text;
    for (std::size_t k = 0; k < row.size(); ++k) {
      const std::string& column = heading[k];
      const bool counts = column == "quantity" || column == "notes" || column == "job" || column == "revision" ||
                          column == "spec" || column.find("total") != std::string::npos;
      if (!counts) text += row[k] + "|";
    }
    found[row[0]] = text;
  }
  return found;
}

TEST_F(TwoBoxes, LeaveEveryPartOfTheFrontBoxAsItIsUnderItsMark) {
  ASSERT_EQ(demo_job().run.status, 0) << demo_job().run.errors;
  for (const char* list : {"bench/cut-list.csv", "flat/order.csv"}) {
    const auto alone = makings(demo_job().folder / list);
    const auto both = makings(folder_ / list);
    ASSERT_GT(alone.size(), 4U) << list;
    EXPECT_GT(both.size(), alone.size()) << list;
    for (const auto& [mark, making] : alone) {
      ASSERT_TRUE(both.contains(mark)) << list << ": " << mark;
      EXPECT_EQ(both.at(mark), making) << list << ": " << mark;
    }
  }
}

TEST_F(TwoBoxes, ListTheBearersAndTheirBolts) {
  const std::string bars = read_file(folder_ / "bench" / "cut-list.csv");
  EXPECT_THAT(bars, HasSubstr("BEA01,bearer,2,S235JR,50x8,518,"));
  EXPECT_THAT(bars, HasSubstr("2 holes, 9 wide (clear M8)"));
  const std::string bought = read_file(folder_ / "bought.csv");
  for (const char* line : {"bought,NUT-M8,hexagon nut,M8 ISO 4032,\"class 8, zinc plated\",4,",
                           "bought,WSH-M8,plain washer,M8 ISO 7089,\"200 HV, zinc plated\",4,",
                           "bought,SCR-M8x25,button-head screw,M8 x 25 ISO 7380-1,\"class 010.9, zinc plated\",4,"}) {
    EXPECT_THAT(bought, HasSubstr(line));
  }
}

}  // namespace
}  // namespace fitup::test
