// Puts arguments into the value tree: finds the key along the key table, reads the value as TOML or as a bare word.
// Entry: apply_overrides.

#include "spec/overrides.h"

#include <fmt/format.h>

#include <algorithm>

#include "diag/catalogue.h"
#include "diag/words.h"
#include "spec/argument.h"
#include "spec/keys.h"
#include "spec/start_from.h"

namespace fitup::spec {

namespace {

using diag::in_quotes;
using diag::say;

std::vector<std::string> keys_of(const Value& table) {
  std::vector<std::string> keys;
  for (const Member& member : table.members) keys.push_back(member.key);
  return keys;
}

bool holds_keys(Type type) { return type == Type::table || type == Type::named || type == Type::tables; }

Value empty_table(const Place& place) {
  Value table;
  table.place = place;
  return table;
}

/// Every key of the table by its whole name, each NAME and entry as it stands in the spec.
void collect_keys(const Node& node, const Value* value, const std::string& path, std::vector<std::string>& out) {
  const auto add = [&](const std::string& key, const Node& child, const Value* below) {
    const std::string full = path.empty() ? key : path + "." + key;
    if (!holds_keys(child.rule->type)) out.push_back(full);
    collect_keys(child, below, full, out);
  };
  if (value != nullptr && value->kind == Value::Kind::list) {
    for (std::size_t i = 0; i < value->entries.size(); ++i)
      collect_keys(node, &value->entries[i], fmt::format("{}.{}", path, i + 1), out);
    return;
  }
  for (const auto& [key, child] : node.children) add(key, child, value != nullptr ? value->find(key) : nullptr);
  if (node.named && value != nullptr) {
    for (const Member& member : value->members) add(member.key, *node.named, &member.value);
  }
}

/// One argument on its way down the tree.
class Setter {
 public:
  Setter(Value& root, const Argument& argument, UnitSystem units, Diagnostics& diagnostics)
      : root_(root), argument_(argument), units_(units), diagnostics_(diagnostics) {}

  void run() {
    const auto parts = argument_.parts();
    const Node* node = &schema();
    Value* at = &root_;
    for (std::size_t i = 0; i < parts.size() && at != nullptr; ++i) {
      at = at->kind == Value::Kind::list ? entry(node, *at, parts[i])
                                         : member(node, *at, parts[i], i + 1 == parts.size());
      path_ += (path_.empty() ? "" : ".") + parts[i].text;
    }
    if (at == nullptr) return take_back();
    const Rule* rule = node != nullptr ? node->rule : nullptr;
    auto value = argument_.value(rule, diagnostics_);
    if (!value) return take_back();
    set_units(*value, units_);
    merge(*at, std::move(*value));
  }

 private:
  Value* entry(const Node* node, Value& list, const Argument::Part& part) {
    const bool turned = list.from_right || list.from_back;
    if (turned && node != nullptr && node->rule->hand == Hand::place) return counted_from_there(list, part);
    std::size_t number = 0;
    for (const char c : part.text) {
      if (c < '0' || c > '9' || number > list.entries.size()) return no_entry(list, part);
      number = 10 * number + static_cast<std::size_t>(c - '0');
    }
    if (number == 0 || number > list.entries.size()) return no_entry(list, part);
    return &list.entries[number - 1];
  }

  /// One place among others that are counted from the far side, and this one would be too.
  Value* counted_from_there(const Value& list, const Argument::Part& part) {
    const std::string side = list.from_right && list.from_back ? "right and the back"
                             : list.from_right                 ? "right"
                                                               : "back";
    diagnostics_.add(say<"set-part-of-turned">(part.place, path_, side, path_));
    return nullptr;
  }

  Value* no_entry(const Value& list, const Argument::Part& part) {
    const std::size_t count = list.entries.size();
    const std::string range = count == 1 ? "1 entry" : fmt::format("{} entries", count);
    diagnostics_.add(say<"set-no-entry">(part.place, path_, in_quotes(part.text), range));
    return nullptr;
  }

