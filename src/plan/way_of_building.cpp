// Which way a box is built.
// Entry: build_frame.
#include "plan/build.h"

namespace fitup::plan {

bool build_frame(Build& build) {
  return *build.box_spec().build == BuildKind::plate ? build_of_plates(build) : build_of_sections(build);
}

}  // namespace fitup::plan
