// Findings that share a cause, as one.
// Entry: one_for_each_cause.
#include "checks/causes.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

#include "checks/order.h"

namespace fitup::checks {

namespace {

void add_parts(const Finding& from, std::vector<std::string>& parts) {
  for (const std::string& part : from.parts) {
    if (std::find(parts.begin(), parts.end(), part) == parts.end()) parts.push_back(part);
  }
}

}  // namespace

std::vector<Finding> one_for_each_cause(const std::vector<Finding>& worst_first) {
  std::vector<Finding> kept;
  std::map<std::tuple<std::string, Verdict, std::string>, std::size_t> known;
  for (const Finding& f : worst_first) {
    const auto [it, added] = known.try_emplace({f.check, f.verdict, f.cause}, kept.size());
    if (added || f.cause.empty()) {
      kept.push_back(f);
      continue;
    }
    Finding& worst = kept[it->second];
    worst.count += f.count;
    add_parts(f, worst.parts);
  }
  for (Finding& f : kept) {
    if (f.count > 1) f.message += fmt::format("; {} such in all, this is the worst", grouped(f.count));
  }
  return kept;
}

}  // namespace fitup::checks
