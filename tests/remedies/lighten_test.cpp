// Lighten on the sound box: what it proposes is lighter, passes, and is the lightest of what it tried.
#include "fitup/lighten.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <set>

#include "checks/planned.h"
#include "fitup/loads.h"
#include "remedies/shelf.h"

namespace fitup {
namespace {

const SpecFiles from_disk = [](const std::string& path) -> Result<std::string> { return test::text_of(path); };

Lightened lightened(const std::vector<Override>& overrides) {
  const auto path = test::sound_box();
  const SpecSource source{path.string(), test::text_of(path), overrides, from_disk};
  const SpecResult read = read_spec(source.file_name, source.text, overrides, from_disk);
  EXPECT_TRUE(read.spec);
  return read.spec ? lighten(source, *read.spec) : Lightened{};
}

bool fails(const std::vector<Override>& overrides) {
  const auto path = test::sound_box();
  const auto made = test::planned(path.string(), test::text_of(path), overrides, from_disk);
  return !made->plan || judge_by_rules(*made->plan).failed();
}

TEST(Lighten, ProposesTheLightestOfWhatPasses) {
  const Lightened found = lightened({});
  EXPECT_EQ(found.now.verdict, LightenVerdict::passes);
  ASSERT_FALSE(found.best.empty());
  EXPECT_LT(found.best_kg, found.now.made_kg);
  EXPECT_FALSE(fails(found.best));
  EXPECT_GT(found.tried.size(), 20U);
  for (const LightenTry& one : found.tried) {
    if (one.verdict == LightenVerdict::fails || one.verdict == LightenVerdict::refused) {
      EXPECT_FALSE(one.why.empty());
    }
    if (one.verdict == LightenVerdict::fails) {
      EXPECT_LE(one.made_kg, found.best_kg);
    }
    if (one.verdict == LightenVerdict::heavier) {
      EXPECT_GE(one.made_kg, found.best_kg);
    }
  }
}

// Rails under 60 kg each are too thin at 4 mm (cases/rails-under-rigid-blocks): what fails may become heavier.
TEST(Lighten, MendsWhatIsTooWeak) {
  const Lightened found = lightened({{"item.block.mass", "60"}, {"box.main.rails.thickness", "3"}});
  EXPECT_EQ(found.now.verdict, LightenVerdict::fails);
  const auto thicker = [](const Override& o) { return o.key == "box.main.rails.thickness"; };
  EXPECT_TRUE(std::any_of(found.best.begin(), found.best.end(), thicker));
}

// What nothing pulls at nobody knows to be thick enough; thrown along the rods, it is tried, and each try says why not.
TEST(Lighten, RodPlatesAreTriedWhereSomethingPullsAtThem) {
  const auto tries = [](const Lightened& found) {
    return std::count_if(found.tried.begin(), found.tried.end(), [](const LightenTry& one) {
      return std::any_of(one.values.begin(), one.values.end(),
                         [](const Override& o) { return o.key == "box.main.rod_plates.thickness"; });
    });
  };
  const Override shelf{"stock.shelf", "[{ thickness = 2 }, { thickness = 1.5 }]"};
  EXPECT_EQ(tries(lightened({shelf})), 0);
  EXPECT_EQ(tries(lightened({shelf, {"loads.thrown.front", "1"}})), 2);
}

// The shelf holds one section and one thickness: nothing else is tried.
TEST(Lighten, TakesWhatTheShelfHolds) {
  const Lightened found = lightened({{"stock.shelf", "[{ section = \"L 45x45x3\" }, { thickness = 1.5 }]"}});
  for (const LightenTry& one : found.tried) {
    for (const Override& o : one.values) {
      if (o.key.ends_with("section")) {
        EXPECT_EQ(o.value, "\"L 45x45x3\"");
      }
      if (o.key.ends_with("thickness")) {
        EXPECT_EQ(o.value, "1.5 mm");
      }
    }
  }
}

// The note that nothing throws its flanged cover off says nothing of its frame, whose plates become thinner with the
// rest.
TEST(Lighten, TriesWeldedPlatesBesideCovers) {
  const Lightened found = lightened({});
  const auto thins = [](const LightenTry& one, const char* face) {
    return std::any_of(one.values.begin(), one.values.end(),
                       [&](const Override& o) { return o.key == fmt::format("box.main.face.{}.thickness", face); });
  };
  const auto plates = [&](const LightenTry& one) { return thins(one, "left") && !thins(one, "front"); };
  const auto covers = [&](const LightenTry& one) { return thins(one, "front") && !thins(one, "left"); };
  EXPECT_TRUE(std::any_of(found.tried.begin(), found.tried.end(), plates));
  EXPECT_TRUE(std::any_of(found.tried.begin(), found.tried.end(), covers));
}

std::set<std::string> values_of(const std::filesystem::path& path, const std::string& key,
                                const std::vector<Override>& with = {}) {
  std::set<std::string> values;
  const SpecResult read = read_spec(path.string(), test::text_of(path), with, from_disk);
  EXPECT_TRUE(read.spec) << path;
  if (!read.spec) return values;
  for (const auto& way : remedies::ways_of_building(*read.spec, read.spec->boxes.front(), {})) {
    for (const Override& o : way) {
      if (o.key.ends_with(key)) values.insert(o.value);
    }
  }
  return values;
}

// Its shell is 4 mm thick by its section L 40x40x4, and by no key of its own.
TEST(Shelf, VariesAShellThatIsNotStated) {
  EXPECT_EQ(values_of(std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive/front-box.toml", ".plates.thickness",
                      {{"box.main.build", "plate"}}),
            (std::set<std::string>{"2 mm", "2.5 mm", "3 mm"}));
}

// Sheet of steel by its gauge (0.1196 in is 11 ga, 0.1046 in 12 ga), aluminium and fractions in inches.
TEST(Shelf, SpeaksOfGaugesAndInchesInASpecInInches) {
  for (const std::string& value :
       values_of(std::filesystem::path(FITUP_EXAMPLES) / "orchard-sprayer/battery-box.toml", ".thickness")) {
    EXPECT_TRUE(value.ends_with(" ga") || value.ends_with(" in")) << value;
  }
}

// A shop of gauges, asked by a spec in millimetres: below 4 mm there are 9 ga (0.1495 in), 10 ga (0.1345 in), and
// 1/8 in before 11 ga (0.1196 in).
TEST(Shelf, IsTheKindThatTheCutterHas) {
  EXPECT_EQ(values_of(std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive/front-box.toml", ".plates.thickness",
                      {{"box.main.build", "plate"}, {"cutter.shelf", "\"gauge\""}}),
            (std::set<std::string>{"0.125 in", "10 ga", "9 ga"}));
}

TEST(Lighten, StopsWhenItIsTold) {
  const auto path = test::sound_box();
  const SpecSource source{path.string(), test::text_of(path), {}, from_disk};
  const SpecResult read = read_spec(source.file_name, source.text, {}, from_disk);
  const Lightened found = lighten(source, *read.spec, [] { return true; });
  EXPECT_TRUE(found.stopped);
  EXPECT_TRUE(found.best.empty());
}

}  // namespace
}  // namespace fitup
