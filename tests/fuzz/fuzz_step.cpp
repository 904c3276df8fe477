// The fuzzer's way into the reader of STEP.
// Entry: LLVMFuzzerTestOneInput.

#include <cstddef>
#include <cstdint>

#include "fuzz/any_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  fitup::test::any_step({reinterpret_cast<const char*>(bytes), size});
  return 0;
}
