// Adds validation properties and colours to a STEP file in the making.
// Entry: StepExtras.
#include "solid/step_extras.h"

#include <Interface_InterfaceModel.hxx>
#include <STEPConstruct_Styles.hxx>
#include <STEPConstruct_ValidationProps.hxx>
#include <StepBasic_DerivedUnitElement.hxx>
#include <StepBasic_HArray1OfDerivedUnitElement.hxx>
#include <StepBasic_MeasureValueMember.hxx>
#include <StepBasic_SiUnitAndLengthUnit.hxx>
#include <StepBasic_Unit.hxx>
#include <StepGeom_CartesianPoint.hxx>
#include <StepRepr_CharacterizedDefinition.hxx>
#include <StepRepr_MeasureRepresentationItem.hxx>
#include <StepVisual_ColourRgb.hxx>
#include <StepVisual_MechanicalDesignGeometricPresentationRepresentation.hxx>
#include <StepVisual_PresentationStyleAssignment.hxx>
#include <StepVisual_StyledItem.hxx>
#include <TCollection_HAsciiString.hxx>

#include "solid/guarded.h"

namespace fitup::solid {
namespace {

Handle(TCollection_HAsciiString) ascii(const char* text) { return new TCollection_HAsciiString(text); }

Handle(StepBasic_DerivedUnit) power_of(const Handle(StepBasic_SiUnitAndLengthUnit) & length, double exponent) {
  const Handle(StepBasic_DerivedUnitElement) element = new StepBasic_DerivedUnitElement;
  element->Init(length, exponent);
  const Handle(StepBasic_HArray1OfDerivedUnitElement) elements = new StepBasic_HArray1OfDerivedUnitElement(1, 1);
  elements->SetValue(1, element);
  Handle(StepBasic_DerivedUnit) unit = new StepBasic_DerivedUnit;
  unit->Init(elements);
  return unit;
}

Handle(StepRepr_MeasureRepresentationItem)
    measured(const char* name, const char* type, double value, const Handle(StepBasic_DerivedUnit) & in) {
  const Handle(StepBasic_MeasureValueMember) member = new StepBasic_MeasureValueMember;
  member->SetName(type);
  member->SetReal(value);
  StepBasic_Unit unit;
  unit.SetValue(in);
  Handle(StepRepr_MeasureRepresentationItem) item = new StepRepr_MeasureRepresentationItem;
  item->Init(ascii(name), member, unit);
  return item;
}

}  // namespace

StepExtras::StepExtras(const Handle(XSControl_WorkSession) & session) : session_(session) {
  const Handle(StepBasic_SiUnitAndLengthUnit) millimetre = new StepBasic_SiUnitAndLengthUnit;
  millimetre->Init(true, StepBasic_spMilli, StepBasic_sunMetre);
  square_mm_ = power_of(millimetre, 2);
  cubic_mm_ = power_of(millimetre, 3);
}

void StepExtras::add_property(const WrittenShape& shape, const Handle(StepRepr_RepresentationItem) & item,
                              const char* name) {
  StepRepr_CharacterizedDefinition target;
  target.SetValue(shape.definition);
  STEPConstruct_ValidationProps properties(session_);
  if (!properties.AddProp(target, shape.context, item, name)) throw Trouble("a validation property was not taken");
}

void StepExtras::add_validation(const WrittenShape& shape, const PartSolid& solid) {
  add_property(shape, measured("surface area measure", "AREA_MEASURE", solid.area_mm2, square_mm_), "surface area");
  add_property(shape, measured("volume measure", "VOLUME_MEASURE", solid.volume_mm3, cubic_mm_), "volume");
  const Handle(StepGeom_CartesianPoint) centre = new StepGeom_CartesianPoint;
  centre->Init3D(ascii("centre point"), solid.centroid.x, solid.centroid.y, solid.centroid.z);
  add_property(shape, centre, "centroid");
}

void StepExtras::add_colour(const WrittenShape& shape, const Colour& colour) {
  const Handle(StepVisual_ColourRgb) mixed = new StepVisual_ColourRgb;
  mixed->Init(ascii(""), colour.red, colour.green, colour.blue);
  STEPConstruct_Styles styles(session_);
  const auto assignment = styles.MakeColorPSA(shape.body, mixed, mixed, nullptr, 0.0);
  if (styles.AddStyle(shape.body, assignment, nullptr).IsNull()) throw Trouble("a colour was not taken");
  Handle(StepVisual_MechanicalDesignGeometricPresentationRepresentation) shown;
  if (!styles.CreateMDGPR(shape.context, shown)) throw Trouble("a colour was not taken");
  session_->Model()->AddWithRefs(shown);
}

}  // namespace fitup::solid
