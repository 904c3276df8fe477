// Goes through the steps in order; where several items may go in, finds their order by taking apart in reverse.
// Entry: check_insertion.
#include "checks/insertion.h"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "checks/coming_out.h"
#include "checks/entry_room.h"
#include "checks/order.h"
#include "checks/seams.h"
#include "checks/setting_up.h"
#include "checks/ways.h"
#include "fitup/tolerances.h"

namespace fitup::checks {

namespace {

constexpr const char* name = "insertion";
constexpr double band = tolerance::contact_mm;

std::string counted(std::ptrdiff_t n, const std::string& one, const std::string& many = {}) {
  return fmt::format("{} {}", n, n == 1 ? one : many.empty() ? one + "s" : many);
}

class Insertion {
 public:
  Insertion(const Scene& scene, const std::function<bool()>& stop)
      : scene_(scene),
        plan_(scene.plan()),
        ways_(scene),
        from_(standing_from(plan_)),
        standing_(scene.things(), false),
        stop_(stop) {}

  /// Goes through all steps as `run` does; of what is blocked by beads alone that may be left away says which.
  std::vector<KeepFree> beads() {
    gathers_ = true;
    through_the_steps();
    return std::move(free_);
  }

  std::vector<Finding> run() {
    findings_ = check_setting_up(scene_, ways_);
    through_the_steps();
    if (!stopped()) come_out();
    if (std::none_of(findings_.begin(), findings_.end(), [](const Finding& f) { return f.verdict == Verdict::fail; }))
      findings_.push_back(all_in());
    return std::move(findings_);
  }

 private:
  void through_the_steps() {
    for (std::size_t s = 0; s < plan_.steps.size() && !stopped(); ++s) {
      if (plan_.steps[s].kind != StepKind::place) {
        put_if_standing(s);
      } else if (!brings_item(s)) {
        bring_one(s);
      } else {
        std::vector<std::size_t> group{s};
        while (s + 1 < plan_.steps.size() && brings_item(s + 1)) group.push_back(++s);
        bring_items(std::move(group));
      }
    }
  }

  [[nodiscard]] bool stopped() const { return stop_ && stop_(); }
  [[nodiscard]] bool brings_item(std::size_t s) const { return holds_item(plan_, plan_.steps[s]); }
  void put_if_standing(std::size_t s) {
    if (!plan_.steps[s].adds.empty() && from_[plan_.steps[s].adds.front()] == s) put(s, true);
  }
  void put(std::size_t s, bool there) { ways_.put(standing_, plan_.steps[s].adds, there); }

  [[nodiscard]] std::vector<InstanceId> movers(std::size_t s) const {
    std::vector<InstanceId> all = plan_.steps[s].adds;
    for (const std::size_t with : plan_.steps[s].with) {
      all.insert(all.end(), plan_.steps[with].adds.begin(), plan_.steps[with].adds.end());
    }
    return all;
  }

  /// All that stands there but the movers.
  [[nodiscard]] Standing without(const std::vector<InstanceId>& movers) const {
    Standing rest = standing_;
    ways_.put(rest, movers, false);
    return rest;
  }

  void bring_one(std::size_t s) {
    ways_.put(standing_, movers(s), true);
    const auto all = ways_.with_beads(movers(s));
    const Standing rest = without(movers(s));
    std::vector<Block> blocks;
    for (const Vec3 way : plan_.steps[s].ways) {
      const auto block = ways_.first_block(all, rest, way);
      if (!block) return goes(s, {way, 0, 0});
      if (const auto over = ways_.passage_over(all, rest, way)) return goes(s, *over);
      blocks.push_back(*block);
    }
    blocked(s, blocks);
  }

