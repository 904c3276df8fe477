// Reads a STEP file through the kernel: products, their measures, and where they stand.
// Entry: solid::read_step.
#include "solid/read_step.h"

#include <BRepGProp.hxx>
#include <GProp_GProps.hxx>
#include <STEPCAFControl_Reader.hxx>
#include <TDF_Label.hxx>
#include <TDF_LabelSequence.hxx>
#include <TDataStd_Name.hxx>
#include <TDocStd_Document.hxx>
#include <TopExp_Explorer.hxx>
#include <XCAFDoc_Area.hxx>
#include <XCAFDoc_Centroid.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <XCAFDoc_Volume.hxx>
#include <algorithm>
#include <sstream>

#include "solid/shapes.h"
#include "solid/step_session.h"

namespace fitup::solid {
namespace {

std::string name_of(const TDF_Label& label) {
  Handle(TDataStd_Name) name;
  if (!label.FindAttribute(TDataStd_Name::GetID(), name)) return {};
  const TCollection_ExtendedString& text = name->Get();
  std::string utf8(static_cast<std::size_t>(text.LengthOfCString()), '\0');
  Standard_PCharacter buffer = utf8.data();
  text.ToUTF8CString(buffer);
  return utf8;
}

StatedProperties stated_at(const TDF_Label& label) {
  StatedProperties stated;
  double value = 0;
  if (XCAFDoc_Volume::Get(label, value)) stated.volume_mm3 = value;
  if (XCAFDoc_Area::Get(label, value)) stated.area_mm2 = value;
  gp_Pnt centre;
  if (XCAFDoc_Centroid::Get(label, centre)) stated.centroid = vec(centre);
  return stated;
}

ReadPart part_at(const TDF_Label& label) {
  const TopoDS_Shape shape = XCAFDoc_ShapeTool::GetShape(label);
  GProp_GProps volume;
  GProp_GProps area;
  BRepGProp::VolumeProperties(shape, volume);
  BRepGProp::SurfaceProperties(shape, area);
  std::size_t bodies = 0;
  for (TopExp_Explorer it(shape, TopAbs_SOLID); it.More(); it.Next()) ++bodies;
  return {name_of(label), bodies, volume.Mass(), area.Mass(), vec(volume.CentreOfMass()), stated_at(label), 0};
}

Vec3 column(const gp_Trsf& trsf, int index) {
  return {trsf.Value(1, index), trsf.Value(2, index), trsf.Value(3, index)};
}

/// Walks the tree from the top.
class Walk {
 public:
  void visit(const TDF_Label& shown, const TopLoc_Location& above, const std::string& within) {
    TDF_Label label = shown;
    TopLoc_Location place = above;
    if (XCAFDoc_ShapeTool::IsReference(shown)) {
      place = above * XCAFDoc_ShapeTool::GetLocation(shown);
      XCAFDoc_ShapeTool::GetReferredShape(shown, label);
    }
    if (!XCAFDoc_ShapeTool::IsAssembly(label)) {
      add(label, place, label == shown ? std::string() : name_of(shown), within);
      return;
    }
    TDF_LabelSequence components;
    XCAFDoc_ShapeTool::GetComponents(label, components, false);
    const std::string inside = within.empty() ? name_of(label) : within + "/" + name_of(label);
    for (const TDF_Label& component : components) visit(component, place, inside);
  }
  [[nodiscard]] ReadStep take() { return std::move(found_); }

 private:
  void add(const TDF_Label& label, const TopLoc_Location& place, const std::string& name, const std::string& within) {
    const auto known = std::find(labels_.begin(), labels_.end(), label);
    const auto index = static_cast<std::size_t>(known - labels_.begin());
    if (known == labels_.end()) {
      labels_.push_back(label);
      found_.parts.push_back(part_at(label));
    }
    ++found_.parts[index].placements;
    const gp_Trsf trsf = place.Transformation();
    found_.placements.push_back({index, name, within, Pose::at(column(trsf, 4), column(trsf, 1), column(trsf, 2))});
  }

  std::vector<TDF_Label> labels_;
  ReadStep found_;
};

}  // namespace

Result<ReadStep> read_step(std::string_view bytes) {
  return guarded("reading STEP", [&]() -> Result<ReadStep> {
    const StepSession session;
    std::istringstream in{std::string(bytes)};
    STEPCAFControl_Reader reader;
    reader.SetPropsMode(true);
    if (reader.ChangeReader().ReadStream("step", in) != IFSelect_RetDone) throw Trouble("this is not a STEP file");
    Handle(TDocStd_Document) document = new TDocStd_Document("XmlXCAF");
    if (!reader.Transfer(document)) throw Trouble("the kernel finds no shape in it");
    TDF_LabelSequence tops;
    XCAFDoc_DocumentTool::ShapeTool(document->Main())->GetFreeShapes(tops);
    Walk walk;
    for (const TDF_Label& top : tops) walk.visit(top, TopLoc_Location(), "");
    return walk.take();
  });
}

}  // namespace fitup::solid
