// What movers meet on a straight way, how far they must be lifted over it, and how far off the way it is free.
// Entry: Ways::first_block.
#include "checks/ways.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr double band = tolerance::contact_mm;
constexpr double first_step_mm = 1e-3;
constexpr double precision_mm = 1e-5;
// Each try clears one more of what stands in the way; nobody lifts over more than a few things.
constexpr int most_lifts = 8;

Box3 shifted(const Box3& box, Vec3 by) { return {box.low + by, box.high + by}; }

}  // namespace

std::string way_text(Vec3 way) {
  const char* sign = way.x + way.y + way.z > 0 ? "+" : "-";
  return fmt::format("{}{}", sign, way.x != 0 ? "X" : way.y != 0 ? "Y" : "Z");
}

std::vector<std::size_t> standing_from(const Plan& plan) {
  std::vector<std::size_t> by_step(plan.steps.size());
  for (std::size_t s = 0; s < by_step.size(); ++s) by_step[s] = s;
  for (std::size_t s = 0; s < by_step.size(); ++s) {
    const auto& with = plan.steps[s].with;
    const bool empty =
        std::all_of(with.begin(), with.end(), [&](std::size_t w) { return plan.steps[w].kind == StepKind::weld; });
    if (!empty) continue;
    for (const std::size_t w : with) by_step[w] = s;
  }
  std::vector<std::size_t> by_instance(plan.instances.size(), 0);
  for (std::size_t s = 0; s < by_step.size(); ++s) {
    for (const InstanceId i : plan.steps[s].adds) by_instance[i] = by_step[s];
  }
  return by_instance;
}

Ways::Ways(const Scene& scene)
    : scene_(scene), spaces_(scene.plan().instances.size()), beads_(scene.plan().instances.size()) {
  const Plan& plan = scene.plan();
  for (std::size_t z = 0; z < plan.zones.size(); ++z) {
    const InstanceId owner = plan.zones[z].owner;
    // What an opening's room is for comes after the panel is on.
    if (plan.parts[plan.instances[owner].part].role == Role::item) {
      spaces_[owner].push_back(plan.instances.size() + z);
    }
  }
  for (std::size_t i = 0; i < scene.beads().size(); ++i) {
    for (const InstanceId part : {scene.beads()[i].a, scene.beads()[i].b}) {
      beads_[part].push_back(scene.thing_of_bead(i));
    }
  }
}

void Ways::put(Standing& standing, const std::vector<InstanceId>& instances, bool there) const {
  for (const InstanceId i : instances) {
    standing[i] = there;
    for (const Thing space : spaces_[i]) standing[space] = there;
  }
  for (const InstanceId i : instances) {
    for (const Thing bead : beads_[i]) {
      standing[bead] = standing[scene_.bead_of(bead)->a] && standing[scene_.bead_of(bead)->b];
    }
  }
}

std::vector<Thing> Ways::with_beads(const std::vector<InstanceId>& instances) const {
  Standing moves(scene_.things(), false);
  put(moves, instances, true);
  std::vector<Thing> all = instances;
  for (Thing t = scene_.thing_of_bead(0); t < moves.size(); ++t) {
    if (moves[t]) all.push_back(t);
  }
  return all;
}

Box3 Ways::box_of(const std::vector<Thing>& movers) const {
  Box3 box;
  for (const Thing m : movers) box.add(scene_.body(m).outer.box);
  return box;
}

bool Ways::overlap_in_place(Thing a, Thing b) const { return scene_.by_rules(a, b) == Decision::overlap; }

std::vector<Block> Ways::all_blocks(const std::vector<Thing>& movers, const Standing& standing, Vec3 way, Vec3 shift,
                                    double from_mm) const {
  const Box3 all = shifted(box_of(movers), shift);
  std::vector<Block> blocks;
  for (Thing t = 0; t < standing.size(); ++t) {
    if (!standing[t] || !may_meet(all, scene_.body(t).outer.box, way)) continue;
    for (const Thing m : movers) {
      const PlacedBody& body = scene_.body(m);
      if (!may_meet(shifted(body.outer.box, shift), scene_.body(t).outer.box, way)) continue;
      const Stop stop =
          stop_of(shift == Vec3{} ? body : moved(body, shift), scene_.body(t), way, from_mm, scene_.options(m, t));
      const Decision d = stop.decision();
      if (d == Decision::clear || overlap_in_place(m, t)) continue;
      blocks.push_back({m, t, d == Decision::overlap ? *stop.sure_mm : *stop.may_mm, d == Decision::overlap});
    }
  }
  return blocks;
}

