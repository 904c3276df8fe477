// Whether a bolted rod plate, which goes in last and comes out first, passes what is welded at its face.
// Entry: passes.
#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/nut_strip.h"
#include "plan/opening.h"
#include "plan/outward_landing.h"

namespace fitup::plan {

namespace {

constexpr double contact = tolerance::contact_mm;

class RodPlateWay {
 public:
  RodPlateWay(Build& build, Face face, const Box3& plate, double rods_mm)
      : build_(build),
        face_(face),
        plate_(plate),
        rods_mm_(rods_mm),
        frame_(opening_of(build, face)),
        left_(opening_past_nuts(build, face, face == Face::front ? plate.high.y : plate.low.y)) {}

  bool passes() {
    const Vec3 size = plate_.size();
    const bool too_high = size.z > left_.size_mm(1) + contact;
    const bool too_wide = size.x > left_.size_mm(0) + contact;
    const double short_mm = sill_short_mm();
    if (!too_high && !too_wide && short_mm <= contact) return true;
    build_.diagnostics.add(diag::say<"rod-plate-does-not-pass">(
        (front() ? plates().front : plates().back).place, to_text(face_), build_.in_words(size.x),
        build_.in_words(size.z), build_.in_words(left_.size_mm(0)), build_.in_words(left_.size_mm(1)),
        too_high   ? higher()
        : too_wide ? (size.x > frame_.size_mm(0) + contact ? wider() : past_nuts())
                   : over_the_sill(short_mm)));
    return false;
  }

 private:
  [[nodiscard]] bool front() const { return face_ == Face::front; }
  [[nodiscard]] const RodPlatesSpec& plates() const { return *build_.box_spec().rod_plates; }
  [[nodiscard]] const FaceSpec& face() const { return build_.box_spec().face(face_); }
  [[nodiscard]] std::string key(const char* tail) const {
    return build_.key(fmt::format("face.{}.{}", to_text(face_), tail));
  }

  // Where the items go in, nothing may be welded across; let in from above or from the side their rods would meet it.
  [[nodiscard]] std::string or_weld() const {
    constexpr std::array across{Face::left, Face::right, Face::top, Face::bottom};
    const BoxSpec& box = build_.box_spec();
    const bool meets_rods = std::any_of(across.begin(), across.end(), [&](Face f) { return *box.face(f).entry; });
    return *face().entry || meets_rods ? ""
                                       : fmt::format(", or weld the plate ({} = \"welded\")",
                                                     build_.key(fmt::format("rod_plates.{}", to_text(face_))));
  }

  // A flanged cover beside it laps the frame where the strips would stand.
  [[nodiscard]] bool has_room_for_outward_strips() const {
    return std::none_of(all_faces.begin(), all_faces.end(),
                        [&](Face other) { return laps_strips_of(build_.box_spec(), face_, other); });
  }

  [[nodiscard]] std::string higher() const {
    const double top = build_.box_spec().clearance.top->mm() + plate_.size().z - left_.size_mm(1);
    return fmt::format("give a clearance at the top of at least {}", build_.at_least(top)) + or_weld();
  }

  // A flat cover's strips, or uprights whose legs lie in the face.
  [[nodiscard]] std::string wider() const {
    const bool inward =
        *face().closed_by == Closure::cover && *face().style == CoverStyle::flat && *face().landing == Landing::inward;
    const bool plates = *build_.box_spec().build == BuildKind::plate;
    if (!inward || (!plates && !has_landings(build_, face_)))
      return "choose uprights that are as wide inside as at the face, of flat bar or tube" + or_weld();
    const std::string outward =
        has_room_for_outward_strips()
            ? fmt::format("{} to \"outward\", whose strips stand round the frame, or ", key("landing"))
            : "";
    return fmt::format("set {}{} to \"flanged\", which needs none beside the {}", outward, key("style"),
                       plates ? "walls" : "uprights") +
           or_weld();
  }

  // A thread in what the cover is screwed to leaves nothing in the way.
  [[nodiscard]] std::string past_nuts() const {
    const Side depth = front() ? low : high;
    const Shell& shell = build_.shell;
    const double thick = std::min({shell.upright[depth][low].depth_mm(axis::x), shell.bottom[depth].depth_mm(axis::y),
                                   shell.top[depth].depth_mm(axis::y)});
    const Material& material = *tables::find_material(material_of(build_));
    const Thread& now = *tables::find_thread(*face().screws.thread);
    const std::string why = fmt::format("what holds the {} cover's screws stands in its way: ", to_text(face_));
    const std::string fixing = fmt::format("set {} to \"tapped\"", key("screws.fixing"));
    if (holds_thread_itself(now, material, thick)) return why + fixing + or_weld();
    const Thread* best = nullptr;
    for (const Thread& t : tables::threads()) {
      const bool one = tables::is_unified(t) == tables::is_unified(now) && t.major_mm < now.major_mm &&
                       tables::find_button_head(t.size) != nullptr && holds_thread_itself(t, material, thick);
      if (one && (best == nullptr || t.major_mm > best->major_mm)) best = &t;
    }
    if (best != nullptr)
      return why + fmt::format("{} and {} to \"{}\"", fixing, key("screws.thread"), best->size) + or_weld();
    return why + "choose thicker bars, in which a thread holds, and " + fixing + or_weld();
  }

  // How much room lacks to come down behind the sill before its holes take the rods.
  [[nodiscard]] double sill_short_mm() const {
    const double sill = sill_depth_mm(build_, face_, plate_.low.z);
    const double outer = front() ? plate_.low.y : build_.shell.size.y - plate_.high.y;
    return sill > 0 ? sill + rods_mm_ - outer : 0;
  }

  [[nodiscard]] std::string over_the_sill(double short_mm) const {
    const ClearanceSpec& c = build_.box_spec().clearance;
    const std::string lower = lower_sill(build_);
    return fmt::format(
               "lifted over what stands at the bottom, it does not come down behind it before the rods: {}give a "
               "clearance at the {} of at least {}",
               lower.empty() ? "" : lower + ", or ", to_text(face_),
               build_.at_least((front() ? c.front : c.back)->mm() + short_mm)) +
           or_weld();
  }

  Build& build_;
  Face face_;
  Box3 plate_;
  double rods_mm_;
  Opening frame_;
  Opening left_;
};

}  // namespace

bool passes(Build& build, Face face, const Box3& rod_plate, double rods_mm) {
  return RodPlateWay(build, face, rod_plate, rods_mm).passes();
}

}  // namespace fitup::plan
