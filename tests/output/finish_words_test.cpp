// What the lists and job.json say of the coat, the measured frame and the general tolerances.
#include "output/finish_words.h"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "output/bench_lists.h"
#include "output/job_json.h"
#include "output/lists.h"
#include "output/sample.h"

namespace fitup::output {
namespace {

std::string cell(const std::vector<CsvRow>& rows, std::size_t index, const std::string& column) {
  const auto& head = rows.front();
  const auto found = std::find(head.begin(), head.end(), column);
  return found == head.end() ? "no such column" : rows.at(index).at(static_cast<std::size_t>(found - head.begin()));
}

Plan coated(bool dipped = false) {
  Plan plan = sample::plan();
  plan.coat = Coat{dipped ? "hot dip zinc" : "powder coat", 0.1, 0.25, dipped, {}};
  return plan;
}

TEST(FinishWords, NameCoatAndThicknessInTheUnitsOfThePage) {
  EXPECT_EQ(finish_words(coated(), PaperUnits(UnitSystem::mm_kg)), "powder coat, 0.1 mm on each surface");
  EXPECT_EQ(finish_words(coated(), PaperUnits(UnitSystem::in_lb)), "powder coat, 0.0039 in on each surface");
  EXPECT_EQ(finish_words(sample::plan(), PaperUnits(UnitSystem::mm_kg)), "");
}

TEST(FinishWords, AskForBareThreadsOnlyWhereThereAreThreads) {
  const auto rows = order_rows(coated(), sample::info());
  EXPECT_EQ(cell(rows, 2, "notes").find("threads stay bare of powder coat: plug or chase them") != std::string::npos,
            true)
      << cell(rows, 2, "notes");
  EXPECT_EQ(cell(rows, 1, "notes"), "");
  const std::string dipped = cell(order_rows(coated(true), sample::info()), 2, "notes");
  EXPECT_NE(dipped.find("chase the threads after hot dipping"), std::string::npos) << dipped;
}

TEST(FinishWords, NameWhatIsMadeToTheMeasuredFrame) {
  Plan plan = sample::plan();
  PartId rail = 0;
  for (InstanceId id = 0; id < plan.instances.size(); ++id) {
    if (plan.parts[plan.instances[id].part].mark != "PLT02") continue;
    rail = plan.instances[id].part;
    plan.trued = {id};
  }
  EXPECT_EQ(true_up_note(plan, rail), "made to the frame as it was measured");
  EXPECT_EQ(cell(order_rows(plan, sample::info()), 1, "notes"), "made to the frame as it was measured");
  EXPECT_EQ(true_up_note(sample::plan(), rail), "");
}

TEST(GeneralTolerances, StandInBothListsByWhoMakesIt) {
  const auto order = order_rows(sample::plan(), sample::info());
  EXPECT_EQ(cell(order, 1, "general tolerance").rfind("ISO 9013-331", 0), 0U);
  const auto sawn = cut_rows(sample::plan(), sample::model(), sample::info());
  ASSERT_GE(sawn.size(), 2U);
  EXPECT_EQ(cell(sawn, 1, "general tolerance").rfind("ISO 2768-m", 0), 0U);
}

TEST(GeneralTolerances, OfWhatIsWeldedIntoTheFrameAreTheFramesToo) {
  Plan plan = sample::plan();
  for (Instance& i : plan.instances) i.group = "frame";
  EXPECT_EQ(tolerance_note(plan, plan.instances[0].part).find(", welded ISO 13920-B") != std::string::npos, true);
  for (Instance& i : plan.instances) i.group = "lower frame";
  EXPECT_EQ(tolerance_note(plan, plan.instances[0].part).find(", welded ISO 13920-B") != std::string::npos, true);
  for (Instance& i : plan.instances) i.group = "front cover";
  EXPECT_EQ(tolerance_note(plan, plan.instances[0].part).find("welded"), std::string::npos);
}

TEST(JobJson, NamesCoatAndTolerancesAndIsReadBack) {
  JobInfo info = sample::info();
  info.finish = "powder coat, 0.1 mm on each surface";
  const std::string text = job_json({}, info, Release::complete, {}, {});
  const auto json = nlohmann::json::parse(text);
  EXPECT_EQ(json.at("finish"), info.finish);
  EXPECT_EQ(json.at("general_tolerances").at("welded"), "ISO 13920-B");
  EXPECT_EQ(read_job_json(text)->info.finish, info.finish);
  info.finish.clear();
  EXPECT_FALSE(nlohmann::json::parse(job_json({}, info, Release::complete, {}, {})).contains("finish"));
}

}  // namespace
}  // namespace fitup::output
