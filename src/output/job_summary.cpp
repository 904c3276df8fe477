// A plan as the lines that job.json keeps of it.
// Entry: summary_of.

#include "output/job_summary.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "fitup/job.h"
#include "fitup/seams.h"
#include "output/paths.h"
#include "output/totals.h"
#include "plan/same_part.h"
#include "tables/standards.h"

namespace fitup::output {
namespace {

std::string print_of(const std::string& text) { return sha256_hex(text).substr(0, 32); }

/// What an item is called and marked is no part of its shape; a bought part is what it is ordered as.
std::string shape_text(Part part) {
  part.mark.clear();
  part.name.clear();
  if (part.source == Source::bought && !std::holds_alternative<Flat>(part.form)) {
    return std::string(to_text(part.role)) + " " + part.size;
  }
  return shape_key(part);
}

Part without_holes(Part part) {
  if (auto* flat = std::get_if<Flat>(&part.form)) {
    flat->profile.holes.clear();
    flat->drilled.clear();
  } else if (auto* member = std::get_if<Member>(&part.form)) {
    member->holes.clear();
  }
  return part;
}

double rounded(double mm) { return std::round(1000 * mm) / 1000 + 0.0; }

class HoleCounter {
 public:
  void add(const Loop& hole) {
    if (const auto circle = hole.as_circle()) return add("hole", 2 * circle->radius, 2 * circle->radius);
    const Vec2 size = hole.bounds().size();
    add("cut-out", std::max(size.x, size.y), std::min(size.x, size.y));
  }
  void add_round(const char* what, const std::string& purpose, double diameter_mm) {
    add(what, diameter_mm, diameter_mm, purpose);
  }
  [[nodiscard]] std::vector<HoleCount> counts() const {
    std::vector<HoleCount> out;
    for (const auto& [kind, count] : count_) {
      const auto& [what, purpose, a_mm, b_mm] = kind;
      out.push_back({what, purpose, {a_mm, b_mm}, count});
    }
    return out;
  }

