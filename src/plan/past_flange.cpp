// Other choices at two faces of which one has its landing where the other's flange laps the frame.
// Entry: landing_over_flange, ways_past_flange.
#include "plan/past_flange.h"

#include <algorithm>

#include <fmt/format.h>

#include "plan/outward_landing.h"
#include "plan/raised_landing.h"

namespace fitup::plan {

namespace {

constexpr std::string_view over_neighbour = "landing-over-neighbour";
constexpr std::string_view mends = "laps the frame; ";  // after that its wording says what to do

std::string over_flange_of(Face face) { return fmt::format("the outward landing of the {} cover ", to_text(face)); }

PastFlange with_flat_neighbour(const BoxSpec& box, const LandingOverFlange& meets) {
  PastFlange way{box, {}};
  FaceSpec& other = way.box.faces[static_cast<std::size_t>(meets.other)];
  other.style.value = CoverStyle::flat;
  way.words = fmt::format("make the {} cover flat, on an outward landing of its own if it is to be sealed",
                          to_text(meets.other));
  return way;
}

PastFlange with_inward_landing(const BoxSpec& box, const LandingOverFlange& meets) {
  PastFlange way{box, {}};
  FaceSpec& own = way.box.faces[static_cast<std::size_t>(meets.face)];
  own.landing = {Landing::inward, own.landing.place, true};
  way.words = fmt::format("choose landing = \"inward\" for the {} cover, which holds no seal", to_text(meets.face));
  return way;
}

PastFlange with_flange(const BoxSpec& box, const LandingOverFlange& meets) {
  PastFlange way{box, {}};
  FaceSpec& own = way.box.faces[static_cast<std::size_t>(meets.face)];
  own.style = {CoverStyle::flanged, own.style.place, true};
  way.words = fmt::format("choose style = \"flanged\" without a landing for the {} cover, which holds no seal",
                          to_text(meets.face));
  return way;
}

}  // namespace

std::optional<LandingOverFlange> landing_over_flange(const BoxSpec& box, const Diagnostic& said) {
  if (said.id != over_neighbour) return std::nullopt;
  for (const Face face : all_faces) {
    const auto other =
        std::find_if(all_faces.begin(), all_faces.end(), [&](Face f) { return laps_strips_of(box, face, f); });
    const bool here = is_outward(box.face(face)) && said.message.starts_with(over_flange_of(face));
    if (here && other != all_faces.end()) return LandingOverFlange{face, *other};
  }
  return std::nullopt;
}

std::vector<PastFlange> ways_past_flange(const BoxSpec& box, const LandingOverFlange& meets) {
  std::vector<PastFlange> ways{with_flat_neighbour(box, meets)};
  if (box.face(meets.face).seal) return ways;
  ways.push_back(with_inward_landing(box, meets));
  ways.push_back(with_flange(box, meets));
  return ways;
}

Diagnostic told(Diagnostic said, const std::vector<PastFlange>& ways) {
  const std::size_t what_is_wrong = said.message.find(mends);
  std::string words;
  for (const PastFlange& way : ways) words += (words.empty() ? "" : ", or ") + way.words;
  said.message = said.message.substr(0, what_is_wrong) + std::string(mends) + words;
  return said;
}

}  // namespace fitup::plan
