// The other hand among the parts, the other side's neighbours, and words that were left out.
// Entry: mark_note.
#include "output/mark_notes.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "fitup/tolerances.h"
#include "plan/face_marks.h"
#include "plan/same_part.h"

namespace fitup::output {
namespace {

const Flat* marked_flat(const Part& part) {
  const auto* flat = std::get_if<Flat>(&part.form);
  return flat != nullptr && plan::takes_marks(part) && !flat->marks.lines.empty() ? flat : nullptr;
}

bool may_be_cut_alike(const Flat& a, const Flat& b) {
  const auto near = [](double x, double y) { return std::abs(x - y) <= tolerance::contact_mm; };
  return near(a.thickness_mm, b.thickness_mm) && a.profile.holes.size() == b.profile.holes.size() &&
         near(a.profile.perimeter_mm(), b.profile.perimeter_mm());
}

Part without_marks(Part part) {
  std::get<Flat>(part.form).marks = {};
  return part;
}

/// Of the parts that are marked too and that are cut like it, turned over or not: its other hand, else the first.
std::string other_of_its_cut(const Plan& plan, PartId id) {
  const Part& own = plan.parts[id];
  std::string note;
  for (PartId other = 0; other < plan.parts.size(); ++other) {
    const Part& part = plan.parts[other];
    const Flat* flat = marked_flat(part);
    if (other == id || flat == nullptr || !may_be_cut_alike(*marked_flat(own), *flat)) continue;
    if (shape_key(part) == shape_key(plan::mirror_image(own))) {
      return fmt::format("marked on one side: has a hand, {} is the other", part.mark);
    }
    const bool alike = note.empty() && shape_key(without_marks(part)) == shape_key(without_marks(own));
    if (alike) note = fmt::format("cut like {}, marked otherwise", part.mark);
  }
  return note;
}

std::vector<plan::FaceGuest> guests_of(const Plan& plan, PartId id) {
  const auto first =
      std::find_if(plan.instances.begin(), plan.instances.end(), [id](const Instance& i) { return i.part == id; });
  if (first == plan.instances.end()) return {};
  const auto own = static_cast<InstanceId>(first - plan.instances.begin());
  std::vector<plan::Neighbour> neighbours;
  std::set<InstanceId> seen;
  for (const Joint& joint : plan.joints) {
    if (joint.kind != JointKind::weld || (joint.a != own && joint.b != own)) continue;
    const InstanceId other = joint.a == own ? joint.b : joint.a;
    const Instance& there = plan.instances[other];
    if (seen.insert(other).second)
      neighbours.push_back({other, &plan.parts[there.part], there.pose, joint.largest_gap_mm});
  }
  return plan::guests_on(std::get<Flat>(plan.parts[id].form), first->pose, neighbours);
}

/// "20 to 60", of what is a line across it "20".
std::string range_words(double from_mm, double to_mm, const PaperUnits& units) {
  const std::string from = units.drawn(from_mm);
  const std::string to = units.drawn(to_mm);
  return from == to ? from : fmt::format("{} to {}", from, to);
}

/// "DBL01 20 to 60 from the left and 5 to 45 mm from below".
std::string place_words(const Flat& flat, const plan::FaceGuest& guest, const std::string& mark,
                        const PaperUnits& units) {
  Box2 box;
  for (const FaceLine& line : guest.lines) {
    box.add(line.from);
    box.add(line.to);
  }
  const Vec2 corner = flat.profile.bounds().low;
  return fmt::format("{} {} from the left and {} {} from below", mark,
                     range_words(box.low.x - corner.x, box.high.x - corner.x, units),
                     range_words(box.low.y - corner.y, box.high.y - corner.y, units), units.length());
}

bool is_written(const Flat& flat, const std::string& mark) {
  const auto& words = flat.marks.words;
  return std::any_of(words.begin(), words.end(),
                     [&](const FaceWord& w) { return w.text == mark || w.text.starts_with(mark + " "); });
}

// A plan whose faces nobody has named says nothing of room.
bool has_words(const Plan& plan) {
  return std::any_of(plan.parts.begin(), plan.parts.end(), [](const Part& part) {
    const auto* flat = std::get_if<Flat>(&part.form);
    return flat != nullptr && !flat->marks.words.empty();
  });
}

}  // namespace

std::string mark_note(const Plan& plan, PartId id, const PaperUnits& units) {
  const Part& part = plan.parts[id];
  const auto* flat = std::get_if<Flat>(&part.form);
  if (flat == nullptr || !plan::takes_marks(part)) return {};
  std::vector<std::string> notes;
  if (!flat->marks.lines.empty()) {
    if (std::string hand = other_of_its_cut(plan, id); !hand.empty()) notes.push_back(std::move(hand));
  }
  std::vector<std::string> below;
  std::set<std::string> unnamed;
  const bool named = has_words(plan);
  if (named && !is_written(*flat, part.mark)) unnamed.insert(part.mark);
  for (const plan::FaceGuest& guest : guests_of(plan, id)) {
    const Part& there = plan.parts[plan.instances[guest.id].part];
    // Studs and nuts have their place in another note.
    if (!guest.upper && there.source != Source::bought) below.push_back(place_words(*flat, guest, there.mark, units));
    if (named && guest.upper && there.source != Source::bought && !is_written(*flat, there.mark))
      unnamed.insert(there.mark);
  }
  if (!below.empty()) notes.push_back(fmt::format("on the side without marks {}", fmt::join(below, ", ")));
  if (!unnamed.empty()) notes.push_back(fmt::format("no room to mark {}", fmt::join(unnamed, ", ")));
  return fmt::format("{}", fmt::join(notes, "; "));
}

}  // namespace fitup::output
