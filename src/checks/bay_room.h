#pragma once
// What the bay round a box leaves for tools.

#include <array>
#include <optional>

#include "checks/reach_words.h"
#include "fitup/plan.h"

namespace fitup::checks {

class BayRoom {
 public:
  /// Of the box that the instance belongs to.
  BayRoom(const Plan& plan, InstanceId id);
  [[nodiscard]] bool stated() const;
  /// The face at which a tool and its handle ask for most beyond what is stated; none where they find room.
  [[nodiscard]] std::optional<Lacking> lacking(const Prism& column, const Prism* swing = nullptr) const;

 private:
  const PlacedFrame* frame_;
};

}  // namespace fitup::checks
