#pragma once
// A ZIP archive (PKWARE APPNOTE 6.3) whose files are stored as they are, all of one fixed time: same files, same bytes.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fitup::output {

struct ZipEntry {
  std::string name;  // ASCII, forward slashes
  std::string bytes;
  bool operator==(const ZipEntry&) const = default;
};

[[nodiscard]] std::string write_zip(const std::vector<ZipEntry>& entries);

/// The entries, by the central directory; nothing if the archive is not of this form or a checksum differs.
[[nodiscard]] std::optional<std::vector<ZipEntry>> read_zip(std::string_view bytes);

/// The checksum of ISO 3309 that ZIP uses.
[[nodiscard]] unsigned long crc32(std::string_view bytes);

}  // namespace fitup::output
