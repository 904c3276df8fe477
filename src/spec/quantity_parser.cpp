// Evaluates quantity expressions by recursive descent.
// Entry: evaluate.

#include "spec/quantity_parser.h"

#include <fmt/format.h>

#include <cmath>
#include <string>
#include <tuple>

#include "diag/catalogue.h"
#include "diag/words.h"
#include "fitup/tables.h"
#include "spec/quantity_rules.h"
#include "spec/tokens.h"
#include "spec/unit_hints.h"

namespace fitup::spec {

namespace {

using diag::say;

class Parser {
 public:
  Parser(const Expression& expression, Tokens tokens, UnitSystem units, const NameLookup& names,
         Diagnostics& diagnostics)
      : expression_(expression), tokens_(std::move(tokens)), units_(units), names_(names), diagnostics_(diagnostics) {}

  std::optional<Quantity> run() {
    if (tokens_.stray) return fail(*tokens_.stray, 1, stray_in_words());
    if (here().kind == Token::Kind::end) return fail(0, 1, "it is empty; write a number, such as \"12 mm\"");
    const auto value = sum();
    if (!value) return std::nullopt;
    if (here().kind != Token::Kind::end) return fail(here().at, here().text.size(), leftover_in_words());
    return value;
  }

 private:
  using Value = std::optional<Quantity>;

  Value sum() {
    Value left = product();
    while (left && (is_sign('+') || is_sign('-'))) {
      const Token sign = take();
      const Value right = product();
      if (!right) return std::nullopt;
      left = summed(*left, *right, sign);
    }
    return left;
  }

  Value product() {
    Value left = factor();
    while (left && (is_sign('*') || is_sign('/'))) {
      const Token sign = take();
      const Value right = factor();
      if (!right) return std::nullopt;
      left = sign.text[0] == '*' ? multiplied(*left, *right, sign) : divided(*left, *right, sign);
    }
    return left;
  }

  Value factor() {
    const Token token = here();
    if (is_sign('+') || is_sign('-') || is_sign('(')) return nested();
    if (token.kind == Token::Kind::number) return number();
    if (token.kind == Token::Kind::word) return name();
    if (token.kind == Token::Kind::end) return fail(token.at, 1, "it ends where a number or a name should follow");
    return fail(token.at, token.text.size(), fmt::format("a number or a name should stand in place of {}", token.text));
  }

  Value nested() {
    const Token token = take();
    if (++depth_ > deepest_nesting) {
      diagnostics_.add(say<"too-deep">(place(token.at, 1), deepest_nesting));
      return std::nullopt;
    }
    Value value = token.text[0] == '(' ? bracketed(token) : factor();
    if (value && token.text[0] == '-')
      value = Quantity{-value->value, value->kind, -value->mm, -value->kg, value->named};
    --depth_;
    return value;
  }

  Value bracketed(const Token& open) {
    const Value value = sum();
    if (!value) return std::nullopt;
    if (!is_sign(')')) return fail(open.at, 1, "this bracket is not closed");
    take();
    return value;
  }

  Value number() {
    const Token first = take();
    double value = first.value;
    if (first.whole && here().kind == Token::Kind::number) {
      const Value fraction = mixed_fraction(first);
      if (!fraction) return std::nullopt;
      value += fraction->value;
    } else if (first.whole && is_fraction_with_unit()) {
      const Token slash = take();
      const Token below = take();
      if (below.value == 0) return zero_division(slash);
      value /= below.value;
    }
    return with_unit(value, first);
  }

  /// After a whole number: "1/2" of "1 1/2".
  Value mixed_fraction(const Token& whole) {
    const Token above = here();
    if (!above.whole || !is_sign('/', 1) || !ahead(2).whole) {
      return fail(above.at, above.text.size(),
                  fmt::format("+, -, * or / should stand between {} and {}", whole.text, above.text));
    }
    take();
    const Token slash = take();
    const Token below = take();
    if (below.value == 0) return zero_division(slash);
    if (above.value >= below.value) {
      return fail(above.at, below.at + below.text.size() - above.at,
                  "the fraction of a mixed number must be less than one");
    }
    return bare(above.value / below.value, units_);
  }

  /// "/16 in": a unit binds to the whole fraction before it, and one over a length would mean nothing.
  [[nodiscard]] bool is_fraction_with_unit() const {
    return is_sign('/') && ahead(1).whole && find_unit(ahead(2).text) != nullptr;
  }

  Value with_unit(double value, const Token& first) {
    Quantity quantity = bare(value, units_);
    if (here().kind == Token::Kind::word) {
      if (const Unit* unit = find_unit(here().text)) {
        take();
        if (unit->symbol == gauge_unit) return gauge(value, first);
        quantity = Quantity{value * unit->factor, unit->kind};
      }
    }
    return finite(quantity, first);
  }

  Value gauge(double number, const Token& first) {
    if (const SheetGauge* found = tables::find_gauge(number)) return Quantity{found->steel_mm, QuantityKind::length};
    std::string all;
    for (const SheetGauge& g : tables::sheet_gauges()) all += fmt::format("{}{}", all.empty() ? "" : ", ", g.number);
    return fail(first.at, first.text.size(), fmt::format("no steel sheet has that gauge; there are: {}", all));
  }

