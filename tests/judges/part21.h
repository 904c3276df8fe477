#pragma once
// A small reader of ISO 10303-21 text, independent of the solid kernel and of the program's own scan.

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "fitup/result.h"

namespace fitup::judges {

/// One parameter of a record.
struct Value {
  enum class Kind { absent, derived, number, text, word, reference, list, typed };
  Kind kind = Kind::absent;
  double number = 0;         // number
  std::string text;          // text (decoded to UTF-8), word (".T." as "T"), typed (its type's name)
  int reference = 0;         // reference
  std::vector<Value> items;  // list; typed: its parameters

  [[nodiscard]] const Value& at(std::size_t i) const;
  [[nodiscard]] std::vector<int> references() const;  // of a list
  [[nodiscard]] bool is_true() const { return kind == Kind::word && text == "T"; }
};

struct Record {
  std::string type;
  std::vector<Value> values;
  [[nodiscard]] const Value& at(std::size_t i) const;
  [[nodiscard]] int ref(std::size_t i) const { return at(i).reference; }
  [[nodiscard]] const std::string& text(std::size_t i) const { return at(i).text; }
};

/// One `#id = ...;`: a single record, or several of a complex entity.
using Entity = std::vector<Record>;

struct Part21File {
  std::vector<Record> header;
  std::map<int, Entity> entities;

  /// The record of this type in entity `id`; nullptr if there is none.
  [[nodiscard]] const Record* find(int id, std::string_view type) const;
  /// The only or first record; an empty one if there is no such entity.
  [[nodiscard]] const Record& record(int id) const;
  /// Ids of all entities with a record of this type, ascending.
  [[nodiscard]] std::vector<int> all(std::string_view type) const;
  [[nodiscard]] const Record* header_record(std::string_view type) const;
  /// References to entities that are not there.
  [[nodiscard]] std::vector<int> dangling() const;
};

[[nodiscard]] Result<Part21File> read_part21(std::string_view text);

/// The inside of a string token to UTF-8: '' \\ \X\hh \X2\...\X0\ \X4\...\X0\ \S\c \N\ \F\ .
[[nodiscard]] std::string decode_part21_string(std::string_view inside);

}  // namespace fitup::judges
