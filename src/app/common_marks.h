#pragma once
// One mark for one shape over all jobs that are made together.

#include <map>
#include <set>
#include <string>
#include <vector>

#include "app/pipeline.h"

namespace fitup::app {

/// What earlier jobs call their parts, by shape.
class CommonMarks {
 public:
  /// Gives each made part the mark that its shape has in earlier jobs, and a mark of its own where an earlier job has
  /// that for another shape; findings that name it follow. Then this job's marks are known to later ones.
  void apply(PipelineResult& result);

 private:
  [[nodiscard]] std::vector<std::string> marks_for(const Plan& plan) const;
  [[nodiscard]] std::string mark_for(const std::string& own, const std::string& shape,
                                     const std::set<std::string>& of_the_job, const std::set<std::string>& taken) const;
  [[nodiscard]] std::string free_mark(const std::string& wanted, const std::set<std::string>& taken) const;

  std::map<std::string, std::string> shape_of_;  // shape_key by mark; two of a job that are marked otherwise share one
};

}  // namespace fitup::app
