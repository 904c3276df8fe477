// The fuzzer's way in.
// Entry: LLVMFuzzerTestOneInput.

#include <cstddef>
#include <cstdint>

#include "fuzz/text_to_plan.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  fitup::test::text_to_plan({reinterpret_cast<const char*>(bytes), size});
  return 0;
}
