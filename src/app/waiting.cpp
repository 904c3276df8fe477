// Waits for work on another thread, and leaves it when it takes no notice of an interrupt.
// Entry: wait_for.
#include "app/waiting.h"

#include <atomic>
#include <future>
#include <thread>

namespace fitup::app {

namespace {

std::atomic<int> undisturbed{0};
std::atomic<bool> done{false};

}  // namespace

Undisturbed::Undisturbed() { ++undisturbed; }
Undisturbed::~Undisturbed() { --undisturbed; }

void all_done() { done = true; }

std::optional<Outcome> wait_for(const std::function<Outcome()>& work, const std::function<bool()>& stop,
                                const std::function<void(int)>& tick, Patience patience) {
  done = false;
  // The thread holds all that it needs to end: it may outlive this call.
  auto task = std::make_shared<std::packaged_task<Outcome()>>(work);
  std::future<Outcome> outcome = task->get_future();
  std::thread worker([task] { (*task)(); });
  int since_stop = 0;
  for (int look = 1; outcome.wait_for(patience.between) != std::future_status::ready; ++look) {
    tick(look);
    since_stop += stop() ? 1 : 0;
    // What has been written has its time to come to an end by itself.
    if (undisturbed > 0) since_stop = 0;
    if (since_stop < patience.looks || done) continue;
    worker.detach();
    return std::nullopt;
  }
  worker.join();
  return outcome.get();
}

}  // namespace fitup::app
