// Checks values of the spec against each other.
// Entry: check_together.

#include "spec/cross_checks.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <string_view>
#include <tuple>

#include "diag/catalogue.h"
#include "diag/words.h"
#include "fitup/tables.h"
#include "spec/build_plates.h"
#include "spec/build_stiffening.h"
#include "spec/build_welds.h"
#include "spec/file_pattern.h"

namespace fitup::spec {

namespace {

using diag::at_least_in_units;
using diag::at_most_in_units;
using diag::exactly_in_units;
using diag::in_quotes;
using diag::in_units;
using diag::say;

constexpr long most_in_a_row = 200;
// What stays of an item between a rod's hole and its edge or the next rod: less is no wall (common practice).
constexpr double least_wall_mm = 0.5;

class Checks {
 public:
  Checks(UnitSystem units, Diagnostics& diagnostics) : units_(units), diagnostics_(diagnostics) {}

  void rods_in_face(const ItemSpec& item) {
    const RodSpec& rods = *item.rods;
    const Thread* thread = tables::find_thread(*rods.thread);
    if (thread == nullptr) return;
    const Length width = item.size.value[0];
    const Length height = item.size.value[2];
    const Length edge = Length::mm(thread->major_mm / 2 + least_wall_mm);
    for (const auto& at : rods.at) {
      const auto [x, z] = at.value;
      if (x >= edge && z >= edge && x <= width - edge && z <= height - edge) continue;
      diagnostics_.add(say<"rod-outside-item">(at.place, *rods.thread, place_in_words(at.value), in_quotes(item.name),
                                               words(width), words(height), at_least_in_units(edge, units_)));
    }
    rods_apart(item, Length::mm(thread->major_mm + least_wall_mm));
  }

  void rods_in_bore(const ItemSpec& item) {
    const RodSpec& rods = *item.rods;
    const Thread* thread = tables::find_thread(*rods.thread);
    if (thread == nullptr || !rods.bore) return;
    const Length least = Length::mm(thread->major_mm);
    if (**rods.bore >= least) return;
    diagnostics_.add(say<"rod-bore-too-small">(rods.bore->place, *rods.thread, in_quotes(item.name), words(**rods.bore),
                                               words(least), at_least_in_units(least, units_)));
  }

  void strips_in_item(const ItemSpec& item) {
    const bool sides = *item.foot_strips->sides == Along::left_right;
    const Length across = item.size.value[sides ? 0 : 1];
    const auto& width = item.foot_strips->width;
    if (2 * *width <= across) return;
    diagnostics_.add(say<"strips-too-wide">(width.place, words(*width), in_quotes(item.name), words(across),
                                            at_most_in_units(0.5 * across, units_)));
  }

  // What is left out takes what remains of the outside, so this must be given there.
  void clearances(const BoxSpec& box, const Place& place) {
    const ClearanceSpec& c = box.clearance;
    const std::array<std::tuple<const Measured*, std::string_view, std::size_t>, 5> sides{{{&c.left, "left", 0},
                                                                                           {&c.right, "right", 0},
                                                                                           {&c.front, "front", 1},
                                                                                           {&c.back, "back", 1},
                                                                                           {&c.top, "top", 2}}};
    std::string lacking;
    for (const auto& [side, name, axis] : sides) {
      const bool given_outside = box.outside && (**box.outside)[axis] > Length::mm(0);
      if (side->given || given_outside) continue;
      lacking += fmt::format("{}{} (to the inside of the {} face)", lacking.empty() ? "" : ", ", name, name);
    }
    if (!lacking.empty()) diagnostics_.add(say<"missing-key">(place, "box." + box.name + ".clearance", lacking));
  }

  void turned(const Sourced<int>& degrees, std::string_view key) {
    if (*degrees % 90 == 0) return;
    diagnostics_.add(say<"no-quarter-turn">(degrees.place, key, *degrees));
  }

  void row_entry(const RowEntry& entry) {
    if (!entry.between || !entry.gap) return;
    const Place& later = entry.gap->place;
    diagnostics_.add(diag::with_note(say<"between-and-gap">(later), say<"also-here">(entry.between->place, "between")));
  }

  void row(const BoxSpec& box) {
    long total = 0;
    for (const RowEntry& entry : box.row) total += *entry.count + (entry.between ? *entry.count - 1 : 0);
    if (total > most_in_a_row) diagnostics_.add(say<"too-many-items">(box.row.back().place, total, most_in_a_row));
  }

  // The sections' tables, the welds and a thread of one diameter are those of steel.
  void frame_material(const BoxSpec& box) {
    if (*box.build == BuildKind::plate) return;
    const Sourced<std::string>& material = box.frame.material;
    const Material* known = tables::find_material(*material);
    if (known == nullptr || known->steel) return;
    std::string steels;
    for (const Material& m : tables::materials()) {
      if (m.steel) steels += (steels.empty() ? "" : ", ") + m.name;
    }
    diagnostics_.add(say<"not-a-steel">(material.place, *material, steels));
  }

