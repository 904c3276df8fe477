// Flat parts to grids of rectangles.
// Entry: panel_mesh, nodes_on.
#include "loads/panel_mesh.h"

#include <algorithm>
#include <cmath>
#include <variant>

#include "geometry/region.h"
#include "loads/joint_groups.h"
#include "loads/strength.h"

namespace fitup::loads {

namespace {

// Cells across the shorter side, and at most along the longer one.
constexpr double cells_across = 8;
constexpr double most_along = 32;
// Lines of a grid nearer than this are one.
constexpr double one_line_mm = 2;

/// From edge to edge through all of `through`, no two lines farther apart than a cell.
std::vector<double> lines_through(double low, double high, std::vector<double> through, double cell_mm) {
  through.push_back(high);
  std::sort(through.begin(), through.end());
  std::vector<double> lines{low};
  for (const double next : through) {
    const bool last = high - next < one_line_mm;
    if (next - lines.back() < one_line_mm || (last && next < high)) continue;
    const double from = lines.back(), gap = next - from;
    const double steps = std::max(1.0, std::round(gap / cell_mm));
    for (double i = 1; i <= steps; ++i) lines.push_back(i == steps ? next : from + gap * i / steps);
  }
  return lines;
}

Vec2 flat(Vec3 v) { return {v.x, v.y}; }

}  // namespace

std::array<std::size_t, 4> PanelMesh::corners(std::size_t cell) const {
  const std::size_t i = cell % (xs.size() - 1), j = cell / (xs.size() - 1);
  return {node(i, j), node(i + 1, j), node(i + 1, j + 1), node(i, j + 1)};
}

Vec2 PanelMesh::size_of(std::size_t cell) const {
  const std::size_t i = cell % (xs.size() - 1), j = cell / (xs.size() - 1);
  return {xs[i + 1] - xs[i], ys[j + 1] - ys[j]};
}

Vec3 PanelMesh::at(std::size_t node) const {
  const Vec2 p{xs[node % xs.size()], ys[node / xs.size()]};
  if (!base) return pose.point({p.x, p.y, thickness_mm / 2});
  const Vec2 in{std::clamp(p.x, base->low.x, base->high.x), std::clamp(p.y, base->low.y, base->high.y)};
  return pose.point({in.x, in.y, thickness_mm / 2 + norm(p - in)});
}

Vec2 PanelMesh::middle_of(std::size_t cell) const {
  const std::size_t i = cell % (xs.size() - 1), j = cell / (xs.size() - 1);
  return {(xs[i] + xs[i + 1]) / 2, (ys[j] + ys[j + 1]) / 2};
}

FramePanel PanelMesh::panel(std::size_t cell, const Elastic& elastic) const {
  FramePanel panel;
  panel.x = pose.x();
  panel.y = pose.y();
  if (base) {
    const Vec2 m = middle_of(cell);
    const Vec3 down = -1.0 * pose.z();
    if (m.x < base->low.x || m.x > base->high.x) panel.x = m.x < base->low.x ? down : pose.z();
    if (m.y < base->low.y || m.y > base->high.y) panel.y = m.y < base->low.y ? down : pose.z();
  }
  panel.width_mm = size_of(cell).x;
  panel.height_mm = size_of(cell).y;
  panel.thickness_mm = thickness_mm;
  panel.elastic = elastic;
  return panel;
}

std::vector<bool> PanelMesh::used() const {
  std::vector<bool> used(node_count(), false);
  for (std::size_t c = 0; c < cells.size(); ++c) {
    if (!cells[c]) continue;
    for (const std::size_t n : corners(c)) used[n] = true;
  }
  return used;
}

void PanelMesh::keep_what_hangs_on(const std::vector<bool>& nodes) {
  std::vector<bool> reached = nodes, kept(cells.size(), false);
  for (bool more = true; more;) {
    more = false;
    for (std::size_t c = 0; c < cells.size(); ++c) {
      const auto at = corners(c);
      if (!cells[c] || kept[c]) continue;
      if (std::none_of(at.begin(), at.end(), [&](std::size_t n) { return reached[n]; })) continue;
      kept[c] = more = true;
      for (const std::size_t n : at) reached[n] = true;
    }
  }
  cells = kept;
}

namespace {

/// A tray's base in its own plane, from the middle of one edge's thickness to that of the other, with its holes, and
/// how far above its middle plane the edges end. They are bent up on all four sides alike.
struct TrayBase {
  Profile profile;
  Box2 area;
  double rises_mm = 0;
};

TrayBase base_of(const Part& part) {
  const auto& sheet = std::get<Flat>(part.form);
  const std::vector<Prism> body = body_of(part).outer;
  const double out = sheet.bends.front().radius_mm + sheet.thickness_mm / 2;
  TrayBase base{body.front().profile, body.front().profile.bounds(), out + body[2].profile.bounds().high.x};
  base.area = {base.area.low - Vec2{out, out}, base.area.high + Vec2{out, out}};
  base.profile.outer = Loop::rectangle(base.area.low, base.area.high);
  return base;
}

/// Without its grid; nothing of a sheet that is bent and is no wall of the shell.
std::optional<PanelMesh> bare_mesh(const Plan& plan, InstanceId id) {
  const Instance& instance = plan.instances[id];
  const Part& part = plan.parts[instance.part];
  const auto* sheet = std::get_if<Flat>(&part.form);
  if (sheet == nullptr || (!sheet->bends.empty() && part.role != Role::wall)) return std::nullopt;
  PanelMesh mesh;
  mesh.of = id;
  mesh.pose = instance.pose;
  mesh.thickness_mm = sheet->thickness_mm;
  return mesh;
}

void cut_out(PanelMesh& mesh, const Profile& profile) {
  const geometry::Region region(profile);
  mesh.cells.assign((mesh.xs.size() - 1) * (mesh.ys.size() - 1), false);
  for (std::size_t c = 0; c < mesh.cells.size(); ++c) mesh.cells[c] = region.contains(mesh.middle_of(c));
}

/// What stands up of a tray is more of its grid, beyond the base.
void stand_up(PanelMesh& mesh, const TrayBase& tray) {
  constexpr int cells_up = 2;
  mesh.base = tray.area;
  for (int i = 1; i <= cells_up; ++i) {
    const double up = tray.rises_mm * i / cells_up;
    mesh.xs.insert(mesh.xs.begin(), tray.area.low.x - up);
    mesh.xs.push_back(tray.area.high.x + up);
    mesh.ys.insert(mesh.ys.begin(), tray.area.low.y - up);
    mesh.ys.push_back(tray.area.high.y + up);
  }
  Profile developed = tray.profile;
  const Vec2 low = tray.area.low, high = tray.area.high, up{tray.rises_mm, tray.rises_mm};
  developed.outer = Loop::polygon({{low.x, low.y - up.y},
                                   {high.x, low.y - up.y},
                                   {high.x, low.y},
                                   {high.x + up.x, low.y},
                                   {high.x + up.x, high.y},
                                   {high.x, high.y},
                                   {high.x, high.y + up.y},
                                   {low.x, high.y + up.y},
                                   {low.x, high.y},
                                   {low.x - up.x, high.y},
                                   {low.x - up.x, low.y},
                                   {low.x, low.y}});
  cut_out(mesh, developed);
}

bool is_tray(const Plan& plan, InstanceId id) {
  return !std::get<Flat>(plan.parts[plan.instances[id].part].form).bends.empty();
}

const Profile& profile_of(const Plan& plan, InstanceId id) {
  return std::get<Flat>(plan.parts[plan.instances[id].part].form).profile;
}

/// Lines of the world's axis that a direction of the part lies along, from the part's origin.
std::vector<double> in_part(const WorldGrid& grid, Vec3 direction, Vec3 origin) {
  const std::array<double, 3> along{direction.x, direction.y, direction.z};
  const std::array<double, 3> from{origin.x, origin.y, origin.z};
  std::vector<double> lines;
  for (std::size_t a = 0; a < 3; ++a) {
    if (std::abs(along[a]) < 0.999) continue;
    for (const double line : grid.lines[a]) lines.push_back((line - from[a]) / along[a]);
  }
  return lines;
}

}  // namespace

std::optional<PanelMesh> panel_mesh(const Plan& plan, InstanceId id, const std::vector<const Seam*>& seams) {
  auto mesh = bare_mesh(plan, id);
  if (!mesh || is_tray(plan, id)) return std::nullopt;
  const Profile& profile = profile_of(plan, id);
  const Box2 area = profile.bounds();
  const double cell = std::max(std::min(area.size().x, area.size().y) / cells_across,
                               std::max(area.size().x, area.size().y) / most_along);
  std::vector<double> x, y;
  for (const Seam* seam : seams) {
    const Vec2 from = flat(mesh->pose.local(seam->from)), to = flat(mesh->pose.local(seam->to));
    const bool upright = std::abs(to.x - from.x) < std::abs(to.y - from.y);
    (upright ? x : y).push_back(upright ? from.x : from.y);
  }
  mesh->xs = lines_through(area.low.x, area.high.x, std::move(x), cell);
  mesh->ys = lines_through(area.low.y, area.high.y, std::move(y), cell);
  cut_out(*mesh, profile);
  return mesh;
}

std::optional<PanelMesh> panel_mesh(const Plan& plan, InstanceId id, const WorldGrid& grid) {
  auto mesh = bare_mesh(plan, id);
  if (!mesh) return std::nullopt;
  std::optional<TrayBase> tray;
  if (is_tray(plan, id)) tray = base_of(plan.parts[plan.instances[id].part]);
  const Box2 area = tray ? tray->area : profile_of(plan, id).bounds();
  const auto within = [](std::vector<double> lines, double low, double high) {
    std::erase_if(lines, [&](double line) { return line <= low || line >= high; });
    return lines;
  };
  const Pose& pose = mesh->pose;
  mesh->xs = lines_through(area.low.x, area.high.x,
                           within(in_part(grid, pose.x(), pose.origin()), area.low.x, area.high.x), grid.cell_mm);
  mesh->ys = lines_through(area.low.y, area.high.y,
                           within(in_part(grid, pose.y(), pose.origin()), area.low.y, area.high.y), grid.cell_mm);
  if (tray) {
    stand_up(*mesh, *tray);
  } else {
    cut_out(*mesh, profile_of(plan, id));
  }
  return mesh;
}

std::vector<SeamNode> nodes_on(const PanelMesh& mesh, const Seam& seam, double within_mm) {
  const double length = norm(seam.to - seam.from);
  if (seam.ring_diameter_mm > 0 || length <= 0) return {};
  const Vec3 along = (1 / length) * (seam.to - seam.from);
  const Vec3 normal = mesh.pose.z();
  const std::vector<bool> used = mesh.used();
  std::vector<std::pair<double, std::size_t>> found;
  for (std::size_t n = 0; n < used.size(); ++n) {
    if (!used[n]) continue;
    const Vec3 r = mesh.at(n) - seam.from;
    const double s = dot(r, along);
    const Vec3 beside = r - s * along;
    // In a tray's edge and in its base there are seams side by side.
    const Vec3 off = mesh.base ? beside : beside - dot(beside, normal) * normal;
    if (norm(off) < within_mm && s > -within_mm && s < length + within_mm) {
      found.emplace_back(std::clamp(s, 0.0, length), n);
    }
  }
  std::sort(found.begin(), found.end());
  std::vector<SeamNode> nodes;
  for (std::size_t i = 0; i < found.size(); ++i) {
    const double from = i == 0 ? 0 : (found[i - 1].first + found[i].first) / 2;
    const double to = i + 1 == found.size() ? length : (found[i].first + found[i + 1].first) / 2;
    nodes.push_back({found[i].second, seam.from + from * along, seam.from + to * along});
  }
  return nodes;
}

Elastic elastic_of(const Part& part) {
  const auto strength = strength_of(part.material, std::max(1.0, welded_thickness_mm(part)));
  return strength && strength->is_aluminium() ? Elastic{70000, 27000} : Elastic{};
}

}  // namespace fitup::loads
