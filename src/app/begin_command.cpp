// begin: a commented spec to start from.
// Entry: begin.
#include <fmt/format.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>

#include "app/commands.h"
#include "app/starters.h"
#include "fitup/job.h"

namespace fitup::app {

namespace {

/// Creates the file; one that is there already stays as it is.
Status create(const std::string& path, const std::string& text) {
  std::FILE* file = std::fopen(path.c_str(), "wbx");
  if (file == nullptr) {
    const bool there = errno == EEXIST;
    const std::string why =
        there ? "it is there already and stays as it is; choose another name" : std::strerror(errno);
    return Failure{Failure::Kind::file, fmt::format("cannot write {}", path), why};
  }
  const bool written = std::fwrite(text.data(), 1, text.size(), file) == text.size();
  if (std::fclose(file) == 0 && written) return Done{};
  return Failure{Failure::Kind::file, fmt::format("cannot write {}", path), std::strerror(errno)};
}

}  // namespace

Outcome begin(const BeginRequest& request) {
  Outcome outcome{.command = "begin"};
  const std::string text = starter(request.kind, std::filesystem::path(request.path).stem().string(), request.units);
  if (const Status status = create(request.path, text); !status) {
    add_failure(outcome, status.error());
    return outcome;
  }
  outcome.files.push_back({request.path, text.size(), sha256_hex(text)});
  outcome.text = fmt::format("wrote {0}\nnext: fitup check {0}\n", request.path);
  return outcome;
}

}  // namespace fitup::app
