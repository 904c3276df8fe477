// What a file says about the job that it belongs to.
// Entry: step_description, stl_title.

#include "output/labels.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/text.h"

namespace fitup::output {

Release release_of(const Findings& findings, const JobOptions& options) {
  if (!findings.failed()) return Release::complete;
  return options.anyway ? Release::written_anyway : Release::withheld;
}

std::string step_description(const JobInfo& info) {
  const std::string title = info.title.empty() ? info.name : info.title;
  return fmt::format("{}, revision {}, spec {}", title, info.revision, short_hash(info.spec_hash));
}

std::string stl_title(const Part& part, const JobInfo& info) {
  // What must not be lost first: 80 bytes are all there is.
  return fmt::format("{} mm, revision {}, spec {}, {}, {}", part.mark, file_safe(info.revision),
                     short_hash(info.spec_hash), slug(info.name), slug(part.name));
}

std::string failing_words(const Findings& findings) {
  const auto count = std::count_if(findings.all.begin(), findings.all.end(),
                                   [](const Finding& one) { return one.verdict == Verdict::fail; });
  if (count == 0) return {};
  return fmt::format("{} FAIL{}: see checks/findings.txt", count == 1 ? "1 CHECK" : fmt::format("{} CHECKS", count),
                     count == 1 ? "S" : "");
}

std::string_view flat_warning(Release release) {
  return release == Release::written_anyway ? "WRITTEN ALTHOUGH A CHECK FAILS" : "";
}

}  // namespace fitup::output
