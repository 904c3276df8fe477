#pragma once
// Numbers at random that every library draws alike: the standard's generator, without its distributions, which differ
// from library to library.

#include <cstddef>
#include <random>
#include <string>
#include <vector>

namespace fitup::test {

class Draws {
 public:
  explicit Draws(unsigned seed) : random_(seed) {}

  /// From `low` to `high`, both of them too.
  int whole(int low, int high) { return low + static_cast<int>(random_() % static_cast<unsigned>(high - low + 1)); }
  bool flip() { return whole(0, 1) == 1; }
  double between(double low, double high) {
    return low + (high - low) * (static_cast<double>(random_()) / 4294967296.0);
  }
  std::string one_of(const std::vector<std::string>& words) {
    return words[static_cast<std::size_t>(whole(0, static_cast<int>(words.size()) - 1))];
  }

 private:
  std::mt19937 random_;  // 32 bits at a time
};

}  // namespace fitup::test
