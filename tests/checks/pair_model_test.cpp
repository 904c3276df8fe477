// Every rule against two judges: what the pair was made to be, and the kernel's common volume and distance.
#include <cstdlib>

#include <gtest/gtest.h>

#include "checks/generated_pairs.h"
#include "checks/kernel_judge.h"
#include "checks/rules.h"

namespace fitup {
namespace {

using checks::Decision;

const char* word(Decision d) {
  switch (d) {
    case Decision::clear: return "clear";
    case Decision::touch: return "touch";
    case Decision::overlap: return "overlap";
    case Decision::unsure: return "unsure";
  }
  return "";
}

struct Family {
  const char* name;
  std::vector<generated::Kind> (*kinds)();
  unsigned seed;
  int rounds;
  double unsure_share;  // at most
};

void PrintTo(const Family& f, std::ostream* out) { *out << f.name; }

class GeneratedPairs : public testing::TestWithParam<Family> {};

TEST_P(GeneratedPairs, AgreeWithTheirMakingAndWithTheKernel) {
  const Family& family = GetParam();
  const auto pairs = generated::draw(family.kinds(), family.seed, family.rounds);
  std::cout << family.name << ": seed " << family.seed << ", " << pairs.size() << " pairs\n";
  std::size_t unsure = 0;
  for (const auto& pair : pairs) {
    const Decision rule = checks::decide(checks::place(pair.a, pair.at), checks::place(pair.b, pair.at));
    const auto kernel = judge::measure(pair.a, pair.at, pair.b, pair.at);
    SCOPED_TRACE(testing::Message() << pair.what << ", apart by " << pair.apart_mm << " mm, shared volume "
                                    << kernel.volume_mm3 << " mm3, " << kernel.thickness_mm << " mm thick, distance "
                                    << kernel.distance_mm << " mm");
    if (rule == Decision::unsure) {
      ++unsure;
      continue;
    }
    EXPECT_EQ(word(rule), word(pair.expected)) << "as made";
    if (kernel.on_the_edge()) continue;
    EXPECT_EQ(word(rule), word(kernel.verdict())) << "kernel";
  }
  EXPECT_LE(static_cast<double>(unsure), family.unsure_share * static_cast<double>(pairs.size()));
  EXPECT_GT(pairs.size(), 200U);
}

INSTANTIATE_TEST_SUITE_P(All, GeneratedPairs,
                         testing::Values(Family{"spans", generated::span_kinds, 11, 14, 0},
                                         Family{"discs", generated::disc_kinds, 12, 16, 0},
                                         Family{"rectangles", generated::rectangle_kinds, 13, 20, 0},
                                         Family{"regions", generated::region_kinds, 14, 8, 0},
                                         Family{"crossing", generated::crossing_kinds, 15, 8, 0},
                                         // A rod that cuts into a bore's wall is left to the kernel: 2 of 7 offsets.
                                         Family{"bores", generated::bore_kinds, 16, 9, 0.2}),
                         [](const auto& family) { return std::string(family.param.name); });

}  // namespace
}  // namespace fitup
