// Reads STL, as text and binary.
// Entry: read_mesh.
#include "inspect/mesh_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <bit>
#include <charconv>
#include <cmath>
#include <cstring>
#include <unordered_map>

namespace fitup::inspect {

namespace {

constexpr std::size_t header_bytes = 80;
constexpr std::size_t start_bytes = 84;
constexpr std::size_t facet_bytes = 50;
constexpr double farthest = 1e9;

struct CornerHash {
  std::size_t operator()(const std::array<float, 3>& c) const {
    std::uint64_t h = 0x9E3779B97F4A7C15U;
    for (const float v : c) h = (h ^ std::bit_cast<std::uint32_t>(v)) * 0xD6E8FEB86659FD93U, h ^= h >> 32U;
    return static_cast<std::size_t>(h);
  }
};

std::uint32_t word(const char* p) {
  std::uint32_t value = 0;
  std::memcpy(&value, p, sizeof value);
  if constexpr (std::endian::native == std::endian::big) value = __builtin_bswap32(value);
  return value;
}

float number_at(const char* p) { return std::bit_cast<float>(word(p)); }

class Builder {
 public:
  explicit Builder(MeshFile& mesh) : mesh_(mesh) {}
  void reserve(std::size_t facets) { numbers_.reserve(facets / 2 + 16); }

  void facet(Vec3 stated, const std::array<std::array<float, 3>, 3>& corners) {
    std::array<std::uint32_t, 3> t{};
    for (std::size_t k = 0; k < 3; ++k) {
      for (const float v : corners[k]) {
        if (std::isfinite(v) && std::abs(v) <= farthest) continue;
        ++mesh_.broken;
        return;
      }
      t[k] = point(corners[k]);
    }
    if (t[0] == t[1] || t[1] == t[2] || t[2] == t[0]) {
      ++mesh_.without_area;
      return;
    }
    const auto& p = mesh_.points;
    const Vec3 n = cross(p[t[1]] - p[t[0]], p[t[2]] - p[t[0]]);
    if (dot(n, stated) < -0.1 * norm(n) * norm(stated)) ++mesh_.normals_off;
    mesh_.triangles.push_back(t);
  }

 private:
  std::uint32_t point(std::array<float, 3> c) {
    for (float& v : c) v += 0.0F;  // -0 and 0 are one place
    const auto [found, added] = numbers_.try_emplace(c, static_cast<std::uint32_t>(mesh_.points.size()));
    if (added) mesh_.points.push_back({c[0], c[1], c[2]});
    return found->second;
  }

  MeshFile& mesh_;
  std::unordered_map<std::array<float, 3>, std::uint32_t, CornerHash> numbers_;
};

void read_binary(std::string_view bytes, MeshFile& mesh) {
  mesh.binary = true;
  const std::uint32_t stated = word(bytes.data() + header_bytes);
  const std::size_t held = (bytes.size() - start_bytes) / facet_bytes;
  const std::size_t count = std::min<std::size_t>(stated, held);
  if (held < stated) {
    mesh.flaw = fmt::format("it says {} facets and holds {}: it was cut short", stated, held);
  }
  Builder builder(mesh);
  builder.reserve(count);
  for (std::size_t i = 0; i < count; ++i) {
    const char* p = bytes.data() + start_bytes + facet_bytes * i;
    std::array<std::array<float, 3>, 3> corners{};
    for (std::size_t k = 0; k < 9; ++k) corners[k / 3][k % 3] = number_at(p + 12 + 4 * k);
    const Vec3 n{number_at(p), number_at(p + 4), number_at(p + 8)};
    builder.facet(std::isfinite(n.x + n.y + n.z) ? n : Vec3{}, corners);
  }
}

class Words {
 public:
  explicit Words(std::string_view text) : text_(text) {}
  std::string_view next() {
    at_ = std::min(text_.find_first_not_of(" \t\r\n", at_), text_.size());
    const std::size_t end = std::min(text_.find_first_of(" \t\r\n", at_), text_.size());
    const std::string_view word = text_.substr(at_, end - at_);
    at_ = end;
    return word;
  }
  std::string_view rest_of_line() {
    const std::size_t end = std::min(text_.find_first_of("\r\n", at_), text_.size());
    const std::string_view line = text_.substr(at_, end - at_);
    at_ = end;
    return line;
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
};

bool is_word(std::string_view word, std::string_view like) {
  return word.size() == like.size() && std::equal(word.begin(), word.end(), like.begin(), [](char a, char b) {
           return (a >= 'A' && a <= 'Z' ? static_cast<char>(a - 'A' + 'a') : a) == b;
         });
}

float parsed(std::string_view word) {
  if (!word.empty() && word.front() == '+') word.remove_prefix(1);
  float value = NAN;
  const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), value);
  return error == std::errc{} && end == word.data() + word.size() ? value : NAN;
}

void read_text(std::string_view bytes, MeshFile& mesh) {
  Words words(bytes);
  words.next();  // solid
  mesh.name = std::string(words.rest_of_line());
  Builder builder(mesh);
  Vec3 normal;
  std::array<std::array<float, 3>, 3> corners{};
  std::size_t corner = 0;
  bool ended = false;
  for (std::string_view w = words.next(); !w.empty(); w = words.next()) {
    if (is_word(w, "normal")) {
      const float x = parsed(words.next());
      const float y = parsed(words.next());
      const float z = parsed(words.next());
      normal = std::isfinite(x + y + z) ? Vec3{x, y, z} : Vec3{};
    } else if (is_word(w, "vertex")) {
      std::array<float, 3> c{};
      for (float& v : c) v = parsed(words.next());
      if (corner < 3) corners[corner] = c;
      ++corner;
    } else if (is_word(w, "endfacet")) {
      if (corner == 3) builder.facet(normal, corners);
      if (corner != 3) ++mesh.broken;
      corner = 0;
    } else if (is_word(w, "endsolid")) {
      ended = true;
      words.rest_of_line();
    }
  }
  if (!ended) mesh.flaw = "it does not end with endsolid: it was cut short";
}

}  // namespace

bool is_binary_stl(std::string_view bytes) {
  if (bytes.size() < start_bytes) return false;
  const std::size_t count = word(bytes.data() + header_bytes);
  return count > 0 && bytes.size() == start_bytes + facet_bytes * count;
}

bool could_be_cut_binary_stl(std::string_view bytes) {
  if (bytes.size() < start_bytes + facet_bytes) return false;
  for (std::size_t k = 0; k < 12; ++k) {
    const float v = number_at(bytes.data() + start_bytes + 4 * k);
    if (!std::isfinite(v) || std::abs(v) > 1e7F || (v != 0 && std::abs(v) < 1e-12F)) return false;
  }
  const Vec3 n{number_at(bytes.data() + 84), number_at(bytes.data() + 88), number_at(bytes.data() + 92)};
  return norm(n) < 1.01;
}

MeshFile read_mesh(std::string_view bytes) {
  MeshFile mesh;
  const std::size_t first = std::min(bytes.find_first_not_of(" \t\r\n"), bytes.size());
  if (!is_binary_stl(bytes) && bytes.substr(first).starts_with("solid")) {
    read_text(bytes.substr(first), mesh);
  } else if (bytes.size() >= start_bytes) {
    read_binary(bytes, mesh);
  } else {
    mesh.flaw = "it is shorter than the header of an STL file";
  }
  return mesh;
}

}  // namespace fitup::inspect
