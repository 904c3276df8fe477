#pragma once
// What every file of a job carries.

#include <optional>
#include <string>

#include "fitup/job.h"
#include "fitup/spec.h"

namespace fitup::app {

/// `epoch` is the value of SOURCE_DATE_EPOCH (whole seconds since 1970, up to the year 9999) or null: then the
/// time is fixed, so that the same spec gives the same bytes. Nothing if it is not such a number.
[[nodiscard]] std::optional<std::string> timestamp(const char* epoch);

[[nodiscard]] JobInfo job_info(const Spec& spec, std::string timestamp);

}  // namespace fitup::app
