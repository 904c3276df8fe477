// A Plan in the making: instances, joints, and which parts are one.
// Entry: Draft::add, Draft::finish.
#include "plan/draft.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <numbers>
#include <string_view>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "plan/alike.h"
#include "plan/same_part.h"
#include "plan/size_words.h"

namespace fitup::plan {

namespace {

// Bought parts are steel; items bring their own mass.
constexpr const char* bought_material = "S235JR";

// Bending takes nothing away: a bent sheet weighs what was cut, not what its drawn bends of even thickness hold.
double cut_mm3(const Flat& flat) {
  double area = flat.profile.area_mm2();
  for (const DrilledHole& hole : flat.drilled) area -= std::numbers::pi / 4 * hole.diameter_mm * hole.diameter_mm;
  return area * flat.thickness_mm;
}

void weigh(Part& part) {
  if (part.source == Source::stand_in || part.source == Source::printed) return;
  // An item's mass includes its rods.
  if (part.role == Role::rod) return;
  // What stands nowhere and is bought is drawn as a length only.
  if (part.source == Source::bought && part.loose_count > 0) return;
  // A gland or an edge strip is no steel, an eye is drawn with all the room it needs: they bring their own.
  if (part.role == Role::gland || part.role == Role::edge_strip || part.role == Role::eye) return;
  const Material* m = tables::find_material(part.material.empty() ? bought_material : part.material);
  if (m == nullptr) return;
  const auto* flat = std::get_if<Flat>(&part.form);
  const double squeezed = flat != nullptr ? flat->bought_mm() / flat->thickness_mm : 1;
  const double mm3 = flat != nullptr && !flat->bends.empty() ? cut_mm3(*flat) : volume_mm3(part);
  part.mass_kg = mm3 * squeezed * 1e-9 * m->density_kg_per_m3;
}

// A mark belongs to a role; a second, different part in that role gets a letter behind it.
std::string free_mark(const std::string& wanted, const std::vector<Part>& parts) {
  const auto taken = [&parts](const std::string& mark) {
    return std::any_of(parts.begin(), parts.end(), [&mark](const Part& p) { return p.mark == mark; });
  };
  std::string mark = wanted;
  for (int i = 2; taken(mark); ++i) {
    mark = i <= 26 ? wanted + static_cast<char>('A' + i - 1) : wanted + "-" + std::to_string(i);
  }
  return mark;
}

// What two names end with in common, word for word: "front rod plate" and "back rod plate" are rod plates.
std::string common_end(std::string_view a, std::string_view b) {
  std::size_t end = 0;
  for (std::size_t n = 1; n <= std::min(a.size(), b.size()) && a[a.size() - n] == b[b.size() - n]; ++n) {
    const bool word_a = n == a.size() || a[a.size() - n - 1] == ' ';
    const bool word_b = n == b.size() || b[b.size() - n - 1] == ' ';
    if (word_a && word_b) end = n;
  }
  return std::string(a.substr(a.size() - end));
}

// A part that stands in several places is called what all of them are.
void rename(Part& part, const Part& another) {
  if (part.name == another.name) return;
  const std::string name = common_end(part.name, another.name);
  part.name = name.empty() ? std::string(to_text(part.role)) : name;
}

void add_part(Plan& plan, Part part) {
  part.mark = free_mark(part.mark, plan.parts);
  weigh(part);
  plan.parts.push_back(std::move(part));
}

void shift(PatternBody& body, InstanceId first, Vec3 by) {
  body.thing += first;
  for (PatternHole& hole : body.holes) {
    hole.fastener += first;
    hole.plate += first;
    hole.at = hole.at + by;
  }
  if (!body.stands) return;
  body.stands->low_mm += by.x;
  body.stands->high_mm += by.x;
  body.stands->up_mm += by.z;
}

StripSeat shifted(StripSeat seat, InstanceId first, Vec3 by) {
  const double across = dot(by, seat.across);
  seat.item += first;
  seat.rail += first;
  for (double* at : {&seat.strip_low_mm, &seat.strip_high_mm, &seat.rail_low_mm, &seat.rail_high_mm}) *at += across;
  seat.at = seat.at + by;
  return seat;
}

}  // namespace

// What is called after another instance carries the box's name already.
std::string Draft::of_box(const std::string& name) const {
  return box_.empty() || name.rfind(box_ + " ", 0) == 0 ? name : box_ + " " + name;
}

InstanceId Draft::add(Part part, const Pose& pose, std::string name, const Origin& origin) {
  name = of_box(name);
  const std::string wanted = name;
  for (int i = 2; !names_.insert(name).second; ++i) name = fmt::format("{} ({})", wanted, i);
  parts_.push_back(std::move(part));
  instances_.push_back({0, pose, std::move(name), origin.key, origin.place, of_box(origin.group)});
  return instances_.size() - 1;
}

void Draft::add_loose(Part part, int count) {
  part.loose_count = count;
  loose_.push_back(std::move(part));
}

void Draft::join(InstanceId a, InstanceId b, JointKind kind, Vec3 normal, double largest_gap_mm, double major_mm) {
  const std::array<long, 3> way{std::lround(normal.x * 1e3), std::lround(normal.y * 1e3), std::lround(normal.z * 1e3)};
  // Each screw joins for itself.
  if (kind != JointKind::bolted && !joined_.insert({a, b, kind, way}).second) return;
  Joint joint{a, b, kind, normal, largest_gap_mm, major_mm};
  if (!weld_rules.empty()) joint.weld_rule = weld_rules.size() - 1;
  joints_.push_back(joint);
}

void Draft::fill_gap(InstanceId a, InstanceId b, double mm) {
  for (Joint& joint : joints_) {
    const bool theirs = (joint.a == a && joint.b == b) || (joint.a == b && joint.b == a);
    if (theirs && joint.kind == JointKind::bolted) joint.filled_mm = mm;
  }
}

InstanceId Draft::absorb(const Draft& other, Vec3 by) {
  const InstanceId first = size();
  for (InstanceId id = 0; id < other.size(); ++id) {
    const Instance& i = other.instances_[id];
    add(other.parts_[id], i.pose.moved(by), i.name, {i.key, i.place, i.group});
  }
  for (Joint joint : other.joints_) {
    joint.a += first;
    joint.b += first;
    joint.weld_rule += weld_rules.size();
    joints_.push_back(joint);
  }
  weld_rules.insert(weld_rules.end(), other.weld_rules.begin(), other.weld_rules.end());
  for (const Zone& zone : other.zones) {
    zones.push_back({zone.owner + first, {zone.box.low + by, zone.box.high + by}, zone.why, zone.place});
  }
  for (Fastener fastener : other.fasteners) {
    fastener.screw += first;
    for (InstanceId& id : fastener.stack) id += first;
    fasteners.push_back(std::move(fastener));
  }
  for (const LiftPoint& point : other.lift_points) {
    lift_points.push_back({point.boss + first, point.at + by, point.thread});
  }
  for (ScrewTip tip : other.screw_tips) {
    tip.screw += first;
    tip.into += first;
    tip.out_at = tip.out_at + by;
    screw_tips.push_back(std::move(tip));
  }
  for (const SetUp& set : other.set_up) set_up.push_back({set.part + first, set.way});
  followed.insert(followed.end(), other.followed.begin(), other.followed.end());
  absorb_fits(other, first, by);
  for (const auto& [id, trued] : other.trued_) true_up(id + first, trued.pose.moved(by), trued.anew);
  absorb_loose(other);
  return first;
}

Pattern& Draft::pattern(const std::string& name, const Origin& origin) {
  const std::string full = of_box(name);
  const auto found = std::find_if(patterns.begin(), patterns.end(), [&](const Pattern& p) { return p.name == full; });
  if (found != patterns.end()) return *found;
  patterns.push_back({full, {}, origin.key, {}, origin.place});
  return patterns.back();
}

void Draft::absorb_fits(const Draft& other, InstanceId first, Vec3 by) {
  for (Fit fit : other.fits) {
    for (InstanceId& id : fit.parts) id += first;
    if (fit.at) *fit.at = *fit.at + by;
    fits.push_back(std::move(fit));
  }
  for (Pattern pattern : other.patterns) {
    for (PatternBody& body : pattern.bodies) shift(body, first, by);
    patterns.push_back(std::move(pattern));
  }
  for (RowStack stack : other.stacks) {
    for (StackPiece& piece : stack.pieces) piece.thing += first;
    stacks.push_back(std::move(stack));
  }
  for (const StripSeat& seat : other.seats) seats.push_back(shifted(seat, first, by));
}

// One guide does for the same pattern in two boxes; of what stands in, each box needs its own number.
void Draft::absorb_loose(const Draft& other) {
  for (const Part& part : other.loose_) {
    const std::string key = attitude_of(part).key;
    const auto same = std::find_if(loose_.begin(), loose_.end(), [&](const Part& p) {
      return p.role == part.role && p.name == part.name && attitude_of(p).key == key;
    });
    if (same == loose_.end()) {
      loose_.push_back(part);
    } else if (part.role == Role::spacer || part.role == Role::shim) {
      same->loose_count += part.loose_count;
    } else {
      same->loose_count = std::max(same->loose_count, part.loose_count);
    }
  }
}

void Draft::true_up(InstanceId id, const Pose& pose, Anew anew) {
  trued_.insert_or_assign(id, Trued{pose, std::move(anew)});
}

Plan Draft::finish(bool as_built) const {
  Plan plan;
  finish_instances(plan, as_built);
  for (const Part& part : loose_) add_part(plan, part);
  plan.joints = joints_;
  plan.weld_rules = weld_rules;
  plan.zones = zones;
  plan.fasteners = fasteners;
  plan.lift_points = lift_points;
  plan.fits = fits;
  plan.patterns = patterns;
  plan.stacks = stacks;
  plan.seats = seats;
  plan.set_up = set_up;
  plan.followed = followed;
  for (const auto& [id, trued] : trued_) {
    if (trued.is_anew()) plan.trued.push_back(id);
  }
  return plan;
}

Part Draft::part_to_make(InstanceId id, bool as_built) const {
  Part part = parts_[id];
  const auto trued = trued_.find(id);
  if (!as_built || trued == trued_.end()) return part;
  if (const auto* flat = std::get_if<Flat>(&trued->second.anew)) {
    part.form = *flat;
    part.size = flat_size_words(*flat);
  } else if (const auto* member = std::get_if<Member>(&trued->second.anew)) {
    part.form = *member;
    part.size = fmt::format("{} x {} mm", member->section.designation, plain(member->length_mm));
  }
  return part;
}

std::vector<Placed> Draft::placed(bool as_built) const {
  std::vector<Placed> out;
  for (InstanceId id = 0; id < instances_.size(); ++id) {
    const auto trued = trued_.find(id);
    const bool stands_anew = as_built && trued != trued_.end();
    out.push_back({part_to_make(id, as_built), stands_anew ? trued->second.pose : instances_[id].pose});
  }
  return out;
}

void Draft::finish_instances(Plan& plan, bool as_built) const {
  const auto planned = marked(placed(false), joints_);
  // Whether two are one does not depend on which of the two plans this is: they are one in both or in neither.
  std::vector<std::string> further(instances_.size());
  for (const auto& [id, trued] : trued_) {
    if (trued.is_anew()) further[id] = " as built " + attitude_of(part_to_make(id, true)).key;
  }
  auto kinds = kinds_of(planned, joints_, further);
  const auto made = as_built ? marked(placed(true), joints_, &planned) : planned;
  std::vector<Pose> first;  // index: kind; from the part as it is made to the attitude that all have in common
  for (InstanceId id = 0; id < instances_.size(); ++id) {
    PartKind& kind = kinds[id];
    const auto trued = trued_.find(id);
    if (as_built && trued != trued_.end() && trued->second.is_anew()) {
      kind.to_common = attitude_of(made[id].placed.part).to_common;
    }
    Instance instance = instances_[id];
    instance.pose = made[id].placed.pose;
    instance.part = kind.number;
    if (kind.number == first.size()) {
      first.push_back(kind.to_common);
      add_part(plan, made[id].placed.part);
    } else {
      instance.pose = instance.pose * kind.to_common.inverse() * first[kind.number];
      rename(plan.parts[kind.number], parts_[id]);
    }
    plan.instances.push_back(std::move(instance));
  }
}

}  // namespace fitup::plan
