// One spec, two shops: a laser job shop that works in millimetres, and one in inches with a water jet, whose program
// adds no kerf. Each job folder keeps its shop's rules; the box is the same. Entry: gtest.
#include <gtest/gtest.h>

#include <map>

#include "end_to_end/program.h"
#include "output/csv.h"

namespace fitup::test {
namespace {

namespace fs = std::filesystem;

struct Row {
  double thickness = 0;
  double width = 0;
  double holes_cut = 0;
  double drilled = 0;
  std::string material;
  fs::path file;
  std::string tolerance;
};

/// The order of a folder by mark; lengths in mm whatever the list says.
std::map<std::string, Row> order_of(const fs::path& folder) {
  const auto rows = output::read_csv(read_file(folder / "flat" / "order.csv"));
  std::map<std::string, Row> found;
  if (!rows) ADD_FAILURE() << "no order in " << folder;
  for (std::size_t i = 1; rows && i < rows->size(); ++i) {
    std::map<std::string, std::string> cells;
    for (std::size_t k = 0; k < rows->front().size(); ++k) cells[rows->front()[k]] = (*rows)[i].at(k);
    const auto number = [&](const std::string& heading) { return std::stod(cells.at(heading)); };
    found[cells.at("mark")] = {number("thickness mm"),       number("width mm"),   number("holes cut"),
                               number("drilled holes"),      cells.at("material"), folder / cells.at("file"),
                               cells.at("general tolerance")};
  }
  return found;
}

class TwoShops : public testing::Test {
 protected:
  std::map<std::string, Row> made_for(const std::string& name, const std::string& cutter) {
    const fs::path spec = scratch_.path() / (name + ".toml");
    write_file(spec, "fitup = 1\nname = \"box\"\nstart_from = \"" +
                         (fs::path(FITUP_FIXTURES) / "cases" / "sound.toml").string() + "\"\n[cutter]\n" + cutter);
    const fs::path folder = scratch_.path() / name;
    const RunResult result = fitup({"make", spec.string(), "-o", folder.string(), "--only", "dxf,lists"});
    EXPECT_EQ(result.status, 0) << result.output << result.errors;
    return order_of(folder);
  }

  ScratchFolder scratch_;
};

TEST_F(TwoShops, GiveTwoCorrectJobFoldersFromOneSpec) {
  const auto laser = made_for("laser", "shelf = \"metric\"\nsheets = [[3000, 1500]]\n");
  const auto jet =
      made_for("jet",
               "smallest_hole = 2\nsmallest_slot = 1.2\nsmallest_web = 1.2\ninner_radius = 0.5\n"
               "tolerance = \"class 2\"\nkerf = 1\nunits = \"in\"\ndxf = \"r12\"\nsheets = [[2500, 1250]]\n"
               "on_shelf = [{ material = \"S235JR\", thickness = [2, 3, 4, 5] }]\n"
               "file_name = \"{job} {mark}_{quantity}x\"\n");
  ASSERT_EQ(laser.size(), jet.size());
  double more_drilled = 0;
  for (const auto& [mark, row] : laser) {
    ASSERT_TRUE(jet.contains(mark)) << mark;
    const Row& other = jet.at(mark);
    EXPECT_EQ(row.width, other.width) << mark;  // the part is the same, whatever is drawn beside it
    EXPECT_EQ(row.thickness, other.thickness) << mark;
    EXPECT_EQ(row.holes_cut + row.drilled, other.holes_cut + other.drilled) << mark;
    more_drilled += other.drilled - row.drilled;
    EXPECT_EQ(row.tolerance.substr(0, 12), "ISO 9013-331");
    EXPECT_EQ(other.tolerance.substr(0, 12), "ISO 9013-332");
    EXPECT_TRUE(other.file.filename().string().starts_with("box " + mark + "_")) << other.file;
    const std::string in_mm = read_file(row.file);
    const std::string in_inches = read_file(other.file);
    EXPECT_NE(in_mm.find("AC1015"), std::string::npos);
    EXPECT_NE(in_mm.find("drawn 1:1 in millimetres"), std::string::npos);
    EXPECT_EQ(in_mm.find("allow for a cut"), std::string::npos);
    EXPECT_NE(in_inches.find("AC1009"), std::string::npos);
    EXPECT_NE(in_inches.find("drawn 1:1 in inches"), std::string::npos);
    EXPECT_NE(in_inches.find("allow for a cut 0.0394 in wide"), std::string::npos) << mark;  // 1 / 25.4
  }
  // Clearance holes of 4.5 mm are cut in sheets of 2 mm and drilled in rod plates of 3 mm, which ask for 6.
  EXPECT_GT(more_drilled, 0);
}

TEST_F(TwoShops, WhoDoesNotHaveTheSheetsIsNotSentAnyFiles) {
  const fs::path spec = scratch_.path() / "bare.toml";
  write_file(spec, "fitup = 1\nname = \"box\"\nstart_from = \"" +
                       (fs::path(FITUP_FIXTURES) / "cases" / "sound.toml").string() +
                       "\"\n[cutter]\non_shelf = [{ material = \"S235JR\", thickness = [3, 5] }]\n");
  const fs::path folder = scratch_.path() / "bare";
  EXPECT_EQ(fitup({"make", spec.string(), "-o", folder.string(), "--only", "dxf,lists,checks"}).status, 1);
  EXPECT_FALSE(fs::exists(folder / "flat"));
  EXPECT_NE(read_file(folder / "checks" / "findings.txt").find("which the shop does not have"), std::string::npos);
}

}  // namespace
}  // namespace fitup::test
