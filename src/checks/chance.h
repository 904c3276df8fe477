#pragma once
// Chances by sampling: numbers that are the same on every machine, and how well a share of a sample is known.

#include <array>
#include <cstdint>
#include <optional>
#include <random>

namespace fitup::checks {

/// Normal and even numbers from a generator that the standard fixes to the bit; its own distributions differ from
/// library to library.
class Draw {
 public:
  explicit Draw(std::uint64_t seed) : engine_(seed) {}
  /// Even over -1 to 1.
  [[nodiscard]] double even();
  /// Of mean 0 and standard deviation 1 (Marsaglia's polar method).
  [[nodiscard]] double normal();

 private:
  std::mt19937_64 engine_;
  std::optional<double> spare_;
};

/// The interval of Wilson (1927) about `hits` of `tries`, in which the chance lies with 95 percent confidence.
[[nodiscard]] std::array<double, 2> wilson(std::size_t hits, std::size_t tries);

}  // namespace fitup::checks
