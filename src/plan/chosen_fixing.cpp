// What holds a row of screws where the spec does not say it and a thread does not hold there.
// Entry: unstated_fixings, holds_better.
#include "plan/chosen_fixing.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace fitup::plan {

namespace {

constexpr std::array in_place_of_a_thread{ScrewFixing::weld_nut, ScrewFixing::insert, ScrewFixing::nut,
                                          ScrewFixing::nut_strip};

constexpr std::array<std::string_view, 4> no_hold{"thread-too-short", "no-room-for-fixing", "fixing-not-made",
                                                  "loose-nuts-shut-in"};

std::ptrdiff_t count_of_rows(const Diagnostics& said) {
  return std::count_if(said.all().begin(), said.all().end(), [](const Diagnostic& d) {
    return std::find(no_hold.begin(), no_hold.end(), d.id) != no_hold.end();
  });
}

}  // namespace

std::ptrdiff_t errors_in(const Diagnostics& said) {
  return std::count_if(said.all().begin(), said.all().end(),
                       [](const Diagnostic& d) { return d.severity == Severity::error; });
}

std::vector<UnstatedFixing> unstated_fixings(const BoxSpec& box) {
  const std::span<const ScrewFixing> instead = in_place_of_a_thread;
  std::vector<UnstatedFixing> out;
  for (const Face f : all_faces) {
    const FaceSpec& face = box.face(f);
    if (*face.closed_by != Closure::cover || face.screws.fixing.given) continue;
    const auto in = [f](BoxSpec & of) -> auto& { return of.faces[static_cast<std::size_t>(f)].screws.fixing; };
    out.push_back({in, instead});
  }
  const auto& plates = box.rod_plates;
  if (plates && !plates->screw_fixing.given && (*plates->front == Fixing::bolted || *plates->back == Fixing::bolted)) {
    const auto in = [](BoxSpec & of) -> auto& { return of.rod_plates->screw_fixing; };
    out.push_back({in, instead.first(instead.size() - 1)});
  }
  return out;
}

bool holds_nowhere(const Diagnostics& said) { return count_of_rows(said) > 0; }

bool holds_better(const Diagnostics& said, const Diagnostics& before) {
  return count_of_rows(said) < count_of_rows(before) && errors_in(said) <= errors_in(before);
}

}  // namespace fitup::plan
