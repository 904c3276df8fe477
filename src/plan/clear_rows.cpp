// Rows of screws by rule, moved out of gaps that a trial has found.
// Entry: add_row_gap, wish_for_gap, out_of_gaps.
#include "plan/clear_rows.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "fitup/tolerances.h"
#include "plan/holes.h"

namespace fitup::plan {

namespace {

constexpr std::size_t most_more = 8;  // screws that a row may get

struct Span {
  double low = 0;
  double high = 0;
};
using Spans = std::vector<Span>;

Spans united(Spans spans) {
  std::sort(spans.begin(), spans.end(), [](const Span& a, const Span& b) { return a.low < b.low; });
  Spans out;
  for (const Span& span : spans) {
    if (!out.empty() && span.low <= out.back().high) {
      out.back().high = std::max(out.back().high, span.high);
    } else {
      out.push_back(span);
    }
  }
  return out;
}

// The nearest place outside of the gaps and within the row; of two that are as near the one further from the row's
// middle, so that a row stays symmetrical. From the very middle there is none.
std::optional<double> nearest_free(const Spans& gaps, const Span& row, double at) {
  for (const Span& gap : gaps) {
    if (at <= gap.low + tolerance::contact_mm || at >= gap.high - tolerance::contact_mm) continue;
    const bool below = gap.low >= row.low - tolerance::contact_mm;
    const bool above = gap.high <= row.high + tolerance::contact_mm;
    if (!below || !above) return below ? std::optional(gap.low) : above ? std::optional(gap.high) : std::nullopt;
    const double nearer_below = (gap.high - at) - (at - gap.low);
    if (std::abs(nearer_below) > tolerance::contact_mm) return nearer_below > 0 ? gap.low : gap.high;
    const double off_middle = at - (row.low + row.high) / 2;
    if (std::abs(off_middle) <= tolerance::contact_mm) return std::nullopt;
    return off_middle < 0 ? gap.low : gap.high;
  }
  return at;
}

bool steps_within(const std::vector<double>& places, double least, double most) {
  for (std::size_t i = 1; i < places.size(); ++i) {
    const double step = places[i] - places[i - 1];
    if (step < least - tolerance::contact_mm || step > most + tolerance::contact_mm) return false;
  }
  return true;
}

std::optional<std::vector<double>> moved(const Spans& gaps, const Span& row, std::size_t count, double apart,
                                         double spacing) {
  std::vector<double> places;
  for (std::size_t i = 0; i < count; ++i) {
    const double even = count == 1
                            ? (row.low + row.high) / 2
                            : row.low + (row.high - row.low) * static_cast<double>(i) / static_cast<double>(count - 1);
    const auto at = nearest_free(gaps, row, even);
    if (!at) return std::nullopt;
    if (places.empty() || *at - places.back() > tolerance::contact_mm) places.push_back(*at);
  }
  if (!steps_within(places, apart, spacing)) return std::nullopt;
  return places;
}

std::vector<double> in_pieces(const Spans& gaps, const Span& row, double apart, double spacing) {
  std::vector<double> places;
  double from = row.low;
  const auto add = [&](double low, double high) {
    if (high < low) return;
    for (const double at : spread(low, high, spacing)) {
      if (places.empty() || at - places.back() >= apart - tolerance::contact_mm) places.push_back(at);
    }
  };
  for (const Span& gap : gaps) {
    add(from, std::min(gap.low, row.high));
    from = std::max(from, gap.high);
  }
  add(from, row.high);
  return places;
}

}  // namespace

Box3 box_around(const Draft& draft, InstanceId id) {
  Box3 out;
  for (const Prism& prism : body_of(draft.part(id)).outer) {
    const Box3 box = Prism{prism.profile, draft.instance(id).pose * prism.pose, prism.length_mm}.bounds();
    out.add(box.low);
    out.add(box.high);
  }
  return out;
}

std::string row_of(const Draft& draft, InstanceId screw) {
  const std::string& name = draft.instance(screw).name;
  return name.substr(0, name.rfind(' '));
}

void add_row_gap(Build& build, const RowGap& wanted) {
  const auto same = [&](const RowGap& gap) {
    return gap.row == wanted.row && std::abs(gap.from - wanted.from) < tolerance::contact_mm &&
           std::abs(gap.to - wanted.to) < tolerance::contact_mm;
  };
  if (std::none_of(build.row_gaps.begin(), build.row_gaps.end(), same)) build.row_gaps.push_back(wanted);
}

void wish_for_gap(Build& build, InstanceId screw, double from, double to) {
  add_row_gap(build, {row_of(build.draft, screw), from, to});
}

std::vector<double> out_of_gaps(const std::vector<RowGap>& gaps, const std::string& row,
                                const std::vector<double>& by_rule, double apart_mm, double spacing_mm) {
  if (by_rule.empty()) return by_rule;
  const Span ends{by_rule.front(), by_rule.back()};
  Spans own;
  Spans both;
  for (const RowGap& gap : gaps) {
    if (gap.row != row) continue;
    own.push_back({gap.from, gap.to});
    both.push_back({gap.from, gap.to});
    both.push_back({ends.low + ends.high - gap.to, ends.low + ends.high - gap.from});
  }
  if (own.empty()) return by_rule;
  own = united(own);
  both = united(both);
  for (const Spans& wanted : {both, own}) {
    for (std::size_t more = 0; more <= most_more; ++more) {
      const auto places = moved(wanted, ends, by_rule.size() + more, apart_mm, spacing_mm);
      if (places && !places->empty()) return *places;
    }
  }
  const auto pieces = in_pieces(own, ends, apart_mm, spacing_mm);
  return pieces.empty() ? by_rule : pieces;
}

}  // namespace fitup::plan
