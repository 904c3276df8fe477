#pragma once
// One mark for one shape over all jobs that are made together.

#include <map>
#include <set>
#include <string>

#include "app/pipeline.h"

namespace fitup::app {

/// What earlier jobs call their parts, by shape.
class CommonMarks {
 public:
  /// Gives each made part the mark that its shape has in earlier jobs, and a mark of its own where an earlier job has
  /// that for another shape; findings that name it follow. Then this job's marks are known to later ones.
  void apply(PipelineResult& result);

 private:
  [[nodiscard]] std::string free_mark(const std::string& wanted, const std::set<std::string>& own) const;

  std::map<std::string, std::string> mark_of_;   // by shape_key
  std::map<std::string, std::string> shape_of_;  // by mark
};

}  // namespace fitup::app
