// Scope, inputs, load path, checks with formula and result, deformed frame, what is missing, a line to sign.
// Entry: calculation_paper.

#include "bench/calculation_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "bench/calculation_inputs.h"
#include "bench/flow.h"
#include "bench/strip.h"
#include "fitup/calculation.h"
#include "fitup/loads.h"
#include "output/units.h"

namespace fitup::bench {
namespace {

constexpr const char* paper_name = "Calculations";
constexpr double picture_mm = 82;
constexpr double sign_mm = 34;

/// As a load goes: what hangs first, what closes the box last.
constexpr std::array<std::string_view, 9> in_order{"lift",      "balance",   "bosses", "frame", "seams",
                                                   "seam-size", "hold-down", "plates", "seals"};

/// Seen from the front, the right and above, as in the assembly's picture: parallel, upright stays upright.
Vec2 seen(Vec3 p) {
  constexpr double across = 0.866, up = 0.5;
  return {across * p.x + 0.5 * p.y, -(p.z + up * 0.7 * p.y - 0.18 * p.x)};
}

class Sheet {
 public:
  Sheet(const Plan& plan, const Findings& findings, const JobInfo& info, const Type& type)
      : findings_(findings),
        calculation_(calculation_of(plan)),
        info_(info),
        units_(info.units),
        type_(type),
        flow_(paper_, type, info.bench.paper, false, strip_height_mm(info, paper_name, type, info.bench.paper, false)) {
    paper_.name = paper_name;
  }

  Paper made() {
    scope();
    inputs();
    path();
    checks();
    for (const DeformedFrame& frame : calculation_.frames) picture(frame);
    not_covered();
    missing();
    editions();
    cautions();
    signature();
    add_strips(paper_, info_, type_);
    return std::move(paper_);
  }

 private:
  void scope() {
    flow_.heading("1  Scope");
    flow_.sentence(fmt::format("{}: {}, revision {}. Spec {}, worked out by version {} of the program.", info_.name,
                               info_.title, info_.revision, info_.spec_hash, info_.version));
    flow_.sentence(
        "Weight, lifting, hold-down and strength of what this spec describes, as far as the sections below say, linear "
        "and elastic, at small deflections but where it is said. What is too much so, and enough by its plastic section or "
        "by limit analysis alone, is no pass: it is marginal, and both stresses are said. A tube's face under a boss and "
        "the plates of feet and lugs are judged by their plastic resistance, as the codes have it. An aid to the person "
        "who signs, and no certificate: nothing here approves anything.");
  }

  void inputs() {
    flow_.heading("2  Inputs and where they come from");
    flow_.table(input_table(calculation_, units_));
    listed(section_table(calculation_, units_),
           "Sections, from their exact outlines with root and toes; y along the first leg or the width, z along the other "
           "or the thickness, axes through the centroid, which is counted from the heel or a corner. A_y and A_z are the "
           "legs or walls along them over 1.5.");
    listed(thread_table(calculation_, units_),
           "Threads of what holds items and mounts, of the class that the rod says or loads.bolts, and of eyes.");
    listed(sheet_table(calculation_, units_), "Sheet and plate, with the elastic and the plastic modulus of each unit of width.");
  }

  void listed(const Table& table, const char* lead) {
    if (table.rows.empty()) return;
    constexpr double with_rows_mm = 40;
    flow_.sentence(lead, text_mm, with_rows_mm);
    flow_.table(table);
  }

  void path() {
    flow_.heading("3  The way of the load");
    for (const std::string& line : calculation_.load_path) flow_.sentence(units_.sentence(line));
  }

  [[nodiscard]] static bool is_reckoned(const Finding& f) {
    return is_load_check(f.check) && (f.value || f.verdict != Verdict::not_checked) && f.check != "weight";
  }

  /// Check by check, its formulas first, the worst finding of each first.
  void checks() {
    flow_.heading("4  Checks");
    int number = 0;
    for (const std::string_view check : in_order) {
      Table table{{{"of"}, {"result", Anchor::right}, {"limit", Anchor::right}, {"used", Anchor::right}, {"verdict"}}, {}};
      std::set<std::string> said;
      for (const Finding& f : findings_.all) {
        if (f.check == check && is_reckoned(f)) table.rows.push_back(row_of(f, said));
      }
      if (table.rows.empty()) continue;
      flow_.heading(fmt::format("4.{}  {}", ++number, check));
      for (const CalculationFormula& f : formulas_of(check)) flow_.lead(fmt::format("{}: {}", f.of, f.formula));
      flow_.table(table);
    }
    if (number == 0) flow_.sentence("Nothing that bears a load was reckoned.");
  }

