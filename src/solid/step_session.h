#pragma once
// The kernel's STEP settings are process-wide: one file at a time.

#include <mutex>

#include "fitup/formats.h"

namespace fitup::solid {

/// Holds the kernel's STEP settings, as this program wants them, for as long as it lives. Make it before the
/// kernel's reader or writer: a schema set later reaches the header and not the data. Throws inside `guarded`.
class StepSession {
 public:
  explicit StepSession(StepSchema schema = StepSchema::ap242);

 private:
  std::unique_lock<std::mutex> lock_;
};

}  // namespace fitup::solid
