// The flag that a signal handler sets and that long work looks at.
// Entry: interrupt_requested, request_interrupt.

#include <atomic>

#include "fitup/job.h"

namespace fitup {
namespace {

// Lock-free, hence allowed in a signal handler.
std::atomic<bool> flag{false};
static_assert(std::atomic<bool>::is_always_lock_free);

}  // namespace

bool interrupt_requested() { return flag.load(std::memory_order_relaxed); }

void request_interrupt() { flag.store(true, std::memory_order_relaxed); }

}  // namespace fitup