  [[nodiscard]] Row row_of(const Finding& f, std::set<std::string>& said) const {
    Row row{{f.parts.empty() ? "the whole" : f.parts.front(), f.value ? amount(*f.value, f.unit) : "",
             f.limit ? amount(*f.limit, f.unit) : "", used(f), std::string(to_text(f.verdict))}};
    row.below.push_back({"here", units_.sentence(not_twice(f.message, said))});
    if (f.at) row.below.push_back({"at", place_words(*f.at)});
    if (!f.source.empty()) row.below.push_back({"by", units_.sentence(f.source)});
    if (f.remedy) row.below.push_back({"mended by", f.remedy->key + " = " + f.remedy->value});
    return row;
  }

  [[nodiscard]] static std::string used(const Finding& f) {
    return f.value && f.limit && *f.limit > 0 ? fmt::format("{:.0f} %", 100 * *f.value / *f.limit) : "";
  }

  /// Whole sentences behind the first that stand above already are not said again.
  [[nodiscard]] static std::string not_twice(std::string_view message, std::set<std::string>& said) {
    std::string out;
    bool left_out = false;
    for (std::size_t from = 0; from < message.size();) {
      const std::size_t end = end_of_sentence(message, from);
      const std::string sentence(message.substr(from, end - from));
      const bool is_new = said.insert(sentence).second || from == 0;
      if (is_new) out += (out.empty() ? "" : ". ") + sentence;
      left_out = left_out || !is_new;
      from = std::min(message.size(), end + 2);
    }
    return left_out ? out + ". The rest as above" : out;
  }

  /// Where a full stop stands before a capital letter.
  [[nodiscard]] static std::size_t end_of_sentence(std::string_view text, std::size_t from) {
    for (std::size_t at = text.find(". ", from); at != std::string_view::npos; at = text.find(". ", at + 1)) {
      if (at + 2 < text.size() && text[at + 2] >= 'A' && text[at + 2] <= 'Z') return at;
    }
    return text.size();
  }

  [[nodiscard]] std::string amount(double value, const std::string& unit) const {
    if (value == 0) return units_.measure(value, unit);
    const double step = std::pow(10, std::ceil(std::log10(std::abs(value))) - 4);  // four digits say enough
    return units_.measure(std::round(value / step) * step, unit);
  }

  [[nodiscard]] std::string place_words(Vec3 at) const {
    return fmt::format("x {}, y {}, z {} {}", units_.drawn(at.x), units_.drawn(at.y), units_.drawn(at.z),
                       units_.length());
  }

  /// As planned thin, as it moves bold.
  void picture(const DeformedFrame& frame) {
    if (frame.planned.empty()) return;
    const std::string title = units_.sentence(
        fmt::format("The frame {}, with its welded plates: moves by {:.2f} mm at most, drawn {:.0f} times", frame.words,
                    frame.most_mm, std::max(1.0, frame.times)));
    const auto title_lines = type_.wrapped(title, text_mm, true, flow_.width_mm());
    const double title_mm = text_mm * line_height * static_cast<double>(title_lines.size()) + 4;
    const Box2 room = flow_.room(picture_mm + title_mm);
    Page& page = flow_.page();
    double y = room.low.y;
    for (const std::string& line : title_lines) {
      y += text_mm * line_height;
      page.labels.push_back(type_.label({room.low.x, y}, line, text_mm, Anchor::left, true));
    }
    Box2 extent;
    for (const auto* chains : {&frame.planned, &frame.moved}) {
      for (const auto& line : *chains) {
        for (const Vec3 p : line) extent.add(seen(p));
      }
    }
    const Vec2 size = extent.size();
    const double scale = std::min(room.size().x / size.x, (picture_mm - 6) / size.y);
    const Vec2 corner{room.middle().x - scale * extent.middle().x, y + 4 - scale * extent.low.y};
    const auto draw = [&](const std::vector<std::vector<Vec3>>& chains, double width, double grey) {
      for (const auto& line : chains) {
        Stroke stroke;
        stroke.width_mm = width;
        stroke.grey = grey;
        for (const Vec3 p : line) stroke.vertices.push_back({corner + scale * seen(p)});
        page.strokes.push_back(std::move(stroke));
      }
    };
    draw(frame.planned, narrow_mm, 0.6);
    draw(frame.moved, wide_mm, 0);
  }

