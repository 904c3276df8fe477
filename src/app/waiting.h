#pragma once
// Work that can be left: done on a thread of its own, so that an interrupt need not wait for what looks at nothing,
// such as one long call of the solid kernel.

#include <chrono>
#include <functional>
#include <optional>

#include "app/outcome.h"

namespace fitup::app {

/// While one of these lives, the work is not left: what is being written is finished first.
class Undisturbed {
 public:
  Undisturbed();
  ~Undisturbed();
  Undisturbed(const Undisturbed&) = delete;
  Undisturbed& operator=(const Undisturbed&) = delete;
};

/// What was asked for is done, and only telling of it is left: from here on the work is waited for.
void all_done();

/// How the waiting is done: time between two looks, and looks after `stop` before the work is left.
struct Patience {
  std::chrono::milliseconds between{10};
  int looks = 6;
};

/// The work's outcome. Nothing where `stop` said so, the work did not end by itself within the patience, and no
/// Undisturbed lives, and it is not all done: the work then still goes on, and the process must be ended without
/// returning to what it refers to. `tick` is called at each look, with their number. What the work throws is thrown
/// here.
[[nodiscard]] std::optional<Outcome> wait_for(const std::function<Outcome()>& work, const std::function<bool()>& stop,
                                              const std::function<void(int)>& tick, Patience patience = {});

}  // namespace fitup::app
