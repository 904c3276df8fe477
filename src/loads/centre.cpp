// Centre of volume of a part from its prisms.
// Entry: centre_of.
#include "fitup/weight.h"

namespace fitup {

namespace {

/// A volume with its first moment.
struct Moment {
  double mm3 = 0;
  Vec3 mm4;

  void add(double volume_mm3, Vec3 centre) {
    mm3 += volume_mm3;
    mm4 = mm4 + volume_mm3 * centre;
  }
};

constexpr double pi = 3.14159265358979323846;

void add_prism(Moment& sum, const Prism& prism) {
  const Vec2 c = prism.profile.centroid();
  sum.add(prism.volume_mm3(), prism.pose.point({c.x, c.y, prism.length_mm / 2}));
}

Moment of_prisms(const std::vector<Prism>& prisms) {
  Moment sum;
  for (const Prism& prism : prisms) add_prism(sum, prism);
  return sum;
}

Moment of_body(const Body& body) {
  Moment sum = of_prisms(body.outer);
  if (!body.exact) {
    const Moment inner = of_prisms(body.inner);
    sum = {(sum.mm3 + inner.mm3) / 2, 0.5 * (sum.mm4 + inner.mm4)};
  }
  for (const Bore& bore : body.bores) {
    const double volume = pi / 4 * bore.diameter_mm * bore.diameter_mm * bore.length_mm;
    sum.add(-volume, bore.pose.point({0, 0, bore.length_mm / 2}));
  }
  return sum;
}

}  // namespace

Vec3 centre_of(const Part& part) {
  const Moment sum = of_body(body_of(part));
  return sum.mm3 > 0 ? (1 / sum.mm3) * sum.mm4 : Vec3{};
}

}  // namespace fitup
