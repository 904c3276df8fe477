// The key table as a tree and in words.
// Entry: schema, fitup::key_table.

#include "spec/keys.h"

#include <fmt/format.h>

#include "fitup/spec.h"

namespace fitup::spec {

namespace {

struct TypeWords {
  Type type;
  std::string_view name;    // in `fitup explain`
  std::string_view phrase;  // completes "it must be"
};

constexpr TypeWords type_words[] = {
    {Type::table, "table", "a table of keys"},
    {Type::tables, "list of tables", "a list of tables, as in [{ ... }] or under [[ ... ]]"},
    {Type::named, "table of names", "a table"},
    {Type::text, "text", "a text in quotes"},
    {Type::name, "name", "a name in quotes"},
    {Type::word, "word", "a word in quotes"},
    {Type::yes_no, "true or false", "true or false"},
    {Type::count, "count", "a whole number"},
    {Type::number, "number", "a plain number"},
    {Type::length, "length", "a length, such as 12 or \"1 1/2 in\""},
    {Type::measured, "measured length",
     "a length, such as 12 or \"1 1/2 in\", or a measured one, such as { value = 148, within = 0.5 }"},
    {Type::mass, "mass", "a mass, such as 23 or \"50 lb\""},
    {Type::quantity, "quantity", "a number or an expression, such as 12 or \"2*gap + 1 mm\""},
    {Type::two_lengths, "2 lengths", "a list of 2 lengths, such as [43, 130]"},
    {Type::three_lengths, "3 lengths", "a list of 3 lengths, such as [150, 430, 220]"},
    {Type::three_measured, "3 measured lengths",
     "a list of 3 lengths, such as [150, 430, 220]; a measured one may be { value = 148, within = 0.5 }"},
    {Type::lengths, "list of lengths", "a list of lengths, such as [26, 103]"},
    {Type::length_pairs, "list of pairs of lengths", "a list of pairs of lengths, such as [[16, 24], [134, 24]]"},
    {Type::texts, "list of texts", "a list of texts in quotes, such as [\"block 2\", \"front cover\"]"},
    {Type::item, "item", "the name of an item in quotes"},
    {Type::group, "group of parts", "the name of an item or a word for a group of parts in quotes, such as \"frame\""},
    {Type::box, "box", "the name of a box in quotes"},
    {Type::thread, "thread of a rod", "a thread in quotes, such as \"M6\""},
    {Type::screw_thread, "thread", "a thread in quotes, such as \"M4\""},
    {Type::gland_thread, "thread of a cable gland", "a thread in quotes, such as \"M20\""},
    {Type::eye_thread, "thread of a lifting eye", "a thread in quotes, such as \"M10\""},
    {Type::angle, "angle section", "an angle section in quotes, such as \"L 40x40x4\""},
    {Type::flat, "flat bar", "a flat bar in quotes, such as \"40x4\""},
    {Type::bar, "angle or flat bar", "an angle or a flat bar in quotes, such as \"40x8\""},
    {Type::ring, "angle or tube", "an angle or a tube in quotes, such as \"L 40x40x4\" or \"SHS 50x50x5\""},
    {Type::upright, "flat bar, tube or angle", "a flat bar, a tube or an angle in quotes, such as \"40x4\""},
    {Type::stiffener, "angle, flat bar or tube", "an angle, a flat bar or a tube in quotes, such as \"L 30x30x3\""},
    {Type::material, "material", "a material in quotes, such as \"S235JR\""},
};

const TypeWords& words_for(Type type) {
  for (const TypeWords& words : type_words) {
    if (words.type == type) return words;
  }
  return type_words[0];
}

std::string_view unit_of(Type type) {
  switch (type) {
    case Type::mass: return " kg";
    case Type::count:
    case Type::number: return "";
    default: return " mm";
  }
}

std::string range_in_words(const Rule& rule) {
  if (rule.type == Type::word) return std::string(rule.words);
  const Range& range = rule.range;
  if (range.low == 0 && range.high == 0) return {};
  const std::string_view unit = unit_of(rule.type);
  if (range.low == range.high) return fmt::format("{}{}", range.low, unit);
  if (range.above_low) return fmt::format("more than {}{} up to {}{}", range.low, unit, range.high, unit);
  return fmt::format("{}{} to {}{}", range.low, unit, range.high, unit);
}

std::vector<std::string> parts_of(std::string_view key) {
  std::vector<std::string> parts;
  for (std::size_t begin = 0; begin <= key.size();) {
    const std::size_t end = std::min(key.find('.', begin), key.size());
    parts.emplace_back(key.substr(begin, end - begin));
    begin = end + 1;
  }
  return parts;
}

void insert(Node& node, const std::vector<std::string>& parts, std::size_t at, const Rule& rule) {
  if (at == parts.size()) {
    node.rule = &rule;
  } else if (parts[at] == "NAME") {
    if (!node.named) node.named = std::make_unique<Node>();
    insert(*node.named, parts, at + 1, rule);
  } else if (parts[at] == "FACE") {
    for (const Face face : all_faces) insert(node.children[std::string(to_text(face))], parts, at + 1, rule);
  } else {
    insert(node.children[parts[at]], parts, at + 1, rule);
  }
}

}  // namespace

const Node& schema() {
  static const Node root = [] {
    Node node;
    for (const Rule& rule : rules()) insert(node, parts_of(rule.key), 0, rule);
    return node;
  }();
  return root;
}

std::vector<std::string> words_of(std::string_view list) {
  std::vector<std::string> words;
  for (std::size_t begin = 0; begin < list.size();) {
    const std::size_t end = std::min(list.find(", ", begin), list.size());
    words.emplace_back(list.substr(begin, end - begin));
    begin = end + 2;
  }
  return words;
}

std::string type_in_words(const Rule& rule) {
  const std::string phrase(words_for(rule.type).phrase);
  return rule.type == Type::word ? fmt::format("{}: {}", phrase, rule.words) : phrase;
}

std::size_t most_entries(Type type) {
  switch (type) {
    case Type::two_lengths: return 2;
    case Type::three_lengths:
    case Type::three_measured: return 3;
    case Type::tables: return 50;
    case Type::named: return 200;
    default: return 100;
  }
}

}  // namespace fitup::spec

namespace fitup {

std::string_view to_text(Face face) {
  constexpr std::array<std::string_view, 6> words{"front", "back", "left", "right", "top", "bottom"};
  return words[static_cast<std::size_t>(face)];
}

const std::vector<KeyRow>& key_table() {
  static const std::vector<KeyRow> rows = [] {
    std::vector<KeyRow> all;
    for (const spec::Rule& rule : spec::rules()) {
      all.push_back(KeyRow{std::string(rule.key), std::string(spec::words_for(rule.type).name),
                           std::string(rule.fallback.metric), spec::range_in_words(rule),
                           rule.need == spec::Need::must || rule.need == spec::Need::framed, std::string(rule.meaning), std::string(rule.fallback.inch)});
    }
    return all;
  }();
  return rows;
}

}  // namespace fitup
