// compare from outside: exit statuses, a spec against its own folder, what cannot be compared.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "end_to_end/program.h"

namespace fitup::test {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

TEST(Compare, ASpecWithItsOwnJobFolderFindsNothingEitherWayRound) {
  const RunResult there = fitup({"compare", demo_spec(), demo_job().folder});
  EXPECT_EQ(there.status, 0) << there.errors;
  EXPECT_THAT(there.output, HasSubstr("nothing differs"));
  const RunResult back = fitup({"compare", demo_job().folder, demo_spec(), "--quiet"});
  EXPECT_EQ(back.status, 0);
  EXPECT_THAT(back.output, IsEmpty());
  EXPECT_EQ(fitup({"compare", demo_job().folder / "job.json", demo_job().folder}).status, 0);
}

TEST(Compare, AFolderThatWasWithheldOrLimitedIsComparedAllTheSame) {
  const ScratchFolder scratch;
  ASSERT_EQ(fitup({"make", demo_spec(), "-o", scratch.path() / "some", "--only", "lists", "--units", "in"}).status, 0);
  EXPECT_EQ(fitup({"compare", scratch.path() / "some", demo_spec()}).status, 0);
  ASSERT_EQ(fitup({"make", demo_spec(), "--set", "item.block.keep_clear.1.depth=60", "--set", "gap=13", "-o",
                   scratch.path() / "withheld"})
                .status,
            1);
  const RunResult differs = fitup({"compare", scratch.path() / "withheld", demo_spec()});
  EXPECT_EQ(differs.status, 1);
  // Five gaps of 13 in place of 12 in the frame of 984.
  EXPECT_THAT(differs.output, testing::ContainsRegex("frame main, mm +989 x 518 x 329 +984 x 518 x 329 +differs"));
}

TEST(Compare, WhatOneValueChangesIsOneObjectOfJson) {
  const RunResult result = fitup({"compare", demo_spec(), "--set", "box.main.face.left.thickness=3", "--set",
                                  "box.main.face.right.thickness=3", "--json"});
  EXPECT_EQ(result.status, 1);
  const auto json = nlohmann::json::parse(result.output);
  EXPECT_EQ(json["command"], "compare");
  EXPECT_TRUE(json["verdict"].is_null());
  EXPECT_FALSE(json["comparison"]["same"]);
  EXPECT_EQ(json["comparison"]["changes"][0]["kind"], "changed");
  EXPECT_EQ(json["comparison"]["changes"][0]["differences"][0], "2 x 325 x 486 -> 3 x 325 x 486 mm");
}

TEST(Compare, WhatCannotBeReadIsSaidOfEachSide) {
  const ScratchFolder scratch;
  std::filesystem::create_directory(scratch.path() / "empty");
  const RunResult folder = fitup({"compare", demo_spec(), scratch.path() / "empty"});
  EXPECT_EQ(folder.status, 3);
  EXPECT_THAT(folder.output, IsEmpty());
  EXPECT_THAT(folder.errors, HasSubstr("there is no job.json in it"));
  const RunResult spec = fitup({"compare", demo_spec(), scratch.path() / "none.toml"});
  EXPECT_EQ(spec.status, 3);
  EXPECT_THAT(spec.errors, HasSubstr("none.toml"));
  const RunResult wrong = fitup({"compare", demo_spec(), "--set", "box.main.rails.thicknes=3"});
  EXPECT_EQ(wrong.status, 2);
  EXPECT_THAT(wrong.errors, HasSubstr("did you mean"));
}

TEST(Compare, OfOneSpecWithAnArgumentAnErrorIsSaidOnce) {
  const ScratchFolder scratch;
  std::string text = read_file(demo_spec());
  text.replace(text.find("\nrails "), 7, "\nrials ");
  write_file(scratch.path() / "slip.toml", text);
  const RunResult result = fitup({"compare", scratch.path() / "slip.toml", "--set", "gap=13"});
  EXPECT_EQ(result.status, 2);
  const std::string said = "has no key \"rials\"";
  const auto first = result.errors.find(said);
  ASSERT_NE(first, std::string::npos) << result.errors;
  EXPECT_EQ(result.errors.find(said, first + 1), std::string::npos) << result.errors;
}

TEST(Compare, SaysInWhichHandASpecIsRead) {
  const ScratchFolder scratch;
  const std::string start = "fitup = 1\nstart_from = \"" + std::filesystem::absolute(demo_spec()).string() + "\"\n";
  write_file(scratch.path() / "other.toml", start + "name = \"other\"\nopposite_hand = \"left-right\"\n");
  write_file(scratch.path() / "again.toml",
             "fitup = 1\nstart_from = \"other.toml\"\nname = \"again\"\nopposite_hand = \"left-right\"\n");
  const auto hand = [&](const char* name) {
    const RunResult result = fitup({"compare", demo_spec(), scratch.path() / name, "--json"});
    return nlohmann::json::parse(result.output)["comparison"]["b"]["hand"];
  };
  EXPECT_EQ(hand("other.toml"), "left-right");
  EXPECT_TRUE(hand("again.toml").is_null()) << "twice is the first again";
  const RunResult read = fitup({"compare", demo_spec(), scratch.path() / "other.toml"});
  EXPECT_THAT(read.output, testing::ContainsRegex("in the[ \n]+opposite[ \n]+hand")) << read.errors;
}

TEST(Compare, ANewerVersionTakesNoOlderFolder) {
  const ScratchFolder scratch;
  ASSERT_EQ(fitup({"make", demo_spec(), "-o", scratch.path() / "job", "--only", "lists"}).status, 0);
  auto job = nlohmann::ordered_json::parse(read_file(scratch.path() / "job/job.json"));
  job["version"] = "0.0.1";
  write_file(scratch.path() / "job/job.json", job.dump());
  const RunResult result = fitup({"compare", scratch.path() / "job", demo_spec()});
  EXPECT_EQ(result.status, 2);
  EXPECT_THAT(result.errors, HasSubstr("is of version 0.0.1"));
}

}  // namespace
}  // namespace fitup::test
