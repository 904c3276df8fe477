// The cutter's file against closed forms, a golden file and every fault the reader must see.
// FITUP_UPDATE_GOLDEN=1 writes the golden file anew.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <numbers>

#include "output/dxf.h"
#include "output/flat_drawing.h"
#include "output/read_back.h"
#include "output/sample.h"

namespace fitup::output {
namespace {

constexpr double pi = std::numbers::pi;

std::string plate_dxf() { return write_dxf(flat_drawing(sample::plate(), sample::info())); }

std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

std::string flaw_of(const std::string& text) {
  const auto read = read_dxf(text);
  const auto* flaw = std::get_if<std::string>(&read);
  return flaw ? *flaw : "";
}

TEST(Dxf, MatchesTheGoldenFile) {
  const std::string path = FITUP_TESTS "/output/golden/plate.dxf";
  if (std::getenv("FITUP_UPDATE_GOLDEN") != nullptr) sample::write(path, plate_dxf());
  EXPECT_EQ(plate_dxf(), sample::read(path));
}

// Bulge of an arc: the tangent of a quarter of its included angle, negative clockwise (DXF Reference, LWPOLYLINE,
// group code 42). A corner's quarter circle: tan(22.5 degrees) = sqrt(2) - 1.
TEST(Dxf, WritesTheBulgeOfAnArc) {
  const auto read = read_dxf(plate_dxf());
  const Loop& outline = std::get<DxfDrawing>(read).cut.back();
  int arcs = 0;
  for (const Vertex& v : outline.vertices) {
    if (v.bulge == 0) continue;
    ++arcs;
    EXPECT_NEAR(v.bulge, std::sqrt(2.0) - 1, 1e-12);
    EXPECT_NEAR(v.bulge, std::tan(pi / 2 / 4), 1e-12);
  }
  EXPECT_EQ(arcs, 4);
}

// Area by hand: 100 x 60 less four corners of (1 - pi/4) r^2, a hole of diameter 12 and a window of 20 x 10.
TEST(Dxf, HasTheAreaAndSizeOfThePlate) {
  const auto read = read_dxf(plate_dxf());
  const DxfDrawing& drawing = std::get<DxfDrawing>(read);
  ASSERT_EQ(drawing.cut.size(), 3U);
  EXPECT_NEAR(drawing.cut[2].area_mm2() - drawing.cut[0].area_mm2() - drawing.cut[1].area_mm2(), sample::plate_area_mm2,
              1e-4);
  EXPECT_NEAR(drawing.bounds.low.x, 0, 1e-6);
  EXPECT_NEAR(drawing.bounds.low.y, 0, 1e-6);
  EXPECT_NEAR(drawing.bounds.high.x, 100, 1e-6);
  EXPECT_NEAR(drawing.bounds.high.y, 60, 1e-6);
  const auto hole = drawing.cut[0].as_circle();
  ASSERT_TRUE(hole);
  EXPECT_NEAR(hole->centre.x, 20, 1e-6);
  EXPECT_NEAR(hole->centre.y, 20, 1e-6);
  EXPECT_NEAR(hole->radius, 6, 1e-6);
}

TEST(Dxf, MarksDrilledHolesWithCrossesInsideTheHole) {
  const auto read = read_dxf(plate_dxf());
  const DxfDrawing& drawing = std::get<DxfDrawing>(read);
  ASSERT_EQ(drawing.mark.size(), 4U);
  for (const DxfLine& line : drawing.mark) EXPECT_LT(norm(line.to - line.from), 3.3);
  EXPECT_NEAR(0.5 * (drawing.mark[0].from.x + drawing.mark[0].to.x), 10, 1e-6);
  EXPECT_NEAR(0.5 * (drawing.mark[2].from.y + drawing.mark[2].to.y), 50, 1e-6);
  EXPECT_EQ(drawing.notes.front().text, "drill 3.3, tap M4");
}

TEST(Dxf, SaysBesideThePartWhatItIs) {
  const auto read = read_dxf(plate_dxf());
  std::string notes;
  for (const DxfNote& note : std::get<DxfDrawing>(read).notes) {
    if (note.height_mm > 3) {
      EXPECT_GT(note.at.x, 100);
      notes += note.text + "|";
    }
  }
  EXPECT_EQ(notes, "PLT01  left plate|S235JR, 2 mm|drawn 1:1 in millimetres|small-box, revision B|spec aaaaaaaaaaaa|");
}

TEST(Dxf, WritesWhatIsNotAsciiAsItsCode) {
  DxfDrawing drawing = flat_drawing(sample::plate(), sample::info());
  drawing.notes = {
      {{0, 0}, 5, "\xC3\xBC \xE2\x82\xAC\n\xF0\x9F\x94\xA9"}};  // u umlaut, euro sign, a nut beyond the basic plane
  const std::string text = write_dxf(drawing);
  EXPECT_NE(text.find("\\U+00FC \\U+20AC ?"), std::string::npos);
  EXPECT_TRUE(std::none_of(text.begin(), text.end(), [](char c) { return static_cast<unsigned char>(c) > 126; }));
}

JobInfo for_the_cutter(UnitSystem units, DxfRelease release) {
  JobInfo info = sample::info();
  info.flat.units = units;
  info.flat.release = release;
  return info;
}

// DXF Reference, header variables: $INSUNITS 1 is the inch and 4 the millimetre, $MEASUREMENT 0 is imperial and 1
// metric; R12 (AC1009) has neither, nor LWPOLYLINE and subclass markers.
TEST(Dxf, SaysTheSamePlateInInchesAndInRelease12) {
  const Part part = sample::plate();
  for (const UnitSystem units : {UnitSystem::mm_kg, UnitSystem::in_lb}) {
    for (const DxfRelease release : {DxfRelease::r2000, DxfRelease::r12}) {
      const JobInfo info = for_the_cutter(units, release);
      const std::string text = write_dxf(flat_drawing(part, info));
      EXPECT_EQ(flaw_in_dxf(text, part, info, Release::complete), std::nullopt);
      const bool old = release == DxfRelease::r12;
      const bool inches = units == UnitSystem::in_lb;
      EXPECT_EQ(text.find(old ? "AC1009" : "AC1015") != std::string::npos, true);
      EXPECT_EQ(text.find("$INSUNITS\n 70\n" + std::string(inches ? "1" : "4")) != std::string::npos, !old);
      EXPECT_EQ(text.find("$MEASUREMENT\n 70\n" + std::string(inches ? "0" : "1")) != std::string::npos, !old);
      EXPECT_EQ(text.find("LWPOLYLINE") == std::string::npos && text.find("AcDb") == std::string::npos, old);
      EXPECT_EQ(text.find("drawn 1:1 in inches") != std::string::npos, inches);
      EXPECT_EQ(text.find("S235JR, 0.0787 in") != std::string::npos, inches);  // 2 mm
      EXPECT_EQ(text.find("drill 3.3 mm, tap M4") != std::string::npos, inches);
      EXPECT_EQ(text.find("CIRCLE") != std::string::npos, true);
      EXPECT_EQ(text.find(inches ? " 40\n0.23622047\n" : " 40\n6.000000\n") != std::string::npos, true);  // 6 / 25.4
    }
  }
}

TEST(DxfReadBack, SeesTheWrongUnitAndTheWrongRelease) {
  const Part part = sample::plate();
  const JobInfo inch = for_the_cutter(UnitSystem::in_lb, DxfRelease::r2000);
  EXPECT_EQ(flaw_in_dxf(plate_dxf(), part, inch, Release::complete), "its unit is not the one that was asked for");
  const JobInfo old = for_the_cutter(UnitSystem::mm_kg, DxfRelease::r12);
  EXPECT_EQ(flaw_in_dxf(plate_dxf(), part, old, Release::complete), "its release is not the one that was asked for");
  const std::string r12 = write_dxf(flat_drawing(part, old));
  EXPECT_EQ(flaw_of(replaced(r12, " 66\n1\n 10\n0.000000\n 20\n0.000000\n 30\n0.000000\n 70\n1",
                             " 66\n1\n 10\n0.000000\n 20\n0.000000\n 30\n0.000000\n 70\n0")),
            "a contour is open");
  EXPECT_EQ(flaw_of(replaced(r12, "  0\nSEQEND\n  8\nCUT\n", "")), "a POLYLINE stands inside a contour");
}

// A cut 0.4 wide: the outline stands 0.2 out, a round hole is 0.2 smaller in radius, and a file without it is noticed.
TEST(Dxf, AllowsForTheKerfWhenItIsAskedForAndThenOnly) {
  const Part part = sample::plate();
  JobInfo info = sample::info();
  const DxfDrawing nominal = flat_drawing(part, info);
  info.flat.kerf_mm = 0.4;
  const DxfDrawing cut = flat_drawing(part, info);
  const Vec2 size = nominal.bounds.size();
  EXPECT_NEAR(cut.bounds.size().x, size.x + 0.4, 1e-9);
  EXPECT_NEAR(cut.bounds.size().y, size.y + 0.4, 1e-9);
  EXPECT_NEAR(cut.bounds.low.x, 0, 1e-9);
  ASSERT_EQ(cut.cut.size(), nominal.cut.size());
  std::size_t round = 0;
  for (std::size_t i = 0; i < cut.cut.size(); ++i) {
    const auto was = nominal.cut[i].as_circle();
    if (!was) continue;
    ++round;
    const auto is = cut.cut[i].as_circle();
    ASSERT_TRUE(is);
    EXPECT_NEAR(is->radius, was->radius - 0.2, 1e-9);
    EXPECT_NEAR(is->centre.x, was->centre.x + 0.2, 1e-9);
  }
  EXPECT_GT(round, 0U);
  EXPECT_NEAR(cut.mark.front().from.x, nominal.mark.front().from.x + 0.2, 1e-9);
  const std::string text = write_dxf(cut);
  EXPECT_NE(text.find("outlines allow for a cut 0.4 mm wide"), std::string::npos);
  EXPECT_EQ(flaw_in_dxf(text, part, info, Release::complete), std::nullopt);
  EXPECT_NE(flaw_in_dxf(write_dxf(nominal), part, info, Release::complete), std::nullopt);
  EXPECT_EQ(write_dxf(nominal).find("allow for a cut"), std::string::npos);
}

TEST(DxfReader, SeesEveryFault) {
  const std::string good = plate_dxf();
  EXPECT_EQ(flaw_of(good), "");
  EXPECT_EQ(flaw_of(replaced(good, "$INSUNITS\n 70\n4", "$INSUNITS\n 70\n5")),
            "the unit is neither millimetres nor inches ($INSUNITS is not 4 or 1)");
  EXPECT_EQ(flaw_of(replaced(good, "$INSUNITS\n 70\n4", "$INSUNITS\n 70\n1")),
            "$MEASUREMENT is of another system than $INSUNITS");
  EXPECT_EQ(flaw_of(replaced(good, "AcDbPolyline\n 90\n4\n 70\n1", "AcDbPolyline\n 90\n4\n 70\n0")),
            "a contour is open");
  EXPECT_EQ(flaw_of(replaced(good, "AcDbPolyline\n 90\n4", "AcDbPolyline\n 90\n5")),
            "a contour has fewer corners than it says");
  EXPECT_EQ(flaw_of(replaced(good, "CUT\n100\nAcDbCircle", "NOTE\n100\nAcDbCircle")),
            "a CIRCLE on layer NOTE does not belong there");
  EXPECT_EQ(flaw_of(replaced(good, "  0\nCIRCLE", "  0\nSPLINE")), "a SPLINE on layer CUT does not belong there");
  EXPECT_EQ(flaw_of(good.substr(0, good.size() - 8)), "it does not end with EOF");
  EXPECT_EQ(flaw_of(good.substr(0, good.size() - 5)), "it is not made of pairs of a group code and a value");
  DxfDrawing twice = flat_drawing(sample::plate(), sample::info());
  twice.cut.push_back(twice.cut.front());
  EXPECT_EQ(flaw_of(write_dxf(twice)), "a contour is there twice");
}

TEST(DxfReadBack, ComparesWithThePart) {
  const Part part = sample::plate();
  EXPECT_EQ(flaw_in_dxf(plate_dxf(), part, sample::info(), Release::complete), std::nullopt);
  Part wider = part;
  std::get<Flat>(wider.form).profile.outer = Loop::rounded_rectangle({-10, 5}, {90.01, 65}, 5);
  EXPECT_EQ(flaw_in_dxf(plate_dxf(), wider, sample::info(), Release::complete),
            "it is 100.000000 x 60.000000 mm, the part is 100.010000 x 60.000000 mm");
  Part larger_hole = part;
  std::get<Flat>(larger_hole.form).profile.holes[0] = Loop::circle({10, 25}, 6.001);
  EXPECT_NE(flaw_in_dxf(plate_dxf(), larger_hole, sample::info(), Release::complete).value_or("").find("its area is"),
            std::string::npos);
  Part moved_hole = part;
  std::get<Flat>(moved_hole.form).profile.holes[0] = Loop::circle({10.001, 25}, 6);
  EXPECT_EQ(flaw_in_dxf(plate_dxf(), moved_hole, sample::info(), Release::complete), "contour 1 is not the part's");
  Part moved_drill = part;
  std::get<Flat>(moved_drill.form).drilled[1].at.x += 0.01;
  EXPECT_EQ(flaw_in_dxf(plate_dxf(), moved_drill, sample::info(), Release::complete),
            "drilled hole 2 is marked elsewhere");
  DxfDrawing other_ends = flat_drawing(part, sample::info());
  other_ends.mark[3].from.y -= 1;  // its middle stays where it was
  other_ends.mark[3].to.y += 1;
  EXPECT_EQ(flaw_in_dxf(write_dxf(other_ends), part, sample::info(), Release::complete),
            "the cross on drilled hole 2 has other ends");
  Part fewer = part;
  std::get<Flat>(fewer.form).profile.holes.pop_back();
  EXPECT_EQ(flaw_in_dxf(plate_dxf(), fewer, sample::info(), Release::complete), "it has 3 contours, the part has 2");
}

}  // namespace
}  // namespace fitup::output
