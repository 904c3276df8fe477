// Laws of the findings: what must not change them, and what may only make them fewer.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <random>
#include <regex>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "checks/planned.h"
#include "fitup/findings.h"

namespace fitup {
namespace {

using test::planned;
using test::text_of;

std::vector<Finding> not_passed(const Plan& plan) {
  std::vector<Finding> found = check_by_rules(plan).all;
  std::erase_if(found, [](const Finding& f) { return f.verdict == Verdict::pass || f.parts.empty(); });
  return found;
}

class EachCase : public testing::TestWithParam<std::filesystem::path> {
 protected:
  const std::filesystem::path spec_ = GetParam() / "spec.toml";

  /// The messages of what does not pass, sorted; the spec's own text and that of the box that it starts from through
  /// `respelled`.
  [[nodiscard]] std::vector<std::string> messages(const std::function<std::string(std::string)>& respelled) const {
    const SpecFiles files = [&](const std::string& path) -> Result<std::string> { return respelled(text_of(path)); };
    const auto box = planned(spec_.string(), respelled(text_of(spec_)), {}, files);
    std::string refused;
    for (const Diagnostic& d : box->diagnostics.all()) refused += d.message + "\n";
    EXPECT_TRUE(box->plan) << refused;
    std::vector<std::string> all;
    if (!box->plan) return all;
    for (const Finding& f : not_passed(*box->plan)) all.push_back(f.message);
    std::sort(all.begin(), all.end());
    return all;
  }
};

/// The tables of a text in the opposite order, entries of lists of tables in their own.
std::string turned_round(const std::string& text) {
  struct Table {
    std::string header;
    std::string body;
  };
  std::vector<Table> tables{{"", ""}};
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("[")) tables.push_back({line, ""});
    tables.back().body += line + "\n";
  }
  std::reverse(tables.begin() + 1, tables.end());
  // A list's first entry again before its second.
  for (std::size_t i = 1; i < tables.size(); ++i) {
    for (std::size_t j = i + 1; j < tables.size(); ++j) {
      if (tables[i].header.starts_with("[[") && tables[i].header == tables[j].header) std::swap(tables[i], tables[j]);
    }
  }
  std::string out;
  for (const Table& table : tables) out += table.body;
  return out;
}

TEST_P(EachCase, SaysTheSameWithItsTablesInTheOppositeOrder) {
  ASSERT_NE(turned_round(text_of(test::sound_box())), text_of(test::sound_box()));
  EXPECT_EQ(messages(turned_round), messages([](std::string text) { return text; }));
}

