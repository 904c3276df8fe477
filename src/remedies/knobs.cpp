// The candidates for each kind of finding, from what its parts are and which keys they come from.
// Entry: knobs_for.
#include "remedies/knobs.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "fitup/tables.h"
#include "remedies/cut_knobs.h"
#include "remedies/focus.h"
#include "remedies/frame_knobs.h"
#include "remedies/lift_knobs.h"
#include "remedies/ring_knobs.h"
#include "remedies/space_knobs.h"
#include "remedies/stitch_knobs.h"

namespace fitup::remedies {

namespace {

bool says_word(const std::string& text, std::string_view word) {
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
    const std::size_t end = at + word.size();
    if ((at == 0 || text[at - 1] == ' ') && (end == text.size() || text[end] == ' ')) return true;
  }
  return false;
}

/// Gathers the knobs of one spec in the order in which they are to be tried.
class Knobs {
 public:
  Knobs(const Concerned& what, const Spec& spec) : what_(what), spec_(spec) {}

  std::vector<Knob> all() {
    if (what_.check == "lift" || what_.check == "hole-fit") {
      if (what_.check == "lift") return eye_sizes(spec_);
      holes();
      return std::move(knobs_);
    }
    if (auto stitches = stitch_knobs(what_, spec_); !stitches.empty()) return stitches;
    if (what_.check == "hold-down") {
      if (!what_.cause.empty()) return {};  // what nothing holds: no number makes a plate of its own
      if (has(Role::rod_plate) || has(Role::wall)) return thicker_plates();
      // In quotes: as a bare word of --set it would be a number.
      knobs_.push_back(word_knob("loads.bolts", fmt::format("\"{}\"", spec_.load_rules.bolts.word),
                                 {R"("4.6")", R"("5.6")", R"("8.8")", R"("10.9")"}));
      return std::move(knobs_);
    }
    if (what_.check == "space") {
      knobs_ = space_places(what_, spec_);
      for (const BoxSpec& box : spec_.boxes) every_clearance(box, "box." + box.name + ".clearance");
      return std::move(knobs_);
    }
    if (what_.check == "cut-rules") return cut_knobs(what_, spec_);
    if (has(Role::boss)) knobs_ = boss_places(what_, spec_);
    for (const BoxSpec& box : spec_.boxes) {
      if (names_no_box() || is_about("box." + box.name)) of_box(box);
    }
    return std::move(knobs_);
  }

 private:
  [[nodiscard]] bool has(Role role) const { return what_.roles.contains(role); }

  /// Rods come from their item, bosses from lifting: they may be in any box.
  [[nodiscard]] bool names_no_box() const {
    return std::none_of(what_.keys.begin(), what_.keys.end(),
                        [](const std::string& k) { return k.starts_with("box."); });
  }

  /// Some part comes from that key or from one below it.
  [[nodiscard]] bool is_about(const std::string& key) const {
    return std::any_of(what_.keys.begin(), what_.keys.end(),
                       [&](const std::string& k) { return k == key || k.starts_with(key + "."); });
  }

  /// Some part's name says it: "upright back left", "block 1 rod 1 outer nut front".
  [[nodiscard]] bool is_named(std::string_view word) const {
    return std::any_of(what_.names.begin(), what_.names.end(),
                       [&](const std::string& name) { return says_word(name, word); });
  }

  [[nodiscard]] bool is_of_item(const std::string& item) const {
    return std::any_of(what_.names.begin(), what_.names.end(),
                       [&](const std::string& name) { return name.starts_with(item + " "); });
  }

  void add(std::string key, Length now, Fineness fineness = Fineness::whole) {
    knobs_.push_back(length_knob(std::move(key), now, spec_.units, fineness));
  }

  std::vector<Knob> thicker_plates() {
    for (const BoxSpec& box : spec_.boxes) {
      const std::string key = "box." + box.name;
      if (has(Role::wall)) sheets(box, key);
      if (!has(Role::rod_plate) || !box.rod_plates || !is_about(key + ".rod_plates")) continue;
      add(key + ".rod_plates.thickness", *box.rod_plates->thickness, Fineness::half);
      room_before_items(box, key + ".clearance");
    }
    return std::move(knobs_);
  }

  /// Where what hangs on the plate comes to something as it gives: away from where the plate is first.
  void room_before_items(const BoxSpec& box, const std::string& key) {
    const ClearanceSpec& c = box.clearance;
    const bool front_first = is_named("back");
    for (const bool front : {front_first, !front_first}) {
      clearance(key + (front ? ".front" : ".back"), front ? c.front : c.back);
    }
  }

  void sheets(const BoxSpec& box, const std::string& key) {  // what a boss or a foot stands on, and its doubler
    if (box.plates.thickness) add(key + ".plates.thickness", **box.plates.thickness, Fineness::half);
  }

