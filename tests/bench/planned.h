#pragma once
// The plan of an example.

#include <filesystem>
#include <optional>

#include "fitup/layout.h"
#include "fitup/plan.h"
#include "fitup/spec.h"
#include "output/sample.h"

namespace fitup::bench {

inline constexpr const char* examples[] = {"park-locomotive/front-box.toml",
                                           "park-locomotive/front-box-with-lower.toml",
                                           "orchard-sprayer/battery-box.toml", "cabin-inverter/cabinet.toml"};
/// All forms of parts: those of boxes of plate too.
inline constexpr const char* drawn_examples[] = {"park-locomotive/front-box.toml",
                                                 "park-locomotive/front-box-plate.toml",
                                                 "orchard-sprayer/battery-box.toml", "cabin-inverter/cabinet.toml",
                                                 "workboat-locker/locker.toml"};

struct Planned {
  Spec spec;
  std::optional<Plan> plan;
};

inline Planned planned(const std::string& example) {
  Planned out;
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / example;
  auto read = read_spec(path.string(), sample::read(path), {},
                        [](const std::string& file) -> Result<std::string> { return sample::read(file); });
  if (!read.spec) return out;
  out.spec = *std::move(read.spec);
  out.plan = make_plan(lay_out(out.spec)).plan;
  return out;
}

}  // namespace fitup::bench
