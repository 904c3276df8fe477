// Two bodies: every prism of one against every prism of the other, bores and threads taken into account.
// Entry: decide(body, body).
#include <algorithm>
#include <iterator>

#include "checks/bores.h"
#include "checks/rules.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr double band = tolerance::contact_mm;

Decision decide_pieces(const PlacedPrism& p, const PlacedPrism& q, const PairOptions& options) {
  if (options.thread_major_mm <= 0 || p.axis < 0 || q.axis < 0) return decide(p, q, options.rules);
  return decide(opened_for_thread(p, q, options.thread_major_mm), opened_for_thread(q, p, options.thread_major_mm),
                options.rules);
}

// An overlap or a touch of two prisms, weighed against the bores of both bodies.
Decision weighed(Decision d, const PlacedPrism& p, const Stack& a, const PlacedPrism& q, const Stack& b,
                 const Rules& rules) {
  if (d == Decision::overlap) {
    const bool sure = overlaps_beside_bores(p, a.bores, q, rules) && overlaps_beside_bores(q, b.bores, p, rules);
    return sure ? Decision::overlap : Decision::unsure;
  }
  if (d == Decision::touch && (may_stand_in_a_bore(q, a.bores) || may_stand_in_a_bore(p, b.bores))) {
    return Decision::unsure;
  }
  return d;
}

// What has been seen so far of two stacks that do not overlap yet.
struct Seen {
  bool touch = false;
  bool unsure = false;
  [[nodiscard]] Decision decision() const {
    if (unsure) return Decision::unsure;
    return touch ? Decision::touch : Decision::clear;
  }
};

// One piece of a's prisms against all that is left of b's; true where they overlap for sure.
bool meets(const PlacedPrism& p, const Stack& a, const std::vector<PlacedPrism>& pieces_of_b, const Stack& b,
           const PairOptions& options, Seen& seen) {
  for (const PlacedPrism& q : pieces_of_b) {
    const Decision d = weighed(decide_pieces(p, q, options), p, a, q, b, options.rules);
    if (d == Decision::overlap) return true;
    seen.touch = seen.touch || d == Decision::touch;
    seen.unsure = seen.unsure || d == Decision::unsure;
  }
  return false;
}

std::vector<PlacedPrism> pieces_outside(const Stack& stack, const Stack& bored, const PairOptions& options,
                                        Seen& seen) {
  std::vector<PlacedPrism> pieces;
  for (const PlacedPrism& whole : stack.prisms) {
    if (apart(whole.box, bored.box, band)) continue;
    Remainder rest = outside_bores(whole, bored, options);
    seen.touch = seen.touch || rest.touches;
    std::move(rest.pieces.begin(), rest.pieces.end(), std::back_inserter(pieces));
  }
  return pieces;
}

Decision decide_stacks(const Stack& a, const Stack& b, const PairOptions& options) {
  if (apart(a.box, b.box, band)) return Decision::clear;
  Seen seen;
  const auto pieces_of_a = pieces_outside(a, b, options, seen);
  const auto pieces_of_b = pieces_outside(b, a, options, seen);
  for (const PlacedPrism& p : pieces_of_a) {
    if (meets(p, a, pieces_of_b, b, options, seen)) return Decision::overlap;
  }
  return seen.decision();
}

}  // namespace

Decision decide(const PlacedBody& a, const PlacedBody& b, const PairOptions& options) {
  const Decision outer = decide_stacks(a.outer, b.outer, options);
  if (outer == Decision::clear || (a.exact && b.exact)) return outer;
  const Decision inner = decide_stacks(a.inner, b.inner, options);
  if (inner == Decision::overlap) return inner;
  // The bodies lie between their stacks: outer ones that only touch do not overlap, inner ones that touch are no
  // further apart.
  return outer == Decision::touch && inner == Decision::touch ? Decision::touch : Decision::unsure;
}

Box3 common_box(const PlacedBody& a, const PlacedBody& b) {
  Box3 overlapping;
  Box3 touching;
  for (const PlacedPrism& whole : a.outer.prisms) {
    const Remainder rest = outside_bores(whole, b.outer, {});
    for (const PlacedPrism& p : rest.pieces) {
      for (const PlacedPrism& q : b.outer.prisms) {
        const Decision d = decide(p, q);
        if (d == Decision::clear) continue;
        const Box3 shared = common(p.box, q.box);
        Box3& all = d == Decision::touch ? touching : overlapping;
        // Corner by corner: the box of a contact across a gap is inside out, its middle is right all the same.
        all.add(shared.low);
        all.add(shared.high);
      }
    }
  }
  if (!overlapping.empty()) return overlapping;
  return touching.empty() ? common(a.outer.box, b.outer.box) : touching;
}

}  // namespace fitup::checks
