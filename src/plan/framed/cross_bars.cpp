// Bars between the members of the bottom ring, of angle or tube, under the rails: their places, their ends, what they offer.
// Entry: add_cross_bars.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/framed/stiffening.h"
#include "plan/rail_sag.h"
#include "plan/size_words.h"

namespace fitup::plan {

namespace {

constexpr int most_by_rule = 20;
constexpr double least_on_flat_mm = 5;  // so that the bead does not burn the edge away

// How a bar's section stands: its width along the rails, its height, and the one of its legs that is upright.
struct Attitude {
  double wide_mm = 0;
  double high_mm = 0;
  bool upright_a = false;
};

// What is not stated: a flat lies, but on tubes, where its ends would meet the rounding; a tube is as the ring's.
bool stands_of(const Build& build, const Section& s, bool on_tube) {
  const auto& long_side = build.box_spec().frame.cross_bars->long_side;
  if (long_side) return **long_side == LongSide::standing;
  if (s.shape == SectionShape::tube) return *build.box_spec().frame.long_side == LongSide::standing;
  return on_tube || s.shape == SectionShape::angle;
}

Attitude attitude_of(const Section& s, bool stands) {
  const bool flat = s.shape == SectionShape::flat;
  if (flat) return stands ? Attitude{s.thickness_mm, s.leg_a_mm, true} : Attitude{s.leg_a_mm, s.thickness_mm, false};
  const bool a_upright = (s.leg_a_mm >= s.leg_b_mm) == stands;
  return a_upright ? Attitude{s.leg_b_mm, s.leg_a_mm, true} : Attitude{s.leg_a_mm, s.leg_b_mm, false};
}

class CrossBars {
 public:
  CrossBars(Build& build, const Bones& bones)
      : build_(build),
        bones_(bones),
        ring_(bones.rings[low]),
        spec_(*build.box_spec().frame.cross_bars),
        section_(*build.spec.section(*spec_.section)),
        on_tube_(bones.of_tube()),
        attitude_(attitude_of(section_, stands_of(build, section_, on_tube_))),
        across_(rails_across(build)) {
    const Vec3 s = build.shell.size;
    run_mm_ = across_ ? s.y : s.x;
    room_ = {ring_.lying_mm, (across_ ? s.x : s.y) - ring_.lying_mm};
  }

  void run() {
    if (!fits_below() || !meets_legs() || !meets_flat()) return;
    const auto middles = places();
    if (!middles) return;
    for (std::size_t i = 0; i < middles->size(); ++i) add(i, (*middles)[i]);
  }

 private:
  // Along the bar and along the rails.
  [[nodiscard]] Vec3 at(double along, double beside, double z) const {
    return across_ ? Vec3{beside, along, z} : Vec3{along, beside, z};
  }
  [[nodiscard]] const char* axis_word() const { return across_ ? "X" : "Y"; }
  [[nodiscard]] double gap() const { return bones_.options.gap_mm; }
  [[nodiscard]] double half() const { return attitude_.wide_mm / 2; }
  [[nodiscard]] bool is_tube() const { return section_.shape == SectionShape::tube; }

  bool fits_below() {
    const double room = build_.shell.deck_mm;
    const double below = attitude_.high_mm - room;
    if (below <= tolerance::contact_mm) return true;
    build_.diagnostics.add(diag::say<"cross-bar-below">(
        spec_.section.place, *spec_.section, build_.in_words(attitude_.high_mm), build_.in_words(below),
        on_tube_ ? "tubes" : bones_.up ? "lying legs" : "standing legs", build_.in_words(room), build_.at_most(room),
        lies_lower() ? ", or lay it flat by long_side" : ""));
    return false;
  }

  [[nodiscard]] bool lies_lower() const {
    return std::min(section_.leg_a_mm, section_.leg_b_mm) < attitude_.high_mm - tolerance::contact_mm ||
           section_.shape == SectionShape::flat;
  }

  // Of a tube between toes only its upper wall meets them: a line of weld that it would turn about.
  bool meets_legs() {
    if (on_tube_ || !is_tube()) return true;
    build_.diagnostics.add(diag::say<"tube-not-stiffened">(
        spec_.section.place, fmt::format("{} of {}", build_.key("frame.cross_bars"), *spec_.section),
        fmt::format("on rings of angle, whose legs, {} thick, it would meet by its upper wall alone",
                    build_.in_words(ring_.thickness_mm())),
        "a flat bar or an angle, which reach under the legs, or rings of tube"));
    return false;
  }

