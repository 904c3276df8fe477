// Writes to standard output and standard error.
// Entry: print_result, Progress::say.
#include "app/terminal.h"

#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <string>

namespace fitup::app {

namespace {

bool is_terminal(Stream stream) { return isatty(stream == Stream::output ? STDOUT_FILENO : STDERR_FILENO) == 1; }

std::string_view environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? std::string_view{} : std::string_view{value};
}

}  // namespace

bool wants_colour(Stream stream, const Common& common) {
  return !common.no_colour && is_terminal(stream) && environment("NO_COLOR").empty() && environment("TERM") != "dumb";
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
  if (shown_) std::fputs("\r\033[K", stderr);
}

void Progress::say(std::string_view what) {
  if (!enabled_) return;
  shown_ = true;
  const std::string line = "\r\033[K" + std::string(what) + " ...";
  std::fputs(line.c_str(), stderr);
  std::fflush(stderr);
}

}  // namespace fitup::app
