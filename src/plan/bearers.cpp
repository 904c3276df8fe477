// Bearers between two boxes: across both rings from front to back, bolted to one and welded to the other, or welded to
// both.
// Entry: add_bearers.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/bearer_bolts.h"
#include "plan/boxes.h"
#include "plan/clear_rows.h"
#include "plan/end_cut.h"
#include "plan/hardware.h"
#include "plan/raised_landing.h"
#include "plan/room.h"
#include "plan/size_words.h"

namespace fitup::plan {

namespace {

constexpr double least_lap_mm = 5;   // of a bearer on what it is welded to (common practice)
constexpr double beside_leg_mm = 1;  // from a side member's leg
constexpr double beyond_landing_mm = 2;
constexpr double least_flange_mm = 18;  // with its screws clear of the root of a small angle (common practice)
constexpr double step_mm = 5;           // by rule they move in by this much until their bolts can be reached,
constexpr double most_steps = 200;      // or by so much more that these lead across the widest box
constexpr double least_apart_mm = 1;    // from one bearer to the next

// Along X.
struct Range {
  double low = 0;
  double high = 0;
};

class Bearers {
 public:
  Bearers(Build& whole, const StandingBox& own, const StandingBox& other)
      : build_(whole),
        own_(own),
        spec_(*own.spec().bearers),
        upper_(own.spec().under ? other : own),
        lower_(own.spec().under ? own : other),
        low_seat_(top_seat(lower_)),
        high_seat_(bottom_seat(upper_)),
        section_(*tables::find_section(*spec_.section)) {
    const bool to_own = *spec_.bolted_to == BoltedTo::this_box;
    if (*spec_.bolted_to != BoltedTo::neither)
      bolted_ = to_own == own.spec().under.has_value() ? &low_seat_ : &high_seat_;
    // An angle's leg lies against what it is bolted to, else against what would meet it edge on edge.
    lies_low_ = bolted_ != nullptr ? bolted_ == &low_seat_ : high_seat_.is_face();
  }

  void run() {
    if (!offers_faces() || !is_over_other() || !spans_rings() || !clears_landings()) return;
    if (bolted_ != nullptr) {
      bolts_.emplace(build_, spec_, section_, *bolted_, bolted_ == &low_seat_ ? lower_ : upper_);
      if (!bolts_->find_seats()) return;
    }
    const std::vector<double> places = spec_.at ? given_places() : places_by_rule();
    if (places.empty()) return;
    for (const double x : places) add(x);
  }

 private:
  [[nodiscard]] std::string words(double mm) const { return build_.in_words(mm); }
  [[nodiscard]] std::string pair_in_words() const {
    return fmt::format("\"{}\" and \"{}\"", lower_.spec().name, upper_.spec().name);
  }
  [[nodiscard]] bool is_angle() const { return section_.shape == SectionShape::angle; }
  [[nodiscard]] double width_mm() const { return section_.leg_a_mm; }
  [[nodiscard]] double low_z() const { return low_seat_.z; }
  [[nodiscard]] double high_z() const { return high_seat_.z; }

  void miss(const Place& place, const std::string& why, const std::string& remedy) {
    build_.diagnostics.add(diag::say<"bearers-miss">(place, pair_in_words(), why, remedy));
  }

  // A cover comes off, an edge on an edge does not hold.
  bool offers_faces() {
    for (const auto& [box, face] : {std::pair(&lower_, Face::top), std::pair(&upper_, Face::bottom)}) {
      if (*box->spec().face(face).closed_by != Closure::cover) continue;
      build_.diagnostics.add(diag::say<"bearers-no-face">(spec_.place, box->spec().name, to_text(face),
                                                          "is closed by a cover",
                                                          "close it by a plate or leave it open"));
      return false;
    }
    if (high_seat_.is_face()) return true;
    if (bolted_ == &high_seat_) return no_face("and a bolt finds only their toes", "bolt the bearers to the other box");
    if (is_angle() && lies_low_) return no_face("and an angle would meet their toes edge on edge", "take a flat bar");
    return true;
  }

  bool no_face(const char* why, const char* remedy) {
    build_.diagnostics.add(diag::say<"bearers-no-face">(
        spec_.section.place, upper_.spec().name, "bottom", fmt::format("has legs that point down, {}", why),
        fmt::format("{}, or choose frame.bottom_legs = \"up\" for \"{}\"", remedy, upper_.spec().name)));
    return false;
  }

