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
  /// `table` may be null; it must outlive the Sizes. `arguments`: the source of what --set gives, where there is one.
  Sizes(const Value* table, UnitSystem units, std::optional<int> arguments, Diagnostics& diagnostics);

  /// Evaluates every size once, so that an unused one is checked too.
  void evaluate_all();

  /// Empty after a diagnostic, which is given once for each cause.
  [[nodiscard]] std::optional<Quantity> find(std::string_view name, const Place& used_at);

  /// A number or an expression; anything else is the caller's to refuse. `expected`, "a mass, such as 12 kg", is told
  /// with a name that is none of [sizes].
  [[nodiscard]] std::optional<Quantity> quantity_of(const Value& value, std::string_view expected = {});

  /// Where the last quantity_of was said: that of an argument which gave a size that it is worked out from, else the
  /// value's own.
  [[nodiscard]] Place said_at(const Value& value) const { return argument_.value_or(value.place); }

  [[nodiscard]] UnitSystem units() const { return units_; }

 private:
  enum class State { waiting, open, done };
  struct Size {
    const Member* member = nullptr;
    State state = State::waiting;
    std::optional<Quantity> quantity;
    std::optional<Place> argument;  // that gave it, or a size in it
  };

  void add(const Member& member);
  std::optional<Quantity> resolve(const std::string& name, Size& size, const Place& used_at);
  std::optional<Quantity> evaluated(const Value& value);
  void report_cycle(std::string_view name, const Place& used_at);

  std::map<std::string, Size, std::less<>> sizes_;
  std::vector<std::string> open_;  // being evaluated, outermost first
  std::string_view expected_;      // of what is being evaluated
  UnitSystem units_;
  std::optional<int> arguments_;
  std::optional<Place> argument_;  // the first that has a part in what is being evaluated
  Diagnostics& diagnostics_;
};

}  // namespace fitup::spec
