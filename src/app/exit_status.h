#pragma once
// What the program's exit status says.

namespace fitup::app {

enum class ExitStatus {
  fine = 0,          // no check fails; marginal and not checked are counted and printed
  check_failed = 1,  // at least one check fails
  differs = 1,       // of compare: the two are not the same
  wrong_input = 2,   // the spec or the command line
  file_trouble = 3,  // a file could not be read or written, a folder is refused or locked
  internal = 4,      // the kernel failed, or what was read back differs
  interrupted = 130  // 128 + SIGINT, as shells report it
};

}  // namespace fitup::app
