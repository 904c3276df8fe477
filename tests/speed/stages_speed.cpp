// How long each stage takes for one spec, and the rules for pairs against the solid kernel on the same pairs.
//   stages_speed [SPEC] [--benchmark_... options]
// Entry: main().
#include <benchmark/benchmark.h>

#include <chrono>
#include <iostream>
#include <map>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "checks/contacts.h"
#include "fitup/findings.h"
#include "fitup/job.h"
#include "fitup/layout.h"
#include "fitup/model.h"
#include "fitup/plan.h"
#include "fitup/spec.h"
#include "geometry/near_boxes.h"
#include "speed/job.h"

namespace {

using namespace fitup;
using speed::Job;
using speed::text_of;

std::unique_ptr<Job> job;

void text_to_spec(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(read_spec(job->name, job->text, {}, text_of));
  }
}

void spec_to_layout(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(lay_out(job->spec));
  }
}

void layout_to_plan(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(make_plan(*job->layout));
  }
}

void plan_to_model(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(build_model(*job->plan, static_cast<int>(state.range(0))));
  }
}

void all_checks(benchmark::State& state) {
  for (auto _ : state) {
    benchmark::DoNotOptimize(run_checks(*job->plan, *job->model, static_cast<int>(state.range(0))));
  }
}

void files_in_memory(benchmark::State& state) {
  const Findings findings;
  const JobInfo info{"speed", "speed", "1", std::string(64, '0'), "0", "1970-01-01T00:00:00Z"};
  const JobOptions options{{FileGroup::step, FileGroup::dxf, FileGroup::stl}, true, 1};
  for (auto _ : state) {
    const auto files = make_job_files(*job->plan, *job->model, findings, info, options);
    if (!files || !read_back(*files, *job->plan, *job->model, findings, info, options)) {
      state.SkipWithError("the files could not be made or did not read back");
      break;
    }
  }
}

// --- overlap: the rules against the kernel's common volume ------------------------------------------------------

using Pairs = std::vector<std::pair<std::size_t, std::size_t>>;

/// Pairs of instances whose boxes share more than this on all three axes; nearer to touching than that, the boxes
/// alone decide for both.
constexpr double boxes_share_mm = 0.01;

Solid solid_of(std::size_t instance) { return job->model->parts[job->plan->instances[instance].part].solid; }

checks::Judge kernel_judge() {
  const auto& instances = job->plan->instances;
  checks::Judge judge;
  judge.common_volume_mm3 = [&](checks::Thing a, checks::Thing b, Vec3 shift) {
    return solid::common_volume_mm3(solid_of(a), instances[a].pose.moved(shift), solid_of(b), instances[b].pose);
  };
  judge.distance_mm = [&](checks::Thing a, checks::Thing b, Vec3 shift) {
    return solid::distance_mm(solid_of(a), instances[a].pose.moved(shift), solid_of(b), instances[b].pose);
  };
  return judge;
}

Pairs overlapping_boxes(const checks::Scene& scene) {
  std::vector<Box3> boxes;
  for (std::size_t i = 0; i < job->plan->instances.size(); ++i) {
    boxes.push_back(scene.body(i).outer.box);
  }
  return geometry::near_pairs(boxes, -boxes_share_mm);
}

/// Volume that a screw in its thread shares with what it is screwed into, by the plan's own statement.
std::map<std::pair<std::size_t, std::size_t>, double> thread_pairs() {
  std::map<std::pair<std::size_t, std::size_t>, double> pairs;
  for (const Joint& joint : job->plan->joints) {
    if (joint.kind == JointKind::thread) {
      pairs[std::minmax(joint.a, joint.b)] = joint.major_mm;
    }
  }
  return pairs;
}

std::vector<bool> verdicts_by_rules(const Pairs& pairs, std::size_t& unsure) {
  const checks::Scene scene(*job->plan, kernel_judge());
  std::vector<bool> overlap;
  overlap.reserve(pairs.size());
  unsure = 0;
  for (const auto& [a, b] : pairs) {
    const checks::Answer answer = scene.decide(a, b);
    unsure += answer.by_kernel ? 1 : 0;
    overlap.push_back(answer.decision == checks::Decision::overlap);
  }
  return overlap;
}

