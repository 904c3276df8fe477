#pragma once
// The spec's text as a tree of values with their places, before anything is understood. Merging works on this.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fitup/diagnostic.h"
#include "fitup/quantity.h"

namespace fitup::spec {

struct Member;

struct Value {
  enum class Kind { table, list, text, number, yes_no, date };
  Kind kind = Kind::table;
  Place place;
  std::string text;   // of a text
  double number = 0;  // of a number, as written: no unit yet
  bool yes = false;
  bool verbatim = false;                 // a text whose characters stand in the source as they are
  bool quoted = true;                    // a verbatim text begins one character after its place
  bool from_right = false;               // a place, or what stands in a row, counted from the frame's right side
  bool from_back = false;                // likewise from its back
  UnitSystem units = UnitSystem::mm_kg;  // what a bare number in it means: that of its file
  std::vector<Member> members;           // of a table, in the order of the text
  std::vector<Value> entries;            // of a list

  [[nodiscard]] const Value* find(std::string_view key) const;
  [[nodiscard]] Value* find(std::string_view key);
};

struct Member {
  std::string key;
  Place place;  // of the key
  Value value;
};

/// Takes the member out of a table, if it is there.
[[nodiscard]] std::optional<Member> take(Value& table, std::string_view key);

/// What a bare number means in the value and all below it.
void set_units(Value& value, UnitSystem units);

/// Tables merge; anything else in `own` takes the place of what stands in `base`.
void merge(Value& base, Value own);

/// "a list", "a text": for messages.
[[nodiscard]] std::string_view kind_in_words(Value::Kind kind);

}  // namespace fitup::spec
