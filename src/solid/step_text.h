#pragma once
// Strings of ISO 10303-21 files, and the pass that puts ours into the text that the kernel wrote.

#include <string>
#include <string_view>
#include <vector>

namespace fitup::solid {

/// UTF-8 to the inside of an ISO 10303-21 string: apostrophe and reverse solidus doubled, characters 32..126 as they
/// are, others as \X2\hhhh\X0\ (one UTF-16 code unit each) or \X4\hhhhhhhh\X0\ beyond the basic plane; control
/// characters and bytes that are no UTF-8 become a space.
[[nodiscard]] std::string step_string(std::string_view utf8);

/// The words that go into a file. The kernel is given keys instead of them: it would break long strings over
/// lines and write UTF-8 as it is.
class StepWords {
 public:
  /// The key that stands for `words` while the kernel writes.
  [[nodiscard]] std::string key(std::string words);
  /// The kernel's text with every key replaced and every string on one line.
  [[nodiscard]] std::string put_into(std::string_view text) const;

 private:
  [[nodiscard]] std::string replaced(const std::string& content) const;
  std::vector<std::string> words_;
};

}  // namespace fitup::solid
