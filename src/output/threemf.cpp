// A printed part as 3MF, written and read by lib3mf.
// Entry: write_3mf, read_3mf.

#include "output/threemf.h"

#include <Model/COM/NMR_DLLInterfaces.h>
#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <memory>
#include <stdexcept>
#include <utility>
#include <vector>

#include "output/text.h"

namespace fitup::output {
namespace {

/// Thrown where lib3mf refuses a step; never leaves this file.
class Refused : public std::runtime_error {
  using std::runtime_error::runtime_error;
};

void done(LIB3MFRESULT answer, const char* step) {
  if (answer != LIB3MF_OK)
    throw Refused(fmt::format("lib3mf answers {:#x} to {}", static_cast<unsigned>(answer), step));
}

struct Release {
  void operator()(NMR::PLib3MFBase* thing) const { NMR::lib3mf_release(thing); }
};
using Held = std::unique_ptr<NMR::PLib3MFBase, Release>;

/// What a function of lib3mf hands out through its last argument.
template <class Function, class... Arguments>
Held held(const char* step, Function function, Arguments... arguments) {
  NMR::PLib3MFBase* thing = nullptr;
  done(function(arguments..., &thing), step);
  return Held(thing);
}

/// An identifier that is the same for the same thing of the same spec: RFC 9562, version 8.
std::string uuid_of(std::string_view thing, const Part& part, const JobInfo& info) {
  std::string hex = sha256_hex(fmt::format("{} of {} {}", thing, threemf_title(part), info.spec_hash)).substr(0, 32);
  hex[12] = '8';
  hex[16] = '8';
  return fmt::format("{}-{}-{}-{}-{}", hex.substr(0, 8), hex.substr(8, 4), hex.substr(12, 4), hex.substr(16, 4),
                     hex.substr(20));
}

void set_geometry(NMR::PLib3MFModelMeshObject* object, const Mesh& mesh) {
  Box3 bounds;
  for (const Vec3& p : mesh.points) bounds.add(p);
  std::vector<NMR::MODELMESHVERTEX> points;
  for (const Vec3& p : mesh.points) {
    const Vec3 at = p - bounds.low;
    points.push_back({{static_cast<float>(at.x), static_cast<float>(at.y), static_cast<float>(at.z)}});
  }
  std::vector<NMR::MODELMESHTRIANGLE> triangles;
  for (const auto& t : mesh.triangles) triangles.push_back({{t[0], t[1], t[2]}});
  done(NMR::lib3mf_meshobject_setgeometry(object, points.data(), static_cast<DWORD>(points.size()), triangles.data(),
                                          static_cast<DWORD>(triangles.size())),
       "the mesh");
}

/// lib3mf 1.8 writes the text of metadata as it is given.
void say(NMR::PLib3MFModel* model, const char* name, const std::string& text) {
  done(NMR::lib3mf_model_addmetadatautf8(model, name, xml_text(text).c_str()), name);
}

void add_part(NMR::PLib3MFModel* model, const Mesh& mesh, const Part& part, const JobInfo& info) {
  const Held object = held("an object", NMR::lib3mf_model_addmeshobject, model);
  done(NMR::lib3mf_object_setnameutf8(object.get(), threemf_title(part).c_str()), "its name");
  done(NMR::lib3mf_object_setpartnumberutf8(object.get(), part.mark.c_str()), "its part number");
  done(NMR::lib3mf_object_setuuidutf8(object.get(), uuid_of("object", part, info).c_str()), "its identifier");
  set_geometry(object.get(), mesh);
  NMR::MODELTRANSFORM* as_it_stands = nullptr;
  const Held item = held("what is built", NMR::lib3mf_model_addbuilditem, model, object.get(), as_it_stands);
  done(NMR::lib3mf_builditem_setuuidutf8(item.get(), uuid_of("item", part, info).c_str()), "its identifier");
  done(NMR::lib3mf_model_setbuilduuidutf8(model, uuid_of("build", part, info).c_str()), "its identifier");
}

std::string bytes_of(NMR::PLib3MFModel* model) {
  const Held writer = held("a writer", NMR::lib3mf_model_querywriter, model, "3mf");
  ULONG64 size = 0;
  done(NMR::lib3mf_writer_getstreamsize(writer.get(), &size), "the size");
  std::string bytes(size, '\0');
  done(NMR::lib3mf_writer_writetobuffer(writer.get(), reinterpret_cast<BYTE*>(bytes.data()), size), "the file");
  return bytes;
}

/// A text that lib3mf copies into a buffer, whose size it says when it gets none.
template <class Function, class... Arguments>
std::string text_of(Function function, Arguments... arguments) {
  ULONG length = 0;
  done(function(arguments..., nullptr, 0, &length), "a text");
  std::string text(length + 1, '\0');
  done(function(arguments..., text.data(), static_cast<ULONG>(text.size()), &length), "a text");
  return text.substr(0, text.find('\0'));
}

std::map<std::string, std::string> metadata_of(NMR::PLib3MFModel* model) {
  std::map<std::string, std::string> result;
  DWORD count = 0;
  done(NMR::lib3mf_model_getmetadatacount(model, &count), "how much it says of itself");
  for (DWORD i = 0; i < count; ++i) {
    result[text_of(NMR::lib3mf_model_getmetadatakeyutf8, model, i)] =
        text_of(NMR::lib3mf_model_getmetadatavalueutf8, model, i);
  }
  return result;
}

/// The only mesh of the model; nothing if there is none or more than one.
Held only_mesh_of(NMR::PLib3MFModel* model) {
  const Held meshes = held("its meshes", NMR::lib3mf_model_getmeshobjects, model);
  Held only;
  BOOL more = 0;
  while (done(NMR::lib3mf_resourceiterator_movenext(meshes.get(), &more), "the next mesh"), more != 0) {
    if (only) return nullptr;
    only = held("a mesh", NMR::lib3mf_resourceiterator_getcurrent, meshes.get());
  }
  return only;
}

Mesh mesh_in(NMR::PLib3MFModelMeshObject* object) {
  DWORD points = 0;
  DWORD triangles = 0;
  done(NMR::lib3mf_meshobject_getvertexcount(object, &points), "its points");
  done(NMR::lib3mf_meshobject_gettrianglecount(object, &triangles), "its triangles");
  std::vector<NMR::MODELMESHVERTEX> at(points);
  std::vector<NMR::MODELMESHTRIANGLE> of(triangles);
  done(NMR::lib3mf_meshobject_getvertices(object, at.data(), points, nullptr), "its points");
  done(NMR::lib3mf_meshobject_gettriangleindices(object, of.data(), triangles, nullptr), "its triangles");
  Mesh mesh;
  for (const auto& p : at) mesh.points.push_back({p.m_fPosition[0], p.m_fPosition[1], p.m_fPosition[2]});
  for (const auto& t : of) mesh.triangles.push_back({t.m_nIndices[0], t.m_nIndices[1], t.m_nIndices[2]});
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
  Box3 bounds;
  for (const Vec3& p : mesh.points) bounds.add(p);
  facts.lowest = std::min({bounds.low.x, bounds.low.y, bounds.low.z});
}

std::optional<ThreemfFacts> facts_of(std::string bytes) {
  const Held model = held("a model", NMR::lib3mf_createmodel);
  const Held reader = held("a reader", NMR::lib3mf_model_queryreader, model.get(), "3mf");
  done(NMR::lib3mf_reader_readfrombuffer(reader.get(), reinterpret_cast<BYTE*>(bytes.data()), bytes.size()),
       "the file");
  DWORD warnings = 0;
  done(NMR::lib3mf_reader_getwarningcount(reader.get(), &warnings), "its warnings");
  const Held object = only_mesh_of(model.get());
  if (warnings > 0 || !object) return std::nullopt;
  auto about = metadata_of(model.get());
  ThreemfFacts facts;
  DWORD unit = 0;
  done(NMR::lib3mf_model_getunit(model.get(), &unit), "its unit");
  facts.in_millimetres = unit == NMR::MODELUNIT_MILLIMETER;
  facts.title = about["Title"];
  facts.description = about["Description"];
  facts.name = text_of(NMR::lib3mf_object_getnameutf8, object.get());
  facts.part_number = text_of(NMR::lib3mf_object_getpartnumberutf8, object.get());
  measure(mesh_in(object.get()), facts);
  return facts;
}

}  // namespace

std::string threemf_title(const Part& part) { return fmt::format("{} {}", part.mark, part.name); }

std::string threemf_description(const JobInfo& info) {
  return fmt::format("{}, revision {}, spec {}", info.name, info.revision, short_hash(info.spec_hash));
}

Result<std::string> write_3mf(const Mesh& mesh, const Part& part, const JobInfo& info) {
  try {
    const Held model = held("a model", NMR::lib3mf_createmodel);
    done(NMR::lib3mf_model_setunit(model.get(), NMR::MODELUNIT_MILLIMETER), "the unit");
    say(model.get(), "Title", threemf_title(part));
    say(model.get(), "Description", threemf_description(info));
    say(model.get(), "Application", "fitup " + info.version);
    add_part(model.get(), mesh, part, info);
    return bytes_of(model.get());
  } catch (const Refused& refused) {
    return Failure{Failure::Kind::kernel, fmt::format("write the 3MF of {}", part.mark), refused.what()};
  }
}

std::optional<ThreemfFacts> read_3mf(std::string_view bytes) {
  try {
    return facts_of(std::string(bytes));
  } catch (const Refused&) {
    return std::nullopt;
  }
}

}  // namespace fitup::output
