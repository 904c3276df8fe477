// Orders diagnostics and renders them with the source line and a caret.
// Entry: render.

#include "fitup/diagnostic.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string_view>
#include <tuple>

#include "diag/words.h"

namespace fitup {

namespace {

constexpr std::size_t widest_excerpt = 120;  // code points of a source line that are shown

struct Colours {
  std::string_view bold, severity, caret, off;
};

Colours colours_of(Severity severity, bool colour) {
  if (!colour) return {};
  const std::string_view mark = severity == Severity::error     ? "\x1b[1;31m"
                                : severity == Severity::warning ? "\x1b[1;33m"
                                                                : "\x1b[1;36m";
  return {"\x1b[1m", mark, "\x1b[1;32m", "\x1b[0m"};
}

std::string_view word_of(Severity severity) {
  switch (severity) {
    case Severity::error: return "error";
    case Severity::warning: return "warning";
    case Severity::note: return "note";
  }
  return "";
}

bool is_known(const Place& place, const SourceTexts& sources) {
  return place.source >= 0 && static_cast<std::size_t>(place.source) < sources.size();
}

std::string where(const Place& place, const SourceTexts& sources) {
  if (!is_known(place, sources)) return {};
  const std::string name = diag::printable(sources[static_cast<std::size_t>(place.source)].name);
  if (place.line <= 0) return fmt::format("{}: ", name);
  return fmt::format("{}:{}:{}: ", name, place.line, place.column);
}

std::string_view line_of(std::string_view text, int line) {
  std::size_t begin = 0;
  for (int i = 1; i < line; ++i) {
    const std::size_t end = text.find('\n', begin);
    if (end == std::string_view::npos) return {};
    begin = end + 1;
  }
  std::string_view found = text.substr(begin, text.find('\n', begin) - begin);
  if (!found.empty() && found.back() == '\r') found.remove_suffix(1);
  return found;
}

/// The line as single-width code points, tabs as one blank, so that the caret can be placed by counting.
std::vector<std::string> cells_of(std::string_view line) {
  std::string text(line);
  std::replace(text.begin(), text.end(), '\t', ' ');
  text = diag::printable(text);
  std::vector<std::string> cells;
  for (const char c : text) {
    const bool continues = (static_cast<unsigned char>(c) & 0xC0) == 0x80;
    if (continues && !cells.empty()) {
      cells.back() += c;
    } else {
      cells.emplace_back(1, c);
    }
  }
  return cells;
}

/// Two lines: the source line (the part around the caret if it is long) and the caret under it.
std::string excerpt(const Place& place, const SourceTexts& sources, const Colours& colours) {
  if (!is_known(place, sources) || place.line <= 0) return {};
  const auto cells = cells_of(line_of(sources[static_cast<std::size_t>(place.source)].text, place.line));
  if (cells.empty()) return {};
  const std::size_t caret = std::min<std::size_t>(std::max(place.column, 1) - 1, cells.size());
  const std::size_t first = caret < widest_excerpt * 3 / 4 ? 0 : caret - widest_excerpt / 2;
  const std::size_t last = std::min(cells.size(), first + widest_excerpt);
  std::string shown = first > 0 ? "..." : "";
  const std::size_t indent = shown.size() + caret - first;
  for (std::size_t i = first; i < last; ++i) shown += cells[i];
  if (last < cells.size()) shown += "...";
  const std::size_t wanted = static_cast<std::size_t>(std::max(place.length, 1));
  const std::size_t marked = std::max<std::size_t>(1, std::min(wanted, last - std::min(last, caret)));
  const std::string number = fmt::format("{:>4}", place.line);
  return fmt::format("{} | {}\n{} | {}{}^{}{}\n", number, shown, std::string(number.size(), ' '),
                     std::string(indent, ' '), colours.caret, std::string(marked - 1, '~'), colours.off);
}

std::string headline(const Diagnostic& d, const SourceTexts& sources, const Colours& colours) {
  const std::string id = d.severity == Severity::note || d.id.empty() ? "" : fmt::format(" [{}]", d.id);
  return fmt::format("{}{}{}{}{}:{} {}{}\n", colours.bold, where(d.place, sources), colours.off, colours.severity,
                     word_of(d.severity), colours.off, d.message, id);
}

auto order_of(const Diagnostic& d) { return std::make_tuple(d.place.source, d.place.line, d.place.column); }

}  // namespace

bool Diagnostics::has_errors() const {
  return std::any_of(all_.begin(), all_.end(), [](const Diagnostic& d) { return d.severity == Severity::error; });
}

void Diagnostics::sort() {
  std::stable_sort(all_.begin(), all_.end(), [](const auto& a, const auto& b) { return order_of(a) < order_of(b); });
  std::set<std::tuple<int, int, int, std::string, std::string>> said;
  const auto repeated = [&](const Diagnostic& d) {
    return !said.emplace(d.place.source, d.place.line, d.place.column, d.id, d.message).second;
  };
  std::erase_if(all_, repeated);
}

std::string render(const Diagnostic& d, const SourceTexts& sources, bool colour) {
  const Colours colours = colours_of(d.severity, colour);
  std::string out = headline(d, sources, colours) + excerpt(d.place, sources, colours);
  for (const Diagnostic& note : d.notes) out += headline(note, sources, colours_of(note.severity, colour));
  return out;
}

}  // namespace fitup
