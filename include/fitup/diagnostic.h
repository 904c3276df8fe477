#pragma once
// What is said to the user about the spec: id, severity, words, place in the text.

#include <optional>
#include <string>
#include <vector>

namespace fitup {

/// A place in a spec text: index into SourceTexts, line and column from 1. line 0: no place.
/// An argument (`--set`) is a source text of its own, named after the option.
struct Place {
  int source = 0;
  int line = 0;
  int column = 0;
  int length = 1;
  bool operator==(const Place&) const = default;
};

/// A value together with where it was written; `given` is false for a default.
template <class T>
struct Sourced {
  T value{};
  Place place;
  bool given = false;
  const T& operator*() const { return value; }
  const T* operator->() const { return &value; }
};

struct SourceText {
  std::string name;
  std::string text;
};
using SourceTexts = std::vector<SourceText>;

enum class Severity { error, warning, note };

struct Diagnostic {
  std::string id;  // kebab-case, unique in the catalogue (src/diag/catalogue.h)
  Severity severity = Severity::error;
  std::string message;  // what, how much with units, how to mend it
  Place place;
  std::vector<Diagnostic> notes;
};

/// Collects; never throws.
class Diagnostics {
 public:
  void add(Diagnostic d) { all_.push_back(std::move(d)); }
  [[nodiscard]] bool has_errors() const;
  [[nodiscard]] const std::vector<Diagnostic>& all() const { return all_; }
  /// Ordered by place (source, line, column), then by arrival; what was said twice of one place is kept once.
  void sort();

 private:
  std::vector<Diagnostic> all_;
};

/// The form shown in the README: `file:line:column: severity: message [id]`, the line and a caret.
[[nodiscard]] std::string render(const Diagnostic& d, const SourceTexts& sources, bool colour);

}  // namespace fitup
