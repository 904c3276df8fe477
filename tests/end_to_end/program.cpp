// Runs programs for the tests.
// Entry: run, fitup, fitup_on_terminal.
#include "end_to_end/program.h"
#include "output/threemf.h"

#include <fcntl.h>
#include <pty.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <algorithm>

#include <array>
#include <cctype>
#include <cstdlib>
#include <fstream>
#include <sstream>

namespace fitup::test {

namespace {

/// The child's side, after fork: never returns.
[[noreturn]] void become(const std::vector<std::string>& command, const RunOptions& options) {
  for (const auto& [name, value] : options.environment) setenv(name.c_str(), value.c_str(), 1);
  if (options.largest_file_bytes) {
    const rlimit limit{*options.largest_file_bytes, *options.largest_file_bytes};
    setrlimit(RLIMIT_FSIZE, &limit);
  }
  if (!options.folder.empty() && chdir(options.folder.c_str()) != 0) _exit(126);
  std::vector<char*> arguments;
  for (const std::string& word : command) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  execvp(arguments.front(), arguments.data());
  _exit(127);
}

void send_to(const std::filesystem::path& path, int stream) {
  const int file = open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  if (file < 0 || dup2(file, stream) < 0) _exit(125);
  close(file);
}

double seconds_of(const timeval& time) {
  return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
}

void wait_for(pid_t child, RunResult& result) {
  int status = 0;
  rusage used{};
  wait4(child, &status, 0, &used);
  result.status = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  result.processor_seconds = seconds_of(used.ru_utime) + seconds_of(used.ru_stime);
}

std::vector<std::string> with_program(const std::vector<std::string>& arguments) {
  std::vector<std::string> command{FITUP_PROGRAM};
  command.insert(command.end(), arguments.begin(), arguments.end());
  return command;
}

}  // namespace

RunResult run(const std::vector<std::string>& command, const RunOptions& options) {
  const ScratchFolder scratch;
  const auto output =
      options.standard_output.empty() ? scratch.path() / "out" : std::filesystem::path(options.standard_output);
  const auto errors = scratch.path() / "err";
  const pid_t child = fork();
  if (child == 0) {
    send_to("/dev/null", STDIN_FILENO);
    send_to(output, STDOUT_FILENO);
    send_to(errors, STDERR_FILENO);
    become(command, options);
  }
  RunResult result;
  wait_for(child, result);
  if (options.standard_output.empty()) result.output = read_file(output);
  result.errors = read_file(errors);
  return result;
}

RunResult fitup(const std::vector<std::string>& arguments, const RunOptions& options) {
  return run(with_program(arguments), options);
}

RunResult fitup_on_terminal(const std::vector<std::string>& arguments,
                            const std::map<std::string, std::string>& environment, const std::string& control_c_at) {
  RunOptions options;
  options.environment = environment;
  options.environment.emplace("TERM", "xterm");
  options.environment.emplace("NO_COLOR", "");
  int terminal = -1;
  const pid_t child = forkpty(&terminal, nullptr, nullptr, nullptr);
  if (child == 0) become(with_program(arguments), options);
  RunResult result;
  bool typed = control_c_at.empty();
  std::array<char, 4096> buffer{};
  for (ssize_t count = 0; (count = read(terminal, buffer.data(), buffer.size())) > 0;) {
    result.output.append(buffer.data(), static_cast<std::size_t>(count));
    if (typed || result.output.find(control_c_at) == std::string::npos) continue;
    constexpr char control_c = 3;
    typed = write(terminal, &control_c, 1) == 1;
  }
  wait_for(child, result);
  close(terminal);
  return result;
}

ScratchFolder::ScratchFolder() {
  std::string pattern = (std::filesystem::temp_directory_path() / "fitup-test-XXXXXX").string();
  if (mkdtemp(pattern.data()) == nullptr) std::abort();
  path_ = pattern;
}

ScratchFolder::~ScratchFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

std::string read_file(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

void write_file(const std::filesystem::path& path, const std::string& text) {
  std::ofstream(path, std::ios::binary) << text;
}

std::map<std::string, std::string> files_in(const std::filesystem::path& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(folder)) {
    if (entry.is_regular_file())
      files[entry.path().lexically_relative(folder).generic_string()] = read_file(entry.path());
  }
  return files;
}

std::filesystem::path demo_spec() {
  return std::filesystem::path(FITUP_EXAMPLES) / "park-locomotive" / "front-box.toml";
}

const DemoJob& demo_job() { return example_job(demo_spec()); }

std::string plain_word(std::string text) {
  std::replace_if(
      text.begin(), text.end(), [](unsigned char c) { return std::isalnum(c) == 0; }, '_');
  return text;
}

std::vector<std::filesystem::path> example_specs() {
  std::vector<std::filesystem::path> specs;
  for (const auto& entry : std::filesystem::recursive_directory_iterator(FITUP_EXAMPLES)) {
    if (entry.path().extension() == ".toml") specs.push_back(entry.path());
  }
  std::sort(specs.begin(), specs.end());
  return specs;
}

const DemoJob& example_job(const std::filesystem::path& spec, const std::vector<std::string>& more) {
  static const ScratchFolder scratch;
  static std::map<std::vector<std::string>, DemoJob> made;
  std::vector<std::string> arguments{"make", spec.string()};
  arguments.insert(arguments.end(), more.begin(), more.end());
  if (const auto found = made.find(arguments); found != made.end()) return found->second;
  const auto folder = scratch.path() / ("job-" + std::to_string(made.size() + 1));
  DemoJob& job = made[arguments];
  arguments.insert(arguments.end(), {"-o", folder.string(), "--json"});
  job = {folder, fitup(arguments)};
  return job;
}

std::string words_in(const std::string& name, const std::string& bytes) {
  if (!name.ends_with(".3mf")) return bytes;
  return output::read_3mf(bytes).value_or(output::ThreemfFacts{}).description;
}

}  // namespace fitup::test
