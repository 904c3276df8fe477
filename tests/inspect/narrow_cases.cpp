// Flat files with narrow holes, slots and webs.
// Entry: narrow_cases.
#include <functional>

#include "inspect/cases.h"
#include "inspect/dxf_maker.h"

namespace fitup::test {

namespace {

InspectOptions thick(double mm_thick) {
  InspectOptions options;
  options.thickness_mm = mm_thick;
  return options;
}

}  // namespace

std::vector<FileCase> narrow_cases() {
  std::vector<FileCase> all;
  // ISO 9013 cuts any of these; that holes, slots and webs are at least as wide as the sheet is thick is common
  // practice.
  const auto with = [&](std::string name, const std::function<void(DxfMaker&)>& draw, double thickness,
                        std::vector<std::string> fails, std::vector<std::string> marginal,
                        std::vector<std::pair<std::string, double>> facts) {
    DxfMaker dxf = DxfMaker().units(4);
    dxf.rectangle({0, 0}, {300, 200});
    draw(dxf);
    all.push_back(
        {std::move(name), dxf.text(), std::move(fails), std::move(marginal), std::move(facts), "", thick(thickness)});
  };
  const auto hole = [](double d) { return [d](DxfMaker& dxf) { dxf.circle({100, 100}, d / 2); }; };
  with("HoleSmallerThanTheSheet", hole(3.9), 4, {"smallest hole"}, {}, {{"smallest hole", 3.9}});
  with("HoleAsLargeAsTheSheet", hole(4), 4, {}, {"smallest hole"}, {{"smallest hole", 4}});
  with("HoleOfOneAndAHalf", hole(6), 4, {}, {}, {});
  with("NarrowSlot",
       [](DxfMaker& dxf) {
         dxf.rectangle({50, 50}, {90, 52.5});
       },
       3, {"smallest slot"}, {}, {{"smallest slot", 2.5}});
  // Each is named by its place, those beyond the sixth by their number: by hand x 20, 40, ... and half of 2 mm.
  with("ManyNarrowSlots",
       [](DxfMaker& dxf) {
         for (int i = 1; i <= 8; ++i) dxf.rectangle({20.0 * i, 50}, {20.0 * i + 2, 90});
       },
       3, {"smallest slot"}, {}, {{"smallest slot", 2}});
  all.back().says = "2 mm at x 121, y 70; and 2 more";
  // The slot that a tab of 4 mm steel goes through: 4 mm, what EN 10051 lets it be thicker and ISO 9013 the cut be off,
  // 0.22 + 0.20 mm, and 0.15 mm of air. As one that is asked about: with round ends, too short for a tab, a little
  // wider than such a sheet needs, and, in 16 mm, thicker than is cut without a question. Narrower than the sheet it is
  // refused.
  const auto slot = [](double length, double width) {
    return [=](DxfMaker& dxf) { dxf.rectangle({50, 50}, {50 + length, 50 + width}); };
  };
  with("SlotForATab", slot(40, 4.57), 4, {}, {}, {{"smallest slot", 4.57}});
  with("SlotForATabUpright",
       [](DxfMaker& dxf) {
         dxf.rectangle({50, 50}, {54.57, 90});
       },
       4, {}, {}, {{"smallest slot", 4.57}});
  with("SlotForATabWithReliefs",
       [](DxfMaker& dxf) {
         dxf.polyline({{{50, 50}, 0},
                       {{90, 50}, 1},
                       {{90, 51.6}, 0},
                       {{90, 52.97}, 1},
                       {{90, 54.57}, 0},
                       {{50, 54.57}, 1},
                       {{50, 52.97}, 0},
                       {{50, 51.6}, 1}});
       },
       4, {}, {}, {{"smallest slot", 4.57}});
  with("SlotOfThatWidthWithRoundEnds",
       [](DxfMaker& dxf) {
         dxf.polyline({{{50, 50}, 0}, {{90, 50}, 1}, {{90, 54.57}, 0}, {{50, 54.57}, 1}});
       },
       4, {}, {"smallest slot"}, {{"smallest slot", 4.57}});
  with("SlotTooShortForATab", slot(9, 4.57), 4, {}, {"smallest slot"}, {{"smallest slot", 4.57}});
  with("SlotWiderThanASheetNeeds", slot(40, 5.7), 4, {}, {"smallest slot"}, {{"smallest slot", 5.7}});
  with("SlotNarrowerThanTheSheet", slot(40, 3.9), 4, {"smallest slot"}, {}, {{"smallest slot", 3.9}});
  with("SlotForATabInThickPlate", slot(80, 16.8), 16, {}, {"smallest slot"}, {{"smallest slot", 16.8}});
  with("SlotForATabBesideOneThatIsNone",
       [](DxfMaker& dxf) {
         dxf.rectangle({50, 50}, {90, 54.57});
         dxf.polyline({{{50, 150}, 0}, {{90, 150}, 1}, {{90, 154.8}, 0}, {{50, 154.8}, 1}});
       },
       4, {}, {"smallest slot"}, {{"smallest slot", 4.57}});
  with("EdgeThatIsSlottedForACrossingSheet",
       [](DxfMaker& dxf) {
         dxf.polyline({{{400, 0}, 0},
                       {{480, 0}, 0},
                       {{480, 60}, 0},
                       {{442.57, 60}, 0},
                       {{442.57, 30}, 0},
                       {{438, 30}, 0},
                       {{438, 60}, 0},
                       {{400, 60}, 0}});
       },
       4, {}, {"one part"}, {{"smallest slot", 4.57}});
  with("ThinWebBetweenHoles",
       [](DxfMaker& dxf) {
         dxf.circle({100, 100}, 10).circle({122, 100}, 10);
       },
       3, {"smallest web"}, {}, {{"smallest web", 2}});
  with("ThinWebToTheEdge",
       [](DxfMaker& dxf) {
         dxf.circle({14, 100}, 10);
       },
       3, {}, {"smallest web"}, {{"smallest web", 4}});
  with("WebThatIsWideEnough",
       [](DxfMaker& dxf) {
         dxf.circle({100, 100}, 10).circle({124.5, 100}, 10);
       },
       3, {}, {}, {});
  return all;
}

}  // namespace fitup::test
