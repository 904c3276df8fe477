// What each kind of opening needs, and what it does not read.
// Entry: check_openings.

#include "spec/openings.h"

#include <algorithm>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "diag/words.h"

namespace fitup::spec {

namespace {

using diag::say;

constexpr std::array<std::string_view, 6> kind_words{"round", "rectangle", "slot", "gland", "drain", "hose"};

class OneOpening {
 public:
  OneOpening(std::string key, Face face, const OpeningSpec& opening, Diagnostics& diagnostics)
      : key_(std::move(key)), face_(face), opening_(opening), diagnostics_(diagnostics) {}

  void check() {
    const OpeningKind kind = *opening_.kind;
    const bool sized = kind == OpeningKind::rectangle || kind == OpeningKind::slot;
    const bool round = kind == OpeningKind::round || kind == OpeningKind::drain || kind == OpeningKind::hose;
    if (kind == OpeningKind::round || kind == OpeningKind::hose) need(opening_.diameter, "diameter");
    if (sized) need(opening_.size, "size");
    if (kind == OpeningKind::gland) need(opening_.thread, "thread");
    if (!opening_.at && !(kind == OpeningKind::drain && face_ == Face::bottom)) missing("at");
    if (*opening_.columns > 1 || *opening_.rows > 1) need(opening_.pitch, "pitch");
    if (!round) idle(opening_.diameter, "diameter");
    if (!sized) idle(opening_.size, "size");
    if (kind != OpeningKind::gland) idle(opening_.thread, "thread");
    if (kind != OpeningKind::rectangle && opening_.corner_radius.given) {
      unread(opening_.corner_radius.place, "corner_radius");
    }
    if (kind != OpeningKind::hose && opening_.edge_strip.given) unread(opening_.edge_strip.place, "edge_strip");
    if (lacking_.empty()) return;
    diagnostics_.add(say<"opening-needs">(opening_.place, key_, kind_words[static_cast<std::size_t>(kind)],
                                          diag::listed(lacking_), lacking_.front()));
  }

 private:
  void missing(std::string_view what) { lacking_.emplace_back(what); }

  template <class T>
  void need(const std::optional<T>& value, std::string_view what) {
    if (!value) missing(what);
  }
  template <class T>
  void idle(const std::optional<T>& value, std::string_view what) {
    if (value) unread(value->place, what);
  }
  void unread(const Place& place, std::string_view what) {
    const auto kind = kind_words[static_cast<std::size_t>(*opening_.kind)];
    diagnostics_.add(say<"no-effect">(place, fmt::format("{}.{}", key_, what),
                                      fmt::format("an opening of kind \"{}\" does not have it", kind)));
  }

  std::string key_;
  std::vector<std::string> lacking_;
  Face face_;
  const OpeningSpec& opening_;
  Diagnostics& diagnostics_;
};

}  // namespace

void check_openings(const Spec& spec, const Cell& root, Diagnostics& diagnostics) {
  for (const BoxSpec& box : spec.boxes) {
    for (const Face face : all_faces) {
      const std::string_view word = to_text(face);
      if (!root["box"][box.name]["face"][word].sound) continue;
      const FaceSpec& spec_of_face = box.face(face);
      const std::string key = fmt::format("box.{}.face.{}.openings", box.name, word);
      for (std::size_t i = 0; i < spec_of_face.openings.size(); ++i) {
        OneOpening(fmt::format("{}.{}", key, i + 1), face, spec_of_face.openings[i], diagnostics).check();
      }
      const auto in_face = std::find_if(spec_of_face.openings.begin(), spec_of_face.openings.end(),
                                        [](const OpeningSpec& one) { return *one.in == OpeningIn::face; });
      if (*spec_of_face.closed_by == Closure::open && in_face != spec_of_face.openings.end()) {
        diagnostics.add(say<"no-effect">(in_face->place, key, "the face is open: there is nothing to cut them in"));
      }
    }
  }
}

}  // namespace fitup::spec
