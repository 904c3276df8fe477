// Walks the value tree along the key table.
// Entry: validate.

#include "spec/validate.h"

#include <algorithm>
#include <vector>

#include "diag/catalogue.h"
#include "diag/words.h"
#include "spec/scalar.h"
#include "spec/start_from.h"

namespace fitup::spec {

namespace {

using diag::in_quotes;
using diag::say;

std::vector<std::string> keys_of(const Value* table) {
  std::vector<std::string> keys;
  if (table == nullptr) return keys;
  for (const Member& member : table->members) keys.push_back(member.key);
  return keys;
}

std::map<std::string, std::string, std::less<>> kinds_of(const Value* sections) {
  std::map<std::string, std::string, std::less<>> kinds;
  if (sections == nullptr) return kinds;
  for (const Member& member : sections->members) {
    const Value* kind = member.value.find("kind");
    kinds.emplace(member.key, kind == nullptr ? std::string() : kind->text);
  }
  return kinds;
}

std::string joined(const std::string& path, std::string_view key) {
  return path.empty() ? std::string(key) : path + "." + std::string(key);
}

/// The default as if the user had written it there.
Value written(const Rule& rule, UnitSystem shop, const Place& place) {
  Value value;
  value.place = place;
  value.kind = rule.type == Type::yes_no ? Value::Kind::yes_no : Value::Kind::text;
  value.text = rule.fallback.of(shop);
  value.yes = value.text == "true";
  return value;
}

class Walk {
 public:
  Walk(const Value& root, Sizes& sizes, Diagnostics& diagnostics)
      : scalars_(keys_of(root.find("item")), keys_of(root.find("box")), kinds_of(root.find("section")), sizes,
                 diagnostics),
        diagnostics_(diagnostics),
        shop_(shop_of(root)) {}

  /// `value` is null where the table is not written but filled in; `place` then is that of the table around it.
  Cell table(const Node& node, const Value* value, const std::string& path, const Place& place) {
    Cell cell;
    cell.place = place;
    cell.given = value != nullptr;
    if (value != nullptr) {
      for (const Member& member : value->members) given_key(node, member, path, cell);
    }
    std::vector<const Rule*> lacking;
    for (const auto& [key, child] : node.children) {
      const Value* given = value != nullptr ? value->find(key) : nullptr;
      if (given != nullptr && !is_cleared(*child.rule, *given)) continue;
      const Need need = child.rule->need;
      if (need == Need::must || need == Need::framed) lacking.push_back(child.rule);
      if (child.rule->need == Need::filled) filled_in(child, key, path, cell);
    }
    // Where `like` could not be followed, that was said, and what is missing would have come from there.
    if (value != nullptr && value->find("like") != nullptr && node.children.contains("like")) {
      cell.sound = false;
    } else if (!lacking.empty()) {
      missing(std::move(lacking), path, cell, value != nullptr && value->find("outside") != nullptr);
    }
    return cell;
  }

 private:
  /// An empty list takes away what was inherited, be it a list, a value or a whole table: as if the key were not there.
  static bool is_cleared(const Rule& rule, const Value& value) {
    const bool any_number = rule.type == Type::tables || rule.type == Type::lengths ||
                            rule.type == Type::length_pairs || rule.type == Type::texts;
    const bool may_be_absent = rule.need == Need::may || (any_number && rule.need != Need::must && rule.need != Need::framed);
    return may_be_absent && value.kind == Value::Kind::list && value.entries.empty();
  }

  void given_key(const Node& node, const Member& member, const std::string& path, Cell& cell) {
    const auto found = node.children.find(member.key);
    const Node* child = found != node.children.end() ? &found->second : node.named.get();
    if (child == nullptr) return unknown(node, member, path);
    const std::string key = joined(path, diag::printable(member.key));
    if (child->rule->type == Type::quantity) return;  // [sizes] is evaluated by Sizes
    if (is_cleared(*child->rule, member.value)) return;
    if (child == node.named.get() && !scalars_.check_name(member.key, member.place)) {
      cell.sound = false;
      return;
    }
    add(cell, member.key, value_of(*child, member.value, key));
  }

  static void add(Cell& cell, const std::string& key, Cell child) {
    cell.sound = cell.sound && child.sound;
    cell.children.insert_or_assign(key, std::move(child));
  }

  Cell value_of(const Node& node, const Value& value, const std::string& key) {
    const Rule& rule = *node.rule;
    switch (rule.type) {
      case Type::table: {
        if (value.kind != Value::Kind::table) return no_table(node, value, key);
        Cell cell = table(node, &value, key, value.place);
        cell.from_right = value.from_right;
        cell.from_back = value.from_back;
        return cell;
      }
      case Type::named: return value.kind == Value::Kind::table ? named(node, value, key) : wrong(rule, value, key);
      case Type::tables: return value.kind == Value::Kind::list ? list(node, value, key) : wrong(rule, value, key);
      default: return scalars_.read(rule, value, key);
    }
  }