/// Every bare length and mass of a text in millimetres with its unit, and the spec in inches, for the same shop, whose
/// sizes stand in for what is not stated; numbers that are counts stay. `length` spells a number of millimetres.
std::string in_inches(const std::string& text, const std::function<std::string(double)>& length) {
  static const std::regex word_or_number(R"re("[^"]*"|#[^\n]*|[A-Za-z_][A-Za-z0-9_.]*|-?[0-9]+(\.[0-9]+)?)re");
  static const std::set<std::string> counts{
      "fitup",       "count",       "points",        "columns",       "level",        "rows",    "dynamic",
      "sling_angle", "thrown.left", "smallest_hole", "smallest_slot", "smallest_web", "pressure"};
  // How hard it is thrown to a side is a number of g.
  static const std::regex thrown(R"re(thrown *= *\{[^}]*\})re");
  std::smatch throw_of;
  const bool throws = std::regex_search(text, throw_of, thrown);
  std::string out;
  std::string key;
  auto last = text.begin();
  for (auto i = std::sregex_iterator(text.begin(), text.end(), word_or_number); i != std::sregex_iterator(); ++i) {
    const std::string found = i->str();
    out.append(last, text.begin() + i->position());
    last = text.begin() + i->position() + i->length();
    const bool number = std::isdigit(static_cast<unsigned char>(found.back())) != 0 &&
                        (std::isdigit(static_cast<unsigned char>(found[0])) != 0 || found[0] == '-');
    if (std::isalpha(static_cast<unsigned char>(found[0])) != 0) key = found;
    const bool of_g =
        throws && i->position() > throw_of.position() && i->position() < throw_of.position() + throw_of.length();
    if (!number || of_g || counts.contains(key)) {
      out += found == "\"mm\"" ? "\"in\"" : found;
    } else if (key == "mass") {
      out += "\"" + found + " kg\"";
    } else {
      out += "\"" + length(std::stod(found)) + "\"";
    }
  }
  out.append(last, text.end());
  return text.find("\nshop ") != std::string::npos ? out : "shop = \"metric\"\n" + out;
}

TEST_P(EachCase, SaysTheSameWhateverUnitsItsNumbersAreSpelledIn) {
  const auto as_it_is = messages([](std::string text) { return text; });
  const auto in_mm = [](double mm) { return fmt::format("{} mm", mm); };
  const auto in_in = [](double mm) { return fmt::format("{:.9f} in", mm / 25.4); };
  EXPECT_EQ(messages([&](const std::string& text) { return in_inches(text, in_mm); }), as_it_is);
  EXPECT_EQ(messages([&](const std::string& text) { return in_inches(text, in_in); }), as_it_is);
}

/// Items keep their own hand: what stands out of one of them to one side is not reflected with the box.
bool has_a_one_sided_item(const std::filesystem::path& folder) {
  const std::string name = folder.filename().string();
  return name == "side-vent-shut" || name == "plug-before-the-cover" || name == "rods-beside-each-other" ||
         name.starts_with("vent-");
}

using Reflected = std::tuple<std::string, Verdict, long, long, long, long>;

/// Check, verdict, amount and place in hundredths of a millimetre, with X counted from the right if `from_right`.
std::vector<Reflected> places(const Plan& plan, bool from_right) {
  std::vector<Reflected> all;
  const auto hundredths = [](double mm) { return std::lround(mm * 100 + 1e-3); };
  for (const Finding& f : not_passed(plan)) {
    const Vec3 at = f.at.value_or(Vec3{});
    // One of four bosses stands for the whole, one of those that are equally near or narrow for all of them.
    // Elements are all of one length.
    const bool elements = f.cause.starts_with("elements of ");
    const bool whole = f.check == "clearance" || f.check == "cut-rules" || elements || !f.at;
    const double from_left = from_right ? plan.frame_size.x - at.x : at.x;
    // Of what stands in a way at the left and as much at the right the first one is named; and so of a bent cover that
    // rides on a member at both of its ends.
    const bool both_ends = f.check == "overlap" && f.parts.size() == 2 && f.parts[0].ends_with(" member front") &&
                           f.parts[1].ends_with(" front cover sheet");
    const bool first = f.check == "insertion" || f.check == "reach" || both_ends;
    const double x = first ? std::min(from_left, plan.frame_size.x - from_left) : from_left;
    all.emplace_back(f.check, f.verdict, hundredths(f.value.value_or(0)), whole ? 0 : hundredths(x),
                     whole ? 0 : hundredths(at.y), hundredths(at.z));
  }
  std::sort(all.begin(), all.end());
  return all;
}

TEST_P(EachCase, IsReflectedInTheOppositeHand) {
  // What was measured belongs to the frame that was measured: the opposite one has none of it.
  if (has_a_one_sided_item(GetParam()) || text_of(spec_).find("[as_built") != std::string::npos) return;
  const auto box = planned(spec_.string(), text_of(spec_));
  const auto other = planned((GetParam() / "other.toml").string(),
                             "fitup = 1\nstart_from = \"spec.toml\"\nopposite_hand = \"left-right\"\n");
  ASSERT_TRUE(box->plan && other->plan);
  EXPECT_EQ(places(*other->plan, true), places(*box->plan, false));
}

INSTANTIATE_TEST_SUITE_P(All, EachCase, testing::ValuesIn(test::case_folders()), [](const auto& tested) {
  std::string name = tested.param.filename().string();
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

using Depths = std::map<std::set<std::string>, double>;

/// How deep each pair of names overlaps; 0 for what enters a space: a thin sheet is freed on its near side too.
Depths depths(const Plan& plan) {
  Depths all;
  std::map<std::string, std::string> names;
  for (const Instance& i : plan.instances) names[plan.parts[i.part].mark + " " + i.name] = i.name;
  for (const Finding& f : not_passed(plan)) {
    if (f.check != "overlap") continue;
    std::set<std::string> pair;
    for (const std::string& part : f.parts) pair.insert(names.contains(part) ? names[part] : part);
    const bool space = f.message.find("enters the space") != std::string::npos;
    double& depth = all[pair];
    depth = std::max(depth, space ? 0 : f.value.value_or(0));
  }
  return all;
}

// What stands in whose way is a matter of the sides: with more room at one of them no pair overlaps that did not, and
// none overlaps deeper.
TEST(Clearances, LargerOnesNeverMakeAnOverlapWorse) {
  std::mt19937 random(20261125);
  const std::vector<std::string> sides{"left", "right", "front", "back", "top"};
  const auto text = text_of(test::sound_box());
  int compared = 0;
  int overlapping = 0;
  for (int round = 0; round < 40; ++round) {
    std::vector<Override> overrides{{"box.main.rod_plates.front", "none"},
                                    {"box.main.rod_plates.back", "none"},
                                    {"box.main.face.front.entry", "false"},
                                    {"item.block.rods.projection", std::to_string(10 + random() % 30)},
                                    {"item.block.keep_clear.1.depth", std::to_string(10 + random() % 60)}};
    std::map<std::string, int> clearance;
    for (const std::string& side : sides) clearance[side] = static_cast<int>(3 + random() % 40);
    const auto planned_with = [&](const std::map<std::string, int>& values) {
      std::vector<Override> all = overrides;
      for (const auto& [side, mm] : values) all.push_back({"box.main.clearance." + side, std::to_string(mm)});
      return planned("sound.toml", text, all);
    };
    const auto before = planned_with(clearance);
    if (!before->plan) continue;
    const Depths were = depths(*before->plan);
    overlapping += were.empty() ? 0 : 1;
    const std::string side = sides[random() % sides.size()];
    clearance[side] += static_cast<int>(1 + random() % 12);
    const auto after = planned_with(clearance);
    if (!after->plan) continue;
    ++compared;
    for (const auto& [pair, depth] : depths(*after->plan)) {
      const std::string what = fmt::format("round {}, {}: {}", round, side, testing::PrintToString(pair));
      const auto was = were.find(pair);
      EXPECT_NE(was, were.end()) << what;
      EXPECT_LE(depth, (was == were.end() ? 0 : was->second) + 1e-3) << what;
    }
  }
  EXPECT_GE(compared, 20);
  EXPECT_GE(overlapping, 10);
}

/// The worst verdict of a check, and the least amount that it measured.
std::pair<int, double> worst_of(const Plan& plan, const std::string& check) {
  std::pair<int, double> worst{0, 1e300};
  for (const Finding& f : check_by_rules(plan).all) {
    if (f.check != check) continue;
    worst.first = std::max(worst.first, f.verdict == Verdict::fail ? 2 : f.verdict == Verdict::marginal ? 1 : 0);
    worst.second = std::min(worst.second, f.value.value_or(1e300));
  }
  return worst;
}

// Blocks, and swollen ones, between the sides: with more room to the left or the right neither the distance that is
// kept to the plates nor what a row leaves becomes less, and no verdict worse.
TEST(Clearances, LargerOnesNeverMakeADistanceOrARowFail) {
  const auto text = text_of(test::sound_box()) + "\n[[keep_apart]]\nwhat = \"block\"\nfrom = \"plates\"\nleast = 12\n";
  for (const int swelling : {0, 5}) {
    for (const std::string side : {"left", "right"}) {
      for (const std::string check : {"clearance", "stack"}) {
        std::pair<int, double> before{2, -1e300};
        for (const int mm : {2, 5, 8, 14}) {
          const auto box = planned(
              "sound.toml", text,
              {{"box.main.clearance." + side, std::to_string(mm)}, {"item.block.swelling", std::to_string(swelling)}});
          ASSERT_TRUE(box->plan);
          const auto now = worst_of(*box->plan, check);
          EXPECT_LE(now.first, before.first) << check << " " << side << " " << mm;
          EXPECT_GE(now.second, before.second - 1e-6) << check << " " << side << " " << mm;
          before = now;
        }
        EXPECT_LT(before.second, 1e300) << check << " said nothing";
      }
    }
  }
}

}  // namespace
}  // namespace fitup
