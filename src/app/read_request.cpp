// From what was typed to what is asked for, every complaint in our own words.
// Entry: to_request.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <filesystem>
#include <map>
#include <thread>
#include <utility>

#include "app/raw_command.h"
#include "app/starters.h"
#include "diag/words.h"
#include "fitup/spec.h"
#include "output/joint_lists.h"
#include "spec/quantity_parser.h"

namespace fitup::app {

namespace {

using output::joint_folder;

constexpr int most_cores = 64;

template <class T>
struct Choice {
  std::string_view word;
  T value;
};
constexpr std::array<Choice<FileGroup>, 7> groups{{{"step", FileGroup::step},
                                                   {"dxf", FileGroup::dxf},
                                                   {"stl", FileGroup::stl},
                                                   {"3mf", FileGroup::threemf},
                                                   {"lists", FileGroup::lists},
                                                   {"paper", FileGroup::paper},
                                                   {"checks", FileGroup::checks}}};
constexpr std::array<Choice<StepSchema>, 2> step_words{{{"ap242", StepSchema::ap242}, {"ap214", StepSchema::ap214}}};
constexpr std::array<Choice<DxfRelease>, 2> dxf_words{{{"r2000", DxfRelease::r2000}, {"r12", DxfRelease::r12}}};
constexpr std::array<Choice<UnitSystem>, 2> unit_words{{{"mm", UnitSystem::mm_kg}, {"in", UnitSystem::in_lb}}};
constexpr std::array<Choice<Stage>, 5> stages{{{"spec", Stage::spec},
                                               {"layout", Stage::layout},
                                               {"plan", Stage::plan},
                                               {"model", Stage::model},
                                               {"findings", Stage::findings}}};

template <class T, std::size_t N>
const Choice<T>* find_choice(const std::array<Choice<T>, N>& choices, std::string_view word) {
  const auto found = std::find_if(choices.begin(), choices.end(), [&](const auto& c) { return c.word == word; });
  return found == choices.end() ? nullptr : &*found;
}

template <class T, std::size_t N>
std::vector<std::string> words_of(const std::array<Choice<T>, N>& choices) {
  std::vector<std::string> words;
  words.reserve(N);
  for (const auto& choice : choices) words.emplace_back(choice.word);
  return words;
}

/// Reads one piece of the raw command line; an empty result means that it is fine.
using Complaint = std::optional<std::string>;

Complaint read_cores(const std::string& text, int& cores) {
  if (text.empty()) {
    cores = std::clamp(static_cast<int>(std::thread::hardware_concurrency()), 1, most_cores);
    return {};
  }
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), cores);
  if (error == std::errc{} && end == text.data() + text.size() && cores >= 1 && cores <= most_cores) return {};
  return fmt::format("--cores is {}; give a whole number from 1 to {}", diag::in_quotes(text), most_cores);
}

Complaint read_sets(const std::vector<std::string>& texts, std::vector<Override>& overrides) {
  for (const std::string& text : texts) {
    const auto equals = text.find('=');
    if (equals == std::string::npos || equals == 0) {
      return fmt::format("--set is {}; write it as key=value, as in --set gap=12", diag::in_quotes(text));
    }
    overrides.push_back({text.substr(0, equals), text.substr(equals + 1)});
  }
  return {};
}

template <class T, std::size_t N>
Complaint read_choice(std::string_view option, const std::string& word, const std::array<Choice<T>, N>& choices,
                      T& value) {
  if (const auto* choice = find_choice(choices, word)) {
    value = choice->value;
    return {};
  }
  const auto words = words_of(choices);
  const std::string near = diag::nearest(word, words);
  return fmt::format("{} does not know {}{}; it takes {}", option, diag::in_quotes(word),
                     near.empty() ? near : fmt::format("; did you mean \"{}\"?", near), fmt::join(words, ", "));
}

Complaint read_units(const std::string& word, std::optional<UnitSystem>& units) {
  if (word.empty()) return {};
  UnitSystem system{};
  if (auto complaint = read_choice("--units", word, unit_words, system)) return complaint;
  units = system;
  return {};
}

/// The only or first one; a folder of several is made by read_together.
std::string spec_file(const Raw& raw) { return raw.spec_files.empty() ? std::string{} : raw.spec_files.front(); }

Complaint read_formats(const Raw& raw, MakeRequest& request) {
  if (!raw.step.empty()) {
    if (auto complaint = read_choice("--step", raw.step, step_words, request.step)) return complaint;
  }
  if (raw.dxf.empty()) return {};
  DxfRelease release{};
  if (auto complaint = read_choice("--dxf", raw.dxf, dxf_words, release)) return complaint;
  request.dxf = release;
  return {};
}

Complaint read_spec_name(const std::string& command, const std::string& name) {
  if (!name.empty()) return {};
  return fmt::format("{} needs the name of a spec, for example: fitup {} front-box.toml", command, command);
}

