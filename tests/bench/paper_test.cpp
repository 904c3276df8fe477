// Pages: nothing is lost, nothing overlaps, every page says which job it belongs to; judged by poppler too.
// Entry: gtest.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>

#include "bench/flow.h"
#include "bench/pdf.h"
#include "bench/sound_paper.h"
#include "bench/strip.h"
#include "output/sample.h"

namespace fitup::bench {
namespace {

using testing::HasSubstr;

const std::string long_title =
    "Front battery box, park locomotive, with a title that is far too long for one line of the strip and goes on";

/// 60 rows, some of them long, as a paper.
Paper table_paper(const JobInfo& info, const Type& type, PaperFormat format, bool landscape) {
  Paper paper;
  paper.name = "Sample list";
  Flow flow(paper, type, format, landscape, strip_height_mm(info, paper.name, type, format, landscape));
  flow.heading("What is listed");
  Table table{{{"mark"}, {"what", Anchor::left}, {"length mm", Anchor::right}}, {}};
  for (int i = 0; i < 60; ++i) {
    Row row{{"M" + std::to_string(i), i % 7 == 0 ? long_title + long_title : "a part", std::to_string(100 * i)}, {}};
    if (i % 5 == 0) row.below.emplace_back("holes", long_title + " " + long_title);
    table.rows.push_back(row);
  }
  flow.table(table);
  add_strips(paper, info, type);
  return paper;
}

TEST(Paper, ATableRunsOverPagesWithItsHeadOnEach) {
  const Type type;
  JobInfo info = sample::info();
  info.title = long_title + " " + long_title;
  for (const SheetSize& sheet : sheet_sizes) {
    for (const bool landscape : {false, true}) {
      const Paper paper = table_paper(info, type, sheet.format, landscape);
      ASSERT_GT(paper.pages.size(), 1U);
      expect_inside_and_apart(paper);
      std::size_t marks = 0;
      for (const Page& page : paper.pages) {
        const auto heads = std::count_if(page.labels.begin(), page.labels.end(),
                                         [](const Label& l) { return l.bold && l.words == "mark"; });
        EXPECT_EQ(heads, 1) << sheet.name;
        for (const Label& l : page.labels) marks += l.words.starts_with("M") && l.words.size() <= 3 ? 1 : 0;
      }
      EXPECT_EQ(marks, 60U);
    }
  }
}

TEST(Paper, ARowThatIsLongerThanAPageGoesOnOnTheNext) {
  const Type type;
  const JobInfo info = sample::info();
  std::string words;
  for (int i = 0; i < 900; ++i) words += "w" + std::to_string(i) + " ";
  Paper paper;
  paper.name = "One row";
  Flow flow(paper, type, PaperFormat::a4, true, strip_height_mm(info, paper.name, type, PaperFormat::a4, true));
  flow.table({{{"mark"}, {"what"}}, {{{"M", words}, {}}}});
  add_strips(paper, info, type);
  ASSERT_GT(paper.pages.size(), 1U);
  expect_inside_and_apart(paper);
  std::string all;
  for (const Page& page : paper.pages) {
    for (const Label& label : page.labels) all += label.words + " ";
  }
  for (int i = 0; i < 900; ++i) EXPECT_THAT(all, HasSubstr("w" + std::to_string(i) + " "));
}

TEST(Paper, AWordThatIsTooWideIsBrokenAndKeptWhole) {
  const Type type;
  const std::string word = "Donaudampfschifffahrtselektrizitaetenhauptbetriebswerkbauunterbeamtengesellschaft";
  const auto lines = type.wrapped(word, text_mm, false, 30);
  ASSERT_GT(lines.size(), 2U);
  std::string together;
  for (const std::string& line : lines) {
    EXPECT_LE(type.width_mm(line, text_mm), 30.001);
    together += line;
  }
  EXPECT_EQ(together, word);
}

class Printed : public testing::Test {
 protected:
  /// What poppler's program says of the paper as a file.
  std::string poppler(const Paper& paper, const JobInfo& info, const std::string& command) {
    const auto bytes = write_pdf(paper, info, type_);
    EXPECT_TRUE(bytes);
    if (!bytes) return {};
    sample::write(folder_.path() / "paper.pdf", *bytes);
    return sample::run("cd " + folder_.path().string() + " && " + command).output;
  }
  const Type type_;
  const sample::Folder folder_;
};

// A4 and A3: ISO 216. Letter 8 1/2 x 11 and tabloid 11 x 17 inches: ANSI/ASME Y14.1. In points of 1/72 inch.
TEST_F(Printed, PagesHaveTheSizeOfTheirSheet) {
  const std::array<std::string, 4> wanted{"841.89 x 595.276", "1190.55 x 841.89", "792 x 612", "1224 x 792"};
  for (const SheetSize& sheet : sheet_sizes) {
    const Paper paper = table_paper(sample::info(), type_, sheet.format, true);
    EXPECT_THAT(poppler(paper, sample::info(), "pdfinfo paper.pdf"),
                HasSubstr("Page size:       " + wanted.at(static_cast<std::size_t>(sheet.format)) + " pts"));
  }
}

TEST_F(Printed, EveryPageSaysJobRevisionAndSpec) {
  const Paper paper = table_paper(sample::info(), type_, PaperFormat::a4, false);
  for (std::size_t i = 1; i <= paper.pages.size(); ++i) {
    const std::string number = std::to_string(i);
    const std::string text =
        poppler(paper, sample::info(), "pdftotext -layout -f " + number + " -l " + number + " paper.pdf -");
    EXPECT_THAT(text, HasSubstr("small-box, revision B"));
    EXPECT_THAT(text, HasSubstr("spec aaaaaaaaaaaa"));
    EXPECT_THAT(text, HasSubstr("page " + number + " of " + std::to_string(paper.pages.size())));
  }
}

TEST_F(Printed, TitlesInOtherScriptsPrint) {
  for (const std::string title : {"Μπαταρία μπροστά", "Передний ящик батарей", "前部電池箱", "აკუმულატორის ყუთი"}) {
    JobInfo info = sample::info();
    info.title = title;
    const Paper paper = table_paper(info, type_, PaperFormat::a4, true);
    EXPECT_THAT(poppler(paper, info, "pdftotext -f 1 -l 1 paper.pdf -"), HasSubstr(title));
  }
}

TEST_F(Printed, TheSamePaperIsTheSameBytes) {
  const Paper paper = table_paper(sample::info(), type_, PaperFormat::a4, true);
  const auto one = write_pdf(paper, sample::info(), type_);
  const Type another;
  const auto two = write_pdf(table_paper(sample::info(), another, PaperFormat::a4, true), sample::info(), another);
  ASSERT_TRUE(one && two);
  EXPECT_TRUE(*one == *two);
}

}  // namespace
}  // namespace fitup::bench
