// Loops cut at a line and closed again along teeth and notches.
// Entry: material_across, cut_in_two.
#include "plan/plate/profile_cut.h"

#include <algorithm>
#include <cmath>

#include "fitup/tolerances.h"

namespace fitup::plan::plate {

namespace {

constexpr double around_path_mm = 1000;  // a rectangle whose one side is the path: its other sides are of no account

// All with the material at their left.
std::vector<Loop> loops_of(const Profile& profile) {
  std::vector<Loop> out{profile.outer};
  for (const Loop& hole : profile.holes) out.push_back(hole.reversed());
  return out;
}

// A web beside the notch, which is wider by the play, and beside the tooth's relief; where the span is too short for
// both, beside the notch.
std::vector<Stretch> teeth_along(const Stretch& span, const ToothRule& rule) {
  const double notch = rule.web_mm() + rule.play_mm / 2;
  const double relief = rule.web_mm() + 2 * rule.relief_mm;
  auto teeth = tabs_along(span.length_mm(), rule.thickness_mm, 0, std::max(notch, relief));
  return teeth.empty() ? tabs_along(span.length_mm(), rule.thickness_mm, 0, notch) : teeth;
}

bool crosses(const Edge& e, double at) { return (e.from.x - at) * (e.to.x - at) < 0; }

// The shoulders with the teeth that stand out of them, upward.
std::vector<Vertex> tooth_path(const Stretch& span, double at, const ToothRule& rule) {
  std::array<std::vector<Step>, 4> sides;
  for (const Stretch& tooth : teeth_along(span, rule)) {
    sides[right_side].push_back({tooth, rule.depth_mm()});
  }
  const Loop loop = stepped_outline({around_path_mm, span.length_mm()}, sides, rule.relief_mm)
                        .moved({at - around_path_mm, span.from_mm});
  return {loop.vertices.begin() + 1, loop.vertices.end() - 2};
}

// The same with the notches, downward.
std::vector<Vertex> notch_path(const Stretch& span, double at, const ToothRule& rule) {
  std::array<std::vector<Step>, 4> sides;
  const double beside = rule.play_mm / 2;
  for (const Stretch& tooth : teeth_along(span, rule)) {
    sides[left_side].push_back({{tooth.from_mm - beside, tooth.to_mm + beside}, -(rule.depth_mm() + rule.play_mm)});
  }
  const Loop loop =
      stepped_outline({around_path_mm, span.length_mm()}, sides, rule.relief_mm).moved({at, span.from_mm});
  return {loop.vertices.begin() + 3, loop.vertices.end()};
}

/// What of a loop lies on one side of the line, from where it comes over it to where it leaves.
struct Chain {
  std::vector<Vertex> vertices;
  double begins = 0;  // y on the line
  double ends = 0;
};

class Cutting {
 public:
  Cutting(const Profile& profile, double at, const ToothRule& rule, std::vector<Stretch> spans)
      : at_(at), rule_(rule), spans_(std::move(spans)) {
    for (const Loop& loop : loops_of(profile)) add(loop);
  }

  [[nodiscard]] std::optional<Profile> half(bool low) const {
    Profile out;
    int outers = 0;
    for (const Loop& loop : closed(low)) {
      if (loop.area_mm2() > 0) {
        out.outer = loop;
        ++outers;
      } else {
        out.holes.push_back(loop.reversed());
      }
    }
    for (const Loop& loop : whole_[low ? 0 : 1]) {
      if (loop.area_mm2() > 0) return std::nullopt;
      out.holes.push_back(loop.reversed());
    }
    return outers == 1 ? std::optional(std::move(out)) : std::nullopt;
  }

 private:
  void add(const Loop& loop) {
    const auto edges = loop.edges();
    const auto first = std::find_if(edges.begin(), edges.end(), [&](const Edge& e) { return crosses(e, at_); });
    if (first == edges.end()) {
      whole_[loop.bounds().middle().x < at_ ? 0 : 1].push_back(loop);
      return;
    }
    const auto start = static_cast<std::size_t>(first - edges.begin());
    Chain chain{{{{at_, first->from.y}, 0}}, first->from.y, 0};
    bool low = first->to.x < at_;
    for (std::size_t i = 1; i <= edges.size(); ++i) {
      const Edge& e = edges[(start + i) % edges.size()];
      chain.vertices.push_back({e.from, e.bulge});
      if (!crosses(e, at_)) continue;
      chain.ends = e.from.y;
      chains_[low ? 0 : 1].push_back(std::move(chain));
      chain = {{{{at_, e.from.y}, 0}}, e.from.y, 0};
      low = !low;
    }
  }

