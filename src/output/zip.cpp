// A ZIP archive of stored files, written and read.
// Entry: write_zip, read_zip.

#include "output/zip.h"

#include <array>
#include <cstdint>

namespace fitup::output {
namespace {

constexpr std::uint32_t local_sign = 0x04034b50;
constexpr std::uint32_t central_sign = 0x02014b50;
constexpr std::uint32_t end_sign = 0x06054b50;
constexpr std::size_t local_bytes = 30;
constexpr std::size_t central_bytes = 46;
constexpr std::size_t end_bytes = 22;
constexpr std::uint16_t needs_version = 20;  // 2.0
constexpr std::uint16_t first_day = 0x0021;  // 1980-01-01, the earliest that the form can say

void put16(std::string& out, std::size_t value) {
  for (int shift = 0; shift < 16; shift += 8) out.push_back(static_cast<char>((value >> shift) & 255U));
}

void put32(std::string& out, std::size_t value) {
  for (int shift = 0; shift < 32; shift += 8) out.push_back(static_cast<char>((value >> shift) & 255U));
}

std::size_t number_at(std::string_view bytes, std::size_t at, int count) {
  std::size_t value = 0;
  for (int i = count - 1; i >= 0; --i)
    value = value << 8 | static_cast<unsigned char>(bytes[at + static_cast<std::size_t>(i)]);
  return value;
}

/// From the version to the length of the extra field: what both headers of a file have in common.
std::string common_header(const ZipEntry& entry) {
  std::string out;
  put16(out, needs_version);
  put16(out, 0);  // flags
  put16(out, 0);  // stored
  put16(out, 0);  // midnight
  put16(out, first_day);
  put32(out, crc32(entry.bytes));
  put32(out, entry.bytes.size());
  put32(out, entry.bytes.size());
  put16(out, entry.name.size());
  put16(out, 0);
  return out;
}

std::optional<ZipEntry> entry_at(std::string_view bytes, std::size_t central) {
  if (central + central_bytes > bytes.size() || number_at(bytes, central, 4) != central_sign) return std::nullopt;
  const std::size_t size = number_at(bytes, central + 24, 4);
  const std::size_t name_size = number_at(bytes, central + 28, 2);
  const std::size_t local = number_at(bytes, central + 42, 4);
  const std::size_t start = local + local_bytes + name_size;
  if (central + central_bytes + name_size > bytes.size() || start + size > bytes.size()) return std::nullopt;
  if (number_at(bytes, local, 4) != local_sign || number_at(bytes, local + 8, 2) != 0) return std::nullopt;
  ZipEntry entry{std::string(bytes.substr(central + central_bytes, name_size)), std::string(bytes.substr(start, size))};
  const bool same_name = bytes.substr(local + local_bytes, name_size) == entry.name;
  if (!same_name || crc32(entry.bytes) != number_at(bytes, central + 16, 4)) return std::nullopt;
  return entry;
}

}  // namespace

unsigned long crc32(std::string_view bytes) {
  std::uint32_t crc = 0xffffffffU;
  for (const char c : bytes) {
    crc ^= static_cast<unsigned char>(c);
    for (int bit = 0; bit < 8; ++bit) crc = (crc >> 1) ^ ((crc & 1U) != 0 ? 0xedb88320U : 0U);
  }
  return crc ^ 0xffffffffU;
}

std::string write_zip(const std::vector<ZipEntry>& entries) {
  std::string out;
  std::string directory;
  for (const ZipEntry& entry : entries) {
    const std::size_t at = out.size();
    const std::string header = common_header(entry);
    put32(out, local_sign);
    out += header + entry.name + entry.bytes;
    put32(directory, central_sign);
    put16(directory, needs_version);
    directory += header;
    put16(directory, 0);  // comment
    put16(directory, 0);  // disk
    put16(directory, 0);
    put32(directory, 0);
    put32(directory, at);
    directory += entry.name;
  }
  const std::size_t start = out.size();
  out += directory;
  put32(out, end_sign);
  put32(out, 0);  // disks
  put16(out, entries.size());
  put16(out, entries.size());
  put32(out, directory.size());
  put32(out, start);
  put16(out, 0);
  return out;
}

std::optional<std::vector<ZipEntry>> read_zip(std::string_view bytes) {
  if (bytes.size() < end_bytes) return std::nullopt;
  const std::size_t end = bytes.size() - end_bytes;
  if (number_at(bytes, end, 4) != end_sign) return std::nullopt;
  std::vector<ZipEntry> entries;
  std::size_t at = number_at(bytes, end + 16, 4);
  for (std::size_t i = 0; i < number_at(bytes, end + 10, 2); ++i) {
    auto entry = entry_at(bytes, at);
    if (!entry) return std::nullopt;
    at += central_bytes + entry->name.size();
    entries.push_back(*std::move(entry));
  }
  if (at != end) return std::nullopt;
  return entries;
}

}  // namespace fitup::output
