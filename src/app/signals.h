#pragma once
// Ctrl-C and a polite kill become a request to stop between two steps; a file size limit becomes an error.

namespace fitup::app {

/// The first SIGINT or SIGTERM asks the work to stop; a second one ends the program at once.
void install_signal_handlers();

}  // namespace fitup::app