  // Taken apart in reverse: what comes out of the full box along one of its ways goes in the other way round.
  void bring_items(std::vector<std::size_t> group) {
    for (const std::size_t s : group) put(s, true);
    std::map<std::size_t, std::vector<Block>> known;  // of each step, what blocked each of its ways at last
    for (bool progress = true; progress && !group.empty() && !stopped();) {
      progress = false;
      for (std::size_t i = group.size(); i-- > 0;) {
        if (carries_one_of(group, group[i])) continue;
        const auto passage = passage_of(group[i], known[group[i]]);
        if (!passage) continue;
        goes(group[i], *passage);
        put(group[i], false);
        taken_out_.push_back(group[i]);
        group.erase(group.begin() + static_cast<std::ptrdiff_t>(i));
        progress = true;
      }
    }
    for (const std::size_t s : group) {
      if (!known[s].empty()) blocked(s, known[s]);
    }
    for (const std::size_t s : taken_out_) put(s, true);
    taken_out_.clear();
  }

  // What others stand on stays until they are out.
  [[nodiscard]] bool carries_one_of(const std::vector<std::size_t>& group, std::size_t s) const {
    return std::any_of(group.begin(), group.end(), [&](std::size_t other) {
      const auto& after = plan_.steps[other].after;
      return std::binary_search(after.begin(), after.end(), s);
    });
  }

  std::optional<Passage> passage_of(std::size_t s, std::vector<Block>& known) {
    const auto& ways = plan_.steps[s].ways;
    const auto all = ways_.with_beads(movers(s));
    const Standing rest = without(movers(s));
    const bool first = known.empty();
    for (std::size_t w = 0; w < ways.size(); ++w) {
      // What stood in the way and still stands there does so still.
      if (!first && rest[known[w].by]) continue;
      const auto block = ways_.first_block(all, rest, ways[w]);
      if (!block) return Passage{ways[w], 0, 0};
      if (const auto over = ways_.passage_over(all, rest, ways[w])) return over;
      if (first) {
        known.push_back(*block);
      } else {
        known[w] = *block;
      }
    }
    return std::nullopt;
  }

  void goes(std::size_t s, const Passage& passage) {
    passages_[s] = passage;
    room_before(s, passage);
  }

  Finding blank(std::size_t s, Verdict verdict) const {
    Finding f;
    f.check = name;
    f.verdict = verdict;
    f.unit = "mm";
    f.limit = band;
    f.source = "contact band: what passes closer than that touches";
    f.key = plan_.steps[s].key;
    const Step& step = plan_.steps[s];
    if (!step.adds.empty()) f.place = plan_.instances[step.adds.front()].place;
    return f;
  }

  // The way on which least is in the way, of those that are decided if there is one.
  void blocked(std::size_t s, const std::vector<Block>& blocks) {
    if (gathers_) return gather(s);
    std::size_t best = 0;
    Ways::Across least{from_afar_mm, {}};
    for (std::size_t w = 0; w < blocks.size(); ++w) {
      if (!blocks[w].sure) continue;
      const auto across = ways_.across(blocks[w], plan_.steps[s].ways[w]);
      if (across.by_mm < least.by_mm - band) {
        least = across;
        best = w;
      }
    }
    const bool undecided = std::any_of(blocks.begin(), blocks.end(), [](const Block& b) { return !b.sure; });
    if (undecided)
      return not_decided(s, *std::find_if(blocks.begin(), blocks.end(), [](const Block& b) { return !b.sure; }));
    say_blocked(s, plan_.steps[s].ways[best]);
  }

  // The way, over something or not, on which nothing is met but beads that may be left away, and the fewest of them.
  void gather(std::size_t s) {
    const auto all = ways_.with_beads(movers(s));
    const Standing rest = without(movers(s));
    std::vector<KeepFree> least;
    const auto gives_way = [&](Thing t) {
      const Bead* bead = scene_.bead_of(t);
      return bead != nullptr && scene_.may_give_way(*bead);
    };
    std::vector<Thing> fewer = all;
    std::erase_if(fewer, gives_way);
    Standing others = rest;
    for (Thing t = 0; t < others.size(); ++t) others[t] = others[t] && !gives_way(t);
    for (const Vec3 way : plan_.steps[s].ways) {
      std::optional<Passage> passage = Passage{way, 0, 0};
      if (ways_.first_block(fewer, others, way)) passage = ways_.passage_over(fewer, others, way);
      if (!passage) continue;
      std::vector<KeepFree> free;
      for (const Block& block : ways_.all_blocks(all, rest, *passage)) free.push_back(bead_to_leave(block, *passage));
      if (least.empty() || free.size() < least.size()) least = std::move(free);
    }
    free_.insert(free_.end(), least.begin(), least.end());
  }

