// Name, hash, version and time of a job.
// Entry: job_info, timestamp.
#include "app/job_info.h"

#include <fmt/format.h>

#include <charconv>
#include <chrono>
#include <string_view>

#include "app/commands.h"
#include "fitup/job.h"

namespace fitup::app {

namespace {

constexpr long long last_second_of_9999 = 253402300799;

}  // namespace

std::optional<std::string> timestamp(const char* epoch) {
  if (epoch == nullptr) return "1970-01-01T00:00:00Z";
  const std::string_view text(epoch);
  long long seconds = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), seconds);
  if (error != std::errc{} || end != text.data() + text.size() || seconds < 0 || seconds > last_second_of_9999) {
    return std::nullopt;
  }
  // Calendar arithmetic rather than gmtime: no time zone file, no locale.
  using namespace std::chrono;
  const sys_seconds moment{std::chrono::seconds(seconds)};
  const auto day = floor<days>(moment);
  const year_month_day date{day};
  const hh_mm_ss time{moment - day};
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()), time.hours().count(),
                     time.minutes().count(), time.seconds().count());
}

JobInfo job_info(const Spec& spec, std::string timestamp) {
  return {spec.name,
          spec.title,
          spec.revision,
          sha256_hex(to_text(spec)),
          program_version(),
          std::move(timestamp),
          spec.units,
          StepSchema::ap242,
          {*spec.cutter.units, *spec.cutter.dxf, *spec.cutter.file_name, spec.cutter.rules.tolerance,
           spec.cutter.rules.kerf_mm},
          {},
          spec.bench};
}

}  // namespace fitup::app
