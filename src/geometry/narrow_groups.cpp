// Narrow places whose edges follow each other, or that lie in each other, are one.
// Entry: NarrowGroups.
#include "geometry/narrow_groups.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace fitup::geometry {

namespace {

constexpr std::size_t most_facing = 20'000;
// Places nearer to each other than this share of their width lie in each other, as those of a square window do.
constexpr double in_each_other = 0.5;

std::size_t root_of(std::vector<std::size_t>& up, std::size_t i) {
  while (up[i] != i) i = up[i] = up[up[i]];
  return i;
}

bool is_narrower(const NarrowPlace& a, const NarrowPlace& b) { return a.width_mm < b.width_mm; }

// What is as wide but for rounding comes in the order of its place.
bool comes_before(const NarrowPlace& a, const NarrowPlace& b) {
  const auto key = [](const NarrowPlace& p) { return std::tuple(std::llround(p.width_mm * 1e6), p.at.x, p.at.y); };
  return key(a) < key(b);
}

}  // namespace

void NarrowGroups::add(const NarrowPlace& place, Edges between) {
  const auto [known, is_new] = groups_.try_emplace({place.kind, place.loop, place.other});
  Group& group = known->second;
  if (is_new || is_narrower(place, group.narrowest)) group.narrowest = place;
  if (group.all.size() < most_facing) group.all.push_back({place, std::minmax(between.first, between.second)});
}

void NarrowGroups::add_whole(const NarrowPlace& place) {
  const auto [known, is_new] = groups_.try_emplace({place.kind, place.loop, place.other});
  if (is_new || is_narrower(place, known->second.narrowest)) known->second.narrowest = place;
}

std::vector<NarrowPlace> NarrowGroups::of_group(
    const Group& group, const std::function<std::array<std::size_t, 3>(std::size_t)>& beside) {
  std::map<Edges, std::size_t> index;
  for (std::size_t k = 0; k < group.all.size(); ++k) index.emplace(group.all[k].between, k);
  std::vector<std::size_t> up(group.all.size());
  std::iota(up.begin(), up.end(), std::size_t{0});
  for (std::size_t k = 0; k < group.all.size(); ++k) {
    for (const std::size_t i : beside(group.all[k].between.first)) {
      for (const std::size_t j : beside(group.all[k].between.second)) {
        const auto near = index.find(std::minmax(i, j));
        if (near != index.end()) up[root_of(up, near->second)] = root_of(up, k);
      }
    }
  }
  std::map<std::size_t, NarrowPlace> narrowest;
  for (std::size_t k = 0; k < group.all.size(); ++k) {
    const NarrowPlace& place = group.all[k].place;
    const auto [known, is_new] = narrowest.try_emplace(root_of(up, k), place);
    if (!is_new && is_narrower(place, known->second)) known->second = place;
  }
  std::vector<NarrowPlace> all{group.narrowest};
  for (const auto& [root, place] : narrowest) all.push_back(place);
  std::stable_sort(all.begin() + 1, all.end(), comes_before);
  std::vector<NarrowPlace> kept;
  for (const NarrowPlace& place : all) {
    const bool is_known = std::any_of(kept.begin(), kept.end(), [&](const NarrowPlace& other) {
      return norm(place.at - other.at) <= in_each_other * std::max(place.width_mm, other.width_mm);
    });
    if (!is_known) kept.push_back(place);
    if (kept.size() == most_narrow_of_a_pair) break;
  }
  return kept;
}

NarrowSearch NarrowGroups::told_apart(const std::function<std::array<std::size_t, 3>(std::size_t)>& beside) const {
  NarrowSearch search;
  std::vector<NarrowPlace>& all = search.places;
  for (const auto& [key, group] : groups_) {
    const std::vector<NarrowPlace> of_one = of_group(group, beside);
    all.insert(all.end(), of_one.begin(), of_one.end());
    search.more = search.more || of_one.size() == most_narrow_of_a_pair;
  }
  std::stable_sort(all.begin(), all.end(), comes_before);
  return search;
}

}  // namespace fitup::geometry
