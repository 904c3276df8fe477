#pragma once
// What several jobs are ordered, sawn and bought from together: parts that two jobs share are counted together.

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "fitup/job.h"

namespace fitup::output {

/// The folder of these lists beside the jobs' own.
inline constexpr std::string_view joint_folder = "joint-order";

struct JointJob {
  std::string folder;  // beside the lists' own: "front-box"
  const Plan& plan;
  const Model& model;
  const JobInfo& info;
};

/// What job.json says of the lists: the jobs' names and revisions, and a hash over their specs.
[[nodiscard]] JobInfo joint_info(const std::vector<JointJob>& jobs);

/// order.csv, cut-list.csv, bought.csv and job.json, sorted by path. Two parts are one by shape_key. Each row has the
/// quantity over all, and for each job how many of it and their mark; with `more` files, made elsewhere. `withheld`:
/// job.json alone.
[[nodiscard]] std::vector<JobFile> joint_files(const std::vector<JointJob>& jobs, UnitSystem units,
                                               const std::set<FileGroup>& only, bool withheld,
                                               std::vector<JobFile> more = {});

/// Each list against the jobs' plans: every part of every job is in exactly one row, with as many as the plan has, and
/// the rows' sums are what they say. Failure: kernel, naming the file.
[[nodiscard]] Status joint_read_back(const std::vector<JobFile>& files, const std::vector<JointJob>& jobs);

}  // namespace fitup::output
