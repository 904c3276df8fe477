// Waits for work on another thread, and leaves it when it takes no notice of an interrupt.
// Entry: wait_for.
#include "app/waiting.h"

#include <atomic>
#include <future>
#include <thread>

namespace fitup::app {

namespace {

std::atomic<int> undisturbed{0};

}  // namespace

Undisturbed::Undisturbed() { ++undisturbed; }
Undisturbed::~Undisturbed() { --undisturbed; }

std::optional<Outcome> wait_for(const std::function<Outcome()>& work, const std::function<bool()>& stop,
                                const std::function<void(int)>& tick, Patience patience) {
  // The thread holds all that it needs to end: it may outlive this call.
  auto task = std::make_shared<std::packaged_task<Outcome()>>(work);
  std::future<Outcome> outcome = task->get_future();
  std::thread worker([task] { (*task)(); });
  int since_stop = 0;
  for (int look = 1; outcome.wait_for(patience.between) != std::future_status::ready; ++look) {
    tick(look);
    since_stop += stop() ? 1 : 0;
    if (since_stop < patience.looks || undisturbed > 0) continue;
    worker.detach();
    return std::nullopt;
  }
  worker.join();
  return outcome.get();
}

}  // namespace fitup::app
