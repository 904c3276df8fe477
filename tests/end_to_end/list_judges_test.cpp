// The lists of the demo against its STEP files, read by the tests' own reader of ISO 10303-21: how often each part
// stands in the assembly, and how long, wide and thick its solid is.
// Entry: gtest.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <map>

#include "end_to_end/program.h"
#include "judges/part21_assembly.h"
#include "output/csv.h"

namespace fitup::test {
namespace {

using Fields = std::map<std::string, std::string>;

std::vector<Fields> rows_of(const std::string& list) {
  const auto rows = output::read_csv(read_file(demo_job().folder / list));
  std::vector<Fields> found;
  if (!rows) ADD_FAILURE() << list << " is no CSV";
  for (std::size_t i = 1; rows && i < rows->size(); ++i) {
    for (std::size_t k = 0; k < rows->front().size(); ++k) {
      if (k == 0) found.emplace_back();
      found.back()[rows->front()[k]] = (*rows)[i].at(k);
    }
  }
  return found;
}

/// By mark, from the assembly.
std::map<std::string, std::size_t> counts_in_step() {
  std::map<std::string, std::size_t> counts;
  const auto file = judges::read_part21(read_file(demo_job().folder / "assembly.step"));
  if (!file) return counts;
  const auto assembly = judges::assembly_of(*file);
  for (const auto& placed : assembly.placements()) ++counts[assembly.products[placed.product].id];
  return counts;
}

/// The sizes of a part's solid along its axes, from the vertices of its own file, ascending.
std::array<double, 3> sizes_in_step(const std::string& mark) {
  std::array<double, 3> sizes{};
  for (const auto& [name, bytes] : files_in(demo_job().folder / "parts")) {
    if (!name.starts_with(mark + "_")) continue;
    const auto file = judges::read_part21(bytes);
    if (!file) return sizes;
    Box3 box;
    for (const int id : file->all("VERTEX_POINT")) {
      box.add(judges::triple_at(*file, file->find(id, "VERTEX_POINT")->ref(1)));
    }
    sizes = {box.size().x, box.size().y, box.size().z};
  }
  std::sort(sizes.begin(), sizes.end());
  return sizes;
}

class ListJudges : public testing::Test {
 protected:
  void SetUp() override { ASSERT_EQ(demo_job().run.status, 0) << demo_job().run.errors; }
};

TEST_F(ListJudges, CountEveryPartOfTheAssemblyOnceInSomeList) {
  auto counts = counts_in_step();
  ASSERT_GT(counts.size(), 20U);
  for (const char* list : {"bench/cut-list.csv", "flat/order.csv", "bought.csv"}) {
    for (const Fields& row : rows_of(list)) {
      const std::string mark = row.at("mark");
      if (mark.starts_with("EYE-")) continue;  // not in the model; the note says so
      ASSERT_TRUE(counts.contains(mark)) << list << ": " << mark;
      EXPECT_EQ(std::to_string(counts.at(mark)), row.at("quantity")) << list << ": " << mark;
      counts.erase(mark);
    }
  }
  for (const auto& [mark, count] : counts) ADD_FAILURE() << mark << " stands in the assembly and in no list";
}

TEST_F(ListJudges, MeasureTheLengthOfEverySawnPart) {
  for (const Fields& row : rows_of("bench/cut-list.csv")) {
    const double listed = std::stod(row.at("length mm"));
    const auto sizes = sizes_in_step(row.at("mark"));
    // The longest side of a member; a round boss is as long as it is wide, within a bit of its seam.
    EXPECT_NEAR(sizes[2], listed, 0.001) << row.at("mark");
  }
}

TEST_F(ListJudges, MeasureTheThicknessOfEveryFlatPart) {
  for (const Fields& row : rows_of("flat/order.csv")) {
    EXPECT_NEAR(sizes_in_step(row.at("mark"))[0], std::stod(row.at("thickness mm")), 0.001) << row.at("mark");
    const double width = std::stod(row.at("width mm"));
    const double height = std::stod(row.at("height mm"));
    EXPECT_NEAR(sizes_in_step(row.at("mark"))[1], std::min(width, height), 0.001) << row.at("mark");
    EXPECT_NEAR(sizes_in_step(row.at("mark"))[2], std::max(width, height), 0.001) << row.at("mark");
  }
}

// Six blocks with four rods each; a rod has an inner nut at either end (12 x 4) and, beyond each rod plate, a washer
// and an outer nut: 24 rods, 96 nuts, 48 washers. One eye for each of four lift points.
TEST_F(ListJudges, TheDemosHardwareIsWhatItsSpecAsksFor) {
  std::map<std::string, std::string> quantity;
  for (const Fields& row : rows_of("bought.csv")) quantity[row.at("mark")] = row.at("quantity");
  EXPECT_EQ(quantity["ROD-M6x470"], "24");
  EXPECT_EQ(quantity["NUT-M6"], "96");
  EXPECT_EQ(quantity["WSH-M6"], "48");
  EXPECT_EQ(quantity["EYE-M10"], "4");
  EXPECT_EQ(quantity["ITM01"], "6");
  EXPECT_EQ(quantity["ITM02"], "5");
}

TEST_F(ListJudges, UnitsChangePaperAndListsButNoPartAndNoJson) {
  const ScratchFolder scratch;
  const auto folder = scratch.path() / "inch";
  const RunResult run = fitup({"make", demo_spec().string(), "-o", folder.string(), "--units", "in"});
  ASSERT_EQ(run.status, 0) << run.errors;
  EXPECT_NE(run.output.find("frame 38.74 x 20.39 x 12.95 in"), std::string::npos) << run.output;  // 984 x 518 x 329
  const auto inch = files_in(folder);
  for (const auto& [name, bytes] : files_in(demo_job().folder)) {
    const bool stays = name.ends_with(".step") || name.ends_with(".dxf") || name.ends_with(".stl") ||
                       name.ends_with(".3mf") || name == "checks/findings.json";
    const bool changes = name.ends_with(".csv") || name.ends_with(".txt");
    if (stays || changes) {
      EXPECT_EQ(inch.at(name) == bytes, stays) << name;
    }
  }
}

/// The weld list without the columns that name the job and its spec.
std::vector<std::vector<std::string>> welds_of(const std::filesystem::path& folder) {
  auto rows = output::read_csv(read_file(folder / "checks" / "welds.csv"));
  if (!rows || rows->empty()) return {};
  const auto job = std::find(rows->front().begin(), rows->front().end(), "job") - rows->front().begin();
  for (auto& row : *rows) row.resize(static_cast<std::size_t>(job));
  return *rows;
}

// Covers are made anew to a frame that is measured 2 mm wider at the top; what is welded is what was planned and
// checked.
TEST(WeldList, OfAMeasuredFrameIsTheOneThatWasChecked) {
  const ScratchFolder scratch;
  const std::string demo = read_file(demo_spec());
  write_file(scratch.path() / "planned.toml", demo);
  write_file(scratch.path() / "measured.toml",
             demo +
                 "\n[as_built.main.front]\nwidth_bottom = 984\nwidth_top = 986\nheight_left = 329\n"
                 "height_right = 329\ndiagonal_rising = 1038.5\n");
  for (const std::string name : {"planned", "measured"}) {
    const auto spec = scratch.path() / (name + ".toml");
    const RunResult made =
        fitup({"make", spec.string(), "-o", (scratch.path() / name).string(), "--only", "lists,checks"});
    EXPECT_EQ(made.status, 0) << made.output << made.errors;
  }
  const auto planned = welds_of(scratch.path() / "planned");
  EXPECT_GT(planned.size(), 50U);
  EXPECT_EQ(welds_of(scratch.path() / "measured"), planned);
}

}  // namespace
}  // namespace fitup::test
