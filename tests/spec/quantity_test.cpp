// Quantities of the spec: numbers, units, mixed fractions, arithmetic.
// Units by definition: 1 in = 25.4 mm, 1 ft = 12 in, 1 lb = 0.45359237 kg, 1 oz = 1/16 lb (international yard and
// pound agreement, 1959; NIST Special Publication 811, appendix B.8).

#include "spec/quantity_parser.h"

#include <gtest/gtest.h>

#include <map>
#include <random>
#include <string>

#include "fitup/tolerances.h"

namespace fitup::spec {
namespace {

/// Names that the expressions below may use.
std::optional<Quantity> known_in(UnitSystem units, std::string_view name) {
  const std::map<std::string, Quantity, std::less<>> names{{"gap", bare(12, units)},
                                                           {"wall", {4, QuantityKind::length}},
                                                           {"block", {23, QuantityKind::mass}},
                                                           {"nothing", bare(0, units)}};
  const auto found = names.find(name);
  if (found == names.end()) return std::nullopt;
  return found->second;
}

std::optional<Quantity> known(std::string_view name, const Place&) { return known_in(UnitSystem::mm_kg, name); }

std::optional<Quantity> value_of(std::string_view text, UnitSystem units = UnitSystem::mm_kg) {
  Diagnostics diagnostics;
  const auto quantity = evaluate(
      {text, {}, false}, units, [&](std::string_view name, const Place&) { return known_in(units, name); },
      diagnostics);
  // A name that is not known is reported by the lookup, all else by the parser.
  if (quantity) {
    EXPECT_TRUE(diagnostics.all().empty()) << text;
  }
  return quantity;
}

struct LengthCase {
  const char* name;
  const char* text;
  UnitSystem units;
  double expected_mm;
};
class LengthExpression : public testing::TestWithParam<LengthCase> {};

TEST_P(LengthExpression, has_this_length) {
  const auto quantity = value_of(GetParam().text, GetParam().units);
  ASSERT_TRUE(quantity) << GetParam().text;
  const auto length = as_length(*quantity);
  ASSERT_TRUE(length) << GetParam().text;
  EXPECT_EQ(length->mm(), GetParam().expected_mm) << GetParam().text;
}

constexpr auto mm = UnitSystem::mm_kg;
constexpr auto in = UnitSystem::in_lb;
INSTANTIATE_TEST_SUITE_P(
    Lengths, LengthExpression,
    testing::Values(
        LengthCase{"a_bare_number_in_a_metric_spec", "12", mm, 12},
        LengthCase{"a_bare_number_in_an_inch_spec", "12", in, 304.8}, LengthCase{"millimetres", "12 mm", in, 12},
        LengthCase{"no_blank_before_the_unit", "12mm", mm, 12}, LengthCase{"centimetres", "1.5 cm", mm, 15},
        LengthCase{"metres", "0.984 m", mm, 984}, LengthCase{"inches", "2 in", mm, 50.8},
        LengthCase{"feet", "1 ft", mm, 304.8}, LengthCase{"a_fraction", "3/16 in", mm, 4.7625},
        LengthCase{"a_fraction_with_blanks", "3 / 16 in", mm, 4.7625},
        LengthCase{"a_mixed_fraction", "1 1/2 in", mm, 38.1},
        LengthCase{"a_mixed_fraction_without_a_unit", "1 1/2", in, 38.1},
        LengthCase{"a_negative_mixed_fraction", "-1 1/2 in", mm, -38.1},
        LengthCase{"feet_and_inches", "3 ft + 2 1/4 in", mm, 971.55}, LengthCase{"a_leading_point", ".5 in", mm, 12.7},
        LengthCase{"an_exponent", "1.2e2 mm", mm, 120}, LengthCase{"a_name", "gap", mm, 12},
        LengthCase{"a_bare_name_in_inches", "gap", in, 304.8},
        LengthCase{"the_sum_of_the_design", "2*gap + 1 mm", mm, 25},
        LengthCase{"a_bare_number_beside_a_unit_is_in_the_specs_units", "1 + 1 mm", in, 26.4},
        LengthCase{"times_before_plus", "2 + 3*4", mm, 14}, LengthCase{"brackets_first", "(2 + 3)*4", mm, 20},
        LengthCase{"minus_goes_from_left_to_right", "10 - 3 - 2", mm, 5},
        LengthCase{"division_goes_from_left_to_right", "100 / 5 / 2", mm, 10}, LengthCase{"two_signs", "2 - -3", mm, 5},
        LengthCase{"a_plus_sign", "+3 mm", mm, 3}, LengthCase{"half_a_length", "wall / 2", mm, 2},
        LengthCase{"a_length_by_a_fraction_in_inches", "6 * 3/16 in", mm, 28.575},
        LengthCase{"a_ratio_scales_a_length", "10 mm * (wall / 2 mm)", mm, 20},
        LengthCase{"rounded_to_the_grid", "1/3 mm", mm, 0.333333},
        LengthCase{"a_sum_of_tenths_is_a_decimal_again", "0.1 mm + 0.2 mm", mm, 0.3},
        LengthCase{"a_gauge_of_steel_sheet", "14 ga", mm, 1.89738},  // 0.0747 in
        LengthCase{"a_gauge_in_an_expression", "2*11 ga + 1 mm", mm, 7.07568},
        LengthCase{"no_negative_zero", "-0 mm", mm, 0.0}),
    [](const auto& tested) { return tested.param.name; });

struct MassCase {
  const char* name;
  const char* text;
  UnitSystem units;
  double expected_kg;
};
class MassExpression : public testing::TestWithParam<MassCase> {};

TEST_P(MassExpression, has_this_mass) {
  const auto quantity = value_of(GetParam().text, GetParam().units);
  ASSERT_TRUE(quantity) << GetParam().text;
  const auto mass = as_mass(*quantity);
  ASSERT_TRUE(mass) << GetParam().text;
  EXPECT_EQ(mass->kg(), GetParam().expected_kg) << GetParam().text;
}

INSTANTIATE_TEST_SUITE_P(Masses, MassExpression,
                         testing::Values(MassCase{"a_bare_number_in_a_metric_spec", "23", mm, 23},
                                         MassCase{"a_bare_number_in_an_inch_spec", "100", in, 45.359237},
                                         MassCase{"kilograms", "23 kg", in, 23}, MassCase{"grams", "23000 g", mm, 23},
                                         MassCase{"pounds", "2 lb", mm, 0.90718474},
                                         MassCase{"ounces", "8 oz", mm, 0.226796185},
                                         MassCase{"pounds_and_ounces", "1 lb + 8 oz", mm, 0.680388555},
                                         MassCase{"twice_a_name", "2*block", mm, 46}),
                         [](const auto& tested) { return tested.param.name; });

struct RefusedCase {
  const char* name;
  const char* text;
  const char* id;
};
class RefusedExpression : public testing::TestWithParam<RefusedCase> {};

TEST_P(RefusedExpression, is_refused_once_with_this_id) {
  Diagnostics diagnostics;
  EXPECT_FALSE(evaluate({GetParam().text, {}, false}, UnitSystem::mm_kg, known, diagnostics)) << GetParam().text;
  ASSERT_EQ(diagnostics.all().size(), 1U) << GetParam().text;
  EXPECT_EQ(diagnostics.all()[0].id, GetParam().id) << diagnostics.all()[0].message;
}

INSTANTIATE_TEST_SUITE_P(Refused, RefusedExpression,
                         testing::Values(RefusedCase{"a_length_and_a_mass", "12 mm + 3 kg", "mixed-quantities"},
                                         RefusedCase{"a_name_of_another_kind", "block - wall", "mixed-quantities"},
                                         RefusedCase{"length_times_length", "wall * 2 mm", "bad-product"},
                                         RefusedCase{"a_number_by_a_length", "2 / wall", "bad-quotient"},
                                         RefusedCase{"by_zero", "2 / 0", "division-by-zero"},
                                         RefusedCase{"by_a_name_that_is_zero", "2 / nothing", "division-by-zero"},
                                         RefusedCase{"a_fraction_by_zero", "1 1/0 in", "division-by-zero"},
                                         RefusedCase{"beyond_all_numbers", "1e200 * 1e200", "not-finite"},
                                         RefusedCase{"a_decimal_comma", "1,5", "bad-expression"},
                                         RefusedCase{"two_numbers", "1 2", "bad-expression"},
                                         RefusedCase{"a_decimal_in_a_mixed_fraction", "1 1.5/2 in", "bad-expression"},
                                         RefusedCase{"nothing_at_all", "  ", "bad-expression"},
                                         RefusedCase{"a_unit_alone", "mm", "bad-expression"},
                                         RefusedCase{"an_unknown_unit", "12 yd", "bad-expression"}),
                         [](const auto& tested) { return tested.param.name; });

struct HelpCase {
  const char* name;
  const char* text;
  const char* says;
};
class MistypedQuantity : public testing::TestWithParam<HelpCase> {};

TEST_P(MistypedQuantity, is_answered_with_what_to_write) {
  Diagnostics diagnostics;
  EXPECT_FALSE(evaluate({GetParam().text, {}, false}, UnitSystem::mm_kg, known, diagnostics)) << GetParam().text;
  ASSERT_EQ(diagnostics.all().size(), 1U);
  EXPECT_NE(diagnostics.all()[0].message.find(GetParam().says), std::string::npos) << diagnostics.all()[0].message;
}

INSTANTIATE_TEST_SUITE_P(
    Helped, MistypedQuantity,
    testing::Values(HelpCase{"kilo", "10 kilo", "the unit is written kg, as in 10 kg"},
                    HelpCase{"pounds", "50 lbs", "the unit is written lb, as in 50 lb"},
                    HelpCase{"capitals", "12 MM", "the unit is written mm, as in 12 mm"},
                    HelpCase{"a_unit_without_a_space", "3inch", "the unit is written in, as in 3 in"},
                    HelpCase{"a_decimal_comma", "14,5", "the decimal sign is a point: write 14.5"},
                    HelpCase{"a_decimal_comma_with_a_unit", "1 + 14,25 mm", "write 14.25"},
                    HelpCase{"a_list_in_quotes", "14, 5", "a list of values stands in square brackets"},
                    HelpCase{"a_gauge", "15 ga", "no steel sheet has that gauge"},
                    HelpCase{"a_gauge_in_full", "16 Gauge", "written ga, as in 16 ga"}),
    [](const auto& tested) { return tested.param.name; });

TEST(Expression, the_nesting_limit_is_exact) {
  const auto nested = [](int depth) {
    return std::string(static_cast<std::size_t>(depth), '(') + "1" + std::string(static_cast<std::size_t>(depth), ')');
  };
  EXPECT_TRUE(value_of(nested(deepest_nesting)));
  Diagnostics diagnostics;
  EXPECT_FALSE(evaluate({nested(deepest_nesting + 1), {}, false}, mm, known, diagnostics));
  EXPECT_EQ(diagnostics.all().at(0).id, "too-deep");
}

TEST(Expression, brackets_beside_each_other_are_not_nested) {
  std::string text = "1";
  for (int i = 0; i < 1000; ++i) text += " + (1)";
  const auto quantity = value_of(text);
  ASSERT_TRUE(quantity);
  EXPECT_EQ(quantity->value, 1001);
}

TEST(Expression, a_place_inside_counts_from_the_opening_quote) {
  Diagnostics diagnostics;
  EXPECT_FALSE(evaluate({"12 mm + 3 kg", Place{0, 7, 10, 14}, true}, mm, known, diagnostics));
  EXPECT_EQ(diagnostics.all().at(0).place, (Place{0, 7, 17, 1}));
}

/// The model: C++ arithmetic on millimetres, written with random brackets, blanks and units.
class Random {
 public:
  explicit Random(unsigned seed) : engine_(seed) {}

