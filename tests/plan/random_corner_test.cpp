// End cuts at generated corners: sections out of the table, any attitude, any place, both ends. Either the cut keeps
// every rule or the member is refused for a reason that holds.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fmt/format.h>
#include <algorithm>
#include <cmath>

#include "fitup/tolerances.h"
#include "geometry/draws.h"
#include "geometry/region.h"
#include "plan/rules.h"
#include "plan/sound.h"

namespace fitup::test {
namespace {

using plan::Obstacle;

struct Corner {
  Obstacle bar;
  std::vector<Obstacle> earlier;
  double gap_mm = 1;
  CornerKind kind = CornerKind::chamfer;
};

class Maker : Draws {
 public:
  using Draws::Draws;

  // A bar along Y, and at each end one or two bars along X and Z that begin about the corner.
  Corner corner() {
    Corner c;
    const double length = 420;
    c.bar = standing("bar", pick(80), axis::y, quarter(), {offset(), 0, offset()}, length);
    for (const double end : {0.0, length}) {
      const bool x_first = flip();
      if (x_first || flip()) c.earlier.push_back(crossbar("x bar", axis::x, end, length));
      if (!x_first || flip()) c.earlier.push_back(crossbar("z bar", axis::z, end, length));
    }
    c.gap_mm = std::vector<double>{1, 1, 1, 0.5, 2, 0}[whole(0, 5)];
    c.kind = flip() ? CornerKind::chamfer : CornerKind::radius;
    return c;
  }

 private:
  int quarter() { return whole(0, 3); }
  // Mostly flush, else a few millimetres off.
  double offset() {
    if (whole(0, 2) > 0) return 0;
    return flip() ? whole(-12, 12) : between(-12, 12);
  }

  const Section& pick(double widest) {
    const auto& all = tables::sections();
    for (;;) {
      const Section& s = all[static_cast<std::size_t>(whole(0, static_cast<int>(all.size()) - 1))];
      // A tube is not coped.
      if (s.leg_a_mm <= widest && s.shape != SectionShape::tube) return s;
    }
  }