  bool is_over_other() {
    const StandingBox& other = &own_ == &upper_ ? lower_ : upper_;
    const Vec3 middle = own_.space().middle();
    const Box3 there = other.space();
    const bool over =
        middle.x > there.low.x && middle.x < there.high.x && middle.y > there.low.y && middle.y < there.high.y;
    if (over) return true;
    const Vec3 from = middle - there.low;
    miss(own_.spec().at ? own_.spec().at->place : own_.spec().place,
         fmt::format("the middle of \"{}\" is at X {}, Y {} of \"{}\", which is {} wide and {} deep", own_.spec().name,
                     words(from.x), words(from.y), other.spec().name, words(there.size().x), words(there.size().y)),
         "move it by its at");
    return false;
  }

  // From the foremost front to the hindmost back, behind the flanges and landings of covers.
  bool spans_rings() {
    const Box3 a = lower_.space();
    const Box3 b = upper_.space();
    y_ = {std::min(a.low.y, b.low.y), std::max(a.high.y, b.high.y)};
    for (const auto& [seat, box] : {std::pair(&low_seat_, a), std::pair(&high_seat_, b)}) {
      if (seat->begins_mm[low] > 0) y_.low = std::max(y_.low, box.low.y + seat->begins_mm[low]);
      if (seat->begins_mm[high] > 0) y_.high = std::min(y_.high, box.high.y - seat->begins_mm[high]);
    }
    x_ = {std::max(a.low.x + low_seat_.side_mm, b.low.x + high_seat_.side_mm) + beside_leg_mm,
          std::min(a.high.x - low_seat_.side_mm, b.high.x - high_seat_.side_mm) - beside_leg_mm};
    return laps(low_seat_, lower_) && laps(high_seat_, upper_);
  }

  // Toes are flat at the outside only.
  bool laps(const Seat& seat, const StandingBox& box) {
    const Box3 space = box.space();
    for (const Side depth : {low, high}) {
      const double past = depth == low ? space.low.y - y_.low : y_.high - space.high.y;
      const double lap = seat.flat ? past + seat.lying[depth].box.size().y : past;
      const double least = seat.flat ? least_lap_mm : 0;
      if (lap < least - tolerance::contact_mm) return say_short(depth, least - lap, box);
    }
    return true;
  }

  // Of two covers there the one whose flange or landing is farther in.
  bool say_short(Side depth, double short_mm, const StandingBox& met) {
    const Face face = depth == low ? Face::front : Face::back;
    const auto inner = [&](const Seat& seat, const Box3& box) {
      const double begins = seat.begins_mm[depth];
      if (begins == 0) return 1e9;
      return depth == low ? -(box.low.y + begins) : box.high.y - begins;
    };
    const bool below = inner(low_seat_, lower_.space()) <= inner(high_seat_, upper_.space());
    const BoxSpec& box = (below ? lower_ : upper_).spec();
    const FaceSpec& cover = box.face(face);
    miss(is_outward(cover) ? cover.landing.place : cover.flange_depth.place,
         fmt::format("they begin behind the {} of the {} cover of \"{}\" and are {} short of lying on the {} "
                     "member of \"{}\"",
                     is_outward(cover) ? "outward landing" : "flange", to_text(face), box.name, words(short_mm),
                     to_text(face), met.spec().name),
         ways_to_reach(box, face, short_mm, met));
    return false;
  }

  // Another cover, or of the lower box another place before the upper one; on lying legs bearers may end behind a
  // landing.
  [[nodiscard]] std::string ways_to_reach(const BoxSpec& box, Face face, double short_mm,
                                          const StandingBox& met) const {
    const std::string key = fmt::format("box.{}.face.{}", box.name, to_text(face));
    const FaceSpec& cover = box.face(face);
    const bool angle = *cover.flanges == Flanges::angle;
    const double less = cover.flange_depth->mm() - short_mm;
    std::string ways = fmt::format("choose {}.landing = \"inward\"", key);
    if (!is_outward(cover)) ways = fmt::format("choose {}.style = \"flat\" with landing = \"inward\"", key);
    if (!is_outward(cover) && !angle && less >= least_flange_mm)
      ways += fmt::format(", {}.flange_depth = {}", key, build_.at_most(less));
    if (!is_outward(cover) && angle) ways += ", a smaller flange_section";
    if (is_outward(cover) && &met == &upper_ && !high_seat_.flat)
      ways += fmt::format(", box.{}.frame.bottom_legs = \"up\" and bearers higher than the landing is wide",
                          met.spec().name);
    if (box.name != lower_.spec().name) return ways;
    const Face towards = (&own_ == &lower_) == (face == Face::front) ? Face::front : Face::back;
    return ways + fmt::format(", or move \"{}\" by {} towards the {} (box.{}.at)", own_.spec().name,
                              build_.at_least(short_mm), to_text(towards), own_.spec().name);
  }