  // The bead that stands there, where what moves comes past; or the one that moves along, where it comes past the
  // other.
  [[nodiscard]] KeepFree bead_to_leave(const Block& block, const Passage& passage) const {
    constexpr double far_mm = 1e6;
    const auto swept = [&](Thing t, double sign) {
      Box3 box = scene_.body(t).outer.box;
      const Vec3 far = sign * (Vec3{0, 0, passage.lift_mm} - far_mm * passage.way);
      box.add({box.low + far, box.high + far});
      return box;
    };
    const Bead* bead = scene_.bead_of(block.by);
    if (bead != nullptr && scene_.may_give_way(*bead))
      return {bead->seam, swept(block.mover, 1), scene_.owner(block.mover)};
    return {scene_.bead_of(block.mover)->seam, swept(block.by, -1), scene_.owner(block.by)};
  }

  // Of all that is in the way, what asks for most.
  void say_blocked(std::size_t s, Vec3 way) {
    Block block;
    Ways::Across across{-1, {}};
    for (const Block& one : ways_.all_blocks(ways_.with_beads(movers(s)), without(movers(s)), way)) {
      if (!one.sure) continue;
      const auto by = ways_.across(one, way);
      const bool more = by.by_mm > across.by_mm + band;
      if (!more && !(by.by_mm > across.by_mm - band && one.before_mm > block.before_mm + band)) continue;
      block = one;
      across = by;
    }
    Finding f = blank(s, Verdict::fail);
    f.value = across.by_mm;
    name_parts(block, f);
    f.at = met_at(block, way);
    f.message = fmt::format(
        "{} does not come to its place along {}{}: {} meets {} {} mm before it, by {} mm (free when {} passes that far "
        "along {}){}",
        plan_.steps[s].what, way_text(way), plan_.steps[s].ways.size() > 1 ? ", the least blocked of its ways" : "",
        scene_.words(block.mover), scene_.words(block.by), length_text(block.before_mm), length_text(across.by_mm),
        scene_.words(block.mover), way_text(across.direction), in_stated_order(s));
    findings_.push_back(std::move(f));
  }

  [[nodiscard]] std::string in_stated_order(std::size_t s) const {
    const PlacedFrame* frame = frame_of(plan_, plan_.steps[s].key);
    if (frame == nullptr || frame->sequence.empty()) return {};
    return fmt::format("; the order is that of box.{}.sequence", frame->box);
  }

  // Where a bead is in the way, how the parts are welded decides it.
  void name_parts(const Block& block, Finding& f) const {
    f.parts = scene_.labels(block.mover);
    for (std::string& label : scene_.labels(block.by)) f.parts.push_back(std::move(label));
    f.cause = scene_.cause(block.mover, block.by);
    for (const Thing t : {block.mover, block.by}) {
      const Bead* bead = scene_.bead_of(t);
      if (bead == nullptr) continue;
      const WeldRule& rule = weld_rule(plan_, plan_.joints[scene_.seams().all[bead->seam].joint]);
      f.key = rule.key;
      f.place = rule.place;
    }
  }

  // The middle of what the two have in common where the mover would be just inside the other.
  [[nodiscard]] Vec3 met_at(const Block& block, Vec3 way) const {
    const Vec3 back = -block.before_mm * way;
    const Box3& box = scene_.body(block.mover).outer.box;
    return common({box.low + back, box.high + back}, scene_.body(block.by).outer.box).middle();
  }

  void not_decided(std::size_t s, const Block& block) {
    Finding f = blank(s, Verdict::not_checked);
    name_parts(block, f);
    f.message = fmt::format("{}: not decided whether it comes to its place past {}: no exact rule knows their shapes",
                            plan_.steps[s].what, scene_.words(block.by));
    findings_.push_back(std::move(f));
  }

