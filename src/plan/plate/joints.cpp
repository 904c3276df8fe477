// Tabs, slots, stepped edges and half-laps in closed form.
// Entry: tabs_along, closed_slot, stepped_outline, half_lap.
#include "plan/plate/joints.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "fitup/sheet_fit.h"
#include "fitup/tolerances.h"

namespace fitup::plan::plate {

namespace {

// Of a tab's length, in thicknesses, and of the distance from one to the next (common practice).
constexpr double shortest_tab = 2.5;
constexpr double longest_tab = 10;
constexpr double tab_of_seam = 5;
constexpr double tab_pitch = 40;
constexpr double beside_tab = 1;       // free seam beside a tab, at least
constexpr double relief_of_sheet = 4;  // a relief's radius is the sheet's thickness divided by this
constexpr double least_relief_mm = 0.4;
constexpr double relief_of_slot = 5;    // and not more than the slot's width divided by this
constexpr double widest_relief = 0.24;  // of the slot's width: a radius of a quarter would leave nothing of its end

// One level of an edge, in the direction in which the outline runs.
struct Run {
  double from = 0;
  double to = 0;
  double out_mm = 0;
};

double level_at(const std::vector<Step>& steps, double at) {
  double out = 0;
  for (const Step& step : steps) {
    if (step.along.from_mm < at && at < step.along.to_mm) out = step.out_mm;
  }
  return out;
}

std::vector<Run> runs_of(const std::vector<Step>& steps, double length) {
  std::vector<double> cuts{0, length};
  for (const Step& step : steps) {
    cuts.push_back(std::clamp(step.along.from_mm, 0.0, length));
    cuts.push_back(std::clamp(step.along.to_mm, 0.0, length));
  }
  std::sort(cuts.begin(), cuts.end());
  std::vector<Run> runs;
  for (std::size_t i = 0; i + 1 < cuts.size(); ++i) {
    if (cuts[i + 1] - cuts[i] <= tolerance::contact_mm) continue;
    const double out = level_at(steps, (cuts[i] + cuts[i + 1]) / 2);
    if (!runs.empty() && runs.back().out_mm == out) {
      runs.back().to = cuts[i + 1];
    } else {
      runs.push_back({runs.empty() ? 0 : runs.back().to, cuts[i + 1], out});
    }
  }
  return runs;
}

// A side of the rectangle as the outline runs along it, counter-clockwise.
struct Frame2 {
  Vec2 begin;
  Vec2 along;
  Vec2 out;
  [[nodiscard]] Vec2 at(double s, double out_mm) const { return begin + s * along + out_mm * out; }
};

class Outline {
 public:
  Outline(Vec2 size, const std::array<std::vector<Step>, 4>& sides, double relief) : relief_(relief) {
    frames_ = {Frame2{{0, 0}, {1, 0}, {0, -1}}, Frame2{{size.x, 0}, {0, 1}, {1, 0}},
               Frame2{{size.x, size.y}, {-1, 0}, {0, 1}}, Frame2{{0, size.y}, {0, -1}, {-1, 0}}};
    for (std::size_t i = 0; i < 4; ++i) {
      const double length = i % 2 == 0 ? size.x : size.y;
      runs_[i] = runs_of(sides[i], length);
      if (i >= top_side) turn_round(runs_[i], length);
    }
    // A corner lies where the levels on both sides of it meet.
    for (std::size_t i = 0; i < 4; ++i) {
      runs_[i].front().from = -runs_[(i + 3) % 4].back().out_mm;
      runs_[i].back().to = (i % 2 == 0 ? size.x : size.y) + runs_[(i + 1) % 4].front().out_mm;
    }
  }

  [[nodiscard]] Loop loop() {
    for (std::size_t i = 0; i < 4; ++i) {
      for (std::size_t r = 0; r < runs_[i].size(); ++r) add(frames_[i], runs_[i], r);
    }
    return loop_;
  }

 private:
  static void turn_round(std::vector<Run>& runs, double length) {
    std::reverse(runs.begin(), runs.end());
    for (Run& run : runs) run = {length - run.to, length - run.from, run.out_mm};
  }