  // Below the line's material a low chain ends, above it one begins; a high one the other way round.
  [[nodiscard]] std::vector<Loop> closed(bool low) const {
    const auto& chains = chains_[low ? 0 : 1];
    std::vector<bool> done(chains.size(), false);
    std::vector<Loop> out;
    for (std::size_t i = 0; i < chains.size(); ++i) {
      if (done[i]) continue;
      Loop loop;
      for (std::size_t k = i; !done[k]; k = next(chains, k, low)) {
        done[k] = true;
        loop.vertices.insert(loop.vertices.end(), chains[k].vertices.begin(), chains[k].vertices.end());
        const auto path =
            low ? tooth_path(span_at(chains[k].ends), at_, rule_) : notch_path(span_at(chains[k].ends), at_, rule_);
        loop.vertices.insert(loop.vertices.end(), path.begin(), path.end());
      }
      out.push_back(std::move(loop));
    }
    return out;
  }

  [[nodiscard]] const Stretch& span_at(double y) const {
    return *std::min_element(spans_.begin(), spans_.end(), [y](const Stretch& a, const Stretch& b) {
      return std::abs(y - a.middle_mm()) - a.length_mm() / 2 < std::abs(y - b.middle_mm()) - b.length_mm() / 2;
    });
  }

  [[nodiscard]] std::size_t next(const std::vector<Chain>& chains, std::size_t k, bool low) const {
    const Stretch& span = span_at(chains[k].ends);
    const double other = low ? span.to_mm : span.from_mm;
    const auto nearer = [other](const Chain& a, const Chain& b) {
      return std::abs(a.begins - other) < std::abs(b.begins - other);
    };
    return static_cast<std::size_t>(std::min_element(chains.begin(), chains.end(), nearer) - chains.begin());
  }

  double at_;
  ToothRule rule_;
  std::vector<Stretch> spans_;
  std::array<std::vector<Chain>, 2> chains_;  // low, high
  std::array<std::vector<Loop>, 2> whole_;
};

}  // namespace

std::optional<std::vector<Stretch>> material_across(const Profile& profile, double at, double beside_mm) {
  std::vector<double> ys;
  for (const Loop& loop : loops_of(profile)) {
    for (const Edge& e : loop.edges()) {
      const Box2 b = e.bounds();
      if (b.high.x <= at - beside_mm || b.low.x >= at + beside_mm) continue;
      const bool square = e.straight() && std::abs(e.from.y - e.to.y) <= tolerance::snap_mm;
      if (!square || b.low.x > at - beside_mm || b.high.x < at + beside_mm) return std::nullopt;
      ys.push_back(e.from.y);
    }
  }
  std::sort(ys.begin(), ys.end());
  if (ys.empty() || ys.size() % 2 != 0) return std::nullopt;
  std::vector<Stretch> out;
  for (std::size_t i = 0; i < ys.size(); i += 2) out.push_back({ys[i], ys[i + 1]});
  return out;
}

std::optional<Halves> cut_in_two(const Profile& profile, double at, const ToothRule& rule) {
  const auto spans = material_across(profile, at, rule.band_mm());
  if (!spans) return std::nullopt;
  const bool teeth =
      std::any_of(spans->begin(), spans->end(), [&](const Stretch& s) { return !teeth_along(s, rule).empty(); });
  if (!teeth) return std::nullopt;
  const Cutting cutting(profile, at, rule, *spans);
  auto low = cutting.half(true);
  auto high = cutting.half(false);
  if (!low || !high) return std::nullopt;
  return Halves{*std::move(low), *std::move(high)};
}

Profile quarter_turned(const Profile& profile, bool back) {
  const auto turned = [back](Loop loop) {
    for (Vertex& v : loop.vertices) v.at = back ? Vec2{-v.at.y, v.at.x} : Vec2{v.at.y, -v.at.x};
    return loop;
  };
  Profile out{turned(profile.outer), {}};
  for (const Loop& hole : profile.holes) out.holes.push_back(turned(hole));
  return out;
}

}  // namespace fitup::plan::plate
