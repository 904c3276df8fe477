// Writes a STEP file: the tree and the shapes through the kernel, names, numbers and styles in our own order.
// Entry: step_text.
#include <APIHeaderSection_MakeHeader.hxx>
#include <Interface_EntityIterator.hxx>
#include <STEPCAFControl_Writer.hxx>
#include <StepBasic_Product.hxx>
#include <StepBasic_ProductDefinition.hxx>
#include <StepBasic_ProductDefinitionFormation.hxx>
#include <StepData_Protocol.hxx>
#include <StepData_StepModel.hxx>
#include <StepData_StepWriter.hxx>
#include <StepRepr_CharacterizedDefinition.hxx>
#include <StepRepr_NextAssemblyUsageOccurrence.hxx>
#include <StepRepr_PropertyDefinition.hxx>
#include <StepRepr_Representation.hxx>
#include <StepRepr_RepresentedDefinition.hxx>
#include <StepShape_ManifoldSolidBrep.hxx>
#include <StepShape_ShapeDefinitionRepresentation.hxx>
#include <TDF_Label.hxx>
#include <TDataStd_Name.hxx>
#include <TDocStd_Document.hxx>
#include <XCAFDoc_DocumentTool.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <XSControl_WorkSession.hxx>
#include <map>
#include <sstream>

#include "solid/shapes.h"
#include "solid/step_content.h"
#include "solid/step_extras.h"
#include "solid/step_session.h"
#include "solid/step_text.h"

namespace fitup::solid {
namespace {

/// The identifier as registered; the kernel's own of AP242 has a stray dot in it.
const char* schema_identifier(StepSchema schema) {
  return schema == StepSchema::ap242 ? "AP242_MANAGED_MODEL_BASED_3D_ENGINEERING_MIM_LF { 1 0 10303 442 1 1 4 }"
                                     : "AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }";
}

Handle(TCollection_HAsciiString) ascii(const std::string& text) { return new TCollection_HAsciiString(text.c_str()); }

void name_label(const TDF_Label& label, const std::string& key) {
  TDataStd_Name::Set(label, TCollection_ExtendedString(key.c_str(), true));
}

/// One file in the making.
class StepFile {
 public:
  explicit StepFile(const StepContent& content) : content_(content), document_(new TDocStd_Document("XmlXCAF")) {}

  std::string text() {
    add_products();
    if (!content_.groups.empty()) add_tree();
    transfer();
    number();
    add_extras();
    set_header();
    return words_.put_into(written());
  }

 private:
  /// The kernel carries a product's key through; what the product is called is looked up by it afterwards.
  struct Called {
    std::string id;
    std::string description;
  };

  std::string key_of_product(const std::string& id, const std::string& name, const std::string& description) {
    std::string key = words_.key(name);
    called_[key] = {words_.key(id), words_.key(description)};
    return key;
  }

  void add_products() {
    const Handle(XCAFDoc_ShapeTool) tool = XCAFDoc_DocumentTool::ShapeTool(document_->Main());
    for (const StepProduct& product : content_.products) {
      const TDF_Label label = tool->AddShape(product.solid->solid.shape().solid, false, false);
      product_keys_.push_back(key_of_product(product.id, product.name, product.description));
      name_label(label, product_keys_.back());
      labels_.push_back(label);
    }
  }

  void add_tree() {
    const Handle(XCAFDoc_ShapeTool) tool = XCAFDoc_DocumentTool::ShapeTool(document_->Main());
    const TDF_Label top = tool->NewShape();
    name_label(top, key_of_product(content_.job.name, content_.job.name, content_.job.description));
    for (const StepGroup& group : content_.groups) {
      const TDF_Label assembly = tool->NewShape();
      name_label(assembly, key_of_product(group.id, group.name, ""));
      for (const StepUse& use : group.uses) {
        const TopLoc_Location place(transformation(use.pose));
        name_label(tool->AddComponent(assembly, labels_[use.product], place), words_.key(use.name));
      }
      name_label(tool->AddComponent(top, assembly, TopLoc_Location()), words_.key(group.name));
    }
    tool->UpdateAssemblies();
  }

