// Writes the sample's STEP file to standard output: another process for the tests that compare bytes.
// Entry: main.
#include <cstdio>
#include <cstdlib>
#include <locale>

#include "sample_plan.h"

int main(int count, char** arguments) {
  std::setlocale(LC_ALL, "");
  const int cores = count > 1 ? std::atoi(arguments[1]) : 1;
  const fitup::Plan plan = fitup::sample::plan();
  const auto model = fitup::build_model(plan, cores);
  if (!model) return 1;
  const auto text = fitup::write_assembly_step(plan, *model, fitup::sample::job());
  if (!text) return 1;
  return std::fwrite(text->data(), 1, text->size(), stdout) == text->size() ? 0 : 1;
}