  /// Descends `node` too; it becomes null below what the key table knows.
  Value* member(const Node*& node, Value& table, const Argument::Part& part, bool last) {
    const Node* around = node;
    const auto found = around->children.find(part.text);
    const bool by_name = found == around->children.end();
    node = by_name ? around->named.get() : &found->second;
    Value* there = table.find(part.text);
    const bool is_new = last && argument_.is_table();  // another item, section or box, whole
    const bool is_there = !by_name || there != nullptr || measures_a_box(part) || is_new;
    if (node == nullptr || !is_there) return unknown(*around, table, part);
    if (last || (there != nullptr && there->kind == Value::Kind::list))
      return there != nullptr ? there : add(table, part);
    if (!holds_keys(node->rule->type)) return no_keys(part);
    if (there == nullptr && node->rule->type == Type::tables) return no_entries(part);
    return there != nullptr ? there : add(table, part);
  }

  /// The names of [as_built] are those of the boxes, whether the spec says anything of them there or not.
  [[nodiscard]] bool measures_a_box(const Argument::Part& part) const {
    const Value* boxes = root_.find("box");
    return path_ == "as_built" && boxes != nullptr && boxes->find(part.text) != nullptr;
  }

  Value* add(Value& table, const Argument::Part& part) {
    if (grown_ == nullptr) grown_ = &table;
    table.members.push_back({part.text, part.place, empty_table(part.place)});
    return &table.members.back().value;
  }

  /// What was added on a way that leads nowhere lacks all it should hold, which nobody asked for.
  void take_back() {
    if (grown_ != nullptr) grown_->members.pop_back();
  }

  Value* no_keys(const Argument::Part& part) {
    diagnostics_.add(say<"set-no-keys">(part.place, (path_.empty() ? "" : path_ + ".") + part.text));
    return nullptr;
  }

  Value* no_entries(const Argument::Part& part) {
    const std::string key = (path_.empty() ? "" : path_ + ".") + part.text;
    diagnostics_.add(say<"set-no-entry">(part.place, key, in_quotes("1"), "no entries"));
    return nullptr;
  }

  Value* unknown(const Node& around, const Value& table, const Argument::Part& part) {
    std::vector<std::string> known = keys_of(table);
    for (const auto& [key, child] : around.children) known.push_back(key);
    std::sort(known.begin(), known.end());
    known.erase(std::unique(known.begin(), known.end()), known.end());
    if (path_ == "sizes") {
      diagnostics_.add(say<"unknown-size">(part.place, in_quotes(part.text), diag::suggestion(part.text, known)));
      return nullptr;
    }
    if (path_ == "as_built") {
      const Value* boxes = root_.find("box");
      const std::string hint = diag::suggestion(part.text, boxes != nullptr ? keys_of(*boxes) : std::vector<std::string>());
      diagnostics_.add(say<"unknown-box">(part.place, in_quotes(part.text), hint));
      return nullptr;
    }
    std::string hint = whole_key();
    if (hint.empty()) hint = diag::suggestion(part.text, known);
    const std::string where = path_.empty() ? "the spec" : path_;
    diagnostics_.add(say<"unknown-key">(part.place, where, in_quotes(part.text), hint));
    return nullptr;
  }

  /// For "rails.thickness": the one key that ends so.
  [[nodiscard]] std::string whole_key() const {
    if (!path_.empty()) return {};
    std::vector<std::string> all;
    collect_keys(schema(), &root_, "", all);
    const std::string end = "." + argument_.key();
    std::erase_if(all, [&](const std::string& key) { return !key.ends_with(end); });
    return all.size() == 1 ? fmt::format("; did you mean {}?", in_quotes(all[0])) : std::string();
  }

