#pragma once
// Bench paper: what a person holds while working. PDF to print at true size, and the same as CSV where a program may
// want it.

#include <functional>
#include <string_view>
#include <vector>

#include "fitup/findings.h"
#include "fitup/job.h"
#include "fitup/model.h"
#include "fitup/plan.h"

namespace fitup {

/// Told what is worked on, to say to who waits.
using Say = std::function<void(std::string_view)>;

/// The files of the groups that are asked for; checks/calculations.pdf alone if a check failed and not `anyway`. Same
/// input, same bytes, on a machine with the same fonts.
[[nodiscard]] Result<std::vector<BenchFile>> make_bench_files(const Plan& plan, const Model& model,
                                                              const Findings& findings, const JobInfo& info,
                                                              const JobOptions& options, const Say& say = {});

/// What is sawn for one of several jobs that are made together.
struct SawnJob {
  const Plan& plan;
  const Model& model;
  const JobInfo& info;
};

/// bars.csv and bars.pdf of all jobs' pieces on common bars, titled by `joint`. None where the jobs' specs say
/// different bars, saws or allowances.
[[nodiscard]] Result<std::vector<BenchFile>> make_joint_bars(const std::vector<SawnJob>& jobs, const JobInfo& joint,
                                                             const JobOptions& options);

/// That bars.csv, as it is written, has each piece of each job as often as it is sawn. Failure: kernel.
[[nodiscard]] Status joint_bars_read_back(const std::vector<BenchFile>& files, const std::vector<SawnJob>& jobs);

}  // namespace fitup
