#pragma once
// Views of placed parts from their facets, each part's made once: for many small pictures of the same parts.

#include <memory>
#include <vector>

#include "fitup/model.h"
#include "fitup/plan.h"

namespace fitup::solid {

/// Curves leave their course by up to 0.1 mm. Used by one thread at a time; `model` must outlive it.
class FacetViews {
 public:
  explicit FacetViews(const Model& model);
  ~FacetViews();
  FacetViews(const FacetViews&) = delete;
  FacetViews& operator=(const FacetViews&) = delete;

  /// As `fitup::hidden_lines` of a plan with these instances.
  [[nodiscard]] Result<HiddenLines> hidden_lines(const std::vector<Instance>& placed, Vec3 towards_viewer, Vec3 up);

 private:
  struct Facets;  // holds the kernel's
  std::unique_ptr<Facets> facets_;
};

}  // namespace fitup::solid
