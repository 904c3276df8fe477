// Binary STL, written and measured.
// Entry: write_stl, read_stl.

#include "output/stl.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cstdint>
#include <cstring>
#include <map>
#include <utility>

namespace fitup::output {
namespace {

constexpr std::size_t header_bytes = 80;
constexpr std::size_t start_bytes = 84;
constexpr std::size_t triangle_bytes = 50;

using Corner = std::array<float, 3>;
using Facet = std::array<Corner, 3>;

void put(std::string& out, std::uint32_t value) {
  for (int shift = 0; shift < 32; shift += 8) out.push_back(static_cast<char>((value >> shift) & 255U));
}

void put(std::string& out, float value) { put(out, std::bit_cast<std::uint32_t>(value)); }

std::uint32_t word(const char* p) {
  std::uint32_t value = 0;
  for (int i = 3; i >= 0; --i) value = (value << 8) | static_cast<unsigned char>(p[i]);
  return value;
}

Corner single(Vec3 p) {
  // +0 so that -0 and 0 are the same corner, byte for byte.
  return {static_cast<float>(p.x) + 0.0F, static_cast<float>(p.y) + 0.0F, static_cast<float>(p.z) + 0.0F};
}

Vec3 wide(const Corner& c) { return {c[0], c[1], c[2]}; }

Vec3 normal_times_two_areas(const Facet& f) { return cross(wide(f[1]) - wide(f[0]), wide(f[2]) - wide(f[0])); }

/// Some readers tell the binary form from text by a byte above 127 soon after the header. A negative number's sign
/// is one, so a facet whose normal has one comes first; every closed mesh has such facets.
void start_recognisably(std::vector<Facet>& facets) {
  const auto first = std::find_if(facets.begin(), facets.end(), [](const Facet& f) {
    const Vec3 n = normal_times_two_areas(f);
    return n.x < 0 || n.y < 0 || n.z < 0;
  });
  if (first != facets.end()) std::rotate(facets.begin(), first, facets.end());
}

std::vector<Facet> facets_of(const Mesh& mesh) {
  std::vector<Facet> facets;
  for (const auto& t : mesh.triangles) {
    const Facet f{single(mesh.points.at(t[0])), single(mesh.points.at(t[1])), single(mesh.points.at(t[2]))};
    if (f[0] != f[1] && f[1] != f[2] && f[2] != f[0]) facets.push_back(f);
  }
  start_recognisably(facets);
  return facets;
}

void put_facet(std::string& out, const Facet& f) {
  const Vec3 n = normal_times_two_areas(f);
  const double length = norm(n);
  for (const float v : single(length > 0 ? (1 / length) * n : Vec3{})) put(out, v);
  for (const Corner& c : f) {
    for (const float v : c) put(out, v);
  }
  out.append(2, '\0');  // attribute byte count
}

Facet facet_at(const char* p) {
  Facet f{};
  for (std::size_t corner = 0; corner < 3; ++corner) {
    for (std::size_t k = 0; k < 3; ++k) f[corner][k] = std::bit_cast<float>(word(p + 12 + 12 * corner + 4 * k));
  }
  return f;
}

}  // namespace

std::string stl_header(std::string_view title) {
  std::string out = "fitup ";
  out += title.substr(0, header_bytes - out.size());
  out.resize(header_bytes, ' ');
  return out;
}

std::string write_stl(const Mesh& mesh, std::string_view title) {
  const std::vector<Facet> facets = facets_of(mesh);
  std::string out = stl_header(title);
  put(out, static_cast<std::uint32_t>(facets.size()));
  out.reserve(start_bytes + triangle_bytes * facets.size());
  for (const Facet& f : facets) put_facet(out, f);
  return out;
}

std::optional<StlFacts> read_stl(std::string_view bytes) {
  if (bytes.size() < start_bytes || bytes.substr(0, 5) == "solid") return std::nullopt;
  StlFacts facts;
  facts.header = std::string(bytes.substr(0, header_bytes));
  facts.triangles = word(bytes.data() + header_bytes);
  if (bytes.size() != start_bytes + triangle_bytes * facts.triangles) return std::nullopt;
  std::map<std::pair<Corner, Corner>, int> balance;  // directed edges: +1 one way, -1 the other
  std::map<std::pair<Corner, Corner>, int> uses;
  for (std::size_t i = 0; i < facts.triangles; ++i) {
    const Facet f = facet_at(bytes.data() + start_bytes + triangle_bytes * i);
    facts.area_mm2 += 0.5 * norm(normal_times_two_areas(f));
    facts.volume_mm3 += dot(wide(f[0]), cross(wide(f[1]), wide(f[2]))) / 6;
    for (std::size_t k = 0; k < 3; ++k) {
      const auto& from = f[k];
      const auto& to = f[(k + 1) % 3];
      facts.bounds.add(wide(from));
      const bool forward = from < to;
      const auto edge = forward ? std::pair(from, to) : std::pair(to, from);
      balance[edge] += forward ? 1 : -1;
      uses[edge] += 1;
    }
  }
  for (const auto& [edge, count] : uses) {
    if (count != 2 || balance[edge] != 0) ++facts.open_edges;
  }
  return facts;
}

}  // namespace fitup::output
