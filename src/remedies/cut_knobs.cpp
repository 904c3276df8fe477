// The part's own sizes first, then its thickness along what is on the shelf, then what the shop is asked for.
// Entry: cut_knobs, thicker_sheet.
#include "remedies/cut_knobs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "fitup/tables.h"
#include "remedies/sheets.h"

namespace fitup::remedies {

namespace {

constexpr double same_mm = 0.02;

Knob shelf_knob(const Spec& spec, const std::string& material, std::string key, double now_mm,
                std::vector<double> shelf_mm) {
  std::erase_if(shelf_mm, [&](double t) { return std::abs(t - now_mm) < same_mm; });
  shelf_mm.push_back(now_mm);
  std::sort(shelf_mm.begin(), shelf_mm.end());
  std::vector<std::string> words;
  for (const double t : shelf_mm) words.push_back(thickness_words(spec, material, t));
  Knob knob = word_knob(std::move(key), thickness_words(spec, material, now_mm), std::move(words));
  const long at = std::find(shelf_mm.begin(), shelf_mm.end(), now_mm) - shelf_mm.begin();
  knob.change_mm = [shelf_mm = std::move(shelf_mm), at, now_mm](int rung) {
    const long wanted = std::clamp(at + rung, 0L, static_cast<long>(shelf_mm.size()) - 1);
    const double beyond = static_cast<double>(at + rung - wanted);  // further on the ladder is farther away
    return shelf_mm[static_cast<std::size_t>(wanted)] - now_mm + 1000 * beyond;
  };
  return knob;
}

/// A number of times the thickness, in twentieths.
Knob times_knob(std::string key, double now, double thickness_mm) {
  constexpr double parts = 20;
  Knob knob;
  knob.key = std::move(key);
  knob.step_mm = thickness_mm / parts;
  knob.sideways = true;
  const auto times = [now](int rung) { return (std::round(now * parts) + rung) / parts; };
  knob.change_mm = [=](int rung) { return (times(rung) - now) * thickness_mm; };
  knob.value = [=](int rung) -> std::optional<std::string> {
    if (times(rung) <= 0) return std::nullopt;
    return fmt::format("{:.3g}", times(rung));
  };
  return knob;
}

class CutKnobs {
 public:
  CutKnobs(const Concerned& what, const Spec& spec) : what_(what), spec_(spec) {}

  std::vector<Knob> all() {
    if (is("sheet")) {
      smaller_boxes();
      larger_sheets();
      return std::move(knobs_);
    }
    if (is("kerf")) {
      add("cutter.kerf", Length::mm(spec_.cutter.rules.kerf_mm));
      return std::move(knobs_);
    }
    if (is("shelf")) beside_mount_strips();
    if (!is("shelf")) openings();
    if (is("web")) landings();
    if (is("web")) lift_bosses();
    if (is("web")) rails_below_rings();
    if (is("hole")) threads();
    if (!is("inner radius")) thicknesses();
    if (is("web")) borders();
    if (!is("shelf")) what_the_shop_cuts();
    return std::move(knobs_);
  }

 private:
  [[nodiscard]] bool is(std::string_view rule) const { return what_.cause.starts_with(rule); }

  [[nodiscard]] bool is_about(const std::string& key) const {
    return std::any_of(what_.keys.begin(), what_.keys.end(),
                       [&](const std::string& k) { return k == key || k.starts_with(key + "."); });
  }

  void add(std::string key, Length now) {
    knobs_.push_back(length_knob(std::move(key), now, spec_.units, Fineness::half));
  }

  void openings() {
    for (const BoxSpec& box : spec_.boxes) {
      for (const Face face : all_faces) {
        const std::string key = fmt::format("box.{}.face.{}", box.name, to_text(face));
        const bool of_rod_plate = is_about("box." + box.name + ".rod_plates");
        if (!is_about(key) && !of_rod_plate) continue;
        const auto& openings = box.face(face).openings;
        for (std::size_t i = 0; i < openings.size(); ++i)
          opening(openings[i], fmt::format("{}.openings.{}", key, i + 1));
      }
    }
  }

