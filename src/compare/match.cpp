// Parts of two jobs paired: the same shape, its mirror image, the most alike.
// Entry: changes_between.

#include "compare/match.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace fitup::compare {
namespace {

using output::PartLine;
using Lines = std::vector<PartLine>;

/// Parts that would be made and ordered as one are one, however many marks they have.
Lines merged(const Lines& lines) {
  std::map<std::tuple<std::string, std::string, std::string>, PartLine> by_shape;
  for (const PartLine& line : lines) {
    const auto [found, fresh] = by_shape.try_emplace({line.source, line.role, line.shape}, line);
    if (fresh) continue;
    PartLine& one = found->second;
    one.mark += " + " + line.mark;
    one.quantity += line.quantity;
    one.places = std::min(one.places, line.places) + std::max(one.places, line.places);
    if (one.name != line.name) one.name = line.role;
  }
  Lines out;
  for (auto& [key, line] : by_shape) out.push_back(std::move(line));
  return out;
}

bool of_one_role(const PartLine& a, const PartLine& b) { return a.source == b.source && a.role == b.role; }

bool is_other_hand(const PartLine& a, const PartLine& b) {
  return a.shape == b.mirrored || a.shape == b.mirrored_across || b.shape == a.mirrored_across;
}

std::optional<ChangeKind> change_of_same(const PartLine& a, const PartLine& b) {
  if (a.quantity != b.quantity) return ChangeKind::count;
  if (a.places != b.places) return ChangeKind::elsewhere;
  return std::nullopt;
}

class Matcher {
 public:
  Matcher(const Lines& a, const Lines& b) : a_(merged(a)), b_(merged(b)) {}

  std::vector<Change> changes() {
    pair_all([](const PartLine& a, const PartLine& b) { return a.shape == b.shape; }, change_of_same);
    pair_all(is_other_hand, [](const PartLine&, const PartLine&) { return std::optional(ChangeKind::other_hand); });
    pair_the_most_alike();
    for (PartLine& line : a_) changes_.push_back({ChangeKind::gone, std::move(line), std::nullopt});
    for (PartLine& line : b_) changes_.push_back({ChangeKind::added, std::nullopt, std::move(line)});
    return std::move(changes_);
  }

 private:
  template <class Fits, class KindOf>
  void pair_all(Fits fits, KindOf kind_of) {
    for (std::size_t i = 0; i < a_.size();) {
      const auto other = std::find_if(
          b_.begin(), b_.end(), [&](const PartLine& line) { return of_one_role(a_[i], line) && fits(a_[i], line); });
      if (other == b_.end()) {
        ++i;
        continue;
      }
      take(i, static_cast<std::size_t>(other - b_.begin()), kind_of(a_[i], *other));
    }
  }

  void take(std::size_t i, std::size_t k, std::optional<ChangeKind> kind) {
    if (kind) changes_.push_back({*kind, a_[i], b_[k]});
    a_.erase(a_.begin() + static_cast<std::ptrdiff_t>(i));
    b_.erase(b_.begin() + static_cast<std::ptrdiff_t>(k));
  }

  struct Candidate {
    double unlike = 0;
    std::pair<std::string, std::string> tie;  // the same for both orders of the sides
    std::size_t i = 0;
    std::size_t k = 0;
  };

  [[nodiscard]] std::vector<Candidate> candidates() const {
    constexpr double too_unlike = 3;
    std::vector<Candidate> out;
    for (std::size_t i = 0; i < a_.size(); ++i) {
      for (std::size_t k = 0; k < b_.size(); ++k) {
        if (!of_one_role(a_[i], b_[k])) continue;
        const double unlike = unlikeness(a_[i], b_[k]);
        if (unlike > too_unlike) continue;
        out.push_back({unlike, std::minmax({a_[i].mark + a_[i].shape, b_[k].mark + b_[k].shape}), i, k});
      }
    }
    std::sort(out.begin(), out.end(), [](const Candidate& x, const Candidate& y) {
      return std::tie(x.unlike, x.tie) < std::tie(y.unlike, y.tie);
    });
    return out;
  }

  void pair_the_most_alike() {
    std::vector<bool> used_a(a_.size());
    std::vector<bool> used_b(b_.size());
    for (const Candidate& pair : candidates()) {
      if (used_a[pair.i] || used_b[pair.k]) continue;
      used_a[pair.i] = used_b[pair.k] = true;
      changes_.push_back({ChangeKind::changed, a_[pair.i], b_[pair.k]});
    }
    remove(a_, used_a);
    remove(b_, used_b);
  }

  static void remove(Lines& lines, const std::vector<bool>& used) {
    Lines left;
    for (std::size_t i = 0; i < lines.size(); ++i) {
      if (!used[i]) left.push_back(std::move(lines[i]));
    }
    lines = std::move(left);
  }

  Lines a_;
  Lines b_;
  std::vector<Change> changes_;
};

}  // namespace

double unlikeness(const PartLine& a, const PartLine& b) {
  double sum = 0;
  if (a.outline != b.outline) sum += 0.1;
  if (a.name != b.name) sum += 2;
  if (a.material != b.material) sum += 0.5;
  if (a.section != b.section) sum += 0.5;
  double sizes = 0;
  for (std::size_t i = 0; i < a.size_mm.size(); ++i) {
    const double larger = std::max(a.size_mm[i], b.size_mm[i]);
    if (larger > 0) sizes += std::abs(a.size_mm[i] - b.size_mm[i]) / larger;
  }
  // Of another name they must be about as large.
  return sum + (a.name == b.name ? 0.5 : 2) * sizes;
}

std::vector<Change> changes_between(const Lines& a, const Lines& b) { return Matcher(a, b).changes(); }

}  // namespace fitup::compare