 private:
  void add(const char* what, double a_mm, double b_mm, const std::string& purpose = {}) {
    ++count_[{what, purpose, rounded(a_mm), rounded(b_mm)}];
  }
  std::map<std::tuple<std::string, std::string, double, double>, std::size_t> count_;
};

void describe(PartLine& line, const Flat& flat) {
  line.form = "flat";
  const Vec2 size = flat.profile.bounds().size();
  line.size_mm = {rounded(flat.bought_mm()), rounded(std::min(size.x, size.y)), rounded(std::max(size.x, size.y))};
  HoleCounter holes;
  for (const Loop& hole : flat.profile.holes) holes.add(hole);
  for (const DrilledHole& hole : flat.drilled) holes.add_round("drilled hole", hole.purpose, hole.diameter_mm);
  for (const Bend& bend : flat.bends) holes.add_round("bend of radius", {}, bend.radius_mm);
  line.holes = holes.counts();
  if (line.source != to_text(Source::cut)) return;
  line.cut_mm = flat.profile.perimeter_mm();
  line.piercings = 1 + flat.profile.holes.size();
}

void describe(PartLine& line, const Member& member) {
  line.form = "member";
  line.section = member.section.designation;
  line.size_mm = {rounded(member.length_mm)};
  line.sawn_mm = member.length_mm;
  HoleCounter holes;
  for (const MemberHole& hole : member.holes) {
    if (hole.slot_mm > 0) {
      holes.add(outline_of(hole));
      continue;
    }
    holes.add_round(hole.kind == HoleKind::tapped ? "drilled hole" : "hole", hole.purpose, hole.diameter_mm);
  }
  line.holes = holes.counts();
}

void describe(PartLine& line, const Solidform& solid) {
  line.form = "solid";
  Box3 box;
  for (const Prism& prism : solid.prisms) box.add(prism.bounds());
  const Vec3 size = box.size();
  line.size_mm = {rounded(size.x), rounded(size.y), rounded(size.z)};
  if (line.source == to_text(Source::sawn)) line.sawn_mm = size.z;
}

/// Across, deep, high of the first one that stands.
std::array<double, 3> size_as_it_stands(const Plan& plan, PartId id, std::array<double, 3> lying_mm) {
  const auto stands =
      std::find_if(plan.instances.begin(), plan.instances.end(), [id](const Instance& i) { return i.part == id; });
  if (stands == plan.instances.end()) return lying_mm;
  const Vec3 size = stands->pose.turn({lying_mm[0], lying_mm[1], lying_mm[2]});
  return {std::abs(rounded(size.x)), std::abs(rounded(size.y)), std::abs(rounded(size.z))};
}

/// The middles of its pieces, in cells of 0.001 mm whose borders lie where no half of a snapped length falls.
std::string places_text(const Plan& plan, PartId id, const Body& body) {
  constexpr double cell_mm = 1e-3;
  constexpr double border = 0.6180339887498949;
  std::vector<std::string> places;
  for (const Instance& instance : plan.instances) {
    if (instance.part != id) continue;
    Box3 box;
    for (const Prism& p : body.outer) box.add(Prism{p.profile, instance.pose * p.pose, p.length_mm}.bounds());
    const Vec3 at = box.middle();
    const auto cell = [](double v) { return std::floor(v / cell_mm + border) + 0.0; };
    places.push_back(fmt::format("{:.0f} {:.0f} {:.0f}", cell(at.x), cell(at.y), cell(at.z)));
  }
  std::sort(places.begin(), places.end());
  return fmt::format("{}", fmt::join(places, ";"));
}

PartLine line_of(const Plan& plan, PartId id, std::size_t quantity) {
  const Part& part = plan.parts[id];
  PartLine line;
  line.mark = part.mark;
  line.name = part.name;
  line.role = to_text(part.role);
  line.source = to_text(part.source);
  line.material = part.material;
  line.size = part.size;
  line.quantity = quantity;
  line.mass_kg = part.mass_kg;
  std::visit([&line](const auto& form) { describe(line, form); }, part.form);
  if (part.source == Source::stand_in) line.size_mm = size_as_it_stands(plan, id, line.size_mm);
  line.shape = print_of(shape_text(part));
  line.mirrored = print_of(shape_text(plan::mirror_image(part)));
  line.mirrored_across = print_of(shape_text(plan::with_its_front_behind(plan::mirror_image(part))));
  line.outline = print_of(shape_text(without_holes(part)));
  line.places = print_of(places_text(plan, id, body_of(part)));
  return line;
}

void add_eyes(JobSummary& summary, const Plan& plan) {
  for (const auto& [thread, quantity] : eyes_not_in_model(plan)) {
    Part eye;
    eye.role = Role::eye;
    eye.source = Source::bought;
    eye.size = fmt::format("{} {}", thread, tables::eye_standard(thread));
    eye.form = Solidform{};
    PartLine line;
    line.mark = "EYE-" + thread;
    line.name = "lifting eye";
    line.role = to_text(eye.role);
    line.source = to_text(eye.source);
    line.form = "solid";
    line.size = eye.size;
    line.quantity = quantity;
    line.in_model = false;
    line.shape = line.mirrored = line.mirrored_across = line.outline = print_of(shape_text(eye));
    line.places = print_of("");
    summary.parts.push_back(std::move(line));
  }
}

SeamTotals seam_totals(const Plan& plan) {
  const Seams seams = seams_of(plan);
  SeamTotals totals;
  totals.count = seams.all.size();
  totals.not_worked_out = seams.undecided.size();
  for (const Seam& seam : seams.all) {
    double& sum = seam.state == SeamState::laid           ? totals.laid_mm
                  : seam.state == SeamState::ground_flush ? totals.ground_flush_mm
                                                          : totals.left_free_mm;
    sum += weld_mm(seam);
  }
  return totals;
}

}  // namespace

JobSummary summary_of(const Plan& plan) {
  JobSummary summary;
  const auto count = quantities(plan);
  for (PartId id = 0; id < plan.parts.size(); ++id) summary.parts.push_back(line_of(plan, id, count[id]));
  add_eyes(summary, plan);
  summary.seams = seam_totals(plan);
  return summary;
}

}  // namespace fitup::output
