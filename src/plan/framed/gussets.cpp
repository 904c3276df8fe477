// Triangular plates in the corners between uprights and rings, in the side planes: of angles and flats flush, beside
// uprights of tube where these and the ring's members or their lying legs are flat over each other.
// Entry: add_gussets.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/framed/stiffening.h"
#include "plan/gusset_part.h"
#include "plan/rails.h"
#include "plan/tube_flats.h"

namespace fitup::plan {

namespace {

constexpr double beyond_edge_mm = 1;
constexpr double least_weld_mm = 10;
constexpr double before_rail_mm = 2;
constexpr double least_plate_mm = 1;

class Gussets {
 public:
  Gussets(Build& build, const Bones& bones)
      : build_(build),
        bones_(bones),
        spec_(*build.box_spec().frame.gussets),
        upright_(build.shell.upright[low][low].box.size()),
        leg_(spec_.leg->mm()),
        on_tube_(bones.of_tube()),
        flush_(!on_tube_ && build.shell.upright[low][low].round_mm <= 0),
        thickness_(spec_.thickness ? (*spec_.thickness)->mm() : usual_thickness_mm()) {}

  void run() {
    if (!has_faces() || !is_thin_enough() || !has_room()) return;
    for (const Side side : {low, high}) {
      if (is_entry(side)) continue;
      if (!flush_ && rails_across(build_)) keep_rails_off(side);
      for (const Side depth : {low, high}) {
        for (const Side level : {low, high}) add(side, depth, level);
      }
    }
  }

 private:
  [[nodiscard]] static Face face(Side side) { return side == low ? Face::left : Face::right; }
  [[nodiscard]] bool is_entry(Side side) const { return *build_.box_spec().face(face(side)).entry; }

  bool has_faces() {
    if (!is_entry(low) || !is_entry(high)) return true;
    build_.diagnostics.add(diag::say<"gussets-nowhere">(spec_.place));
    return false;
  }

  [[nodiscard]] double usual_thickness_mm() const {
    const double wall = build_.shell.upright[low][low].wall_mm;
    return flush_ ? upright_.x : std::min({bones_.rings[low].thickness_mm(), bones_.rings[high].thickness_mm(), wall > 0 ? wall : upright_.x});
  }

  // Of an angle's lying leg, from its face, between root and toe.
  [[nodiscard]] static Span leg_flat(const Ring& ring) {
    return {ring.root_mm(), ring.lying_mm - std::min(ring.section->toe_radius_mm, ring.thickness_mm())};
  }

  // From the side's face, whatever plate is there: what is flat of both rings and of the uprights.
  [[nodiscard]] Span bare_flats() const {
    const Host& upright = build_.shell.upright[low][low];
    if (on_tube_) return shared_flats(build_.shell, 0, upright);
    Span span{upright.round_mm, upright_.x - upright.round_mm};
    for (const Ring& ring : bones_.rings) {
      const Span flat = leg_flat(ring);
      span = {std::max(span.low, flat.low), std::min(span.high, flat.high)};
    }
    return span;
  }

  // And where a gusset may be welded to them.
  [[nodiscard]] Span flats(Side side) const {
    if (flush_) return {0, upright_.x};
    Span span = bare_flats();
    const FaceSpec& spec = build_.box_spec().face(face(side));
    if (*spec.closed_by != Closure::plate) return span;
    const double takes = spec.thickness->mm() + beads_mm(spec.thickness->mm());
    if (*spec.set == PlateSet::inset) span.low = on_tube_ ? span.low + takes : std::max(span.low, takes);
    if (*spec.set == PlateSet::inside && on_tube_) span.high -= takes;
    return span;
  }

  // Between two plates that stand beside each other, each with a bead as thick as itself.
  [[nodiscard]] double beads_mm(double other_mm) const { return other_mm + thickness_; }

  // From the side's face to the gusset: in the middle of the flats, or before the ends of the rails that lie there too.
  // Under a lying leg as far from the standing one as its other bead lets it: between the two a torch must come in.
  [[nodiscard]] double inset_mm(Side side) const {
    if (flush_) return 0;
    const Span span = flats(side);
    const double middle = span.middle() - thickness_ / 2;
    if (rails_across(build_)) return std::min(middle, span.low + thickness_);
    return on_tube_ ? middle : std::max(middle, span.high - 2 * thickness_);
  }

  void keep_rails_off(Side side) {
    double& inset = build_.shell.rail_inset_mm;
    inset = std::max(inset, inset_mm(side) + 2 * thickness_ + before_rail_mm);
  }

