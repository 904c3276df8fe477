#pragma once
// The kernel prints its messages on standard output unless told not to.

namespace fitup::solid {

/// Takes away the kernel's printers. Any number of times, from any thread.
void silence_kernel();

}  // namespace fitup::solid
