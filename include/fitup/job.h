#pragma once
// The job folder: everything one `make` writes, first in memory, then read back, then exchanged whole.

#include <filesystem>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "fitup/findings.h"
#include "fitup/formats.h"
#include "fitup/model.h"
#include "fitup/paper.h"
#include "fitup/plan.h"
#include "fitup/quantity.h"
#include "fitup/result.h"

namespace fitup {

/// How the flat files are written.
struct FlatFiles {
  UnitSystem units = UnitSystem::mm_kg;
  DxfRelease release = DxfRelease::r2000;
  std::string file_name = "{mark}_{name}";  // without folder and ending; words in braces stand for the part's own
  CutClass tolerance = CutClass::one;       // in which sizes are ordered
  double kerf_mm = 0;                       // contours are drawn half of it to the side of what is cut away
};

/// What every page, file and list carries.
struct JobInfo {
  std::string name;
  std::string title;
  std::string revision;
  std::string spec_hash;                 // SHA-256 of the canonical Spec, hex
  std::string version;                   // of the program
  std::string timestamp;                 // ISO 8601 UTC, from SOURCE_DATE_EPOCH, else fixed
  UnitSystem units = UnitSystem::mm_kg;  // of paper and lists; STEP, STL, 3MF and JSON stay in mm and kg
  StepSchema step = StepSchema::ap242;
  FlatFiles flat{};
  std::string finish{};  // of the made steel, in words; empty: none
  BenchOptions bench{};
  std::string warning{};  // stands on every page and picture: that a check fails; empty: none
};

/// SHA-256 (FIPS 180-4) as 64 lower-case hexadecimal digits.
[[nodiscard]] std::string sha256_hex(std::string_view bytes);

/// `--only`; job.json is always written. `lists`: what is sawn and what is bought. `checks` holds the findings and the
/// picture assembly.svg.
/// `paper`: what is printed for the bench.
enum class FileGroup { step, dxf, stl, threemf, lists, checks, paper };

struct JobFile {
  std::string path;  // relative, forward slashes: "flat/S235JR_2mm/PLT03_left-face-plate.dxf"
  std::string bytes;
  FileGroup group = FileGroup::checks;
};

/// A file for the bench with what must be found in it when it is read back.
struct BenchFile {
  JobFile file;
  std::vector<Vec2> pages_mm{};                  // of a PDF: the size of each page
  std::vector<std::vector<std::string>> rows{};  // of a list
};

struct JobOptions {
  std::set<FileGroup> only;  // empty: all
  bool anyway = false;       // write what would be cut, printed or drilled though a check fails
  int cores = 1;
};

/// Findings as a JSON array, two spaces a level. Each: check, verdict, message, value, limit, unit, source, parts,
/// place ([x, y, z]), key, remedy ({key, value, marginal}); what is absent is null. Always in mm and kg. No line or
/// column of the spec.
[[nodiscard]] std::string findings_json(const Findings& findings);
/// What measurements decide, likewise: key, off, within, within_given, check, message, parts.
[[nodiscard]] std::string what_if_json(const Findings& findings);

/// The verdict of the whole and the counts in one line, then every finding, worst first, for people; no colour.
[[nodiscard]] std::string findings_text(const Findings& findings, UnitSystem units = UnitSystem::mm_kg);

/// Every file of the job, sorted by path, those of `bench` (fitup/bench.h) among them. If a check failed and not
/// `anyway`: assembly and checks only.
[[nodiscard]] Result<std::vector<JobFile>> make_job_files(const Plan& plan, const Model& model,
                                                          const Findings& findings, const JobInfo& info,
                                                          const JobOptions& options,
                                                          const std::vector<BenchFile>& bench = {});

/// Reads every file back from its bytes and compares it with what it was made from. Every file that belongs to the job
/// is there, and no other. Flat files: contours, marks and notes. STEP: products, names, tree, placements, stated
/// volumes; each solid's corners and circles span the part's bounds, and of a flat part each corner, hole and face is
/// the profile's. STL: closed, its volume and header. Lists, findings and job.json: each field, name, revision and
/// spec hash included. Of the picture: its caption. Of paper: that it is whole, each page's size, name and spec hash.
[[nodiscard]] Status read_back(const std::vector<JobFile>& files, const Plan& plan, const Model& model,
                               const Findings& findings, const JobInfo& info, const JobOptions& options,
                               const std::vector<BenchFile>& bench = {});

/// Whether a folder may be replaced, before any work is done: the refusals of exchange_job_folder that need no lock.
[[nodiscard]] Status may_replace_folder(const std::filesystem::path& target);

/// What the job.json of a folder says about the job in it.
struct FolderJob {
  std::string name;
  std::string revision;
  std::string spec_hash;
  std::set<std::string> paths;
};
/// Nothing where there is no job folder of this program.
[[nodiscard]] std::optional<FolderJob> job_in_folder(const std::filesystem::path& target);

/// Whether someone would cut, print or drill from it: flat files, printed aids, parts and their lists.
[[nodiscard]] bool is_made_from(std::string_view path);

/// Writes the files into a folder beside `target`, syncs, and exchanges the two. Whatever fails, the old
/// folder stays whole. Refuses a non-empty folder without our job.json, one that
/// holds a job of another name, and one that another run has locked.
/// Recovers what an interrupted exchange left behind.
[[nodiscard]] Status exchange_job_folder(const std::filesystem::path& target, const std::vector<JobFile>& files);

/// Set by the signal handler; long work looks at it and stops with Failure::Kind::interrupted.
[[nodiscard]] bool interrupt_requested();
void request_interrupt();

}  // namespace fitup
