// The fuzzer's way into the reader of DXF.
// Entry: LLVMFuzzerTestOneInput.

#include <cstddef>
#include <cstdint>

#include "fuzz/any_file.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
  fitup::test::any_dxf({reinterpret_cast<const char*>(bytes), size});
  return 0;
}
