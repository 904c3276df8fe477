// Findings as calm, aligned text, and the cautions that go with them.
// Entry: findings_text, findings_text_file, has_findings_page.

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "output/finding_picture.h"
#include "output/findings_files.h"
#include "output/lists.h"
#include "output/text.h"
#include "output/units.h"

namespace fitup {
namespace {

using output::PaperUnits;

constexpr std::size_t column = 13;  // the longest verdict, "not checked", and two spaces
constexpr std::size_t page = 110;

/// Words broken into lines no wider than the page, each but the first indented.
std::string wrapped(std::string_view text, std::size_t indent) {
  std::string out;
  std::size_t used = indent;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find_first_of(" \n", at), text.size());
    const std::string_view word = text.substr(at, end - at);
    at = end + 1;
    if (word.empty()) continue;
    if (used > indent && used + 1 + word.size() > page) {
      out += "\n" + std::string(indent, ' ');
      used = indent;
    } else if (used > indent) {
      out += " ";
      ++used;
    }
    out += word;
    used += word.size();
  }
  return out;
}

std::string line(std::string_view head, std::string_view text) {
  return fmt::format("{:<{}}{}\n", head, column, wrapped(text, column));
}

std::string measured(const Finding& f, const PaperUnits& units) {
  std::string text = f.value ? units.measure(*f.value, f.unit) : "";
  if (f.limit) text += fmt::format("{}limit {}", text.empty() ? "" : ", ", units.measure(*f.limit, f.unit));
  if (!f.source.empty()) text += fmt::format("{}{}", text.empty() ? "" : ", from ", f.source);
  return text;
}

std::string joined(const std::vector<std::string>& parts) {
  std::string text;
  for (const std::string& part : parts) text += (text.empty() ? "" : ", ") + part;
  return text;
}

std::string paragraph(const Finding& f, const std::string& picture, const PaperUnits& units) {
  std::string text = line(to_text(f.verdict), fmt::format("{}: {}", f.check, units.sentence(f.message)));
  if (const std::string m = measured(f, units); !m.empty()) text += line("  measured", m);
  if (!f.parts.empty()) text += line("  parts", joined(f.parts));
  if (f.at) {
    text += line("  place", fmt::format("x {}, y {}, z {} {}", units.length(f.at->x), units.length(f.at->y),
                                        units.length(f.at->z), units.length()));
  }
  if (!f.key.empty()) text += line("  key", f.key);
  if (f.remedy) text += line("  to mend", output::remedy_text(*f.remedy));
  if (!picture.empty()) text += line("  picture", picture);
  return text;
}

std::size_t count(const Findings& findings, Verdict verdict) {
  return static_cast<std::size_t>(
      std::count_if(findings.all.begin(), findings.all.end(), [&](const Finding& f) { return f.verdict == verdict; }));
}

int badness(Verdict verdict) {
  switch (verdict) {
    case Verdict::fail: return 0;
    case Verdict::marginal: return 1;
    case Verdict::not_checked: return 2;
    case Verdict::pass: return 3;
  }
  return 3;
}

std::string summary(const Findings& findings) {
  return fmt::format("{} fail, {} marginal, {} not checked, {} pass", count(findings, Verdict::fail),
                     count(findings, Verdict::marginal), count(findings, Verdict::not_checked),
                     count(findings, Verdict::pass));
}

/// `pictures`: the path of each finding's, empty where there is none.
std::string text_with(const std::vector<std::string>& pictures, const Findings& findings, const PaperUnits& units) {
  std::vector<std::size_t> sorted(findings.all.size());
  std::iota(sorted.begin(), sorted.end(), std::size_t{0});
  std::stable_sort(sorted.begin(), sorted.end(), [&](std::size_t a, std::size_t b) {
    return badness(findings.all[a].verdict) < badness(findings.all[b].verdict);
  });
  std::string text = summary(findings) + "\n";
  for (const std::size_t i : sorted) text += "\n" + paragraph(findings.all[i], pictures[i], units);
  if (const auto delicate = output::delicate_lines(findings, units); !delicate.empty()) {
    text += "\n";
    for (const std::string& l : delicate) text += wrapped(l, 2) + "\n";
  }
  return text;
}

}  // namespace

std::string findings_text(const Findings& findings, UnitSystem system) {
  return text_with(std::vector<std::string>(findings.all.size()), findings, PaperUnits(system));
}

namespace output {

std::vector<std::string> delicate_lines(const Findings& findings, const PaperUnits& units) {
  std::vector<std::string> lines;
  if (findings.delicate.empty()) return lines;
  lines.emplace_back(
      "What if a measurement is a little off, with all that is made as it is planned? The most delicate first:");
  for (const Delicate& d : findings.delicate) {
    const std::string within = fmt::format("{} {}", units.length(d.within_mm), units.length());
    lines.push_back(fmt::format("{} {} by {} {} ({}): {}, {}", d.key, d.off_mm < 0 ? "smaller" : "larger",
                                units.length(std::abs(d.off_mm)), units.length(),
                                d.within_given
                                    ? "measured within " + within
                                    : "measured within " + within + " by common practice, as it does not say",
                                d.check, units.sentence(d.message)));
  }
  return lines;
}

std::string remedy_text(const Remedy& remedy) {
  std::string text = fmt::format("{} = {} would pass", remedy.key, remedy.value);
  if (!remedy.marginal.empty()) text += fmt::format(", with something marginal in {}", joined(remedy.marginal));
  return text;
}

std::string cautions() {
  return R"(Cautions

- This helps to plan the making of an enclosure. It approves nothing and certifies nothing. Local codes, and the
  people who hold the licence or the certificate for a piece of work, come before anything written here.

- Stored energy and high voltage: a battery cannot be switched off. Keep its terminals covered, work with
  insulated tools, and leave connecting it to qualified people.

- Thermal runaway: cells that are damaged, crushed or overheated burn and give off poisonous, explosive gas.
  Give the gas a way out that leads away from people. Keep cells out of the frame while anything is welded,
  ground or drilled.

- Welding and cutting: fumes (zinc above all), sparks, ultraviolet light. Ventilate, shield, keep a fire watch.
  Do not hang closed sections in a zinc bath without vent holes.

- Lifting: nobody stands under a load. Lift points, slings and the way they pull need a competent person's
  judgement and a test before use.

- Laser-cut and sawn edges are sharp: break them before the parts are handled.

- What says "not checked" was not checked. What passes was compared with the stated limit and nothing else.
)";
}

bool has_findings_page(const std::set<FileGroup>& only, Release release) {
  return asked_for(only, {FileGroup::checks}) || release != Release::complete;
}

std::string findings_text_file(const Findings& findings, const JobInfo& info, Release release) {
  std::string text = fmt::format("{}\n{}, revision {}, spec {}\n\n", info.title.empty() ? info.name : info.title,
                                 info.name, info.revision, short_hash(info.spec_hash));
  if (release == Release::withheld) {
    text +=
        "A check fails: this folder has no files to cut, print or drill from. Mend what is listed first, or\n"
        "give --anyway to have them regardless.\n\n";
  } else if (release == Release::written_anyway) {
    text += "A check fails: the files to cut, print and drill from were written because --anyway was given.\n\n";
  }
  return text + text_with(picture_paths(findings), findings, PaperUnits(info.units)) + "\n" + cautions();
}

}  // namespace output
}  // namespace fitup
