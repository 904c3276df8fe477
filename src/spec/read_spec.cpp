// The whole way from text to Spec: read, override, evaluate, check, build.
// Entry: read_spec.

#include "fitup/spec.h"

#include <algorithm>

#include "diag/catalogue.h"
#include "diag/words.h"
#include "spec/build.h"
#include "spec/cross_checks.h"
#include "spec/sizes.h"
#include "spec/slips.h"
#include "spec/toml_reader.h"
#include "spec/validate.h"

namespace fitup {

namespace {

using diag::in_quotes;
using diag::say;
using spec::Value;

/// Replaces one size of the tree by an argument; its place is in the argument, a source text of its own.
void apply(const Override& override, int source, Value& root, Diagnostics& diagnostics) {
  const Place at_key{source, 1, 1, static_cast<int>(std::max<std::size_t>(diag::code_points(override.key), 1))};
  Value* sizes = root.find("sizes");
  std::vector<std::string> known;
  if (sizes != nullptr) {
    for (const auto& member : sizes->members) known.push_back(member.key);
  }
  Value* target = sizes != nullptr ? sizes->find(override.key) : nullptr;
  if (override.key.find('.') != std::string::npos || known.empty()) {
    diagnostics.add(say<"set-not-a-size">(at_key, in_quotes(override.key)));
  } else if (target == nullptr) {
    diagnostics.add(say<"unknown-size">(at_key, in_quotes(override.key), diag::suggestion(override.key, known)));
  } else {
    Value value;
    value.kind = Value::Kind::text;
    value.text = override.value;
    value.verbatim = true;
    // One before the value: there an expression in the spec has its opening quote.
    value.place = Place{source, 1, at_key.length + 1, 1};
    *target = value;
  }
}

void apply_all(const std::vector<Override>& overrides, Value& root, SpecResult& result) {
  for (const Override& override : overrides) {
    const auto same_key = [&](const Override& other) { return other.key == override.key; };
    result.sources.push_back({"--set", override.key + "=" + override.value});
    const int source = static_cast<int>(result.sources.size()) - 1;
    const auto times = std::count_if(overrides.begin(), overrides.end(), same_key);
    if (times == 1) {
      apply(override, source, root, result.diagnostics);
    } else if (&*std::find_if(overrides.begin(), overrides.end(), same_key) == &override) {
      result.diagnostics.add(say<"set-given-twice">(Place{source, 1, 1, 1}, in_quotes(override.key), times));
    }
  }
}

UnitSystem units_of(const Value& root) {
  const Value* units = root.find("units");
  return units != nullptr && units->text == "in" ? UnitSystem::in_lb : UnitSystem::mm_kg;
}

}  // namespace

SpecResult read_spec(std::string file_name, std::string text, const std::vector<Override>& overrides) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";  // some editors put it first; it is no character
  if (std::string_view(text).substr(0, byte_order_mark.size()) == byte_order_mark)
    text.erase(0, byte_order_mark.size());
  SpecResult result;
  result.sources.push_back({std::move(file_name), std::move(text)});
  std::optional<Value> root = spec::read_toml(result.sources[0].text, 0, result.diagnostics);
  if (!root) return result;
  apply_all(overrides, *root, result);
  spec::Sizes sizes(root->find("sizes"), units_of(*root), result.diagnostics);
  sizes.evaluate_all();
  const spec::Cell cells = spec::validate(*root, sizes, result.diagnostics);
  Spec spec = spec::build(cells, result.sources[0].name);
  spec::check_together(spec, cells, result.diagnostics);
  spec::report_slips(spec, cells, result.diagnostics);
  result.diagnostics.sort();
  if (!result.diagnostics.has_errors()) result.spec = std::move(spec);
  return result;
}

}  // namespace fitup
