// The cut list by itself: what it prints is read back, built a second way, and weighed against the solids.
// Entry: gtest.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <regex>

#include "bench/planned.h"
#include "output/bench_lists.h"
#include "output/part_notes.h"
#include "plan/numbers_builder.h"

namespace fitup::bench {
namespace {

using Fields = std::map<std::string, std::string>;

std::vector<Fields> rows_of(const Plan& plan, const Model& model) {
  JobInfo info = sample::info();
  info.units = UnitSystem::mm_kg;
  const auto rows = output::cut_rows(plan, model, info);
  std::vector<Fields> all;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    Fields& fields = all.emplace_back();
    for (std::size_t k = 0; k < rows[0].size(); ++k) fields[rows[0][k]] = rows[i].at(k);
  }
  return all;
}

/// Every match of a pattern in a text.
std::vector<std::smatch> all_of(const std::string& text, const std::regex& what) {
  return {std::sregex_iterator(text.begin(), text.end(), what), std::sregex_iterator()};
}

std::vector<std::string> split(const std::string& text, const std::string& by) {
  std::vector<std::string> pieces;
  std::size_t from = 0;
  for (std::size_t at = text.find(by); at != std::string::npos; at = text.find(by, from)) {
    pieces.push_back(text.substr(from, at - from));
    from = at + by.size();
  }
  pieces.push_back(text.substr(from));
  return pieces;
}

/// Steps in order from the heel to the toe, what is not said cut square at the end.
LegCut leg_in(const std::string& words, double leg_mm) {
  LegCut cut;
  std::smatch whole;
  if (std::regex_search(words, whole, std::regex("removed for ([0-9.]+) from the end"))) {
    cut.steps = {{0, leg_mm, std::stod(whole[1])}};
    return cut;
  }
  double at = 0;
  for (const auto& m : all_of(words, std::regex("back ([0-9.]+) over ([0-9.]+) to ([0-9.]+) from the heel"))) {
    const double from = std::stod(m[2]);
    if (from > at) cut.steps.push_back({at, from, 0});
    at = std::stod(m[3]);
    cut.steps.push_back({from, at, std::stod(m[1])});
  }
  if (at < leg_mm) cut.steps.push_back({at, leg_mm, 0});
  for (const auto& m : all_of(words, std::regex("corner at ([0-9.]+) as a chamfer ([0-9.]+) x 45 degrees"))) {
    cut.corners.push_back({std::stod(m[1]), CornerKind::chamfer, std::stod(m[2])});
  }
  for (const auto& m : all_of(words, std::regex("corner at ([0-9.]+) with radius ([0-9.]+)"))) {
    cut.corners.push_back({std::stod(m[1]), CornerKind::radius, std::stod(m[2])});
  }
  return cut;
}

EndCut end_in(const std::string& words, const Section& section) {
  EndCut cut{leg_in("", section.leg_a_mm), leg_in("", section.leg_b_mm), {}};
  if (words.rfind("mitre", 0) == 0) {
    cut.mitre = words.find("shorter along leg A") != std::string::npos ? Leg::a : Leg::b;
    return cut;
  }
  for (const std::string& piece : split(words, "; ")) {
    if (piece.rfind("leg A", 0) == 0 || piece.rfind("bar", 0) == 0) cut.a = leg_in(piece, section.leg_a_mm);
    if (piece.rfind("leg B", 0) == 0) cut.b = leg_in(piece, section.leg_b_mm);
  }
  return cut;
}

/// "leg B, 20 from the heel: 3 holes, drill 3.3, tap M4, at 20, 110 from the start"
void add_holes(Member& member, const std::string& words) {
  const std::regex line(
      "(?:leg ([AB]), )?([0-9.]+) from the (?:heel|edge): ([0-9]+) holes?, (?:drill )?([0-9.]+).*, at "
      "([0-9., ]+) from the start");
  for (const std::string& piece : split(words, "; ")) {
    std::smatch m;
    if (!std::regex_match(piece, m, line)) continue;
    const auto places = split(m[5], ", ");
    EXPECT_EQ(places.size(), std::stoul(m[3])) << piece;
    for (const std::string& place : places) {
      member.holes.push_back({m[1] == "B" ? Leg::b : Leg::a, std::stod(place), std::stod(m[2]), std::stod(m[4]),
                              HoleKind::clear, "", false});
    }
  }
}

/// The member as someone reads its line in the list, from the section's name and printed numbers alone.
Member read_member(const Fields& row, const Section& section) {
  Member member;
  member.section = section;
  member.length_mm = std::stod(row.at("length mm"));
  member.start = end_in(row.at("start cut mm"), section);
  member.end = end_in(row.at("end cut mm"), section);
  add_holes(member, row.at("holes mm"));
  return member;
}

double back_at_heel(const LegCut& leg) { return leg.steps.empty() ? 0 : leg.steps.front().set_back_mm; }

/// What ends, corners and holes take off, in mm3: each step over the leg's thickness; where both legs go, the square in
/// which they cross is taken once, and the root's fillet with them. At a toe its rounding was never there.
double taken_mm3(const Member& member) {
  const Section& s = member.section;
  double area_mm2 = 0;
  double volume_mm3 = 0;
  for (const EndCut* end : {&member.start, &member.end}) {
    for (const LegCut* leg : {&end->a, &end->b}) {
      for (const CutStep& step : leg->steps) area_mm2 += (step.to_mm - step.from_mm) * step.set_back_mm;
      if (!leg->steps.empty())
        volume_mm3 -= leg->steps.back().set_back_mm * (1 - M_PI / 4) * std::pow(s.toe_radius_mm, 2);
      for (const CutCorner& corner : leg->corners) area_mm2 += corner.size_mm * corner.size_mm / 2;
    }
    const double both_mm = std::min(back_at_heel(end->a), back_at_heel(end->b));
    volume_mm3 -= both_mm * (s.thickness_mm * s.thickness_mm - (1 - M_PI / 4) * s.root_radius_mm * s.root_radius_mm);
  }
  for (const MemberHole& hole : member.holes) area_mm2 += M_PI / 4 * hole.diameter_mm * hole.diameter_mm;
  return volume_mm3 + area_mm2 * s.thickness_mm;
}

class CutListOf : public testing::TestWithParam<const char*> {
 protected:
  void SetUp() override {
    ASSERT_TRUE(made_.plan);
    for (PartId id = 0; id < made_.plan->parts.size(); ++id) {
      const Part& part = made_.plan->parts[id];
      const auto* member = std::get_if<Member>(&part.form);
      if (part.source == Source::sawn && member != nullptr) ids_[part.mark] = id;
    }
    ASSERT_FALSE(ids_.empty());
  }
  const Planned& made_ = modelled(GetParam()).made;
  const Model& model_ = modelled(GetParam()).model;
  std::map<std::string, PartId> ids_;
};

TEST_P(CutListOf, TheExampleRebuildsEachMember) {
  std::size_t rebuilt = 0;
  for (const Fields& row : rows_of(*made_.plan, model_)) {
    const auto found = ids_.find(row.at("mark"));
    if (found == ids_.end()) continue;
    const Part& part = made_.plan->parts[found->second];
    const auto& planned = std::get<Member>(part.form);
    const Member read = read_member(row, planned.section);
    EXPECT_EQ(read.holes.size(), planned.holes.size()) << part.mark;
    const auto measured = solid::measure(test::from_numbers(read));
    ASSERT_TRUE(measured) << part.mark;
    const PartSolid& own = model_.parts[found->second];
    // Lengths are printed to 0.001 mm.
    EXPECT_NEAR(measured->volume_mm3, own.volume_mm3, 1e-5 * own.volume_mm3 + 1) << part.mark;
    EXPECT_LT(norm(measured->centroid - own.centroid), 0.01) << part.mark;
    EXPECT_LT(norm(measured->bounds.low - own.bounds.low), 0.01) << part.mark;
    EXPECT_LT(norm(measured->bounds.high - own.bounds.high), 0.01) << part.mark;
    ++rebuilt;
  }
  EXPECT_EQ(rebuilt, ids_.size());
}

/// Metres times the mass of a metre as the section's table publishes it (EN 10056-1, a flat's own area) is the solid's
/// mass and what was cut off it. The table rounds to 0.01 kg/m, and the density of EN 10056-1's masses is 7.85.
TEST_P(CutListOf, TheExampleWeighsWhatItsMetresDo) {
  double metres_kg = 0;
  double all_kg = 0;
  for (const Fields& row : rows_of(*made_.plan, model_)) {
    const auto found = ids_.find(row.at("mark"));
    if (found == ids_.end()) continue;
    const auto& planned = std::get<Member>(made_.plan->parts[found->second].form);
    const Member read = read_member(row, planned.section);
    const double quantity = std::stod(row.at("quantity"));
    const double steel_kg = 7.85e-6 * model_.parts[found->second].volume_mm3;
    const double bar_kg = planned.section.published_mass_kg_per_m * std::stod(row.at("length mm")) / 1000;
    // AISC's table gives an L 2x2x1/8 1.65 lb/ft and an area of 0.491 in2, which would weigh 1.67, and no radius at the
    // toes: with the one that is drawn it comes to 1.9 percent more.
    const bool inches = planned.section.designation.ends_with("in");
    const double rounded_kg = (inches ? 0.02 : 0.006) * bar_kg + 0.001;
    EXPECT_NEAR(steel_kg, std::stod(row.at("mass kg each")), 0.001 + 1e-3 * steel_kg) << row.at("mark");
    EXPECT_NEAR(bar_kg - steel_kg, 7.85e-6 * taken_mm3(read), rounded_kg) << row.at("mark");
    metres_kg += quantity * bar_kg;
    all_kg += quantity * steel_kg;
  }
  EXPECT_GT(metres_kg, all_kg);
  EXPECT_LT(metres_kg, 1.1 * all_kg);
}

INSTANTIATE_TEST_SUITE_P(Framed, CutListOf,
                         testing::Values("park-locomotive/front-box.toml", "orchard-sprayer/battery-box.toml",
                                         "cabin-inverter/cabinet.toml", "park-locomotive/front-box-with-lower.toml"));

// The cabinet's stud stands 210 from the front and 130 from the bottom of a side plate that is 569 high and as deep as
// the frame, 260: whichever way the sheet is drawn, it is 210 or 50 and 130 or 439 from its edges.
TEST(Notes, SayWhereAStudIsWeldedOn) {
  const Planned made = planned("cabin-inverter/cabinet.toml");
  ASSERT_TRUE(made.plan);
  std::size_t said = 0;
  for (PartId id = 0; id < made.plan->parts.size(); ++id) {
    const std::string note = output::fixing_note(*made.plan, id, output::PaperUnits(UnitSystem::mm_kg));
    std::smatch found;
    if (!std::regex_search(note, found,
                           std::regex("weld on 1 x M8.*its middle ([0-9.]+) from the left and ([0-9.]+)"))) {
      continue;
    }
    ++said;
    const Vec2 size = std::get<Flat>(made.plan->parts[id].form).profile.bounds().size();
    const auto near = [](double edge, double whole, double place) {
      return std::abs(edge - place) < 5 || std::abs(whole - edge - place) < 5;
    };
    const double left = std::stod(found[1]);
    const double below = std::stod(found[2]);
    const bool upright = size.y > size.x;
    EXPECT_TRUE(near(upright ? left : below, 260, 210)) << note;
    EXPECT_TRUE(near(upright ? below : left, 569, 130)) << note;
  }
  EXPECT_EQ(said, 1U);
}

bool has_threads(const Member& member) {
  return std::any_of(member.holes.begin(), member.holes.end(),
                     [](const MemberHole& hole) { return hole.kind == HoleKind::tapped; });
}

// Whoever drills beforehand what is meant to be marked through drills twice.
TEST(CutList, SaysWhichHolesAreMarkedThrough) {
  const std::string through = " are marked through once the frame is welded";
  for (const char* drilled : {"transferred", "printed guide"}) {
    const auto demo =
        planned("park-locomotive/front-box.toml", {{"making.drilled", "\"" + std::string(drilled) + "\""}});
    ASSERT_TRUE(demo.plan) << drilled;
    int said = 0, drilled_members = 0;
    for (PartId id = 0; id < demo.plan->parts.size(); ++id) {
      const auto* member = std::get_if<Member>(&demo.plan->parts[id].form);
      drilled_members += member != nullptr && has_threads(*member) ? 1 : 0;
      const std::string note = output::fixing_note(*demo.plan, id, output::PaperUnits(UnitSystem::mm_kg));
      said += note.find(through) != std::string::npos ? 1 : 0;
    }
    EXPECT_GT(drilled_members, 2);
    EXPECT_EQ(said, std::string(drilled) == "transferred" ? drilled_members : 0) << drilled;
  }
}

}  // namespace
}  // namespace fitup::bench
