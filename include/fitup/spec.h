#pragma once
// Spec: the text with units resolved, defaults filled, each value with its place. Input: TOML text.
// Output: a Spec, or diagnostics. Later stages never see text.

#include <array>
#include <functional>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "fitup/cut_rules.h"
#include "fitup/diagnostic.h"
#include "fitup/formats.h"
#include "fitup/load_rules.h"
#include "fitup/making.h"
#include "fitup/paper.h"
#include "fitup/quantity.h"
#include "fitup/result.h"
#include "fitup/spec_boxes.h"
#include "fitup/spec_items.h"
#include "fitup/tables.h"

namespace fitup {

/// A section by its own sizes, `[section.NAME]`: found by its name before those of the tables.
struct OwnSection {
  std::string name;
  Place place;
  Section section;
};

struct LiftingSpec {
  Place place;
  Sourced<std::string> thread;
  Sourced<int> points;                                            // 4
  std::optional<Sourced<Length>> boss_diameter;                   // absent: the eye's collar
  std::optional<Sourced<Length>> boss_height;                     // absent: the eye's hole depth, rounded up
  std::optional<Sourced<std::vector<std::array<Length, 2>>>> at;  // X, Y in frame coordinates
  CountedFrom at_from{};
  Sourced<bool> eyes{};  // stand in the model
};

struct PrintSpec {
  Sourced<Length> fit;                  // a printed part is this much smaller than the gap it fills
  Sourced<Length> hole_allowance;       // a printed hole comes out this much smaller than it is drawn
  Sourced<Length> first_layer;          // the lower edge is set in by this: the first layers are pressed wide
  std::optional<Sourced<Length>> bush;  // outside diameter of the drill bushes of guides; absent: none
};

struct CutterSpec {
  CutRules rules;
  Sourced<UnitSystem> units;       // of the flat files: millimetres or inches
  Sourced<DxfRelease> dxf;         // release of the flat files
  Sourced<std::string> file_name;  // pattern of their names: "{mark}_{name}"
};

/// Groups of parts by the words of [[keep_apart]]; an item's name is one too, and comes before these.
inline constexpr std::array<std::string_view, 11> part_groups{
    "items", "rods", "frame", "rails", "plates", "covers", "rod plates", "screws", "glands", "lift bosses", "steel"};

/// Two groups of parts of which each keeps at least that far from each of the other, but for parts that are joined.
struct KeepApartSpec {
  Place place;
  Sourced<std::string> what;
  Sourced<std::string> from;
  Sourced<Length> least;
  Sourced<std::string> why;
};

/// What takes up some of the space that the whole goes into: a pipe, a wheel arch.
struct InTheWay {
  Place place;
  Lengths<3> at;  // its front left bottom corner, from that of the space
  CountedFrom at_from{};
  Lengths<3> size;
  Sourced<std::string> why;
};

/// The space that the whole goes into, as it was measured.
struct SpaceSpec {
  Place place;
  Lengths<3> size;
  std::array<std::optional<Length>, 3> size_within{};  // how far off the measured size may be, either way
  Sourced<Length> play;                                // stays free on every side it does not stand against
  std::optional<Lengths<3>> at;  // the first frame's front left bottom corner, from that of the space; absent: the
                                 // whole stands on the floor, in the middle
  CountedFrom at_from{};
  std::vector<InTheWay> in_the_way{};
};

enum class FinishKind { none, paint, powder, zinc };

/// What the steel is coated with once it is welded.
struct FinishSpec {
  Place place;
  Sourced<FinishKind> kind;
  Sourced<Length> thickness;  // of one coat, on each surface; without one by kind
  Sourced<int> coats;         // one over the other
  [[nodiscard]] double surface_mm() const { return *kind == FinishKind::none ? 0 : *coats * thickness->mm(); }
};

/// How the places of holes come about.
struct MakingSpec {
  Sourced<Making> holes{};    // in flat parts
  Sourced<Making> drilled{};  // in members, and in what the box stands on
};

struct Spec {
  std::string name;
  std::string title;
  std::string revision;
  UnitSystem units = UnitSystem::mm_kg;
  UnitSystem shop = UnitSystem::mm_kg;  // whose sizes stood in for what was not stated
  std::vector<ItemSpec> items;  // by name
  std::vector<BoxSpec> boxes;   // by name
  std::optional<LiftingSpec> lifting;
  PrintSpec print;
  CutterSpec cutter;
  std::vector<OwnSection> sections;  // by name
  FinishSpec finish{};
  MakingSpec making{};
  std::vector<KeepApartSpec> keep_apart{};
  std::optional<SpaceSpec> space{};
  BenchOptions bench{};
  LoadRules load_rules{};
  [[nodiscard]] const ItemSpec* item(std::string_view name) const;
  /// Own ones first, then the tables'.
  [[nodiscard]] const Section* section(std::string_view name) const;
};

/// `--set key=value`: any dotted key, or a bare name of `[sizes]`. In SpecResult::sources all of them are one text
/// named "--set", a line for each.
struct Override {
  std::string key;
  std::string value;
};

struct SpecResult {
  std::optional<Spec> spec;  // absent exactly if there are errors
  Diagnostics diagnostics;
  SourceTexts sources;
  bool file_trouble = false;  // a file that start_from names could not be read
};

/// Reads a file that start_from names, by its path from where the program was started.
using SpecFiles = std::function<Result<std::string>(const std::string& path)>;

/// A name that a spec may have: letters, digits, - and _, beginning with a letter or digit, at most 64.
[[nodiscard]] bool is_usable_name(std::string_view name);

/// Never throws. `file_name` is used in diagnostics, and paths of start_from begin beside it.
[[nodiscard]] SpecResult read_spec(std::string file_name, std::string text, const std::vector<Override>& overrides = {},
                                   const SpecFiles& files = {});

/// Canonical text of the resolved Spec: sorted, defaults included, no places. Equal specs, equal text.
[[nodiscard]] std::string to_text(const Spec& spec);

/// One row of the key table: drives validation, `fitup explain` and the README's reference.
struct KeyRow {
  std::string key;       // "box.NAME.rails.thickness"
  std::string type;      // "length", "mass", "count", "text", "choice", ...
  std::string fallback;  // default of a metric shop, as written in a spec; empty: must be given or simply absent
  std::string range;     // "0.5 mm to 50 mm", "down, up"
  bool required = false;
  std::string meaning;
  std::string inch_fallback;  // default of an inch shop; most often the same
};
[[nodiscard]] const std::vector<KeyRow>& key_table();

}  // namespace fitup
