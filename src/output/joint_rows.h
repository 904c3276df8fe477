#pragma once
// The rows of one joint list in the making.

#include <string>
#include <vector>

#include "output/csv.h"
#include "output/joint_lists.h"

namespace fitup::output {

inline constexpr const char* joint_order = "order.csv";
inline constexpr const char* joint_cut_list = "cut-list.csv";
inline constexpr const char* joint_bought = "bought.csv";

/// "front-box A (spec 9bbf07811a93)": how a heading names a job.
[[nodiscard]] std::string job_heading(const JointJob& job);

class JointRows {
 public:
  /// `kept`: the columns of a job's own list that the joint list has, by the start of their heading.
  JointRows(const std::vector<JointJob>& jobs, UnitSystem units, std::vector<std::string> kept)
      : jobs_(jobs), units_(units), kept_(std::move(kept)) {}

  /// A job's own list, its heading first.
  void add(std::size_t job, const std::vector<CsvRow>& rows);

  /// Rows of one kind together, by these kept columns; else they stay in the order of the jobs' own lists.
  void group_by(const std::vector<std::string>& columns);

  /// The heading, then a row for each part.
  [[nodiscard]] std::vector<CsvRow> table() const;

 private:
  struct Line {
    std::string key;
    CsvRow cells;                    // kept ones, of the first job that has the part
    const Part* part = nullptr;      // none of what is no part of the model
    std::vector<std::size_t> count;  // index: job
    std::vector<std::string> mark;
    std::vector<std::string> note;
  };
  [[nodiscard]] CsvRow cells_of(const Line& line, std::size_t all) const;
  [[nodiscard]] std::string notes_of(const Line& line) const;
  Line& line_of(std::size_t job, const CsvRow& heading, const CsvRow& row);
  [[nodiscard]] CsvRow kept_cells(std::size_t job, const CsvRow& heading, const CsvRow& row) const;

  const std::vector<JointJob>& jobs_;
  UnitSystem units_;
  std::vector<std::string> kept_;
  CsvRow heading_;
  std::vector<Line> lines_;
};

}  // namespace fitup::output
