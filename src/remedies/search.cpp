// Strides away from what stands in the spec until the finding is gone, then halves the way back, or tries all of it.
// Entry: mend_with.
#include "remedies/search.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <set>

namespace fitup::remedies {

namespace {

// Doublings of the first stride: few where the measured amount says how far it is, more where it may have to go round
// something, or nothing says how far.
constexpr int strides_if_measured = 3;
constexpr int strides_if_sideways = 5;
constexpr int strides_if_not = 6;
// Steps beyond the least that mends this finding, if another check fails there: 0.2 mm more than touching is no
// contact.
constexpr int more_steps = 2;
constexpr double same_mm = 1e-3;

/// One knob turned one way.
class Way {
 public:
  Way(const Knob& knob, const Finding& finding, const Concerned& what, Trials& trials, int direction)
      : knob_(knob), finding_(finding), what_(what), trials_(trials), direction_(direction) {}

  /// `farthest`: no rung beyond is of interest.
  std::optional<Mended> mend(int farthest) {
    const auto high = first_that_passes(farthest);
    if (!high) return std::nullopt;
    const int least = knob_.scattered ? first_of_all(*high) : halved(*high);
    for (int more = 0; more <= more_steps && std::abs(least) + more <= farthest; ++more) {
      const int rung = least + direction_ * more;
      const auto value = knob_.value(rung);
      if (!value || trials_.spent()) return std::nullopt;
      if (!passes(rung)) {
        if (knob_.scattered) continue;
        return std::nullopt;
      }
      Whole whole = trials_.whole(knob_.key, *value, what_);
      if (whole.worse && why_not_.empty() && !whole.worse_check.empty()) {
        why_not_ = fmt::format("with {} it would be mended, but the check {} fails then", *value, whole.worse_check);
      }
      if (!whole.worse) return Mended{{knob_.key, *value, std::move(whole.marginal)}, knob_.change_mm(rung)};
    }
    return std::nullopt;
  }

  /// Of a way that does not mend it.
  [[nodiscard]] const std::string& why_not() const { return why_not_; }

  /// The amount did not change at all: the knob has nothing to do with it.
  [[nodiscard]] bool has_no_effect() const { return no_effect_; }

 private:
  [[nodiscard]] bool passes(int rung) {
    const auto value = knob_.value(rung);
    return value && trials_.look(knob_.key, *value, what_).passes;
  }

  /// Also sets low_, the last rung that does not pass.
  std::optional<int> first_that_passes(int farthest) {
    const bool measured = finding_.value && finding_.unit == "mm" && *finding_.value > 0;
    int stride = std::abs(rung_at(knob_, measured ? over_mm() : 0, direction_));
    const int strides = !measured ? strides_if_not : knob_.sideways ? strides_if_sideways : strides_if_measured;
    for (int i = 0; i < strides && stride <= farthest; ++i, stride *= 2) {
      const int rung = direction_ * stride;
      const auto value = knob_.value(rung);
      if (!value || trials_.spent()) return std::nullopt;
      const Look look = trials_.look(knob_.key, *value, what_);
      if (look.passes) return rung;
      if (!look.planned) return before_refusal(rung, look);
      if (is_hopeless(look)) return std::nullopt;
      low_ = rung;
      failed_.insert(rung);
    }
    return std::nullopt;
  }

  /// Where it is no matter of more or less: the nearest that passes, of all before that one.
  int first_of_all(int high) {
    for (int rung = direction_; rung != high && !trials_.spent(); rung += direction_) {
      if (!failed_.contains(rung) && passes(rung)) return rung;
    }
    return high;
  }

  /// Between the last rung that the spec takes and the first that it refuses.
  std::optional<int> before_refusal(int refused, const Look& refusal) {
    if (!refusal.refused.empty()) why_not_ = fmt::format("with {}: {}", *knob_.value(refused), refusal.refused);
    while (std::abs(refused - low_) > 1 && !trials_.spent()) {
      const int middle = (low_ + refused) / 2;
      const auto value = knob_.value(middle);
      const Look look = value ? trials_.look(knob_.key, *value, what_) : Look{};
      if (look.passes) return middle;
      (look.planned ? low_ : refused) = middle;
      if (!look.planned && value && !look.refused.empty()) why_not_ = fmt::format("with {}: {}", *value, look.refused);
    }
    return std::nullopt;
  }

  /// How much too much the finding measures.
  [[nodiscard]] double over_mm() const {
    return std::max(0.0, std::abs(*finding_.value - finding_.limit.value_or(0)) - same_mm);
  }

  bool is_hopeless(const Look& look) {
    if (!look.worst || !finding_.value || finding_.unit == "%") return false;
    no_effect_ = !knob_.sideways && std::abs(*look.worst - *finding_.value) < same_mm;
    return no_effect_ || (finding_.check == "overlap" && *look.worst > *finding_.value + same_mm);
  }

  int halved(int high) {
    int low = low_;
    if (std::abs(high) - std::abs(low) > 1 && !passes(high - direction_)) return high;
    while (std::abs(high - low) > 1 && !trials_.spent()) {
      const int middle = (low + high) / 2;
      (passes(middle) ? high : low) = middle;
    }
    return high;
  }

  const Knob& knob_;
  const Finding& finding_;
  const Concerned& what_;
  Trials& trials_;
  int direction_;
  int low_ = 0;
  std::set<int> failed_;
  bool no_effect_ = false;
  std::string why_not_;
};

}  // namespace

Tried mend_with(const Knob& knob, const Finding& finding, const Concerned& what, Trials& trials) {
  constexpr int far = 1000;
  Way up(knob, finding, what, trials, 1);
  auto above = up.mend(far);
  if (up.has_no_effect()) return {above, up.why_not()};
  const int nearer = above ? std::max(0, -rung_at(knob, std::abs(above->change_mm), -1) - 1) : far;
  auto below = Way(knob, finding, what, trials, -1).mend(nearer);
  if (!below) return {above, up.why_not()};
  return {above && std::abs(above->change_mm) <= std::abs(below->change_mm) ? above : below};
}

}  // namespace fitup::remedies