  void transfer() {
    writer_.SetColorMode(false);
    writer_.SetLayerMode(false);
    writer_.SetNameMode(true);
    writer_.SetPropsMode(false);
    if (!writer_.Transfer(document_, STEPControl_AsIs)) throw Trouble("the kernel did not translate the solids");
  }

  [[nodiscard]] Handle(StepData_StepModel) model() { return writer_.ChangeWriter().Model(); }

  /// The kernel counts products and uses from the start of the process.
  void number() {
    int uses = 0;
    for (Interface_EntityIterator it = model()->Entities(); it.More(); it.Next()) {
      if (const auto product = Handle(StepBasic_Product)::DownCast(it.Value()); !product.IsNull()) {
        const Called& called = called_.at(product->Name()->ToCString());
        product->SetId(ascii(called.id));
        product->SetDescription(ascii(called.description));
      }
      const auto use = Handle(StepRepr_NextAssemblyUsageOccurrence)::DownCast(it.Value());
      if (!use.IsNull()) use->SetId(ascii(std::to_string(++uses)));
    }
  }

  /// The shape of each product that has a body, by the key of its name.
  std::map<std::string, WrittenShape> written_shapes() {
    std::map<std::string, WrittenShape> shapes;
    for (Interface_EntityIterator it = model()->Entities(); it.More(); it.Next()) {
      const auto link = Handle(StepShape_ShapeDefinitionRepresentation)::DownCast(it.Value());
      if (link.IsNull()) continue;
      const auto shape = Handle(StepRepr_ProductDefinitionShape)::DownCast(link->Definition().PropertyDefinition());
      const Handle(StepRepr_Representation) drawn = link->UsedRepresentation();
      const Handle(StepRepr_RepresentationItem) body = drawn->ItemsValue(drawn->NbItems());
      if (!body->IsKind(STANDARD_TYPE(StepShape_ManifoldSolidBrep))) continue;
      const Handle(StepBasic_ProductDefinition) definition = shape->Definition().ProductDefinition();
      shapes[definition->Formation()->OfProduct()->Name()->ToCString()] = {shape, drawn->ContextOfItems(), body};
    }
    return shapes;
  }

  void add_extras() {
    const auto shapes = written_shapes();
    StepExtras extras(writer_.ChangeWriter().WS());
    for (std::size_t i = 0; i < content_.products.size(); ++i) {
      const auto found = shapes.find(product_keys_[i]);
      if (found == shapes.end()) throw Trouble("a body is missing in what the kernel translated");
      extras.add_validation(found->second, *content_.products[i].solid);
      extras.add_colour(found->second, content_.products[i].colour);
    }
  }

  void set_header() {
    APIHeaderSection_MakeHeader header(model());
    header.SetName(ascii(words_.key(content_.job.name)));
    header.SetTimeStamp(ascii(words_.key(content_.job.timestamp)));
    header.SetAuthorValue(1, ascii(""));
    header.SetOrganizationValue(1, ascii(""));
    header.SetPreprocessorVersion(ascii("fitup"));
    header.SetOriginatingSystem(ascii("fitup"));
    header.SetAuthorisation(ascii(""));
    header.SetDescriptionValue(1, ascii(words_.key(content_.job.description)));
    header.SetSchemaIdentifiersValue(1, ascii(schema_identifier(content_.job.schema)));
  }

  std::string written() {
    StepData_StepWriter file(model());
    file.SendModel(Handle(StepData_Protocol)::DownCast(writer_.ChangeWriter().WS()->Protocol()));
    std::ostringstream out;
    out.imbue(std::locale::classic());
    if (!file.Print(out) || !out) throw Trouble("the kernel did not write the file to its end");
    return std::move(out).str();
  }

  const StepContent& content_;
  StepWords words_;
  std::map<std::string, Called> called_;
  Handle(TDocStd_Document) document_;
  std::vector<TDF_Label> labels_;
  std::vector<std::string> product_keys_;
  STEPCAFControl_Writer writer_;
};

}  // namespace

Result<std::string> step_text(const StepContent& content) {
  return guarded("writing STEP", [&] {
    const StepSession session(content.job.schema);
    return StepFile(content).text();
  });
}

}  // namespace fitup::solid
