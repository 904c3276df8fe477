// Pictures of findings: which get one, under which names.
// Entry: finding_pictures.
#include "output/finding_picture.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/finding_page.h"
#include "output/text.h"

namespace fitup::output {
namespace {

bool is_shown(const Finding& f) { return f.verdict == Verdict::fail || f.verdict == Verdict::marginal; }

/// Indices of what is shown: failures, then what is marginal, each as they stand.
std::vector<std::size_t> shown(const Findings& findings) {
  std::vector<std::size_t> order;
  for (std::size_t i = 0; i < findings.all.size(); ++i) {
    if (is_shown(findings.all[i])) order.push_back(i);
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return findings.all[a].verdict == Verdict::fail && findings.all[b].verdict != Verdict::fail;
  });
  return order;
}

}  // namespace

std::vector<std::string> picture_paths(const Findings& findings) {
  std::vector<std::string> paths(findings.all.size());
  std::size_t number = 0;
  for (const std::size_t i : shown(findings)) {
    paths[i] = fmt::format("checks/{:02}-{}.svg", ++number, slug(findings.all[i].check));
  }
  return paths;
}

std::vector<JobFile> finding_pictures(const Plan& plan, const Findings& findings, const JobInfo& info) {
  std::vector<JobFile> files;
  const std::vector<std::size_t> order = shown(findings);
  if (order.empty()) return files;
  const std::vector<std::string> paths = picture_paths(findings);
  const PlacedPlan placed(plan);
  for (const std::size_t i : order) {
    if (interrupt_requested()) break;
    const Finding& finding = findings.all[i];
    files.push_back({paths[i], finding_page(finding, scene_of(finding, placed), placed, info), FileGroup::checks});
  }
  return files;
}

}  // namespace fitup::output
