// The Model's text form.
// Entry: model_text.
#include <fmt/format.h>

#include "app/show.h"

namespace fitup::app {

std::string model_text(const Plan& plan, const Model& model) {
  std::string text;
  for (PartId id = 0; id < model.parts.size(); ++id) {
    const Part& part = plan.parts[id];
    const PartSolid& solid = model.parts[id];
    const Vec3 c = solid.centroid;
    const Vec3 s = solid.bounds.size();
    text += fmt::format(
        "{} {}: volume {:.3f} mm3, area {:.3f} mm2, centroid ({:.4f}, {:.4f}, {:.4f}), size {:.4f} x {:.4f} x {:.4f}\n",
        part.mark, part.name, solid.volume_mm3, solid.area_mm2, c.x, c.y, c.z, s.x, s.y, s.z);
  }
  return text;
}

}  // namespace fitup::app
