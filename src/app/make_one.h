#pragma once
// One spec made, with what several of them need for their joint lists.

#include <memory>
#include <optional>
#include <string>

#include "app/common_marks.h"
#include "app/outcome.h"
#include "app/pipeline.h"
#include "app/request.h"
#include "app/terminal.h"
#include "app/waiting.h"
#include "fitup/job.h"

namespace fitup::app {

struct MadeJob {
  Outcome outcome{};
  PipelineResult result{};  // without what the outcome took over
  JobInfo info{};
  bool complete = false;                   // its folder holds the files for making
  std::unique_ptr<Undisturbed> written{};  // its folder is in its place: not to be left before that is noted
};

/// Makes, reads back and exchanges the folder, or shows a stage. With `marks` parts are marked as in the jobs before.
[[nodiscard]] MadeJob make_one(const MakeRequest& request, const std::string& time, Progress& progress,
                               CommonMarks* marks = nullptr);

/// The time that files carry (SOURCE_DATE_EPOCH); nothing, and an error in `outcome`, if it is none.
[[nodiscard]] std::optional<std::string> time_of_files(Outcome& outcome);

/// The same failure with the folder that the user asked for and what became of it.
[[nodiscard]] Failure about_folder(Failure failure, const std::string& folder);

}  // namespace fitup::app
