// Lists and sentences in inches and pounds: 25.4 mm and 0.45359237 kg by definition (international yard and pound
// agreement of 1959).
#include "output/units.h"

#include <gtest/gtest.h>

#include "output/bench_lists.h"
#include "output/findings_files.h"
#include "output/lists.h"
#include "output/sample.h"

namespace fitup::output {
namespace {

const PaperUnits inches(UnitSystem::in_lb);
const PaperUnits metric(UnitSystem::mm_kg);

TEST(PaperUnits, ConvertByDefinition) {
  EXPECT_EQ(inches.length(25.4), "1");
  EXPECT_EQ(inches.length(4.7625), "0.1875");
  EXPECT_EQ(inches.mass(0.45359237), "1");
  EXPECT_EQ(inches.area(645.16), "1");
  EXPECT_EQ(inches.volume(16387.064), "1");
  EXPECT_EQ(metric.length(4.7625), "4.763");
  EXPECT_EQ(metric.volume(16387.064), "16.39");
}

TEST(PaperUnits, ArePlainerOnAPicture) {
  EXPECT_EQ(inches.drawn(542.44), "21.356");
  EXPECT_EQ(metric.drawn(996.44), "996.4");
}

TEST(PaperUnits, KeepTwoDigitsOfASmallLimit) {
  EXPECT_EQ(metric.measure(0.0001, "mm"), "0.0001 mm");
  EXPECT_EQ(inches.measure(0.000254, "mm"), "0.00001 in");
  EXPECT_EQ(inches.measure(0.0003, "mm"), "0.000012 in");
  EXPECT_EQ(inches.measure(3, "parts"), "3 parts");
  EXPECT_EQ(inches.measure(82535.8, "N"), "18550 lbf");  // 18554.8
  EXPECT_EQ(inches.measure(235, "MPa"), "34.08 ksi");    // 34.0839
  EXPECT_EQ(metric.measure(82535.8, "N"), "82535.8 N");
}

struct Sentence {
  const char* name;
  const char* metric;
  const char* inch;
};
class Sentences : public testing::TestWithParam<Sentence> {};

TEST_P(Sentences, AreSaidInInchesAndPounds) {
  EXPECT_EQ(inches.sentence(GetParam().metric), GetParam().inch);
  EXPECT_EQ(metric.sentence(GetParam().metric), GetParam().metric);
}

INSTANTIATE_TEST_SUITE_P(
    Units, Sentences,
    testing::Values(
        Sentence{"ALength", "overlap by 2.54 mm (free when", "overlap by 0.1 in (free when"},
        Sentence{"AtTheEnd", "permits 25.4 mm", "permits 1 in"},
        Sentence{"NoFinerThanItWasSaid", "stands 3.18 mm off", "stands 0.125 in off"},
        Sentence{"AMass", "it is 100 kg, each 50 kg.", "it is 220 lb, each 110 lb."},
        Sentence{"Thousands", "1,016 mm long", "40 in long"},
        Sentence{"Below", "stands -12.7 mm off", "stands -0.5 in off"},
        Sentence{"ASize", "a flat of 25.4 x 50.8 x 2.54 mm", "a flat of 1 x 2 x 0.1 in"},
        Sentence{"NoThread", "1/4-20 x 25.4 mm, M6 x 12.7 mm", "1/4-20 x 1 in, M6 x 0.5 in"},
        Sentence{"Areas", "an area of 20 mm2", "an area of 0.031 in2"},
        Sentence{"SecondMoments", "J 650816 mm4, 44730.5 mm4", "J 1.5636 in4, 0.10747 in4"},
        // 1 lbf = 0.45359237 kg x 9.80665 m/s2 (standard gravity, 3rd CGPM 1901); ksi, in lbf and ft from it
        Sentence{"AForce", "holds 44.48 N up", "holds 10 lbf up"},
        Sentence{"AStress", "68.9 MPa of 235 MPa.", "9.99 ksi of 34.1 ksi."},
        Sentence{"AMoment", "with 184 N and 11.3 Nm, 3", "with 41 lbf and 100 in lbf, 3"},
        Sentence{"ASeam", "3.05 m of seam laid", "10.01 ft of seam laid"},
        Sentence{"NoUnit", "2 M6 screws, 4 Newton, 3 men, 5 N/mm2", "2 M6 screws, 4 Newton, 3 men, 5 N/mm2"},
        Sentence{"NoNumber", "the mm and kg of 3 rods", "the mm and kg of 3 rods"},
        Sentence{"APart", "L 40x40x4 meets 2 M4", "L 40x40x4 meets 2 M4"}),
    [](const auto& c) { return c.param.name; });

TEST(PaperUnits, SayASizeAsFineAsAList) {
  EXPECT_EQ(inches.sizes("round 25 x 25 mm, tapped M10 through"), "round 0.9843 x 0.9843 in, tapped M10 through");
  EXPECT_EQ(inches.sizes("719.1375 x 30 x 2 mm"), "28.3125 x 1.1811 x 0.0787 in");
  EXPECT_EQ(metric.sizes("719.1375 x 30 x 2 mm"), "719.1375 x 30 x 2 mm");
}

TEST(PaperUnits, NameADrillAsItIsBought) {
  EXPECT_EQ(metric.drill(5.1054), "5.105");
  EXPECT_EQ(inches.drill(0.201 * 25.4), "#7 (0.201 in)");
  EXPECT_EQ(inches.drill(8.5), "8.5 mm");
}

// Every length and mass of a list follows, and its heading says so; the file that it names does not change.
TEST(InchLists, CarryTheirUnitsInHeadingAndCell) {
  JobInfo info = sample::info();
  info.units = UnitSystem::in_lb;
  const auto order = order_rows(sample::plan(), info);
  EXPECT_EQ(order[0][5], "width in");
  EXPECT_EQ(order[0][14], "mass lb each");
  EXPECT_EQ(order[2][5], "3.937");   // 100 / 25.4
  EXPECT_EQ(order[2][14], "0.196");  // 0.0887 / 0.45359237
  EXPECT_EQ(order[2][17], "mark 2 centres, drill 3.3 mm, tap M4");
  const auto cut = cut_rows(sample::plan(), sample::model(), info);
  EXPECT_EQ(cut[0][5], "length in");
  EXPECT_EQ(cut[1][5], "11.811");  // 300 / 25.4
  const auto printed = print_rows(sample::plan(), sample::model(), info);
  EXPECT_EQ(printed[0][6], "volume in3");
  EXPECT_EQ(printed[1][3], "1.5748");  // 40 / 25.4
}

TEST(InchLists, FindingsForPeopleFollowAndThoseForProgramsStay) {
  EXPECT_NE(findings_text(sample::failing(), UnitSystem::in_lb).find("0.0079 in, limit 0 in"), std::string::npos);
  EXPECT_NE(findings_text(sample::failing(), UnitSystem::in_lb).find("x 0.0394, y 0.0984, z 0 in"), std::string::npos);
  JobInfo info = sample::info();
  info.units = UnitSystem::in_lb;
  const std::string json = findings_json_file(sample::failing(), info);
  EXPECT_NE(json.find("\"units\": \"mm and kg\""), std::string::npos);
  EXPECT_NE(json.find("\"value\": 0.2"), std::string::npos);
}

TEST(InchLists, ReadBack) {
  JobInfo info = sample::info();
  info.units = UnitSystem::in_lb;
  const auto files = make_job_files(sample::plan(), sample::model(), sample::passing(), info, {});
  ASSERT_TRUE(files);
  const Status same = read_back(*files, sample::plan(), sample::model(), sample::passing(), info, {});
  EXPECT_TRUE(same) << same.error().operation << same.error().reason;
}

}  // namespace
}  // namespace fitup::output