  struct Written {
    std::string text;
    double value;
  };

  Written length(int depth) {
    if (depth == 0 || chance(3)) return leaf();
    const Written a = length(depth - 1);
    const Written b = length(depth - 1);
    switch (pick(4)) {
      case 0: return {a.text + " + " + b.text, a.value + b.value};
      case 1: return {a.text + "-(" + b.text + ")", a.value - b.value};
      case 2: return {"2*(" + a.text + ")", 2 * a.value};
      default: return {"(" + a.text + ")/4", a.value / 4};
    }
  }

 private:
  Written leaf() {
    const int n = pick(400) + 1;
    switch (pick(4)) {
      case 0: return {std::to_string(n) + " mm", 1.0 * n};
      case 1: return {std::to_string(n) + "/16 in", n * 25.4 / 16};
      case 2: return {std::to_string(n) + " 3/8in", (n + 0.375) * 25.4};
      default: return {std::to_string(n), 1.0 * n};
    }
  }
  int pick(int below) { return static_cast<int>(engine_() % static_cast<unsigned>(below)); }
  bool chance(int one_in) { return pick(one_in) == 0; }
  std::mt19937 engine_;
};

TEST(Expression, agrees_with_plain_arithmetic_on_random_expressions) {
  for (unsigned seed = 1; seed <= 2000; ++seed) {
    const Random::Written written = Random(seed).length(4);
    const auto quantity = value_of(written.text);
    ASSERT_TRUE(quantity) << "seed " << seed << ": " << written.text;
    const auto length = as_length(*quantity);
    ASSERT_TRUE(length) << "seed " << seed << ": " << written.text;
    EXPECT_NEAR(length->mm(), written.value, tolerance::snap_mm) << "seed " << seed << ": " << written.text;
  }
}

TEST(Snapping, puts_every_length_on_the_grid_and_leaves_it_there) {
  std::mt19937 engine(7);
  std::uniform_real_distribution<double> metres(-20, 20);
  for (int i = 0; i < 1000; ++i) {
    const auto once = as_length({1000 * metres(engine), QuantityKind::length});
    ASSERT_TRUE(once);
    EXPECT_EQ(as_length({once->mm(), QuantityKind::length})->mm(), once->mm());
    EXPECT_NEAR(once->mm() * 1e6, std::round(once->mm() * 1e6), 1e-5);
  }
}

}  // namespace
}  // namespace fitup::spec
