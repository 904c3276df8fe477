// The sheet to write down what the welded frame measures.
// Entry: as_built_paper.

#include "bench/as_built_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "bench/flow.h"
#include "bench/strip.h"
#include "fitup/tolerances.h"
#include "fitup/welded_sizes.h"
#include "output/units.h"

namespace fitup::bench {
namespace {

constexpr const char* paper_name = "As-built sheet";
constexpr double row_mm = 7.5;
constexpr double sketch_mm = 50;
constexpr double blank_mm = 34;
constexpr double permitted_mm = 32;  // the column, wide enough for two numbers

/// Names of the measures along the face's first axis at the low and the high end of its second, and likewise up it.
MeasuredSide side(std::string face, Vec2 size, std::string across, std::string up, const std::array<std::string, 2>& at,
                  const std::array<std::string, 2>& beside) {
  MeasuredSide out{std::move(face), {}};
  const double diagonal = norm(size);
  out.measures = {{across + "_" + at[0], size.x, {0, 0}, {1, 0}}, {across + "_" + at[1], size.x, {0, 1}, {1, 1}},
                  {up + "_" + beside[0], size.y, {0, 0}, {0, 1}}, {up + "_" + beside[1], size.y, {1, 0}, {1, 1}},
                  {"diagonal_rising", diagonal, {0, 0}, {1, 1}},  {"diagonal_falling", diagonal, {0, 1}, {1, 0}}};
  return out;
}

class Sheet {
 public:
  Sheet(const JobInfo& info, const Type& type)
      : info_(info),
        units_(info.units),
        type_(type),
        flow_(paper_, type, info.bench.paper, false, strip_height_mm(info, paper_name, type, info.bench.paper, false)) {
    paper_.name = paper_name;
  }

  Paper made(const Plan& plan) {
    flow_.sentence(
        "Measure the welded frame with a tape, outside to outside, before covers, plates and rod plates are cut. A "
        "face "
        "counts with its four sides and one diagonal at least; with both they are checked against each other. Write "
        "the "
        "numbers into the spec under the names below and run again: what goes on is made to the frame as it is.");
    for (const PlacedFrame& frame : plan.frames) {
      const auto ringed = ringed_faces(plan, frame);
      if (!ringed.empty()) {
        flow_.sentence(
            fmt::format("Box {}: the landing that is welded round the {} face{} stands out of the frame and is not "
                        "counted. Measure "
                        "the frame alone, tape and square beside the landing's strips, not over them.",
                        frame.box, fmt::join(ringed, " and the "), ringed.size() > 1 ? "s" : ""));
      }
      for (const MeasuredSide& one : measured_sides(frame.space.size())) add(plan, frame.box, one);
    }
    flow_.space(3);
    flow_.sentence(
        fmt::format("Permitted: ISO 13920-B, from which each length may be off either way; of a diagonal as of "
                    "a length. Measured by: ____________________   Date: ______________   Tape: ____________"));
    if (starred_) {
      flow_.sentence(fmt::format(
          "* A flanged cover is square, and its screws draw at most {} {} together (common practice), its gap and what "
          "the "
          "face leans counted: with a diagonal that is off by more than this it does not follow, whatever the standard "
          "permits. Pull the frame square before its last welds, or choose a flat cover.",
          units_.drawn(tables::flange_drawn_at_most_mm), units_.length()));
    }
    add_strips(paper_, info_, type_);
    return std::move(paper_);
  }

 private:
  void add(const Plan& plan, const std::string& box, const MeasuredSide& one) {
    const double height = row_mm * static_cast<double>(one.measures.size() + 1) + 10;
    const Box2 room = flow_.room(height);
    Page& page = flow_.page();
    const auto put = [&](Vec2 at, const std::string& words, bool bold = false, Anchor anchor = Anchor::left) {
      page.labels.push_back(type_.label(at, words, text_mm, anchor, bold));
    };
    const double left = room.low.x + sketch_mm;
    double y = room.low.y + 5;
    put({room.low.x, y}, fmt::format("[as_built.{}.{}]", box, one.face), true);
    const double planned = room.high.x - blank_mm - permitted_mm;
    const double permitted = planned + permitted_mm;
    const std::string unit(units_.length());
    put({planned, y}, "planned " + unit, true, Anchor::right);
    put({permitted, y}, "permitted", true, Anchor::right);
    put({room.high.x - blank_mm + 4, y}, "measured " + unit, true);
    page.line({room.low.x, y + 1.5}, {room.high.x, y + 1.5}, wide_mm);
    sketch(page, box_of({room.low.x + 10, y + 8}, {left - 10, y + height - 16}), one);
    const auto follows = cover_follows_mm(plan, box, one);
    for (std::size_t k = 0; k < one.measures.size(); ++k) {
      const Measure& m = one.measures[k];
      y += row_mm;
      put({left, y}, fmt::format("{}  {}", letter(k), m.key));
      put({planned, y}, units_.drawn(m.planned_mm), false, Anchor::right);
      put({permitted, y}, permitted_words(m, k >= 4 ? follows : std::nullopt), false, Anchor::right);
      page.line({room.high.x - blank_mm + 4, y + 1}, {room.high.x, y + 1}, narrow_mm);
    }
  }