Complaint read_folder(const Raw& raw, std::optional<std::string>& folder) {
  constexpr std::string_view suffix = ".toml";
  const std::string spec = spec_file(raw);
  if (!raw.folder.empty()) {
    folder = raw.folder;
  } else if (spec.ends_with(suffix) && spec.size() > suffix.size()) {
    folder = spec.substr(0, spec.size() - suffix.size());
  } else {
    return fmt::format("{} does not end in .toml, so the job folder has no name of its own; name it with -o DIR",
                       diag::in_quotes(spec));
  }
  return {};
}

Complaint read_make(const Raw& raw, MakeRequest& request) {
  if (auto complaint = read_spec_name("make", spec_file(raw))) return complaint;
  if (auto complaint = read_formats(raw, request)) return complaint;
  if (auto complaint = read_sets(raw.sets, request.overrides)) return complaint;
  if (auto complaint = read_cores(raw.cores, request.cores)) return complaint;
  if (auto complaint = read_units(raw.units, request.units)) return complaint;
  for (const std::string& word : raw.only) {
    FileGroup group{};
    if (auto complaint = read_choice("--only", word, groups, group)) return complaint;
    request.only.insert(group);
  }
  if (!raw.show.empty()) {
    Stage stage{};
    if (auto complaint = read_choice("--show", raw.show, stages, stage)) return complaint;
    request.show = stage;
  } else if (auto complaint = read_folder(raw, request.folder)) {
    return complaint;
  }
  request.common = raw.common;
  request.spec_file = spec_file(raw);
  request.anyway = raw.anyway;
  return {};
}

/// The folder of one of several: called as its spec is, without the path and the suffix.
Complaint read_together(const Raw& raw, MakeTogetherRequest& request) {
  if (!raw.show.empty()) return fmt::format("--show takes one spec; leave out {}", diag::in_quotes(raw.spec_files[1]));
  std::map<std::string, std::string> folders{{std::string(joint_folder), "the joint lists"}};
  for (const std::string& spec : raw.spec_files) {
    const std::filesystem::path path(spec);
    if (path.extension() != ".toml" || path.stem().empty()) {
      return fmt::format("{} does not end in .toml, so its folder beside the others has no name",
                         diag::in_quotes(spec));
    }
    const auto [taken, added] = folders.try_emplace(path.stem().string(), diag::in_quotes(spec));
    if (!added) {
      return fmt::format("{} and {} would be written to one folder, {}; rename one of the files", taken->second,
                         diag::in_quotes(spec), diag::in_quotes(taken->first));
    }
  }
  request.folder = raw.folder.empty() ? "jobs" : raw.folder;
  Raw each = raw;
  each.folder = request.folder;
  request.common = raw.common;
  request.spec_files = raw.spec_files;
  return read_make(each, request.each);
}

/// What commands take that read one spec.
template <class Request>
Complaint read_one_spec(const std::string& command, const Raw& raw, Request& request) {
  if (auto complaint = read_spec_name(command, spec_file(raw))) return complaint;
  if (raw.spec_files.size() > 1) {
    return fmt::format("{} takes one spec; leave out {}", command, diag::in_quotes(raw.spec_files[1]));
  }
  if (auto complaint = read_sets(raw.sets, request.overrides)) return complaint;
  if (auto complaint = read_units(raw.units, request.units)) return complaint;
  request.common = raw.common;
  request.spec_file = spec_file(raw);
  return {};
}

Complaint read_check(const Raw& raw, CheckRequest& request) {
  if (auto complaint = read_one_spec("check", raw, request)) return complaint;
  return read_cores(raw.cores, request.cores);
}

Complaint read_compare(const Raw& raw, CompareRequest& request) {
  const std::vector<std::string>& given = raw.spec_files;
  if (given.empty() || (given.size() == 1 && raw.sets.empty())) {
    return "compare needs two specs or job folders, for example: fitup compare front-box.toml rear-box.toml; or one "
           "spec with --set, which is compared with the spec as it stands";
  }
  if (given.size() > 2) return fmt::format("compare takes two; leave out {}", diag::in_quotes(given[2]));
  if (given.size() == 2 && !raw.sets.empty()) {
    return fmt::format(
        "--set goes with one spec, which is then compared with itself as it stands; leave out {} or --set",
        diag::in_quotes(given[1]));
  }
  if (auto complaint = read_sets(raw.sets, request.overrides)) return complaint;
  if (auto complaint = read_units(raw.units, request.units)) return complaint;
  request.common = raw.common;
  request.a = given.front();
  request.b = given.back();
  return {};
}

Complaint read_lighten(const Raw& raw, LightenRequest& request) { return read_one_spec("lighten", raw, request); }

