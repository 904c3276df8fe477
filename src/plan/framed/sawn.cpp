// A sawn member of the frame put into the draft.
// Entry: add_sawn.
#include "plan/framed/sawn.h"

#include <fmt/format.h>

#include "plan/size_words.h"

namespace fitup::plan {

InstanceId add_sawn(Build& build, const SawnName& name, const Member& member, const Pose& pose,
                    const std::optional<Origin>& origin) {
  Part part;
  part.mark = name.mark;
  part.name = name.name;
  part.role = name.role;
  part.source = Source::sawn;
  part.material = material_of(build);
  part.size = fmt::format("{} x {} mm", member.section.designation, plain(member.length_mm));
  part.form = member;
  const Origin of_frame{build.key("frame"), build.box_spec().frame.section.place, "frame"};
  return build.draft.add(std::move(part), pose, name.instance, origin.value_or(of_frame));
}

}  // namespace fitup::plan
