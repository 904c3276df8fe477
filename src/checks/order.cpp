// Order of findings, numbers in words.
// Entry: sort_worst_first.
#include "checks/order.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace fitup::checks {

namespace {

int rank(Verdict v) {
  switch (v) {
    case Verdict::fail: return 0;
    case Verdict::marginal: return 1;
    case Verdict::not_checked: return 2;
    case Verdict::pass: return 3;
  }
  return 4;
}

// What is left, not what is too much.
bool less_is_worse(const std::string& check) { return check == "seating" || check == "hole-fit" || check == "stack"; }

}  // namespace

void sort_worst_first(std::vector<Finding>& findings) {
  // Values are compared to a thousandth, so that the last bit does not decide the order.
  const auto coarse = [](const Finding& f) {
    if (!f.value) return -1LL;
    return std::llround((less_is_worse(f.check) ? -*f.value : *f.value) * 1000);
  };
  std::stable_sort(findings.begin(), findings.end(), [&](const Finding& a, const Finding& b) {
    if (rank(a.verdict) != rank(b.verdict)) return rank(a.verdict) < rank(b.verdict);
    return coarse(a) > coarse(b);
  });
}

std::string grouped(std::size_t n) {
  std::string digits = std::to_string(n);
  for (std::size_t i = digits.size(); i > 3; i -= 3) digits.insert(i - 3, ",");
  return digits;
}

std::string length_text(double mm) {
  const double size = std::abs(mm);
  if (size >= 0.1) return fmt::format("{:.2f}", mm);
  return size >= 0.01 ? fmt::format("{:.3f}", mm) : fmt::format("{:.4f}", mm);
}

}  // namespace fitup::checks
