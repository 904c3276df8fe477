// Every variation of the demo under fixtures/variations passes, is refused or fails as it says: never anything else.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "end_to_end/program.h"
#include "end_to_end/variation.h"

namespace fitup::test {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

const std::vector<Variation>& variations() {
  static const auto all = read_variations(std::filesystem::path(FITUP_FIXTURES) / "variations");
  return all;
}

class Variations : public testing::TestWithParam<std::size_t> {};

TEST_P(Variations, comes_out_as_it_says) {
  const Variation& variation = variations()[GetParam()];
  SCOPED_TRACE(variation.file + ": " + variation.name);
  const ScratchFolder scratch;
  const auto spec = scratch.path() / "varied.toml";
  write_file(spec, varied(variation, read_file(demo_spec())));
  const RunResult result = fitup({"check", spec.string(), "--json"});
  const auto report = nlohmann::json::parse(result.output, nullptr, false);
  ASSERT_TRUE(report.is_object()) << result.errors;
  EXPECT_THAT(surprises(variation, result.status, report), IsEmpty());
}

INSTANTIATE_TEST_SUITE_P(Demo, Variations, testing::Range(std::size_t{0}, variations().size()));

// The comparison itself.
class VariationSurprises : public testing::Test {
 protected:
  const nlohmann::json clean_ = {{"diagnostics", nlohmann::json::array()}, {"findings", nlohmann::json::array()}};
  const nlohmann::json refused_ = {
      {"diagnostics", {{{"id", "rail-count"}, {"severity", "error"}, {"message", "rails.at gives 2 places"}}}},
      {"findings", nlohmann::json::array()}};
  Variation wants_refusal_{"f", "n", {}, "x", Outcome::diagnostics, {"rail-count"}, {}, {"2 places"}};
};

TEST_F(VariationSurprises, none_when_all_is_as_expected) {
  EXPECT_THAT(surprises(wants_refusal_, 2, refused_), IsEmpty());
  EXPECT_THAT(surprises(Variation{"f", "n", {}, "x", Outcome::passes, {}, {}, {}}, 0, clean_), IsEmpty());
}

TEST_F(VariationSurprises, another_status_id_or_wording_is_one) {
  EXPECT_THAT(surprises(wants_refusal_, 4, refused_), Contains(HasSubstr("exit status 4")));
  EXPECT_THAT(surprises(wants_refusal_, 2, clean_), Contains(HasSubstr("errors: ")));
  wants_refusal_.says = {"3 places"};
  EXPECT_THAT(surprises(wants_refusal_, 2, refused_), Contains(HasSubstr("not said: 3 places")));
}

TEST_F(VariationSurprises, a_weak_frame_is_none_where_nothing_is_said_of_it) {
  const auto fails = [](const char* check) {
    return nlohmann::json{{"diagnostics", nlohmann::json::array()},
                          {"findings",
                           {{{"check", check},
                             {"verdict", "fail"},
                             {"message", ""},
                             {"parts", {"BAR01 upright"}},
                             {"value", 1.0},
                             {"place", nullptr},
                             {"remedy", nullptr}}}}};
  };
  const Variation passes{"f", "n", {}, "x", Outcome::passes, {}, {}, {}};
  EXPECT_THAT(surprises(passes, 1, fails("frame")), IsEmpty());
  EXPECT_THAT(surprises(passes, 1, fails("overlap")), Not(IsEmpty()));
  Variation asks{"f", "n", {}, "x", Outcome::findings, {}, {}, {}};
  asks.findings.expected = {{"frame", "fail", {"upright"}, {}, 0, {}, {}, {}, {}, false}};
  EXPECT_THAT(surprises(asks, 1, fails("frame")), IsEmpty());
  EXPECT_THAT(surprises(asks, 0, clean_), Not(IsEmpty()));
}

TEST_F(VariationSurprises, a_piece_must_occur_exactly_once) {
  const Variation v{"f", "n", {{"a", "b"}}, "", Outcome::passes, {}, {}, {}};
  EXPECT_THROW((void)varied(v, "aa"), std::runtime_error);
  EXPECT_THROW((void)varied(v, "c"), std::runtime_error);
  EXPECT_EQ(varied(v, "ca"), "cb");
}

}  // namespace
}  // namespace fitup::test
