// Templates as they come out of a printer: rendered by poppler, and measured in the picture.
// Entry: gtest.
#include "bench/templates.h"

#include <gtest/gtest.h>

#include <cmath>
#include <fstream>

#include "bench/pdf.h"
#include "bench/strip.h"
#include "output/sample.h"

namespace fitup::bench {
namespace {

constexpr int dots_per_inch = 600;
constexpr double mm_per_dot = 25.4 / dots_per_inch;
constexpr double near_mm = 0.1;

/// A page as grey dots.
struct Picture {
  int width = 0;
  int height = 0;
  std::string dots;
  [[nodiscard]] bool dark(double x_mm, double y_mm) const {
    const int x = static_cast<int>(x_mm / mm_per_dot);
    const int y = static_cast<int>(y_mm / mm_per_dot);
    if (x < 0 || y < 0 || x >= width || y >= height) return false;
    return static_cast<unsigned char>(
               dots[static_cast<std::size_t>(y) * static_cast<std::size_t>(width) + static_cast<std::size_t>(x)]) < 128;
  }
  /// The middle of the first run of dark dots on the way from `from` to `to`, as a distance from `from`; nan if none.
  [[nodiscard]] double first_line_mm(Vec2 from, Vec2 to) const {
    const double length = norm(to - from);
    const Vec2 way = (1 / length) * (to - from);
    double begin = -1;
    for (double at = 0; at <= length; at += 0.25 * mm_per_dot) {
      const Vec2 p = from + at * way;
      const bool is_dark = dark(p.x, p.y);
      if (is_dark && begin < 0) begin = at;
      if (!is_dark && begin >= 0) return 0.5 * (begin + at);
    }
    return std::nan("");
  }
};

class Templates : public testing::Test {
 protected:
  /// Of one page, by pdftoppm.
  Picture picture(const Paper& paper, std::size_t page) {
    const auto bytes = write_pdf(paper, sample::info(), type_);
    EXPECT_TRUE(bytes);
    if (!bytes) return {};
    const std::string number = std::to_string(page + 1);
    sample::write(folder_.path() / "paper.pdf", *bytes);
    const auto ran =
        sample::run("cd " + folder_.path().string() + " && pdftoppm -gray -r " + std::to_string(dots_per_inch) +
                    " -f " + number + " -l " + number + " -singlefile paper.pdf page");
    EXPECT_EQ(ran.status, 0) << ran.output;
    std::ifstream file(folder_.path() / "page.pgm", std::ios::binary);
    std::string kind;
    Picture picture;
    int most = 0;
    file >> kind >> picture.width >> picture.height >> most;
    file.get();
    picture.dots.resize(static_cast<std::size_t>(picture.width) * static_cast<std::size_t>(picture.height));
    file.read(picture.dots.data(), static_cast<std::streamsize>(picture.dots.size()));
    return picture;
  }

  Paper paper_of(const TemplateShape& shape, const JobInfo& info) {
    Paper paper;
    paper.name = "Template";
    paper.pages =
        template_pages(shape, info, strip_height_mm(info, paper.name, type_, info.bench.paper, false), 1, type_);
    add_strips(paper, info, type_);
    return paper;
  }

  static Part plate(double width_mm, double height_mm, std::vector<Circle> holes) {
    Part part;
    part.mark = "PLT01";
    part.name = "plate";
    part.material = "S235JR";
    Flat flat;
    flat.thickness_mm = 2;
    flat.profile.outer = Loop::rectangle({0, 0}, {width_mm, height_mm});
    for (const Circle& hole : holes) flat.profile.holes.push_back(Loop::circle(hole.centre, hole.radius));
    part.form = flat;
    return part;
  }

