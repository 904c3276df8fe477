#pragma once
// Which pieces are sawn from which bars: as a list and as pages.

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "bench/bar_layout.h"
#include "bench/type.h"
#include "fitup/job.h"
#include "fitup/plan.h"

namespace fitup::bench {

/// The bars of one section and material.
struct BarsOf {
  std::string section;
  std::string material;
  std::vector<BarPiece> pieces;
  BarLayout layout;
};
/// What is sawn, by section and material, not yet laid on bars.
using PiecesOf = std::map<std::pair<std::string, std::string>, std::vector<BarPiece>>;
[[nodiscard]] PiecesOf pieces_of(const Plan& plan, const Model& model, const JobInfo& info);
[[nodiscard]] std::vector<BarsOf> laid_out(const PiecesOf& pieces, const JobInfo& info);
/// Both.
[[nodiscard]] std::vector<BarsOf> bars_of(const Plan& plan, const Model& model, const JobInfo& info);

/// One row for each piece on each bar, in the order of sawing. The first row is the heading.
[[nodiscard]] std::vector<std::vector<std::string>> bar_rows(const std::vector<BarsOf>& all, const JobInfo& info);

/// The bars drawn to one scale, with boxes to tick.
[[nodiscard]] Paper bars_paper(const std::vector<BarsOf>& all, const JobInfo& info, const Type& type);

/// "proven least", or how few might do.
[[nodiscard]] std::string bound_words(const BarsOf& bars, const JobInfo& info);

}  // namespace fitup::bench
