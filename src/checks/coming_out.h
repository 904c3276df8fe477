#pragma once
// What must be taken off before an item comes out of the complete box, its covers off.

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "checks/ways.h"

namespace fitup::checks {

[[nodiscard]] bool holds_item(const Plan& plan, const Step& step);
/// The box that a key is of; null where it names none.
[[nodiscard]] const PlacedFrame* frame_of(const Plan& plan, const std::string& key);

class ComingOut {
 public:
  /// `passages`: how each step came to its place; it leaves the other way round.
  ComingOut(const Scene& scene, const Ways& ways, const std::map<std::size_t, Passage>& passages);

  struct First {
    std::optional<std::set<std::size_t>> steps;  // that must be taken off before; none where one of them cannot be
    InstanceId by = 0;                           // what stands in the way then
  };
  [[nodiscard]] First before(std::size_t step) const;

 private:
  /// The instance whose step brought a thing; of a bead the later of its two.
  [[nodiscard]] InstanceId came_with(Thing t) const;
  [[nodiscard]] std::vector<InstanceId> blocks_of(std::size_t step) const;
  [[nodiscard]] bool take_off(std::size_t step, std::set<std::size_t>& on_the_way, std::set<std::size_t>& off,
                              InstanceId& by) const;

  const Scene& scene_;
  const Plan& plan_;
  const Ways& ways_;
  const std::map<std::size_t, Passage>& passages_;
  std::vector<std::size_t> step_of_;  // index: InstanceId
  Standing complete_;                 // without the covers and their screws
};

/// "with the covers off each comes out alone", or what must be off before them.
[[nodiscard]] std::string words_of_out(const Plan& plan, const std::map<std::size_t, std::set<std::size_t>>& out);

}  // namespace fitup::checks
