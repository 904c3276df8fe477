// Builds each distinct part of a plan as a solid and checks it against its volume in closed form.
// Entry: build_model.
#include <fmt/format.h>
#include <algorithm>
#include <atomic>
#include <cmath>
#include <optional>
#include <thread>

#include "fitup/tolerances.h"
#include "solid/member.h"
#include "solid/quiet.h"
#include "solid/shapes.h"

namespace fitup {
namespace {

using solid::Trouble;

TopoDS_Solid fused_prisms(const std::vector<Prism>& prisms) {
  TopTools_ListOfShape solids;
  for (const Prism& one : prisms) solids.Append(solid::prism(one.profile, one.pose, one.length_mm));
  if (solids.IsEmpty()) throw Trouble("it has no prism to be built from");
  return solid::fused(solids);
}

Profile with_drilled(const Flat& flat) {
  Profile profile = flat.profile;
  for (const DrilledHole& hole : flat.drilled) profile.holes.push_back(Loop::circle(hole.at, hole.diameter_mm / 2));
  return profile;
}

// What is bent up is its body's prisms in one.
TopoDS_Solid build(const Flat& flat) {
  const Profile profile = with_drilled(flat);
  if (const auto flaw = flaw_in(profile)) throw Trouble(*flaw);
  if (flat.bends.empty()) return solid::prism(profile, Pose(), flat.thickness_mm);
  Part part;
  part.form = flat;
  return fused_prisms(body_of(part).outer);
}

TopoDS_Solid build(const Member& member) { return solid::member_solid(member); }

TopoDS_Solid build(const Solidform& form) { return fused_prisms(form.prisms); }

/// Both faces and the edge between them.
double skin_mm2(const Flat& flat) {
  const Profile profile = with_drilled(flat);
  return 2 * profile.area_mm2() + profile.perimeter_mm() * flat.thickness_mm;
}

void require_volume(const PartSolid& solid, double expected_mm3) {
  const double off = std::abs(solid.volume_mm3 - expected_mm3);
  if (off <= tolerance::volume_relative * std::abs(expected_mm3)) return;
  throw Trouble(fmt::format("its solid has {:.6g} mm3, {:.3g} mm3 off the {:.6g} mm3 of its data", solid.volume_mm3,
                            off, expected_mm3));
}

Result<PartSolid> build_part(const Part& part) {
  const std::string operation = fmt::format("building {} {}", part.mark, part.name);
  return solid::guarded(operation, [&]() -> Result<PartSolid> {
    const TopoDS_Solid shape = std::visit([](const auto& form) { return build(form); }, part.form);
    const auto* flat = std::get_if<Flat>(&part.form);
    const bool extruded = flat != nullptr && flat->bends.empty();
    extruded ? solid::require_closed(shape) : solid::require_valid(shape);
    const Solid made = solid::wrap(shape);
    auto measured = extruded ? solid::measure_extruded(made, skin_mm2(*flat)) : solid::measure(made);
    if (!measured) return solid::kernel_failure(operation, measured.error().reason);
    require_volume(*measured, volume_mm3(part));
    return measured;
  });
}

using Built = std::vector<std::optional<Result<PartSolid>>>;

/// Each thread takes the next part that nobody has; every result has its own place, so that their order
/// does not depend on who was quicker.
void build_all(const std::vector<Part>& parts, int cores, Built& built) {
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t i = next++; i < parts.size(); i = next++) built[i].emplace(build_part(parts[i]));
  };
  std::vector<std::thread> helpers;
  const auto threads = std::min<std::size_t>(static_cast<std::size_t>(std::max(cores, 1)), parts.size());
  for (std::size_t i = 1; i < threads; ++i) helpers.emplace_back(work);
  work();
  for (std::thread& helper : helpers) helper.join();
}

}  // namespace

Result<Model> build_model(const Plan& plan, int cores) {
  solid::silence_kernel();
  Built built(plan.parts.size());
  build_all(plan.parts, cores, built);
  Model model;
  model.parts.reserve(built.size());
  for (auto& one : built) {
    if (!*one) return one->error();
    model.parts.push_back(std::move(*one).value());
  }
  return model;
}

}  // namespace fitup
