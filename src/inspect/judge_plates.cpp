// Measures plates and their cut-outs, and judges them against a thickness.
// Entry: judge_plates.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <set>

#include "checks/cut_judge.h"
#include "inspect/judge_drawing.h"
#include "inspect/tab_slots.h"

namespace fitup::inspect {

namespace {

using geometry::NarrowKind;
using geometry::NarrowPlace;

const std::string narrow_source = "common practice: the thickness at least; up to 1.5 times it ask the shop";
constexpr std::size_t most_measured = 2000;
// A round contour of less than this share of the largest plate's area, beside it, is a hole that lies outside.
constexpr double stray_share = 0.05;

Vec3 in_space(Vec2 p) { return {p.x, p.y, 0}; }

struct Totals {
  double area_mm2 = 0;
  double length_mm = 0;
  std::size_t contours = 0;
  std::size_t holes = 0;
  Box2 box;
};

Totals totals_of(const std::vector<Profile>& profiles) {
  Totals t;
  for (const Profile& p : profiles) {
    t.area_mm2 += p.area_mm2();
    t.length_mm += p.perimeter_mm();
    t.contours += 1 + p.holes.size();
    t.holes += p.holes.size();
    const Box2 b = p.bounds();
    t.box.add(b.low);
    t.box.add(b.high);
  }
  return t;
}

void state(Report& report, const Totals& t, std::size_t plates, const InspectOptions& options) {
  report.number("size x", t.box.size().x, "mm");
  report.number("size y", t.box.size().y, "mm");
  report.number("parts", static_cast<double>(plates));
  report.number("cut-outs", static_cast<double>(t.holes));
  report.number("piercings", static_cast<double>(t.contours));
  report.number("cut length", t.length_mm, "mm");
  report.number("area", t.area_mm2, "mm2");
  if (options.thickness_mm) report.number("thickness", *options.thickness_mm, "mm");
  if (options.thickness_mm && options.material) {
    report.words("material", options.material->name);
    report.number("mass", t.area_mm2 * *options.thickness_mm * 1e-9 * options.material->density_kg_per_m3, "kg");
  }
}

/// The narrow places of all plates, alike plates looked at once.
class Measured {
 public:
  /// Of a sheet of that thickness: slots for tabs are counted apart.
  void add(const Profile& profile, std::optional<double> thickness_mm) {
    const Box2 b = profile.bounds();
    const auto grid = [](double v) { return std::llround(v * 100); };
    const auto key = std::tuple(grid(profile.area_mm2()), grid(profile.perimeter_mm()), grid(b.size().x),
                                grid(b.size().y), static_cast<long long>(profile.holes.size()));
    if (!seen_.insert(key).second) return;
    if (seen_.size() > most_measured) {
      complete_ = false;
      return;
    }
    auto search = thickness_mm ? geometry::narrow_places(profile, checks::widest_asked_mm(*thickness_mm, {}))
                               : smallest(profile, norm(b.size()));
    complete_ = complete_ && search.complete;
    more_ = more_ || search.more;
    if (thickness_mm && *thickness_mm <= checks::thickest_with_tab_slots_mm) {
      const auto for_tabs = std::stable_partition(search.places.begin(), search.places.end(), [&](const auto& p) {
        return !is_tab_slot(profile, p, *thickness_mm);
      });
      tab_slots_.insert(tab_slots_.end(), for_tabs, search.places.end());
      search.places.erase(for_tabs, search.places.end());
    }
    places_.insert(places_.end(), search.places.begin(), search.places.end());
    for (const geometry::InnerCorner& c : geometry::inner_corners(profile)) {
      sharp_ += c.radius_mm == 0 ? 1 : 0;
      if (c.radius_mm > 0 && c.radius_mm < least_radius_) least_radius_ = c.radius_mm;
    }
  }

  [[nodiscard]] const NarrowPlace* least(NarrowKind kind) const {
    const NarrowPlace* found = nullptr;
    for (const auto* all : {&places_, &tab_slots_}) {
      for (const NarrowPlace& p : *all) {
        if (p.kind == kind && (found == nullptr || p.width_mm < found->width_mm)) found = &p;
      }
    }
    return found;
  }
  /// Without the slots for tabs.
  [[nodiscard]] const std::vector<NarrowPlace>& places() const { return places_; }
  [[nodiscard]] std::size_t tab_slots() const { return tab_slots_.size(); }
  [[nodiscard]] bool complete() const { return complete_; }
  /// Whether there are more of one kind than are told apart.
  [[nodiscard]] bool more() const { return more_; }
  [[nodiscard]] std::size_t sharp() const { return sharp_; }
  [[nodiscard]] double least_radius() const { return least_radius_; }

