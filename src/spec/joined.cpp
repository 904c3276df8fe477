// Checks what joins boxes to each other, to the ground and to a wall.
// Entry: check_joined.

#include "spec/joined.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "diag/catalogue.h"
#include "diag/words.h"

namespace fitup::spec {

namespace {

using diag::in_quotes;
using diag::say;

const std::optional<Sourced<std::string>>& other_of(const BoxSpec& box) { return box.under ? box.under : box.on; }

const BoxSpec* box_named(const Spec& spec, const std::string& name) {
  const auto found =
      std::find_if(spec.boxes.begin(), spec.boxes.end(), [&](const BoxSpec& b) { return b.name == name; });
  return found == spec.boxes.end() ? nullptr : &*found;
}

template <class T>
void idle(const Sourced<T>& value, const std::string& key, std::string_view why, Diagnostics& diagnostics) {
  if (value.given) diagnostics.add(say<"no-effect">(value.place, key, why));
}

void check_bearers(const BoxSpec& box, Diagnostics& diagnostics) {
  const std::string key = "box." + box.name + ".";
  const auto& other = other_of(box);
  if (box.under && box.on) {
    diagnostics.add(diag::with_note(say<"under-and-on">(box.on->place, in_quotes(box.name)),
                                    say<"also-here">(box.under->place, "under")));
  }
  if (other && !box.bearers) {
    diagnostics.add(
        say<"no-bearers">(other->place, in_quotes(box.name), box.under ? "under" : "on", in_quotes(**other)));
  }
  constexpr std::string_view alone = "the box is neither under nor on another one";
  if (!other && box.at) idle(*box.at, key + "at", alone, diagnostics);
  if (!box.bearers) return;
  if (!other) return diagnostics.add(say<"no-effect">(box.bearers->place, key + "bearers", alone));
  if (box.bearers->at) idle(box.bearers->count, key + "bearers.count", "the places are given in at", diagnostics);
  if (*box.bearers->bolted_to == BoltedTo::neither) {
    idle(box.bearers->screw, key + "bearers.screw", "they are welded to both boxes", diagnostics);
  }
}

/// The boxes from one to the one that stands for itself; false if they go round in a circle.
bool leads_down(const Spec& spec, const BoxSpec& from, std::string& chain) {
  std::set<std::string> seen;
  const BoxSpec* box = &from;
  while (box != nullptr) {
    chain += (chain.empty() ? "" : " -> ") + box->name;
    if (!seen.insert(box->name).second) return false;
    const auto& other = other_of(*box);
    box = other ? box_named(spec, **other) : nullptr;
  }
  return true;
}

/// Exactly one stands for itself, and all others lead there. One message for a circle.
void check_tree(const Spec& spec, Diagnostics& diagnostics) {
  std::vector<std::string> alone;
  const BoxSpec* last = nullptr;
  for (const BoxSpec& box : spec.boxes) {
    if (other_of(box)) continue;
    alone.push_back(in_quotes(box.name));
    if (last == nullptr || box.place.line > last->place.line) last = &box;
  }
  if (last != nullptr && alone.size() > 1) {
    diagnostics.add(say<"boxes-apart">(last->place, alone.size(), diag::listed(alone), in_quotes(last->name)));
  }
  for (const BoxSpec& box : spec.boxes) {
    std::string chain;
    if (leads_down(spec, box, chain)) continue;
    const auto& other = other_of(box);
    if (other) diagnostics.add(say<"box-cycle">(other->place, chain));
    return;
  }
}

void check_mounts(const MountSpec& mounts, const std::string& key, Diagnostics& diagnostics) {
  const bool angle = *mounts.kind == MountKind::angle;
  if (angle) idle(mounts.thickness, key + ".thickness", "an angle has that of its section", diagnostics);
  if (!angle) idle(mounts.section, key + ".section", "kind is \"plate\"", diagnostics);
}

}  // namespace

void check_joined(const Spec& spec, const Cell& root, Diagnostics& diagnostics) {
  check_tree(spec, diagnostics);
  for (const BoxSpec& box : spec.boxes) {
    const Cell& cell = root["box"][box.name];
    const std::string key = "box." + box.name + ".";
    if (cell.sound) check_bearers(box, diagnostics);
    if (box.feet && cell["feet"].sound) check_mounts(*box.feet, key + "feet", diagnostics);
    for (const Face face : all_faces) {
      const std::string word(to_text(face));
      const auto& lugs = box.face(face).lugs;
      if (!lugs || !cell["face"][word].sound) continue;
      check_mounts(*lugs, fmt::format("{}face.{}.lugs", key, word), diagnostics);
    }
  }
}

}  // namespace fitup::spec
