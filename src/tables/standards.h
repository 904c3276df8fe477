#pragma once
// By which standard something is ordered, where its size decides.

#include <string_view>

namespace fitup::tables {

/// Of the lifting eye of this thread: metric ones by DIN 580, unified ones by ASME B18.15.
[[nodiscard]] std::string_view eye_standard(std::string_view size);

}  // namespace fitup::tables
