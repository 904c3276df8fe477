// Sets up the kernel for STEP.
// Entry: StepSession.
#include "solid/step_session.h"

#include <fmt/format.h>
#include <Interface_Static.hxx>
#include <STEPCAFControl_Controller.hxx>
#include <XCAFDoc_ShapeTool.hxx>
#include <string>

#include "solid/guarded.h"
#include "solid/quiet.h"

namespace fitup::solid {
namespace {

std::mutex& kernel_step_mutex() {
  static std::mutex mutex;
  return mutex;
}

void set(const char* name, const char* value) {
  if (!Interface_Static::SetCVal(name, value)) {
    throw Trouble(fmt::format("the kernel does not take {} = {}", name, value));
  }
}

}  // namespace

StepSession::StepSession(StepSchema schema) : lock_(kernel_step_mutex()) {
  silence_kernel();
  STEPCAFControl_Controller::Init();  // before any setting, or none is known
  set("write.step.schema", schema == StepSchema::ap242 ? "AP242DIS" : "AP214IS");
  set("write.step.unit", "MM");
  set("xstep.cascade.unit", "MM");
  if (!Interface_Static::SetIVal("write.surfacecurve.mode", 0)) throw Trouble("the kernel insists on surface curves");
  XCAFDoc_ShapeTool::SetAutoNaming(false);
}

}  // namespace fitup::solid
