// A comparison for programs.
// Entry: comparison_json.

#include <nlohmann/json.hpp>

#include "compare/comparison.h"
#include "output/summary_json.h"

namespace fitup::compare {
namespace {

using Json = nlohmann::ordered_json;

Json side_json(const Side& side) {
  Json json{{"path", side.path},
            {"name", side.name},
            {"revision", side.revision},
            {"spec_hash", side.spec_hash},
            {"finish", side.finish.empty() ? Json(nullptr) : Json(side.finish)},
            {"hand", side.hand.empty() ? Json(nullptr) : Json(side.hand)},
            {"frames", Json::array()},
            {"overall_size_mm", side.sizes.overall_mm}};
  for (const output::FrameSize& frame : side.sizes.frames) {
    json["frames"].push_back({{"box", frame.box}, {"size_mm", frame.size_mm}, {"corner_mm", frame.corner_mm}});
  }
  return json;
}

Json part_json(const std::optional<output::PartLine>& line) { return line ? output::line_json(*line) : Json(nullptr); }

}  // namespace

std::string comparison_json(const Comparison& comparison, const Side& a, const Side& b) {
  Json json{{"same", comparison.nothing_differs()}, {"a", side_json(a)}, {"b", side_json(b)}};
  json["changes"] = Json::array();
  for (const Change& change : comparison.changes) {
    json["changes"].push_back({{"kind", to_text(change.kind)},
                               {"differences", differences(change, UnitSystem::mm_kg)},
                               {"a", part_json(change.a)},
                               {"b", part_json(change.b)}});
  }
  json["totals"] = Json::array();
  for (const Total& total : comparison.totals) {
    json["totals"].push_back({{"key", total.key}, {"a", total.a}, {"b", total.b}, {"differs", total.differs()}});
  }
  json["sizes_differ"] = comparison.sizes_differ;
  json["finish_differs"] = comparison.finish_differs;
  json["opposite_hands"] = comparison.opposite_hands();
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace fitup::compare
