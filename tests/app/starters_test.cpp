// begin: each starter builds as it stands, and nothing is ever overwritten. schema and tables, from outside.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "app/starters.h"
#include "end_to_end/program.h"
#include "fitup/tables.h"

namespace fitup::app {

void PrintTo(const StarterKind& kind, std::ostream* out) { *out << kind.word; }

namespace {

using testing::HasSubstr;
using testing::IsEmpty;

class Starter : public testing::TestWithParam<std::tuple<StarterKind, const char*>> {
 protected:
  const StarterKind kind_ = std::get<0>(GetParam());
  const std::string units_ = kind_.word == "inches" ? "in" : std::get<1>(GetParam());
};

TEST_P(Starter, passes_every_check_as_it_stands) {
  const test::ScratchFolder scratch;
  test::RunOptions options;
  options.folder = scratch.path();
  const std::string kind(kind_.word);
  const test::RunResult begun = test::fitup({"begin", "new-box", "--kind", kind, "--units", units_}, options);
  EXPECT_EQ(begun.status, 0) << begun.errors;
  EXPECT_THAT(begun.output, HasSubstr("new-box.toml"));
  const test::RunResult checked = test::fitup({"check", "new-box.toml"}, options);
  EXPECT_EQ(checked.status, 0) << checked.output << checked.errors;
  EXPECT_THAT(checked.errors, IsEmpty());
  EXPECT_THAT(checked.output, HasSubstr("0 fail, 0 marginal"));
}

TEST_P(Starter, fails_nothing_as_plates_either) {
  const test::ScratchFolder scratch;
  test::RunOptions options;
  options.folder = scratch.path();
  const std::string kind(kind_.word);
  ASSERT_EQ(test::fitup({"begin", "new-box", "--kind", kind, "--units", units_}, options).status, 0);
  const test::RunResult checked = test::fitup({"check", "new-box.toml", "--set", "box.main.build=plate"}, options);
  EXPECT_EQ(checked.status, 0) << checked.output << checked.errors;
  EXPECT_THAT(checked.errors, IsEmpty());
  EXPECT_THAT(checked.output, HasSubstr("0 fail, "));
}

TEST_P(Starter, has_a_comment_and_the_name_that_was_asked_for) {
  const std::string text = starter(kind_.word, "my-box", units_ == "in" ? UnitSystem::in_lb : UnitSystem::mm_kg);
  EXPECT_EQ(text.find("units = \"in\"") != std::string::npos, units_ == "in");
  EXPECT_THAT(text, HasSubstr("name  = \"my-box\""));
  EXPECT_GT(std::count(text.begin(), text.end(), '#'), 4);
  EXPECT_EQ(text.find("{{"), std::string::npos);
}

INSTANTIATE_TEST_SUITE_P(Kinds, Starter,
                         testing::Combine(testing::ValuesIn(starter_kinds()), testing::Values("mm", "in")),
                         [](const auto& tested) {
                           return std::string(std::get<0>(tested.param).word) + "_" + std::get<1>(tested.param);
                         });

TEST(Begin, never_overwrites) {
  const test::ScratchFolder scratch;
  const auto path = scratch.path() / "mine.toml";
  test::write_file(path, "my own words");
  const test::RunResult result = test::fitup({"begin", path.string()});
  EXPECT_EQ(result.status, 3);
  EXPECT_THAT(result.errors, HasSubstr("it is there already and stays as it is"));
  EXPECT_EQ(test::read_file(path), "my own words");
}

TEST(Begin, says_what_it_cannot_do) {
  EXPECT_EQ(test::fitup({"begin"}).status, 2);
  EXPECT_EQ(test::fitup({"begin", "no/such/folder/box"}).status, 3);
  EXPECT_EQ(test::fitup({"begin", "a b"}).status, 2);
  const test::RunResult unknown = test::fitup({"begin", "box", "--kind", "yacht"});
  EXPECT_EQ(unknown.status, 2);
  EXPECT_THAT(unknown.errors, HasSubstr("it takes row, cabinet, inches"));
  const test::RunResult metric = test::fitup({"begin", "box", "--kind", "inches", "--units", "mm"});
  EXPECT_EQ(metric.status, 2);
  EXPECT_THAT(metric.errors, HasSubstr("for one in millimetres take --kind row"));
}

/// The schema in a file, and the validator's verdict on specs.
class Schema : public testing::Test {
 protected:
  void SetUp() override { test::write_file(schema_, spec_schema()); }

  test::RunResult judged(const std::string& wanted, const std::vector<std::filesystem::path>& specs) {
    std::vector<std::string> command{"/usr/bin/python3", "-B", std::string(FITUP_TESTS) + "/judges/judge_schema.py",
                                     schema_.string(), wanted};
    for (const auto& spec : specs) command.push_back(spec.string());
    return test::run(command);
  }

