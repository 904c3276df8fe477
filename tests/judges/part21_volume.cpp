// Integrates the volume of a solid from its boundary.
// Entry: volume_of_solid.
#include "judges/part21_volume.h"

#include <cmath>
#include <map>
#include <optional>

#include "judges/part21_assembly.h"
#include "judges/part21_curve.h"

namespace fitup::judges {
namespace {

Failure trouble(const std::string& what) { return {Failure::Kind::file, "volume of a solid", what}; }

/// An edge as a face's loop runs along it.
struct Step {
  int edge = 0;
  bool forward = true;
};

std::vector<Step> steps_of(const Part21File& file, int face) {
  std::vector<Step> steps;
  for (const int bound : file.record(face).at(1).references()) {
    const bool bound_forward = file.record(bound).at(2).is_true();
    for (const int oriented : file.record(file.record(bound).ref(1)).at(1).references()) {
      const Record& edge = file.record(oriented);
      steps.push_back({edge.ref(3), edge.at(4).is_true() == bound_forward});
    }
  }
  return steps;
}

/// A one-form whose sum round a face is the flux of the position through it. A loop runs counter-clockwise about
/// the face's normal; where that is against the surface's own, both the loop and the normal turn, so that the
/// form is the same. The flux is taken about `origin`.
using Form = std::function<double(const CurvePoint&)>;

Form plane_form(const Pose& place, Vec3 origin) {
  const Vec3 normal = place.z();
  const double height = dot(normal, place.origin() - origin);
  return [=](const CurvePoint& p) { return height * dot(normal, cross(p.at - place.origin(), p.slope)) / 2; };
}

/// Radius R + k z at height z. With r(z) the radius, c the foot point from the origin, and e(angle) the radial
/// direction, the flux element is r (c.e + R - k c.a) d(angle) dz; integrated over z from 0 and taken round the
/// loop by Green's theorem.
Form turned_form(const Pose& place, double radius, double k, Vec3 origin) {
  const Vec3 a = place.z();
  const Vec3 c = place.origin() - origin;
  return [=](const CurvePoint& p) {
    const double z = dot(p.at - place.origin(), a);
    const Vec3 out = p.at - place.origin() - z * a;
    const double r = norm(out);
    if (r < 1e-12) return 0.0;  // a cone's tip
    const Vec3 e = (1 / r) * out;
    const double turning = dot(cross(a, e), p.slope) / r;
    return -(dot(c, e) + radius - k * dot(c, a)) * (radius * z + k * z * z / 2) * turning;
  };
}

Result<Form> form_of(const Part21File& file, int surface, Vec3 origin) {
  const Record& record = file.record(surface);
  const Pose place = placement_at(file, record.ref(1));
  if (record.type == "PLANE") return plane_form(place, origin);
  if (record.type == "CYLINDRICAL_SURFACE") return turned_form(place, record.at(2).number, 0, origin);
  if (record.type == "CONICAL_SURFACE") {
    return turned_form(place, record.at(2).number, std::tan(record.at(3).number), origin);
  }
  return trouble("no rule for a face on " + record.type);
}

/// Each edge is run along once forward and once backward, or the shell is not closed.
std::optional<std::string> unpaired(const Part21File& file, const std::vector<int>& faces) {
  std::map<int, std::pair<int, int>> runs;
  for (const int face : faces) {
    for (const Step& step : steps_of(file, face)) ++(step.forward ? runs[step.edge].first : runs[step.edge].second);
  }
  for (const auto& [edge, count] : runs) {
    if (count != std::pair(1, 1)) return "edge #" + std::to_string(edge) + " is not shared by two faces";
  }
  return std::nullopt;
}

}  // namespace

Result<double> volume_of_solid(const Part21File& file, int manifold_solid_brep) {
  const std::vector<int> faces = file.record(file.record(manifold_solid_brep).ref(1)).at(1).references();
  if (faces.empty()) return trouble("it has no faces");
  if (const auto flaw = unpaired(file, faces)) return trouble(*flaw);
  std::optional<Vec3> origin;
  double flux = 0;
  for (const int face : faces) {
    const int surface = file.record(face).ref(2);
    if (!origin) origin = placement_at(file, file.record(surface).ref(1)).origin();
    const Result<Form> form = form_of(file, surface, *origin);
    if (!form) return form.error();
    for (const Step& step : steps_of(file, face)) {
      const Result<EdgeCurve> curve = edge_curve(file, step.edge);
      if (!curve) return curve.error();
      flux += (step.forward ? 1 : -1) * integral_along(*curve, *form);
    }
  }
  return flux / 3;
}

}  // namespace fitup::judges