  Obstacle crossbar(const std::string& name, Vec3 run, double end, double length) {
    Obstacle bar = standing(name, pick(100), run, quarter(), {}, 300);
    const Box3 box = bounds(bar);
    // Its outer side at the end of the bar, the rest towards the middle; along its run it begins near the corner.
    const double y = end == 0 ? offset() : length - box.size().y - offset();
    const double begin = whole(0, 3) == 0 ? -150 : offset();
    const Vec3 low = run == axis::x ? Vec3{begin, y, offset()} : Vec3{offset(), y, begin};
    bar.pose = bar.pose.moved(low - box.low);
    return bar;
  }
};

double stub_of(const Section& s) { return std::max(2 * s.thickness_mm, 10.0); }

// How far back an end may stand from what it yields to: the gap at a grown corner, a stub cut off beside it, the
// toe's rounding that counts as square.
double slack_of(const Corner& c) {
  double toe = 0;
  for (const Obstacle& o : c.earlier) toe = std::max(toe, o.section.toe_radius_mm);
  return std::sqrt(3.0) * c.gap_mm + stub_of(c.bar.section) + (std::sqrt(2.0) - 1) * toe;
}

std::vector<double> places_over(double width) {
  std::vector<double> out{1e-4};
  for (double at = 0.4; at < width; at += 0.4) out.push_back(at);
  out.push_back(width - 1e-4);
  return out;
}

// The places along the bar that some column through its section finds inside the grown obstacle.
std::pair<double, double> touched(const Obstacle& bar, const Obstacle& other, double gap) {
  const Section& s = bar.section;
  const geometry::Region region(profile_of(s));
  double low = 1e300;
  double high = -1e300;
  const Box3 box = bounds(other);
  for (const double x : places_over(s.leg_a_mm)) {
    for (const double y : places_over(s.shape == SectionShape::angle ? s.leg_b_mm : s.thickness_mm)) {
      if (!region.contains({x, y})) continue;
      for (double world_y = std::max(0.01, box.low.y - gap); world_y < std::min(bar.length_mm, box.high.y + gap);
           world_y += 0.5) {
        Vec3 place = bar.pose.point({x, y, 0});
        place.y = world_y;
        if (!grown_contains(other, gap, place)) continue;
        const double along = bar.pose.local(place).z;
        low = std::min(low, along);
        high = std::max(high, along);
      }
    }
  }
  return {low, high};
}

std::string place(const Obstacle& o) {
  const Box3 box = bounds(o);
  const Vec3 heel = o.pose.origin();
  return fmt::format("{} {}: {:.3f} {:.3f} {:.3f} to {:.3f} {:.3f} {:.3f}, heel {:.3f} {:.3f} {:.3f}", o.name,
                     o.section.designation, box.low.x, box.low.y, box.low.z, box.high.x, box.high.y, box.high.z, heel.x,
                     heel.y, heel.z);
}

std::string words(const Corner& c, const Yielded& y) {
  std::string out = c.bar.section.designation + " start A " + to_words(y.member.start.a) + ", B " +
                    to_words(y.member.start.b) + "; end A " + to_words(y.member.end.a) + ", B " +
                    to_words(y.member.end.b) + "; before it";
  out += fmt::format(" (gap {:g})", c.gap_mm);
  for (const Obstacle& o : c.earlier) out += "\n  " + place(o);
  return out + "\n  " + place(c.bar);
}

void expect_refused_rightly(const Corner& c, const Yielded& y) {
  EXPECT_EQ(y.pose, c.bar.pose);
  EXPECT_EQ(y.member.length_mm, c.bar.length_mm);
  EXPECT_EQ(y.member.start, plan::square_cut(c.bar.section));
  // It leaves more than a stub standing beyond it at either end (to the grid of the search), as the words say.
  bool found = y.result.problem.find("would be left whole") != std::string::npos;
  for (const Obstacle& o : c.earlier) {
    if (!y.result.problem.starts_with(o.name + " crosses it")) continue;
    const auto [low, high] = touched(c.bar, o, c.gap_mm);
    if (high < low) continue;
    const double stub = stub_of(c.bar.section);
    found = found || (low > stub - 1 && high < c.bar.length_mm - stub + 1) || high > c.bar.length_mm / 2 - 1;
  }
  EXPECT_TRUE(found) << y.result.problem;
}

// Without the kernel, so that there can be many.
TEST(RandomCorner, keeps_every_rule_or_is_refused_for_a_reason) {
  const unsigned seed = 4711;
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  Maker maker(seed);
  int refused = 0;
  int cut = 0;
  int cornered = 0;
  for (int i = 0; i < 1500 && !testing::Test::HasFailure(); ++i) {
    const Corner c = maker.corner();
    const Yielded y = yield(c.bar, c.earlier, c.gap_mm, c.kind);
    SCOPED_TRACE(testing::Message() << "corner " << i << ": " << words(c, y));
    if (!y.result.ok) {
      ++refused;
      expect_refused_rightly(c, y);
      continue;
    }
    if (!(y.member.start == plan::square_cut(c.bar.section))) ++cut;
    if (!y.member.start.a.corners.empty() || !y.member.start.b.corners.empty()) ++cornered;
    EXPECT_THAT(shape_faults(y.member), testing::IsEmpty());
    EXPECT_THAT(clearance_faults(y, c.earlier, c.gap_mm), testing::IsEmpty());
    EXPECT_THAT(slack_faults(c.bar, y, c.earlier, slack_of(c)), testing::IsEmpty());
    if (i % 5 == 0) {
      EXPECT_THAT(thickness_faults(y, c.earlier, c.gap_mm), testing::IsEmpty());
    }
  }
  // The generator makes all three kinds, none of them rarely.
  EXPECT_GT(refused, 100);
  EXPECT_GT(cut, 300);
  EXPECT_GT(cornered, 100);
}

TEST(RandomCorner, is_sound_to_the_kernel) {
  const unsigned seed = 1815;
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  Maker maker(seed);
  int judged = 0;
  for (int i = 0; judged < 60 && !testing::Test::HasFailure(); ++i) {
    const Corner c = maker.corner();
    const Yielded y = yield(c.bar, c.earlier, c.gap_mm, c.kind);
    if (!y.result.ok) continue;
    ++judged;
    SCOPED_TRACE(testing::Message() << "corner " << i << ": " << words(c, y));
    expect_sound(c.bar, y, c.earlier, c.gap_mm, slack_of(c));
  }
}

}  // namespace
}  // namespace fitup::test