 private:
  /// Wider and wider until something of each kind is found.
  static geometry::NarrowSearch smallest(const Profile& profile, double size_mm) {
    geometry::NarrowSearch search;
    constexpr double widest_mm = 100;
    for (double up_to = 2; up_to <= widest_mm; up_to *= 4) {
      search = geometry::narrow_places(profile, std::min(up_to, size_mm));
      const auto has = [&](NarrowKind kind) {
        return std::any_of(search.places.begin(), search.places.end(), [&](const auto& p) { return p.kind == kind; });
      };
      if (!search.complete || up_to >= size_mm || (has(NarrowKind::hole) && has(NarrowKind::web))) break;
    }
    return search;
  }

  std::set<std::tuple<long long, long long, long long, long long, long long>> seen_;
  std::vector<NarrowPlace> places_;
  std::vector<NarrowPlace> tab_slots_;
  bool complete_ = true;
  bool more_ = false;
  std::size_t sharp_ = 0;
  double least_radius_ = 1e300;
};

struct Kind {
  NarrowKind kind;
  std::string_view check;
  std::string_view one;
  std::string_view many;
  std::string_view mend;
};
constexpr Kind kinds[] = {
    {NarrowKind::hole, "smallest hole", "hole", "holes", "make it larger, or mark its centre and drill it"},
    {NarrowKind::slot, "smallest slot", "slot", "slots", "make it wider, or cut it another way"},
    {NarrowKind::web, "smallest web", "web", "webs", "move the cut-outs farther apart or away from the edge"}};

std::string times_words(double times) { return times == 1 ? "" : fmt::format("{:.3g} times ", times); }

std::string tab_slot_words(std::size_t count) {
  return fmt::format(
      "; {} square ends and as wide as the sheet with its play, for the tab of a sheet of that thickness, which "
      "lasers cut up to {:.4g} mm thick without asking (common practice)",
      counted(count, "slot has", "slots have"), checks::thickest_with_tab_slots_mm);
}

/// "; it is at x 10, y 20; the others: 2 mm at x 30, y 20; and 4 more"
std::string where_words(const checks::NarrowFault& fault) {
  constexpr std::size_t most_named = 5;
  const auto at = [](const NarrowPlace& p) { return fmt::format("x {:.4g}, y {:.4g}", p.at.x, p.at.y); };
  if (fault.others.empty()) return {};
  std::string words = fmt::format("; that is at {}; the others: ", at(fault.at));
  const std::size_t named = std::min(fault.others.size(), most_named);
  for (std::size_t i = 0; i < named; ++i)
    words += fmt::format("{}{:.4g} mm at {}", i == 0 ? "" : "; ", fault.others[i].width_mm, at(fault.others[i]));
  const std::size_t more = fault.count - 1 - named;
  return more == 0 ? words : words + fmt::format("; and {} more", more);
}

void judge_narrow(Report& report, const Measured& measured, const Kind& kind, double thickness_mm) {
  const CutRules rules;
  const auto fault = checks::judge_narrow(measured.places(), kind.kind, thickness_mm, rules);
  if (!fault) {
    const double asked = checks::narrow_limits(kind.kind, 1, rules).asked_mm;
    const std::size_t for_tabs = kind.kind == NarrowKind::slot ? measured.tab_slots() : 0;
    report.pass(std::string(kind.check),
                fmt::format("no {}{} is narrower than {}the thickness{}", for_tabs > 0 ? "other " : "", kind.one,
                            times_words(asked), for_tabs > 0 ? tab_slot_words(for_tabs) : ""));
    return;
  }
  Finding& finding =
      report.find(std::string(kind.check), fault->verdict,
                  fmt::format("{}{} narrower than {}the thickness of {:.4g} mm, the smallest {:.4g} mm{}; {}",
                              measured.more() && fault->count >= geometry::most_narrow_of_a_pair ? "at least " : "",
                              counted(fault->count, fmt::format("{} is", kind.one), fmt::format("{} are", kind.many)),
                              times_words(fault->times), thickness_mm, fault->at.width_mm, where_words(*fault), kind.mend),
                  fault->at.width_mm, fault->limit_mm, narrow_source);
  finding.at = in_space(fault->at.at);
}

void judge_parts(Report& report, const Judged& judged, const std::vector<Profile>& profiles) {
  const auto& plates = judged.nesting.plates;
  const double largest = profiles.front().outer.area_mm2();
  std::size_t stray = 0;
  std::size_t inside = 0;
  Vec2 at;
  for (std::size_t i = 1; i < plates.size(); ++i) {
    inside += plates[i].in_cut_out ? 1 : 0;
    if (plates[i].in_cut_out || !plates[i].holes.empty() || !geometry::round_loop(profiles[i].outer)) continue;
    if (profiles[i].outer.area_mm2() > stray_share * largest) continue;
    if (stray++ == 0) at = profiles[i].bounds().middle();
  }
  if (stray > 0) {
    Finding& finding =
        report.find("inside", Verdict::fail,
                    fmt::format("{} outside every outline and would be cut as a loose disc; move it into the "
                                "part, or delete it",
                                counted(stray, "round hole lies", "round holes lie")));
    finding.at = in_space(at);
  } else {
    report.pass("inside", "every cut-out lies inside an outline");
  }
  if (plates.size() - stray > 1) {
    report.find(
        "one part", Verdict::marginal,
        fmt::format("there are {} in the file{}; one part a file, with the quantity beside it, is what most ask for",
                    counted(plates.size() - stray, "part"),
                    inside > 0 ? fmt::format(", {} of them in the cut-out of another", inside) : ""));
  }
}

/// Loose ends go round what closes: what would be its cut-outs counts as parts then.
bool is_open_outline(const Contours& contours, const std::vector<Profile>& profiles) {
  return std::any_of(contours.open.begin(), contours.open.end(), [&](const OpenChain& chain) {
    Box2 round;
    for (const Edge& edge : chain.edges) {
      round.add(edge.bounds().low);
      round.add(edge.bounds().high);
    }
    return std::any_of(profiles.begin(), profiles.end(), [&](const Profile& p) {
      const Box2 b = p.bounds();
      return round.low.x < b.low.x && round.low.y < b.low.y && b.high.x < round.high.x && b.high.y < round.high.y;
    });
  });
}

void leave_open(Report& report, const InspectOptions& options) {
  const std::string why =
      "an outline round it does not close, so that it is not known what is cut out of what; close it";
  report.find("inside", Verdict::not_checked, why);
  for (const Kind& kind : kinds) {
    if (options.thickness_mm) report.find(std::string(kind.check), Verdict::not_checked, why);
  }
}

}  // namespace

void judge_plates(Report& report, const Judged& judged, const InspectOptions& options) {
  const auto& contours = judged.contours.closed;
  if (contours.empty()) return;
  if (!judged.nesting.complete) {
    report.find("inside", Verdict::not_checked,
                "there are too many contours beside each other to tell what lies in what");
    return;
  }
  std::vector<Profile> profiles;
  profiles.reserve(judged.nesting.plates.size());
  for (const Plate& plate : judged.nesting.plates) profiles.push_back(profile_of(plate, contours));
  if (profiles.empty()) return;
  state(report, totals_of(profiles), profiles.size(), options);
  if (is_open_outline(judged.contours, profiles)) return leave_open(report, options);
  judge_parts(report, judged, profiles);
  Measured measured;
  for (const Profile& p : profiles) measured.add(p, options.thickness_mm);
  for (const Kind& kind : kinds) {
    const NarrowPlace* least = measured.least(kind.kind);
    if (least != nullptr) report.number(std::string(kind.check), least->width_mm, "mm");
    if (options.thickness_mm) judge_narrow(report, measured, kind, *options.thickness_mm);
  }
  if (measured.least_radius() < 1e300) report.number("smallest inner radius", measured.least_radius(), "mm");
  if (measured.sharp() > 0) report.number("sharp inner corners", static_cast<double>(measured.sharp()));
  if (!measured.complete()) {
    report.find("smallest web", Verdict::not_checked, "there are too many outlines to measure every web");
  }
}

}  // namespace fitup::inspect