  const output::PaperUnits units_{UnitSystem::mm_kg};
  const Type type_;
  const sample::Folder folder_;
};

/// Where the shape's own corner lies on a page: its first stroke as it was moved.
Vec2 moved_by(const TemplateShape& shape, const Page& page) {
  for (const Stroke& stroke : page.strokes) {
    if (stroke.clip) return stroke.vertices.front().at - shape.strokes.front().vertices.front().at;
  }
  ADD_FAILURE() << "the page shows nothing of the shape";
  return {};
}

TEST_F(Templates, PrintTheRuleThePlateAndItsHolesAtTrueSize) {
  // 150 x 90 with holes of 20 at 30, 25 and of 12 at 120, 70 from its lower left corner.
  const TemplateShape shape = flat_template(plate(150, 90, {{{30, 25}, 10}, {{120, 70}, 6}}), units_);
  const Paper paper = paper_of(shape, sample::info());
  ASSERT_EQ(paper.pages.size(), 1U);
  const Picture seen = picture(paper, 0);
  const Vec2 corner = moved_by(shape, paper.pages[0]);
  // The outline, from outside: left, right, upper, lower edge; 10 mm away from every cross.
  const double y = corner.y + 45;
  const double left = corner.x - 1 + seen.first_line_mm({corner.x - 1, y}, {corner.x + 5, y});
  const double right = corner.x + 151 - seen.first_line_mm({corner.x + 151, y}, {corner.x + 145, y});
  EXPECT_NEAR(right - left, 150, near_mm);
  const double x = corner.x + 75;
  const double upper = corner.y - 1 + seen.first_line_mm({x, corner.y - 1}, {x, corner.y + 5});
  const double lower = corner.y + 91 - seen.first_line_mm({x, corner.y + 91}, {x, corner.y + 85});
  EXPECT_NEAR(lower - upper, 90, near_mm);
  // The cross of the larger hole, met beside the punch circle; the hole's edge on either side of it.
  const double cross_y = lower - 25;
  const double cross_x = left + 30;
  const Vec2 above{cross_x - 2, cross_y - 2.5};
  EXPECT_NEAR(above.x + seen.first_line_mm(above, above + Vec2{4, 0}), left + 30, near_mm);
  const Vec2 beside{cross_x - 2.5, cross_y - 2};
  EXPECT_NEAR(beside.y + seen.first_line_mm(beside, beside + Vec2{0, 4}), lower - 25, near_mm);
  const double level = cross_y + 0.7;
  const double chord = std::sqrt(100 - 0.7 * 0.7);
  EXPECT_NEAR(cross_x - 12 + seen.first_line_mm({cross_x - 12, level}, {cross_x - 6, level}), cross_x - chord, near_mm);
  // The rule: its first and last stroke.
  const Box2 frame = frame_of(paper.pages[0]);
  const double strip = strip_height_mm(sample::info(), paper.name, type_, PaperFormat::a4, false);
  const double rule_y = frame.high.y - strip - 13 + 5 - 3.5;
  const double first = frame.low.x + 2 + seen.first_line_mm({frame.low.x + 2, rule_y}, {frame.low.x + 8, rule_y});
  const double last = first + 95 + seen.first_line_mm({first + 95, rule_y}, {first + 105, rule_y});
  EXPECT_NEAR(last - first, 100, near_mm);
}

/// A plate of 500 x 300 on A4: pieces laid so that their page marks meet give its outline and its holes.
TEST_F(Templates, PiecesJoinedByTheirMarksGiveThePlate) {
  const TemplateShape shape = flat_template(plate(500, 300, {{{250, 150}, 5}, {{40, 40}, 5}}), units_);
  const Paper paper = paper_of(shape, sample::info());
  const double strip_mm = strip_height_mm(sample::info(), paper.name, type_, PaperFormat::a4, false);
  const auto layout = lay_templates({&shape}, PaperFormat::a4, strip_mm, type_);
  std::vector<Piece> pieces = layout.shapes[0].pieces;
  ASSERT_GT(pieces.size(), 2U);
  ASSERT_EQ(layout.landscape.size(), paper.pages.size());
  std::erase_if(pieces, [](const Piece& piece) { return piece.number == 0; });
  const auto shows = [](const Piece& piece, Vec2 at) {
    const Vec2 p = at + piece.by;
    const Box2& w = piece.window;
    return p.x >= w.low.x && p.x <= w.high.x && p.y >= w.low.y && p.y <= w.high.y;
  };
  // Circles of page marks, in the plate's coordinates: each stands on two pieces at least, in the same place.
  std::vector<std::vector<Vec2>> marks(pieces.size());
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    for (const Stroke& stroke : paper.pages[pieces[i].page].strokes) {
      const auto circle = stroke.closed && !stroke.clip ? Loop{stroke.vertices}.as_circle() : std::nullopt;
      if (!circle || std::abs(circle->radius - 3) > 1e-6) continue;
      const Vec2 at = circle->centre - pieces[i].by;
      if (shows(pieces[i], at)) marks[i].push_back(at);
    }
    EXPECT_GE(marks[i].size(), 2U);
  }
  for (std::size_t i = 0; i < marks.size(); ++i) {
    for (const Vec2 mark : marks[i]) {
      std::size_t shared = 0;
      for (std::size_t k = 0; k < marks.size(); ++k) {
        for (const Vec2 other : marks[k]) shared += k != i && norm(mark - other) < 1e-6 ? 1 : 0;
      }
      EXPECT_GE(shared, 1U) << "a mark of piece " << i + 1 << " that no other has";
    }
  }
  // Every point of the outline and every hole is inside some piece's window, and is printed there.
  std::vector<Picture> seen;
  for (std::size_t i = 0; i < paper.pages.size(); ++i) seen.push_back(picture(paper, i));
  const auto printed = [&](Vec2 from, Vec2 to, double wanted_mm) {
    return std::any_of(pieces.begin(), pieces.end(), [&](const Piece& piece) {
      if (!shows(piece, from) || !shows(piece, to)) return false;
      const double at = seen[piece.page].first_line_mm(from + piece.by, to + piece.by);
      return !std::isnan(at) && std::abs(at - wanted_mm) < near_mm;
    });
  };
  for (double along = 13; along < 500; along += 37) {
    EXPECT_TRUE(printed({along, -0.7}, {along, 0.7}, 0.7)) << "upper edge at " << along;
    EXPECT_TRUE(printed({along, 299.3}, {along, 300.7}, 0.7)) << "lower edge at " << along;
  }
  for (double down = 11; down < 300; down += 31) {
    EXPECT_TRUE(printed({-0.7, down}, {0.7, down}, 0.7)) << "left edge at " << down;
    EXPECT_TRUE(printed({499.3, down}, {500.7, down}, 0.7)) << "right edge at " << down;
  }
  for (const Vec2 hole : {Vec2{250, 150}, Vec2{40, 260}}) {
    EXPECT_TRUE(printed(hole + Vec2{-1.5, -2.5}, hole + Vec2{1.5, -2.5}, 1.5)) << hole.x;
  }
}

/// Each cut line is said to lie where it does: half the overlap from the window's edge, counted from the plate's own
/// edge.
TEST_F(Templates, PiecesSayHowFarTheirCutLinesLieFromThePlatesEdge) {
  const TemplateShape shape = flat_template(plate(500, 300, {}), units_);
  const auto layout = lay_templates({&shape}, PaperFormat::a4, 20, type_);
  const SplitShape& split = layout.shapes[0];
  ASSERT_GT(split.columns * split.rows, 2U);
  for (const Piece& piece : split.pieces) {
    EXPECT_NEAR(piece.cut_at.x, piece.window.low.x + 0.5 * overlap_mm - piece.by.x, 1e-9);
    EXPECT_NEAR(piece.cut_at.y, piece.window.low.y + 0.5 * overlap_mm - piece.by.y, 1e-9);
  }
}

/// Small plates share a page, apart from each other and inside its frame; nothing stands upon the rule.
TEST_F(Templates, SmallPiecesShareAPage) {
  std::vector<TemplateShape> shapes;
  for (int i = 0; i < 4; ++i) shapes.push_back(flat_template(plate(60, 30 + i, {{{30, 15}, 3}}), units_));
  std::vector<const TemplateShape*> all;
  for (const TemplateShape& shape : shapes) all.push_back(&shape);
  const auto layout = lay_templates(all, PaperFormat::a4, 20, type_);
  EXPECT_EQ(layout.landscape.size(), 1U);
  std::vector<Box2> blocks;
  Page page;
  page.landscape = layout.landscape[0];
  const Box2 room = template_room(page, 20);
  for (const SplitShape& split : layout.shapes) {
    ASSERT_EQ(split.pieces.size(), 1U);
    const Box2& own = split.pieces[0].block;
    EXPECT_GE(own.low.x, room.low.x - 1e-9);
    EXPECT_LE(own.high.x, room.high.x + 1e-9);
    EXPECT_LE(own.high.y, room.high.y + 1e-9);
    for (const Box2& other : blocks) {
      EXPECT_TRUE(own.low.x >= other.high.x || other.low.x >= own.high.x || own.low.y >= other.high.y ||
                  other.low.y >= own.high.y);
    }
    blocks.push_back(own);
  }
}

/// A piece in the middle of a plate of 700 x 700 shows nothing, unless there is a hole.
TEST_F(Templates, BlankPiecesAreLeftOut) {
  const auto shown = [&](const std::vector<Circle>& holes) {
    const TemplateShape shape = flat_template(plate(700, 700, holes), units_);
    return lay_templates({&shape}, PaperFormat::a4, 20, type_).shapes[0];
  };
  const SplitShape blank = shown({});
  ASSERT_GE(blank.rows, 3U);
  ASSERT_GE(blank.columns, 3U);
  EXPECT_EQ(blank.shown, blank.rows * blank.columns - (blank.rows - 2) * (blank.columns - 2));
  EXPECT_GT(shown({{{350, 350}, 4}}).shown, blank.shown);
}

/// What is marked on one leg of an angle with square ends wants no paper on the other: the hole 12 from the heel.
TEST_F(Templates, OfALegAloneThatLegIsShown) {
  for (const Leg leg : {Leg::a, Leg::b}) {
    Part part;
    Member member;
    member.section = *tables::find_section("L 40x40x4");
    member.length_mm = 150;
    const LegCut square{{{0, 40, 0}}, {}};
    member.start = {square, square, {}};
    member.end = member.start;
    member.holes.push_back({leg, 50, 12, 5, HoleKind::clear, "", false});
    part.form = member;
    const TemplateShape shape = wrap_template(part, units_);
    EXPECT_NEAR(shape.size.y, 40, 1e-9);
    EXPECT_NEAR(shape.centres[0].at.x, 50, 1e-9);
    EXPECT_NEAR(shape.centres[0].at.y, leg == Leg::a ? 12 : 40 - 12, 1e-9);
    for (const Stroke& stroke : shape.strokes) {
      for (const Vertex& v : stroke.vertices) {
        EXPECT_GE(v.at.y, -1e-9);
        EXPECT_LE(v.at.y, 40 + 1e-9);
      }
    }
  }
}

// A slot of 19 x 9 is drilled 9 at 5 to either side of its middle, where it is punched, and named once.
TEST_F(Templates, ASlotInAnAngleIsPunchedAtBothEnds) {
  Part part;
  part.mark = "FOT01";
  Member member;
  member.section = *tables::find_section("L 50x50x5");
  member.length_mm = 60;
  const LegCut square{{{0, 50, 0}}, {}};
  member.start = {square, square, {}};
  member.end = member.start;
  MemberHole hole{Leg::a, 30, 22, 9, HoleKind::clear, "bolt M8", false};
  hole.slot_mm = 10;
  member.holes.push_back(hole);
  part.form = member;
  const TemplateShape shape = wrap_template(part, units_);
  std::vector<Vec2> punched;
  std::vector<std::string> named;
  for (const Centre& centre : shape.centres) {
    if (centre.to_punch) punched.push_back(centre.at);
    if (!centre.words.empty()) named.push_back(centre.words);
  }
  ASSERT_EQ(punched.size(), 2U);
  EXPECT_NEAR(punched[0].x, 25, 1e-9);
  EXPECT_NEAR(punched[1].x, 35, 1e-9);
  for (const Vec2 at : punched) EXPECT_NEAR(at.y, 22, 1e-9);
  EXPECT_EQ(named, std::vector<std::string>{"slot 19 x 9, its middle, bolt M8"});
  EXPECT_NE(shape.how.find("punch both ends"), std::string::npos);
  // The name stands clear of the slot and of the edges of the leg.
  const Paper paper = paper_of(shape, sample::info());
  ASSERT_EQ(paper.pages.size(), 1U);
  const Vec2 corner = moved_by(shape, paper.pages[0]);
  for (const Label& label : paper.pages[0].labels) {
    if (label.words.find("slot 19") == std::string::npos) continue;
    const bool inside = label.box.low.x > corner.x && label.box.high.x < corner.x + 60;
    const bool beside = label.box.low.x > corner.x + 60 || label.box.high.x < corner.x;
    const bool over = label.box.high.y < corner.y || label.box.low.y > corner.y + 50;
    EXPECT_TRUE(inside || beside || over);
    const bool clear = label.box.high.y < corner.y + 22 - 4.5 || label.box.low.y > corner.y + 22 + 4.5 ||
                       label.box.low.x > corner.x + 39.5 || label.box.high.x < corner.x + 20.5;
    EXPECT_TRUE(clear);
  }
}

// An angle's two legs; a tube of 40 x 40 x 3 with corners of radius 6 (EN 10219-2): 160 - 8 x 6 + 2 pi 6.
TEST_F(Templates, WrapGoesOnceRoundTheSection) {
  Part part;
  Member member;
  member.section = *tables::find_section("L 40x40x4");
  member.length_mm = 300;
  const LegCut square{{{0, 40, 0}}, {}};
  const LegCut gone{{{0, 40, 36}}, {}};
  const LegCut notched{{{0, 5, 36}, {5, 40, 0}}, {{5, CornerKind::chamfer, 5}}};
  member.start = {gone, notched, {}};
  member.end = {square, square, {}};
  part.form = member;
  const TemplateShape angle = wrap_template(part, units_);
  EXPECT_NEAR(angle.size.y, 80, 1e-9);
  Box2 all;
  for (const Stroke& stroke : angle.strokes) {
    for (const Vertex& v : stroke.vertices) all.add(v.at);
  }
  EXPECT_NEAR(all.low.y, 0, 1e-9);
  EXPECT_NEAR(all.high.y, 80, 1e-9);
  member.section = *tables::find_section("SHS 40x40x3");
  ASSERT_NEAR(member.section.corner_radius_mm, 6, 1e-9);
  EXPECT_NEAR(developed_mm(member.section), 160 - 48 + 2 * M_PI * 6, 1e-9);
  member.start.mitre = Leg::a;
  part.form = member;
  const TemplateShape tube = wrap_template(part, units_);
  const auto& saw = tube.strokes.front().vertices;
  // Round once, from the longest line to the line that begins as far back as the leg is long.
  double lowest = 1e9;
  double highest = 0;
  double deepest = 0;
  for (const Vertex& v : saw) {
    if (v.at.x > 100) continue;
    lowest = std::min(lowest, v.at.y);
    highest = std::max(highest, v.at.y);
    deepest = std::max(deepest, v.at.x);
  }
  EXPECT_NEAR(highest - lowest, developed_mm(member.section), 1e-9);
  EXPECT_NEAR(deepest, 40, 1e-9);
}

// Leg A of the cope is gone for 36; leg B keeps all but its first 5 from the heel, with a chamfer of 5.
TEST_F(Templates, WrapShowsTheCopeOnBothLegs) {
  Part part;
  part.mark = "ANG01";
  Member member;
  member.section = *tables::find_section("L 40x40x4");
  member.length_mm = 150;
  const LegCut square{{{0, 40, 0}}, {}};
  member.start = {{{{0, 40, 36}}, {}}, {{{0, 5, 36}, {5, 40, 0}}, {{5, CornerKind::chamfer, 5}}}, {}};
  member.end = {square, square, {}};
  part.form = member;
  const TemplateShape shape = wrap_template(part, units_);
  const Paper paper = paper_of(shape, sample::info());
  ASSERT_EQ(paper.pages.size(), 1U);
  const Picture seen = picture(paper, 0);
  const Vec2 corner = moved_by(shape, paper.pages[0]);
  const auto begins = [&](double y) {
    return seen.first_line_mm({corner.x - 1, corner.y + y}, {corner.x + 60, corner.y + y}) - 1;
  };
  EXPECT_NEAR(begins(60), 36, near_mm);     // 20 below the heel: leg A
  EXPECT_NEAR(begins(20), 0, near_mm);      // 20 above it: leg B
  EXPECT_NEAR(begins(37), 36, near_mm);     // 3 above it
  EXPECT_NEAR(begins(32.5), 2.5, near_mm);  // 7.5 above it: halfway up the chamfer
}

}  // namespace
}  // namespace fitup::bench
