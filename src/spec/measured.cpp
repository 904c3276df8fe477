// Reads lengths that may carry the tolerance they were measured with.
// Entry: ScalarReader::read_measured.

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "diag/words.h"
#include "spec/scalar.h"

namespace fitup::spec {

namespace {

using diag::say;

}  // namespace

void ScalarReader::read_measured(const Rule& rule, const Value& value, std::string_view key, Cell& cell) {
  if (rule.type == Type::measured) {
    if (const auto found = measured(rule, value, key, cell)) {
      cell.value = *found;
      if (value.kind != Value::Kind::table) cell.place = sizes_.said_at(value);
    }
    return;
  }
  if (!right_count(rule, value, key, rule.type)) return;
  std::vector<Length> all;
  for (const Value& entry : value.entries) {
    if (const auto found = measured(rule, entry, key, cell)) all.push_back(*found);
  }
  if (all.size() == value.entries.size()) cell.value = std::move(all);
}

std::optional<Length> ScalarReader::measured(const Rule& rule, const Value& value, std::string_view key, Cell& cell) {
  if (value.kind != Value::Kind::table) {
    cell.within.emplace_back();
    return length(rule, value, key);
  }
  for (const Member& member : value.members) {
    if (member.key == "value" || member.key == "within") continue;
    diagnostics_.add(say<"unknown-key">(member.place, key, diag::in_quotes(member.key),
                                        diag::suggestion(member.key, {"value", "within"})));
    return std::nullopt;
  }
  const Value* number = value.find("value");
  if (number == nullptr) {
    diagnostics_.add(say<"missing-key">(value.place, key, "value (what was measured)"));
    return std::nullopt;
  }
  const auto found = length(rule, *number, key);
  const Value* within = value.find("within");
  if (within == nullptr) {
    cell.within.emplace_back();
    return found;
  }
  const auto tolerated = tolerance(*within, key);
  if (!tolerated) return std::nullopt;
  cell.within.push_back(tolerated);
  return found;
}

std::optional<Length> ScalarReader::tolerance(const Value& within, std::string_view key) {
  const std::string full = fmt::format("within of {}", key);
  Rule rule;
  rule.type = Type::length;
  rule.range = {0, largest_within_mm};
  return length(rule, within, full);
}

}  // namespace fitup::spec