  bool is_thin_enough() {
    if (!flush_) return is_on(low) && is_on(high);
    if (thickness_ <= upright_.x + tolerance::contact_mm) return true;
    const Sourced<Length>& given = *spec_.thickness;
    build_.diagnostics.add(diag::say<"gusset-too-thick">(given.place, build_.in_words(thickness_),
                                                         build_.in_words(upright_.x), build_.at_most(upright_.x)));
    return false;
  }

  bool is_on(Side side) {
    const double wide = flats(side).width();
    if (is_entry(side) || thickness_ <= wide + tolerance::contact_mm) return true;
    const bool none = wide < least_plate_mm;
    const std::string on =
        fmt::format("where the flats of the {} ring members{} and of the uprights share {} of their width",
                    to_text(face(side)), on_tube_ ? "" : "' lying legs", wide > 0 ? build_.in_words(wide) : "none");
    // Where without the plate they share enough, it is the plate that takes it.
    const FaceSpec& spec = build_.box_spec().face(face(side));
    const bool set_in = *spec.closed_by == Closure::plate && *spec.set != PlateSet::outside &&
                        thickness_ <= bare_flats().width() + tolerance::contact_mm;
    build_.diagnostics.add(diag::say<"tube-not-stiffened">(
        spec_.thickness ? spec_.thickness->place : spec_.place,
        fmt::format("{} of {}", build_.key("frame.gussets"), build_.in_words(thickness_)), on,
        set_in ? fmt::format("{} = \"outside\"", build_.key(fmt::format("face.{}.set", to_text(face(side)))))
        : none ? no_flats_remedy()
               : fmt::format("{} of at most {}", build_.key("frame.gussets.thickness"), build_.at_most(wide))));
    return false;
  }

  [[nodiscard]] std::string no_flats_remedy() const {
    if (!on_tube_) return "uprights of flat bar or angle, or a wider section";
    return fmt::format("{} = \"{}\"", build_.key("frame.uprights"), *build_.box_spec().frame.section);
  }

  // From the corner: along the side member, and up or down the upright, of which the free length counts.
  bool has_room() {
    const Vec3 s = build_.shell.size;
    const double deep = s.y - 2 * upright_.y;
    const double high_mm = bones_.rings[high].low_z - bones_.rings[low].standing_mm;
    const double most = std::min(deep, high_mm) / 2 - bones_.options.gap_mm;
    double least = 0;
    for (const Side level : {low, high}) {
      const double begins = flush_ ? begins_mm(bones_.rings[level]) : side_from_mm(level);
      least = std::max(least, begins - upright_.y + least_weld_mm);
    }
    const bool long_enough = leg_ >= least - tolerance::contact_mm;
    if (long_enough && leg_ <= most + tolerance::contact_mm) return true;
    const std::string why =
        long_enough
            ? fmt::format("between the uprights {}, between the rings {} are free, for two of them each",
                          build_.in_words(deep), build_.in_words(high_mm))
            : fmt::format("the side members begin {} beyond the uprights", build_.in_words(least - least_weld_mm));
    build_.diagnostics.add(diag::say<"gusset-leg">(spec_.leg.place, build_.in_words(leg_), why,
                                                   long_enough ? "at most" : "at least",
                                                   long_enough ? build_.at_most(most) : build_.at_least(least)));
    return false;
  }

  // Where a side member's standing leg begins, from the frame's face.
  [[nodiscard]] double begins_mm(const Ring& ring) const {
    if (bones_.corners == Corners::mitred) return 0;
    return (bones_.corners == Corners::butted ? ring.lying_mm : ring.thickness_mm()) + bones_.options.gap_mm;
  }

  // On the toe of a standing leg, or on a tube or a lying leg, which a mitre does not end.
  [[nodiscard]] bool on_lying(Side level) const { return !flush_ || (level == low && !bones_.up); }
  [[nodiscard]] bool mitred() const { return bones_.corners == Corners::mitred; }

  // Where what a gusset lies on of a side member begins, from the frame's face.
  [[nodiscard]] double side_from_mm(Side level) const {
    const Ring& ring = bones_.rings[level];
    return on_lying(level) && !mitred() ? ring.lying_mm + bones_.options.gap_mm : begins_mm(ring);
  }

  // Where it would begin at the very edge of the front's lying leg or flat, it begins behind it.
  [[nodiscard]] double snipe_mm() const {
    const double snipe = gusset_snipe_mm(leg_, thickness_);
    const auto at_edge = [&](Side level) {
      return std::abs(upright_.y + snipe - front_flat_mm(level)) <= tolerance::contact_mm;
    };
    return at_edge(low) || (!flush_ && at_edge(high)) ? snipe + beyond_edge_mm : snipe;
  }

