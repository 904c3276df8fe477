// Gives each stage's text form.
// Entry: stage_text.
#include "app/show.h"

#include "fitup/job.h"

namespace fitup::app {

std::string stage_text(const PipelineResult& result, Stage stage) {
  switch (stage) {
    case Stage::spec: return to_text(*result.spec);
    case Stage::layout: return to_text(*result.layout);
    case Stage::plan: return to_text(*result.plan);
    case Stage::model: return model_text(*result.plan, *result.model);
    case Stage::findings: return findings_text(*result.findings);
  }
  return {};
}

}  // namespace fitup::app
