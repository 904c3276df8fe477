// Which parts of two jobs are the same, which became another, and what each job comes to.
// Entry: compared.

#include "compare/comparison.h"

#include <algorithm>
#include <cmath>

#include "compare/costs.h"
#include "compare/match.h"

namespace fitup::compare {
namespace {

using output::PartLine;

int rank(const std::string& source) {
  for (const Source known : {Source::cut, Source::sawn, Source::bought, Source::stand_in, Source::printed}) {
    if (source == to_text(known)) return static_cast<int>(known);
  }
  return -1;
}

/// The same for both orders of the sides.
std::array<std::string, 4> order_of(const Change& change) {
  const PartLine& x = change.a ? *change.a : *change.b;
  const PartLine& y = change.b ? *change.b : *change.a;
  const auto [first, last] = std::minmax(x.mark, y.mark);
  const auto [low, high] = std::minmax(x.shape, y.shape);
  return {first, last, low, high};
}

bool comes_before(const Change& x, const Change& y) {
  const auto source = [](const Change& c) { return rank((c.a ? c.a : c.b)->source); };
  if (source(x) != source(y)) return source(x) < source(y);
  return order_of(x) < order_of(y);
}

bool is_made(const PartLine& line) {
  return line.source == to_text(Source::cut) || line.source == to_text(Source::sawn);
}
bool is_of(const PartLine& line, Source source) { return line.source == to_text(source); }

/// Sums over the lines of both sides.
class Sums {
 public:
  Sums(const Side& a, const Side& b) : a_(a), b_(b) {}

  template <class Of>
  void add(const char* key, const char* what, Measure measure, Of of) {
    Total total{key, what, measure};
    for (const PartLine& line : a_.parts.parts) total.a += of(line);
    for (const PartLine& line : b_.parts.parts) total.b += of(line);
    totals.push_back(total);
  }
  /// So many of each piece.
  template <class Of>
  void add_pieces(const char* key, const char* what, Measure measure, Of of) {
    add(key, what, measure, [of](const PartLine& l) { return static_cast<double>(l.quantity) * of(l); });
  }
  void add_seams(const char* key, const char* what, Measure measure, double (*of)(const output::SeamTotals&)) {
    totals.push_back({key, what, measure, of(a_.parts.seams), of(b_.parts.seams)});
  }

  std::vector<Total> totals;

 private:
  const Side& a_;
  const Side& b_;
};

void add_parts(Sums& sums) {
  const auto one_if = [](bool counts) { return counts ? 1.0 : 0.0; };
  sums.add("kinds_to_make", "kinds of parts to make", Measure::count,
           [&](const auto& l) { return one_if(is_made(l)); });
  sums.add_pieces("parts_to_make", "parts to make", Measure::count, [&](const auto& l) { return one_if(is_made(l)); });
  sums.add_pieces("mass_to_make_kg", "mass to make", Measure::mass,
                  [](const auto& l) { return is_made(l) ? l.mass_kg : 0; });
  sums.add_pieces("mass_kg", "mass of the whole", Measure::mass,
                  [](const auto& l) { return is_of(l, Source::printed) || !l.in_model ? 0 : l.mass_kg; });
  sums.add_pieces("cut_mm", "cut length", Measure::length, [](const auto& l) { return l.cut_mm; });
  sums.add_pieces("piercings", "piercings", Measure::count,
                  [](const auto& l) { return static_cast<double>(l.piercings); });
  sums.add_pieces("sawn_mm", "sawn bar", Measure::length, [](const auto& l) { return l.sawn_mm; });
}

void add_others(Sums& sums) {
  for (const auto& [key, what, source] : {std::tuple{"bought_parts", "bought parts", Source::bought},
                                          {"items", "items", Source::stand_in},
                                          {"printed_parts", "printed aids", Source::printed}}) {
    const Source wanted = source;
    sums.add_pieces(key, what, Measure::count, [wanted](const auto& l) { return is_of(l, wanted) ? 1.0 : 0.0; });
  }
}

std::vector<Total> totals_of(const Side& a, const Side& b) {
  using output::SeamTotals;
  Sums sums(a, b);
  add_parts(sums);
  sums.add_seams("seams_mm", "weld seams", Measure::length,
                 [](const SeamTotals& s) { return s.laid_mm + s.ground_flush_mm; });
  sums.add_seams("ground_flush_mm", "of these ground flush", Measure::length,
                 [](const SeamTotals& s) { return s.ground_flush_mm; });
  sums.add_seams("left_free_mm", "seams left free", Measure::length,
                 [](const SeamTotals& s) { return s.left_free_mm; });
  sums.add_seams("seams_not_worked_out", "joints whose seams are not worked out", Measure::count,
                 [](const SeamTotals& s) { return static_cast<double>(s.not_worked_out); });
  add_others(sums);
  for (const Total& cost : costs_of(a, b)) sums.totals.push_back(cost);
  return sums.totals;
}

}  // namespace

std::string_view to_text(ChangeKind kind) {
  switch (kind) {
    case ChangeKind::changed: return "changed";
    case ChangeKind::other_hand: return "other hand";
    case ChangeKind::count: return "count";
    case ChangeKind::gone: return "gone";
    case ChangeKind::added: return "added";
    case ChangeKind::elsewhere: return "elsewhere";
  }
  return "changed";
}

// Sums of the same terms in another order differ by rounding alone.
bool Total::differs() const { return std::abs(a - b) > 1e-9 * std::max({1.0, std::abs(a), std::abs(b)}); }

bool Comparison::nothing_differs() const {
  return changes.empty() && !sizes_differ && !finish_differs &&
         std::none_of(totals.begin(), totals.end(), [](const Total& total) { return total.differs(); });
}

bool Comparison::opposite_hands() const {
  bool some = false;
  for (const Change& change : changes) {
    if (change.kind != ChangeKind::other_hand && change.kind != ChangeKind::elsewhere) return false;
    const bool as_many = change.a->quantity == change.b->quantity;
    if (!as_many) return false;
    some = some || change.kind == ChangeKind::other_hand;
  }
  return some && !sizes_differ && !finish_differs;
}

Comparison compared(const Side& a, const Side& b) {
  Comparison out;
  out.changes = changes_between(a.parts.parts, b.parts.parts);
  std::sort(out.changes.begin(), out.changes.end(), comes_before);
  out.totals = totals_of(a, b);
  out.sizes_differ = a.sizes != b.sizes;
  out.finish_differs = a.finish != b.finish;
  return out;
}

}  // namespace fitup::compare
