// Splits seams at what stands there, and leaves away what is to be free.
// Entry: around, leave_free.
#include "checks/blocked_seams.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "checks/joint_seams.h"
#include "checks/seams.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr double band = tolerance::contact_mm;

// A bead that runs askew is looked at in pieces of this length.
constexpr double piece_mm = 2;
// Of the joint's depth, as ISO 9692-1 prepares a single bevel with its root face (from memory).
constexpr double bevel_share = 0.5;

Seam not_laid(const Seam& seam, const Blocked& blocked) {
  Seam piece = piece_of(seam, blocked.along);
  piece.state = seam.kind == SeamKind::fillet ? SeamState::left_free : SeamState::ground_flush;
  piece.because = blocked.by;
  piece.passes = blocked.passes;
  return piece;
}

std::vector<Seam> freed(const Seam& seam, const std::vector<Blocked>& blocked) {
  std::vector<Seam> pieces = around(seam, blocked);
  for (Seam& piece : pieces) bevel_where_flush(piece);
  return pieces;
}

}  // namespace

std::vector<Blocked> merged(std::vector<Blocked> found) {
  std::sort(found.begin(), found.end(), [](const Blocked& a, const Blocked& b) {
    return a.along.low != b.along.low ? a.along.low < b.along.low : a.by < b.by;
  });
  std::vector<Blocked> out;
  for (const Blocked& b : found) {
    if (out.empty() || b.along.low > out.back().along.high + band) {
      out.push_back(b);
    } else {
      out.back().along.high = std::max(out.back().along.high, b.along.high);
    }
  }
  return out;
}

// Of a ring all: a bead that goes round part of a boss is no ring.
Interval stretch(const Seam& seam, const Box3& box) {
  if (seam.ring_diameter_mm > 0) return {0, seam.length_mm};
  const Vec3 way = (1 / seam.length_mm) * (seam.to - seam.from);
  Interval along;
  for (int i = 0; i < 3; ++i) {
    const double one = component(way, i) * component(box.low - seam.from, i);
    const double other = component(way, i) * component(box.high - seam.from, i);
    along.low += std::min(one, other);
    along.high += std::max(one, other);
  }
  return {std::max(0.0, along.low), std::min(seam.length_mm, along.high)};
}

Seam piece_of(const Seam& seam, Interval along) {
  Seam piece = seam;
  if (seam.ring_diameter_mm > 0) return piece;
  const Vec3 way = (1 / seam.length_mm) * (seam.to - seam.from);
  piece.from = seam.from + along.low * way;
  piece.to = seam.from + along.high * way;
  piece.length_mm = piece.bead.length_mm = along.length();
  piece.bead.pose = seam.bead.pose.moved(along.low * way);
  return piece;
}

std::vector<Seam> around(const Seam& seam, const std::vector<Blocked>& blocked) {
  std::vector<Blocked> all;
  double at = 0;
  for (const Blocked& b : blocked) {
    const bool joins = b.along.low - at < least_lengths * seam.size_mm;
    all.push_back({{joins ? at : b.along.low, b.along.high}, b.by, b.passes});
    at = b.along.high;
  }
  if (!all.empty() && seam.length_mm - at < least_lengths * seam.size_mm) all.back().along.high = seam.length_mm;
  std::vector<Seam> out;
  at = 0;
  for (const Blocked& b : all) {
    if (b.along.low > at) out.push_back(piece_of(seam, {at, b.along.low}));
    out.push_back(not_laid(seam, b));
    at = b.along.high;
  }
  if (seam.length_mm > at) out.push_back(piece_of(seam, {at, seam.length_mm}));
  return out;
}

void bevel_where_flush(Seam& seam) {
  if (seam.state == SeamState::ground_flush && seam.kind == SeamKind::edge) seam.bevel_mm = bevel_share * seam.size_mm;
}

std::vector<Prism> in_pieces(const Prism& bead) {
  const auto count = static_cast<std::size_t>(std::max(1.0, std::ceil(bead.length_mm / piece_mm)));
  std::vector<Prism> pieces(count, bead);
  for (std::size_t i = 0; i < count; ++i) {
    const double low = static_cast<double>(i) * bead.length_mm / static_cast<double>(count);
    pieces[i].pose = bead.pose.moved(low * bead.pose.z());
    pieces[i].length_mm = bead.length_mm / static_cast<double>(count);
  }
  return pieces;
}

PlacedBody body_of_bead(const Prism& bead) {
  PlacedBody body = place(Body{{bead}, {bead}, true, {}}, Pose{});
  if (body.outer.prisms.front().axis >= 0) return body;
  body = PlacedBody{};
  body.exact = false;
  for (const Prism& piece : in_pieces(bead)) {
    const PlacedBody box = body_of_box(place(piece, {}).box);
    body.outer.prisms.push_back(box.outer.prisms.front());
    body.outer.box.add(box.outer.box);
  }
  return body;
}

void leave_free(Seams& seams, std::vector<KeepFree> wanted) {
  std::map<std::size_t, std::vector<Blocked>> of_seam;
  for (const KeepFree& free : wanted) {
    const Seam& seam = seams.all[free.seam];
    Interval along = stretch(seam, free.room);
    // What only the bead's width reaches into the room: all of it.
    if (along.length() <= band) along = {0, seam.length_mm};
    of_seam[free.seam].push_back({along, free.of, true});
  }
  std::vector<Seam> all;
  for (std::size_t i = 0; i < seams.all.size(); ++i) {
    const auto blocked = of_seam.find(i);
    if (blocked == of_seam.end()) {
      all.push_back(std::move(seams.all[i]));
      continue;
    }
    for (Seam& piece : freed(seams.all[i], merged(std::move(blocked->second)))) all.push_back(std::move(piece));
  }
  seams.all = std::move(all);
}

}  // namespace fitup::checks