  // What stands of one box beyond its ring may reach as far as the other as bearers are high.
  bool clears_landings() {
    const auto is_of = [this](InstanceId id, const StandingBox& box) {
      return build_.draft.part(id).role == Role::landing &&
             build_.draft.instance(id).key.starts_with(fmt::format("box.{}.", box.spec().name));
    };
    for (InstanceId id = 0; id < build_.draft.size(); ++id) {
      const Box3 strip = box_around(build_.draft, id);
      if (is_of(id, lower_) && !clears_landing(id, strip.high.z - low_z(), lower_, upper_)) return false;
      if (is_of(id, upper_) && !clears_landing(id, high_z() - strip.low.z, upper_, lower_)) return false;
    }
    return true;
  }

  bool clears_landing(InstanceId id, double beyond_mm, const StandingBox& its, const StandingBox& other) {
    const Box3 strip = box_around(build_.draft, id);
    const Box3 there = other.space();
    const bool past = strip.low.x >= there.high.x || strip.high.x <= there.low.x || strip.low.y >= there.high.y ||
                      strip.high.y <= there.low.y;
    const double high = high_z() - low_z();
    if (past || beyond_mm <= 0 || beyond_mm + beyond_landing_mm <= high + tolerance::contact_mm) return true;
    miss(spec_.section.place,
         fmt::format("{} stands {} beyond \"{}\", and the bearers are {} high", build_.draft.instance(id).name,
                     words(beyond_mm), its.spec().name, words(high)),
         fmt::format("choose bearers at least {} high, or an inward landing there",
                     build_.at_least(beyond_mm + beyond_landing_mm)));
    return false;
  }

  // ---- where the bearers go

  // Angles turn their heels outwards.
  [[nodiscard]] bool heel_low(double x) const { return x <= (x_.low + x_.high) / 2 + tolerance::contact_mm; }

  [[nodiscard]] double bolt_x(double x) const {
    if (!is_angle()) return x;
    const double from_heel = bolts_->across_mm();
    return heel_low(x) ? x - width_mm() / 2 + from_heel : x + width_mm() / 2 - from_heel;
  }

  [[nodiscard]] std::optional<InstanceId> first_blocked(const std::vector<double>& places) const {
    if (!bolts_) return std::nullopt;
    for (const double x : places) {
      if (const auto blocks = bolts_->blocked(bolt_x(x))) return blocks;
    }
    return std::nullopt;
  }

  void say_not_reached(const Place& place, InstanceId blocks) {
    build_.diagnostics.add(diag::say<"bolt-not-reached">(place, tables::find_thread(*spec_.screw)->size,
                                                         pair_in_words(), build_.draft.instance(blocks).name,
                                                         words(key_room_mm), words(socket_room_mm)));
  }

  std::vector<double> given_places() {
    std::vector<double> places;
    for (const Length& at : spec_.at->value) {
      const double x = spec_.at_from.right ? own_.shell.size.x - at.mm() : at.mm();
      places.push_back(own_.corner.x + x);
    }
    std::sort(places.begin(), places.end());
    for (std::size_t i = 0; i < places.size(); ++i) {
      if (!lies_on_rings(places[i]) || !is_apart(places, i)) return {};
    }
    const auto blocks = first_blocked(places);
    if (!blocks) return places;
    say_not_reached(spec_.at->place, *blocks);
    return {};
  }

  bool lies_on_rings(double x) {
    const double half = width_mm() / 2;
    if (x - half >= x_.low - tolerance::contact_mm && x + half <= x_.high + tolerance::contact_mm) return true;
    const double from = own_.corner.x;
    miss(spec_.at->place,
         fmt::format("one at {} is {} wide, and inside the side members of both rings there is room from X {} to X {}",
                     words(x - from), words(width_mm()), words(x_.low - from), words(x_.high - from)),
         fmt::format("give it a middle from {} to {} in bearers.at", build_.at_least(x_.low + half - from),
                     build_.at_most(x_.high - half - from)));
    return false;
  }

  bool is_apart(const std::vector<double>& places, std::size_t i) {
    if (i == 0 || places[i] - places[i - 1] >= width_mm() + least_apart_mm - tolerance::contact_mm) return true;
    miss(
        spec_.at->place,
        fmt::format("two that are {} wide stand {} apart from middle to middle", words(width_mm()),
                    words(places[i] - places[i - 1])),
        fmt::format("give their places in bearers.at at least {} apart", build_.at_least(width_mm() + least_apart_mm)));
    return false;
  }

