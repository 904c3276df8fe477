#pragma once
// The exchange structure of ISO 10303-21: instances, their parameters, and the strings in them.

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

namespace fitup::output {

/// `#12=TYPE(parameters)`; a complex instance `#12=(A(..)B(..))` has an empty type and everything in parameters.
struct StepInstance {
  std::string_view type;
  std::string_view parameters;

  [[nodiscard]] std::vector<int> references() const;
  [[nodiscard]] std::vector<std::string> strings() const;  // decoded to UTF-8
  [[nodiscard]] std::vector<double> numbers() const;       // outside strings and references
  /// The references inside the record of this type in a complex instance.
  [[nodiscard]] std::vector<int> references_of(std::string_view type_name) const;
};

struct StepData {
  std::unordered_map<int, StepInstance> instances;
  std::vector<int> order;  // as they stand in the file
  std::string flaw;        // empty: none

  [[nodiscard]] const StepInstance* find(int id) const;
};

/// Views into `text`, which must outlive the result.
[[nodiscard]] StepData read_part21(std::string_view text);

/// The inside of a string of the file to UTF-8: '' and \\ undoubled, \X2\ and \X4\ decoded.
[[nodiscard]] std::string decoded_step_string(std::string_view text);

}  // namespace fitup::output
