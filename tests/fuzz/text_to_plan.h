#pragma once
// Any bytes as a spec, through every stage from text to Plan.

#include <string_view>

namespace fitup::test {

/// Ends the process with a word on standard error if a stage breaks its promise: a result exactly if there is no
/// error, every diagnostic fit for a terminal, the same text form for the same input.
/// A first line `--set key=value` is taken off and handed over as the argument.
void text_to_plan(std::string_view bytes);

}  // namespace fitup::test
