#pragma once
// What is added to a STEP file beside its shapes: validation properties and colours, in our own order.

#include <StepBasic_DerivedUnit.hxx>
#include <StepRepr_ProductDefinitionShape.hxx>
#include <StepRepr_RepresentationContext.hxx>
#include <StepRepr_RepresentationItem.hxx>
#include <XSControl_WorkSession.hxx>

#include "solid/step_content.h"

namespace fitup::solid {

/// Where a product's shape stands in the file.
struct WrittenShape {
  Handle(StepRepr_ProductDefinitionShape) definition;
  Handle(StepRepr_RepresentationContext) context;
  Handle(StepRepr_RepresentationItem) body;
};

/// The kernel would order colours by their addresses and hang the validation properties on a made-up aspect
/// of the shape; here both stand in the order of the calls and at the product itself.
class StepExtras {
 public:
  explicit StepExtras(const Handle(XSControl_WorkSession) & session);
  /// Volume, area and centroid as CAx-IF's recommended practice for geometric validation properties has them.
  void add_validation(const WrittenShape& shape, const PartSolid& solid);
  void add_colour(const WrittenShape& shape, const Colour& colour);

 private:
  void add_property(const WrittenShape& shape, const Handle(StepRepr_RepresentationItem) & item, const char* name);

  Handle(XSControl_WorkSession) session_;
  Handle(StepBasic_DerivedUnit) square_mm_;
  Handle(StepBasic_DerivedUnit) cubic_mm_;
};

}  // namespace fitup::solid