  void room_before(std::size_t s, const Passage& passage) {
    const PlacedFrame* frame = frame_of(plan_, plan_.steps[s].key);
    if (frame == nullptr) return;
    const auto lacking = lacking_room(*frame, ways_.box_of(movers(s)), passage.way);
    if (!lacking) return;
    Finding f = blank(s, Verdict::fail);
    f.value = lacking->room_mm;
    f.limit = lacking->needed_mm;
    f.source = fmt::format("box.{}.bay.{}", frame->box, lacking->face);
    f.parts = {scene_.label(movers(s).front())};
    f.at = lacking->at;
    f.cause = fmt::format("bay {}", f.source);
    f.message =
        fmt::format("{} needs {} mm of room before the {} to come to its place; the bay leaves {} mm there",
                    plan_.steps[s].what, length_text(lacking->needed_mm), lacking->face, length_text(lacking->room_mm));
    findings_.push_back(std::move(f));
  }

  void come_out() {
    const ComingOut out(scene_, ways_, passages_);
    for (const auto& [s, passage] : passages_) {
      if (!brings_item(s) || stopped()) continue;
      const auto first = out.before(s);
      if (first.steps) {
        out_.emplace(s, *first.steps);
        continue;
      }
      Finding f = blank(s, Verdict::fail);
      f.parts = {scene_.label(plan_.steps[s].adds.front()), scene_.label(first.by)};
      f.cause = "out " + scene_.kinds(plan_.steps[s].adds.front(), first.by);
      f.value.reset();
      f.limit.reset();
      f.message = fmt::format(
          "{} does not come out again alone, the covers off: {} stands in its way and cannot be "
          "taken out before it",
          plan_.steps[s].what, scene_.label(first.by));
      findings_.push_back(std::move(f));
    }
  }

  Finding all_in() const {
    Finding f;
    f.check = name;
    f.verdict = Verdict::pass;
    const auto items =
        std::count_if(passages_.begin(), passages_.end(), [&](const auto& p) { return brings_item(p.first); });
    std::string found;
    for (const auto& [s, passage] : passages_) {
      if (!brings_item(s) || (plan_.steps[s].ways.size() == 1 && passage.lift_mm <= 0)) continue;
      if (passage.lift_mm > 0) {
        found = fmt::format("; {} goes in along {}, lifted {} mm", plan_.steps[s].what, way_text(passage.way),
                            length_text(passage.lift_mm));
        break;
      }
      if (found.empty()) found = fmt::format("; {} goes in along {}", plan_.steps[s].what, way_text(passage.way));
    }
    const auto others = static_cast<std::ptrdiff_t>(passages_.size()) - items;
    f.message = fmt::format("{} and {} come to their places past all that is there by then{}; {}",
                            counted(items, "item"), counted(others, "plate, cover or box", "plates, covers and boxes"),
                            found, words_of_out(plan_, out_));
    return f;
  }

  const Scene& scene_;
  const Plan& plan_;
  Ways ways_;
  std::vector<std::size_t> from_;  // index: InstanceId
  Standing standing_;
  const std::function<bool()>& stop_;
  std::vector<Finding> findings_;
  bool gathers_ = false;
  std::vector<KeepFree> free_;
  std::map<std::size_t, Passage> passages_;           // of the steps that come to their places
  std::vector<std::size_t> taken_out_;                // of the items looked at
  std::map<std::size_t, std::set<std::size_t>> out_;  // of each item what must be off or out before it
};

}  // namespace

std::vector<KeepFree> beads_on_ways(const Scene& scene) {
  if (scene.plan().steps.empty() || scene.beads().empty()) return {};
  return Insertion(scene, {}).beads();
}

std::vector<Finding> check_insertion(const Scene& scene, const std::function<bool()>& stop) {
  if (scene.plan().steps.empty()) return {};
  auto findings = Insertion(scene, stop).run();
  sort_worst_first(findings);
  return findings;
}

}  // namespace fitup::checks
