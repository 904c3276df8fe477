// Reads the coat and the measured frame, and says what is missing or has no effect.
// Entry: finish, read_as_built, check_true_up.

#include "spec/true_up.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "diag/catalogue.h"
#include "diag/words.h"

namespace fitup::spec {

namespace {

using diag::say;

constexpr std::array<std::string_view, 4> kind_words{"none", "paint", "powder", "zinc"};
// Of one coat. Paint and powder: common practice; zinc: ISO 1461 for steel thicker than 6 mm, from memory.
constexpr std::array<double, 4> usual_mm{0, 0.08, 0.1, 0.085};

std::optional<Measured> measured(const Cell& face, std::string_view key) {
  const Cell* cell = face.find(key);
  if (cell == nullptr) return std::nullopt;
  return Measured{cell->get<Length>(), cell->within.empty() ? std::nullopt : cell->within[0]};
}

AsBuiltFace as_built_face(Face face, const Cell& cell) {
  const MeasureKeys keys = measure_keys(face);
  return {cell.place,
          measured(cell, keys.across_low),
          measured(cell, keys.across_high),
          measured(cell, keys.up_low),
          measured(cell, keys.up_high),
          measured(cell, "diagonal_rising"),
          measured(cell, "diagonal_falling")};
}

void check_face(const std::string& key, Face face, const Cell& cell, Diagnostics& diagnostics) {
  const MeasureKeys keys = measure_keys(face);
  const std::array<std::string_view, 4> sides{keys.across_low, keys.across_high, keys.up_low, keys.up_high};
  for (const auto& [name, value] : cell.children) {
    if (name.starts_with("diagonal_") || std::find(sides.begin(), sides.end(), name) != sides.end()) continue;
    diagnostics.add(say<"no-such-measure">(value.place, key, name, sides[0], sides[1], sides[2], sides[3]));
  }
  std::string lacking;
  for (const std::string_view side : sides) {
    if (cell.find(side) == nullptr) lacking += (lacking.empty() ? "" : ", ") + std::string(side);
  }
  if (cell.find("diagonal_rising") == nullptr && cell.find("diagonal_falling") == nullptr)
    lacking += (lacking.empty() ? "" : ", ") + std::string("diagonal_rising or diagonal_falling");
  if (!lacking.empty()) diagnostics.add(say<"measures-missing">(cell.place, key, lacking));
}

void check_box(const Spec& spec, const std::string& name, const Cell& cell, Diagnostics& diagnostics) {
  std::vector<std::string> boxes;
  for (const BoxSpec& box : spec.boxes) boxes.push_back(box.name);
  if (std::find(boxes.begin(), boxes.end(), name) == boxes.end()) {
    diagnostics.add(say<"unknown-box">(cell.place, diag::in_quotes(name), diag::suggestion(name, boxes)));
  }
  for (const Face face : all_faces) {
    const Cell* measures = cell.find(to_text(face));
    const std::string key = fmt::format("as_built.{}.{}", name, to_text(face));
    if (measures != nullptr && measures->sound) check_face(key, face, *measures, diagnostics);
  }
}

}  // namespace

MeasureKeys measure_keys(Face face) {
  switch (face) {
    case Face::front:
    case Face::back: return {"width_bottom", "width_top", "height_left", "height_right"};
    case Face::left:
    case Face::right: return {"depth_bottom", "depth_top", "height_front", "height_back"};
    default: return {"width_front", "width_back", "depth_left", "depth_right"};
  }
}

FinishSpec finish(const Cell& cell) {
  FinishSpec finish;
  finish.place = cell.place;
  const auto word = cell["kind"].get<std::string>();
  const auto found = std::find(kind_words.begin(), kind_words.end(), *word);
  const auto index = found == kind_words.end() ? 0 : static_cast<std::size_t>(found - kind_words.begin());
  finish.kind = {static_cast<FinishKind>(index), word.place, word.given};
  const Cell* given = cell.find("thickness");
  finish.thickness =
      given != nullptr ? given->get<Length>() : Sourced<Length>{Length::mm(usual_mm[index]), word.place, false};
  const auto coats = cell["coats"].get<double>();
  finish.coats = {static_cast<int>(*coats), coats.place, coats.given};
  return finish;
}

void read_as_built(const Cell& root, Spec& spec) {
  const Cell* all = root.find("as_built");
  if (all == nullptr) return;
  for (BoxSpec& box : spec.boxes) {
    const Cell* frame = all->find(box.name);
    if (frame == nullptr) continue;
    for (const Face face : all_faces) {
      const Cell* cell = frame->find(to_text(face));
      if (cell != nullptr) box.as_built[static_cast<std::size_t>(face)] = as_built_face(face, *cell);
    }
  }
}

void check_true_up(const Spec& spec, const Cell& root, Diagnostics& diagnostics) {
  if (const Cell* all = root.find("as_built")) {
    for (const auto& [name, cell] : all->children) check_box(spec, name, cell, diagnostics);
  }
  const FinishSpec& finish = spec.finish;
  if (*finish.kind != FinishKind::none || !root["finish"].sound) return;
  constexpr std::string_view why = "finish.kind is \"none\"";
  if (finish.thickness.given) diagnostics.add(say<"no-effect">(finish.thickness.place, "finish.thickness", why));
  if (finish.coats.given) diagnostics.add(say<"no-effect">(finish.coats.place, "finish.coats", why));
}

}  // namespace fitup::spec
