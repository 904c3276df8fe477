// The order list and the list for the printer against numbers worked out by hand.
#include <gtest/gtest.h>

#include <map>

#include "output/csv.h"
#include "output/lists.h"
#include "output/paths.h"
#include "output/sample.h"
#include "output/text.h"

namespace fitup::output {
namespace {

std::map<std::string, std::string> row(const std::vector<CsvRow>& rows, std::size_t index) {
  std::map<std::string, std::string> fields;
  for (std::size_t i = 0; i < rows.front().size(); ++i) fields[rows.front()[i]] = rows.at(index).at(i);
  return fields;
}

TEST(OrderList, HasTheNumbersOfThePlate) {
  const auto rows = order_rows(sample::plan(), sample::info());
  ASSERT_EQ(rows.size(), 3U);
  auto plate = row(rows, 2);  // after the aluminium: by material, thickness and mark
  EXPECT_EQ(plate["mark"], "PLT01");
  EXPECT_EQ(plate["description"], "left plate");
  EXPECT_EQ(plate["quantity"], "2");
  EXPECT_EQ(plate["thickness mm"], "2");
  EXPECT_EQ(plate["width mm"], "100");
  EXPECT_EQ(plate["height mm"], "60");
  EXPECT_EQ(plate["area mm2"], number(sample::plate_area_mm2, 2));
  EXPECT_EQ(plate["cut length mm"], number(sample::plate_cut_mm, 3));
  EXPECT_EQ(plate["piercings"], "3");
  EXPECT_EQ(plate["drilled holes"], "2");
  EXPECT_EQ(plate["mass kg each"], "0.089");
  EXPECT_EQ(plate["mass kg total"], "0.177");
  EXPECT_EQ(plate["file"], "flat/S235JR_2mm/PLT01_left-plate.dxf");
  EXPECT_EQ(plate["cut length mm total"], number(2 * sample::plate_cut_mm, 3));
  EXPECT_EQ(plate["holes cut"], "2");
  EXPECT_EQ(plate["narrowest cut-out mm"], "10");  // the window, beside a hole of 12
  EXPECT_EQ(plate["after cutting"], "mark 2 centres, drill 3.3, tap M4");
  EXPECT_EQ(plate["notes"], "");
  EXPECT_EQ(plate["job"] + plate["revision"] + plate["spec"], "small-boxBaaaaaaaaaaaa");
}

TEST(OrderList, QuotesAwkwardNamesAndCountsInstances) {
  const auto rows = order_rows(sample::plan(), sample::info());
  EXPECT_EQ(read_csv(write_csv(rows)), rows);
  auto rail = row(rows, 1);
  EXPECT_EQ(rail["description"], "Auflage, \"hinten\" \xC3\xBC");
  EXPECT_EQ(rail["file"], "flat/EN-AW-5754_5mm/PLT02_auflage-hinten.dxf");
  EXPECT_EQ(rail["quantity"], "3");
  EXPECT_EQ(rail["area mm2"], "20000");
  EXPECT_EQ(rail["cut length mm"], "900");
  EXPECT_EQ(rail["piercings"], "1");
  EXPECT_EQ(rail["notes"], "");
}

TEST(OrderList, NamesFilesAfterTheJobsPattern) {
  JobInfo info = sample::info();
  info.flat.file_name = "{job}-{revision} {mark}_{quantity}x_{material}+{thickness} ({name})";
  const Plan plan = sample::plan();
  EXPECT_EQ(row(order_rows(plan, info), 2)["file"], "flat/S235JR_2mm/small-box-B PLT01_2x_S235JR+2mm (left-plate).dxf");
  info.flat.units = UnitSystem::in_lb;
  EXPECT_EQ(row(order_rows(plan, info), 2)["file"],
            "flat/S235JR_0.0787in/small-box-B PLT01_2x_S235JR+0.0787in (left-plate).dxf");
}

TEST(OrderList, SaysWhatIsDrilledByKind) {
  Flat flat;
  flat.drilled = {{{0, 0}, 5, "tap M6"}, {{9, 0}, 3.3, "tap M4"}, {{18, 0}, 5, "tap M6"}, {{27, 0}, 2, ""}};
  EXPECT_EQ(work_after_cutting(flat, PaperUnits(UnitSystem::mm_kg)),
            "mark the centre, drill 2; mark the centre, drill 3.3, tap M4; mark 2 centres, drill 5, tap M6");
}

/// The sample with the plates welded to the angle, a rail screwed to it, and a screw whose tip comes through the
/// plate's round hole of 12 from behind.
Plan fixed_sample() {
  Plan plan = sample::plan();
  plan.joints.push_back({2, 0, JointKind::weld, axis::x, 0, 0});
  plan.joints.push_back({0, 4, JointKind::bolted, axis::z, 0, 0});
  Part screw;
  screw.mark = "SCR";
  screw.source = Source::bought;
  screw.form = Solidform{};
  plan.parts.push_back(screw);
  Instance instance;
  instance.part = plan.parts.size() - 1;
  const Pose& plate = plan.instances[2].pose;
  instance.pose = Pose::at(plate.point({10, 25, -8}), plate.x(), plate.y());
  plan.instances.push_back(instance);
  plan.joints.push_back({2, plan.instances.size() - 1, JointKind::bolted, axis::x, 0, 0});
  plan.fasteners.push_back({"M4", plan.instances.size() - 1, {0, 4}, 4, 0});
  return plan;
}

TEST(OrderList, SaysWhatIsWeldedWhatIsScrewedAndWhereATipComesThrough) {
  const auto rows = order_rows(fixed_sample(), sample::info());
  EXPECT_EQ(row(rows, 2)["notes"], "1 hole 12 mm wide for a screw's tip; weld to ANG01");
  EXPECT_EQ(row(rows, 1)["notes"], "screwed to ANG01, not welded");
}

TEST(OrderList, AHoleOfAScrewThatHoldsThePartIsForNoTip) {
  Plan plan = fixed_sample();
  plan.fasteners[0].stack.push_back(2);
  EXPECT_EQ(row(order_rows(plan, sample::info()), 2)["notes"], "weld to ANG01");
}

TEST(PrintList, HasSizeAndVolume) {
  const auto rows = print_rows(sample::plan(), sample::model(), sample::info());
  ASSERT_EQ(rows.size(), 2U);
  auto spacer = row(rows, 1);
  EXPECT_EQ(spacer["mark"], "SPC01");
  EXPECT_EQ(spacer["quantity"], "5");  // as many as the plan asks for
  EXPECT_EQ(spacer["size x mm"], "40");
  EXPECT_EQ(spacer["size y mm"], "60");
  EXPECT_EQ(spacer["size z mm"], "11.8");
  EXPECT_EQ(spacer["volume cm3"], number((40 * 60 - 3.14159265358979 * 64) * 11.8 / 1000, 2));
  EXPECT_EQ(spacer["file"], "3d-print/SPC01_spacer-for-the-thermal-plate.stl");
  EXPECT_EQ(spacer["3MF file"], "3d-print/SPC01_spacer-for-the-thermal-plate.3mf");
}

}  // namespace
}  // namespace fitup::output