  Value& root_;
  const Argument& argument_;
  UnitSystem units_;
  Diagnostics& diagnostics_;
  std::string path_;
  Value* grown_ = nullptr;  // the first table that something was added to
};

/// The keys at the top of a spec that hold one value.
std::vector<std::string> top_values() {
  std::vector<std::string> keys;
  for (const auto& [key, child] : schema().children) {
    if (!holds_keys(child.rule->type)) keys.push_back(key);
  }
  return keys;
}

/// A bare name is one of [sizes]; what is none but stands at the top of a spec is that key.
bool resolve(Argument& argument, const Value& root, Diagnostics& diagnostics) {
  if (argument.key() == "start_from") {
    diagnostics.add(say<"set-start-from">(argument.key_place()));
    return false;
  }
  if (argument.parts().size() > 1) return true;
  const Value* sizes = root.find("sizes");
  const bool any_size = sizes != nullptr && !sizes->members.empty();
  const bool is_size = any_size && sizes->find(argument.key()) != nullptr;
  if (!is_size && schema().children.contains(argument.key())) return true;
  const auto top_keys = top_values();
  const std::string near = is_size ? "" : diag::nearest(argument.key(), top_keys);
  if (!near.empty() && (!any_size || diag::nearest(argument.key(), keys_of(*sizes)).empty())) {
    const std::string hint = diag::suggestion(argument.key(), top_keys);
    diagnostics.add(say<"unknown-key">(argument.key_place(), "the spec", in_quotes(argument.key()), hint));
    return false;
  }
  if (!any_size) {
    diagnostics.add(say<"set-not-a-size">(argument.key_place(), in_quotes(argument.key())));
    return false;
  }
  argument.prepend("sizes");
  return true;
}

/// The units in which the spec is answered once the arguments are in it.
UnitSystem final_units(const std::vector<Override>& overrides, const Value& root) {
  UnitSystem units = units_of(root, UnitSystem::mm_kg);
  for (const Override& override : overrides) {
    if (override.key != "units") continue;
    Diagnostics unused;  // said when the argument is put into the tree
    const auto value = Argument(override, 0, 1).value(schema().children.at("units").rule, unused);
    units = value && value->text == "in" ? UnitSystem::in_lb : UnitSystem::mm_kg;
  }
  return units;
}

}  // namespace

SourceText text_of(const std::vector<Override>& overrides) {
  SourceText text{"--set", {}};
  for (const Override& override : overrides) {
    text.text += (text.text.empty() ? "" : "\n") + diag::printable(override.key + "=" + override.value);
  }
  return text;
}

std::optional<Member> hand_of(const std::vector<Override>& overrides, int source) {
  for (std::size_t i = 0; i < overrides.size(); ++i) {
    const Argument argument(overrides[i], source, static_cast<int>(i) + 1);
    if (argument.key() != "opposite_hand") continue;
    Diagnostics unused;  // a text is always read
    if (auto value = argument.value(schema().children.at("opposite_hand").rule, unused))
      return Member{argument.key(), argument.key_place(), *std::move(value)};
  }
  return std::nullopt;
}

void apply_overrides(const std::vector<Override>& overrides, int source, Value& root, Diagnostics& diagnostics) {
  const UnitSystem units = final_units(overrides, root);
  std::vector<Argument> arguments;
  for (std::size_t i = 0; i < overrides.size(); ++i) {
    Argument argument(overrides[i], source, static_cast<int>(i) + 1);
    if (resolve(argument, root, diagnostics)) arguments.push_back(std::move(argument));
  }
  for (const Argument& argument : arguments) {
    const auto same = [&](const Argument& other) { return other.key() == argument.key(); };
    const auto times = std::count_if(arguments.begin(), arguments.end(), same);
    if (times == 1 && argument.key() == "opposite_hand") continue;
    if (times == 1) {
      Setter(root, argument, units, diagnostics).run();
    } else if (&*std::find_if(arguments.begin(), arguments.end(), same) == &argument) {
      diagnostics.add(say<"set-given-twice">(argument.key_place(), in_quotes(argument.written_key()), times));
    }
  }
}

}  // namespace fitup::spec
