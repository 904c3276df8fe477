// What of a box the spec does not state and follows as another than its default.
// Entry: note_followed, note_fixing_of_item, note_feet_thickness.
#include "plan/followed.h"

#include <algorithm>
#include <cmath>
#include <string>

#include <fmt/format.h>

#include "fitup/tolerances.h"
#include "plan/landing_width.h"
#include "plan/opening.h"
#include "spec/spec_writer.h"

namespace fitup::plan {

namespace {

constexpr const char* no_thread = "what its screws go into is too thin for a thread";

void note(Build& build, const std::string& key, std::string value, std::string why) {
  auto& followed = build.draft.followed;
  const bool said = std::any_of(followed.begin(), followed.end(), [&](const Followed& f) { return f.key == key; });
  if (!said) followed.push_back({key, std::move(value), std::move(why)});
}

bool lies_on_landing(const Build& build, Face face) {
  const FaceSpec& spec = build.box_spec().face(face);
  if (*spec.closed_by != Closure::cover || *spec.style != CoverStyle::flat) return false;
  return *spec.landing == Landing::outward || has_landings(build, face);
}

void note_face(Build& build, const FaceSpec& stated, Face which) {
  const FaceSpec& face = build.box_spec().face(which);
  const std::string key = build.key(fmt::format("face.{}.", to_text(which)));
  if (*face.screws.fixing != *stated.screws.fixing)
    note(build, key + "screws.fixing", spec::words(*face.screws.fixing), no_thread);
  if (*face.flanges == Flanges::angle) {
    if (*face.flange_section != *stated.flange_section)
      note(build, key + "flange_section", *face.flange_section,
           fmt::format("{} would leave the screws of a cover or the edge of a plate beside it no room",
                       *stated.flange_section));
  } else if (std::abs(face.flange_depth->mm() - stated.flange_depth->mm()) > tolerance::contact_mm)
    note(build, key + "flange_depth", spec::words(*face.flange_depth),
         fmt::format("{} would leave the screws of a cover or the edge of a plate beside it no room",
                     build.in_words(stated.flange_depth->mm())));
  if (*face.landing != *stated.landing)
    note(build, key + "landing", spec::words(*face.landing), "strips in the opening would not let all in");
  const double width = landing_width_mm(build, which);
  if (lies_on_landing(build, which) && width > stated.landing_width->mm() + tolerance::contact_mm)
    note(build, key + "landing_width", spec::words(Length::mm(width)),
         fmt::format("{} leave what holds its screws, or the webs beside their holes, too little",
                     build.in_words(stated.landing_width->mm())));
}

void note_clearances(Build& build, const ClearanceSpec& stated) {
  const ClearanceSpec& now = build.box_spec().clearance;
  const auto side = [&](const Measured& was, const Measured& is, const char* name) {
    if (was.given) return;
    note(build, build.key(fmt::format("clearance.{}", name)), spec::words(*is), "outside leaves so much");
  };
  side(stated.left, now.left, "left");
  side(stated.right, now.right, "right");
  side(stated.front, now.front, "front");
  side(stated.back, now.back, "back");
  side(stated.top, now.top, "top");
}

}  // namespace

void note_followed(Build& build, const BoxSpec& stated) {
  note_clearances(build, stated.clearance);
  for (const Face face : all_faces) note_face(build, stated.face(face), face);
  const auto& plates = build.box_spec().rod_plates;
  if (plates && *plates->screw_fixing != *stated.rod_plates->screw_fixing)
    note(build, build.key("rod_plates.screw_fixing"), spec::words(*plates->screw_fixing), no_thread);
}

void note_fixing_of_item(Build& build, const std::string& key, ScrewFixing fixing) {
  note(build, key, spec::words(fixing), no_thread);
}

void note_feet_thickness(Build& build, Length thickness, std::string why) {
  note(build, build.key("feet.thickness"), spec::words(thickness), std::move(why));
}

}  // namespace fitup::plan
