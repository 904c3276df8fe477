// make: check a spec and write its job folder.
// Entry: make, make_one.
#include "app/make_one.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "app/job_info.h"
#include "app/made_with.h"
#include "app/replaced.h"
#include "app/show.h"
#include "app/spec_file.h"
#include "app/terminal.h"
#include "app/waiting.h"
#include "diag/words.h"
#include "fitup/bench.h"
#include "fitup/job.h"
#include "fitup/layout.h"
#include "fitup/remedies.h"
#include "output/finish_words.h"
#include "output/labels.h"

namespace fitup::app {

namespace {

std::string_view stage_word(Stage stage) {
  switch (stage) {
    case Stage::spec: return "spec";
    case Stage::layout: return "layout";
    case Stage::plan: return "plan";
    case Stage::model: return "model";
    case Stage::findings: return "findings";
  }
  return "";
}

bool reached(const PipelineResult& result, Stage stage) {
  switch (stage) {
    case Stage::spec: return result.spec != nullptr;
    case Stage::layout: return result.layout.has_value();
    case Stage::plan: return result.plan.has_value();
    case Stage::model: return result.model.has_value();
    case Stage::findings: return result.findings.has_value();
  }
  return false;
}

/// What is shown of a spec has in it what the plan makes of what is not stated; what the plan says is left to it.
void take_what_follows(const MakeRequest& request, const std::string& text, PipelineResult& result) {
  if (request.show != Stage::spec || !result.spec) return;
  const PlanResult planned = make_plan(lay_out(*result.spec));
  if (!planned.plan || planned.plan->followed.empty()) return;
  auto spec = spec_as_followed({request.spec_file, text, request.overrides, read_spec_file}, *planned.plan);
  if (spec) result.spec = std::make_unique<const Spec>(*std::move(spec));
}

Outcome show(PipelineResult& result, Stage stage) {
  const std::string text = reached(result, stage) ? stage_text(result, stage) : std::string{};
  Outcome outcome = outcome_of("make", result);
  outcome.text_only = true;
  outcome.text = text;
  outcome.extra_key = "show";
  outcome.extra_json = nlohmann::json{{"stage", stage_word(stage)}, {"text", text}}.dump(
      -1, ' ', false, nlohmann::json::error_handler_t::replace);
  return outcome;
}

struct WrittenJob {
  std::vector<JobFile> files;
  std::string replaced;  // in words
  std::unique_ptr<Undisturbed> written;
};

/// Makes, reads back and exchanges; the files that now stand in the folder.
Result<WrittenJob> write_job(const PipelineResult& result, const MakeRequest& request, const JobInfo& info,
                             Progress& progress) {
  progress.say("writing the files");
  const JobOptions options{request.only, request.anyway, request.cores};
  const auto bench = make_bench_files(*result.plan, *result.model, *result.findings, info, options,
                                      [&progress](std::string_view what) { progress.say(what); });
  if (!bench) return bench.error();
  auto files = make_job_files(*result.plan, *result.model, *result.findings, info, options, *bench);
  if (!files) return files.error();
  progress.say("reading them back");
  const Status same = read_back(*files, *result.plan, *result.model, *result.findings, info, options, *bench);
  if (!same) return same.error();
  auto writing = std::make_unique<Undisturbed>();
  if (interrupt_requested()) return Failure{Failure::Kind::interrupted, "make", "stopped as asked"};
  progress.say("putting the job folder in its place");
  const auto before = job_in_folder(*request.folder);
  if (const Status status = exchange_job_folder(*request.folder, *files); !status) return status.error();
  std::string replaced = replaced_words(before, info, *files, result.findings->failed(), request);
  return WrittenJob{std::move(files).value(), std::move(replaced), std::move(writing)};
}

}  // namespace

Failure about_folder(Failure failure, const std::string& folder) {
  if (failure.kind != Failure::Kind::file) return failure;
  return {failure.kind, fmt::format("cannot write the job folder {}", folder),
          fmt::format("{}: {}; what stood there before is unchanged", failure.operation, failure.reason)};
}

namespace {

bool is_picture_of_finding(const JobFile& file) {
  return file.path.starts_with("checks/") && file.path.ends_with(".svg");
}

void report_files(Outcome& outcome, const MakeRequest& request, const WrittenJob& job) {
  const std::filesystem::path folder(*request.folder);
  for (const JobFile& file : job.files) {
    outcome.files.push_back({(folder / file.path).generic_string(), file.bytes.size(), sha256_hex(file.bytes)});
  }
  const std::string only = request.only.empty() ? "" : fmt::format(", of {} only", group_words(request.only));
  outcome.last_line = fmt::format("wrote {} files to {}{}\n", job.files.size(), folder.generic_string(), only);
  if (outcome.status == ExitStatus::check_failed && !request.anyway) {
    outcome.last_line += "without the files for cutting and printing, because a check failed (--anyway writes them)\n";
  } else if (outcome.status == ExitStatus::check_failed) {
    outcome.last_line +=
        "ALTHOUGH A CHECK FAILS, because of --anyway: read checks/findings.txt before anything is cut\n";
  }
  if (const auto pictures = std::count_if(job.files.begin(), job.files.end(), is_picture_of_finding); pictures > 0) {
    outcome.last_line += fmt::format("{} of what is listed above in {}\n", pictures == 1 ? "a picture" : "pictures",
                                     (folder / "checks").generic_string());
  }
  outcome.last_line += job.replaced;
}

}  // namespace

// The time that files carry; or says what is wrong with what was given.
std::optional<std::string> time_of_files(Outcome& outcome) {
  const char* epoch = std::getenv("SOURCE_DATE_EPOCH");
  const auto time = timestamp(epoch);
  if (time) return *time;
  add_error(
      outcome, ExitStatus::wrong_input, "command-line",
      fmt::format("SOURCE_DATE_EPOCH is {}; it must be whole seconds since 1970, or not set", diag::in_quotes(epoch)));
  return std::nullopt;
}

JobInfo info_for(const Spec& spec, const MakeRequest& request, const std::string& time) {
  JobInfo info = job_info(spec, time);
  info.title += made_with(request.overrides);
  info.units = request.units.value_or(info.units);
  info.step = request.step;
  info.flat.release = request.dxf.value_or(info.flat.release);
  return info;
}

/// What is written of a job whose findings are there.
void write_one(MadeJob& made, const MakeRequest& request, const std::string& time, Progress& progress,
               CommonMarks* marks) {
  if (marks != nullptr) marks->apply(made.result);
  made.info = info_for(*made.result.spec, request, time);
  made.info.finish = output::finish_words(*made.result.plan, output::PaperUnits(UnitSystem::mm_kg));
  made.info.warning = output::failing_words(*made.result.findings);
  auto written = write_job(made.result, request, made.info, progress);
  made.outcome = outcome_of("make", made.result, request.units);
  if (!written) {
    add_failure(made.outcome, about_folder(written.error(), *request.folder));
    return;
  }
  WrittenJob job = std::move(written).value();
  report_files(made.outcome, request, job);
  made.complete = made.outcome.status == ExitStatus::fine || request.anyway;
  made.written = std::move(job.written);
}

MadeJob make_one(const MakeRequest& request, const std::string& time, Progress& progress, CommonMarks* marks) {
  MadeJob made{.outcome = {.command = "make"}};
  auto text = read_spec_file(request.spec_file);
  if (!text) {
    add_failure(made.outcome, text.error());
    return made;
  }
  if (!request.show) {
    if (const Status allowed = may_replace_folder(*request.folder); !allowed) {
      add_failure(made.outcome, about_folder(allowed.error(), *request.folder));
      return made;
    }
  }
  const auto say = [&progress](std::string_view what) { progress.say(what); };
  made.result = run_pipeline({request.spec_file, *text, request.overrides,
                              request.show.value_or(Stage::findings), request.cores},
                             say);
  if (request.show) {
    take_what_follows(request, *text, made.result);
    made.outcome = show(made.result, *request.show);
  } else if (!made.result.findings) {
    made.outcome = outcome_of("make", made.result, request.units);
  } else {
    write_one(made, request, time, progress, marks);
  }
  return made;
}

Outcome make(const MakeRequest& request) {
  Outcome outcome{.command = "make"};
  const auto time = time_of_files(outcome);
  if (!time) return outcome;
  Progress progress(request.common);
  MadeJob made = make_one(request, *time, progress);
  if (made.written) all_done();
  return std::move(made.outcome);
}

}  // namespace fitup::app
