// A job folder on disk against the plan that it was made from; folders that cannot be compared.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "compare/read_side.h"
#include "output/sample.h"

namespace fitup::compare {
namespace {

using testing::HasSubstr;

void write_job(const std::filesystem::path& folder) {
  for (const JobFile& file : sample::files()) sample::write(folder / file.path, file.bytes);
}

std::string reason(const std::filesystem::path& folder) {
  const auto side = read_job_folder(folder);
  EXPECT_FALSE(side.has_value());
  return side ? std::string() : side.error().reason;
}

TEST(JobFolder, SaysWhatItsPlanSays) {
  const sample::Folder folder;
  write_job(folder.path());
  const auto read = read_job_folder(folder.path());
  ASSERT_TRUE(read) << read.error().reason;
  const Side planned = side_of(sample::plan(), sample::info(), "plan");
  EXPECT_EQ(read->parts, planned.parts);
  EXPECT_TRUE(compared(*read, planned).nothing_differs());
}

// What the sample is, by hand: two plates of one contour, one hole and one window.
TEST(JobFolder, CountsContoursHolesAndPlacesToDrill) {
  const Side planned = side_of(sample::plan(), sample::info(), "plan");
  const auto plate = std::find_if(planned.parts.parts.begin(), planned.parts.parts.end(),
                                  [](const auto& line) { return line.mark == sample::plate().mark; });
  ASSERT_NE(plate, planned.parts.parts.end());
  EXPECT_EQ(plate->quantity, 2U);
  EXPECT_EQ(plate->piercings, 3U);
  EXPECT_NEAR(plate->cut_mm, sample::plate_cut_mm, 1e-9);
  EXPECT_EQ(plate->size_mm, (std::array<double, 3>{2, 60, 100}));
  EXPECT_THAT(plate->holes,
              testing::UnorderedElementsAre(
                  testing::AllOf(testing::Field(&output::HoleCount::what, "hole"),
                                 testing::Field(&output::HoleCount::size_mm, testing::ElementsAre(12, 12))),
                  testing::AllOf(testing::Field(&output::HoleCount::what, "cut-out"),
                                 testing::Field(&output::HoleCount::size_mm, testing::ElementsAre(20, 10))),
                  testing::AllOf(testing::Field(&output::HoleCount::what, "drilled hole"),
                                 testing::Field(&output::HoleCount::count, 2U))));
}

/// A sheet of 100 x 50 x 2 whose right end is bent up beyond x = 70, with a hole near its front edge.
Flat bracket() {
  Flat flat;
  flat.profile = {Loop::rectangle({0, 0}, {100, 50}), {Loop::circle({20, 10}, 3)}};
  flat.thickness_mm = 2;
  flat.bends = {{{70, 0}, {70, 50}, 4, 2, true}};
  return flat;
}

Side side_with(Flat flat) {
  Plan plan;
  Part part;
  part.mark = "PLT01";
  part.name = "bracket";
  part.role = Role::face_plate;
  part.source = Source::cut;
  part.material = "S235JR";
  part.form = std::move(flat);
  plan.parts.push_back(std::move(part));
  plan.instances.push_back({0, Pose{}, "bracket", "", {}, ""});
  return side_of(plan, JobInfo{}, "");
}

// Seen in a mirror that stands at y = 25 the hole is near the back edge; the sheet is bent up as before.
TEST(JobFolder, TellsTheHandOfABentSheetAndNoneOfAFlatOne) {
  Flat mirrored = bracket();
  mirrored.profile.holes = {Loop::circle({20, 40}, 3)};
  const Comparison bent = compared(side_with(bracket()), side_with(mirrored));
  ASSERT_EQ(bent.changes.size(), 1U);
  EXPECT_EQ(bent.changes[0].kind, ChangeKind::other_hand);
  Flat straight = bracket();
  straight.bends.clear();
  mirrored.bends.clear();
  EXPECT_TRUE(compared(side_with(straight), side_with(mirrored)).changes.empty());
  const Comparison unbent = compared(side_with(bracket()), side_with(straight));
  ASSERT_EQ(unbent.changes.size(), 1U);
  EXPECT_THAT(differences(unbent.changes[0], UnitSystem::mm_kg), testing::Contains("bend of radius 2 mm: 1 -> 0"));
}

TEST(JobFolder, WithoutAJobIsRefused) {
  const sample::Folder folder;
  EXPECT_THAT(reason(folder.path()), HasSubstr("there is no job.json in it; give a spec"));
  sample::write(folder.path() / "job.json", "{\"program\": \"another\"}");
  EXPECT_THAT(reason(folder.path()), HasSubstr("damaged or of another program"));
}

TEST(JobFolder, WithAChangedOrAMissingFileIsRefusedAndNamesIt) {
  const sample::Folder folder;
  write_job(folder.path());
  const std::string list = sample::read(folder.path() / "flat/order.csv");
  sample::write(folder.path() / "flat/order.csv", list + "one more\r\n");
  EXPECT_THAT(reason(folder.path()), HasSubstr("flat/order.csv is not as it was written"));
  std::filesystem::remove(folder.path() / "flat/order.csv");
  EXPECT_THAT(reason(folder.path()), HasSubstr("flat/order.csv is missing"));
  sample::write(folder.path() / "flat/order.csv", list);
  EXPECT_TRUE(read_job_folder(folder.path()));
}

/// job.json with something done to it.
template <class Change>
std::string reason_with(Change change) {
  const sample::Folder folder;
  write_job(folder.path());
  auto json = nlohmann::ordered_json::parse(sample::read(folder.path() / "job.json"));
  change(json);
  sample::write(folder.path() / "job.json", json.dump());
  return reason(folder.path());
}

TEST(JobFolder, OfAnEarlierVersionOrWithADamagedListIsRefused) {
  using Json = nlohmann::ordered_json;
  EXPECT_THAT(reason_with([](Json& json) { json.erase("parts"); }), HasSubstr("kept no list of parts"));
  EXPECT_THAT(reason_with([](Json& json) { json.erase("seams"); }), HasSubstr("is damaged"));
  EXPECT_THAT(reason_with([](Json& json) { json["parts"][0]["quantity"] = "two"; }), HasSubstr("is damaged"));
  EXPECT_THAT(reason_with([](Json& json) { json["parts"][0]["mass_kg"] = -1; }), HasSubstr("is damaged"));
  EXPECT_THAT(reason_with([](Json& json) { json["parts"][0]["size_mm"] = {1, 2}; }), HasSubstr("is damaged"));
  EXPECT_THAT(reason_with([](Json& json) { json["parts"] = 7; }), HasSubstr("is damaged"));
  EXPECT_THAT(reason_with([](Json& json) { json["files"][0]["path"] = "../../etc/hosts"; }),
              HasSubstr("no file of the folder"));
  EXPECT_THAT(reason_with([](Json& json) { json["name"] = "joint-order"; }), HasSubstr("lists over several jobs"));
}

}  // namespace
}  // namespace fitup::compare
