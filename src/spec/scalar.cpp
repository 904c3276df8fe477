// Reads one value against its rule.
// Entry: ScalarReader::read.

#include "spec/scalar.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "diag/catalogue.h"
#include "diag/words.h"

namespace fitup::spec {

namespace {

using diag::in_quotes;
using diag::say;

/// A number of a rule or of the spec as the user would write it.
std::string in_words(Type type, double value, UnitSystem units) {
  if (type == Type::count || type == Type::number) return fmt::format("{:.7g}", value);
  if (type == Type::mass) return diag::in_units(Mass::kg(value), units);
  return diag::exactly_in_units(Length::mm(value), units);
}

std::string limits_in_words(const Rule& rule, UnitSystem units) {
  std::string low = in_words(rule.type, rule.range.low, units);
  const std::string high = in_words(rule.type, rule.range.high, units);
  if (rule.range.low == rule.range.high) return low;
  if (rule.range.above_low) return fmt::format("more than {} and at most {}", low, high);
  return fmt::format("from {} to {}", low, high);
}

std::string in_words(std::size_t count) { return fmt::format("{} value{}", count, count == 1 ? "" : "s"); }

std::string allowed_in_words(const std::vector<std::string>& words) {
  return words.size() == 1 ? in_quotes(words[0]) : "one of: " + diag::listed(words);
}

bool is_text_type(Type type) { return type == Type::text || type == Type::name; }

}  // namespace

Cell ScalarReader::read(const Rule& rule, const Value& value, std::string_view key) {
  Cell cell;
  cell.place = value.place;
  cell.given = true;
  cell.from_right = value.from_right;
  cell.from_back = value.from_back;
  switch (rule.type) {
    case Type::count:
    case Type::number:
    case Type::length:
    case Type::mass: read_quantity(rule, value, key, cell); break;
    case Type::measured:
    case Type::three_measured: read_measured(rule, value, key, cell); break;
    case Type::two_lengths:
    case Type::three_lengths:
    case Type::lengths:
    case Type::length_pairs: read_list(rule, value, key, cell); break;
    case Type::texts: read_texts(rule, value, key, cell); break;
    case Type::yes_no:
      if (value.kind == Value::Kind::yes_no)
        cell.value = value.yes;
      else
        wrong_type(rule, value, key);
      break;
    default: read_words(rule, value, key, cell);
  }
  cell.sound = !std::holds_alternative<std::monostate>(cell.value);
  return cell;
}

void ScalarReader::read_words(const Rule& rule, const Value& value, std::string_view key, Cell& cell) {
  if (value.kind != Value::Kind::text) {
    wrong_type(rule, value, key);
  } else if (rule.type == Type::word) {
    read_word(rule, value, key, cell);
  } else if (is_text_type(rule.type)) {
    read_text(rule, value, key, cell);
  } else {
    read_reference(rule, value, key, cell);
  }
}

void ScalarReader::read_quantity(const Rule& rule, const Value& value, std::string_view key, Cell& cell) {
  if (rule.type == Type::length) {
    if (const auto found = length(rule, value, key)) {
      cell.value = *found;
      cell.place = sizes_.said_at(value);
    }
    return;
  }
  if (value.kind != Value::Kind::number && value.kind != Value::Kind::text) return wrong_type(rule, value, key);
  const auto quantity = sizes_.quantity_of(value, rule.type == Type::mass ? type_in_words(rule) : "");
  if (!quantity) return;
  cell.place = sizes_.said_at(value);
  if (rule.type == Type::mass) {
    const auto mass = as_mass(*quantity);
    if (!mass) return wrong_quantity(rule, *quantity, cell.place, key);
    if (in_range(rule, mass->kg(), cell.place, key)) cell.value = *mass;
  } else if (const auto number = plain(rule, *quantity, value, key)) {
    if (in_range(rule, *number, cell.place, key)) cell.value = *number;
  }
}

std::optional<double> ScalarReader::plain(const Rule& rule, Quantity quantity, const Value& value,
                                          std::string_view key) {
  const bool is_plain = quantity.kind == QuantityKind::bare || quantity.kind == QuantityKind::ratio;
  if (!is_plain) {
    wrong_quantity(rule, quantity, sizes_.said_at(value), key);
    return std::nullopt;
  }
  if (rule.type == Type::number) return quantity.value;
  // A count may come from an expression: "total/pitch" is whole up to rounding.
  constexpr double rounding = 1e-9;
  const double whole = std::round(quantity.value);
  if (std::abs(quantity.value - whole) <= rounding * std::max(1.0, std::abs(whole))) return whole;
  diagnostics_.add(
      say<"wrong-type">(sizes_.said_at(value), key, fmt::format("{:.7g}", quantity.value), type_in_words(rule)));
  return std::nullopt;
}

std::optional<Length> ScalarReader::length(const Rule& rule, const Value& value, std::string_view key) {
  if (value.kind != Value::Kind::number && value.kind != Value::Kind::text) {
    const std::string wanted = rule.type == Type::length ? type_in_words(rule) : "a length, such as 12 or \"1 1/2 in\"";
    diagnostics_.add(say<"wrong-type">(value.place, key, kind_in_words(value.kind), wanted));
    return std::nullopt;
  }
  const auto quantity = sizes_.quantity_of(value);
  if (!quantity) return std::nullopt;
  const auto found = as_length(*quantity);
  const Place place = sizes_.said_at(value);
  if (!found) wrong_quantity(rule, *quantity, place, key);
  if (!found || !in_range(rule, found->mm(), place, key)) return std::nullopt;
  return found;
}

/// Whether it is a list of as many values as the type asks for.
bool ScalarReader::right_count(const Rule& rule, const Value& value, std::string_view key, Type type) {
  if (value.kind != Value::Kind::list) {
    wrong_type(rule, value, key);
    return false;
  }
  const std::size_t most = most_entries(type);
  const std::size_t least = type == Type::lengths || type == Type::texts ? 1 : most;
  if (value.entries.size() >= least && value.entries.size() <= most) return true;
  const std::string wanted = least == most ? fmt::format("{}", most) : fmt::format("{} to {}", least, most);
  diagnostics_.add(say<"wrong-count">(value.place, key, in_words(value.entries.size()), wanted));
  return false;
}

/// A list of lengths; two_lengths and three_lengths hold exactly so many.
std::optional<std::vector<Length>> ScalarReader::lengths(const Rule& rule, const Value& value, std::string_view key,
                                                         Type type) {
  if (!right_count(rule, value, key, type)) return std::nullopt;
  std::vector<Length> all;
  for (const Value& entry : value.entries) {
    if (const auto found = length(rule, entry, key)) all.push_back(*found);
  }
  if (all.size() != value.entries.size()) return std::nullopt;
  return all;
}

void ScalarReader::read_texts(const Rule& rule, const Value& value, std::string_view key, Cell& cell) {
  if (!right_count(rule, value, key, rule.type)) return;
  std::vector<std::string> all;
  for (const Value& entry : value.entries) {
    if (entry.kind != Value::Kind::text) return wrong_type(rule, entry, key);
    Cell one;
    read_text(rule, entry, key, one);
    if (const auto* read = std::get_if<std::string>(&one.value)) all.push_back(*read);
  }
  if (all.size() == value.entries.size()) cell.value = std::move(all);
}

void ScalarReader::read_list(const Rule& rule, const Value& value, std::string_view key, Cell& cell) {
  if (rule.type != Type::length_pairs) {
    if (auto found = lengths(rule, value, key, rule.type)) cell.value = std::move(*found);
    return;
  }
  if (value.kind != Value::Kind::list) return wrong_type(rule, value, key);
  const std::size_t most = most_entries(rule.type);
  if (value.entries.empty() || value.entries.size() > most) {
    diagnostics_.add(
        say<"wrong-count">(value.place, key, in_words(value.entries.size()), fmt::format("1 to {}", most)));
    return;
  }
  std::vector<std::vector<Length>> pairs;
  for (const Value& entry : value.entries) {
    if (entry.kind != Value::Kind::list) return wrong_type(rule, entry, key);  // once, not for each number
    cell.entry_places.push_back(entry.place);
    if (auto pair = lengths(rule, entry, key, Type::two_lengths)) pairs.push_back(std::move(*pair));
  }
  if (pairs.size() == value.entries.size()) cell.value = std::move(pairs);
}

void ScalarReader::read_word(const Rule& rule, const Value& value, std::string_view key, Cell& cell) {
  const auto words = words_of(rule.words);
  if (std::find(words.begin(), words.end(), value.text) != words.end()) {
    cell.value = value.text;
    return;
  }
  const std::string near = diag::nearest(value.text, words);
  const std::string hint =
      near.empty() || words.size() == 1 ? std::string() : fmt::format("; did you mean {}?", in_quotes(near));
  diagnostics_.add(say<"unknown-word">(value.place, key, in_quotes(value.text), allowed_in_words(words), hint));
}

void ScalarReader::read_text(const Rule& rule, const Value& value, std::string_view key, Cell& cell) {
  if (rule.type == Type::name) {
    if (check_name(value.text, value.place)) cell.value = value.text;
  } else if (value.text.empty() || diag::code_points(value.text) > longest_text ||
             diag::printable(value.text) != value.text) {
    diagnostics_.add(say<"bad-text">(value.place, key, longest_text));
  } else {
    cell.value = value.text;
  }
}

bool ScalarReader::check_name(std::string_view name, const Place& place) {
  if (is_usable_name(name)) return true;
  diagnostics_.add(say<"bad-name">(place, in_quotes(name), longest_name));
  return false;
}

bool ScalarReader::in_range(const Rule& rule, double value, const Place& place, std::string_view key) {
  const Range& range = rule.range;
  if (range.low == 0 && range.high == 0) return true;
  const bool low_enough = value <= range.high;
  const bool high_enough = range.above_low ? value > range.low : value >= range.low;
  if (low_enough && high_enough) return true;
  const UnitSystem units = sizes_.units();
  diagnostics_.add(say<"out-of-range">(place, key, in_words(rule.type, value, units), limits_in_words(rule, units)));
  return false;
}

void ScalarReader::wrong_type(const Rule& rule, const Value& value, std::string_view key) {
  diagnostics_.add(say<"wrong-type">(value.place, key, kind_in_words(value.kind), type_in_words(rule)));
}

void ScalarReader::wrong_quantity(const Rule& rule, Quantity quantity, const Place& place, std::string_view key) {
  const bool one = rule.type == Type::count || rule.type == Type::number || rule.type == Type::mass ||
                   rule.type == Type::length || rule.type == Type::measured;
  const std::string wanted = one ? type_in_words(rule) : "a length, such as 12 or \"1 1/2 in\"";
  diagnostics_.add(say<"wrong-quantity">(place, key, kind_in_words(quantity.kind), wanted));
}

}  // namespace fitup::spec

namespace fitup {

bool is_usable_name(std::string_view name) {
  const auto letter_or_digit = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
  };
  const auto allowed = [&](char c) { return letter_or_digit(c) || c == '-' || c == '_'; };
  return !name.empty() && name.size() <= spec::longest_name && letter_or_digit(name[0]) &&
         std::all_of(name.begin(), name.end(), allowed);
}

}  // namespace fitup
