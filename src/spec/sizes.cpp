// Evaluates the names of [sizes] on demand and finds circles among them.
// Entry: Sizes::find, Sizes::quantity_of.

#include "spec/sizes.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "diag/words.h"

namespace fitup::spec {

namespace {

using diag::in_quotes;
using diag::say;

constexpr std::size_t most_sizes = 500;
constexpr std::size_t longest_name = 64;

bool is_word(std::string_view name) {
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; };
  const auto letter_or_digit = [&](char c) { return letter(c) || (c >= '0' && c <= '9'); };
  return !name.empty() && name.size() <= longest_name && letter(name[0]) &&
         std::all_of(name.begin(), name.end(), letter_or_digit);
}

}  // namespace

Sizes::Sizes(const Value* table, UnitSystem units, std::optional<int> arguments, Diagnostics& diagnostics)
    : units_(units), arguments_(arguments), diagnostics_(diagnostics) {
  if (table == nullptr || table->kind != Value::Kind::table) return;
  if (table->members.size() > most_sizes) {
    diagnostics_.add(say<"too-many">(table->place, "sizes", table->members.size(), most_sizes));
    return;
  }
  for (const Member& member : table->members) add(member);
}

void Sizes::add(const Member& member) {
  if (is_unit(member.key)) {
    diagnostics_.add(say<"bad-size-name">(member.place, in_quotes(member.key), "it is the name of a unit"));
  } else if (!is_word(member.key)) {
    diagnostics_.add(say<"bad-size-name">(member.place, in_quotes(member.key),
                                          "use at most 64 letters, digits and _, beginning with a letter"));
  }
  if (member.key.size() <= longest_name) sizes_[member.key].member = &member;
}

void Sizes::evaluate_all() {
  for (auto& [name, size] : sizes_) {
    if (size.state == State::waiting) (void)resolve(name, size, size.member->value.place);
  }
}

std::optional<Quantity> Sizes::find(std::string_view name, const Place& used_at) {
  const auto found = sizes_.find(name);
  if (found != sizes_.end()) {
    const auto quantity = resolve(found->first, found->second, used_at);
    if (!argument_) argument_ = found->second.argument;
    return quantity;
  }
  std::vector<std::string> known;
  for (const auto& [known_name, size] : sizes_) known.push_back(known_name);
  std::string hint = known.empty() ? std::string("; [sizes] is empty") : diag::suggestion(name, known);
  if (!expected_.empty()) hint += fmt::format("; what is wanted here is {}", expected_);
  diagnostics_.add(say<"unknown-size">(used_at, in_quotes(name), hint));
  return std::nullopt;
}

std::optional<Quantity> Sizes::resolve(const std::string& name, Size& size, const Place& used_at) {
  if (size.state == State::open) report_cycle(name, used_at);
  if (size.state != State::waiting) return size.quantity;
  size.state = State::open;
  open_.push_back(name);
  const Value& value = size.member->value;
  const auto around = std::exchange(argument_, std::nullopt);
  if (value.kind == Value::Kind::number || value.kind == Value::Kind::text) {
    size.quantity = evaluated(value);
  } else {
    diagnostics_.add(say<"wrong-type">(value.place, "sizes." + name, kind_in_words(value.kind),
                                       "a number or an expression, such as 12 or \"2*gap + 1 mm\""));
  }
  size.argument = value.place.source == arguments_ ? value.place : argument_;
  argument_ = around;
  open_.pop_back();
  size.state = State::done;
  return size.quantity;
}

void Sizes::report_cycle(std::string_view name, const Place& used_at) {
  std::string chain;
  for (auto it = std::find(open_.begin(), open_.end(), name); it != open_.end(); ++it) chain += *it + " -> ";
  diagnostics_.add(say<"size-cycle">(used_at, chain + std::string(name)));
}

std::optional<Quantity> Sizes::quantity_of(const Value& value, std::string_view expected) {
  argument_.reset();
  expected_ = expected;
  auto quantity = evaluated(value);
  expected_ = {};
  return quantity;
}

std::optional<Quantity> Sizes::evaluated(const Value& value) {
  if (value.kind == Value::Kind::number) {
    if (std::isfinite(value.number)) return bare(value.number, value.units);
    diagnostics_.add(say<"not-finite">(value.place, fmt::format("{}", value.number)));
    return std::nullopt;
  }
  const NameLookup names = [this](std::string_view name, const Place& place) { return find(name, place); };
  return evaluate(Expression{value.text, value.place, value.verbatim, value.quoted}, value.units, names, diagnostics_);
}

}  // namespace fitup::spec