  // Level with the tubes' tops, its ends begin beside their rounding: enough of it must come down to their flat sides.
  bool meets_flat() {
    const double round = ring_.section->corner_radius_mm;
    const double own = is_tube() ? section_.corner_radius_mm : 0;
    const double flat_low = std::max(round, build_.shell.deck_mm - attitude_.high_mm + own);
    const double flat_high = build_.shell.deck_mm - std::max(round, own);
    if (!on_tube_ || flat_high - flat_low >= least_on_flat_mm - tolerance::contact_mm) return true;
    const bool lies = section_.shape == SectionShape::flat && !attitude_.upright_a;
    build_.diagnostics.add(diag::say<"tube-not-stiffened">(
        spec_.section.place,
        fmt::format("{} of {}, {} high,", build_.key("frame.cross_bars"), *spec_.section,
                    build_.in_words(attitude_.high_mm)),
        fmt::format("level with tubes whose sides are flat only {} below their tops", build_.in_words(round)),
        fmt::format("a section at least {} high{}", build_.at_least(std::max(round, own) + least_on_flat_mm + own),
                    lies ? ", or stand it by long_side = \"standing\"" : "")));
    return false;
  }

  // Ascending; none, and said, where they have no room.
  std::optional<std::vector<double>> places() {
    if (spec_.at) return given();
    if (spec_.count) return spread(**spec_.count);
    const RailLoads loads(build_);
    std::optional<std::vector<double>> found;
    for (int count = 1; count <= most_by_rule; ++count) {
      if (count > 1 && least_room_mm(count) > room_.width()) break;
      found = spread(count);
      if (!found || is_stiff(loads, *found)) break;
    }
    return found;
  }

  [[nodiscard]] bool is_stiff(const RailLoads& loads, const std::vector<double>& middles) const {
    std::vector<Box3> boxes;
    for (const double middle : middles) boxes.push_back(top_box(middle));
    const std::vector<Sag> sags = loads.sags(boxes);
    return std::all_of(sags.begin(), sags.end(), [](const Sag& s) { return s.part_of_span() <= fair_part_of_span; });
  }

  [[nodiscard]] double least_room_mm(int count) const { return count * attitude_.wide_mm + (count + 1) * gap(); }

  // With equal free spans between them and to the ring's legs.
  std::optional<std::vector<double>> spread(int count) {
    const double free = (room_.width() - count * attitude_.wide_mm) / (count + 1);
    if (free < gap() - tolerance::contact_mm) {
      const int most = static_cast<int>((room_.width() - gap()) / (attitude_.wide_mm + gap()));
      const Place& place = spec_.count ? spec_.count->place : spec_.place;
      const double low = room_.low + free;
      say_place(place, count, low, "",
                most > 0 ? fmt::format("{} bars {} wide have room between the ring's legs at most", most,
                                       build_.in_words(attitude_.wide_mm))
                         : "choose a narrower section, or leave frame.cross_bars out");
      return std::nullopt;
    }
    std::vector<double> out;
    for (int i = 0; i < count; ++i) out.push_back(room_.low + free + half() + i * (free + attitude_.wide_mm));
    return out;
  }

  std::optional<std::vector<double>> given() {
    std::vector<double> out;
    for (const Length middle : spec_.at->value) {
      const Vec2 place = build_.in_frame({middle.mm(), middle.mm()}, spec_.at_from);
      out.push_back(across_ ? place.x : place.y);
    }
    std::sort(out.begin(), out.end());
    const Span allowed{room_.low + gap() + half(), room_.high - gap() - half()};
    bool sound = true;
    for (std::size_t i = 0; i < out.size(); ++i) {
      const bool inside =
          out[i] >= allowed.low - tolerance::contact_mm && out[i] <= allowed.high + tolerance::contact_mm;
      const double apart = i == 0 ? gap() : out[i] - out[i - 1] - attitude_.wide_mm;
      if (!inside) {
        say_place(spec_.at->place, static_cast<int>(i + 1), out[i] - half(), ", into the ring's legs",
                  fmt::format("give it a middle from {} {} to {} {} in frame.cross_bars.at", axis_word(),
                              build_.at_least(allowed.low), axis_word(), build_.at_most(allowed.high)));
      } else if (apart < gap() - tolerance::contact_mm) {
        say_place(spec_.at->place, static_cast<int>(i + 1), out[i] - half(), fmt::format(", into cross bar {}", i),
                  fmt::format("move them apart by at least {} in frame.cross_bars.at", build_.at_least(gap() - apart)));
      }
      sound = sound && inside && apart >= gap() - tolerance::contact_mm;
    }
    if (!sound) return std::nullopt;
    return out;
  }

  void say_place(const Place& place, int number, double low, const std::string& into, const std::string& remedy) {
    build_.diagnostics.add(diag::say<"cross-bar-place">(place, number, axis_word(), build_.in_words(low), axis_word(),
                                                        build_.in_words(low + attitude_.wide_mm), into, remedy));
  }