  /// What the standard permits, and with a star what a cover follows where that is less.
  std::string permitted_words(const Measure& m, const std::optional<double>& follows) {
    const double permits = tables::welded_length_permits_mm(m.planned_mm);
    const std::string words = "± " + units_.drawn(permits);
    if (!follows || *follows >= permits) return words;
    starred_ = true;
    return fmt::format("{} / {}*", words, units_.drawn(*follows));
  }

  static std::string letter(std::size_t k) { return std::string(1, static_cast<char>('a' + k)); }

  /// The face in its proportions, each measure with its letter.
  void sketch(Page& page, const Box2& room, const MeasuredSide& one) {
    const Vec2 size{one.measures[0].planned_mm, one.measures[2].planned_mm};
    const double scale = std::min(room.size().x / size.x, room.size().y / size.y);
    const Vec2 drawn = scale * size;
    const Vec2 low{room.middle().x - 0.5 * drawn.x, room.middle().y + 0.5 * drawn.y};
    const auto at = [&](Vec2 corner) { return Vec2{low.x + corner.x * drawn.x, low.y - corner.y * drawn.y}; };
    for (std::size_t k = 0; k < one.measures.size(); ++k) {
      const Measure& m = one.measures[k];
      const bool diagonal = k >= 4;
      page.line(at(m.from), at(m.to), diagonal ? narrow_mm : wide_mm, diagonal ? Dash::dashed : Dash::none);
      // Outside of the sides; of the diagonals one at the left and one at the right, where the other one is far.
      const double along = k == 4 ? 0.25 : k == 5 ? 0.75 : 0.5;
      Vec2 where = at(m.from + along * (m.to - m.from));
      if (k == 0) where = where + Vec2{0, 4};
      if (k == 1) where = where + Vec2{0, -1.5};
      if (k == 2) where = where + Vec2{-3, 1};
      if (k == 3) where = where + Vec2{3, 1};
      if (diagonal) where = where + Vec2{k == 4 ? -2.5 : 2.5, k == 4 ? -1.5 : -1.0};
      page.labels.push_back(type_.label(where, letter(k), text_mm, Anchor::middle));
    }
  }

  const JobInfo& info_;
  output::PaperUnits units_;
  const Type& type_;
  Paper paper_;
  Flow flow_;
  bool starred_ = false;
};

bool is_flange(const Part& part) {
  const auto* flat = std::get_if<Flat>(&part.form);
  return part.role == Role::cover_flange || (flat != nullptr && !flat->bends.empty());
}

}  // namespace

std::vector<MeasuredSide> measured_sides(Vec3 s) {
  std::vector<MeasuredSide> sides;
  for (const char* face : {"front", "back"}) {
    sides.push_back(side(face, {s.x, s.z}, "width", "height", {"bottom", "top"}, {"left", "right"}));
  }
  for (const char* face : {"left", "right"}) {
    sides.push_back(side(face, {s.y, s.z}, "depth", "height", {"bottom", "top"}, {"front", "back"}));
  }
  for (const char* face : {"top", "bottom"}) {
    sides.push_back(side(face, {s.x, s.y}, "width", "depth", {"front", "back"}, {"left", "right"}));
  }
  return sides;
}

std::optional<double> cover_follows_mm(const Plan& plan, const std::string& box, const MeasuredSide& side) {
  const std::string key = fmt::format("box.{}.face.{}", box, side.face);
  const bool flanged = std::any_of(plan.instances.begin(), plan.instances.end(),
                                   [&](const Instance& i) { return i.key == key && is_flange(plan.parts[i.part]); });
  if (!flanged) return std::nullopt;
  double gap = 0;
  for (const Fastener& f : plan.fasteners) {
    if (plan.instances[f.screw].key == key) gap = std::max(gap, f.draws_mm);
  }
  const double leans = std::max(0.0, tables::flange_drawn_at_most_mm - gap);
  return side.measures[0].planned_mm * leans / side.measures[4].planned_mm;
}

std::vector<std::string> ringed_faces(const Plan& plan, const PlacedFrame& frame) {
  const std::string faces = fmt::format("box.{}.face.", frame.box);
  std::vector<std::string> ringed;
  for (const Instance& instance : plan.instances) {
    const auto* flat = std::get_if<Flat>(&plan.parts[instance.part].form);
    if (plan.parts[instance.part].role != Role::landing || flat == nullptr || !instance.key.starts_with(faces))
      continue;
    const Box2 bounds = flat->profile.bounds();
    Box3 with = frame.space;
    with.add(instance.pose.point({bounds.low.x, bounds.low.y, 0}));
    with.add(instance.pose.point({bounds.high.x, bounds.high.y, flat->thickness_mm}));
    const bool within = norm(with.size() - frame.space.size()) < tolerance::contact_mm;
    const std::string face = instance.key.substr(faces.size(), instance.key.find('.', faces.size()) - faces.size());
    if (!within && std::find(ringed.begin(), ringed.end(), face) == ringed.end()) ringed.push_back(face);
  }
  return ringed;
}

Paper as_built_paper(const Plan& plan, const JobInfo& info, const Type& type) { return Sheet(info, type).made(plan); }

}  // namespace fitup::bench
