#pragma once
// A small assembly, made by hand, whose numbers can be worked out on paper.

#include <filesystem>
#include <map>
#include <string>

#include "fitup/findings.h"
#include "fitup/job.h"
#include "fitup/model.h"
#include "fitup/plan.h"

namespace fitup::sample {

/// Plate: 100 x 60 x 2, corners of radius 5, lower left at (-10, 5); one hole of diameter 12, one window 20 x 10;
/// two places to drill 3.3 for M4. Two of it.
inline constexpr double plate_area_mm2 =
    100 * 60 - (4 - 3.14159265358979323846) * 25 - 3.14159265358979323846 * 36 - 200;
inline constexpr double plate_cut_mm =
    2 * (90 + 50) + 2 * 3.14159265358979323846 * 5 + 12 * 3.14159265358979323846 + 60;
[[nodiscard]] Part plate();

/// Plate twice, a rail three times, a length of angle, an item, a printed spacer that stands nowhere.
[[nodiscard]] Plan plan();
[[nodiscard]] JobInfo info();
[[nodiscard]] Findings passing();
[[nodiscard]] Findings failing();

/// The model of `plan()`, built once.
[[nodiscard]] const Model& model();
/// Every file of `plan()`, with `passing()`.
[[nodiscard]] const std::vector<JobFile>& files();

/// A new empty folder below the system's temporary one, removed at the end.
class Folder {
 public:
  Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder();
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

void write(const std::filesystem::path& path, const std::string& bytes);
[[nodiscard]] std::string read(const std::filesystem::path& path);
/// Every file below a folder with its bytes, by relative path.
[[nodiscard]] std::map<std::string, std::string> contents(const std::filesystem::path& folder);

struct Ran {
  int status = -1;
  std::string output;
};
/// Runs a command line of the shell; standard output and error together.
[[nodiscard]] Ran run(const std::string& command);

}  // namespace fitup::sample
