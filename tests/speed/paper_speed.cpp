// Processor time of bench paper: all of it, the lists and templates, the drawings, the assembly sheet, and a
// hidden-line view of three hundred instances.
//   paper_speed [SPEC]     exit status 1 where an aim is missed
#include <fmt/format.h>

#include <ctime>
#include <functional>

#include "bench/as_built_sheet.h"
#include "bench/assembly_sheet.h"
#include "bench/bars.h"
#include "bench/cut_list.h"
#include "bench/drawings.h"
#include "bench/pdf.h"
#include "bench/templates.h"
#include "fitup/bench.h"
#include "speed/job.h"

namespace {

using namespace fitup;

double seconds_of(const std::function<void()>& work) {
  const std::clock_t start = std::clock();
  work();
  return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

bool tell(const char* what, double seconds, double aim) {
  fmt::print("{:<44} {:6.2f} s{}\n", what, seconds, aim > 0 ? fmt::format("   aim {:g} s", aim) : "");
  return aim <= 0 || seconds <= aim;
}

/// The plan's instances, again and again beside each other until there are so many.
Plan with_instances(const Plan& plan, std::size_t count) {
  Plan many = plan;
  many.instances.clear();
  for (std::size_t i = 0; i < count; ++i) {
    Instance one = plan.instances[i % plan.instances.size()];
    const auto times = static_cast<double>(i / plan.instances.size());
    one.pose = one.pose.moved({1.2 * times * plan.frame_size.x, 0, 0});
    many.instances.push_back(one);
  }
  return many;
}

}  // namespace

int main(int count, char** values) {
  const auto job = speed::make_job(count > 1 ? values[1] : FITUP_EXAMPLES "/park-locomotive/front-box.toml");
  if (!job) return 2;
  const Plan& plan = *job->plan;
  const Model& model = *job->model;
  JobInfo info;
  info.name = plan.name;
  info.revision = plan.revision;
  info.spec_hash = std::string(64, 'a');
  info.timestamp = "2020-01-01T00:00:00Z";
  info.units = job->spec.units;
  info.bench = job->spec.bench;
  const bench::Type type;
  const auto pdf = [&](const bench::Paper& paper) { (void)bench::write_pdf(paper, info, type); };
  bool good = tell("lists and templates", seconds_of([&] {
                     const auto bars = bench::bars_of(plan, model, info);
                     pdf(bench::cut_list_paper(plan, model, info, type));
                     pdf(bench::bars_paper(bars, info, type));
                     pdf(bench::templates_paper(plan, info, type));
                   }),
                   1);
  tell("assembly and weld sheet", seconds_of([&] {
         if (const auto paper = bench::assembly_paper(plan, model, info, type)) pdf(*paper);
       }),
       0);
  tell("drawings", seconds_of([&] {
         if (const auto paper = bench::drawings_paper(plan, model, info, type)) pdf(*paper);
       }),
       0);
  Findings none;
  good = tell("all bench paper", seconds_of([&] { (void)make_bench_files(plan, model, none, info, {}); }), 6) && good;
  for (const std::size_t instances : {std::size_t{60}, std::size_t{300}}) {
    const Plan many = with_instances(plan, instances);
    const double seconds = seconds_of([&] { (void)hidden_lines(many, model, {-1, -1.6, 1.1}, axis::z); });
    good = tell(fmt::format("a hidden-line view of {} instances", instances).c_str(), seconds, 2) && good;
  }
  return good ? 0 : 1;
}
