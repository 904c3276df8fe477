// Sections, threads and sheet of the calculation paper.
// Entry: sections_in, threads_in, sheets_in.
#include "loads/calculation_tables.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <utility>
#include <variant>

#include "diag/words.h"
#include "fitup/tables.h"
#include "loads/boss.h"
#include "loads/hold_down.h"
#include "loads/strength.h"

namespace fitup::loads {

namespace {

const Part& part_of(const Plan& plan, InstanceId id) { return plan.parts[plan.instances[id].part]; }

/// Names of parts of one kind, each once, in their order.
using Names = std::vector<std::string>;

void add_name(Names& names, const std::string& name) {
  if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
}

std::string section_words(const Section& s) {
  if (!s.designation.empty() && s.shape != SectionShape::flat) return s.designation;
  return fmt::format("flat {:.4g} x {:.4g} mm", s.leg_a_mm, s.thickness_mm);
}

const char* torsion_source(SectionShape shape) {
  switch (shape) {
    case SectionShape::angle: return "J = (a + b - t) t^3 / 3, W_t = J / t";
    case SectionShape::flat: return "J = b t^3 (1 / 3 - 0.21 (t / b) (1 - (t / b)^4 / 12)), W_t = J / t";
    case SectionShape::tube: return "Bredt: J = 4 A_m^2 t / u, W_t = 2 A_m t, by the wall's middle line";
  }
  return "";
}

CalculationSection listed(const Section& section) {
  const SectionProperties p = properties_of(section);
  CalculationSection out;
  out.area_mm2 = p.area_mm2;
  out.y_mm = p.centroid.x;
  out.z_mm = p.centroid.y;
  out.iy_mm4 = p.ix_mm4;
  out.iz_mm4 = p.iy_mm4;
  out.iyz_mm4 = p.ixy_mm4;
  out.iu_mm4 = p.iu_mm4;
  out.iv_mm4 = p.iv_mm4;
  out.j_mm4 = p.j_mm4;
  out.torsion_mm3 = p.torsion_mm3;
  out.shear_y_mm2 = p.shear_x_mm2;
  out.shear_z_mm2 = p.shear_y_mm2;
  out.j_source = torsion_source(section.shape);
  return out;
}

/// The words of an instance without its number and side: what all of one part share.
const std::string& name_of(const Plan& plan, InstanceId id) { return part_of(plan, id).name; }

CalculationThread listed(const Thread& thread) {
  CalculationThread out;
  out.major_mm = thread.major_mm;
  out.pitch_mm = thread.pitch_mm;
  out.pitch_diameter_mm = pitch_diameter_mm(thread);
  out.stress_area_mm2 = thread.stress_area_mm2;
  out.source = thread.source;
  return out;
}

}  // namespace

std::vector<CalculationSection> sections_in(const Plan& plan, const FrameModel& model) {
  std::vector<std::pair<Section, Names>> found;
  for (const auto& [id, properties] : model.sections) {
    const auto section = section_of(part_of(plan, id));
    if (!section) continue;
    auto same = std::find_if(found.begin(), found.end(), [&](const auto& f) {
      return section_words(f.first) == section_words(*section) && f.first.leg_a_mm == section->leg_a_mm;
    });
    if (same == found.end()) same = found.insert(same, {*section, {}});
    add_name(same->second, name_of(plan, id));
  }
  std::vector<CalculationSection> all;
  for (const auto& [section, names] : found) {
    all.push_back(listed(section));
    all.back().what = fmt::format("{}: {}", section_words(section), diag::listed(names, 4));
  }
  return all;
}

std::vector<CalculationThread> threads_in(const Plan& plan) {
  std::map<std::pair<std::string, std::string>, std::pair<BoltClass, Names>> bolts;  // by thread and class
  for (const Pattern& pattern : plan.patterns) {
    for (const PatternBody& body : pattern.bodies) {
      for (const PatternHole& hole : body.holes) {
        if (tables::find_thread(hole.thread) == nullptr) continue;
        const BoltClass strength = class_of(part_of(plan, hole.fastener), plan.load_rules.bolts);
        auto& [of, keys] = bolts[{hole.thread, std::string(strength.word)}];
        of = strength;
        add_name(keys, pattern.key);
      }
    }
  }
  std::vector<CalculationThread> all;
  for (const auto& [key, bolt] : bolts) {
    CalculationThread out = listed(*tables::find_thread(key.first));
    out.what = fmt::format("{}, class {}: {}", key.first, key.second, diag::listed(bolt.second, 4));
    out.tensile_mpa = bolt.first.tensile_mpa;
    out.alpha_v = bolt.first.alpha_v;
    all.push_back(std::move(out));
  }
  if (plan.lift_points.empty()) return all;
  const Thread* eye = tables::find_thread(plan.lift_points.front().thread);
  if (eye == nullptr) return all;
  CalculationThread out = listed(*eye);
  out.what = fmt::format("{}: eyes", eye->size);
  out.tensile_mpa = eye_tensile_mpa;
  all.push_back(std::move(out));
  return all;
}

std::vector<CalculationSheet> sheets_in(const Plan& plan) {
  std::map<std::pair<double, std::string>, Names> found;
  for (InstanceId id = 0; id < plan.instances.size(); ++id) {
    const Part& part = part_of(plan, id);
    const auto* flat = std::get_if<Flat>(&part.form);
    if (flat == nullptr || part.source != Source::cut || part.role == Role::seal ||
        !strength_of(part.material, flat->thickness_mm)) {
      continue;
    }
    constexpr double step_mm = 1e-4;  // what differs by rounding is one
    add_name(found[{std::round(flat->thickness_mm / step_mm) * step_mm, part.material}], name_of(plan, id));
  }
  std::vector<CalculationSheet> all;
  for (const auto& [key, names] : found) {
    all.push_back({fmt::format("{}: {}", key.second, diag::listed(names, 6)), key.first});
  }
  return all;
}

}  // namespace fitup::loads
