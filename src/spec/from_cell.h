#pragma once
// Values of checked cells in their types, as every table is read.

#include <algorithm>
#include <array>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "spec/cell.h"

namespace fitup::spec {

inline Sourced<Length> length(const Cell& cell) { return cell.get<Length>(); }
inline Sourced<std::string> text(const Cell& cell) { return cell.get<std::string>(); }

inline Sourced<int> count(const Cell& cell) {
  const auto number = cell.get<double>();
  return {static_cast<int>(number.value), number.place, number.given};
}

template <std::size_t N>
std::array<Length, N> first(const std::vector<Length>& lengths) {
  std::array<Length, N> out;
  std::copy_n(lengths.begin(), std::min(N, lengths.size()), out.begin());
  return out;
}

template <std::size_t N>
Lengths<N> lengths(const Cell& cell) {
  return {first<N>(cell.get<std::vector<Length>>().value), cell.place, cell.given};
}

inline CountedFrom counted_from(const Cell& cell) { return {cell.from_right, cell.from_back}; }

inline Measured measured(const Cell& cell) {
  return {length(cell), cell.within.empty() ? std::nullopt : cell.within[0]};
}

template <class T>
std::optional<Sourced<T>> optional(const Cell* cell) {
  if (cell == nullptr) return std::nullopt;
  return cell->get<T>();
}

inline std::optional<Sourced<Length>> optional_length(const Cell* cell) { return optional<Length>(cell); }
inline std::optional<Sourced<std::string>> optional_text(const Cell* cell) { return optional<std::string>(cell); }
inline std::optional<Sourced<std::vector<Length>>> optional_list(const Cell* cell) {
  return optional<std::vector<Length>>(cell);
}

/// The enumerator whose word stands at the same position: the words are those of the key table.
template <class E, std::size_t N>
Sourced<E> word(const Cell& cell, const std::array<std::pair<std::string_view, E>, N>& words) {
  Sourced<E> out{words[0].second, cell.place, cell.given};
  const auto written = text(cell);
  for (const auto& [name, value] : words) {
    if (name == *written) out.value = value;
  }
  return out;
}

/// The enumerator whose word was written: the words are those of the key table, in the order of the enumerators.
template <class E>
Sourced<E> word(const Cell& cell, std::initializer_list<std::string_view> words) {
  const auto written = text(cell);
  const auto at = std::find(words.begin(), words.end(), *written) - words.begin();
  const bool known = static_cast<std::size_t>(at) < words.size();
  return {static_cast<E>(known ? at : 0), written.place, written.given};
}

template <class E>
using Word = std::pair<std::string_view, E>;

}  // namespace fitup::spec
