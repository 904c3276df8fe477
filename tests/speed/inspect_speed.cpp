// How long a DXF of 100,000 entities takes, from bytes to findings.
// Entry: main().
#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include "fitup/inspect.h"

namespace {

/// Plates of four lines and a round hole in rows: five entities each.
std::string plates(int rows, int columns) {
  std::string text =
      "0\nSECTION\n2\nHEADER\n9\n$ACADVER\n1\nAC1015\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n";
  const auto line = [&](double x, double y, double u, double v) {
    text += fmt::format("0\nLINE\n8\nCUT\n10\n{}\n20\n{}\n11\n{}\n21\n{}\n", x, y, u, v);
  };
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const double x = 25.0 * column;
      const double y = 15.0 * row;
      line(x, y, x + 20, y);
      line(x + 20, y, x + 20, y + 10);
      line(x + 20, y + 10, x, y + 10);
      line(x, y + 10, x, y);
      text += fmt::format("0\nCIRCLE\n8\nCUT\n10\n{}\n20\n{}\n40\n{}\n", x + 10, y + 5, 2 + 0.001 * (column % 50));
    }
  }
  return text + "0\nENDSEC\n0\nEOF\n";
}

void hundred_thousand_entities(benchmark::State& state) {
  const std::string bytes = plates(200, 100);
  fitup::InspectOptions options;
  options.thickness_mm = 3;
  for (auto _ : state) benchmark::DoNotOptimize(fitup::inspect_file(bytes, options));
}
BENCHMARK(hundred_thousand_entities)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
