#pragma once
// The names of [sizes]: looked up when used, whatever the order in the text.

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "spec/quantity_parser.h"
#include "spec/value.h"

namespace fitup::spec {

class Sizes {
 public:
  /// `table` may be null; it must outlive the Sizes.
  Sizes(const Value* table, UnitSystem units, Diagnostics& diagnostics);

  /// Evaluates every size once, so that an unused one is checked too.
  void evaluate_all();

  /// Empty after a diagnostic, which is given once for each cause.
  [[nodiscard]] std::optional<Quantity> find(std::string_view name, const Place& used_at);

  /// A number or an expression; anything else is the caller's to refuse.
  [[nodiscard]] std::optional<Quantity> quantity_of(const Value& value);

  [[nodiscard]] UnitSystem units() const { return units_; }

 private:
  enum class State { waiting, open, done };
  struct Size {
    const Member* member = nullptr;
    State state = State::waiting;
    std::optional<Quantity> quantity;
  };

  void add(const Member& member);
  std::optional<Quantity> resolve(const std::string& name, Size& size, const Place& used_at);
  void report_cycle(std::string_view name, const Place& used_at);

  std::map<std::string, Size, std::less<>> sizes_;
  std::vector<std::string> open_;  // being evaluated, outermost first
  UnitSystem units_;
  Diagnostics& diagnostics_;
};

}  // namespace fitup::spec
