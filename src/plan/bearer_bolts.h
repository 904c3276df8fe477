#pragma once
// The bolts that hold bearers to one of two boxes: where they find a flat seat, and whether they can be reached.
// Private to the plan.

#include <array>
#include <optional>
#include <vector>

#include "plan/boxes.h"
#include "plan/room.h"

namespace fitup::plan {

class BearerBolts {
 public:
  /// To the seat of this box, both in the whole. What stands there now must leave their heads and nuts free.
  BearerBolts(Build& whole, const BearersSpec& spec, const Section& bearer, const Seat& seat, const StandingBox& box);

  /// A place on the legs at the front and the back, clear of root and toe. If there is none: says so, false.
  [[nodiscard]] bool find_seats();

  /// From an angle's heel.
  [[nodiscard]] double across_mm() const { return across_mm_; }

  /// What is in the way of the bolts at this X, at the front or the back, whichever side their heads are on.
  [[nodiscard]] std::optional<InstanceId> blocked(double x) const;

  /// One at the front and one at the back, at this X.
  void add(InstanceId bearer, double x, const Origin& origin);

 private:
  struct Reach {
    bool turned = false;  // the nut lies on the bearer
    std::optional<InstanceId> blocks;
  };
  [[nodiscard]] Reach reach(double x, Side depth) const;
  [[nodiscard]] std::optional<InstanceId> blocked(double x, Side depth, bool turned) const;
  [[nodiscard]] std::optional<InstanceId> meets_item(Vec3 head_seat, Vec3 nut_seat, Vec3 direction,
                                                     double tip_mm) const;
  [[nodiscard]] std::optional<double> on_leg(const Section& section, double leg_mm, const std::string& name,
                                             double begins_mm) const;
  [[nodiscard]] bool clears_flange(const Section& leg, const Host& host, Side depth) const;
  [[nodiscard]] Vec3 into() const;
  [[nodiscard]] double grip_mm() const;
  [[nodiscard]] Vec3 on_bearer(double x, Side depth) const;
  void add(InstanceId bearer, double x, Side depth, const Origin& origin);

  Build& build_;
  const BearersSpec& spec_;
  const Section& bearer_;
  const Seat& seat_;
  const StandingBox& box_;
  bool below_;  // the seat is the top of a box below the bearers
  std::vector<Taken> taken_;
  std::vector<Taken> items_;
  double across_mm_ = 0;
  std::array<double, 2> y_{};  // front, back
};

}  // namespace fitup::plan