  std::filesystem::path written(const std::string& name, const std::string& text) {
    test::write_file(scratch_.path() / name, text);
    return scratch_.path() / name;
  }

  test::ScratchFolder scratch_;
  std::filesystem::path schema_ = scratch_.path() / "schema.json";
};

TEST_F(Schema, takes_every_example_and_every_starter) {
  std::vector<std::filesystem::path> specs;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(FITUP_EXAMPLES)) {
    if (entry.path().extension() == ".toml") specs.push_back(entry.path());
  }
  for (const StarterKind& kind : starter_kinds())
    specs.push_back(written(std::string(kind.word) + ".toml", starter(kind.word, "box")));
  specs.push_back(written("child.toml", "start_from = \"row.toml\"\nbox.main.clearance.left = \"gap + 3 mm\"\n"));
  specs.push_back(written("like.toml", starter("row", "box") + "\n[item.half]\nlike = \"module\"\nmass = 9\n"));
  specs.push_back(
      written("measured.toml",
              starter("row", "box") + "\n[item.pump]\nmass = 9\nsize = [{ value = 90, within = 0.5 }, 80, 70]\n"));
  const test::RunResult verdict = judged("good", specs);
  EXPECT_EQ(verdict.status, 0) << verdict.output << verdict.errors;
}

TEST_F(Schema, refuses_what_is_wrong) {
  const std::string row = starter("row", "box");
  const auto with = [&](const std::string& from, const std::string& to) {
    std::string text = row;
    const std::size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return text.replace(at, from.size(), to);
  };
  const std::vector<std::filesystem::path> specs{
      written("unknown-key.toml", with("closed_by", "closedby")),
      written("unknown-word.toml", with("\"flanged\"", "\"flangd\"")),
      written("missing.toml", with("mass        = 18.5", "#")),
      written("type.toml", with("count = 4", "count = [4]")),
      written("two.toml", with("[140, 380, 210]", "[140, 380]")),
      written("negative.toml", with("mass        = 18.5", "mass = -2")),
      written("measured.toml", with("[140, 380, 210]", "[{ value = 140, plus = 1 }, 380, 210]")),
      written("many.toml", with("count = 4", "count = 400"))};
  const test::RunResult verdict = judged("bad", specs);
  EXPECT_EQ(verdict.status, 0) << verdict.output << verdict.errors;
}

TEST_F(Schema, is_printed_by_its_command) {
  EXPECT_EQ(test::fitup({"schema"}).output, spec_schema());
  const auto json = nlohmann::json::parse(test::fitup({"schema", "--json"}).output);
  EXPECT_EQ(json["json_schema"]["properties"]["box"]["type"], "object");
}

TEST(Tables, show_every_row_with_its_source) {
  const std::string all = list_tables({}).text;
  for (const Section& s : tables::sections()) EXPECT_THAT(all, HasSubstr("  " + s.designation + " ")) << s.designation;
  for (const Thread& t : tables::threads()) EXPECT_THAT(all, HasSubstr("  " + t.size + " "));
  for (const Material& m : tables::materials()) EXPECT_THAT(all, HasSubstr(m.source)) << m.name;
  for (const Eye& e : tables::eyes()) EXPECT_THAT(all, HasSubstr(e.source)) << e.size;
}

TEST(Tables, are_chosen_by_name_or_by_row) {
  EXPECT_THAT(list_tables({{}, "eyes"}).text, testing::StartsWith("eyes: "));
  const std::string m6 = list_tables({{}, "m6"}).text;
  for (const char* table : {"threads: ", "screws: ", "nuts: ", "washers: "}) EXPECT_THAT(m6, HasSubstr(table));
  EXPECT_EQ(m6.find("materials: "), std::string::npos);
  const Outcome none = list_tables({{}, "nutz"});
  EXPECT_EQ(none.status, ExitStatus::wrong_input);
  EXPECT_THAT(none.diagnostics.all().at(0).message, HasSubstr("did you mean \"nuts\"?"));
}

TEST(Tables, are_the_same_for_programs) {
  const auto json = nlohmann::json::parse(to_json(list_tables({{}, "nuts"})));
  ASSERT_EQ(json["tables"].size(), 1U);
  ASSERT_EQ(json["tables"][0]["rows"].size(), tables::nuts().size());
  EXPECT_EQ(json["tables"][0]["rows"][0]["thread"], tables::nuts()[0].size);
  EXPECT_EQ(json["tables"][0]["rows"][0]["source"], tables::nuts()[0].source);
}

}  // namespace
}  // namespace fitup::app
