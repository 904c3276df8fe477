// Takes an argument apart.
// Entry: Argument.

#include "spec/argument.h"

#include <algorithm>

#include "diag/words.h"
#include "spec/toml_reader.h"

namespace fitup::spec {

namespace {

int code_points(std::string_view text) { return static_cast<int>(diag::code_points(text)); }

/// Whether the rule takes a word, so that 1.4301 is a material and no number.
bool wants_text(const Rule* rule) {
  if (rule == nullptr) return false;
  switch (rule->type) {
    case Type::table:
    case Type::tables:
    case Type::named:
    case Type::yes_no:
    case Type::count:
    case Type::number:
    case Type::length:
    case Type::measured:
    case Type::mass:
    case Type::quantity:
    case Type::two_lengths:
    case Type::three_lengths:
    case Type::three_measured:
    case Type::lengths:
    case Type::length_pairs:
    case Type::texts: return false;
    default: return true;
  }
}

/// What takes a word is neither a table nor a list: there a brace is its first letter, as in {mark}_{name}. An empty
/// list takes away what was inherited.
bool begins_as_toml(std::string_view text, const Rule* rule) {
  if (text.empty()) return false;
  const bool brace = text[0] == '{' || text[0] == '[';
  if (brace && rule != nullptr && rule->type == Type::text) return text == "[]";
  return std::string_view("\"'[{").find(text[0]) != std::string_view::npos;
}

}  // namespace

Argument::Argument(const Override& override, int source, int line)
    : key_(override.key), value_(override.value), source_(source), line_(line) {
  for (std::size_t begin = 0; begin <= key_.size();) {
    const std::size_t end = std::min(key_.find_first_of(".[", begin), key_.size());
    std::string text = key_.substr(begin, end - begin);
    if (text.ends_with(']')) text.pop_back();
    const int column = 1 + code_points(std::string_view(key_).substr(0, begin));
    parts_.push_back({text, Place{source, line, column, std::max(code_points(text), 1)}});
    begin = end + 1;
  }
}

std::string Argument::key() const {
  std::string out;
  for (const Part& part : parts_) out += (out.empty() ? "" : ".") + part.text;
  return out;
}

Place Argument::key_place() const { return {source_, line_, 1, std::max(code_points(key_), 1)}; }

void Argument::prepend(const std::string& part) { parts_.insert(parts_.begin(), {part, key_place()}); }

std::optional<Value> Argument::value(const Rule* rule, Diagnostics& diagnostics) const {
  if (begins_as_toml(value_, rule)) return as_toml(diagnostics);
  if (!wants_text(rule)) {
    Diagnostics unused;
    auto value = as_toml(unused);
    if (value && value->kind != Value::Kind::date) return value;
  }
  Value text;
  text.kind = Value::Kind::text;
  text.text = value_;
  text.verbatim = true;
  text.quoted = false;
  text.place = Place{source_, line_, code_points(key_) + 2, std::max(code_points(value_), 1)};
  return text;
}

/// Read as the only line of a file, with the key's place held by a key of the same width.
std::optional<Value> Argument::as_toml(Diagnostics& diagnostics) const {
  std::string text(static_cast<std::size_t>(line_ - 1), '\n');
  text += "k" + std::string(static_cast<std::size_t>(std::max(code_points(key_) - 1, 0)), ' ') + "=" + value_;
  std::optional<Value> root = read_toml(text, source_, diagnostics);
  if (!root || root->members.size() != 1) return std::nullopt;
  return std::move(root->members[0].value);
}

}  // namespace fitup::spec