  Value name() {
    const Token token = take();
    if (is_unit(token.text)) {
      return fail(token.at, token.text.size(),
                  fmt::format("the unit {} must follow a number, as in 1 {}", token.text, token.text));
    }
    Value value = names_(token.text, place(token.at, token.text.size()));
    if (value) value->named = true;
    return value;
  }

  Value summed(Quantity left, Quantity right, const Token& sign) {
    const double direction = sign.text[0] == '+' ? 1.0 : -1.0;
    if (const auto value = add(left, right, direction)) return finite(*value, sign);
    const auto [first, verb, second] = sign.text[0] == '+' ? std::tuple(left.kind, "added to", right.kind)
                                                           : std::tuple(right.kind, "subtracted from", left.kind);
    diagnostics_.add(say<"mixed-quantities">(place(sign.at, 1), kind_in_words(first), verb, kind_in_words(second)));
    return std::nullopt;
  }

  Value multiplied(Quantity left, Quantity right, const Token& sign) {
    if (const auto value = multiply(left, right)) return finite(*value, sign);
    if (of_two_units(left, right)) return units_unknown(sign);
    diagnostics_.add(say<"bad-product">(place(sign.at, 1), kind_in_words(left.kind), kind_in_words(right.kind)));
    return std::nullopt;
  }

  Value divided(Quantity left, Quantity right, const Token& sign) {
    if (right.value == 0) return zero_division(sign);
    if (const auto value = divide(left, right)) return finite(*value, sign);
    if (of_two_units(left, right)) return units_unknown(sign);
    diagnostics_.add(say<"bad-quotient">(place(sign.at, 1), kind_in_words(left.kind), kind_in_words(right.kind)));
    return std::nullopt;
  }

  Value units_unknown(const Token& sign) {
    diagnostics_.add(say<"bare-of-two-units">(place(sign.at, 1)));
    return std::nullopt;
  }

  Value finite(Quantity quantity, const Token& at) {
    if (std::isfinite(quantity.value) && std::isfinite(quantity.mm) && std::isfinite(quantity.kg)) return quantity;
    diagnostics_.add(say<"not-finite">(place(at.at, at.text.size()), diag::in_quotes(expression_.text)));
    return std::nullopt;
  }

  Value zero_division(const Token& slash) {
    diagnostics_.add(say<"division-by-zero">(place(slash.at, 1)));
    return std::nullopt;
  }

  Value fail(std::size_t at, std::size_t length, std::string_view why) {
    diagnostics_.add(say<"bad-expression">(place(at, length), diag::in_quotes(expression_.text), why));
    return std::nullopt;
  }

  [[nodiscard]] std::string stray_in_words() const {
    const std::string_view rest = expression_.text.substr(*tokens_.stray);
    if (rest[0] == ',') return comma_hint(expression_.text, *tokens_.stray);
    if (rest[0] == '"') return "inches are written with in, such as 3/16 in";
    const std::size_t length = (static_cast<unsigned char>(rest[0]) & 0x80) == 0 ? 1 : rest.size();
    return fmt::format("{} has no place here", diag::in_quotes(rest.substr(0, length)));
  }

  [[nodiscard]] std::string leftover_in_words() const {
    const Token token = here();
    if (token.text == ")") return "this bracket was never opened";
    if (is_unit(token.text))
      return fmt::format("the unit {} must follow a number; write * 1 {} here", token.text, token.text);
    const Token& before = tokens_.all[next_ - 1];
    if (token.kind == Token::Kind::word && before.kind == Token::Kind::number) {
      if (auto hint = unit_hint(token.text, before.text)) return *std::move(hint);
    }
    return fmt::format("+, -, * or / should stand before {}", diag::in_quotes(token.text));
  }

  [[nodiscard]] Place place(std::size_t at, std::size_t length) const {
    Place place = expression_.place;
    if (!expression_.verbatim) return place;
    place.column += (expression_.quoted ? 1 : 0) + static_cast<int>(diag::code_points(expression_.text.substr(0, at)));
    place.length = static_cast<int>(std::max<std::size_t>(length, 1));
    return place;
  }

  [[nodiscard]] const Token& ahead(std::size_t by) const {
    return tokens_.all[std::min(next_ + by, tokens_.all.size() - 1)];
  }
  [[nodiscard]] const Token& here() const { return ahead(0); }
  Token take() {
    const Token token = here();
    ++next_;
    return token;
  }
  [[nodiscard]] bool is_sign(char sign, std::size_t by = 0) const {
    return ahead(by).kind == Token::Kind::sign && ahead(by).text[0] == sign;
  }

  const Expression& expression_;
  Tokens tokens_;
  std::size_t next_ = 0;
  int depth_ = 0;
  UnitSystem units_;
  const NameLookup& names_;
  Diagnostics& diagnostics_;
};

}  // namespace

std::optional<Quantity> evaluate(const Expression& expression, UnitSystem units, const NameLookup& names,
                                 Diagnostics& diagnostics) {
  return Parser(expression, cut_into_tokens(expression.text), units, names, diagnostics).run();
}

}  // namespace fitup::spec