  // A level, relieved at either end where the next one stands out; the last corner of a side begins the next side.
  void add(const Frame2& side, const std::vector<Run>& runs, std::size_t r) {
    const Run& run = runs[r];
    const bool last = r + 1 == runs.size();
    const double ear = std::min(2 * relief_, (run.to - run.from) / 3);
    loop_.vertices.push_back({side.at(run.from, run.out_mm), 0});
    if (r > 0 && runs[r - 1].out_mm > run.out_mm) {
      loop_.vertices.back().bulge = -1;
      loop_.vertices.push_back({side.at(run.from + ear, run.out_mm), 0});
    }
    if (last) return;
    if (runs[r + 1].out_mm > run.out_mm) loop_.vertices.push_back({side.at(run.to - ear, run.out_mm), -1});
    loop_.vertices.push_back({side.at(run.to, run.out_mm), 0});
  }

  double relief_;
  std::array<Frame2, 4> frames_;
  std::array<std::vector<Run>, 4> runs_;
  Loop loop_;
};

}  // namespace

JointFit joint_fit(double thickness_mm, bool steel, CutClass tolerance) {
  return {thickness_mm, tables::sheet_thicker_by_mm(thickness_mm, steel),
          tables::cut_permits_mm(thickness_mm, tolerance)};
}

double beside_slot_mm(const JointFit& fit, double smallest_web) {
  return std::max(1.0, smallest_web) * fit.thickness_mm + (fit.slot_mm() - fit.thickness_mm) / 2;
}

std::vector<Stretch> tabs_along(double seam_mm, double thickness_mm, int aside, std::optional<double> beside_mm) {
  const double length =
      std::floor(std::clamp(seam_mm / tab_of_seam, shortest_tab * thickness_mm, longest_tab * thickness_mm));
  const double needed = length + 2 * beside_mm.value_or(beside_tab * thickness_mm);
  if (seam_mm < needed - tolerance::contact_mm) return {};
  const double room = std::floor(seam_mm / needed + tolerance::direction);
  const double count = std::min(std::max(2.0, std::ceil(seam_mm / (tab_pitch * thickness_mm))), room);
  const double pitch = seam_mm / count;
  const double moved = aside * (pitch - length) / 4;
  std::vector<Stretch> out;
  for (int i = 0; i < static_cast<int>(count); ++i) {
    const double middle = (i + 0.5) * pitch + moved;
    out.push_back({middle - length / 2, middle + length / 2});
  }
  return out;
}

double relief_mm(double thickness_mm, double least_mm) {
  return std::max({thickness_mm / relief_of_sheet, least_relief_mm, least_mm});
}

Loop closed_slot(Vec2 low, Vec2 high, double relief_mm, double least_mm) {
  const bool upright = high.y - low.y > high.x - low.x;
  const Vec2 size = upright ? Vec2{high.y - low.y, high.x - low.x} : high - low;
  const double ear =
      2 * std::max(std::min(relief_mm, size.y / relief_of_slot), std::min(least_mm, widest_relief * size.y));
  const std::vector<Vertex> lying{
      {{0, 0}, 0},           {{size.x, 0}, 1}, {{size.x, ear}, 0},     {{size.x, size.y - ear}, 1},
      {{size.x, size.y}, 0}, {{0, size.y}, 1}, {{0, size.y - ear}, 0}, {{0, ear}, 1}};
  Loop slot;
  for (const Vertex& v : lying) {
    // Standing, it is turned by a quarter.
    const Vec2 at = upright ? Vec2{size.y - v.at.y, v.at.x} : v.at;
    slot.vertices.push_back({low + at, v.bulge});
  }
  return slot;
}

Loop stepped_outline(Vec2 size, const std::array<std::vector<Step>, 4>& sides, double relief_mm) {
  return Outline(size, sides, relief_mm).loop();
}

HalfLap half_lap(double shared_mm, const JointFit& through) {
  return {through.slot_mm(), (shared_mm + through.longer_mm()) / 2};
}

}  // namespace fitup::plan::plate