  void opening(const OpeningSpec& opening, const std::string& key) {
    if (is("inner radius")) {
      if (*opening.kind == OpeningKind::rectangle) add(key + ".corner_radius", *opening.corner_radius);
      return;
    }
    if (!is("web") && opening.diameter) add(key + ".diameter", **opening.diameter);
    for (std::size_t axis = 0; axis < 2; ++axis) {
      if (!is("web") && opening.size) add(fmt::format("{}.size.{}", key, axis + 1), (**opening.size)[axis]);
      if (is("web") && opening.pitch) add(fmt::format("{}.pitch.{}", key, axis + 1), (**opening.pitch)[axis]);
    }
    for (std::size_t axis = 0; is("web") && opening.at && axis < 2; ++axis) {
      knobs_.push_back(place_knob(fmt::format("{}.at.{}", key, axis + 1), (**opening.at)[axis], spec_.units));
    }
  }

  /// Where the part comes from; a name that is no key is refused when it is tried.
  void thicknesses() {
    if (what_.thickness_mm <= 0) return;
    const auto shelf = sheets_of(spec_, what_.material);
    for (const std::string& key : what_.keys) {
      for (const char* own : {".thickness", ".strip_thickness", ".screws.strip_thickness", ".edge_strip"}) {
        knobs_.push_back(shelf_knob(spec_, what_.material, key + own, what_.thickness_mm, shelf));
      }
      const auto box = std::find_if(spec_.boxes.begin(), spec_.boxes.end(), [&](const BoxSpec& b) {
        return *b.build == BuildKind::plate && (key.starts_with("box." + b.name) || key == "lifting");
      });
      if (box == spec_.boxes.end()) continue;
      knobs_.push_back(
          shelf_knob(spec_, what_.material, "box." + box->name + ".plates.thickness", what_.thickness_mm, shelf));
    }
  }

  /// Every cover that the part comes from, with its key.
  template <class Use>
  void each_cover(const Use& use) const {
    for (const BoxSpec& box : spec_.boxes) {
      for (const Face face : all_faces) {
        const std::string key = fmt::format("box.{}.face.{}", box.name, to_text(face));
        if (is_about(key) && *box.face(face).closed_by == Closure::cover) use(key, box.face(face));
      }
    }
  }

  /// What stays beside the holes of a cover's screws, and from one to the next.
  void landings() {
    each_cover([this](const std::string& key, const FaceSpec& face) {
      add(key + ".landing_width", *face.landing_width);
      add(key + ".screws.max_spacing", *face.screws.max_spacing);
    });
  }

  /// In the ring of a box of plates the opening begins above the rails, and the slots of the floor lie below them.
  void rails_below_rings() {
    for (const BoxSpec& box : spec_.boxes) {
      const std::string key = "box." + box.name;
      const bool ring = is_about(key + ".face.front") || is_about(key + ".face.back");
      if (*box.build != BuildKind::plate || !ring) continue;
      knobs_.push_back(shelf_knob(spec_, what_.material, key + ".rails.thickness", box.rails.thickness->mm(),
                                  sheets_of(spec_, what_.material)));
    }
  }

  /// Larger screws have larger holes.
  void threads() {
    const auto thread = [this](const std::string& key, const std::string& now) {
      const Thread* known = tables::find_thread(now);
      if (known == nullptr) return;
      std::vector<std::string> sizes;
      for (const Thread& t : tables::threads()) {
        const bool alike = tables::is_unified(t) == tables::is_unified(*known);
        if (alike && t.major_mm >= known->major_mm && tables::find_button_head(t.size) != nullptr)
          sizes.push_back(t.size);
      }
      knobs_.push_back(word_knob(key, now, std::move(sizes)));
    };
    each_cover(
        [&](const std::string& key, const FaceSpec& face) { thread(key + ".screws.thread", *face.screws.thread); });
    for (const BoxSpec& box : spec_.boxes) {
      const std::string key = "box." + box.name + ".rod_plates";
      if (box.rod_plates && is_about(key)) thread(key + ".screw", *box.rod_plates->screw);
    }
  }

  /// Their holes, and those of their doublers.
  void lift_bosses() {
    const bool about_top =
        is_about("lifting") || std::any_of(what_.keys.begin(), what_.keys.end(), [](const auto& key) {
          return key.starts_with("box.") && key.ends_with(".face.top");
        });
    if (!about_top || !spec_.lifting || !spec_.lifting->at) return;
    const auto& at = **spec_.lifting->at;
    for (std::size_t i = 0; i < at.size(); ++i) {
      for (std::size_t axis = 0; axis < 2; ++axis) {
        knobs_.push_back(place_knob(fmt::format("lifting.at.{}.{}", i + 1, axis + 1), at[i][axis], spec_.units));
      }
    }
  }

