#pragma once
// A sawn member of the frame put into the draft. Private to the framed build.

#include <optional>
#include <string>

#include "plan/build.h"

namespace fitup::plan {

struct SawnName {
  std::string mark;
  std::string name;
  std::string instance;
  Role role = Role::ring_member;
};

/// Without an origin of its own it comes from the frame.
InstanceId add_sawn(Build& build, const SawnName& name, const Member& member, const Pose& pose,
                    const std::optional<Origin>& origin = {});

}  // namespace fitup::plan
