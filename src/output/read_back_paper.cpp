// Files for the bench against the pages and rows that they were made from.
// Entry: flaw_in_bench_file.

#include <fmt/format.h>

#include <charconv>
#include <cmath>

#include "output/csv.h"
#include "output/read_back.h"

namespace fitup::output {
namespace {

constexpr double mm_per_point = 25.4 / 72;
constexpr double page_mm = 0.01;

std::vector<double> numbers_from(std::string_view text, std::size_t count) {
  std::vector<double> numbers;
  const char* at = text.data();
  const char* end = at + text.size();
  while (numbers.size() < count && at < end) {
    while (at < end && *at == ' ') ++at;
    double value = 0;
    const auto read = std::from_chars(at, end, value);
    if (read.ec != std::errc{}) break;
    numbers.push_back(value);
    at = read.ptr;
  }
  return numbers;
}

/// Each page says its box by itself, in points: "/MediaBox [ 0 0 595.28 841.89 ]".
std::vector<Vec2> pages_in(std::string_view bytes) {
  constexpr std::string_view box = "/MediaBox [";
  std::vector<Vec2> pages;
  for (std::size_t at = bytes.find(box); at != std::string_view::npos; at = bytes.find(box, at + 1)) {
    const auto sides = numbers_from(bytes.substr(at + box.size(), 80), 4);
    if (sides.size() == 4)
      pages.push_back({mm_per_point * (sides[2] - sides[0]), mm_per_point * (sides[3] - sides[1])});
  }
  return pages;
}

Flaw flaw_in_pdf(const std::string& bytes, const BenchFile& wanted, const JobInfo& info) {
  if (!bytes.starts_with("%PDF-") || bytes.rfind("%%EOF") + 8 < bytes.size()) return "it is no complete PDF";
  const auto pages = pages_in(bytes);
  if (pages.size() != wanted.pages_mm.size()) {
    return fmt::format("it has {} pages, {} were expected", pages.size(), wanted.pages_mm.size());
  }
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const Vec2 off = pages[i] - wanted.pages_mm[i];
    if (std::abs(off.x) > page_mm || std::abs(off.y) > page_mm) {
      return fmt::format("page {} is {:.2f} x {:.2f} mm", i + 1, pages[i].x, pages[i].y);
    }
  }
  const std::string said = fmt::format("({} {})", info.name, info.spec_hash);
  if (bytes.find(said) == std::string::npos) return "its properties do not name the job and its spec";
  return std::nullopt;
}

}  // namespace

Flaw flaw_in_bench_file(const std::string& bytes, const BenchFile& wanted, const JobInfo& info) {
  if (wanted.rows.empty()) return flaw_in_pdf(bytes, wanted, info);
  const auto rows = read_csv(bytes);
  if (!rows) return "a quote is not closed";
  if (*rows != wanted.rows) return "its rows are not those that were worked out";
  return std::nullopt;
}

}  // namespace fitup::output