  /// Of a box of plates: what stays round its openings, and beside the lift bosses on them.
  void borders() {
    for (const BoxSpec& box : spec_.boxes) {
      const bool about = is_about("box." + box.name) || is_about("lifting");
      if (*box.build != BuildKind::plate || !about) continue;
      const Section& section = *spec_.section(*box.frame.section);
      const Length usual = Length::mm(std::max(section.leg_a_mm, section.leg_b_mm));
      add("box." + box.name + ".plates.border", box.plates.border ? **box.plates.border : usual);
    }
  }

  /// What another shop would have to cut, or this one, asked for it.
  void what_the_shop_cuts() {
    const CutRules& rules = spec_.cutter.rules;
    if (is("inner radius")) {
      add("cutter.inner_radius", Length::mm(rules.inner_radius_mm));
      knobs_.back().sideways = true;
      return;
    }
    const auto times = [&](const char* key, double least) {
      const bool refused = what_.value < least * what_.thickness_mm;
      knobs_.push_back(
          times_knob(refused ? key : "cutter.asked_below", refused ? least : rules.asked_below, what_.thickness_mm));
    };
    if (what_.thickness_mm <= 0) return;
    if (is("hole")) times("cutter.smallest_hole", rules.smallest_hole);
    if (is("slot")) times("cutter.smallest_slot", rules.smallest_slot);
    if (is("web")) times("cutter.smallest_web", rules.smallest_web);
  }

  /// A strip that fills what is left between an item and its plate is as thick as the clearance leaves it.
  void beside_mount_strips() {
    for (const BoxSpec& box : spec_.boxes) {
      for (const auto& [side, measured] : clearances_of(box)) {
        const std::string name = fmt::format("{} mount strip ", side);
        const bool named = std::any_of(what_.names.begin(), what_.names.end(),
                                       [&](const std::string& n) { return n.find(name) != std::string::npos; });
        if (named) clearance(box, side, *measured);
      }
    }
  }

  using Clearances = std::array<std::pair<const char*, const Measured*>, 5>;
  static Clearances clearances_of(const BoxSpec& box) {
    const ClearanceSpec& c = box.clearance;
    return {{{"left", &c.left}, {"right", &c.right}, {"top", &c.top}, {"front", &c.front}, {"back", &c.back}}};
  }
  void clearance(const BoxSpec& box, const char* side, const Measured& measured) {
    knobs_.push_back(length_knob(fmt::format("box.{}.clearance.{}", box.name, side), *measured, spec_.units,
                                 Fineness::whole, measured.within));
  }

  void smaller_boxes() {
    for (const BoxSpec& box : spec_.boxes) {
      if (!is_about("box." + box.name)) continue;
      for (const auto& [side, measured] : clearances_of(box)) clearance(box, side, *measured);
    }
  }

  /// Usual sizes (common practice) that are larger than the shop's.
  void larger_sheets() {
    constexpr std::array<std::array<double, 2>, 5> usual{
        {{2000, 1000}, {2500, 1250}, {3000, 1500}, {4000, 2000}, {6000, 2000}}};
    std::vector<std::string> words{"now"};
    for (const auto& sheet : usual) {
      const auto& now = spec_.cutter.rules.sheets_mm;
      const bool larger =
          std::all_of(now.begin(), now.end(), [&](const auto& s) { return sheet[0] * sheet[1] > s[0] * s[1]; });
      if (larger) words.push_back(fmt::format("[[\"{} mm\", \"{} mm\"]]", sheet[0], sheet[1]));
    }
    Knob knob = word_knob("cutter.sheets", "now", std::move(words));
    knobs_.push_back(std::move(knob));
  }

  const Concerned& what_;
  const Spec& spec_;
  std::vector<Knob> knobs_;
};

}  // namespace

Knob thicker_sheet(std::string key, double now_mm, const std::string& material, const Spec& spec) {
  std::vector<double> shelf = sheets_of(spec, material);
  std::erase_if(shelf, [&](double t) { return t < now_mm; });
  return shelf_knob(spec, material, std::move(key), now_mm, std::move(shelf));
}

std::vector<Knob> cut_knobs(const Concerned& what, const Spec& spec) { return CutKnobs(what, spec).all(); }

}  // namespace fitup::remedies
