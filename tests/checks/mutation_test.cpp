// The generated pairs are worth something only if they notice a rule that is wrong: each rule is made wrong in turn,
// and some pair must then come out differently from how it was made.
#include <gtest/gtest.h>

#include "checks/generated_pairs.h"
#include "checks/rules.h"

namespace fitup {
namespace {

using checks::Decision;
using checks::Rules;
using geometry::Contact;
using geometry::Interval;
using geometry::Region;

struct Mutation {
  const char* name;
  std::vector<generated::Kind> (*kinds)();
  void (*spoil)(Rules&);
};

void PrintTo(const Mutation& m, std::ostream* out) { *out << m.name; }

std::size_t disagreements(const std::vector<generated::Pair>& pairs, const Rules& rules) {
  std::size_t count = 0;
  for (const auto& pair : pairs) {
    const Decision d = checks::decide(checks::place(pair.a, pair.at), checks::place(pair.b, pair.at), {0, rules});
    if (d != Decision::unsure && d != pair.expected) ++count;
  }
  return count;
}

Region solid_throughout(const Region& r) { return Region({r.profile().outer, {}}); }

Region with_chords_for_arcs(const Region& r) {
  Profile p = r.profile();
  for (Vertex& v : p.outer.vertices) v.bulge = 0;
  for (Loop& hole : p.holes) {
    for (Vertex& v : hole.vertices) v.bulge = 0;
  }
  return Region(std::move(p));
}

std::optional<Contact> undecided(const Region&, const Region&, double) { return std::nullopt; }

// Without the quick rules, so that the general one has to answer.
void general_only(Rules& r) {
  r.discs = undecided;
  r.rectangles = undecided;
}

void spans_without_band(Rules& r) {
  r.spans = [](Interval a, Interval b, double) { return geometry::relate_intervals(a, b, 0); };
}
void spans_twenty_bands(Rules& r) {
  r.spans = [](Interval a, Interval b, double band) { return geometry::relate_intervals(a, b, 20 * band); };
}
void spans_off_by_a_step(Rules& r) {
  r.spans = [](Interval a, Interval b, double band) {
    return geometry::relate_intervals({a.low, a.high + 0.01}, b, band);
  };
}
void discs_by_distance_alone(Rules& r) {
  r.discs = [](const Region& a, const Region& b, double band) -> std::optional<Contact> {
    if (!a.disc() || !b.disc()) return geometry::relate_discs(a, b, band);
    return norm(a.disc()->centre - b.disc()->centre) > a.disc()->radius ? Contact::clear : Contact::overlap;
  };
}
void discs_ignore_where_the_hole_is(Rules& r) {
  r.discs = [](const Region& a, const Region& b, double band) -> std::optional<Contact> {
    const Region& plate = a.disc() ? b : a;
    const Region& rod = a.disc() ? a : b;
    if (plate.round_holes().empty() || !rod.disc()) return geometry::relate_discs(a, b, band);
    return plate.round_holes()[0].radius - rod.disc()->radius > band ? Contact::clear : Contact::touch;
  };
}
void discs_without_band(Rules& r) {
  r.discs = [](const Region& a, const Region& b, double) { return geometry::relate_discs(a, b, 0); };
}
void rectangles_on_one_axis(Rules& r) {
  r.rectangles = [](const Region& a, const Region& b, double band) -> std::optional<Contact> {
    if (!a.rectangle() || !b.rectangle()) return std::nullopt;
    return geometry::relate_intervals({a.rectangle()->low.x, a.rectangle()->high.x},
                                      {b.rectangle()->low.x, b.rectangle()->high.x}, band);
  };
}
void rectangles_without_band(Rules& r) {
  r.rectangles = [](const Region& a, const Region& b, double) { return geometry::relate_rectangles(a, b, 0); };
}
void regions_without_holes(Rules& r) {
  general_only(r);
  r.regions = [](const Region& a, const Region& b, double band) {
    return geometry::relate(solid_throughout(a), solid_throughout(b), band);
  };
}
void regions_without_arcs(Rules& r) {
  general_only(r);
  r.regions = [](const Region& a, const Region& b, double band) {
    return geometry::relate(with_chords_for_arcs(a), with_chords_for_arcs(b), band);
  };
}
void regions_by_their_boxes(Rules& r) {
  r.regions = [](const Region& a, const Region& b, double band) {
    return *geometry::relate_rectangles(Region({Loop::rectangle(a.bounds().low, a.bounds().high), {}}),
                                        Region({Loop::rectangle(b.bounds().low, b.bounds().high), {}}), band);
  };
}
void regions_without_band(Rules& r) {
  general_only(r);
  r.regions = [](const Region& a, const Region& b, double) { return geometry::relate(a, b, 1e-9); };
}
void shadows_not_clipped(Rules& r) {
  r.shadow = [](const Region& region, geometry::Axis2 across, Interval) {
    return geometry::shadow(region, across, {-1e4, 1e4});
  };
}
void shadows_without_holes(Rules& r) {
  r.shadow = [](const Region& region, geometry::Axis2 across, Interval strip) {
    return geometry::shadow(solid_throughout(region), across, strip);
  };
}
void shadows_without_arcs(Rules& r) {
  r.shadow = [](const Region& region, geometry::Axis2 across, Interval strip) {
    return geometry::shadow(with_chords_for_arcs(region), across, strip);
  };
}
void shadows_of_a_wider_strip(Rules& r) {
  r.shadow = [](const Region& region, geometry::Axis2 across, Interval strip) {
    return geometry::shadow(region, across, {strip.low - 2e-3, strip.high + 2e-3});
  };
}
void shadows_on_the_wrong_axis(Rules& r) {
  r.shadow = [](const Region& region, geometry::Axis2 across, Interval strip) {
    return geometry::shadow(region, across == geometry::Axis2::x ? geometry::Axis2::y : geometry::Axis2::x, strip);
  };
}
void bores_by_radius_alone(Rules& r) {
  r.slack = [](double bore, double rod, double) { return bore - rod; };
}
void bores_by_diameter(Rules& r) {
  r.slack = [](double bore, double rod, double off) { return bore - rod / 2 - off; };
}

class Mutations : public testing::TestWithParam<Mutation> {};

TEST_P(Mutations, AreNoticed) {
  constexpr unsigned seed = 21;
  const auto pairs = generated::draw(GetParam().kinds(), seed, 10);
  std::cout << "seed " << seed << ", " << pairs.size() << " pairs\n";
  ASSERT_EQ(disagreements(pairs, Rules{}), 0U);
  Rules rules;
  GetParam().spoil(rules);
  EXPECT_GT(disagreements(pairs, rules), 0U);
}

INSTANTIATE_TEST_SUITE_P(
    All, Mutations,
    testing::Values(Mutation{"spans_without_band", generated::span_kinds, spans_without_band},
                    Mutation{"spans_twenty_bands", generated::span_kinds, spans_twenty_bands},
                    Mutation{"spans_off_by_a_step", generated::span_kinds, spans_off_by_a_step},
                    Mutation{"discs_by_distance_alone", generated::disc_kinds, discs_by_distance_alone},
                    Mutation{"discs_ignore_where_the_hole_is", generated::disc_kinds, discs_ignore_where_the_hole_is},
                    Mutation{"discs_without_band", generated::disc_kinds, discs_without_band},
                    Mutation{"rectangles_on_one_axis", generated::rectangle_kinds, rectangles_on_one_axis},
                    Mutation{"rectangles_without_band", generated::rectangle_kinds, rectangles_without_band},
                    Mutation{"regions_without_holes", generated::region_kinds, regions_without_holes},
                    Mutation{"regions_without_arcs", generated::region_kinds, regions_without_arcs},
                    Mutation{"regions_by_their_boxes", generated::region_kinds, regions_by_their_boxes},
                    Mutation{"regions_without_band", generated::region_kinds, regions_without_band},
                    Mutation{"shadows_not_clipped", generated::crossing_kinds, shadows_not_clipped},
                    Mutation{"shadows_without_holes", generated::crossing_kinds, shadows_without_holes},
                    Mutation{"shadows_without_arcs", generated::crossing_kinds, shadows_without_arcs},
                    Mutation{"shadows_of_a_wider_strip", generated::crossing_kinds, shadows_of_a_wider_strip},
                    Mutation{"shadows_on_the_wrong_axis", generated::crossing_kinds, shadows_on_the_wrong_axis},
                    Mutation{"bores_by_radius_alone", generated::bore_kinds, bores_by_radius_alone},
                    Mutation{"bores_by_diameter", generated::bore_kinds, bores_by_diameter}),
    [](const auto& mutation) { return std::string(mutation.param.name); });

}  // namespace
}  // namespace fitup