  /// The beads where they do no harm, else smaller ones.
  void welds(const BoxSpec& box, const std::string& key) {
    if (!what_.keys.contains(key)) return;
    if (*box.welds.sides == WeldSides::all) {
      Knob sides = word_knob(key + ".sides", "all", {"clear", "all"});
      sides.change_mm = [](int rung) { return 1e6 * rung; };  // however far the bead stands in something
      knobs_.push_back(std::move(sides));
    }
    if (box.welds.leg) add(key + ".leg", **box.welds.leg, Fineness::half);
  }

  /// In the program's own order.
  void no_sequence(std::string key) {
    Knob none = word_knob(std::move(key), "as stated", {"as stated", "[]"});
    none.change_mm = [](int rung) { return 1e6 * rung; };  // however far what is in the way stands in it
    knobs_.push_back(std::move(none));
  }

  void of_box(const BoxSpec& box) {
    const std::string key = "box." + box.name;
    if (what_.check == "seams" || what_.check == "seam-size") return of_seams(box, key);
    if (what_.check == "seals" || what_.check == "plates") {
      for (const FaceSpec& face : box.faces) of_sheet(face, key);
      return;
    }
    if (what_.check == "frame") {
      rails(box, key + ".rails");
      put(ring_knobs(what_, box, spec_));
      return put(frame_knobs(what_, box, spec_));
    }
    if (what_.check == "bosses") return sheets(box, key);
    if (what_.check == "insertion" && box.sequence) no_sequence(key + ".sequence");
    welds(box, key + ".welds");
    if (what_.check == "standing" && box.feet)
      knobs_.push_back(thicker_sheet(key + ".feet.thickness", box.feet->thickness->mm(), *box.frame.material, spec_));
    places_in_rows(box, key + ".row");
    for (const FaceSpec& face : box.faces) of_openings(face, key);
    clearances(box, key + ".clearance", true);
    rods();
    cross_bars(box, key + ".frame.cross_bars.count");
    rails(box, key + ".rails");
    const bool of_rod_plates = box.rod_plates && is_about(key + ".rod_plates");
    if (of_rod_plates && (what_.check == "finish" || what_.check == "insertion")) {
      add(key + ".rod_plates.gap", *box.rod_plates->gap, Fineness::half);
    }
    for (const FaceSpec& face : box.faces) of_cover(face, key);
    if (of_rod_plates) fixing(key + ".rod_plates.screw_fixing", *box.rod_plates->screw_fixing);
    clearances(box, key + ".clearance", false);
    for (const FaceSpec& face : box.faces) rooms_of_openings(face, key);
  }

  /// Where a rail's edge ends beside a leg's: any other place of it may leave the bead its room, or need none.
  void rail_edges(const BoxSpec& box, const std::string& key) {
    if (what_.check != "seam-size" || !has(Role::rail) || !is_about(key) || box.rails.at) return;
    Knob margin = length_knob(key + ".margin", *box.rails.margin, spec_.units, Fineness::whole);
    margin.sideways = true;
    margin.scattered = true;
    knobs_.push_back(std::move(margin));
  }

  /// A larger leg where the spec says one; else wider feet and lugs, whose seams are then longer.
  void of_seams(const BoxSpec& box, const std::string& key) {
    if (box.welds.leg && what_.keys.contains(key + ".welds")) add(key + ".welds.leg", **box.welds.leg, Fineness::half);
    if (box.feet && is_about(key + ".feet")) add(key + ".feet.width", *box.feet->width);
    for (const Face f : all_faces) {
      const FaceSpec& face = box.face(f);
      const std::string face_key = fmt::format("{}.face.{}", key, to_text(f));
      if (face.lugs && is_about(face_key + ".lugs")) add(face_key + ".lugs.width", *face.lugs->width);
    }
    if (box.rails.outer_width && is_about(key + ".rails")) add(key + ".rails.outer_width", **box.rails.outer_width);
    rail_edges(box, key + ".rails");
    put(stiffer_frames(what_, box, spec_));
    put(ring_knobs(what_, box, spec_));
  }

  void put(std::vector<Knob> more) { std::move(more.begin(), more.end(), std::back_inserter(knobs_)); }

  /// Screws nearer to each other, or thicker sheet.
  void of_sheet(const FaceSpec& face, const std::string& box_key) {
    const std::string key = key_of(face, *box_of(face), box_key);
    if (!is_about(key)) return;
    if (what_.check == "seals") add(key + ".screws.max_spacing", *face.screws.max_spacing);
    add(key + ".thickness", *face.thickness, Fineness::half);
  }

