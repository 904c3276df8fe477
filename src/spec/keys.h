#pragma once
// The key table: every key of a spec with its type, default, range and meaning. Validation, defaults, `fitup
// explain` and the README's reference all come from it.
//
// In a key, NAME stands for a name that the user chooses and FACE for front, back, left, right, top, bottom.

#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "fitup/quantity.h"

namespace fitup::spec {

enum class Type {
  table,   // keys of its own
  tables,  // a list of tables
  named,   // a table whose keys are names
  text,
  name,
  word,  // one of a few
  yes_no,
  count,
  number,
  length,
  measured,  // a length that may carry its tolerance
  mass,
  quantity,  // of [sizes]
  two_lengths,
  three_lengths,
  three_measured,
  lengths,  // a list of any number
  length_pairs,
  texts,  // a list of texts
  item,   // the name of an item
  group,  // of parts: the name of an item, or one of part_groups
  box,    // the name of a box
  thread,
  screw_thread,  // one that the tables have a button head for
  gland_thread,  // one that the tables have a cable gland for
  eye_thread,    // one that the tables have a lifting eye for
  angle,         // a section
  flat,
  bar,  // an angle or a flat
  material,
  ring,       // an angle or a tube, own ones too
  upright,    // a flat bar, a tube or an angle, own ones too
  stiffener,  // an angle or a flat bar, own ones too
};

/// must: the table it stands in is wrong without it. framed: the same, but in a box of plates, which are given a usual
/// one (plate_section.h). may: its absence means something of its own. filled: the
/// default is put in; a table is filled with the defaults of its keys.
enum class Need { must, framed, may, filled };

/// Of each number: lengths in mm, masses in kg, entries of a list for Type::tables and the lists of lengths.
struct Range {
  double low = 0;
  double high = 0;
  bool above_low = false;  // `low` itself is not allowed
};

/// What the opposite hand does to a value, besides exchanging the keys left and right, or front and back, of a table.
/// stays: nothing. row: a list from left to right, turned round. place: X, or X and Y, of the frame: counted from the
/// other side. turn: the other way about.
enum class Hand { stays, row, place, turn };

/// What stands in for a key that is not stated, as written in a spec: of a metric shop and of an inch one, most often one
/// for both.
struct Fallback {
  constexpr Fallback(const char* both) : metric(both), inch(both) {}
  constexpr Fallback(const char* metric_one, const char* inch_one) : metric(metric_one), inch(inch_one) {}
  std::string_view metric;
  std::string_view inch;
  [[nodiscard]] std::string_view of(UnitSystem shop) const { return shop == UnitSystem::in_lb ? inch : metric; }
};

struct Rule {
  std::string_view key;
  Type type = Type::table;
  Need need = Need::filled;
  Fallback fallback = "";
  Range range;
  std::string_view words;  // of Type::word: "down, up"
  std::string_view meaning;
  Hand hand = Hand::stays;
};

[[nodiscard]] const std::vector<Rule>& rules();
/// Those of [cutter]; part of rules().
[[nodiscard]] const std::vector<Rule>& cutter_rows();
/// Those of [finish] and [as_built]; part of rules().
[[nodiscard]] const std::vector<Rule>& finish_rows();
/// Those of [bench] and [stock]; part of rules().
[[nodiscard]] const std::vector<Rule>& bench_rows();
/// Those of what stiffens a frame; part of rules().
[[nodiscard]] const std::vector<Rule>& stiffening_rows();
/// Those of how a box is welded; part of rules().
[[nodiscard]] const std::vector<Rule>& weld_rows();
[[nodiscard]] const std::vector<Rule>& plate_rows();
/// Those of what is held by screws and studs beside the covers' own keys; part of rules().
[[nodiscard]] const std::vector<Rule>& fixing_rows();
/// Those of how plates and flanges are made; part of rules().
[[nodiscard]] const std::vector<Rule>& closing_rows();
/// How the whole is lifted, and [loads].
[[nodiscard]] const std::vector<Rule>& load_rows();

/// The table as a tree by the parts of the keys.
struct Node {
  const Rule* rule = nullptr;
  std::map<std::string, Node, std::less<>> children;
  std::unique_ptr<Node> named;  // what stands under any NAME
};
[[nodiscard]] const Node& schema();

/// "a length, such as 12 or "1 1/2 in"": completes "it must be".
[[nodiscard]] std::string type_in_words(const Rule& rule);
/// "down, up" to its words.
[[nodiscard]] std::vector<std::string> words_of(std::string_view list);
/// Most entries of a list; every list has at least one.
[[nodiscard]] std::size_t most_entries(Type type);

/// Largest tolerance of a measured length: what a tape read carelessly is off by.
inline constexpr double largest_within_mm = 50;

inline constexpr std::size_t longest_name = 64;
inline constexpr std::size_t longest_text = 200;

}  // namespace fitup::spec
