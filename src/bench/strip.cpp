// Frame and title strip of every page.
// Entry: strip_height_mm, add_strips.

#include "bench/strip.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/text.h"

namespace fitup::bench {
namespace {

constexpr double pad_mm = 1.5;
constexpr double name_part = 0.6;  // of the strip's width: paper and title; beside it job and page
constexpr double line_mm = text_mm * line_height;

struct Words {
  std::vector<std::string> name;
  std::vector<std::string> title;
  std::vector<std::string> job;
  std::vector<std::string> page;
  std::vector<std::string> warning;

  [[nodiscard]] double height_mm() const {
    const double left =
        head_mm * line_height * static_cast<double>(name.size()) + line_mm * static_cast<double>(title.size());
    const double right = line_mm * static_cast<double>(job.size() + page.size() + warning.size());
    return std::max(left, right) + 2 * pad_mm;
  }
};

Page blank(PaperFormat format, bool landscape) {
  Page page;
  page.format = format;
  page.landscape = landscape;
  return page;
}

Words words_for(const Page& page, const JobInfo& info, const std::string& name, const std::string& which,
                const Type& type) {
  const double width = frame_of(page).size().x;
  const double left = name_part * width - 2 * pad_mm;
  const double right = (1 - name_part) * width - 2 * pad_mm;
  Words words;
  words.name = type.wrapped(name, head_mm, true, left);
  words.title = type.wrapped(info.title.empty() ? info.name : info.title, text_mm, false, left);
  words.job = type.wrapped(fmt::format("{}, revision {}", info.name, info.revision), text_mm, true, right);
  words.page =
      type.wrapped(fmt::format("spec {}, {}", output::short_hash(info.spec_hash), which), text_mm, false, right);
  if (!info.warning.empty()) words.warning = type.wrapped(info.warning, text_mm, true, right);
  return words;
}

std::string which_page(const Page& page, std::size_t number, std::size_t count) {
  const std::string scale = page.scale.empty() ? "" : fmt::format(", scale {}", page.scale);
  return fmt::format("page {} of {}, {}{}", number, count, size_of(page.format).name, scale);
}

void add_strip(Page& page, const Words& words, const Type& type) {
  const Box2 frame = frame_of(page);
  page.rectangle(frame, wide_mm);
  const double top = frame.high.y - words.height_mm();
  const double middle = frame.low.x + name_part * frame.size().x;
  page.line({frame.low.x, top}, {frame.high.x, top}, wide_mm);
  page.line({middle, top}, {middle, frame.high.y});
  double y = top + pad_mm;
  const auto put = [&](const std::vector<std::string>& lines, double x, double size_mm, bool bold) {
    for (const std::string& line : lines) {
      page.labels.push_back(type.label({x, y + size_mm}, line, size_mm, Anchor::left, bold));
      y += size_mm * line_height;
    }
  };
  put(words.name, frame.low.x + pad_mm, head_mm, true);
  put(words.title, frame.low.x + pad_mm, text_mm, false);
  y = top + pad_mm;
  put(words.job, middle + pad_mm, text_mm, true);
  put(words.page, middle + pad_mm, text_mm, false);
  put(words.warning, middle + pad_mm, text_mm, true);
}

}  // namespace

double strip_height_mm(const JobInfo& info, const std::string& paper_name, const Type& type, PaperFormat format,
                       bool landscape) {
  // The longest that scale and number of a page may come to.
  Page longest = blank(format, landscape);
  longest.scale = "1:100";
  return words_for(longest, info, paper_name, which_page(longest, 9999, 9999), type).height_mm();
}

void add_strips(Paper& paper, const JobInfo& info, const Type& type) {
  for (std::size_t i = 0; i < paper.pages.size(); ++i) {
    Page& page = paper.pages[i];
    add_strip(page, words_for(page, info, paper.name, which_page(page, i + 1, paper.pages.size()), type), type);
  }
}

}  // namespace fitup::bench
