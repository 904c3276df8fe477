// Moves characters of plane 0 beyond ASCII to plane 15 and back.
// Entry: masked, restored.

#include "spec/letter_mask.h"

#include <algorithm>
#include <cstdint>

#include "diag/words.h"

namespace fitup::spec {

namespace {

constexpr std::uint32_t private_plane = 0xF0000;
constexpr std::string_view replacement = "\xF3\xBF\xBF\xBD";  // U+FFFD, masked

std::uint32_t decoded(std::string_view sequence) {
  const auto first = static_cast<unsigned char>(sequence[0]);
  std::uint32_t point = first & (0xFFU >> (sequence.size() + 1));
  for (const char c : sequence.substr(1)) point = (point << 6) | (static_cast<unsigned char>(c) & 0x3FU);
  return point;
}

/// Of two to four bytes.
std::string encoded(std::uint32_t point) {
  const int trailing = point < 0x800 ? 1 : point < 0x10000 ? 2 : 3;
  const std::uint32_t lead = trailing == 1 ? 0xC0 : trailing == 2 ? 0xE0 : 0xF0;
  std::string out(1, static_cast<char>(lead | (point >> (6 * trailing))));
  for (int i = trailing - 1; i >= 0; --i) out += static_cast<char>(0x80 | ((point >> (6 * i)) & 0x3F));
  return out;
}

/// Each well-formed sequence of more than one byte through `change`; all else as it is.
template <class Change>
std::string each_beyond_ascii(std::string_view text, const Change& change) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = diag::sequence_length(text, at);
    const std::string_view sequence = text.substr(at, std::max<std::size_t>(length, 1));
    if (length > 1) {
      out += change(sequence);
    } else {
      out += sequence;
    }
    at += sequence.size();
  }
  return out;
}

bool in_private_plane(std::uint32_t point) { return point / 0x10000 == private_plane / 0x10000; }

}  // namespace

std::string masked(std::string_view text) {
  return each_beyond_ascii(text, [](std::string_view sequence) {
    const std::uint32_t point = decoded(sequence);
    if (in_private_plane(point)) return std::string(replacement);
    return point < 0x10000 ? encoded(point + private_plane) : std::string(sequence);
  });
}

std::string restored(std::string_view text) {
  return each_beyond_ascii(text, [](std::string_view sequence) {
    const std::uint32_t point = decoded(sequence);
    // An escape may have named a private character that masks nothing: below U+0080 there is nothing to restore.
    const bool masks = in_private_plane(point) && point - private_plane >= 0x80;
    return masks ? encoded(point - private_plane) : std::string(sequence);
  });
}

}  // namespace fitup::spec