  Cell named(const Node& node, const Value& value, const std::string& key) {
    const std::size_t most = most_entries(Type::named);
    const bool is_sizes = node.named->rule->type == Type::quantity;
    if (!is_sizes && value.members.size() > most) return too_many(value, key, value.members.size(), most);
    if (!is_sizes && value.members.empty()) {
      diagnostics_.add(say<"wrong-count">(value.place, key, "nothing", fmt::format("1 to {}", most)));
    }
    return table(node, &value, key, value.place);
  }

  Cell list(const Node& node, const Value& value, const std::string& key) {
    const std::size_t most = most_entries(Type::tables);
    if (value.entries.size() > most) return too_many(value, key, value.entries.size(), most);
    Cell cell;
    cell.place = value.place;
    cell.given = true;
    cell.from_right = value.from_right;
    cell.from_back = value.from_back;
    if (value.entries.empty()) {
      diagnostics_.add(say<"wrong-count">(value.place, key, "nothing", fmt::format("1 to {}", most)));
      cell.sound = false;
    }
    for (const Value& entry : value.entries) {
      if (entry.kind == Value::Kind::table) {
        const std::string path = fmt::format("{}.{}", key, cell.entries.size() + 1);
        cell.entries.push_back(table(node, &entry, path, entry.place));
      } else {
        const std::string where = "an entry of " + key;
        diagnostics_.add(say<"wrong-type">(entry.place, where, kind_in_words(entry.kind), "a table of keys"));
        cell.entries.push_back(unsound(entry.place));
      }
      cell.sound = cell.sound && cell.entries.back().sound;
    }
    return cell;
  }

  Cell too_many(const Value& value, const std::string& key, std::size_t count, std::size_t most) {
    diagnostics_.add(say<"too-many">(value.place, key, count, most));
    return unsound(value.place);
  }

  Cell wrong(const Rule& rule, const Value& value, const std::string& key) {
    diagnostics_.add(say<"wrong-type">(value.place, key, kind_in_words(value.kind), type_in_words(rule)));
    return unsound(value.place);
  }

  /// Says what the table must hold, as little as it may.
  Cell no_table(const Node& node, const Value& value, const std::string& key) {
    std::vector<const Rule*> needed;
    for (const auto& [name, child] : node.children) {
      if (child.rule->need == Need::must) needed.push_back(child.rule);
    }
    std::sort(needed.begin(), needed.end());  // they point into one vector
    std::vector<std::string> names;
    for (const Rule* rule : needed) names.emplace_back(rule->key.substr(rule->key.rfind('.') + 1));
    const std::string wanted =
        type_in_words(*node.rule) + (names.empty() ? "" : fmt::format(", with {} at least", diag::listed(names)));
    diagnostics_.add(say<"wrong-type">(value.place, key, kind_in_words(value.kind), wanted));
    return unsound(value.place);
  }

  static Cell unsound(const Place& place) {
    Cell cell;
    cell.place = place;
    cell.given = true;
    cell.sound = false;
    return cell;
  }

  void unknown(const Node& node, const Member& member, const std::string& path) {
    std::vector<std::string> known;
    for (const auto& [key, child] : node.children) known.push_back(key);
    const std::string where = path.empty() ? "the spec" : path;
    diagnostics_.add(
        say<"unknown-key">(member.place, where, in_quotes(member.key), diag::suggestion(member.key, known)));
  }

  /// All that one table lacks in one diagnostic, in the order of the key table.
  void missing(std::vector<const Rule*> lacking, const std::string& path, Cell& cell, bool sized) {
    std::sort(lacking.begin(), lacking.end());  // they point into one vector
    std::string keys;
    for (const Rule* rule : lacking) {
      const std::string_view key = rule->key.substr(rule->key.rfind('.') + 1);
      // An outer size that is whole leaves nothing to state, and yet it is said that nothing is.
      const bool by_size = sized && rule->key == "box.NAME.clearance";
      keys += fmt::format("{}{} ({}{})", keys.empty() ? "" : ", ", key, rule->meaning,
                          by_size ? ": here, where outside gives all three sizes, clearance = {} is enough" : "");
    }
    diagnostics_.add(say<"missing-key">(cell.place, path.empty() ? "the spec" : path, keys));
    cell.sound = false;
  }

  void filled_in(const Node& child, const std::string& key, const std::string& path, Cell& cell) {
    const Rule& rule = *child.rule;
    const std::string full = joined(path, key);
    const bool is_table = rule.type == Type::table || rule.type == Type::named;
    Cell value =
        is_table ? table(child, nullptr, full, cell.place) : scalars_.read(rule, written(rule, shop_, cell.place), full);
    value.given = false;
    add(cell, key, std::move(value));
  }

  ScalarReader scalars_;
  Diagnostics& diagnostics_;
  UnitSystem shop_;
};

}  // namespace

Cell validate(const Value& root, Sizes& sizes, Diagnostics& diagnostics) {
  const Place no_place{root.place.source, 0, 0, 1};
  return Walk(root, sizes, diagnostics).table(schema(), &root, "", no_place);
}

}  // namespace fitup::spec