  void lift_places(const LiftingSpec& lifting) {
    if (!lifting.at || lifting.at->value.size() == static_cast<std::size_t>(*lifting.points)) return;
    diagnostics_.add(say<"lift-places">(lifting.at->place, lifting.at->value.size(), *lifting.points));
  }

  void file_name(const Sourced<std::string>& pattern) {
    const std::string flaw = flaw_in_file_pattern(*pattern);
    if (!flaw.empty()) diagnostics_.add(say<"file-name-pattern">(pattern.place, in_quotes(*pattern), flaw));
  }

 private:
  void rods_apart(const ItemSpec& item, Length least) {
    const auto& at = item.rods->at;
    for (std::size_t i = 0; i < at.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        const double dx_mm = (at[i].value[0] - at[j].value[0]).mm();
        const double dz_mm = (at[i].value[1] - at[j].value[1]).mm();
        const Length apart = Length::mm(std::hypot(dx_mm, dz_mm));
        if (apart >= least) continue;
        diagnostics_.add(say<"rods-overlap">(at[i].place, *item.rods->thread, in_quotes(item.name), words(apart),
                                             at_least_in_units(least, units_)));
      }
    }
  }

  [[nodiscard]] std::string words(Length length) const { return in_units(length, units_); }
  [[nodiscard]] std::string place_in_words(const std::array<Length, 2>& at) const {
    return fmt::format("({}, {})", words(at[0]), words(at[1]));
  }

  UnitSystem units_;
  Diagnostics& diagnostics_;
};

void check_item(const ItemSpec& item, const Cell& cell, Checks& checks) {
  if (!cell["size"].sound) return;
  if (item.rods && cell["rods"].sound) {
    checks.rods_in_face(item);
    checks.rods_in_bore(item);
  }
  if (item.foot_strips && cell["foot_strips"].sound) checks.strips_in_item(item);
}

void check_rows(const BoxSpec& box, const Cell& cell, Checks& checks) {
  for (const RowEntry& entry : box.row) checks.row_entry(entry);
  if (cell["row"].sound) checks.row(box);
  for (const Cell& entry : cell["row"].entries) {
    const auto degrees = entry["turned"].get<double>();
    checks.turned({static_cast<int>(*degrees), degrees.place, degrees.given}, "box." + box.name + ".row.turned");
  }
}

void check_clearances(const BoxSpec& box, const Cell& cell, Checks& checks) {
  const Cell* outside = cell.find("outside");
  const Cell& clearance = cell["clearance"];
  const bool known = !clearance.children.empty() || clearance.sound;
  if (!known || !clearance.given || (outside != nullptr && !outside->sound)) return;
  checks.clearances(box, clearance.place);
}

}  // namespace

void check_together(const Spec& spec, const Cell& root, Diagnostics& diagnostics) {
  Checks checks(spec.units, diagnostics);
  for (const ItemSpec& item : spec.items) check_item(item, root["item"][item.name], checks);
  for (const BoxSpec& box : spec.boxes) {
    const Cell& cell = root["box"][box.name];
    check_rows(box, cell, checks);
    check_clearances(box, cell, checks);
    checks.frame_material(box);
    check_build(box, diagnostics);
    check_stitch(box, diagnostics);
    if (cell["frame"]["braces"].sound) check_stiffening(box, diagnostics);
  }
  if (spec.lifting && root["lifting"].sound) checks.lift_places(*spec.lifting);
  if (root["cutter"]["file_name"].sound) checks.file_name(spec.cutter.file_name);
}

void check_own_sizes(const Spec& spec, const Cell& root, const std::vector<OwnSize>& own_sizes,
                     Diagnostics& diagnostics) {
  const auto words = [&](const ItemSpec& item) {
    const auto& size = *item.size;
    return fmt::format("{} x {} x {}", exactly_in_units(size[0], spec.units), exactly_in_units(size[1], spec.units),
                       exactly_in_units(size[2], spec.units));
  };
  for (const OwnSize& own : own_sizes) {
    const ItemSpec* item = spec.item(own.item);
    const ItemSpec* other = spec.item(own.like);
    const bool sound = root["item"][own.item]["size"].sound && root["item"][own.like]["size"].sound;
    if (item == nullptr || other == nullptr || !sound || *item->size == *other->size) continue;
    diagnostics.add(
        say<"like-without-mass">(own.size, in_quotes(own.item), in_quotes(own.like), words(*item), words(*other)));
  }
}

}  // namespace fitup::spec