  // Of the front's or the back's member, from its face: an angle's heel side is flat to the toe's edge.
  [[nodiscard]] double front_flat_mm(Side level) const {
    const Ring& ring = bones_.rings[level];
    if (on_tube_) return ring.lying_mm - ring.section->corner_radius_mm;
    const bool on_heel_side = level == low && !bones_.up;
    return flush_ || on_heel_side ? ring.lying_mm : leg_flat(ring).high;
  }

  // Where it meets a ring: on it or under it, or of standing legs on their toes.
  [[nodiscard]] double corner_z(Side level) const {
    const Ring& ring = bones_.rings[level];
    const double t = ring.thickness_mm();
    if (flush_ || on_tube_) return level == low ? ring.standing_mm : ring.low_z;
    if (level == high) return ring.low_z + ring.standing_mm - t;
    return bones_.up ? t : ring.standing_mm;
  }

  // From there to where the upright ends: beside a standing leg it goes up past that to the lying one.
  [[nodiscard]] double beyond_upright_mm(Side level) const {
    if (flush_ || on_tube_) return 0;
    const Box3& upright = build_.shell.upright[low][low].box;
    return level == low ? upright.low.z - corner_z(low) : corner_z(high) - upright.high.z;
  }

  // The right angle at the origin, the upright along Y.
  [[nodiscard]] Profile profile(Side level) const {
    const double s = snipe_mm();
    const double nose = gusset_nose_mm(leg_, thickness_);
    const double up = leg_ + beyond_upright_mm(level);
    return {Loop::polygon({{s, 0}, {leg_, 0}, {leg_, nose}, {nose, up}, {0, up}, {0, s}}), {}};
  }

  void add(Side side, Side depth, Side level) {
    const Shell& shell = build_.shell;
    const Ring& ring = bones_.rings[level];
    const Host& upright = shell.upright[depth][side];
    const Vec3 along = depth == low ? axis::y : axis::minus_y;
    const Vec3 up = level == low ? axis::z : axis::minus_z;
    const Vec3 normal = cross(along, up);
    const double inset = inset_mm(side);
    const double inner = side == low ? inset + thickness_ : shell.size.x - inset - thickness_;
    const double outer = side == low ? inset : shell.size.x - inset;
    const double low_x = std::min(inner, outer);
    const Vec3 corner{normal.x > 0 ? low_x : low_x + thickness_, depth == low ? upright.box.high.y : upright.box.low.y,
                      corner_z(level)};
    Part part = gusset_part(profile(level), thickness_, material_of(build_));
    const std::string name = fmt::format("gusset {} {} {}", level == low ? "bottom" : "top",
                                         depth == low ? "front" : "back", side == low ? "left" : "right");
    const InstanceId id = build_.draft.add(std::move(part), Pose::at(corner, along, up), name,
                                           {build_.key("frame.gussets"), spec_.place, "frame"});
    build_.draft.join(id, upright.id, JointKind::weld, Vec3{} - along);
    weld_to_ring(id, ring, side, depth, level);
    if (!flush_) return;  // behind what closes the side
    Host host{id, {}};
    host.row = false;
    host.box.add(Vec3{outer, corner.y, corner.z});
    host.box.add(Vec3{inner, corner.y, corner.z} + leg_ * along + leg_ * up);
    build_.shell.beside[static_cast<std::size_t>(face(side))].push_back(host);
  }

  // Of lying legs the front's or the back's may reach beyond the upright.
  void weld_to_ring(InstanceId id, const Ring& ring, Side side, Side depth, Side level) {
    const Vec3 normal = level == low ? axis::minus_z : axis::z;
    const double from = upright_.y + snipe_mm();
    const double to = upright_.y + leg_;
    if (to > side_from_mm(level) + tolerance::contact_mm)
      build_.draft.join(id, ring.ids[2U + side], JointKind::weld, normal);
    if (on_lying(level) && !mitred() && from < front_flat_mm(level) - tolerance::contact_mm)
      build_.draft.join(id, ring.ids[depth], JointKind::weld, normal);
  }

  Build& build_;
  const Bones& bones_;
  const GussetsSpec& spec_;
  Vec3 upright_;
  double leg_ = 0;
  bool on_tube_;
  bool flush_;  // in the side's face
  double thickness_ = 0;
};

}  // namespace

void add_gussets(Build& build, const Bones& bones) { Gussets(build, bones).run(); }

}  // namespace fitup::plan
