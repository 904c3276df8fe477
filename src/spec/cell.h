#pragma once
// The spec after each key was checked against its rule: values in their types, defaults filled in.

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "fitup/spec.h"

namespace fitup::spec {

/// A checked value or table. Not `sound`: something in it was wrong or missing, and was reported.
struct Cell {
  Place place;
  bool given = false;
  bool sound = true;
  std::variant<std::monostate, bool, double, std::string, Length, Mass, std::vector<Length>,
               std::vector<std::vector<Length>>, std::vector<std::string>>
      value;
  std::map<std::string, Cell, std::less<>> children;
  std::vector<Cell> entries;        // of a list of tables
  std::vector<Place> entry_places;  // of a list of pairs
  bool from_right = false;          // as in Value
  bool from_back = false;
  std::vector<std::optional<Length>> within;  // of a measured length, or of each of a list

  /// Null if the key is absent.
  [[nodiscard]] const Cell* find(std::string_view key) const {
    const auto found = children.find(key);
    return found == children.end() ? nullptr : &found->second;
  }

  /// For keys that are required or filled in; an unsound empty cell after an error.
  [[nodiscard]] const Cell& operator[](std::string_view key) const {
    static const Cell missing{{}, false, false, {}, {}, {}, {}, false, false, {}};
    const Cell* found = find(key);
    return found != nullptr ? *found : missing;
  }

  /// The value, T{} after an error.
  template <class T>
  [[nodiscard]] Sourced<T> get() const {
    const T* held = std::get_if<T>(&value);
    return {held != nullptr ? *held : T{}, place, given};
  }
};

}  // namespace fitup::spec
