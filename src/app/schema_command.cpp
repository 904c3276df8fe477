// schema: the key table as a JSON Schema, so that an editor completes and checks a spec while it is written.
// Entry: schema, spec_schema.
#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "spec/keys.h"

namespace fitup::app {

namespace {

using Json = nlohmann::ordered_json;
using spec::Node;
using spec::Rule;
using spec::Type;

bool is_table(Type type) { return type == Type::table || type == Type::tables || type == Type::named; }

/// A number or an expression. Limits that hold in any unit only: a bare number may be millimetres or inches.
Json quantity(const Rule& rule) {
  Json json{{"type", {"number", "string"}}};
  const bool plain = rule.type == Type::count || rule.type == Type::number;
  const bool limited = rule.range.low != 0 || rule.range.high != 0;
  if (!limited) return json;
  if (rule.range.low >= 0 || plain)
    json[rule.range.above_low ? "exclusiveMinimum" : "minimum"] = plain ? rule.range.low : 0;
  if (plain) json["maximum"] = rule.range.high;
  return json;
}

Json list_of(Json entry, std::size_t least, std::size_t most) {
  return {{"type", "array"}, {"items", std::move(entry)}, {"minItems", least}, {"maxItems", most}};
}

/// An empty list takes away what was inherited; so it does where no list is meant.
std::size_t least_entries(const Rule& rule) { return rule.need == spec::Need::must ? 1 : 0; }

Json measured(const Rule& rule) {
  Json table{{"type", "object"},
             {"properties", {{"value", quantity(rule)}, {"within", {{"type", {"number", "string"}}, {"minimum", 0}}}}},
             {"required", {"value"}},
             {"additionalProperties", false}};
  return {{"anyOf", {quantity(rule), std::move(table)}}};
}

Json text(const Rule& rule) {
  Json json{{"type", "string"}};
  if (rule.type == Type::word) return {{"enum", spec::words_of(rule.words)}};
  if (rule.type == Type::name)
    json["pattern"] = fmt::format("^[A-Za-z0-9][A-Za-z0-9_-]{{0,{}}}$", spec::longest_name - 1);
  if (rule.type == Type::text || rule.type == Type::texts) json["maxLength"] = spec::longest_text;
  return json;
}

Json value_of(const Rule& rule) {
  const std::size_t most = spec::most_entries(rule.type);
  switch (rule.type) {
    case Type::yes_no: return {{"type", "boolean"}};
    case Type::count:
    case Type::number:
    case Type::length:
    case Type::mass:
    case Type::quantity: return quantity(rule);
    case Type::measured: return measured(rule);
    case Type::two_lengths:
    case Type::three_lengths: return list_of(quantity(rule), most, most);
    case Type::three_measured: return list_of(measured(rule), most, most);
    case Type::lengths: return list_of(quantity(rule), least_entries(rule), most);
    case Type::length_pairs: return list_of(list_of(quantity(rule), 2, 2), least_entries(rule), most);
    case Type::texts: return list_of(text(rule), least_entries(rule), most);
    default: return text(rule);
  }
}

Json schema_of(const Node& node);

Json table_of(const Node& node) {
  Json json{{"type", "object"}};
  Json& properties = json["properties"] = Json::object();
  for (const auto& [key, child] : node.children) properties[key] = schema_of(child);
  json["additionalProperties"] = node.named ? schema_of(*node.named) : Json(false);
  return json;
}

Json schema_of(const Node& node) {
  const Rule& rule = *node.rule;
  Json json = rule.type == Type::tables
                  ? list_of(table_of(node), least_entries(*node.rule), spec::most_entries(rule.type))
              : is_table(rule.type) ? table_of(node)
                                    : value_of(rule);
  if (rule.need == spec::Need::may && json.value("type", Json()) != "array") {
    json = {{"anyOf", {std::move(json), {{"type", "array"}, {"maxItems", 0}}}}};
  }
  json["description"] = rule.meaning;
  const auto [metric, inch] = std::pair(rule.fallback.metric, rule.fallback.inch);
  if (!metric.empty() && !is_table(rule.type))
    json["description"] = metric == inch
                              ? fmt::format("{} (default: {})", rule.meaning, metric)
                              : fmt::format("{} (default: {}; of an inch shop: {})", rule.meaning, metric, inch);
  return json;
}

/// What must be given, and nothing else; where `like` stands, it comes from there.
Json required_in(const Node& node) {
  Json must = Json::array();
  Json inner = Json::object();
  for (const auto& [key, child] : node.children) {
    if (child.rule->need == spec::Need::must) must.push_back(key);
    if (!is_table(child.rule->type)) continue;
    Json below = required_in(child);
    if (below.empty()) continue;
    inner[key] = child.rule->type == Type::tables ? Json{{"items", std::move(below)}} : std::move(below);
  }
  Json json = Json::object();
  if (!must.empty()) json["required"] = std::move(must);
  if (!inner.empty()) json["properties"] = std::move(inner);
  if (node.named && is_table(node.named->rule->type)) json["additionalProperties"] = required_in(*node.named);
  if (!node.children.contains("like")) return json;
  return {{"if", {{"required", {"like"}}}}, {"then", Json::object()}, {"else", std::move(json)}};
}

}  // namespace

std::string spec_schema() {
  Json json{
      {"$schema", "http://json-schema.org/draft-07/schema#"},
      {"title", "fitup spec"},
      {"description",
       "A welded enclosure as fitup reads it. Limits with units and what goes together are checked by 'fitup check'."}};
  json.update(table_of(spec::schema()));
  // What a file starts from may bring anything that is missing here.
  json["if"] = {{"required", {"start_from"}}};
  json["then"] = Json::object();
  json["else"] = required_in(spec::schema());
  return json.dump(2) + "\n";
}

Outcome schema(const SchemaRequest&) {
  Outcome outcome{.command = "schema"};
  outcome.text = spec_schema();
  outcome.text_only = true;
  outcome.extra_key = "json_schema";
  outcome.extra_json = outcome.text;
  return outcome;
}

}  // namespace fitup::app
