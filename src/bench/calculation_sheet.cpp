// Scope, inputs, load path, checks with formula and result, deformed frame, what is missing, a line to sign.
// Entry: calculation_paper.

#include "bench/calculation_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

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
        "and "
        "elastic, at small deflections but where it is said. An aid to the person who signs, and no certificate: "
        "nothing "
        "here approves anything.");
  }

  void inputs() {
    flow_.heading("2  Inputs and where they come from");
    Table table{{{"input"}, {"value"}, {"source"}}, {}};
    for (const CalculationInput& in : calculation_.inputs) {
      table.rows.push_back(
          {{units_.sentence(in.what), units_.sentence(in.value), in.source.empty() ? "missing" : in.source}});
    }
    flow_.table(table);
  }

  void path() {
    flow_.heading("3  The way of the load");
    for (const std::string& line : calculation_.load_path) flow_.sentence(units_.sentence(line));
  }

  [[nodiscard]] static bool is_reckoned(const Finding& f) {
    return is_load_check(f.check) && (f.value || f.verdict != Verdict::not_checked) && f.check != "weight";
  }

  void checks() {
    flow_.heading("4  Checks");
    Table table{{{"check"}, {"of"}, {"result", Anchor::right}, {"limit", Anchor::right}, {"verdict"}}, {}};
    for (const Finding& f : findings_.all) {
      if (!is_reckoned(f)) continue;
      Row row{{f.check, f.parts.empty() ? "the whole" : f.parts.front(), f.value ? amount(*f.value, f.unit) : "",
               f.limit ? amount(*f.limit, f.unit) : "", std::string(to_text(f.verdict))}};
      const std::string_view formula = formula_of(f.check);
      if (!formula.empty()) row.below.push_back({"formula", std::string(formula)});
      row.below.push_back({"here", units_.sentence(f.message)});
      if (f.at) row.below.push_back({"at", place_words(*f.at)});
      if (!f.source.empty()) row.below.push_back({"by", units_.sentence(f.source)});
      if (f.remedy) row.below.push_back({"mended by", f.remedy->key + " = " + f.remedy->value});
      table.rows.push_back(std::move(row));
    }
    if (table.rows.empty()) return flow_.sentence("Nothing that bears a load was reckoned.");
    flow_.table(table);
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
        "rod plates under shock, slings and hook.");
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
      texts.push_back(formula_of(f.check));
    }
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
    flow_.heading("8  Cautions");
    for (const char* line : {"Local codes, and the people who hold the licence or the certificate for a piece of work, "
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
                             "with nothing else."}) {
      flow_.sentence(line);
    }
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