Complaint read_begin(const Raw& raw, BeginRequest& request) {
  constexpr std::string_view suffix = ".toml";
  if (raw.name.empty()) return "begin needs a name for the new spec, for example: fitup begin front-box";
  request.path = raw.name.ends_with(suffix) ? raw.name : raw.name + std::string(suffix);
  const std::string last = std::filesystem::path(request.path).stem().string();
  if (!is_usable_name(last)) {
    return fmt::format(
        "{} cannot be the name of a spec; use letters, digits, - and _, beginning with a letter or digit",
        diag::in_quotes(last));
  }
  request.kind = raw.kind.empty() ? std::string(starter_kinds().front().word) : raw.kind;
  std::vector<std::string> words;
  for (const StarterKind& kind : starter_kinds()) words.emplace_back(kind.word);
  if (std::find(words.begin(), words.end(), request.kind) == words.end()) {
    return fmt::format("--kind does not know {}; it takes {}", diag::in_quotes(request.kind), fmt::join(words, ", "));
  }
  std::optional<UnitSystem> units;
  if (auto complaint = read_units(raw.units, units)) return complaint;
  if (request.kind == "inches" && units == UnitSystem::mm_kg) {
    return "--kind inches is a row in inches; for one in millimetres take --kind row";
  }
  request.units = units.value_or(UnitSystem::mm_kg);
  request.common = raw.common;
  return {};
}

Complaint read_thickness(const std::string& text, UnitSystem units, std::optional<double>& thickness_mm) {
  constexpr double thickest_mm = 100;
  if (text.empty()) return {};
  Diagnostics ignored;
  const auto quantity = spec::evaluate(
      {text, {}, false, false}, units, [](std::string_view, const Place&) { return std::nullopt; }, ignored);
  const auto length = quantity ? spec::as_length(*quantity) : std::nullopt;
  if (length && length->mm() > 0 && length->mm() <= thickest_mm) {
    thickness_mm = length->mm();
    return {};
  }
  return fmt::format(
      "--thickness is {}; give the thickness of the sheet, such as 3, \"1/8 in\" or \"11 ga\", {} mm at most",
      diag::in_quotes(text), thickest_mm);
}

Complaint read_material(const std::string& name, std::optional<Material>& material) {
  if (name.empty()) return {};
  if (const Material* found = tables::find_material(name)) {
    material = *found;
    return {};
  }
  std::vector<std::string> known;
  for (const Material& m : tables::materials()) known.push_back(m.name);
  const std::string near = diag::nearest(name, known);
  return fmt::format("--material does not know {}{}; it takes {}", diag::in_quotes(name),
                     near.empty() ? near : fmt::format("; did you mean \"{}\"?", near), fmt::join(known, ", "));
}

Complaint read_inspect(const Raw& raw, InspectRequest& request) {
  if (raw.files.empty()) return "inspect needs the name of a file, for example: fitup inspect plate.dxf";
  std::optional<UnitSystem> units;
  if (auto complaint = read_units(raw.units, units)) return complaint;
  request.units = units.value_or(UnitSystem::mm_kg);
  if (auto complaint = read_thickness(raw.thickness, request.units, request.options.thickness_mm)) return complaint;
  if (auto complaint = read_material(raw.material, request.options.material)) return complaint;
  request.common = raw.common;
  request.files = raw.files;
  return {};
}

/// Also where parsing stopped early, or took the word as another option's value.
}  // namespace

CommandLine to_request(const Raw& raw, const std::string& command) {
  if (raw.help) return Request{HelpRequest{raw.common, command}};
  if (raw.version) return Request{VersionRequest{raw.common}};
  Complaint complaint;
  Request request;
  if (command == "make" && raw.spec_files.size() > 1) {
    complaint = read_together(raw, request.emplace<MakeTogetherRequest>());
  } else if (command == "make") {
    complaint = read_make(raw, request.emplace<MakeRequest>());
  } else if (command == "check") {
    complaint = read_check(raw, request.emplace<CheckRequest>());
  } else if (command == "compare") {
    complaint = read_compare(raw, request.emplace<CompareRequest>());
  } else if (command == "lighten") {
    complaint = read_lighten(raw, request.emplace<LightenRequest>());
  } else if (command == "explain") {
    request = ExplainRequest{raw.common, raw.key.empty() ? std::nullopt : std::optional(raw.key)};
  } else if (command == "tables") {
    request = TablesRequest{raw.common, raw.word.empty() ? std::nullopt : std::optional(raw.word)};
  } else if (command == "schema") {
    request = SchemaRequest{raw.common};
  } else if (command == "begin") {
    complaint = read_begin(raw, request.emplace<BeginRequest>());
  } else if (command == "inspect") {
    complaint = read_inspect(raw, request.emplace<InspectRequest>());
  } else {
    complaint = fmt::format("name a command: {}", fmt::join(command_names(), ", "));
  }
  if (complaint) return UsageError{raw.common, command, *std::move(complaint)};
  return request;
}

}  // namespace fitup::app
