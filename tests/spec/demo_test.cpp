// The demo's spec read as its text says.

#include <gtest/gtest.h>

#include <filesystem>

#include "fitup/spec.h"
#include "spec/diagnose.h"
#include "spec/golden.h"

namespace fitup {
namespace {

SpecResult read_demo(const std::vector<Override>& overrides = {}) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive" / "front-box.toml";
  return read_spec("front-box.toml", test::read_file(path), overrides);
}

TEST(Demo, reads_without_a_word) {
  const SpecResult result = read_demo();
  EXPECT_TRUE(result.diagnostics.all().empty());
  ASSERT_TRUE(result.spec);
  EXPECT_EQ(result.spec->name, "front-box");
  EXPECT_EQ(result.spec->title, "Front battery box, park locomotive");
  EXPECT_EQ(result.spec->revision, "A");
  EXPECT_EQ(result.spec->units, UnitSystem::mm_kg);
}

// Rubber is for the strips of seals: nothing that is welded is made of it.
TEST(Demo, takes_no_rubber_for_its_frame) {
  EXPECT_TRUE(read_demo({{"box.main.frame.material", "S355J2"}}).spec);
  for (const char* rubber : {"EPDM", "NBR", "silicone"}) {
    const SpecResult result = read_demo({{"box.main.frame.material", rubber}, {"box.main.build", "plate"}});
    EXPECT_FALSE(result.spec) << rubber;
  }
}

TEST(Demo, its_items_are_those_of_the_text) {
  const SpecResult result = read_demo();
  ASSERT_TRUE(result.spec);
  ASSERT_EQ(result.spec->items.size(), 2U);
  const ItemSpec* block = result.spec->item("block");
  ASSERT_NE(block, nullptr);
  EXPECT_EQ(*block->size, (std::array{Length::mm(150), Length::mm(430), Length::mm(220)}));
  EXPECT_EQ(*block->mass, Mass::kg(23));
  ASSERT_TRUE(block->rods);
  EXPECT_EQ(*block->rods->thread, "M6");
  EXPECT_EQ(*block->rods->projection, Length::mm(20));
  ASSERT_EQ(block->rods->at.size(), 4U);
  EXPECT_EQ(*block->rods->at[3], (std::array{Length::mm(134), Length::mm(196)}));
  ASSERT_TRUE(block->foot_strips);
  EXPECT_EQ(*block->foot_strips->width, Length::mm(16));
  ASSERT_EQ(block->keep_clear.size(), 1U);
  EXPECT_EQ(*block->keep_clear[0].face, Face::front);
  EXPECT_EQ(*block->keep_clear[0].size, (std::array{Length::mm(64), Length::mm(44)}));
  EXPECT_EQ(*block->keep_clear[0].why, "sense connector");
  const ItemSpec* plate = result.spec->item("thermal_plate");
  ASSERT_NE(plate, nullptr);
  EXPECT_EQ(plate->size.value[0], Length::mm(12)) << "the size named gap";
  EXPECT_FALSE(plate->rods);
  EXPECT_EQ(result.spec->item("pump"), nullptr);
}

TEST(Demo, its_box_is_that_of_the_text) {
  const SpecResult result = read_demo();
  ASSERT_TRUE(result.spec);
  ASSERT_EQ(result.spec->boxes.size(), 1U);
  const BoxSpec& box = result.spec->boxes[0];
  EXPECT_EQ(box.name, "main");
  EXPECT_EQ(*box.frame.section, "L 40x40x4");
  EXPECT_EQ(*box.frame.bottom_legs, Legs::down);
  EXPECT_EQ(*box.clearance.front, Length::mm(44));
  EXPECT_EQ(*box.clearance.top, Length::mm(60));
  ASSERT_TRUE(box.rails.outer_width);
  EXPECT_EQ(**box.rails.outer_width, Length::mm(40));
  ASSERT_TRUE(box.rod_plates);
  EXPECT_EQ(*box.rod_plates->clearance_hole, HoleClass::loose);
  EXPECT_EQ(*box.rod_plates->front, Fixing::bolted);
  EXPECT_EQ(*box.rod_plates->back, Fixing::welded);
  ASSERT_EQ(box.row.size(), 1U);
  EXPECT_EQ(*box.row[0].count, 6);
  ASSERT_TRUE(box.row[0].between);
  EXPECT_EQ(**box.row[0].between, "thermal_plate");
  EXPECT_FALSE(box.row[0].gap);
  EXPECT_TRUE(*box.face(Face::front).entry);
  EXPECT_EQ(*box.face(Face::front).style, CoverStyle::flanged);
  EXPECT_EQ(*box.face(Face::front).screws.max_spacing, Length::mm(90));
  EXPECT_EQ(*box.face(Face::left).closed_by, Closure::plate);
  EXPECT_EQ(*box.face(Face::top).closed_by, Closure::open);
  ASSERT_TRUE(result.spec->lifting);
  EXPECT_EQ(*result.spec->lifting->thread, "M10");
}

TEST(Demo, an_argument_replaces_a_size_and_is_where_errors_point) {
  const SpecResult wider = read_demo({{"gap", "1/2 in"}});
  ASSERT_TRUE(wider.spec);
  EXPECT_EQ(wider.spec->item("thermal_plate")->size.value[0], Length::mm(12.7));
  const SpecResult wrong = read_demo({{"gap", "12 mm + x"}});
  EXPECT_FALSE(wrong.spec);
  ASSERT_EQ(wrong.diagnostics.all().size(), 1U);
  EXPECT_EQ(wrong.diagnostics.all()[0].id, "unknown-size");
  const Place place = wrong.diagnostics.all()[0].place;
  ASSERT_EQ(wrong.sources.at(static_cast<std::size_t>(place.source)).name, "--set");
  EXPECT_EQ(wrong.sources.at(static_cast<std::size_t>(place.source)).text, "gap=12 mm + x");
  EXPECT_EQ(place.column, 13);
}

TEST(Demo, places_are_those_in_the_text_and_a_default_has_that_of_its_table) {
  const SpecResult result = read_demo();
  ASSERT_TRUE(result.spec);
  const std::string& text = result.sources[0].text;
  const auto line_of = [&](std::string_view part) {
    return static_cast<int>(1 + std::count(text.begin(), text.begin() + static_cast<long>(text.find(part)), '\n'));
  };
  const BoxSpec& box = result.spec->boxes[0];
  EXPECT_TRUE(box.rails.thickness.given);
  EXPECT_EQ(box.rails.thickness.place.line, line_of("rails      ="));
  EXPECT_FALSE(box.rails.margin.given);
  EXPECT_EQ(box.rails.margin.place.line, line_of("rails      ="));
  EXPECT_FALSE(box.face(Face::top).closed_by.given);
  EXPECT_EQ(box.face(Face::top).place.line, line_of("[box.main.face]"));
  EXPECT_EQ(result.spec->item("block")->rods->at[1].place.line, line_of("rods        ="));
}

// The number that a message asks for, as it is printed, and the next one beyond it.
TEST(InchExample, takes_a_limit_as_it_is_said_and_nothing_beyond) {
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / "orchard-sprayer" / "battery-box.toml";
  const std::string text = test::read_file(path);
  struct Limit {
    const char* key;
    const char* refused;
    const char* said;
    const char* beyond;
  };
  // At the top the section of the bottom: the two limits are then those of a deep and of a shallow flange.
  const Override top{"box.main.frame.top_section", "L 2x2x1/8"};
  const std::string flange = "box.main.face.front.flange_depth";
  for (const auto& [key, refused, said, beyond] :
       {Limit{"item.block.rods.projection", "0.5", "0.7216", "0.7215"},
        Limit{flange.c_str(), "0.2", "1.0872", "1.087"}, Limit{flange.c_str(), "1.9", "1.7244", "1.7245"}}) {
    const auto told = test::diagnose("battery-box.toml", text, {top, {key, refused}}, {}).diagnostics;
    ASSERT_FALSE(told.all().empty()) << key;
    EXPECT_NE(told.all()[0].message.find(std::string(said) + " in"), std::string::npos) << told.all()[0].message;
    EXPECT_TRUE(test::diagnose("battery-box.toml", text, {top, {key, said}}, {}).diagnostics.all().empty()) << key;
    EXPECT_FALSE(test::diagnose("battery-box.toml", text, {top, {key, beyond}}, {}).diagnostics.all().empty()) << key;
  }
}

}  // namespace
}  // namespace fitup
