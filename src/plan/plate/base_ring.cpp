// A ring of angle under walls of plate: what stands on it, and what is welded to what.
// Entry: base_ring_of, weld_to_ring.
#include "plan/plate/base_ring.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/face_axes.h"

namespace fitup::plan::plate {

namespace {

// A wall runs on beyond any corner.
constexpr double far_mm = 1e6;

void weld_wall(Build& build, const AngleRings& ring, const Panel& wall, InstanceId id) {
  const Ground ground = ring.ground(low);
  const double t = wall.thickness_mm();
  const auto join = [&](InstanceId member) { build.draft.join(id, member, JointKind::weld, axis::minus_z); };
  const Vec3 middle = 0.5 * build.shell.size;
  if (wall.square == 1) return join(ground.face_ids[wall.box.middle().y < middle.y ? low : high]);
  const Box2 side{{0, 0}, {t, far_mm}};
  const Side at = wall.box.middle().x < middle.x ? low : high;
  if (shares_face(side, ground.side)) join(ground.side_ids[at]);
  if (!shares_face(side, ground.face)) return;
  for (const InstanceId member : ground.face_ids) join(member);
}

void weld_rib(Build& build, const AngleRings& ring, const Panel& rib, InstanceId id) {
  const auto& members = ring.bottom().ids;  // front, back, left, right
  for (const Side end : {low, high})
    build.draft.join(id, members[(rib.square == 0 ? 0U : 2U) + end], JointKind::weld, axis::z, ring.options.gap_mm);
}

}  // namespace

std::optional<AngleRings> base_ring_of(Build& build) {
  const Sourced<std::string>& name = *build.box_spec().plates.base_ring;
  const FrameSpec& frame = build.box_spec().frame;
  const Section& section = *build.spec.section(*name);
  const auto refuse = [&](const Place& place, const std::string& why, const std::string& choice) {
    build.diagnostics.add(diag::say<"base-ring-refused">(place, *name, why, choice));
    return std::nullopt;
  };
  if (section.shape != SectionShape::angle)
    return refuse(name.place, "walls of plate stand on the lying legs of angles", "an angle");
  if (!tables::find_material(*frame.material)->steel)
    return refuse(frame.material.place,
                  fmt::format("its sections and welds are those of steel, and the box is of {}", *frame.material),
                  "a steel, or leave plates.base_ring out: walls of plate need none");
  if (*frame.bottom_legs == Legs::up)
    return refuse(frame.bottom_legs.place, "its standing legs would take the walls' place", "bottom_legs = \"down\"");
  const double thinner = std::min(section.thickness_mm, sheets_of(build).t_mm);
  if (frame.cope_gap->mm() > thinner + tolerance::contact_mm) {
    build.diagnostics.add(
        diag::say<"gap-too-wide">(frame.cope_gap.place, build.in_words(frame.cope_gap->mm()), build.in_words(thinner)));
    return std::nullopt;
  }
  return AngleRings(build, section, section, {build.key("plates.base_ring"), name.place, "frame"});
}

Panel rib_on_ring(const AngleRings& ring, const RibPlace& rib, Panel rib_panel) {
  const double end = along(rib.under_rail.low, rib.along) - along(rib.box.low, rib.along);
  const double length = along(rib.box.size(), rib.along);
  const double below = ring.bottom().thickness_mm() + ring.options.gap_mm;
  rib_panel.edges[top_side].push_back({{0, end}, -below});
  rib_panel.edges[top_side].push_back({{length - end, length}, -below});
  return rib_panel;
}

void weld_to_ring(Build& build, const AngleRings& ring, const std::vector<Panel>& panels,
                  const std::vector<InstanceId>& ids) {
  for (std::size_t i = 0; i < panels.size(); ++i) {
    if (panels[i].part.role == Role::rib) {
      weld_rib(build, ring, panels[i], ids[i]);
    } else if (std::abs(panels[i].box.low.z - build.shell.deck_mm) <= tolerance::contact_mm) {
      weld_wall(build, ring, panels[i], ids[i]);
    }
  }
}

}  // namespace fitup::plan::plate
