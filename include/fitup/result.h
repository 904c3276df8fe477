#pragma once
// A value or the reason why there is none. Method names follow std::expected (C++23).

#include <cassert>
#include <string>
#include <utility>
#include <variant>

namespace fitup {

/// What went wrong outside the spec: a file, the kernel, the system. `operation` names what was attempted.
struct Failure {
  enum class Kind { kernel, file, interrupted };
  Kind kind = Kind::kernel;
  std::string operation;
  std::string reason;
};

/// Either a T or a Failure; reading the wrong side is a programming error.
template <class T>
class [[nodiscard]] Result {
 public:
  Result(T value) : state_(std::in_place_index<0>, std::move(value)) {}  // NOLINT(google-explicit-constructor)
  Result(Failure failure)
      : state_(std::in_place_index<1>, std::move(failure)) {}  // NOLINT(google-explicit-constructor)

  [[nodiscard]] bool has_value() const { return state_.index() == 0; }
  explicit operator bool() const { return has_value(); }
  [[nodiscard]] const T& value() const& { return std::get<0>(state_); }
  [[nodiscard]] T&& value() && { return std::get<0>(std::move(state_)); }
  [[nodiscard]] const T& operator*() const& { return value(); }
  [[nodiscard]] const T* operator->() const { return &value(); }
  [[nodiscard]] const Failure& error() const { return std::get<1>(state_); }

 private:
  std::variant<T, Failure> state_;
};

struct Done {};
using Status = Result<Done>;

}  // namespace fitup