  // What of it lies level with the legs; of a flat on edge its upper part.
  [[nodiscard]] Box3 top_box(double middle) const {
    const double end = ring_.lying_mm + gap();
    const double z = build_.shell.deck_mm;
    const double flat = half() - (is_tube() ? section_.corner_radius_mm : 0);
    Box3 box;
    box.add(at(end, middle - flat, z - section_.thickness_mm));
    box.add(at(run_mm_ - end, middle + flat, z));
    return box;
  }

  [[nodiscard]] bool heel_is_high() const { return across_ ? spec_.from.right : spec_.from.back; }

  // Run over the whole frame; its ends then yield to the ring.
  [[nodiscard]] Pose uncut_pose(double middle) const {
    const bool angle = section_.shape == SectionShape::angle;
    const bool turned = angle && heel_is_high();
    const Vec3 beside = across_ ? axis::x : axis::y;
    Vec3 leg_a = axis::minus_z;
    Vec3 leg_b = turned ? Vec3{} - beside : beside;
    if (!attitude_.upright_a) std::swap(leg_a, leg_b);
    const double heel = turned ? middle + half() : middle - half();
    const Vec3 begin = at(0, heel, build_.shell.deck_mm);
    const Vec3 end = at(run_mm_, heel, build_.shell.deck_mm);
    return dot(cross(leg_a, leg_b), end - begin) > 0 ? Pose::at(begin, leg_a, leg_b) : Pose::at(end, leg_a, leg_b);
  }

  // Between the legs of a ring of angle as its corners are, between the flat sides of tubes square. False, and said,
  // where it cannot be cut.
  bool cut_ends(Member& member, Pose& pose, const std::string& name) {
    if (on_tube_) {
      const double end = ring_.lying_mm + gap();
      member.length_mm -= 2 * end;
      pose = pose.moved(end * pose.z());
      return true;
    }
    const std::size_t first = across_ ? 0 : 2;
    EndCutOptions options = bones_.options;
    options.square = bones_.corners != Corners::coped;
    const EndCutResult cut =
        derive_end_cuts(member, pose, {ring_.obstacles[first], ring_.obstacles[first + 1]}, options);
    if (!cut.ok) build_.diagnostics.add(diag::say<"end-cut">(spec_.section.place, name, cut.problem));
    return cut.ok;
  }

  void add(std::size_t index, double middle) {
    const std::string name = fmt::format("cross bar {}", index + 1);
    Member member{section_, run_mm_, square_cut(section_), square_cut(section_), {}};
    Pose pose = uncut_pose(middle);
    if (!cut_ends(member, pose, name)) return;
    Part part;
    part.mark = "CRB01";
    part.name = "cross bar";
    part.role = Role::cross_bar;
    part.source = Source::sawn;
    part.material = material_of(build_);
    part.size = fmt::format("{} x {} mm", section_.designation, plain(member.length_mm));
    part.form = member;
    const InstanceId id =
        build_.draft.add(std::move(part), pose, name, {build_.key("frame.cross_bars"), spec_.place, "frame"});
    const Vec3 along = across_ ? axis::y : axis::x;
    const std::size_t first = across_ ? 0 : 2;
    build_.draft.join(id, ring_.ids[first], JointKind::weld, Vec3{} - along, gap());
    build_.draft.join(id, ring_.ids[first + 1], JointKind::weld, along, gap());
    offer(id, middle);
  }

  // To the rails, and, where it is as deep as the ring, to what closes the bottom.
  void offer(InstanceId id, double middle) {
    Shell& shell = build_.shell;
    shell.cross_bars.push_back({id, top_box(middle)});
    if (attitude_.high_mm < shell.deck_mm - tolerance::contact_mm) return;
    Host host{id, top_box(middle)};
    host.row = false;
    if (is_tube()) host.wall_mm = section_.thickness_mm;
    if (section_.shape == SectionShape::angle) {
      const double heel = heel_is_high() ? middle + half() - section_.thickness_mm : middle - half();
      const double end = ring_.lying_mm + gap();
      host.box = {};
      host.box.add(at(end, heel, 0));
      host.box.add(at(run_mm_ - end, heel + section_.thickness_mm, shell.deck_mm));
    }
    host.box.low.z = 0;
    shell.beside[static_cast<std::size_t>(Face::bottom)].push_back(host);
  }

  Build& build_;
  const Bones& bones_;
  const Ring& ring_;
  const CrossBarsSpec& spec_;
  const Section& section_;
  bool on_tube_;
  Attitude attitude_;
  bool across_;
  double run_mm_ = 0;
  Span room_;  // between the toes of the ring's lying legs
};

}  // namespace

void add_cross_bars(Build& build, const Bones& bones) { CrossBars(build, bones).run(); }

}  // namespace fitup::plan
