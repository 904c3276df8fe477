#pragma once
// One value against its rule: type, words, names of the tables, range.

#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "spec/cell.h"
#include "spec/keys.h"
#include "spec/sizes.h"
#include "spec/value.h"

namespace fitup::spec {

class ScalarReader {
 public:
  /// `own_sections`: the kind of each of [section], by its name.
  ScalarReader(std::vector<std::string> items, std::vector<std::string> boxes,
               std::map<std::string, std::string, std::less<>> own_sections, Sizes& sizes, Diagnostics& diagnostics)
      : items_(std::move(items)),
        boxes_(std::move(boxes)),
        own_sections_(std::move(own_sections)),
        sizes_(sizes),
        diagnostics_(diagnostics) {}

  /// Of every type but the tables. `key` is the full path, for messages.
  [[nodiscard]] Cell read(const Rule& rule, const Value& value, std::string_view key);

  /// As for a `name`; `place` is that of the name.
  bool check_name(std::string_view name, const Place& place);

 private:
  void read_words(const Rule& rule, const Value& value, std::string_view key, Cell& cell);
  void read_quantity(const Rule& rule, const Value& value, std::string_view key, Cell& cell);
  void read_measured(const Rule& rule, const Value& value, std::string_view key, Cell& cell);
  /// Also { value = 148, within = 0.5 }; puts the tolerance behind those in `cell`.
  [[nodiscard]] std::optional<Length> measured(const Rule& rule, const Value& value, std::string_view key, Cell& cell);
  [[nodiscard]] std::optional<Length> tolerance(const Value& within, std::string_view key);
  [[nodiscard]] bool right_count(const Rule& rule, const Value& value, std::string_view key, Type type);
  void read_texts(const Rule& rule, const Value& value, std::string_view key, Cell& cell);
  void read_list(const Rule& rule, const Value& value, std::string_view key, Cell& cell);
  void read_word(const Rule& rule, const Value& value, std::string_view key, Cell& cell);
  void read_text(const Rule& rule, const Value& value, std::string_view key, Cell& cell);
  void read_reference(const Rule& rule, const Value& value, std::string_view key, Cell& cell);
  void read_group(const Value& value, Cell& cell);
  void read_bar(const Rule& rule, const Value& value, std::string_view key, Cell& cell);
  void read_own_section(const Rule& rule, const Value& value, std::string_view kind, std::string_view key, Cell& cell);
  void read_frame_section(const Rule& rule, const Value& value, std::string_view key, Cell& cell);
  void read_section(const Rule& rule, const Value& value, std::string_view key, Cell& cell);
  [[nodiscard]] std::optional<Length> length(const Rule& rule, const Value& value, std::string_view key);
  [[nodiscard]] std::optional<std::vector<Length>> lengths(const Rule& rule, const Value& value, std::string_view key,
                                                           Type type);
  [[nodiscard]] std::optional<double> plain(const Rule& rule, Quantity quantity, const Value& value,
                                            std::string_view key);
  bool in_range(const Rule& rule, double value, const Place& place, std::string_view key);
  void wrong_type(const Rule& rule, const Value& value, std::string_view key);
  void wrong_quantity(const Rule& rule, Quantity quantity, const Place& place, std::string_view key);

  std::vector<std::string> items_;
  std::vector<std::string> boxes_;
  std::map<std::string, std::string, std::less<>> own_sections_;
  Sizes& sizes_;
  Diagnostics& diagnostics_;
};

}  // namespace fitup::spec
