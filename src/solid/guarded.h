#pragma once
// The one door to the kernel: what it throws becomes a Failure that names the operation.

#include <Standard_Failure.hxx>
#include <Standard_Type.hxx>
#include <exception>
#include <stdexcept>
#include <string>
#include <type_traits>
#include <utility>

#include "fitup/result.h"

namespace fitup::solid {

/// Thrown by helpers that run inside `guarded`; never leaves it.
class Trouble : public std::runtime_error {
  using std::runtime_error::runtime_error;
};

[[nodiscard]] inline Failure kernel_failure(std::string operation, std::string reason) {
  return {Failure::Kind::kernel, std::move(operation), std::move(reason)};
}

/// What the kernel says of a failure: its message may be empty, its type name is not.
[[nodiscard]] std::string words_of(const Standard_Failure& failure);

template <class T>
struct AsResult {
  using type = Result<T>;
};
template <class T>
struct AsResult<Result<T>> {
  using type = Result<T>;
};

/// Runs `work`, which gives a T or a Result<T>.
template <class Work>
auto guarded(const std::string& operation, Work&& work) -> typename AsResult<std::invoke_result_t<Work>>::type {
  try {
    return std::forward<Work>(work)();
  } catch (const Standard_Failure& failure) {
    return kernel_failure(operation, words_of(failure));
  } catch (const std::exception& error) {
    return kernel_failure(operation, error.what());
  }
}

}  // namespace fitup::solid
