#pragma once
// The plan of an example.

#include <filesystem>
#include <map>
#include <optional>

#include "fitup/layout.h"
#include "fitup/model.h"
#include "fitup/plan.h"
#include "fitup/spec.h"
#include "output/sample.h"

namespace fitup::bench {

inline constexpr const char* examples[] = {"park-locomotive/front-box.toml",
                                           "park-locomotive/front-box-with-lower.toml",
                                           "orchard-sprayer/battery-box.toml", "cabin-inverter/cabinet.toml"};
/// All forms of parts: those of boxes of plate too.
inline constexpr const char* drawn_examples[] = {
    "park-locomotive/front-box.toml", "park-locomotive/front-box-plate.toml", "orchard-sprayer/battery-box.toml",
    "cabin-inverter/cabinet.toml", "workboat-locker/locker.toml"};

struct Planned {
  Spec spec;
  std::optional<Plan> plan;
};

inline Planned planned(const std::string& example, const std::vector<Override>& overrides = {}) {
  Planned out;
  const auto path = std::filesystem::path(FITUP_EXAMPLES) / example;
  auto read = read_spec(path.string(), sample::read(path), overrides,
                        [](const std::string& file) -> Result<std::string> { return sample::read(file); });
  if (!read.spec) return out;
  out.spec = *std::move(read.spec);
  out.plan = make_plan(lay_out(out.spec)).plan;
  return out;
}

struct Modelled {
  Planned made;
  Model model;
};

/// The plan of an example with its solids, built once.
inline const Modelled& modelled(const std::string& example) {
  static std::map<std::string, Modelled> all;
  if (const auto found = all.find(example); found != all.end()) return found->second;
  Modelled& one = all[example];
  one.made = planned(example);
  if (one.made.plan) {
    if (auto model = build_model(*one.made.plan, 2)) one.model = std::move(model).value();
  }
  return one;
}

}  // namespace fitup::bench
