// Plates behind the members' legs, by face.
// Entry: on_tubes, set_in_mm.
#include "layout/set_in.h"

namespace fitup {

bool on_tubes(const Spec& spec, const BoxSpec& box) {
  const Section* ring = spec.section(*box.frame.section);
  return *box.build == BuildKind::framed && ring != nullptr && ring->shape == SectionShape::tube;
}

double set_in_mm(const Spec& spec, const BoxSpec& box, Face face) {
  const FaceSpec& f = box.face(face);
  const bool inside = *f.closed_by == Closure::plate && *f.set == PlateSet::inside;
  if (!inside || *box.build != BuildKind::framed || (on_tubes(spec, box) && face != Face::top)) return 0;
  return f.thickness->mm();
}

}  // namespace fitup