std::vector<double> volumes_by_kernel(const Pairs& pairs) {
  const checks::Judge judge = kernel_judge();
  std::vector<double> volumes;
  volumes.reserve(pairs.size());
  for (const auto& [a, b] : pairs) {
    const auto volume = judge.common_volume_mm3(a, b, {});
    volumes.push_back(volume ? *volume : -1.0);
  }
  return volumes;
}

// The rules' verdict includes what stands in a thread; the kernel's volume there is the annulus, which is no
// overlap: such pairs are timed but not compared.
std::size_t disagreements(const Pairs& pairs, const std::vector<bool>& rules, const std::vector<double>& volumes) {
  constexpr double nothing_mm3 = 1e-3;  // a contact band of 1e-4 mm over 10 mm2
  const auto threads = thread_pairs();
  std::size_t count = 0;
  for (std::size_t i = 0; i < pairs.size(); ++i) {
    if (!threads.contains(pairs[i]) && rules[i] != (volumes[i] > nothing_mm3)) {
      ++count;
      std::cerr << "differs: " << job->plan->instances[pairs[i].first].name << " and "
                << job->plan->instances[pairs[i].second].name << ", kernel " << volumes[i] << " mm3\n";
    }
  }
  return count;
}

void overlap_by_rules(benchmark::State& state) {
  const Pairs pairs = overlapping_boxes(checks::Scene(*job->plan, {}));
  std::size_t unsure = 0;
  for (auto _ : state) {
    benchmark::DoNotOptimize(verdicts_by_rules(pairs, unsure));
  }
  state.counters["pairs"] = static_cast<double>(pairs.size());
  state.counters["by_kernel"] = static_cast<double>(unsure);
}

template <class Work>
double seconds_of(const Work& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

void overlap_by_kernel(benchmark::State& state) {
  const Pairs pairs = overlapping_boxes(checks::Scene(*job->plan, {}));
  std::vector<double> volumes;
  for (auto _ : state) {
    volumes = volumes_by_kernel(pairs);
  }
  std::size_t unsure = 0;
  state.counters["pairs"] = static_cast<double>(pairs.size());
  const double by_kernel_s = seconds_of([&] { benchmark::DoNotOptimize(volumes_by_kernel(pairs)); });
  const double by_rules_s = seconds_of([&] { benchmark::DoNotOptimize(verdicts_by_rules(pairs, unsure)); });
  state.counters["times_rules"] = by_kernel_s / by_rules_s;
  state.counters["differ"] = static_cast<double>(disagreements(pairs, verdicts_by_rules(pairs, unsure), volumes));
}

BENCHMARK(text_to_spec)->Unit(benchmark::kMillisecond);
BENCHMARK(spec_to_layout)->Unit(benchmark::kMillisecond);
BENCHMARK(layout_to_plan)->Unit(benchmark::kMillisecond);
BENCHMARK(plan_to_model)->Unit(benchmark::kMillisecond)->Arg(1)->Arg(2)->UseRealTime();
BENCHMARK(all_checks)->Unit(benchmark::kMillisecond)->Arg(1)->Arg(2)->UseRealTime();
BENCHMARK(files_in_memory)->Unit(benchmark::kMillisecond);
BENCHMARK(overlap_by_rules)->Unit(benchmark::kMillisecond);
BENCHMARK(overlap_by_kernel)->Unit(benchmark::kMillisecond)->Iterations(1);

}  // namespace

int main(int count, char** values) {
  benchmark::Initialize(&count, values);
  job = speed::make_job(count > 1 ? values[1] : FITUP_EXAMPLES "/park-locomotive/front-box.toml");
  if (!job) {
    std::cerr << "the spec leads to no model; see `fitup check`\n";
    return 1;
  }
  benchmark::RunSpecifiedBenchmarks();
  return 0;
}
