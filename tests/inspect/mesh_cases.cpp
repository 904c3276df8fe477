// STL files: boxes, whole and broken.
// Entry: mesh_cases.
#include <fmt/format.h>

#include <array>
#include <bit>
#include <cstdint>

#include "inspect/cases.h"

namespace fitup::test {

namespace {

using Facet = std::array<Vec3, 3>;

/// Twelve facets, counter-clockwise seen from outside.
std::vector<Facet> box(Vec3 low, Vec3 high) {
  const auto corner = [&](int i) {
    return Vec3{(i & 1) != 0 ? high.x : low.x, (i & 2) != 0 ? high.y : low.y, (i & 4) != 0 ? high.z : low.z};
  };
  const int faces[6][4] = {{0, 2, 3, 1}, {4, 5, 7, 6}, {0, 1, 5, 4}, {2, 6, 7, 3}, {0, 4, 6, 2}, {1, 3, 7, 5}};
  std::vector<Facet> facets;
  for (const auto& f : faces) {
    facets.push_back({corner(f[0]), corner(f[1]), corner(f[2])});
    facets.push_back({corner(f[0]), corner(f[2]), corner(f[3])});
  }
  return facets;
}

Facet turned(const Facet& f) { return {f[0], f[2], f[1]}; }

Vec3 normal(const Facet& f) {
  const Vec3 n = cross(f[1] - f[0], f[2] - f[0]);
  const double length = norm(n);
  return length > 0 ? (1 / length) * n : Vec3{};
}

std::string ascii(const std::vector<Facet>& facets, double normals = 1) {
  std::string text = "solid sample\n";
  for (const Facet& f : facets) {
    const Vec3 n = normals * normal(f);
    text += fmt::format("  facet normal {} {} {}\n    outer loop\n", n.x, n.y, n.z);
    for (const Vec3 p : f) text += fmt::format("      vertex {} {} {}\n", p.x, p.y, p.z);
    text += "    endloop\n  endfacet\n";
  }
  return text + "endsolid sample\n";
}

void put(std::string& out, std::uint32_t v) {
  for (int shift = 0; shift < 32; shift += 8) out.push_back(static_cast<char>((v >> shift) & 255U));
}

std::string binary(const std::vector<Facet>& facets, std::string header = "made for a test") {
  header.resize(80, ' ');
  std::string out = header;
  put(out, static_cast<std::uint32_t>(facets.size()));
  for (const Facet& f : facets) {
    for (const Vec3 p : {normal(f), f[0], f[1], f[2]}) {
      for (const double v : {p.x, p.y, p.z}) put(out, std::bit_cast<std::uint32_t>(static_cast<float>(v)));
    }
    out.append(2, '\0');
  }
  return out;
}

std::vector<Facet> sample() { return box({0, 0, 0}, {40, 30, 20}); }

std::vector<Facet> scaled(std::vector<Facet> facets, double by) {
  for (Facet& f : facets) {
    for (Vec3& p : f) p = by * p;
  }
  return facets;
}

}  // namespace

std::vector<FileCase> mesh_cases() {
  const std::vector<std::pair<std::string, double>> facts{
      {"volume", 24000}, {"surface", 2 * (1200 + 800 + 600)}, {"facets", 12}, {"bodies", 1}, {"size x", 40}};
  std::vector<FileCase> all;
  all.push_back({"StlText", ascii(sample()), {}, {}, facts, "", {}});
  all.push_back({"StlBinary", binary(sample()), {}, {}, facts, "", {}});
  all.push_back({"StlBinaryThatBeginsWithSolid", binary(sample(), "solid part"), {}, {}, facts, "", {}});
  auto open = sample();
  open.pop_back();
  all.push_back({"StlWithoutOneFacet", binary(open), {"closed"}, {}, {}, "3 edges belong to one facet only", {}});
  auto flipped = sample();
  flipped[3] = turned(flipped[3]);
  all.push_back({"StlWithAFlippedFacet", binary(flipped), {"outward"}, {}, {}, "1 facet is turned", {}});
  auto inside_out = sample();
  for (Facet& f : inside_out) f = turned(f);
  all.push_back({"StlInsideOut", binary(inside_out), {"outward"}, {}, {}, "inside out", {}});
  all.push_back({"StlWithNormalsTheOtherWay", ascii(sample(), -1), {}, {"outward"}, {}, "12 facets", {}});
  auto doubled = sample();
  doubled.push_back(doubled[0]);
  all.push_back({"StlWithAFacetTwice", binary(doubled), {"doubled", "two facets an edge"}, {}, {}, "", {}});
  auto flat = sample();
  flat.push_back({Vec3{0, 0, 0}, Vec3{0, 0, 0}, Vec3{40, 0, 0}});
  all.push_back({"StlWithAFacetOfNoArea", binary(flat), {}, {"facets without area"}, {}, "", {}});
  auto two = sample();
  for (const Facet& f : box({100, 0, 0}, {110, 10, 10})) two.push_back(f);
  all.push_back({"StlOfTwoBodies", binary(two), {}, {"bodies"}, {{"bodies", 2}, {"volume", 25000}}, "", {}});
  auto edge = sample();
  for (const Facet& f : box({40, 30, 0}, {50, 40, 20})) edge.push_back(f);
  all.push_back({"StlOfBoxesThatShareAnEdge", binary(edge), {"two facets an edge"}, {}, {}, "", {}});
  auto apart = sample();
  for (std::size_t k = 0; k < 3; ++k) {
    if (apart[0][k] == Vec3{0, 0, 0}) apart[0][k] = {0.01, 0, 0};
  }
  all.push_back({"StlOpenByAHundredth", ascii(apart), {"closed"}, {}, {}, "0.01 mm", {}});
  all.push_back({"StlInInches", binary(scaled(sample(), 1 / 25.4)), {"unit"}, {}, {}, "as inches", {}});
  all.push_back({"StlInMetres", binary(scaled(sample(), 0.001)), {"unit"}, {}, {}, "as metres", {}});
  all.push_back({"StlOfNoFacets", "solid nothing\nendsolid nothing\n", {"facets"}, {}, {}, "no facet", {}});
  all.push_back({"StlTextCutShort", ascii(sample()).substr(0, 900), {"complete", "closed"}, {}, {}, "cut short", {}});
  all.push_back(
      {"StlBinaryCutShort", binary(sample()).substr(0, 400), {"complete", "closed"}, {}, {}, "cut short", {}});
  all.push_back({"StlWithAWordForANumber",
                 [] {
                   std::string text = ascii(sample());
                   return text.replace(text.find("vertex 40"), 9, "vertex no");
                 }(),
                 {"complete", "closed"},
                 {},
                 {},
                 "",
                 {}});
  return all;
}

}  // namespace fitup::test