  void places_in_rows(const BoxSpec& box, const std::string& key) {
    for (std::size_t i = 0; i < box.row.size(); ++i) {
      const RowEntry& row = box.row[i];
      if (!row.at || !(is_of_item(*row.of) || (row.between && is_of_item(**row.between)))) continue;
      for (std::size_t axis = 0; axis < 3; ++axis) {
        knobs_.push_back(place_knob(fmt::format("{}.{}.at.{}", key, i + 1, axis + 1), (**row.at)[axis], spec_.units));
      }
    }
  }

  [[nodiscard]] static std::string key_of(const FaceSpec& face, const BoxSpec& box, const std::string& key) {
    for (const Face f : all_faces) {
      if (&box.face(f) == &face) return fmt::format("{}.face.{}", key, to_text(f));
    }
    return key;
  }

  void of_openings(const FaceSpec& face, const std::string& box_key) {
    const std::string face_key = key_of(face, *box_of(face), box_key);
    if (!is_about(face_key)) return;
    const std::string key = face_key + ".openings";
    for (std::size_t i = 0; i < face.openings.size(); ++i) {
      const OpeningSpec& opening = face.openings[i];
      const std::string own = fmt::format("{}.{}", key, i + 1);
      if (!opening.at) continue;
      for (std::size_t axis = 0; axis < 2; ++axis) {
        knobs_.push_back(place_knob(fmt::format("{}.at.{}", own, axis + 1), (**opening.at)[axis], spec_.units));
      }
    }
  }

  /// Last of all: what was asked for is given up.
  void rooms_of_openings(const FaceSpec& face, const std::string& box_key) {
    const std::string key = key_of(face, *box_of(face), box_key);
    if (!is_about(key)) return;
    for (std::size_t i = 0; i < face.openings.size(); ++i) {
      const auto& room = face.openings[i].room;
      if (room) add(fmt::format("{}.openings.{}.room", key, i + 1), **room);
    }
  }

  [[nodiscard]] const BoxSpec* box_of(const FaceSpec& face) const {
    for (const BoxSpec& box : spec_.boxes) {
      if (&face >= box.faces.data() && &face < box.faces.data() + box.faces.size()) return &box;
    }
    return &spec_.boxes.front();
  }

  /// Those towards a side that a part's name says, or the others.
  void clearances(const BoxSpec& box, const std::string& key, bool of_named_side) {
    for (const auto& [word, measured] : clearances_of(box)) {
      if (is_named(word) == of_named_side) clearance(key + "." + word, *measured);
    }
  }

  void every_clearance(const BoxSpec& box, const std::string& key) {
    for (const auto& [word, measured] : clearances_of(box)) clearance(key + "." + word, *measured);
  }

  static std::vector<std::pair<std::string, const Measured*>> clearances_of(const BoxSpec& box) {
    const ClearanceSpec& c = box.clearance;
    return {{"front", &c.front}, {"back", &c.back}, {"left", &c.left}, {"right", &c.right}, {"top", &c.top}};
  }

  void clearance(std::string key, const Measured& measured) {
    knobs_.push_back(length_knob(std::move(key), *measured, spec_.units, Fineness::whole, measured.within));
  }

  void rods() {
    if (!has(Role::rod) && !has(Role::nut) && !has(Role::washer)) return;
    for (const ItemSpec& item : spec_.items) {
      if (item.rods && is_of_item(item.name)) {
        add("item." + item.name + ".rods.projection", *item.rods->projection, Fineness::half);
      }
    }
  }

  void rails(const BoxSpec& box, const std::string& key) {
    if (!has(Role::rail)) return;
    const RailsSpec& rails = box.rails;
    if (rails.at) rail_places(**rails.at, key + ".at");
    seats(box, key);
    if (what_.check == "rails" || what_.check == "frame") add(key + ".thickness", *rails.thickness);
  }

  /// Another bar under what sags, unless their places are given.
  void cross_bars(const BoxSpec& box, const std::string& key) {
    const auto& bars = box.frame.cross_bars;
    const bool in_the_way = bars && has(Role::cross_bar);  // of the screws of items, which stay where they are
    if ((what_.check != "rails" && !in_the_way) || (bars && bars->at)) return;
    std::vector<std::string> counts;
    if (!in_the_way) counts.emplace_back("none");
    for (int count = 1; count <= 20; ++count) counts.push_back(fmt::format("{}", count));
    std::string now = "none";
    if (bars) now = fmt::format("{}", bars->count ? **bars->count : 1);
    Knob knob = word_knob(key, now, std::move(counts));
    knob.change_mm = [](int rung) { return 1e6 * rung; };  // one more may be enough, whatever it sags
    knobs_.push_back(std::move(knob));
  }

