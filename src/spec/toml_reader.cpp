// Reads TOML into the value tree; the only file that includes the TOML library.
// Entry: read_toml.

#include "spec/toml_reader.h"

#include <algorithm>
#include <cctype>
#include <string>

// The library (3.3) asserts, as on the header "[!]", what its next lines answer with a proper error; with NDEBUG it
// even promises the compiler that those lines are never reached. Without both, they answer.
#undef NDEBUG
#define TOML_ASSERT(expression) static_cast<void>(0)
#define TOML_EXCEPTIONS 0
#include <toml++/toml.h>

#include "diag/catalogue.h"
#include "diag/words.h"
#include "spec/bare_values.h"
#include "spec/dotted_depth.h"
#include "spec/letter_mask.h"

namespace fitup::spec {

namespace {

/// The library limits how deep values are nested, not how many parts a dotted key has; its destructors recurse.
constexpr int deepest_key = 16;

class Converter {
 public:
  Converter(std::string_view text, int source) : source_(source) {
    for (std::size_t begin = 0; begin <= text.size();) {
      const std::size_t end = std::min(text.find('\n', begin), text.size());
      lines_.push_back(text.substr(begin, end - begin));
      begin = end + 1;
    }
  }

  [[nodiscard]] Place place_of(const toml::source_region& region) const {
    Place place{source_, static_cast<int>(region.begin.line), static_cast<int>(region.begin.column), 1};
    if (region.end.line == region.begin.line && region.end.column > region.begin.column) {
      place.length = static_cast<int>(region.end.column - region.begin.column);
    }
    return place;
  }

  [[nodiscard]] Value convert(const toml::node& node) const {
    Value value;
    value.place = place_of(node.source());
    if (const auto* table = node.as_table()) {
      fill_table(*table, value);
    } else if (const auto* list = node.as_array()) {
      value.kind = Value::Kind::list;
      for (const toml::node& entry : *list) value.entries.push_back(convert(entry));
    } else {
      fill_scalar(node, value);
    }
    return value;
  }

 private:
  void fill_table(const toml::table& table, Value& value) const {
    value.kind = Value::Kind::table;
    for (const auto& [key, node] : table) {
      value.members.push_back(Member{restored(key.str()), place_of(key.source()), convert(node)});
    }
    std::stable_sort(value.members.begin(), value.members.end(), [](const Member& a, const Member& b) {
      return a.place.line != b.place.line ? a.place.line < b.place.line : a.place.column < b.place.column;
    });
  }

  void fill_scalar(const toml::node& node, Value& value) const {
    if (const auto* text = node.as_string()) {
      value.kind = Value::Kind::text;
      value.text = restored(text->get());
      value.verbatim = stands_as_it_is(value);
    } else if (const auto* integer = node.as_integer()) {
      value.kind = Value::Kind::number;
      value.number = static_cast<double>(integer->get());
    } else if (const auto* real = node.as_floating_point()) {
      value.kind = Value::Kind::number;
      value.number = real->get();
    } else if (const auto* yes = node.as_boolean()) {
      value.kind = Value::Kind::yes_no;
      value.yes = yes->get();
    } else {
      value.kind = Value::Kind::date;
    }
  }

  /// Whether the text follows one opening quote without escapes, so that a place inside it can be counted.
  [[nodiscard]] bool stands_as_it_is(const Value& value) const {
    const auto line = static_cast<std::size_t>(value.place.line);
    if (line == 0 || line > lines_.size()) return false;
    const std::string_view text = lines_[line - 1];
    std::size_t at = 0;
    for (int column = 1; column < value.place.column && at < text.size(); ++column) {
      ++at;
      while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80) ++at;
    }
    const std::string_view rest = text.substr(at);
    const bool quote = !rest.empty() && (rest[0] == '"' || rest[0] == '\'');
    return quote && rest.substr(1, value.text.size()) == value.text && rest.size() > value.text.size() + 1 &&
           rest[value.text.size() + 1] == rest[0];
  }

  int source_;
  std::vector<std::string_view> lines_;
};

/// Where a place stands in the text.
std::size_t offset_of(std::string_view text, const Place& place) {
  std::size_t at = 0;
  for (int line = 1; line < place.line && at < text.size(); ++line) at = std::min(text.find('\n', at), text.size()) + 1;
  for (int column = 1; column < place.column && at < text.size(); ++column) {
    ++at;
    while (at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0) == 0x80) ++at;
  }
  return std::min(at, text.size());
}

