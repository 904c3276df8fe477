#pragma once
// A DXF text as pairs of a group code and a value, from any program.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fitup::inspect {

struct DxfTag {
  int code = 0;
  std::string_view value;  // without spaces around it
};

struct DxfTags {
  std::vector<DxfTag> tags;
  std::string flaw;  // why reading stopped before the end; empty: it did not
};

/// Reads as far as it can. Lines may end in LF, CR LF or CR. Comments (999) are left out.
[[nodiscard]] DxfTags read_dxf_tags(std::string_view bytes);

/// A finite number; "1,5" is none.
[[nodiscard]] std::optional<double> real_of(std::string_view text);
[[nodiscard]] std::optional<int> whole_of(std::string_view text);

}  // namespace fitup::inspect