std::optional<Block> Ways::first_block(const std::vector<Thing>& movers, const Standing& standing, Vec3 way) const {
  std::optional<Block> first;
  for (const Block& block : all_blocks(movers, standing, way)) {
    const bool earlier =
        !first || block.sure > first->sure || (block.sure == first->sure && block.before_mm > first->before_mm + band);
    if (earlier) first = block;
  }
  return first;
}

std::vector<Block> Ways::all_blocks(const std::vector<Thing>& movers, const Standing& standing,
                                    const Passage& passage) const {
  if (passage.lift_mm <= 0) return all_blocks(movers, standing, passage.way);
  const Vec3 back = -passage.short_mm * passage.way;
  auto blocks = all_blocks(movers, standing, passage.way, back + Vec3{0, 0, passage.lift_mm});
  for (const auto& more : {all_blocks(movers, standing, axis::minus_z, back, passage.lift_mm),
                           all_blocks(movers, standing, passage.way, {}, passage.short_mm)}) {
    blocks.insert(blocks.end(), more.begin(), more.end());
  }
  return blocks;
}

std::optional<Passage> Ways::passage_over(const std::vector<Thing>& movers, const Standing& standing, Vec3 way) const {
  if (way.z != 0) return std::nullopt;
  const auto over = passage_over(movers, standing, way, false);
  return over ? over : passage_over(movers, standing, way, true);
}

std::optional<Passage> Ways::passage_over(const std::vector<Thing>& movers, const Standing& standing, Vec3 way,
                                          bool through_windows) const {
  Passage passage{way, 0, 0};
  const double most = box_of(movers).size().z / 2;
  for (int i = 0; i < most_lifts; ++i) {
    const Vec3 shift = Vec3{0, 0, passage.lift_mm} - passage.short_mm * way;
    const auto blocks = all_blocks(movers, standing, way, shift);
    if (blocks.empty()) break;
    double higher = passage.lift_mm;
    double sooner = passage.short_mm;
    for (const Block& b : blocks) {
      double over = scene_.body(b.by).outer.box.high.z - scene_.body(b.mover).outer.box.low.z;
      if (over > most && through_windows) over = passage.lift_mm + lift_mm(b, way, shift, most - passage.lift_mm);
      // What is too high to go over is come down before.
      if (over <= most) {
        higher = std::max(higher, over);
      } else {
        sooner = std::max(sooner, passage.short_mm + b.before_mm);
      }
    }
    if (higher <= passage.lift_mm + band && sooner <= passage.short_mm + band) return std::nullopt;
    passage.lift_mm = higher;
    passage.short_mm = sooner;
  }
  if (passage.lift_mm <= 0 || !all_blocks(movers, standing, passage).empty()) return std::nullopt;
  return passage;
}

double Ways::lift_mm(const Block& block, Vec3 way, Vec3 shift, double most_mm) const {
  const PlacedBody& by = scene_.body(block.by);
  const auto free = [&](double up) {
    const PlacedBody mover = moved(scene_.body(block.mover), shift + Vec3{0, 0, up});
    return stop_of(mover, by, way, from_afar_mm, scene_.options(block.mover, block.by)).decision() == Decision::clear;
  };
  double low = 0;
  double high = first_step_mm;
  while (!free(high)) {
    if (high > most_mm) return from_afar_mm;
    low = high;
    high *= 2;
  }
  while (high - low > precision_mm) {
    const double middle = (low + high) / 2;
    (free(middle) ? high : low) = middle;
  }
  return std::round((high + band) / band) * band;
}

Ways::Across Ways::across(const Block& block, Vec3 way) const {
  const PlacedBody& mover = scene_.body(block.mover);
  const PlacedBody& by = scene_.body(block.by);
  const auto free = [&](Vec3 shift) {
    return stop_of(moved(mover, shift), by, way, from_afar_mm, scene_.options(block.mover, block.by)).decision() ==
           Decision::clear;
  };
  Across best{from_afar_mm, {}};
  for (const Vec3 off : {axis::x, axis::minus_x, axis::y, axis::minus_y, axis::z, axis::minus_z}) {
    if (dot(off, way) != 0) continue;
    double low = 0;
    double high = first_step_mm;
    while (low < best.by_mm && !free(high * off)) {
      low = high;
      high *= 2;
    }
    if (low >= best.by_mm) continue;
    while (high - low > precision_mm) {
      const double middle = (low + high) / 2;
      (free(middle * off) ? high : low) = middle;
    }
    // What passes by less than the band passes: the band is no part of what is to be taken away.
    const double by_mm = std::round((high + band) / band) * band;
    if (by_mm < best.by_mm - precision_mm) best = {by_mm, off};
  }
  return best;
}

}  // namespace fitup::checks
