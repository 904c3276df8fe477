#pragma once
// One argument --set key=value: the parts of its key with their places, and its value.

#include <optional>
#include <string>
#include <vector>

#include "fitup/spec.h"
#include "spec/keys.h"
#include "spec/value.h"

namespace fitup::spec {

class Argument {
 public:
  struct Part {
    std::string text;
    Place place;
  };

  /// It stands in line `line` of the text `source`.
  Argument(const Override& override, int source, int line);

  /// "row[2].count" and "row.2.count" are the same.
  [[nodiscard]] const std::vector<Part>& parts() const { return parts_; }
  /// The parts with dots between.
  [[nodiscard]] std::string key() const;
  [[nodiscard]] const std::string& written_key() const { return key_; }
  [[nodiscard]] Place key_place() const;

  /// Its value is an inline table.
  [[nodiscard]] bool is_table() const {
    return value_.find_first_not_of(" \t") != std::string::npos && value_[value_.find_first_not_of(" \t")] == '{';
  }

  /// Puts a part before the others.
  void prepend(const std::string& part);

  /// TOML where it is TOML: a number, a list, an inline table, true, a text in quotes. Else a text as it stands, and
  /// always so where the rule wants a text. Empty after a diagnostic.
  [[nodiscard]] std::optional<Value> value(const Rule* rule, Diagnostics& diagnostics) const;

 private:
  [[nodiscard]] std::optional<Value> as_toml(Diagnostics& diagnostics) const;

  std::string key_;
  std::string value_;
  int source_;
  int line_;
  std::vector<Part> parts_;
};

}  // namespace fitup::spec
