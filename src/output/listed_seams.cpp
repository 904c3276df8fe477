// Pieces of seams that run on end to end, and what of a joint is too short for a seam of its own.
// Entry: listed_seams, stitch_words.
#include "output/listed_seams.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "fitup/tolerances.h"

namespace fitup::output {
namespace {

constexpr double no_seam_mm = 0.5;
// Sizes, directions and ends that are alike.
constexpr double alike_mm = 0.01;

bool alike(double a, double b) { return std::abs(a - b) < alike_mm; }
bool alike(Vec3 a, Vec3 b) { return norm(a - b) < alike_mm; }

bool may_run_on(const Seam& seam) {
  return seam.state != SeamState::left_free && !seam.stitch && seam.ring_diameter_mm <= 0 && seam.length_mm > 0;
}

Vec3 way_of(const Seam& seam) { return (1 / seam.length_mm) * (seam.to - seam.from); }

bool is_of_one(const Seam& a, const Seam& b) {
  if (a.joint != b.joint || a.kind != b.kind || !may_run_on(a) || !may_run_on(b)) return false;
  return alike(a.size_mm, b.size_mm) && alike(a.gap_mm, b.gap_mm) && alike(a.side, b.side) && alike(a.rises, b.rises) &&
         std::abs(dot(way_of(a), way_of(b))) > 1 - tolerance::direction;
}

ListedSeam single(const Seams& seams, std::size_t i) {
  const Seam& seam = seams.all[i];
  ListedSeam listed{{i}, seam.from, seam.to, seam.length_mm, weld_mm(seam)};
  if (seam.state == SeamState::ground_flush) listed.flush_mm = listed.weld_mm;
  return listed;
}

/// Puts the seam before or behind the others, if one of its ends is one of theirs.
bool run_on(ListedSeam& listed, const Seams& seams, std::size_t i) {
  const Seam& seam = seams.all[i];
  if (!is_of_one(seams.all[listed.pieces.front()], seam)) return false;
  const bool turned = dot(seam.to - seam.from, listed.to - listed.from) < 0;
  const Vec3 from = turned ? seam.to : seam.from, to = turned ? seam.from : seam.to;
  if (alike(from, listed.to)) {
    listed.pieces.push_back(i);
    listed.to = to;
  } else if (alike(to, listed.from)) {
    listed.pieces.insert(listed.pieces.begin(), i);
    listed.from = from;
  } else {
    return false;
  }
  listed.length_mm += seam.length_mm;
  listed.weld_mm += weld_mm(seam);
  listed.flush_mm += seam.state == SeamState::ground_flush ? weld_mm(seam) : 0;
  return true;
}

/// Takes from `rest` what runs on at either end.
ListedSeam run_from(const Seams& seams, std::vector<std::size_t>& rest) {
  ListedSeam listed = single(seams, rest.front());
  rest.erase(rest.begin());
  for (bool more = true; more;) {
    const auto next = std::find_if(rest.begin(), rest.end(), [&](std::size_t i) { return run_on(listed, seams, i); });
    more = next != rest.end();
    if (more) rest.erase(next);
  }
  return listed;
}

/// Of each joint the short ones that are laid, and those that are left free, go with the longest of that kind.
void gather_short_ones(const Seams& seams, std::vector<ListedSeam>& all) {
  const auto seam_of = [&](const ListedSeam& l) -> const Seam& { return seams.all[l.pieces.front()]; };
  const auto kind_of = [&](const ListedSeam& l) {
    return std::pair{seam_of(l).joint, seam_of(l).state == SeamState::left_free};
  };
  std::map<std::pair<std::size_t, bool>, std::size_t> longest;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto [it, added] = longest.try_emplace(kind_of(all[i]), i);
    if (!added && all[i].length_mm > all[it->second].length_mm) it->second = i;
  }
  for (std::size_t i = 0; i < all.size(); ++i) {
    const std::size_t with = longest.at(kind_of(all[i]));
    if (with == i || !all[i].is_short() || all[i].length_mm < no_seam_mm) continue;
    ++all[with].short_ones;
    all[with].short_mm += all[i].weld_mm;
  }
  std::size_t index = 0;
  std::erase_if(all, [&](const ListedSeam& l) {
    const std::size_t i = index++;
    return l.is_short() && (longest.at(kind_of(l)) != i || l.length_mm < no_seam_mm);
  });
}

}  // namespace

std::vector<ListedSeam> listed_seams(const Seams& seams) {
  std::vector<ListedSeam> all;
  for (std::size_t i = 0; i < seams.all.size();) {
    std::vector<std::size_t> of_joint;
    for (const std::size_t joint = seams.all[i].joint; i < seams.all.size() && seams.all[i].joint == joint; ++i) {
      of_joint.push_back(i);
    }
    while (!of_joint.empty()) all.push_back(run_from(seams, of_joint));
  }
  gather_short_ones(seams, all);
  return all;
}

std::string stitch_words(const Seam& seam, const PaperUnits& units) {
  if (!seam.stitch) return {};
  return fmt::format("{} × {} ({})", seam.stitch->count, units.drawn(seam.stitch->element_mm),
                     units.drawn(seam.stitch->gap_mm));
}

}  // namespace fitup::output
