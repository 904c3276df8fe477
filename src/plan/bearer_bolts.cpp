// The bolts that hold bearers to one of two boxes.
// Entry: BearerBolts.
#include "plan/bearer_bolts.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/bolt.h"
#include "plan/raised_landing.h"

namespace fitup::plan {

namespace {

constexpr double air_mm = 1;  // round the head of a bolt

// What must find room on a leg: washer, socket or head, whichever is widest.
double seat_mm(const std::string& thread) {
  return std::max({tables::find_washer(thread)->outer_mm, socket_mm(*tables::find_nut(thread)),
                   tables::find_button_head(thread)->head_mm});
}

}  // namespace

BearerBolts::BearerBolts(Build& whole, const BearersSpec& spec, const Section& bearer, const Seat& seat,
                         const StandingBox& box)
    : build_(whole),
      spec_(spec),
      bearer_(bearer),
      seat_(seat),
      box_(box),
      below_(seat.z > box.space().middle().z),
      taken_(taken_by_steel(whole.draft)),
      items_(taken_by_items(whole.draft)) {}

// The middle of the flat part of a leg, from the heel.
std::optional<double> BearerBolts::on_leg(const Section& s, double leg_mm, const std::string& name,
                                          double begins_mm) const {
  const double root = s.shape == SectionShape::angle ? s.thickness_mm + s.root_radius_mm : 0;
  const double washer = tables::find_washer(*spec_.screw)->outer_mm;
  const double room = seat_mm(*spec_.screw);
  const double least = std::max(root, begins_mm) + room / 2;
  const double most = leg_mm - std::min(s.toe_radius_mm, s.thickness_mm) - washer / 2;
  if (least <= most + tolerance::contact_mm) return std::round(least + most) / 2;
  build_.diagnostics.add(diag::say<"bolt-no-seat">(spec_.screw.place, *spec_.screw, name, build_.in_words(leg_mm),
                                                   build_.in_words(washer), build_.in_words(room),
                                                   build_.in_words(root)));
  return std::nullopt;
}

namespace {

// Of a plate a strip as wide as it is offered: flat, without a root.
Section section_of(const Part& part, const Box3& strip) {
  if (const auto* member = std::get_if<Member>(&part.form)) return member->section;
  Section flat;
  flat.shape = SectionShape::flat;
  flat.leg_a_mm = strip.size().y;
  flat.thickness_mm = strip.size().z;
  return flat;
}

}  // namespace

// Whether the flange of a cover that lies over the leg leaves its seat room, where the leg alone would.
bool BearerBolts::clears_flange(const Section& leg, const Host& host, Side depth) const {
  const double root = leg.shape == SectionShape::angle ? leg.thickness_mm + leg.root_radius_mm : 0;
  const double washer = tables::find_washer(*spec_.screw)->outer_mm;
  const double most = host.box.size().y - std::min(leg.toe_radius_mm, leg.thickness_mm) - washer / 2;
  const double may_begin = most - seat_mm(*spec_.screw) / 2;
  const double begins = seat_.begins_mm[depth];
  if (begins <= may_begin + tolerance::contact_mm || root > may_begin) return true;
  const Face cover = depth == low ? Face::front : Face::back;
  const FaceSpec& face = box_.spec().face(cover);
  const std::string key = fmt::format("box.{}.face.{}", box_.spec().name, to_text(cover));
  const double deep = face.flange_depth->mm() - (begins - may_begin);
  const std::string shallower = is_outward(face) ? fmt::format("choose {}.landing = \"inward\"", key)
                                : *face.flanges == Flanges::angle
                                    ? fmt::format("choose a smaller {}.flange_section", key)
                                    : fmt::format("give {}.flange_depth at most {}", key, build_.at_most(deep));
  const bool may_be = is_outward(face) || deep > 0;
  build_.diagnostics.add(diag::say<"bearers-no-face">(
      face.flange_depth.given ? face.flange_depth.place : spec_.screw.place, box_.spec().name,
      to_text(below_ ? Face::top : Face::bottom),
      fmt::format("is taken by the {} of the {} cover for {} of the {} of {}, and what is left must hold a washer "
                  "({}) and a socket ({}) for {}",
                  is_outward(face) ? "landing" : "flange", to_text(cover), build_.in_words(begins),
                  build_.in_words(host.box.size().y), build_.draft.instance(host.id).name, build_.in_words(washer),
                  build_.in_words(seat_mm(*spec_.screw)), *spec_.screw),
      fmt::format("{}{}weld the bearers to both boxes (bolted_to = \"neither\")", may_be ? shallower : "",
                  may_be ? ", or " : "")));
  return false;
}

bool BearerBolts::find_seats() {
  const auto across = on_leg(bearer_, bearer_.leg_a_mm, fmt::format("a bearer of {}", bearer_.designation), 0);
  if (!across) return false;
  across_mm_ = *across;
  for (const Side depth : {low, high}) {
    const Host& host = seat_.lying[depth];
    const Section leg = section_of(build_.draft.part(host.id), host.box);
    if (leg.shape == SectionShape::tube) {
      build_.diagnostics.add(diag::say<"bearers-no-face">(spec_.bolted_to.place, box_.spec().name,
                                                          to_text(below_ ? Face::top : Face::bottom),
                                                          "has members of tube, in which no nut can be held",
                                                          "bolt the bearers to the other box, or weld them to both"));
      return false;
    }
    if (!clears_flange(leg, host, depth)) return false;
    const auto from = on_leg(leg, host.box.size().y, build_.draft.instance(host.id).name, seat_.begins_mm[depth]);
    if (!from) return false;
    y_[depth] = depth == low ? box_.space().low.y + *from : box_.space().high.y - *from;
  }
  return true;
}

// From the bearer into the box.
Vec3 BearerBolts::into() const { return below_ ? axis::minus_z : axis::z; }

double BearerBolts::grip_mm() const { return bearer_.thickness_mm + seat_.panel_mm + seat_.lying[low].box.size().z; }

Vec3 BearerBolts::on_bearer(double x, Side depth) const {
  return {x, y_[depth], seat_.z - bearer_.thickness_mm * into().z};
}

std::optional<InstanceId> BearerBolts::blocked(double x) const {
  const auto front = reach(x, low).blocks;
  return front ? front : reach(x, high).blocks;
}

BearerBolts::Reach BearerBolts::reach(double x, Side depth) const {
  const auto as_it_is = blocked(x, depth, false);
  if (!as_it_is) return {false, std::nullopt};
  if (!blocked(x, depth, true)) return {true, std::nullopt};
  return {false, as_it_is};
}

std::optional<InstanceId> BearerBolts::blocked(double x, Side depth, bool turned) const {
  const Vec3 near = on_bearer(x, depth);
  const Vec3 far = near + grip_mm() * into();
  const Vec3 out = Vec3{} - into();
  const ButtonHead& head = *tables::find_button_head(*spec_.screw);
  const HexNut& nut = *tables::find_nut(*spec_.screw);
  const double tip = bolt_length_mm(*spec_.screw, grip_mm()) - grip_mm();
  const Box3 of_head =
      room_over(turned ? far : near, turned ? into() : out, head.head_mm + 2 * air_mm, head.height_mm + key_room_mm);
  const Box3 of_nut = room_over(turned ? near : far, turned ? out : into(), socket_mm(nut),
                                std::max(tip, nut.height_mm) + socket_room_mm);
  if (const auto blocks = first_in(taken_, of_head)) return blocks;
  if (const auto blocks = first_in(taken_, of_nut)) return blocks;
  return meets_item(turned ? far : near, turned ? near : far, turned ? out : into(), tip);
}

// What stays when the items come in: the head, and the nut on its washer.
std::optional<InstanceId> BearerBolts::meets_item(Vec3 head_seat, Vec3 nut_seat, Vec3 direction, double tip_mm) const {
  const ButtonHead& head = *tables::find_button_head(*spec_.screw);
  const Washer& washer = *tables::find_washer(*spec_.screw);
  const auto over_head =
      first_in(items_, room_over(head_seat, Vec3{} - direction, head.head_mm + 2 * air_mm, head.height_mm + air_mm));
  if (over_head) return over_head;
  return first_in(items_, room_over(nut_seat, direction, washer.outer_mm + 2 * air_mm, tip_mm + air_mm));
}

void BearerBolts::add(InstanceId bearer, double x, const Origin& origin) {
  for (const Side depth : {low, high}) add(bearer, x, depth, origin);
}

void BearerBolts::add(InstanceId bearer, double x, Side depth, const Origin& origin) {
  const Host& leg = seat_.lying[depth];
  build_.draft.join(bearer, seat_.panel ? *seat_.panel : leg.id, JointKind::bolted, into());
  std::vector<std::pair<InstanceId, double>> plies{{bearer, bearer_.thickness_mm}};
  if (seat_.panel) plies.emplace_back(*seat_.panel, seat_.panel_mm);
  plies.emplace_back(leg.id, leg.box.size().z);
  const std::string name = build_.draft.instance(bearer).name;
  Bolt bolt{
      *spec_.screw, on_bearer(x, depth), into(), {}, fmt::format("{} bolt {}", name, depth == low ? "front" : "back"),
      origin};
  if (reach(x, depth).turned) {
    std::reverse(plies.begin(), plies.end());
    bolt.seat = bolt.seat + grip_mm() * into();
    bolt.direction = Vec3{} - into();
  }
  double from = 0;
  for (const auto& [id, thick] : plies) {
    bolt.layers.push_back({id, from, from + thick});
    from += thick;
  }
  add_bolt(build_, bolt);
}

}  // namespace fitup::plan
