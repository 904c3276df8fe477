// What holds for every diagnostic of the catalogue.

#include "diag/catalogue.h"

#include <gtest/gtest.h>

#include <regex>
#include <set>
#include <string>

namespace fitup::diag {
namespace {

TEST(Catalogue, every_id_is_given_once_in_kebab_case) {
  std::set<std::string_view> ids;
  for (const Entry& entry : catalogue) {
    EXPECT_TRUE(ids.insert(entry.id).second) << entry.id << " stands there twice";
    EXPECT_TRUE(std::regex_match(std::string(entry.id), std::regex("[a-z]+(-[a-z]+)*"))) << entry.id;
  }
}

TEST(Catalogue, the_wording_is_calm_and_has_no_full_stop) {
  for (const Entry& entry : catalogue) {
    ASSERT_FALSE(entry.wording.empty()) << entry.id;
    EXPECT_EQ(entry.wording.find('!'), std::string_view::npos) << entry.id;
    EXPECT_NE(entry.wording.back(), '.') << entry.id;
    EXPECT_FALSE(std::isupper(static_cast<unsigned char>(entry.wording[0]))) << entry.id;
  }
}

TEST(Catalogue, the_wording_is_filled_in_the_order_of_the_arguments) {
  const Diagnostic d = say<"unknown-key">(Place{0, 3, 4, 5}, "the spec", "\"unit\"", "; did you mean \"units\"?");
  EXPECT_EQ(d.message, "the spec has no key \"unit\"; did you mean \"units\"?");
  EXPECT_EQ(d.id, "unknown-key");
  EXPECT_EQ(d.severity, Severity::error);
  EXPECT_EQ(d.place, (Place{0, 3, 4, 5}));
}

TEST(Catalogue, a_note_is_attached_as_a_note) {
  const Diagnostic d =
      with_note(say<"division-by-zero">(Place{0, 3, 4, 5}), say<"division-by-zero">(Place{0, 1, 1, 1}));
  ASSERT_EQ(d.notes.size(), 1U);
  EXPECT_EQ(d.notes[0].severity, Severity::note);
  EXPECT_EQ(d.severity, Severity::error);
}

}  // namespace
}  // namespace fitup::diag
