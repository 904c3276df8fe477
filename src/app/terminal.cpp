// Writes to standard output and standard error.
// Entry: print_result, Progress::say.
#include "app/terminal.h"

#include <sys/ioctl.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <mutex>
#include <string>

namespace fitup::app {

namespace {

bool is_terminal(Stream stream) { return isatty(stream == Stream::output ? STDOUT_FILENO : STDERR_FILENO) == 1; }

std::string_view environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? std::string_view{} : std::string_view{value};
}

/// The one line; said by the work, counted by who waits for it.
struct Shown {
  std::mutex guard;
  std::string words;  // empty: no line stands there
  int look = 0;
  int since = 0;
};
Shown shown;

void write_line(const std::string& words) {
  const std::string line = "\r\033[K" + words;
  std::fputs(line.c_str(), stderr);
  std::fflush(stderr);
}

}  // namespace

bool wants_colour(Stream stream, const Common& common) {
  return !common.no_colour && is_terminal(stream) && environment("NO_COLOR").empty() && environment("TERM") != "dumb";
}

std::size_t output_width() {
  constexpr std::size_t least = 60;
  constexpr std::size_t most = 110;
  winsize size = {};
  if (!is_terminal(Stream::output) || ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return most;
  return std::clamp<std::size_t>(size.ws_col, least, most);
}

bool print_result(std::string_view text) {
  const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
  return std::fflush(stdout) == 0 && written;
}

void print_message(std::string_view text) {
  std::fwrite(text.data(), 1, text.size(), stderr);
  std::fflush(stderr);
}

Progress::Progress(const Common& common)
    : enabled_(!common.quiet && !common.json && is_terminal(Stream::error) && environment("TERM") != "dumb") {}

Progress::~Progress() {
  if (enabled_) clear();
}

void Progress::say(std::string_view what) {
  if (!enabled_) return;
  const std::lock_guard lock(shown.guard);
  shown.words = std::string(what) + " ...";
  shown.since = shown.look;
  write_line(shown.words);
}

void Progress::tick(int look) {
  constexpr int looks_in_a_second = 100;
  const std::lock_guard lock(shown.guard);
  shown.look = look;
  const int seconds = (look - shown.since) / looks_in_a_second;
  if (shown.words.empty() || seconds == 0 || (look - shown.since) % looks_in_a_second != 0) return;
  write_line(shown.words + " " + std::to_string(seconds) + " s");
}

void Progress::clear() {
  const std::lock_guard lock(shown.guard);
  if (shown.words.empty()) return;
  shown.words.clear();
  write_line("");
}

}  // namespace fitup::app