  [[nodiscard]] std::vector<double> spread_from(double inset) const {
    const double first = x_.low + inset + width_mm() / 2;
    const double last = x_.high - inset - width_mm() / 2;
    const int steps = *spec_.count - 1;
    if (last - first < steps * (width_mm() + least_apart_mm) - tolerance::contact_mm) return {};
    std::vector<double> out;
    for (int i = 0; i <= steps; ++i) out.push_back(first + (last - first) * i / steps);
    return out;
  }

  // As far apart as the bolts of all can be reached.
  std::vector<double> places_by_rule() {
    std::optional<InstanceId> blocks;
    const double step = std::max(step_mm, (x_.high - x_.low) / most_steps);
    for (double inset = 0;; inset += step) {
      std::vector<double> places = spread_from(inset);
      if (places.empty()) break;
      const auto found = first_blocked(places);
      if (!found) return places;
      if (!blocks) blocks = found;
    }
    if (blocks) {
      say_not_reached(spec_.place, *blocks);
    } else {
      miss(spec_.section.place,
           fmt::format(
               "{} that are {} wide do not fit side by side between the side members of both rings, which leave {}",
               *spec_.count, words(width_mm()), words(std::max(0.0, x_.high - x_.low))),
           "choose a narrower section, fewer of them, or a wider box");
    }
    return {};
  }

  // ---- what is built

  [[nodiscard]] Origin origin() const {
    return {"box." + own_.spec().name + ".bearers", spec_.place, own_.spec().name + " bearers"};
  }

  [[nodiscard]] Pose pose_at(double x) const {
    const double half = width_mm() / 2;
    if (!is_angle()) return Pose::at({x - half, y_.low, high_z()}, axis::x, axis::minus_z);
    const bool heel = heel_low(x);
    const double heel_x = heel ? x - half : x + half;
    const double z = lies_low_ ? low_z() : high_z();
    return angle_pose({heel_x, y_.low, z}, {heel_x, y_.high, z}, heel ? axis::x : axis::minus_x,
                      lies_low_ ? axis::z : axis::minus_z);
  }

  void add(double x) {
    Part part;
    part.mark = "BEA01";
    part.name = "bearer";
    part.role = Role::bearer;
    part.source = Source::sawn;
    part.material = *own_.spec().frame.material;
    const double length = y_.high - y_.low;
    part.size = fmt::format("{} x {} mm", section_.designation, plain(length));
    part.form = Member{section_, length, square_cut(section_), square_cut(section_), {}};
    const std::string name = fmt::format("{} bearer {}", own_.spec().name, ++count_);
    const InstanceId id = build_.draft.add(std::move(part), pose_at(x), name, origin());
    const double half = width_mm() / 2;
    join(id, low_seat_, {{x - half, y_.low, low_z()}, {x + half, y_.high, low_z()}}, axis::minus_z);
    join(id, high_seat_, {{x - half, y_.low, high_z()}, {x + half, y_.high, high_z()}}, axis::z);
    if (bolts_) bolts_->add(id, bolt_x(x), origin());
  }

  // Welded to all that it meets; on what it is bolted to it lies.
  void join(InstanceId bearer, const Seat& seat, const Box3& face, Vec3 outward) {
    const JointKind kind = bolted_ == &seat ? JointKind::bearing : JointKind::weld;
    if (seat.panel) {
      if (kind == JointKind::weld) build_.draft.join(bearer, *seat.panel, kind, outward);
      return;
    }
    for (const Host& host : seat.hosts) {
      const bool is_bolted =
          kind == JointKind::bearing && (host.id == seat.lying[low].id || host.id == seat.lying[high].id);
      if (!is_bolted && face_each_other(face, host.box, outward)) build_.draft.join(bearer, host.id, kind, outward);
    }
  }

  Build& build_;
  const StandingBox& own_;
  const BearersSpec& spec_;
  const StandingBox& upper_;
  const StandingBox& lower_;
  Seat low_seat_;
  Seat high_seat_;
  const Section& section_;
  const Seat* bolted_ = nullptr;
  bool lies_low_ = true;
  Range x_;  // inside the side members of both rings
  Range y_;
  std::optional<BearerBolts> bolts_;
  int count_ = 0;
};

}  // namespace

void add_bearers(Build& whole, const StandingBox& own, const StandingBox& other) { Bearers(whole, own, other).run(); }

}  // namespace fitup::plan