/// What stands at a place of the text as far as it may be a name, a word or an expression: "gap", "2*gap + 1 mm".
std::string_view words_at(std::string_view text, const Place& place) {
  std::string_view rest = text.substr(offset_of(text, place));
  rest =
      rest.substr(0, rest.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_+-*/. "));
  return rest.substr(0, rest.find_last_not_of(' ') + 1);
}

/// A quantity that stands bare where, or just before, the reader stopped: its advice, the place moved onto it.
std::string bare_quantity(std::string_view text, Place& place) {
  const std::size_t stopped = offset_of(text, place);
  const std::size_t newline = stopped == 0 ? std::string_view::npos : text.rfind('\n', stopped - 1);
  const std::size_t begin = newline == std::string_view::npos ? 0 : newline + 1;
  const std::string_view line = text.substr(begin, std::min(text.find('\n', begin), text.size()) - begin);
  const auto value = bare_value(line, stopped - begin);
  if (!value) return {};
  // What stands between the two is one byte a column: digits, signs and units.
  place.column += static_cast<int>(value->begin) - static_cast<int>(stopped - begin);
  place.length = static_cast<int>(value->length);
  return value->advice;
}

/// Back from where the reader stopped in a word that begins as one of TOML's own do, "tube" as "true", to its beginning.
Place begin_of_word(std::string_view text, Place place) {
  const auto letter = [&](std::size_t at) { return std::isalpha(static_cast<unsigned char>(text[at])) != 0; };
  for (std::size_t at = offset_of(text, place); at > 0 && letter(at - 1); --at) --place.column;
  return place;
}

/// For a word that TOML takes for no value at all, the place moved onto it; empty where something else is wrong.
std::string quotes_are_missing(std::string_view text, Place& place, std::string_view reason) {
  const auto says = [&](std::string_view words) { return reason.find(words) != std::string_view::npos; };
  const bool like_its_own =
      says("expected 'true'") || says("expected 'false'") || says("expected 'inf'") || says("expected 'nan'");
  if (like_its_own) place = begin_of_word(text, place);
  if (!like_its_own && !says("could not determine value type")) return {};
  const std::string_view words = words_at(text, place);
  const bool letter = !words.empty() && std::isalpha(static_cast<unsigned char>(words[0])) != 0;
  if (!letter) return {};
  return fmt::format("{0} stands without quotes; words, names and what is worked out with them go in quotes: \"{0}\"",
                     words);
}

/// "Error while parsing array: expected ..." without the beginning: the place says where.
std::string reason(const toml::parse_error& error) {
  std::string_view text = error.description();
  const std::size_t colon = text.find(": ");
  if (text.rfind("Error while", 0) == 0 && colon != std::string_view::npos) text.remove_prefix(colon + 2);
  // Of a limit the library names the macro that sets it.
  return diag::printable(restored(text.substr(0, text.find(" (TOML_"))));
}

}  // namespace

std::string without_mark(std::string text) {
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (std::string_view(text).substr(0, byte_order_mark.size()) == byte_order_mark)
    text.erase(0, byte_order_mark.size());
  return text;
}

std::optional<Value> read_toml(std::string_view text, int source, Diagnostics& diagnostics) {
  if (text.size() > largest_spec_bytes) {
    diagnostics.add(diag::say<"file-too-large">(Place{source, 0, 0}, text.size(), largest_spec_bytes));
    return std::nullopt;
  }
  if (const auto deep = find_deep_key(text, deepest_key)) {
    const std::string why = fmt::format("a key of more than {} parts", deepest_key);
    diagnostics.add(diag::say<"syntax">(Place{source, deep->line, deep->column}, why));
    return std::nullopt;
  }
  const Converter converter(text, source);
  const toml::parse_result parsed = toml::parse(masked(text));
  if (!parsed) {
    const toml::parse_error& error = parsed.error();
    Place place = converter.place_of(error.source());
    place.length = 1;
    const std::string unquoted = quotes_are_missing(text, place, error.description());
    if (!unquoted.empty()) place.length = static_cast<int>(words_at(text, place).size());
    const std::string bare = unquoted.empty() ? bare_quantity(text, place) : std::string();
    diagnostics.add(diag::say<"syntax">(place, !unquoted.empty() ? unquoted : !bare.empty() ? bare : reason(error)));
    return std::nullopt;
  }
  return converter.convert(parsed.table());
}

}  // namespace fitup::spec
