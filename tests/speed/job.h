#pragma once
// A spec and what it leads to, made once for a benchmark.

#include <memory>
#include <optional>
#include <string>

#include "fitup/layout.h"
#include "fitup/model.h"
#include "fitup/plan.h"
#include "fitup/spec.h"

namespace fitup::speed {

/// The spec's text and what it leads to, made once.
struct Job {
  std::string name;
  std::string text;
  Spec spec;
  std::optional<Layout> layout;
  std::optional<Plan> plan;
  std::optional<Model> model;
};

[[nodiscard]] Result<std::string> text_of(const std::string& path);

/// Null where the spec leads to no model.
[[nodiscard]] std::unique_ptr<Job> make_job(const std::string& file_name);

}  // namespace fitup::speed
