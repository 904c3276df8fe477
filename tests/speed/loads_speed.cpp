// How long all loads of a spec take, the ways that lighten tries, and a frame of two thousand members.
//   loads_speed [SPEC] [--benchmark_... options]
// Entry: main().
#include <benchmark/benchmark.h>

#include <iostream>
#include <memory>

#include "fitup/lighten.h"
#include "fitup/loads.h"
#include "loads/frame_solver.h"
#include "loads/section_properties.h"
#include "speed/job.h"

namespace {

using namespace fitup;

std::unique_ptr<speed::Job> job;

void all_loads(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(check_loads(*job->plan));
}

void lighten_spec(benchmark::State& state) {
  std::size_t tried = 0;
  for (auto _ : state) {
    const Lightened found = lighten({job->name, job->text, {}, speed::text_of}, job->spec);
    tried = found.tried.size();
  }
  state.counters["ways"] = static_cast<double>(tried);
}

/// A lattice of cubes whose edges are angles, held at its lowest nodes.
loads::Frame lattice(std::size_t cubes) {
  constexpr double side_mm = 400;
  const loads::BeamSection section = loads::properties_of(*tables::find_section("L 40x40x4")).beam();
  loads::Frame frame;
  const std::size_t n = cubes + 1;
  const auto node = [n](std::size_t x, std::size_t y, std::size_t z) { return (z * n + y) * n + x; };
  for (std::size_t i = 0; i < n * n * n; ++i) {
    const Vec3 at{static_cast<double>(i % n), static_cast<double>(i / n % n), static_cast<double>(i / n / n)};
    frame.nodes.push_back(side_mm * at);
    if (i < n * n) frame.supports.push_back({i, loads::pinned});
  }
  for (std::size_t z = 0; z < n; ++z) {
    for (std::size_t y = 0; y < n; ++y) {
      for (std::size_t x = 0; x < n; ++x) {
        if (x + 1 < n) frame.members.push_back({node(x, y, z), node(x + 1, y, z), axis::y, section});
        if (y + 1 < n) frame.members.push_back({node(x, y, z), node(x, y + 1, z), axis::x, section});
        if (z + 1 < n) frame.members.push_back({node(x, y, z), node(x, y, z + 1), axis::x, section});
      }
    }
  }
  return frame;
}

void two_thousand_members(benchmark::State& state) {
  const loads::Frame frame = lattice(8);
  loads::LoadCase load;
  for (std::size_t i = 0; i < frame.members.size(); ++i) load.lines.push_back({i, {0, 0.01, -0.02}});
  for (auto _ : state) {
    const auto solver = loads::FrameSolver::factor(frame);
    benchmark::DoNotOptimize(solver->solve(load));
  }
  state.counters["members"] = static_cast<double>(frame.members.size());
}

BENCHMARK(all_loads)->Unit(benchmark::kMillisecond);
BENCHMARK(lighten_spec)->Unit(benchmark::kMillisecond)->Iterations(1);
BENCHMARK(two_thousand_members)->Unit(benchmark::kMillisecond);

}  // namespace

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  job = speed::make_job(argc > 1 ? argv[1] : FITUP_EXAMPLES "/park-locomotive/front-box.toml");
  if (job == nullptr) {
    std::cerr << "the spec leads to no model\n";
    return 1;
  }
  benchmark::RunSpecifiedBenchmarks();
  return 0;
}
