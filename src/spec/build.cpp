// Fills the Spec from checked cells.
// Entry: build.

#include "spec/build.h"

#include <algorithm>
#include <array>

#include "fitup/tables.h"
#include "spec/bench_keys.h"
#include "spec/build_closing.h"
#include "spec/build_cutter.h"
#include "spec/build_fixings.h"
#include "spec/build_items.h"
#include "spec/build_joined.h"
#include "spec/build_loads.h"
#include "spec/build_plates.h"
#include "spec/build_sections.h"
#include "spec/build_space.h"
#include "spec/build_stiffening.h"
#include "spec/build_welds.h"
#include "spec/from_cell.h"
#include "spec/keys.h"
#include "spec/true_up.h"

namespace fitup::spec {

namespace {

constexpr std::array<Word<UnitSystem>, 2> unit_words{{{"mm", UnitSystem::mm_kg}, {"in", UnitSystem::in_lb}}};
constexpr std::array<Word<UnitSystem>, 2> shop_words{{{"metric", UnitSystem::mm_kg}, {"inch", UnitSystem::in_lb}}};
constexpr std::array<Word<DxfRelease>, 2> release_words{{{"r2000", DxfRelease::r2000}, {"r12", DxfRelease::r12}}};
constexpr std::array<Word<Corners>, 3> corners_words{
    {{"coped", Corners::coped}, {"butted", Corners::butted}, {"mitred", Corners::mitred}}};
constexpr std::array<Word<LongSide>, 2> long_side_words{{{"standing", LongSide::standing}, {"flat", LongSide::flat}}};
constexpr std::array<Word<Vents>, 2> vents_words{{{"none", Vents::none}, {"ends", Vents::ends}}};
constexpr std::array<Word<Legs>, 2> legs_words{{{"down", Legs::down}, {"up", Legs::up}}};
constexpr std::array<Word<HoleClass>, 3> hole_words{
    {{"close", HoleClass::close}, {"medium", HoleClass::medium}, {"loose", HoleClass::loose}}};
constexpr std::array<Word<Fixing>, 3> fixing_words{
    {{"none", Fixing::none}, {"bolted", Fixing::bolted}, {"welded", Fixing::welded}}};
constexpr std::array<Word<Closure>, 3> closure_words{
    {{"open", Closure::open}, {"plate", Closure::plate}, {"cover", Closure::cover}}};
constexpr std::array<Word<CoverStyle>, 2> style_words{{{"flat", CoverStyle::flat}, {"flanged", CoverStyle::flanged}}};
constexpr std::array<Word<Landing>, 2> landing_words{{{"inward", Landing::inward}, {"outward", Landing::outward}}};
constexpr std::array<Word<OpeningIn>, 2> opening_in_words{
    {{"face", OpeningIn::face}, {"rod plate", OpeningIn::rod_plate}}};
constexpr std::array<Word<OpeningKind>, 6> opening_words{{{"round", OpeningKind::round},
                                                          {"rectangle", OpeningKind::rectangle},
                                                          {"slot", OpeningKind::slot},
                                                          {"gland", OpeningKind::gland},
                                                          {"drain", OpeningKind::drain},
                                                          {"hose", OpeningKind::hose}}};
constexpr std::array<Word<ScrewFixing>, 6> screw_words{{{"tapped", ScrewFixing::tapped},
                                                        {"nut", ScrewFixing::nut},
                                                        {"locknut", ScrewFixing::locknut},
                                                        {"weld nut", ScrewFixing::weld_nut},
                                                        {"insert", ScrewFixing::insert},
                                                        {"nut strip", ScrewFixing::nut_strip}}};
constexpr std::array<Word<HoleShape>, 2> shape_words{{{"round", HoleShape::round}, {"slot", HoleShape::slot}}};
/// The length of a slot alone asks for one.
Sourced<HoleShape> hole_shape(const Cell& cell, const char* shape_key, const char* slot_key) {
  auto shape = word(cell[shape_key], shape_words);
  if (!shape.given && cell.find(slot_key) != nullptr) shape.value = HoleShape::slot;
  return shape;
}

std::vector<KeepApartSpec> keep_apart(const Cell* cell) {
  std::vector<KeepApartSpec> all;
  if (cell == nullptr) return all;
  for (const Cell& entry : cell->entries) {
    all.push_back({entry.place, text(entry["what"]), text(entry["from"]), length(entry["least"]), text(entry["why"])});
  }
  return all;
}

FrameSpec frame(const Cell& cell) {
  FrameSpec frame{
      text(cell["section"]),
      word(cell["corners"], corners_words),
      word(cell["bottom_legs"], legs_words),
      cell.find("uprights") != nullptr ? text(cell["uprights"]) : Sourced<std::string>{"", cell["section"].place},
      length(cell["cope_gap"]),
      text(cell["material"]),
      cell.find("top_section") != nullptr ? text(cell["top_section"]) : text(cell["section"]),
      word(cell["long_side"], long_side_words),
      {},
      {},
      {},
      word(cell["vents"], vents_words),
      cell.find("vent_diameter") != nullptr ? length(cell["vent_diameter"])
                                            : Sourced<Length>{Length::mm(0), cell["section"].place}};
  frame.top_section.given = cell.find("top_section") != nullptr;
  read_stiffening(cell, frame);
  return frame;
}

// One that is left out is what remains: its place is that of the table.
ClearanceSpec clearance(const Cell& cell) {
  const auto of = [&cell](const char* key) {
    const Cell* given = cell.find(key);
    if (given != nullptr) return measured(*given);
    return Measured{{Length::mm(0), cell.place, false}, std::nullopt};
  };
  return {of("left"), of("right"), of("front"), of("back"), of("top")};
}

RailsSpec rails(const Cell& cell) {
  RailsSpec rails;
  rails.thickness = length(cell["thickness"]);
  rails.margin = length(cell["margin"]);
  rails.outer_width = optional_length(cell.find("outer_width"));
  if (const Cell* at = cell.find("at")) {
    rails.at = at->get<std::vector<Length>>();
    rails.at_from = counted_from(*at);
  }
  return rails;
}

std::optional<RodPlatesSpec> rod_plates(const Cell* cell) {
  if (cell == nullptr) return std::nullopt;
  return RodPlatesSpec{length((*cell)["thickness"]),
                       word((*cell)["clearance_hole"], hole_words),
                       word((*cell)["front"], fixing_words),
                       word((*cell)["back"], fixing_words),
                       text((*cell)["screw"]),
                       word((*cell)["screw_fixing"], screw_words),
                       hole_shape(*cell, "screw_hole", "screw_slot"),
                       optional_length(cell->find("screw_slot")),
                       optional_list(cell->find("screw_at")),
                       length((*cell)["gap"])};
}

// A quarter turn is one the other way in the opposite hand. What is no quarter turn was said.
Sourced<int> quarters(const Cell& cell) {
  auto turned = count(cell);
  turned.value = turned.value / 90 % 4;
  if (cell.from_right) turned.value = (4 - turned.value) % 4;
  return turned;
}

RowEntry row_entry(const Cell& cell) {
  RowEntry entry;
  entry.place = cell.place;
  entry.of = text(cell["of"]);
  entry.count = count(cell["count"]);
  entry.between = optional_text(cell.find("between"));
  entry.gap = optional_length(cell.find("gap"));
  if (const Cell* at = cell.find("at")) {
    entry.at = lengths<3>(*at);
    entry.at_from = counted_from(*at);
  }
  entry.turned = quarters(cell["turned"]);
  entry.line = count(cell["line"]);
  entry.level = count(cell["level"]);
  return entry;
}

template <std::size_t N>
std::optional<Lengths<N>> optional_lengths(const Cell* cell) {
  if (cell == nullptr) return std::nullopt;
  return lengths<N>(*cell);
}

std::vector<OpeningSpec> openings(const Cell* cell) {
  std::vector<OpeningSpec> out;
  if (cell == nullptr) return out;
  for (const Cell& entry : cell->entries) {
    OpeningSpec opening;
    opening.place = entry.place;
    opening.kind = word(entry["kind"], opening_words);
    opening.in = word(entry["in"], opening_in_words);
    opening.at = optional_lengths<2>(entry.find("at"));
    if (opening.at) opening.at_from = counted_from(entry["at"]);
    opening.diameter = optional_length(entry.find("diameter"));
    opening.size = optional_lengths<2>(entry.find("size"));
    opening.corner_radius = length(entry["corner_radius"]);
    opening.thread = optional_text(entry.find("thread"));
    opening.columns = count(entry["columns"]);
    opening.rows = count(entry["rows"]);
    opening.pitch = optional_lengths<2>(entry.find("pitch"));
    opening.room = optional_length(entry.find("room"));
    opening.edge_strip = length(entry["edge_strip"]);
    opening.why = text(entry["why"]);
    out.push_back(std::move(opening));
  }
  return out;
}

std::optional<SealSpec> seal(const Cell* cell) {
  if (cell == nullptr) return std::nullopt;
  return SealSpec{cell->place, length((*cell)["width"]), length((*cell)["thickness"]),
                  (*cell)["compression"].get<double>(), text((*cell)["material"])};
}

FaceSpec face(const Cell& cell) {
  FaceSpec face;
  face.place = cell.place;
  face.entry = cell["entry"].get<bool>();
  face.closed_by = word(cell["closed_by"], closure_words);
  face.style = word(cell["style"], style_words);
  face.thickness = length(cell["thickness"]);
  const Cell& screws = cell["screws"];
  face.screws = {text(screws["thread"]), length(screws["max_spacing"]), word(screws["fixing"], screw_words),
                 hole_shape(screws, "hole", "slot"), optional_length(screws.find("slot"))};
  read_strip_and_places(screws, face.screws);
  face.flange_depth = length(cell["flange_depth"]);
  face.gap = length(cell["gap"]);
  face.landing_width = length(cell["landing_width"]);
  face.landing = word(cell["landing"], landing_words);
  face.seal = seal(cell.find("seal"));
  face.openings = openings(cell.find("openings"));
  face.lugs = mounts(cell.find("lugs"));
  face.earth = earth_studs(cell.find("earth"));
  read_closing(cell, face);
  return face;
}

BoxSpec box(const std::string& name, const Cell& cell) {
  BoxSpec box;
  box.name = name;
  box.place = cell.place;
  box.frame = frame(cell["frame"]);
  box.clearance = clearance(cell["clearance"]);
  box.rails = rails(cell["rails"]);
  box.rod_plates = rod_plates(cell.find("rod_plates"));
  for (const Cell& entry : cell["row"].entries) box.row.push_back(row_entry(entry));
  box.flush_at_back = cell["row"].from_back;
  box.flush_at_right = cell["row"].from_right;
  box.line_gap = length(cell["line_gap"]);
  if (const Cell* sequence = cell.find("sequence")) {
    box.sequence = sequence->get<std::vector<std::string>>();
    box.sequence_from = counted_from(*sequence);
  }
  if (const Cell* outside = cell.find("outside")) box.outside = lengths<3>(*outside);
  for (const Face f : all_faces) box.faces[static_cast<std::size_t>(f)] = face(cell["face"][to_text(f)]);
  box.welds = read_welds(cell["welds"]);
  read_plates(cell, box);
  read_joined(cell, box);
  return box;
}

std::optional<LiftingSpec> lifting(const Cell* cell) {
  if (cell == nullptr) return std::nullopt;
  LiftingSpec lifting;
  lifting.place = cell->place;
  lifting.thread = text((*cell)["thread"]);
  lifting.points = count((*cell)["points"]);
  lifting.eyes = (*cell)["eyes"].get<bool>();
  lifting.boss_diameter = optional_length(cell->find("boss_diameter"));
  lifting.boss_height = optional_length(cell->find("boss_height"));
  if (const Cell* at = cell->find("at")) {
    Sourced<std::vector<std::array<Length, 2>>> places{{}, at->place, true};
    for (const auto& pair : at->get<std::vector<std::vector<Length>>>().value) places.value.push_back(first<2>(pair));
    lifting.at = places;
    lifting.at_from = counted_from(*at);
  }
  return lifting;
}

PrintSpec print(const Cell& cell) {
  return {length(cell["fit"]), length(cell["hole_allowance"]), length(cell["first_layer"]),
          optional_length(cell.find("bush"))};
}

Sourced<Making> making(const Cell& cell) {
  const Sourced<std::string> written = text(cell);
  Sourced<Making> out{Making::laser, written.place, written.given};
  for (const MakingError& way : making_errors) {
    if (way.word == *written) out.value = way.making;
  }
  return out;
}

CutterSpec cutter(const Cell& cell, UnitSystem shop) {
  return {cut_rules(cell, shop), word(cell["units"], unit_words), word(cell["dxf"], release_words),
          text(cell["file_name"])};
}

}  // namespace

std::string name_from_file(std::string_view file_name) {
  const std::size_t slash = file_name.find_last_of("/\\");
  if (slash != std::string_view::npos) file_name.remove_prefix(slash + 1);
  file_name = file_name.substr(0, file_name.rfind('.'));
  std::string name;
  for (const char c : file_name.substr(0, longest_name)) {
    const bool letter_or_digit = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    if (letter_or_digit || (!name.empty() && (c == '_' || c == '-')))
      name += c;
    else if (!name.empty() && name.back() != '-')
      name += '-';
  }
  while (!name.empty() && name.back() == '-') name.pop_back();
  return name.empty() ? "enclosure" : name;
}

Spec build(const Cell& root, const std::string& file_name) {
  Spec spec;
  const Cell* name = root.find("name");
  spec.name = name != nullptr ? *text(*name) : name_from_file(file_name);
  const Cell* title = root.find("title");
  spec.title = title != nullptr ? *text(*title) : spec.name;
  spec.revision = *text(root["revision"]);
  spec.units = *word(root["units"], unit_words);
  const Cell* shop = root.find("shop");
  spec.shop = shop != nullptr ? *word(*shop, shop_words) : spec.units;
  for (const auto& [item_name, cell] : root["item"].children) spec.items.push_back(read_item(item_name, cell));
  spec.sections = own_sections(root.find("section"), spec.units);
  for (const auto& [box_name, cell] : root["box"].children) {
    spec.boxes.push_back(box(box_name, cell));
    choose_uprights(spec, spec.boxes.back().frame);
    choose_corners(spec, spec.boxes.back().frame);
    choose_flanges(spec, spec.boxes.back());
  }
  spec.lifting = lifting(root.find("lifting"));
  spec.print = print(root["print"]);
  spec.cutter = cutter(root["cutter"], spec.shop);
  spec.finish = finish(root["finish"]);
  spec.making = {making(root["making"]["holes"]), making(root["making"]["drilled"])};
  spec.keep_apart = keep_apart(root.find("keep_apart"));
  spec.space = read_space(root.find("space"));
  spec.load_rules = load_rules(root);
  read_as_built(root, spec);
  spec.bench = bench_options(root, spec);
  return spec;
}

}  // namespace fitup::spec

namespace fitup {

const ItemSpec* Spec::item(std::string_view sought) const {
  for (const ItemSpec& item : items) {
    if (item.name == sought) return &item;
  }
  return nullptr;
}

}  // namespace fitup
