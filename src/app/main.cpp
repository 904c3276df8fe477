// The program's entry: nothing that goes wrong inside may reach the user as a stack trace.
// Entry: main.
#include <cstdlib>
#include <exception>
#include <string>
#include <vector>

#include "app/run.h"

namespace {

std::vector<std::string> all_arguments;

/// Also reached from a thread that threw; the process cannot go on, but it can say so.
[[noreturn]] void last_words() {
  std::_Exit(fitup::app::internal_error(all_arguments, "the work stopped unexpectedly"));
}

}  // namespace

int main(int count, char** values) {
  std::set_terminate(last_words);
  try {
    all_arguments.assign(values + 1, values + count);
    return fitup::app::run(all_arguments);
  } catch (const std::exception& exception) {
    return fitup::app::internal_error(all_arguments, exception.what());
  } catch (...) {
    return fitup::app::internal_error(all_arguments, "unknown exception");
  }
}
