// Flat files: what shops take and what they send back.
// Entry: drawing_cases.
#include <cmath>
#include <functional>

#include "inspect/cases.h"
#include "inspect/dxf_maker.h"

namespace fitup::test {

namespace {

// A plate of 300 x 200 with a hole of 6.6 and one of 9 (clearance holes of M6 and M8, ISO 273).
constexpr double plate_area = 300 * 200 - M_PI * (3.3 * 3.3 + 4.5 * 4.5);
constexpr double plate_length = 1000 + M_PI * (6.6 + 9);

DxfMaker mm() { return DxfMaker().units(4); }

DxfMaker& plate(DxfMaker& dxf, double by = 1) {
  return dxf.rectangle({0, 0}, {300 * by, 200 * by})
      .circle({30 * by, 40 * by}, 3.3 * by)
      .circle({250 * by, 150 * by}, 4.5 * by);
}

std::string plate_text(DxfMaker dxf, double by = 1) { return plate(dxf, by).text(); }

/// The plate's outline as four lines, the last ending short of the first by `gap`.
DxfMaker four_lines(double gap) {
  DxfMaker dxf = mm();
  dxf.line({0, 0}, {300, 0}).line({300, 0}, {300, 200}).line({300, 200}, {0, 200}).line({0, 200}, {0, gap});
  return dxf;
}

std::vector<Vertex> polygon(Vec2 centre, double radius, int corners) {
  std::vector<Vertex> out;
  for (int i = 0; i < corners; ++i) {
    const double a = 2 * M_PI * i / corners;
    out.push_back({centre + radius * Vec2{std::cos(a), std::sin(a)}, 0});
  }
  return out;
}

/// A circle as a rational quadratic B-spline of nine control points (exact; The NURBS Book, ex. 7.2, from memory).
void spline_circle(DxfMaker& dxf, Vec2 c, double r) {
  dxf.pair(0, "SPLINE").pair(8, "0").pair(70, "4").pair(71, "2").pair(72, "12").pair(73, "9");
  for (const double k : {0.0, 0.0, 0.0, 0.25, 0.25, 0.5, 0.5, 0.75, 0.75, 1.0, 1.0, 1.0}) dxf.pair(40, k);
  const Vec2 at[] = {{1, 0}, {1, 1}, {0, 1}, {-1, 1}, {-1, 0}, {-1, -1}, {0, -1}, {1, -1}, {1, 0}};
  for (int i = 0; i < 9; ++i) {
    dxf.pair(41, i % 2 == 0 ? 1.0 : std::sqrt(0.5));
    dxf.pair(10, c.x + r * at[i].x).pair(20, c.y + r * at[i].y).pair(30, "0");
  }
}

void ellipse(DxfMaker& dxf, Vec2 c, Vec2 major, double ratio, double from = 0, double to = 2 * M_PI) {
  dxf.pair(0, "ELLIPSE").pair(8, "0").pair(10, c.x).pair(20, c.y).pair(11, major.x).pair(21, major.y);
  dxf.pair(40, ratio).pair(41, from).pair(42, to);
}

void add_sound(std::vector<FileCase>& all) {
  const std::vector<std::pair<std::string, double>> plate_facts{{"size x", 300},      {"size y", 200},
                                                                {"cut-outs", 2},      {"piercings", 3},
                                                                {"area", plate_area}, {"cut length", plate_length}};
  all.push_back({"PlateInMillimetres", plate_text(mm()), {}, {}, plate_facts, "", {}});
  for (const char* release : {"AC1012", "AC1014", "AC1018", "AC1021", "AC1024", "AC1027", "AC1032"}) {
    all.push_back(
        {std::string("Release") + release, plate_text(DxfMaker(release).units(4)), {}, {}, plate_facts, "", {}});
  }
  all.push_back({"PlateInInches", plate_text(DxfMaker().units(1), 1 / 25.4), {}, {}, plate_facts, "", {}});
  all.push_back({"PlateInCentimetres", plate_text(DxfMaker().units(5), 0.1), {}, {}, plate_facts, "", {}});
  all.push_back({"PlateInMetres", plate_text(DxfMaker().units(6), 0.001), {}, {}, plate_facts, "", {}});
  DxfMaker r12("AC1009");
  r12.on("CUT").old_polyline({{{0, 0}, 0}, {{300, 0}, 0}, {{300, 200}, 0}, {{0, 200}, 0}}).circle({30, 40}, 3.3);
  r12.circle({250, 150}, 4.5).on("NOTE").text({0, -20}, "drawn 1:1 in millimetres");
  all.push_back({"ReleaseR12WithTheUnitInANote", r12.text(), {}, {}, plate_facts, "", {}});
  DxfMaker slot = mm();
  slot.rectangle({0, 0}, {300, 200}).polyline({{{50, 50}, 0}, {{80, 50}, 1}, {{80, 58}, 0}, {{50, 58}, 1}});
  all.push_back(
      {"RoundedSlot", slot.text(), {}, {}, {{"area", 60000 - 30 * 8 - M_PI * 16}, {"smallest slot", 8}}, "", {}});
  DxfMaker marked = mm();
  plate(marked).on("MARK").line({10, 10}, {50, 10}).on("BEND").line({0, 100}, {300, 100});
  all.push_back({"MarksAndBendsOnLayersOfTheirOwn", marked.text(), {}, {}, plate_facts, "", {}});
  DxfMaker comments = mm();
  all.push_back({"CarriageReturns",
                 [&] {
                   std::string text = plate(comments).text();
                   std::string out = "999\r\nmade by hand\r\n";
                   for (const char c : text) out += c == '\n' ? std::string("\r\n") : std::string(1, c);
                   return out;
                 }(),
                 {},
                 {},
                 plate_facts,
                 "",
                 {}});
  all.push_back({"ArcsJoinedToLines",
                 [] {
                   DxfMaker dxf = mm();
                   dxf.line({10, 0}, {290, 0}).arc({290, 10}, 10, 270, 0).line({300, 10}, {300, 190});
                   dxf.arc({290, 190}, 10, 0, 90).line({290, 200}, {10, 200}).arc({10, 190}, 10, 90, 180);
                   dxf.line({0, 190}, {0, 10}).arc({10, 10}, 10, 180, 270);
                   return dxf.text();
                 }(),
                 {},
                 {},
                 {{"area", 60000 - (4 - M_PI) * 100}, {"cut length", 1000 - 80 + 20 * M_PI}},
                 "",
                 {}});
}

void add_units(std::vector<FileCase>& all) {
  all.push_back({"InchesCalledMillimetres", plate_text(mm(), 1 / 25.4), {"unit"}, {}, {}, "off by 25.4", {}});
  all.push_back({"MillimetresCalledInches", plate_text(DxfMaker().units(1)), {"unit"}, {}, {}, "300 mm x 200 mm", {}});
  all.push_back({"TwentyFiveTimesTooLarge", plate_text(mm(), 25.4), {"unit"}, {}, {}, "off by 25.4", {}});
  DxfMaker small = DxfMaker().units(1);
  small.rectangle({0, 0}, {80, 60}).circle({20, 20}, 3.3).circle({60, 20}, 4.5);
  all.push_back({"MetricScrewHolesInInches", small.text(), {"unit"}, {}, {}, "80 mm x 60 mm", {}});
  all.push_back({"NoUnitSaid", plate_text(DxfMaker()), {}, {"unit"}, {{"size x", 300}}, "$INSUNITS", {}});
  all.push_back({"UnitlessByTheHeader", plate_text(DxfMaker().units(0)), {}, {"unit"}, {{"size x", 300}}, "", {}});
  all.push_back(
      {"OnlyTheSystemIsSaid", plate_text(DxfMaker().header("$MEASUREMENT", 70, "1")), {}, {"unit"}, {}, "", {}});
  DxfMaker washer = mm();
  washer.circle({0, 0}, 3).circle({0, 0}, 1.6);
  all.push_back({"SmallWasher", washer.text(), {}, {"unit"}, {{"size x", 6}}, "", {}});
  all.push_back({"OnlyEntities", plate_text(DxfMaker("")), {}, {"unit"}, {{"area", plate_area}}, "", {}});
}

void add_gaps(std::vector<FileCase>& all) {
  all.push_back({"FourLines", four_lines(0).text(), {}, {}, {{"area", 60000}}, "", {}});
  all.push_back({"OpenByAHundredth", four_lines(0.01).text(), {}, {}, {}, "", {}});
  all.push_back({"OpenByATwentieth", four_lines(0.05).text(), {}, {"closed"}, {}, "0.05 mm", {}});
  all.push_back({"OpenByHalfAMillimetre", four_lines(0.5).text(), {"closed"}, {}, {}, "0.5 mm", {}});
  all.push_back({"OpenByTwenty", four_lines(20).text(), {"closed"}, {}, {}, "20 mm", {}});
  DxfMaker open = mm();
  open.polyline({{{0, 0}, 0}, {{300, 0}, 0}, {{300, 200}, 0}, {{0, 200}, 0}}, false);
  all.push_back({"PolylineNotClosed", open.text(), {"closed"}, {}, {}, "", {}});
  DxfMaker round = mm();
  round.polyline({{{0, 0}, 0}, {{300, 0}, 0}, {{300, 200}, 0}, {{0, 200}, 0}}, false).circle({30, 40}, 0.5);
  InspectOptions three;
  three.thickness_mm = 3;
  all.push_back({"OutlineOpenRoundASmallHole",
                 round.text(),
                 {"closed"},
                 {},
                 {},
                 "not known what is cut out of",
                 three,
                 {"inside", "smallest hole", "smallest slot", "smallest web"}});
  DxfMaker repeated = mm();
  repeated.polyline({{{0, 0}, 0}, {{300, 0}, 0}, {{300, 200}, 0}, {{0, 200}, 0}, {{0, 0}, 0}}, false);
  all.push_back({"PolylineThatRepeatsItsFirstCorner", repeated.text(), {}, {}, {{"area", 60000}}, "", {}});
  DxfMaker loose = mm();
  plate(loose).line({100, 100}, {150, 120});
  all.push_back({"LooseLine", loose.text(), {"closed"}, {}, {}, "closes nothing", {}});
}

void add_outlines(std::vector<FileCase>& all) {
  DxfMaker doubled = four_lines(0);
  doubled.line({300, 0}, {0, 0});
  all.push_back({"LineTwice", doubled.text(), {"drawn once"}, {}, {{"area", 60000}}, "1 outline lies", {}});
  DxfMaker circles = mm();
  plate(circles).circle({30, 40}, 3.3);
  all.push_back({"CircleTwice", circles.text(), {"drawn once"}, {}, {{"cut-outs", 2}}, "", {}});
  DxfMaker partly = mm();
  plate(partly).line({50, 0}, {120, 0});
  all.push_back({"LineOnPartOfAnEdge", partly.text(), {"closed", "drawn once"}, {}, {}, "", {}});
  DxfMaker crossing = mm();
  crossing.rectangle({0, 0}, {300, 200}).rectangle({280, 50}, {320, 80});
  all.push_back({"CutOutOverTheEdge", crossing.text(), {"apart"}, {"one part"}, {}, "cross or touch", {}});
  DxfMaker overlapping = mm();
  overlapping.rectangle({0, 0}, {300, 200}).circle({50, 50}, 10).circle({60, 50}, 8);
  all.push_back({"OverlappingHoles", overlapping.text(), {"apart"}, {}, {}, "2 places", {}});
  DxfMaker bow = mm();
  bow.polyline({{{0, 0}, 0}, {{300, 200}, 0}, {{300, 0}, 0}, {{0, 200}, 0}});
  all.push_back({"Bowtie", bow.text(), {"apart"}, {}, {}, "itself", {}});
  DxfMaker branch = four_lines(0);
  branch.line({150, 200}, {150, 0}).line({0, 0}, {150, 100});
  all.push_back(
      {"ThreeLinesAtACorner", branch.text(), {"apart", "apart", "closed"}, {}, {}, "three or more lines meet", {}});
  DxfMaker outside = mm();
  plate(outside).circle({400, 100}, 5);
  all.push_back({"HoleOutside", outside.text(), {"inside"}, {}, {}, "loose disc", {}});
  DxfMaker two = mm();
  two.rectangle({0, 0}, {300, 200}).rectangle({310, 0}, {500, 200});
  all.push_back({"TwoParts", two.text(), {}, {"one part"}, {{"parts", 2}}, "", {}});
  DxfMaker nested = mm();
  nested.rectangle({0, 0}, {300, 200}).rectangle({50, 50}, {250, 150}).rectangle({60, 60}, {100, 100});
  all.push_back(
      {"PartInACutOut", nested.text(), {}, {"one part"}, {{"area", 60000 - 20000 + 1600}}, "in the cut-out", {}});
  DxfMaker zero = mm();
  plate(zero).line({30, 30}, {30, 30});
  all.push_back({"LineOfNoLength", zero.text(), {}, {"lines of no length"}, {}, "", {}});
  DxfMaker zero_edge = mm();
  zero_edge.polyline({{{0, 0}, 0}, {{300, 0}, 0}, {{300, 0}, 0}, {{300, 200}, 0}, {{0, 200}, 0}});
  all.push_back({"EdgeOfNoLength", zero_edge.text(), {}, {"lines of no length"}, {{"area", 60000}}, "", {}});
  DxfMaker spike = mm();
  spike.polyline({{{0, 0}, 0}, {{300, 0}, 0}, {{350, 0}, 0}, {{300, 0}, 0}, {{300, 200}, 0}, {{0, 200}, 0}});
  all.push_back({"Spike", spike.text(), {"drawn once", "apart"}, {}, {}, "", {}});
}

void add_curves(std::vector<FileCase>& all) {
  DxfMaker spline = mm();
  spline.rectangle({0, 0}, {300, 200});
  spline_circle(spline, {100, 100}, 20);
  all.push_back({"SplineHole", spline.text(), {}, {"lines and arcs"}, {{"cut-outs", 1}}, "1 spline", {}});
  DxfMaker oval = mm();
  oval.rectangle({0, 0}, {300, 200});
  ellipse(oval, {150, 100}, {60, 0}, 0.5);
  all.push_back({"EllipseHole", oval.text(), {}, {"lines and arcs"}, {{"cut-outs", 1}}, "1 ellipse", {}});
  DxfMaker rough = mm();
  rough.rectangle({0, 0}, {300, 200}).polyline(polygon({100, 100}, 10, 36));
  all.push_back({"CircleOfShortLines", rough.text(), {}, {"short lines"}, {}, "20 mm across, as 36 lines", {}});
  DxfMaker hexagon = mm();
  hexagon.rectangle({0, 0}, {300, 200}).polyline(polygon({100, 100}, 10, 6));
  all.push_back({"HexagonIsMeant", hexagon.text(), {}, {}, {{"smallest slot", 10 * std::sqrt(3.0)}}, "", {}});
}

void add_rest(std::vector<FileCase>& all) {
  DxfMaker text = mm();
  plate(text).text({100, 100}, "PL 3 S235");
  all.push_back({"TextAmongTheCut", text.text(), {"text"}, {}, {}, "PL 3 S235", {}});
  DxfMaker elsewhere = mm();
  plate(elsewhere).on("Ebene 7").text({100, 100}, "PL 3");
  all.push_back({"TextOnALayerThatSaysNothing", elsewhere.text(), {}, {"text"}, {}, "Ebene 7", {}});
  DxfMaker dimension = mm();
  plate(dimension).pair(0, "DIMENSION").pair(8, "0").pair(10, 5.0).pair(20, 5.0);
  all.push_back({"DimensionAmongTheCut", dimension.text(), {"text"}, {}, {}, "a dimension", {}});
  DxfMaker point = mm();
  plate(point).pair(0, "POINT").pair(8, "0").pair(10, 100.0).pair(20, 100.0);
  all.push_back({"Point", point.text(), {}, {"points"}, {}, "", {}});
  DxfMaker hatch = mm();
  plate(hatch).pair(0, "HATCH").pair(8, "0").pair(0, "3DSOLID").pair(8, "0");
  all.push_back({"HatchAndSolid", hatch.text(), {}, {"other things"}, {}, "1 HATCH", {}});
  DxfMaker off = mm();
  plate(off.layer("OLD", -7)).on("OLD").circle({100, 100}, 20);
  all.push_back({"LayerThatIsOff", off.text(), {}, {"hidden"}, {{"cut-outs", 2}}, "", {}});
  DxfMaker frozen = mm();
  plate(frozen.layer("OLD", 7, 1)).on("OLD").circle({100, 100}, 20);
  all.push_back({"LayerThatIsFrozen", frozen.text(), {}, {"hidden"}, {{"cut-outs", 2}}, "", {}});
  DxfMaker centre = mm();
  plate(centre.layer("AXES", 7, 0, "CENTER")).on("AXES").line({0, 100}, {300, 100});
  all.push_back({"CentreLines", centre.text(), {"thin lines"}, {}, {{"area", plate_area}}, "", {}});
  DxfMaker paper = mm();
  plate(paper).line({0, 0}, {420, 0}).pair(67, "1");
  all.push_back({"LayoutPage", paper.text(), {}, {"paper space"}, {{"area", plate_area}}, "", {}});
  DxfMaker notes = mm();
  notes.on("NOTE").rectangle({0, 0}, {300, 200});
  all.push_back({"NothingOnALayerThatIsCut", notes.text(), {"outline"}, {}, {}, "CUT", {}});
  all.push_back({"NoEntities", mm().text(), {"outline"}, {}, {}, "no outline", {}});
  DxfMaker tilted = mm();
  plate(tilted).line3({0, 0, 0}, {10, 0, 5});
  all.push_back({"NotFlat", tilted.text(), {"closed", "drawn once", "flat"}, {}, {}, "", {}});
}

void add_blocks(std::vector<FileCase>& all) {
  DxfMaker block = mm();
  block.begin_block("part", {5, 5});
  plate(block).end_block().insert("PART", {5, 5});
  all.push_back({"Block", block.text(), {}, {"blocks"}, {{"area", plate_area}}, "1 block", {}});
  DxfMaker turned = mm();
  turned.begin_block("part");
  plate(turned).end_block().insert("part", {400, 0}, {-2, 2}, 30);
  all.push_back({"BlockMirroredTurnedAndLarger",
                 turned.text(),
                 {},
                 {"blocks"},
                 {{"area", 4 * plate_area}, {"cut length", 2 * plate_length}},
                 "",
                 {}});
  DxfMaker stretched = mm();
  stretched.begin_block("hole").circle({0, 0}, 5).end_block().rectangle({0, 0}, {300, 200});
  stretched.insert("hole", {100, 100}, {3, 1});
  all.push_back(
      {"CircleStretchedToAnEllipse", stretched.text(), {}, {"blocks", "lines and arcs"}, {{"cut-outs", 1}}, "", {}});
  DxfMaker nested = mm();
  nested.begin_block("hole").circle({0, 0}, 4.5).end_block();
  nested.begin_block("pair").insert("hole", {0, 0}).insert("hole", {40, 0}).end_block();
  nested.begin_block("four").insert("pair", {0, 0}).insert("pair", {0, 40}, {1, 1}, 0).end_block();
  nested.rectangle({0, 0}, {300, 200}).insert("four", {100, 100}, {1, 1}, 90);
  all.push_back({"NestedBlocks",
                 nested.text(),
                 {},
                 {"blocks"},
                 {{"cut-outs", 4}, {"area", 60000 - 4 * M_PI * 4.5 * 4.5}},
                 "nested 3 deep",
                 {}});
  DxfMaker rows = mm();
  rows.begin_block("hole").circle({0, 0}, 4.5).end_block().rectangle({0, 0}, {300, 200}).insert("hole", {50, 50});
  rows.pair(70, "5").pair(71, "3").pair(44, 40.0).pair(45, 40.0);
  all.push_back({"BlockInRowsAndColumns", rows.text(), {}, {"blocks"}, {{"cut-outs", 15}}, "", {}});
  DxfMaker itself = mm();
  itself.begin_block("a")
      .insert("b", {1, 0})
      .end_block()
      .begin_block("b")
      .insert("a", {0, 1})
      .circle({0, 0}, 3)
      .end_block();
  plate(itself).insert("a", {100, 100});
  all.push_back({"BlockThatHoldsItself", itself.text(), {"complete"}, {"blocks"}, {}, "holds itself", {}});
  DxfMaker missing = mm();
  plate(missing).insert("nowhere", {0, 0});
  all.push_back({"BlockThatIsNotThere", missing.text(), {"complete"}, {"blocks"}, {}, "", {}});
  DxfMaker layer = mm();
  layer.begin_block("label").text({0, 0}, "A").end_block();
  plate(layer).on("NOTE").insert("label", {0, 0});
  all.push_back({"TextOfABlockStandsOnTheBlocksLayer", layer.text(), {}, {"blocks"}, {}, "", {}});
}

}  // namespace

std::vector<FileCase> drawing_cases() {
  std::vector<FileCase> all;
  add_sound(all);
  add_units(all);
  add_gaps(all);
  add_outlines(all);
  add_curves(all);
  add_rest(all);
  add_blocks(all);
  return all;
}

}  // namespace fitup::test