  /// The first and the last towards each other, then each by itself.
  void rail_places(const std::vector<Length>& at, const std::string& key) {
    const auto [first, last] = std::minmax_element(at.begin(), at.end());
    std::vector<Shared> shared;
    for (auto i = at.begin(); i != at.end(); ++i) shared.push_back({*i, i == first ? 1.0 : i == last ? -1.0 : 0.0});
    for (std::size_t i = 0; i < at.size(); ++i) {
      if (what_.names.contains(fmt::format("rail {}", i + 1))) {
        knobs_.push_back(place_knob(fmt::format("{}.{}", key, i + 1), at[i], spec_.units));
      }
    }
    knobs_.push_back(list_knob(key, std::move(shared), spec_.units));
  }

  void of_cover(const FaceSpec& face, const std::string& box_key) {
    const std::string key = key_of(face, *box_of(face), box_key);
    if (!is_about(key) || *face.closed_by != Closure::cover) return;
    const bool flanged = *face.style == CoverStyle::flanged;
    if (flanged && face.screws.depth) add(key + ".screws.depth", **face.screws.depth);
    if (flanged && what_.check == "reach" && *face.flanges != Flanges::angle)
      add(key + ".flange_depth", *face.flange_depth);
    fixing(key + ".screws.fixing", *face.screws.fixing);
    if (flanged) add(key + ".gap", *face.gap, Fineness::half);
  }

  /// A thread in the steel itself stands in nothing's way; where the steel is too thin for it, what comes last or is
  /// low may pass.
  void fixing(const std::string& key, ScrewFixing now) {
    if (!has(Role::nut) && !has(Role::insert)) return;
    constexpr std::array<const char*, 4> behind{"nut", "locknut", "weld nut", "insert"};
    const auto at = static_cast<std::size_t>(now) - static_cast<std::size_t>(ScrewFixing::nut);
    if (now == ScrewFixing::tapped || at >= behind.size()) return;
    for (const char* other : {"tapped", "nut", "weld nut"}) {
      if (std::string_view(other) == behind[at]) continue;
      Knob knob = word_knob(key, behind[at], {other, behind[at]});
      knob.change_mm = [](int rung) { return 1e6 * rung; };  // however far it stands in something
      knobs_.push_back(std::move(knob));
    }
  }

  // Larger holes, then slots, then places that are made better.
  void holes() {
    const std::vector<std::string> classes{"close", "medium", "loose"};
    const auto hole_class = [&](const std::string& key, HoleClass now) {
      knobs_.push_back(word_knob(key, classes[static_cast<std::size_t>(now)], classes));
    };
    const auto slot = [&](const std::string& key, HoleShape now) {
      knobs_.push_back(word_knob(key, now == HoleShape::slot ? "slot" : "round", {"round", "slot"}));
    };
    for (const BoxSpec& box : spec_.boxes) {
      const std::string key = "box." + box.name;
      if (box.rod_plates && is_about(key + ".rod_plates")) {
        if (has(Role::rod_plate)) {
          hole_class(key + ".rod_plates.clearance_hole", *box.rod_plates->clearance_hole);
        } else {
          slot(key + ".rod_plates.screw_hole", *box.rod_plates->screw_hole);
        }
      }
      if (box.feet && is_about(key + ".feet")) hole_class(key + ".feet.clearance_hole", *box.feet->clearance_hole);
      for (const Face f : all_faces) {
        holes_of(box.face(f), fmt::format("{}.face.{}", key, to_text(f)), hole_class, slot);
      }
    }
    ways_of_making();
  }

  template <class HoleKnob, class SlotKnob>
  void holes_of(const FaceSpec& face, const std::string& key, const HoleKnob& hole_class, const SlotKnob& slot) {
    if (face.lugs && is_about(key + ".lugs")) hole_class(key + ".lugs.clearance_hole", *face.lugs->clearance_hole);
    if (has(Role::cover_sheet) && is_about(key)) slot(key + ".screws.hole", *face.screws.hole);
  }

  void ways_of_making() {
    const auto way = [&](const char* key, const Sourced<Making>& now, std::vector<std::string> words) {
      knobs_.push_back(word_knob(key, std::string(error_of(*now).word), std::move(words)));
    };
    if (!has(Role::item))
      way("making.drilled", spec_.making.drilled, {"paper template", "printed guide", "transferred"});
    way("making.holes", spec_.making.holes, {"paper template", "printed guide", "laser"});
  }

  void seats(const BoxSpec& box, const std::string& key) {
    if (what_.check != "seating") return;
    if (box.rails.outer_width) add(key + ".outer_width", **box.rails.outer_width);
    add(key + ".margin", *box.rails.margin);
  }

  const Concerned& what_;
  const Spec& spec_;
  std::vector<Knob> knobs_;
};

}  // namespace

std::vector<Knob> knobs_for(const Concerned& what, const Spec& spec) { return Knobs(what, spec).all(); }

}  // namespace fitup::remedies
