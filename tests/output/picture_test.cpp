// The picture of the assembly: which views it has, that all lies on the page, that any name is well-formed.
#include "output/picture.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <sstream>

#include "output/sample.h"

namespace fitup::output {
namespace {

std::string picture(const Plan& plan, const JobInfo& info) {
  const auto svg = assembly_svg(plan, sample::model(), info);
  EXPECT_TRUE(svg) << svg.error().reason;
  return svg.value();
}

std::size_t count(const std::string& text, const std::string& word) {
  std::size_t n = 0;
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) ++n;
  return n;
}

TEST(Picture, ShowsIsometricAndThreeViewsUnderTheJobItsSizesAndItsMass) {
  const std::string svg = picture(sample::plan(), sample::info());
  EXPECT_EQ(count(svg, "<path"), 6U);
  for (const char* word :
       {">All on, sizes of the whole<", ">Covers off<", ">The bare frame, its sizes<", ">From the front, covers off<",
        ">From above, covers off<", ">From the left, covers off<", ">A small box<",
        "small-box, revision B, spec aaaaaaaaaaaa", "frame 400 x 300 x 100 mm (across, deep, high)"}) {
    EXPECT_EQ(count(svg, word), 1U) << word;
  }
}

/// A title of any length and script stands on the page whole, broken over lines; nothing is cut off.
TEST(Picture, WrapsALongTitleAndKeepsAllOfIt) {
  JobInfo info = sample::info();
  info.title.clear();
  for (int i = 0; i < 30; ++i) info.title += "box of 電池 number " + std::to_string(i) + " ";
  info.title += std::string(400, 'w');
  const std::string svg = picture(sample::plan(), info);
  std::string all;
  std::size_t lines = 0;
  const std::string open = "font-size=\"20\"";
  for (std::size_t at = svg.find(open); at != std::string::npos; at = svg.find(open, at + 1), ++lines) {
    const std::size_t from = svg.find('>', at) + 1;
    const std::string words = svg.substr(from, svg.find('<', from) - from);
    EXPECT_LE(words.size(), 130U) << words;  // 1340 wide at 0.6 of 20 a letter are 111, a few of three bytes
    all += words;
  }
  EXPECT_GT(lines, 5U);
  std::string wanted = info.title;
  std::erase(wanted, ' ');
  std::erase(all, ' ');
  EXPECT_EQ(all, wanted);
}

TEST(Picture, CarriesTheThreeSizesOfTheFrameInTheUnitsOfPaper) {
  const std::string svg = picture(sample::plan(), sample::info());
  for (const char* size : {">400<", ">300<", ">100<"}) EXPECT_GE(count(svg, size), 1U) << size;
  JobInfo info = sample::info();
  info.units = UnitSystem::in_lb;
  const std::string inch = picture(sample::plan(), info);
  for (const char* size : {">15.748<", ">11.811<", ">3.937<"}) EXPECT_GE(count(inch, size), 1U) << size;
  EXPECT_EQ(count(inch, " mm"), 0U);
}

TEST(Picture, MarksEachPartThatCanBeSeenOnce) {
  const std::string svg = picture(sample::plan(), sample::info());
  for (const char* mark : {">ANG01<", ">PLT01<", ">PLT02<", ">ITM01<"}) EXPECT_EQ(count(svg, mark), 1U) << mark;
  EXPECT_EQ(count(svg, ">SPC01<"), 0U) << "stands nowhere in the assembly";
}

TEST(Picture, LeavesOutAViewInWhichNothingStands) {
  Plan plan = sample::plan();
  std::erase_if(plan.instances, [](const Instance& i) { return i.group == "frame"; });
  EXPECT_EQ(count(picture(plan, sample::info()), "<path"), 5U);  // no bare frame
}

/// A plate of 400 x 100 welded over the front: what is inside is not to be seen from there.
TEST(Picture, ShowsTheBareFrameWhereAPlateShutsTheFace) {
  Plan plan = sample::plan();
  Part plate;
  plate.mark = "PLT20";
  plate.name = "front plate";
  plate.role = Role::face_plate;
  plate.material = "S235JR";
  plate.form = Flat{{Loop::rectangle({0, 0}, {400, 100}), {}}, 2, {}};
  Instance over;
  over.part = plan.parts.size();
  over.name = plate.name;
  over.group = "frame";
  over.pose = Pose::at({0, 0, 0}, axis::x, axis::z);
  plan.parts.push_back(plate);
  plan.instances.push_back(over);
  const auto model = build_model(plan);
  ASSERT_TRUE(model);
  const auto svg = assembly_svg(plan, *model, sample::info());
  ASSERT_TRUE(svg);
  EXPECT_EQ(count(*svg, ">From the front, the bare frame<"), 1U);
  EXPECT_EQ(count(*svg, ">From the front, covers off<"), 0U);
  EXPECT_EQ(count(*svg, ">From above, covers off<"), 1U);
}

/// How many ends of leaders lie under the white behind a size's words.
std::size_t covered_ends(const std::string& svg) {
  std::vector<Vec2> ends;
  for (std::size_t at = svg.find("<circle "); at != std::string::npos; at = svg.find("<circle ", at + 1)) {
    Vec2 end;
    if (std::sscanf(svg.c_str() + at, "<circle cx=\"%lf\" cy=\"%lf\" r=\"2.2\"", &end.x, &end.y) == 2)
      ends.push_back(end);
  }
  std::size_t covered = 0;
  for (std::size_t at = svg.find("<rect "); at != std::string::npos; at = svg.find("<rect ", at + 1)) {
    double x = 0, y = 0, width = 0;
    const char* form = "<rect x=\"%lf\" y=\"%lf\" width=\"%lf\" height=\"16\"";
    if (std::sscanf(svg.c_str() + at, form, &x, &y, &width) != 3) continue;
    covered += static_cast<std::size_t>(std::count_if(ends.begin(), ends.end(), [&](Vec2 end) {
      return end.x > x && end.x < x + width && end.y > y && end.y < y + 16;
    }));
  }
  return covered;
}

/// Feet below the middle of the front, where the width's figure stands: alone one is covered at some height, and with
/// another one aside the leader goes to that.
TEST(Picture, LeadersEndWhereNoSizeCoversThemIfThePartStandsElsewhereToo) {
  std::size_t alone = 0;
  std::size_t beside = 0;
  for (double down = 10; down < 100; down += 15) {
    Plan plan = sample::plan();
    Part foot = plan.parts[1];
    foot.mark = "FOT01";
    foot.role = Role::foot;
    foot.form = Solidform{{{{Loop::rectangle({-20, -10}, {20, 10}), {}}, Pose{}, 8}}};
    plan.parts.push_back(foot);
    for (const bool two : {false, true}) {
      Instance standing;
      standing.part = plan.parts.size() - 1;
      standing.name = two ? "foot 2" : "foot 1";
      standing.group = "frame";
      standing.pose = two ? Pose::at({-150, 100, -8}) : Pose::at({200, -5, -down});
      plan.instances.push_back(standing);
      const auto model = build_model(plan);
      ASSERT_TRUE(model);
      const auto svg = assembly_svg(plan, *model, sample::info());
      ASSERT_TRUE(svg);
      (two ? beside : alone) += covered_ends(*svg);
    }
  }
  EXPECT_GT(alone, 0U);
  EXPECT_EQ(beside, 0U);
}

TEST(Picture, LiesWhollyOnThePage) {
  const std::string svg = picture(sample::plan(), sample::info());
  double width = 0;
  double height = 0;
  ASSERT_EQ(std::sscanf(svg.c_str() + svg.find("viewBox"), "viewBox=\"0 0 %lf %lf\"", &width, &height), 2);
  std::size_t points = 0;
  for (std::size_t at = svg.find("d=\"M"); at != std::string::npos; at = svg.find("d=\"M", at + 1)) {
    std::string path = svg.substr(at + 3, svg.find("\"", at + 3) - at - 3);
    std::replace_if(
        path.begin(), path.end(), [](char c) { return c == 'M' || c == 'L'; }, ' ');
    std::istringstream numbers(path);
    for (double x = 0, y = 0; numbers >> x >> y; ++points) {
      EXPECT_TRUE(x >= 29.9 && x <= width - 29.9 && y >= 29.9 && y <= height) << x << " " << y;
    }
  }
  EXPECT_GT(points, 100U);
}

TEST(Picture, EscapesNames) {
  JobInfo info = sample::info();
  info.title = "a < b & c";
  EXPECT_EQ(count(picture(sample::plan(), info), ">a &lt; b &amp; c<"), 1U);
}

}  // namespace
}  // namespace fitup::output
