#pragma once
// Any bytes as a DXF, STL or STEP file: read, worked out and judged.

#include <string_view>

namespace fitup::test {

/// Each ends the process with a word on standard error if a promise is broken: the reader comes to an end, what it read
/// is finite, every message is fit for a terminal, and the same bytes give the same findings. The kernel takes no part.
void any_dxf(std::string_view bytes);
void any_stl(std::string_view bytes);
void any_step(std::string_view bytes);

}  // namespace fitup::test
