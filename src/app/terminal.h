#pragma once
// The program's three streams: colour, progress, and writing that notices a full disk.

#include <cstddef>
#include <string_view>

#include "app/request.h"

namespace fitup::app {

enum class Stream { output, error };

/// A terminal, and neither --no-color nor NO_COLOR (non-empty) nor TERM=dumb.
[[nodiscard]] bool wants_colour(Stream stream, const Common& common);

/// Characters in a line of standard output: of a terminal as many as it has, from 60 to 110; else 110.
[[nodiscard]] std::size_t output_width();

/// Standard output; false if it took less than all of it.
[[nodiscard]] bool print_result(std::string_view text);

/// Standard error; there is nowhere left to report a failure to.
void print_message(std::string_view text);

/// One line on standard error that says what is being done, replaced and at last removed; nothing unless
/// standard error is a terminal.
class Progress {
 public:
  explicit Progress(const Common& common);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  void say(std::string_view what);
  /// Called about a hundred times a second while something goes on: counts the seconds behind what was said last.
  static void tick(int look);
  /// Takes the line away.
  static void clear();

 private:
  bool enabled_ = false;
};

}  // namespace fitup::app
