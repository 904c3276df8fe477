// An outcome as people read it: findings worst first, aligned, counted; messages with their places.
// Entry: to_people, messages.
#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <vector>

#include "app/outcome.h"
#include "output/findings_files.h"
#include "output/units.h"

namespace fitup::app {

namespace {

using output::PaperUnits;

// Parts of one finding that are named before the rest is counted: --json and findings.txt name all.
constexpr std::size_t most_parts = 6;
// A limit no larger than what counts as contact says nothing that could be measured.
constexpr double no_limit_mm = 1e-3;
constexpr std::array<Verdict, 4> worst_first{Verdict::fail, Verdict::marginal, Verdict::not_checked, Verdict::pass};

std::string_view colour_of(Verdict verdict) {
  switch (verdict) {
    case Verdict::fail: return "\033[1;31m";
    case Verdict::not_checked: return "\033[1;35m";
    case Verdict::marginal: return "\033[1;33m";
    case Verdict::pass: return "\033[32m";
  }
  return "";
}

/// The word itself says the verdict; colour only repeats it.
std::string verdict_cell(Verdict verdict, std::size_t width, bool colour) {
  const std::string word = fmt::format("{:<{}}", to_text(verdict), width);
  return colour ? fmt::format("{}{}\033[0m", colour_of(verdict), word) : word;
}

/// Breaks at spaces so that no line is wider than the page, later lines indented.
std::string wrapped(std::string_view text, std::size_t indent, std::size_t page_width) {
  std::string out;
  std::size_t column = indent;
  while (!text.empty()) {
    const std::size_t space = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, space);
    if (column > indent && column + 1 + word.size() > page_width) {
      out += "\n" + std::string(indent, ' ');
      column = indent;
    } else if (column > indent) {
      out += ' ';
      ++column;
    }
    out += word;
    column += word.size();
    text.remove_prefix(std::min(space + 1, text.size()));
  }
  return out;
}

std::string text_place(const Finding& finding, const SourceTexts& sources) {
  const Place& place = finding.place;
  if (place.line <= 0 || static_cast<std::size_t>(place.source) >= sources.size()) return finding.key;
  const std::string where =
      fmt::format("{}:{}:{}", sources[static_cast<std::size_t>(place.source)].name, place.line, place.column);
  return finding.key.empty() ? where : fmt::format("{}, {}", where, finding.key);
}

std::string parts_in_words(const std::vector<std::string>& parts) {
  const std::size_t named = std::min(parts.size(), most_parts);
  std::string text = "parts: ";
  for (std::size_t i = 0; i < named; ++i) text += (i == 0 ? "" : "; ") + parts[i];
  return named == parts.size() ? text : fmt::format("{}; and {} more", text, parts.size() - named);
}

/// What a reader needs to act; a pass needs none of it.
std::vector<std::string> details(const Finding& finding, const SourceTexts& sources, const PaperUnits& units) {
  std::vector<std::string> lines;
  if (finding.verdict == Verdict::pass) return lines;
  const bool named = std::all_of(finding.parts.begin(), finding.parts.end(), [&](const std::string& part) {
    return finding.message.find(part) != std::string::npos;
  });
  if (!named) lines.push_back(parts_in_words(finding.parts));
  if (finding.value) {
    std::string line = "measured " + units.measure(*finding.value, finding.unit);
    const bool contact = finding.limit && *finding.limit > 0 && *finding.limit <= no_limit_mm && finding.unit == "mm";
    if (finding.limit && !contact) line += ", limit " + units.measure(*finding.limit, finding.unit);
    if (!finding.source.empty() && !contact) line += fmt::format(" ({})", finding.source);
    lines.push_back(line);
  }
  if (finding.at)
    lines.push_back(fmt::format("at x {}, y {}, z {} {}", units.length(finding.at->x), units.length(finding.at->y),
                                units.length(finding.at->z), units.length()));
  const std::string where = text_place(finding, sources);
  if (!where.empty()) lines.push_back(fmt::format("spec: {}", where));
  if (finding.remedy) lines.push_back(output::remedy_text(*finding.remedy));
  return lines;
}

std::string counts(const Findings& findings) {
  std::vector<std::string> parts;
  for (const Verdict verdict : worst_first) {
    const auto count = std::count_if(findings.all.begin(), findings.all.end(),
                                     [verdict](const Finding& f) { return f.verdict == verdict; });
    parts.push_back(fmt::format("{} {}", count, to_text(verdict)));
  }
  return fmt::format("{}", fmt::join(parts, ", "));
}

std::string findings_table(const Outcome& outcome, const Common& common, bool colour, std::size_t width) {
  const Findings& findings = *outcome.findings;
  const PaperUnits units(outcome.units);
  std::vector<const Finding*> rows;
  for (const Finding& finding : findings.all) {
    // What is open in every run and about no part is counted below.
    const bool always = finding.verdict == Verdict::not_checked && finding.parts.empty();
    if (!common.quiet || (finding.verdict != Verdict::pass && !always)) rows.push_back(&finding);
  }
  std::stable_sort(rows.begin(), rows.end(),
                   [](const Finding* a, const Finding* b) { return badness(a->verdict) > badness(b->verdict); });
  std::size_t check_width = 0;
  for (const Finding* row : rows) check_width = std::max(check_width, row->check.size());
  constexpr std::size_t verdict_width = 11;  // "not checked"
  const std::size_t indent = verdict_width + 2 + check_width + 2;
  std::string text;
  for (const Finding* row : rows) {
    text += fmt::format("{}  {:<{}}  {}\n", verdict_cell(row->verdict, verdict_width, colour), row->check, check_width,
                        wrapped(units.sentence(row->message), indent, width));
    for (const std::string& line : details(*row, outcome.sources, units)) {
      text += fmt::format("{}{}\n", std::string(indent, ' '), wrapped(line, indent, width));
    }
  }
  return text;
}

}  // namespace

std::string to_people(const Outcome& outcome, const Common& common, bool colour, std::size_t width) {
  if (!outcome.jobs.empty()) {
    std::string text;
    for (const Outcome& job : outcome.jobs) {
      const std::string part = to_people(job, common, colour, width);
      text += part + (part.empty() || common.quiet ? "" : "\n");
    }
    return common.quiet ? text : text + outcome.last_line;
  }
  if (outcome.text_only || !outcome.findings) return outcome.text;
  std::string table = findings_table(outcome, common, colour, width);
  if (common.quiet) return table;
  std::string text = outcome.text + "\n" + table;
  if (!table.empty()) text += "\n";
  for (const std::string& line : output::delicate_lines(*outcome.findings, PaperUnits(outcome.units))) {
    text += wrapped(line, 2, width) + "\n";
  }
  if (!outcome.findings->delicate.empty()) text += "\n";
  return text + counts(*outcome.findings) + "\n" + outcome.last_line;
}

std::string messages(const Outcome& outcome, bool colour) {
  std::string text;
  for (const Outcome& job : outcome.jobs) text += messages(job, colour);
  for (const Diagnostic& diagnostic : outcome.diagnostics.all()) {
    const std::string message = render(diagnostic, outcome.sources, colour);
    text += message;
    if (!message.ends_with('\n')) text += '\n';
  }
  return text;
}

}  // namespace fitup::app
