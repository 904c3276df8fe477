// The part of a foot or a lug that is a length of angle.
// Entry: mount_mark, cleat_of.
#include "plan/mount_cleat.h"

#include <fmt/format.h>

#include "plan/end_cut.h"
#include "plan/size_words.h"

namespace fitup::plan {

std::string mount_mark(Role role) { return role == Role::foot ? "FOT01" : "LUG01"; }

Part cleat_of(const Section& section, double length_mm, Role role, const std::string& material) {
  Part part;
  part.mark = mount_mark(role);
  part.name = std::string(to_text(role)) + " cleat";
  part.role = role;
  part.source = Source::sawn;
  part.material = material;
  part.size = fmt::format("{} x {} mm", section.designation, plain(length_mm));
  part.form = Member{section, length_mm, square_cut(section), square_cut(section), {}};
  return part;
}

}  // namespace fitup::plan
