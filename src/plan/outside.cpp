// The clearances that follow from a given outer size, and the sum where it does not come out.
// Entry: fit_outside.
#include "plan/outside.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "layout/set_in.h"

namespace fitup::plan {

namespace {

constexpr std::array<const char*, 3> direction_words{"across", "deep", "high"};

double along(Vec3 v, std::size_t axis) { return axis == 0 ? v.x : axis == 1 ? v.y : v.z; }

// What the frame adds around the inside, from a trial of it.
struct Walls {
  Vec3 low;
  Vec3 high;
};

std::optional<Walls> walls_of(const Spec& spec, const BoxSpec& box, Diagnostics& diagnostics) {
  Draft draft;
  Diagnostics unsaid;
  const BoxLayout layout = lay_out_box(spec, box);
  Build build{spec, layout, draft, unsaid, {}, {}, {}};
  const bool built = build_frame(build);
  const Shell& shell = build.shell;
  // A frame that is too small for its members as yet still knows its walls.
  if (!built && shell.size.z <= 0) {
    for (const Diagnostic& d : unsaid.all()) diagnostics.add(d);
    return std::nullopt;
  }
  const Vec3 low{shell.side_wall_mm, shell.end_wall_mm, shell.floor_mm};
  return Walls{low, shell.size - layout.inside - low};
}

// One direction of a box: what its sum is made of.
class Direction {
 public:
  Direction(Build& words, const Spec& spec, BoxSpec& box, std::size_t axis, const Walls& walls)
      : words_(words),
        spec_(spec),
        box_(box),
        axis_(axis),
        low_(along(walls.low, axis)),
        high_(along(walls.high, axis)) {
    ClearanceSpec& c = box.clearance;
    if (axis == 0) sides_ = {{&c.left, "left"}, {&c.right, "right"}};
    if (axis == 1) sides_ = {{&c.front, "front"}, {&c.back, "back"}};
    if (axis == 2) sides_ = {{&c.top, "top"}};
  }

  void fit(double inside_mm) {
    const Sourced<std::array<Length, 3>>& outside = *box_.outside;
    const double given = outside.value[axis_].mm();
    const double left = given - low_ - high_ - inside_mm;
    std::vector<Measured*> open;
    for (const auto& [side, name] : sides_) {
      if (!side->given) open.push_back(side);
    }
    if (left < -tolerance::contact_mm || (open.empty() && left > tolerance::contact_mm)) return say(left, open.empty());
    const double share = std::max(0.0, left) / static_cast<double>(std::max<std::size_t>(open.size(), 1));
    for (Measured* side : open) side->value = Length::mm(share);
  }

 private:
  void say(double left, bool all_given) {
    const Sourced<std::array<Length, 3>>& outside = *box_.outside;
    const double given = outside.value[axis_].mm();
    const double sum = given - left;
    const char* direction = direction_words[axis_];
    std::string keys;
    for (const auto& [side, name] : sides_) {
      if (side->given != all_given) continue;
      keys += fmt::format("{}clearance.{}", keys.empty() ? "" : all_given ? " or " : " and ", name);
    }
    const std::string said = words_.in_words(given);
    if (all_given) {
      words_.diagnostics.add(diag::say<"outside-differs">(outside.place, said, direction, words_.in_words(sum), terms(),
                                                          words_.in_words(std::abs(left)),
                                                          left < 0 ? "too much" : "too little", keys));
    } else {
      words_.diagnostics.add(diag::say<"outside-too-small">(outside.place, said, direction, words_.in_words(sum),
                                                            terms(), keys, words_.in_words(-left), words_.at_least(sum),
                                                            direction));
    }
  }

  // "frame 4 mm + clearance left 8 mm + 6 x block 150 mm + 5 x plate 12 mm + frame 4 mm"
  [[nodiscard]] std::string terms() const {
    const bool upward = axis_ == 2;
    std::string out = fmt::format("{} {}", upward ? "floor" : "frame", words_.in_words(low_));
    const auto clearance = [&](const std::pair<Measured*, const char*>& side) {
      if (side.first->given)
        out += fmt::format(" + clearance {} {}", side.second, words_.in_words(side.first->value.mm()));
    };
    const auto plate = [&](const char* name) {
      for (const Face face : all_faces) {
        const double takes = to_text(face) == name ? set_in_mm(spec_, box_, face) : 0;
        if (takes > 0) out += fmt::format(" + {} plate {}", name, words_.in_words(takes));
      }
    };
    if (!upward) plate(sides_.front().second);
    if (!upward) clearance(sides_.front());
    out += axis_ == 0 ? across() : stacked();
    clearance(sides_.back());
    plate(sides_.back().second);
    return out + fmt::format(" + frame {}", words_.in_words(high_));
  }

