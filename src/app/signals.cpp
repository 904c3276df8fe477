// Turns SIGINT and SIGTERM into request_interrupt().
// Entry: install_signal_handlers.
#include "app/signals.h"

#include <csignal>

#include "fitup/job.h"

namespace fitup::app {

namespace {

void on_signal(int) { request_interrupt(); }

}  // namespace

void install_signal_handlers() {
  struct sigaction action = {};
  action.sa_handler = on_signal;
  // Reset: the second signal acts as if there were no handler. The job folder is exchanged whole, so nothing
  // half-written can be left in its place even then.
  action.sa_flags = static_cast<int>(SA_RESETHAND);
  sigemptyset(&action.sa_mask);
  sigaction(SIGINT, &action, nullptr);
  sigaction(SIGTERM, &action, nullptr);
  // A file that may not grow further is then an error of that write, which is reported, and not a death.
  std::signal(SIGXFSZ, SIG_IGN);
}

}  // namespace fitup::app
