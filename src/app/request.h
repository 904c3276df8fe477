#pragma once
// What the command line asks for, as values.

#include <optional>
#include <set>
#include <string>
#include <vector>

#include "fitup/inspect.h"
#include "fitup/job.h"
#include "fitup/spec.h"

namespace fitup::app {

enum class Stage { spec, layout, plan, model, findings };

/// Options that every command takes.
struct Common {
  bool json = false;
  bool quiet = false;
  bool no_colour = false;
};

struct MakeRequest {
  Common common;
  std::string spec_file;
  std::optional<std::string> folder;  // absent: the spec's path without .toml
  std::set<FileGroup> only;
  bool anyway = false;
  std::optional<Stage> show;  // print this stage's text and write nothing
  int cores = 1;
  std::vector<Override> overrides;
  std::optional<UnitSystem> units;  // of paper and lists; absent: the spec's
  StepSchema step = StepSchema::ap242;
  std::optional<DxfRelease> dxf;  // absent: the spec's
};

/// Several specs, a job folder for each and one order list over all.
struct MakeTogetherRequest {
  Common common;
  std::vector<std::string> spec_files;
  std::string folder;  // holds them all
  MakeRequest each;    // of each one, without spec_file and folder
};

struct CheckRequest {
  Common common;
  std::string spec_file;
  int cores = 1;
  std::vector<Override> overrides;
  std::optional<UnitSystem> units;
};

/// Each a spec or a job folder.
struct CompareRequest {
  Common common;
  std::string a;
  std::string b;                    // the same spec as `a` where there are overrides
  std::vector<Override> overrides;  // of `b`
  std::optional<UnitSystem> units;  // of what is printed; absent: those of `a`
};

struct LightenRequest {
  Common common;
  std::string spec_file;
  std::vector<Override> overrides;
  std::optional<UnitSystem> units;  // of what is printed; absent: the spec's
};

struct ExplainRequest {
  Common common;
  std::optional<std::string> key;
};

struct TablesRequest {
  Common common;
  std::optional<std::string> word;  // a table, or a part of a row's first cell
};

struct SchemaRequest {
  Common common;
};

struct BeginRequest {
  Common common;
  std::string path;  // ends in .toml; its last part without that is a usable name
  std::string kind;  // a word of starter_kinds()
  UnitSystem units = UnitSystem::mm_kg;  // that it is written in
};

struct InspectRequest {
  Common common;
  std::vector<std::string> files;
  InspectOptions options;
  UnitSystem units = UnitSystem::mm_kg;  // of what is printed
};

struct VersionRequest {
  Common common;
};

struct HelpRequest {
  Common common;
  std::string command;  // empty: the program's
};

using Request =
    std::variant<MakeRequest, MakeTogetherRequest, CheckRequest, CompareRequest, LightenRequest, ExplainRequest,
                 TablesRequest, SchemaRequest, BeginRequest, InspectRequest, VersionRequest, HelpRequest>;

}  // namespace fitup::app