  void not_covered() {
    flow_.heading("5  What is not covered");
    for (const Finding& f : findings_.all) {
      if (f.verdict != Verdict::not_checked || is_reckoned(f) || f.check == "weight") continue;
      flow_.sentence(fmt::format("{}: {}.", f.check, units_.sentence(f.message)));
    }
    flow_.sentence(
        "Fatigue, corrosion, fire, impact, warping of open sections, what gives at a joint, the steel beside a seam, "
        "shock but as the steady accelerations that are stated, slings and hook.");
  }

  void missing() {
    flow_.heading("6  Evidence");
    Table table{{{"evidence"}, {"here"}, {"given by, date"}}, {}};
    for (const std::string& what : calculation_.missing) {
      table.rows.push_back({{what, "missing", "____________________"}});
    }
    flow_.table(table);
  }

  /// Of all that this paper and its findings name.
  void editions() {
    std::vector<std::string_view> texts;
    for (const CalculationInput& in : calculation_.inputs) {
      for (const std::string* text : {&in.what, &in.value, &in.source}) texts.push_back(*text);
    }
    for (const Finding& f : findings_.all) {
      if (!is_load_check(f.check)) continue;
      texts.push_back(f.message);
      texts.push_back(f.source);
      for (const CalculationFormula& formula : formulas_of(f.check)) texts.push_back(formula.formula);
    }
    for (const CalculationThread& t : calculation_.threads) texts.push_back(t.source);
    for (const std::string& line : calculation_.missing) texts.push_back(line);
    flow_.heading("7  Editions");
    Table table{{{"named above as"}, {"the edition that is meant"}}, {}};
    for (const StandardEdition& e : editions_named_in(texts)) {
      table.rows.push_back({{std::string(e.name), std::string(e.edition)}});
    }
    flow_.table(table);
    flow_.sentence("Where another edition is in force, it comes before this one.");
  }

  void cautions() {
    static constexpr std::array lines{"Local codes, and the people who hold the licence or the certificate for a piece of work, "
                             "come before this paper.",
                             "Nobody stands under a load. Lift points, slings and the way they pull need a competent "
                             "person's judgement and a "
                             "test before use.",
                             "A battery cannot be switched off. Damaged, crushed or overheated cells burn and give off "
                             "poisonous, explosive gas: "
                             "it needs a way out that leads away from people. Keep cells out of the frame while it is "
                             "welded, ground or drilled.",
                             "A closed section in a zinc bath can burst. Fumes of welding, zinc above all; sparks; "
                             "sharp edges of cut parts.",
                             "What says \"not checked\" was not checked. A pass was compared with the stated limit and "
                             "with nothing else."};
    // On one page with the line to sign, which so never stands alone.
    double height = sign_mm + 2 * head_mm * line_height;
    for (const char* line : lines) {
      const auto wrapped = type_.wrapped(line, text_mm, false, flow_.width_mm());
      height += text_mm * line_height * (static_cast<double>(wrapped.size()) + 0.5);
    }
    if (flow_.left_mm() < height) flow_.next_page();
    flow_.heading("8  Cautions");
    for (const char* line : lines) flow_.sentence(line);
  }

  void signature() {
    const Box2 room = flow_.room(sign_mm);
    Page& page = flow_.page();
    double y = room.low.y + 12;
    for (const char* who : {"Reviewed by (name, qualification)", "Signature, date"}) {
      page.labels.push_back(type_.label({room.low.x, y}, who, text_mm));
      page.line({room.low.x + 72, y + 1}, {room.high.x, y + 1}, narrow_mm);
      y += 13;
    }
  }

  const Findings& findings_;
  Calculation calculation_;
  const JobInfo& info_;
  output::PaperUnits units_;
  const Type& type_;
  Paper paper_;
  Flow flow_;
};

}  // namespace

Paper calculation_paper(const Plan& plan, const Findings& findings, const JobInfo& info, const Type& type) {
  return Sheet(plan, findings, info, type).made();
}

}  // namespace fitup::bench