  [[nodiscard]] double size(const std::string& item, int quarters) const {
    const auto& s = *spec_.item(item)->size;
    if (axis_ == 2) return s[2].mm();
    return s[(axis_ + static_cast<std::size_t>(quarters)) % 2].mm();
  }

  // The longest line, entry by entry.
  [[nodiscard]] std::string across() const {
    std::map<std::pair<int, int>, std::pair<double, std::string>> rows;
    for (const RowEntry& entry : box_.row) {
      auto& row = rows[{*entry.line, *entry.level}];
      const auto add = [&](int count, double each, const std::string& name) {
        if (count == 0 || each == 0) return;
        row.first += count * each;
        row.second += count == 1 ? fmt::format(" + {} {}", name, words_.in_words(each))
                                 : fmt::format(" + {} x {} {}", count, name, words_.in_words(each));
      };
      const char* placed = entry.at ? " (its length, though it is placed by at)" : "";
      add(*entry.count, size(*entry.of, *entry.turned), *entry.of + placed);
      if (entry.between) add(*entry.count - 1, size(**entry.between, 0), **entry.between);
      if (!entry.between && entry.gap) add(*entry.count - 1, (*entry.gap)->mm(), "gap");
    }
    const auto longest = std::max_element(rows.begin(), rows.end(),
                                          [](const auto& a, const auto& b) { return a.second.first < b.second.first; });
    return longest->second.second;
  }

  struct Largest {
    double size = 0;
    std::string name;
  };

  // Line behind line by the deepest item of each; level on level, in the highest line, by the highest.
  [[nodiscard]] std::string stacked() const {
    std::map<int, std::map<int, Largest>> all;
    for (const RowEntry& entry : box_.row) {
      Largest& largest = axis_ == 1 ? all[0][*entry.line] : all[*entry.line][*entry.level];
      const auto reach = [&](double mm, const std::string& name) {
        if (mm > largest.size) largest = {mm, name};
      };
      reach(size(*entry.of, *entry.turned), *entry.of);
      if (entry.between) reach(size(**entry.between, 0), **entry.between);
    }
    double most = -1;
    std::string said;
    for (const auto& [line, parts] : all) {
      double sum = 0;
      std::string words;
      for (const auto& [number, largest] : parts) {
        if (axis_ == 1 && number != parts.begin()->first && box_.line_gap->mm() > 0)
          words += fmt::format(" + line_gap {}", words_.in_words(box_.line_gap->mm()));
        words += fmt::format(" + {} {}", largest.name, words_.in_words(largest.size));
        sum += largest.size;
      }
      if (sum > most) said = words;
      most = std::max(most, sum);
    }
    return said;
  }

  Build& words_;
  const Spec& spec_;
  BoxSpec& box_;
  std::size_t axis_;
  double low_;
  double high_;
  std::vector<std::pair<Measured*, const char*>> sides_;
};

}  // namespace

std::optional<BoxSpec> fit_outside(const Spec& spec, const BoxSpec& box, Diagnostics& diagnostics) {
  BoxSpec out = box;
  if (!box.outside) return out;
  bool fits = true;
  // Across and deep first: whether there are rails follows from where the items stand, and the height from that.
  for (std::size_t axis = 0; axis < 3; ++axis) {
    const auto walls = walls_of(spec, out, diagnostics);
    if (!walls) return std::nullopt;
    if ((**box.outside)[axis] <= Length::mm(0)) continue;
    const BoxLayout layout = lay_out_box(spec, out);
    Draft none;
    Diagnostics said;
    Build words{spec, layout, none, said, {}, {}, {}};
    Direction(words, spec, out, axis, *walls).fit(along(layout.inside, axis));
    for (const Diagnostic& d : said.all()) diagnostics.add(d);
    fits = fits && !said.has_errors();
  }
  if (!fits) return std::nullopt;
  return out;
}

}  // namespace fitup::plan
