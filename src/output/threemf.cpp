// A printed part as 3MF, written and measured.
// Entry: write_3mf, read_3mf.

#include "output/threemf.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <map>
#include <set>
#include <utility>
#include <vector>

#include "output/text.h"
#include "output/zip.h"

namespace fitup::output {
namespace {

constexpr const char* model_path = "3D/3dmodel.model";

constexpr std::string_view content_types =
    R"(<?xml version="1.0" encoding="UTF-8"?>
<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
 <Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
 <Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>
</Types>
)";

constexpr std::string_view relationships =
    R"(<?xml version="1.0" encoding="UTF-8"?>
<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
 <Relationship Target="/3D/3dmodel.model" Id="rel0" Type="http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"/>
</Relationships>
)";

/// In an attribute a quote ends the value too.
std::string attribute(std::string_view text) {
  std::string out;
  for (const char c : xml_text(text)) out += c == '"' ? std::string("&quot;") : std::string(1, c);
  return out;
}

std::string mesh_text(const Mesh& mesh) {
  Box3 bounds;
  for (const Vec3& p : mesh.points) bounds.add(p);
  std::string out = "   <mesh>\n    <vertices>\n";
  for (const Vec3& p : mesh.points) {
    const Vec3 at = p - bounds.low;
    out +=
        fmt::format("     <vertex x=\"{}\" y=\"{}\" z=\"{}\"/>\n", number(at.x, 6), number(at.y, 6), number(at.z, 6));
  }
  out += "    </vertices>\n    <triangles>\n";
  for (const auto& t : mesh.triangles) {
    out += fmt::format("     <triangle v1=\"{}\" v2=\"{}\" v3=\"{}\"/>\n", t[0], t[1], t[2]);
  }
  return out + "    </triangles>\n   </mesh>\n";
}

std::string model_text(const Mesh& mesh, const Part& part, const JobInfo& info) {
  std::string out = R"(<?xml version="1.0" encoding="UTF-8"?>
<model unit="millimeter" xml:lang="en-US" xmlns="http://schemas.microsoft.com/3dmanufacturing/core/2015/02">
)";
  const auto say = [&out](std::string_view name, const std::string& text) {
    out += fmt::format(" <metadata name=\"{}\">{}</metadata>\n", name, xml_text(text));
  };
  say("Title", threemf_title(part));
  say("Description", threemf_description(info));
  say("Application", "fitup " + info.version);
  out += fmt::format(" <resources>\n  <object id=\"1\" type=\"model\" name=\"{}\" partnumber=\"{}\">\n",
                     attribute(threemf_title(part)), attribute(part.mark));
  return out + mesh_text(mesh) +
         "  </object>\n </resources>\n <build>\n  <item objectid=\"1\"/>\n </build>\n</model>\n";
}

/// What stands between two pieces of the text, from a place on, which moves behind it; nothing if they are not there.
std::optional<std::string_view> between(std::string_view text, std::size_t& at, std::string_view from,
                                        std::string_view to) {
  const std::size_t start = text.find(from, at);
  if (start == std::string_view::npos) return std::nullopt;
  const std::size_t end = text.find(to, start + from.size());
  if (end == std::string_view::npos) return std::nullopt;
  at = end;
  return text.substr(start + from.size(), end - start - from.size());
}

std::string said(std::string_view text, std::string_view from, std::string_view to) {
  std::size_t at = 0;
  return std::string(between(text, at, from, to).value_or(""));
}

template <class T>
bool take(std::string_view tag, std::string_view name, T& value) {
  std::size_t at = 0;
  const auto text = between(tag, at, fmt::format(" {}=\"", name), "\"");
  if (!text) return false;
  const auto [end, error] = std::from_chars(text->data(), text->data() + text->size(), value);
  return error == std::errc{} && end == text->data() + text->size();
}

std::optional<Mesh> mesh_in(std::string_view text) {
  Mesh mesh;
  std::size_t at = 0;
  while (const auto tag = between(text, at, "<vertex", "/>")) {
    Vec3 p;
    if (!take(*tag, "x", p.x) || !take(*tag, "y", p.y) || !take(*tag, "z", p.z)) return std::nullopt;
    mesh.points.push_back(p);
  }
  while (const auto tag = between(text, at, "<triangle ", "/>")) {
    std::array<std::uint32_t, 3> t{};
    const std::string padded = " " + std::string(*tag);
    if (!take(padded, "v1", t[0]) || !take(padded, "v2", t[1]) || !take(padded, "v3", t[2])) return std::nullopt;
    if (*std::max_element(t.begin(), t.end()) >= mesh.points.size()) return std::nullopt;
    mesh.triangles.push_back(t);
  }
  return mesh;
}

void measure(const Mesh& mesh, ThreemfFacts& facts) {
  std::map<std::pair<std::uint32_t, std::uint32_t>, int> uses;
  for (const auto& t : mesh.triangles) {
    facts.volume_mm3 += dot(mesh.points[t[0]], cross(mesh.points[t[1]], mesh.points[t[2]])) / 6;
    for (std::size_t k = 0; k < 3; ++k) ++uses[{t[k], t[(k + 1) % 3]}];
  }
  for (const auto& [edge, count] : uses) {
    const auto back = uses.find({edge.second, edge.first});
    if (count != 1 || back == uses.end() || back->second != 1 || edge.first == edge.second) ++facts.open_edges;
  }
  facts.triangles = mesh.triangles.size();
}

}  // namespace

std::string threemf_title(const Part& part) { return fmt::format("{} {}", part.mark, part.name); }

std::string threemf_description(const JobInfo& info) {
  return fmt::format("{}, revision {}, spec {}", info.name, info.revision, short_hash(info.spec_hash));
}

std::string write_3mf(const Mesh& mesh, const Part& part, const JobInfo& info) {
  return write_zip({{"[Content_Types].xml", std::string(content_types)},
                    {"_rels/.rels", std::string(relationships)},
                    {model_path, model_text(mesh, part, info)}});
}

std::optional<ThreemfFacts> read_3mf(std::string_view bytes) {
  const auto entries = read_zip(bytes);
  if (!entries || entries->size() != 3 || (*entries)[2].name != model_path) return std::nullopt;
  if ((*entries)[0].bytes != content_types || (*entries)[1].bytes != relationships) return std::nullopt;
  const std::string& text = (*entries)[2].bytes;
  const auto mesh = mesh_in(text);
  if (!mesh || !text.ends_with("</model>\n")) return std::nullopt;
  ThreemfFacts facts;
  facts.unit = said(text, "<model unit=\"", "\"");
  facts.title = said(text, "<metadata name=\"Title\">", "</metadata>");
  facts.description = said(text, "<metadata name=\"Description\">", "</metadata>");
  facts.part_number = said(text, " partnumber=\"", "\"");
  measure(*mesh, facts);
  return facts;
}

}  // namespace fitup::output
