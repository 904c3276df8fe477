#pragma once
// Runs the built program, and other programs, as a user would: arguments, environment, folder, limits.

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace fitup::test {

struct RunOptions {
  std::filesystem::path folder;                     // empty: the current one
  std::map<std::string, std::string> environment;   // added to the current one
  std::optional<unsigned long> largest_file_bytes;  // as `ulimit -f` sets it
  std::string standard_output;                      // a path to send it to, for example /dev/full
};

struct RunResult {
  int status = -1;               // exit status; 128 + signal if one ended it
  std::string output;            // standard output
  std::string errors;            // standard error
  double processor_seconds = 0;  // user and system; not the wall clock, which other programs slow down
};

/// Runs `command` (program first, searched in PATH) to its end.
[[nodiscard]] RunResult run(const std::vector<std::string>& command, const RunOptions& options = {});

/// Runs the fitup of this build.
[[nodiscard]] RunResult fitup(const std::vector<std::string>& arguments, const RunOptions& options = {});

/// Runs the fitup of this build on a terminal of its own and, if `control_c_at` is not empty, types Ctrl-C there as
/// soon as that text has been printed. Both streams are in `output`.
[[nodiscard]] RunResult fitup_on_terminal(const std::vector<std::string>& arguments,
                                          const std::map<std::string, std::string>& environment = {},
                                          const std::string& control_c_at = {});

/// A fresh folder, removed with everything in it.
class ScratchFolder {
 public:
  ScratchFolder();
  ~ScratchFolder();
  ScratchFolder(const ScratchFolder&) = delete;
  ScratchFolder& operator=(const ScratchFolder&) = delete;
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

[[nodiscard]] std::string read_file(const std::filesystem::path& path);
void write_file(const std::filesystem::path& path, const std::string& text);

/// Every file below `folder`: relative path to bytes.
[[nodiscard]] std::map<std::string, std::string> files_in(const std::filesystem::path& folder);
/// What a file says in words: of a 3MF, which is compressed, its description.
[[nodiscard]] std::string words_in(const std::string& name, const std::string& bytes);

/// The demo's spec.
[[nodiscard]] std::filesystem::path demo_spec();

/// The demo's job folder, made once for this process by `fitup make --json`, and what that said. Read only.
struct DemoJob {
  std::filesystem::path folder;
  RunResult run;
};
[[nodiscard]] const DemoJob& demo_job();

/// A name as a test may have it: letters, digits and _.
[[nodiscard]] std::string plain_word(std::string text);

/// Every spec below examples/, sorted; and its job folder, made likewise. `more`: further options, for a folder of its
/// own.
[[nodiscard]] std::vector<std::filesystem::path> example_specs();
[[nodiscard]] const DemoJob& example_job(const std::filesystem::path& spec, const std::vector<std::string>& more = {});

}  // namespace fitup::test
