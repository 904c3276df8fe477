#pragma once
// Collects facts and findings of one file.

#include <string>

#include "fitup/inspect.h"

namespace fitup::inspect {

class Report {
 public:
  explicit Report(std::string format) { inspection_.format = std::move(format); }

  void words(std::string name, std::string text) {
    inspection_.facts.push_back({std::move(name), std::move(text), std::nullopt, {}});
  }
  void number(std::string name, double value, std::string unit = {}) {
    inspection_.facts.push_back({std::move(name), {}, value, std::move(unit)});
  }
  Finding& find(std::string check, Verdict verdict, std::string message) {
    Finding finding;
    finding.check = std::move(check);
    finding.verdict = verdict;
    finding.message = std::move(message);
    inspection_.findings.all.push_back(std::move(finding));
    return inspection_.findings.all.back();
  }
  /// With a measured value and its limit.
  Finding& find(std::string check, Verdict verdict, std::string message, double value_mm, double limit_mm,
                std::string source) {
    Finding& finding = find(std::move(check), verdict, std::move(message));
    finding.value = value_mm;
    finding.limit = limit_mm;
    finding.unit = "mm";
    finding.source = std::move(source);
    return finding;
  }
  void pass(std::string check, std::string message) { find(std::move(check), Verdict::pass, std::move(message)); }
  Inspection take() { return std::move(inspection_); }

 private:
  Inspection inspection_;
};

/// "1 hole", "3 holes"; `many` where the plural is another word.
[[nodiscard]] std::string counted(std::size_t count, std::string_view one, std::string_view many = {});

/// A name or a word of a file, fit for a terminal: control characters and what is no UTF-8 as '?', shortened.
[[nodiscard]] std::string shown(std::string_view text);

[[nodiscard]] Inspection inspect_dxf(std::string_view bytes, const InspectOptions& options);
[[nodiscard]] Inspection inspect_stl(std::string_view bytes, const InspectOptions& options);
[[nodiscard]] Inspection inspect_step(std::string_view bytes, const InspectOptions& options);

}  // namespace fitup::inspect
