#pragma once
// Every diagnostic the program can give: id, severity, stage and wording. To add one, add its line to the
// catalogue and call say<"its-id">(place, arguments...); the id and the arguments are checked when compiling.
// Wording: what, where, how much with units, how to mend it. {} takes the arguments in order.

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <string>
#include <string_view>
#include <utility>

#include "fitup/diagnostic.h"

namespace fitup::diag {

enum class Stage { spec, plan };

struct Entry {
  std::string_view id;
  Stage stage;
  Severity severity;
  std::string_view wording;
};

// Lengths, masses and lists are put into words before they are handed over: see words.h.
inline constexpr Entry catalogue[] = {
    // clang-format off
    // ---- reading the text
    {"syntax", Stage::spec, Severity::error, "this is not valid TOML: {}; nothing after this place was read"},
    {"file-too-large", Stage::spec, Severity::error, "the spec is {} bytes long; at most {} bytes are read"},
    {"unknown-key", Stage::spec, Severity::error, "{} has no key {}{}"},
    {"missing-key", Stage::spec, Severity::error, "{} needs {}"},
    {"wrong-type", Stage::spec, Severity::error, "{} is {}; it must be {}"},
    {"wrong-count", Stage::spec, Severity::error, "{} holds {}; it must hold {}"},
    {"too-many", Stage::spec, Severity::error, "{} holds {} entries; at most {} are read"},
    {"out-of-range", Stage::spec, Severity::error, "{} is {}; it must be {}"},
    {"unknown-word", Stage::spec, Severity::error, "{} is {}; it must be {}{}"},
    {"bad-name", Stage::spec, Severity::error,
     "{} is not a usable name; use letters, digits, - and _ only, beginning with a letter or digit, at most {} "
     "characters"},
    {"bad-text", Stage::spec, Severity::error,
     "{} must be one line of at most {} characters without control characters"},
    // ---- quantities
    {"bad-expression", Stage::spec, Severity::error, "{} cannot be read: {}"},
    {"too-deep", Stage::spec, Severity::error,
     "brackets and signs are nested more than {} deep; split the expression over names in [sizes]"},
    {"not-finite", Stage::spec, Severity::error, "{} is not a finite number; give a value that can be measured"},
    {"division-by-zero", Stage::spec, Severity::error, "division by zero: what stands right of / is 0"},
    {"mixed-quantities", Stage::spec, Severity::error, "{} cannot be {} {}; both sides must be of one kind"},
    {"bad-product", Stage::spec, Severity::error,
     "{} times {} is not a quantity of a spec; one side of * must be a plain number"},
    {"bad-quotient", Stage::spec, Severity::error,
     "{} divided by {} is not a quantity of a spec; divide by a plain number or by the same kind"},
    {"wrong-quantity", Stage::spec, Severity::error, "{} is {}; it must be {}"},
    {"unknown-size", Stage::spec, Severity::error, "there is no size named {} in [sizes]{}"},
    {"size-cycle", Stage::spec, Severity::error,
     "these sizes refer to each other in a circle: {}; give one of them a number"},
    {"bad-size-name", Stage::spec, Severity::error, "{} cannot be the name of a size: {}"},
    {"bare-of-two-units", Stage::spec, Severity::error,
     "both sides name numbers without a unit, of files that differ in units; write the unit where one of them stands in "
     "[sizes]"},
    {"set-not-a-size", Stage::spec, Severity::error,
     "--set {} names nothing: the spec has no [sizes]; a key is written with its dots, as in --set "
     "box.main.rails.thickness=6"},
    {"set-start-from", Stage::spec, Severity::error,
     "start_from cannot be an argument: a path in it is counted from the file that holds it; write it there"},
    {"set-no-entry", Stage::spec, Severity::error, "{} has no entry {}; it has {}, counted from 1"},
    {"set-part-of-turned", Stage::spec, Severity::error,
     "the places in {} are counted from the {} here, for opposite_hand turned them over; one of them cannot be given "
     "by itself: give the whole list, counted as usual, as in --set '{}=[...]'"},
    {"set-no-keys", Stage::spec, Severity::error, "{} is one value and has no keys below it; give it a value itself"},
    {"set-given-twice", Stage::spec, Severity::error, "--set {} is given {} times; give it once"},
    // ---- other files, other tables
    {"start-from-cycle", Stage::spec, Severity::error,
     "these files start from each other in a circle: {}; take start_from out of one of them"},
    {"start-from-too-long", Stage::spec, Severity::error,
     "a spec and the files it starts from are at most {} files; here are more: {}"},
    {"start-from-unreadable", Stage::spec, Severity::error,
     "cannot read {}: {} ({}); the path is counted from the file that names it"},
    {"files-too-large", Stage::spec, Severity::error,
     "the spec and the files that it starts from are {} bytes long together; at most {} bytes are read"},
    {"like-cycle", Stage::spec, Severity::error,
     "these are like each other in a circle: {}; take like out of one of them"},
    {"like-without-mass", Stage::spec, Severity::error,
     "{} is like {} but has another size ({} instead of {}); state its mass too"},
    // ---- what refers to what
    {"unknown-item", Stage::spec, Severity::error, "there is no item named {}{}"},
    {"unknown-group", Stage::spec, Severity::error, "there is neither an item nor a group of parts named {}{}"},
    {"unknown-box", Stage::spec, Severity::error, "there is no box named {}{}"},
    {"unknown-section", Stage::spec, Severity::error, "the tables hold no section {}{}"},
    {"wrong-section", Stage::spec, Severity::error, "{} is {}; it must be {}, as in \"{}\""},
    {"section-impossible", Stage::spec, Severity::error, "section.{} {}"},
    {"tube-not-coped", Stage::spec, Severity::error, "corners = \"coped\" cuts legs to a profile, and {} is a tube; choose \"butted\", square ends between two members that run through, or \"mitred\""},
    {"unknown-thread", Stage::spec, Severity::error, "the tables hold no {} {}; there are: {}"},
    {"unknown-material", Stage::spec, Severity::error, "the tables hold no material {}{}"},
    // ---- what does not fit together
    {"rod-outside-item", Stage::spec, Severity::error,
     "an {} rod at {} reaches outside the face of {} or to its edge; the face is {} wide and {} high; keep the rod's "
     "centre at least {} from each edge"},
    {"rods-overlap", Stage::spec, Severity::error,
     "two {} rods of {} stand {} apart; their centres must be at least {} apart"},
    {"rod-bore-too-small", Stage::spec, Severity::error,
     "the bore for the {} rods of {} is {}, and the rod is {} thick; give the bore's diameter as it is measured, at least "
     "{}, or leave it out where the rods are held"},
    {"strips-too-wide", Stage::spec, Severity::error,
     "two foot strips of {} are wider than {}, which is {} across; at most {} each"},
    {"between-and-gap", Stage::spec, Severity::error,
     "a row entry takes between (an item in each gap) or gap (an empty gap), not both; leave one out"},
    {"no-quarter-turn", Stage::spec, Severity::error, "{} is {}; an item is turned by 0, 90, 180 or 270 degrees"},
    {"too-many-items", Stage::spec, Severity::error,
     "the row holds {} items, those between them counted; at most {} can stand in one box"},
    {"boxes-apart", Stage::spec, Severity::error,
     "{} boxes stand for themselves: {}; only one may, so say with under = or on = what {} hangs below or stands on"},
    {"box-cycle", Stage::spec, Severity::error,
     "these boxes hang or stand on each other in a circle: {}; take under or on out of one of them"},
    {"under-and-on", Stage::spec, Severity::error,
     "box {} is both under and on another one; one of the two is enough, and both cannot be: leave one out"},
    {"no-bearers", Stage::spec, Severity::error,
     "box {} is {} {} and has no bearers; say what it is held by, as in bearers = {{ section = \"40x8\" }}"},
    {"lift-places", Stage::spec, Severity::error,
     "lifting.at gives {} places for {} lift points; give one place for each"},
    {"lift-places-missing", Stage::plan, Severity::error,
     "no rule says where three lift points stand; give lifting.at, for example {}, or lifting.points = 2 or 4"},
    {"not-a-steel", Stage::spec, Severity::error,
     "the frame is of {}, an aluminium alloy, whose threads and welds follow other rules; choose a steel, or build = \"plate\": {}"},
    {"opening-needs", Stage::spec, Severity::error,
     "{}: an opening of kind \"{}\" needs {}; see `fitup explain openings.{}`"},
    {"no-such-measure", Stage::spec, Severity::error,
     "{} has no {}; its sides are {}, {}, {} and {}: name the one that was measured"},
    {"measures-missing", Stage::spec, Severity::error,
     "{} lacks {}; a face is known by its four sides and one diagonal at least: measure them, or leave the face out"},
    // ---- what cannot be built
    {"end-cut",           Stage::plan, Severity::error, "{} cannot be cut to fit: {}; change the section or the size of the box"},
    {"strips-cross",      Stage::plan, Severity::error, "the foot strips of {} come down along its {} edge, those of {} along its {} edge; the rails of a box all run one way, so turn one of the two by 90 degrees, or give its foot_strips other sides"},
    {"rods-across",       Stage::plan, Severity::error, "the rods of {} run from left to right, as it is turned by {} degrees; rod plates hold rods that run from front to back; turn it by 0 or 180, or leave its rods out"},
    {"sequence-unknown",  Stage::plan, Severity::error, "{} names {}, and nothing of the box comes to its place by that name; it may name: {}"},
    {"sequence-twice",    Stage::plan, Severity::error, "{} names {} twice; name it once"},
    {"sequence-against",  Stage::plan, Severity::error, "{} has {} before {}, which it stands on or is held by; exchange the two"},
    {"outside-differs",   Stage::plan, Severity::error, "outside is {} {}, and what is given makes {} = {}: {} {}; change {} by that, or leave one of these clearances out, which then takes what remains"},
    {"outside-too-small", Stage::plan, Severity::error, "outside is {} {}, and what is given makes {} = {}, without {}: {} too much; make outside at least {} {}, or one of these smaller"},
    {"rail-count",        Stage::plan, Severity::error, "rails.at gives {} places; what stands on the floor needs {} rails, one place for each"},
    {"rail-off-frame",    Stage::plan, Severity::error, "rail {} runs from {} {} to {} {}, the frame from {} 0 to {} {}, and the rail lies on {} of its bottom legs; it must lie on the {} one; {}"},
    {"rail-too-narrow",   Stage::plan, Severity::error, "rail {} is {} wide, and what it must carry reaches from {} {} to {} {}; make rails.outer_width at least {}, or leave it out"},
    {"rails-meet",        Stage::plan, Severity::error, "rail {} ends at {} {} and rail {} begins at {} {}; rails must lie apart; {}"},
    {"item-outside-frame", Stage::plan, Severity::error, "{} reaches outside the frame: {}; move it by that much with its at"},
    {"stands-on-nothing", Stage::plan, Severity::error, "{} stands on nothing: its bottom is at Z {}, {}; {}"},
    {"would-tip",         Stage::plan, Severity::error, "{} would tip: its middle, at X {}, Y {}, does not lie within what carries it: {}; {}"},
    {"strip-off-rail",    Stage::plan, Severity::error, "the {} foot strip of {} runs from {} {} to {} {}, and {} of its width lie on {}; {}"},
    {"uneven-rods",       Stage::plan, Severity::error, "the rods' {} ends are not in one plane: those of {} stand {} off; {}"},
    {"rod-too-short",     Stage::plan, Severity::error, "{} rods project {}; {} need {}; make projection at least that"},
    {"box-too-shallow",   Stage::plan, Severity::error, "the box is {} deep; two lift bosses {} across on each side, clear of the corners, need at least {}; give their places in lifting.at, or make the box deeper"},
    {"no-spacer",         Stage::plan, Severity::warning, "no spacer is printed for {}: {} less print.fit of {} leaves {}, and at least {} can be printed; make print.fit smaller"},
    {"no-drill-guide",    Stage::plan, Severity::warning, "no drill guide is printed for {}: {}"},
    {"no-printed-aid",    Stage::plan, Severity::warning, "no {} is printed: {}"},
    {"thread-too-short",  Stage::plan, Severity::error, "{} is {} thick; an {} thread in {} needs at least {} ({}); choose a smaller thread or a thicker section{}"},
    {"no-room-for-fixing", Stage::plan, Severity::error, "{} for {}, of {} in {}, {}; {}"},
    {"fixing-not-made",   Stage::plan, Severity::error, "{}: the tables have none for {}; choose {}, or leave that key out"},
    {"plate-impossible",  Stage::plan, Severity::error, "the {} rod plate cannot be cut: {}; move the rods, the zones that are kept clear, or the items apart"},
    {"no-room-for-hole",  Stage::plan, Severity::error, "there is no room for the {} hole of {} in {}: it {}; {}"},
    {"no-room-for-flange", Stage::plan, Severity::error, "the {} rod plate's return flanges have no room for their {} screws: these must stand at least {} behind the face of the frame ({}), {} before the plate, which stands {} the face, and within the upright, which is {} wide; {}"},
    {"gap-too-small",     Stage::plan, Severity::error, "the tips of the {} screws of the {} rod plate stand {} out of the uprights under the {} cover's flange, where the gap is {}; set rod_plates.screw_fixing to tapped, whose tips stand out least, or make the gap at least {}"},
    {"rod-plate-misses",  Stage::plan, Severity::error, "the welded {} rod plate stands from {} to {} the face of the frame and the uprights end {} it, so that it cannot be welded to them: frame {} + clearance {} - nut {} = {}; {}"},
    {"boss-too-small",    Stage::plan, Severity::error, "the lift boss is {} across and {} high; an {} eye needs a collar of {} and a hole {} deep"},
    {"boss-too-wide",     Stage::plan, Severity::error, "a lift boss {} across does not stand on a leg {} wide whose root ends {} from the heel, where {}; {}"},
    {"no-room-for-vent",  Stage::plan, Severity::error, "there is no room for the vent hole of {} in {}: within {} of its end each wall is too narrow or covered by what is welded there; choose a smaller vent_diameter or a wider tube"},
    {"boss-not-in-tube",  Stage::plan, Severity::error, "a lift boss {} across and {} high does not go into a tube of the top ring: its hole takes {} of the {} between the rounded corners, and it stands {} deep in a hollow of {}; choose a smaller eye or a wider tube"},
    {"boss-nowhere",      Stage::plan, Severity::error, "there is no leg of the top ring under the lift point at X {}, Y {}; {}"},
    {"nothing-left",      Stage::plan, Severity::error, "{} would be {} by {} by {}: nothing is left of it; change {} or what stands beside it"},
    {"tube-not-stiffened", Stage::plan, Severity::error, "{} is not built {}; leave it out, or choose {}"},
    {"upright-on-round", Stage::plan, Severity::error, "uprights of {} are {} thick and would stand on nothing but the rounded edge of a mitred ring of {}; choose corners = \"butted\", thicker uprights, or uprights of tube"},
    {"uprights-meet",     Stage::plan, Severity::error, "uprights of {} are {} wide and the frame is {} {}, so that those of {} meet; they must be less than {} wide"},
    {"flange-too-shallow", Stage::plan, Severity::error, "the flanges of the {} cover are {} deep; their {} screws stand {} from the face of the frame, on the top member clear of the root or rounding that ends at {}, and need {} to the flange's edge (1.2 hole diameters): choose a flange_depth of at least {}"},
    {"item-does-not-pass", Stage::plan, Severity::error, "{} cannot go in straight through the {} face: along {} it is from {} to {} and needs {} more on either side, and the opening is from {} to {}; {}"},
    {"no-way-in",         Stage::plan, Severity::error, "the items cannot go in through the {} face: {}"},
    {"rod-plate-does-not-pass", Stage::plan, Severity::error, "the bolted {} rod plate is {} wide and {} high; the opening that it goes in through is {} wide and {} high; {}"},
    {"no-steel-left",     Stage::plan, Severity::error, "the {} rod plate cannot be cut: what is kept clear for {} of {}, from X {} to {} and from Z {} to {} with {} around it, {}; make the zone smaller or less deep, or give more clearance at the {}"},
    {"panel-impossible",  Stage::plan, Severity::error, "{} cannot be cut: {}; choose a narrower border or landing_width, thinner plates or a larger box"},
    {"border-too-narrow", Stage::plan, Severity::error, "the plates' border is {} wide; plates {} thick need at least {}, so that enough stays beside their slots; choose a wider plates.border or thinner plates"},
    {"borders-meet",      Stage::plan, Severity::error, "the box is {} {}; borders {} wide round an opening with rounded corners need at least {}; choose a narrower border, or make the box larger"},
    {"base-ring-refused", Stage::plan, Severity::error, "a base ring of {} is not built: {}; choose {}"},
    {"tray-refused", Stage::plan, Severity::error, "a floor that is a tray is not built: {}; choose {}"},
    {"tray-too-low", Stage::plan, Severity::error, "the tray's edges stand {} out; of sheet {} thick with an inside radius of {} they must stand out {} {}: choose a tray_depth of at least {}"},
    {"members-meet",      Stage::plan, Severity::error, "the frame is {} {}; two members of {} that face each other need at least {}; choose a narrower section or make the box larger"},
    {"landings-meet",     Stage::plan, Severity::error, "two strips {} wide for the {} cover do not fit between uprights {} apart; choose a landing_width of less than {}"},
    {"landing-over-neighbour", Stage::plan, Severity::error, "the outward landing of the {0} cover stands where the flange of the {1} cover laps the frame; make the {1} cover flat, on an outward landing of its own if it is to be sealed, or choose landing = \"inward\" for the {0} cover, which holds no seal"},
    {"landing-too-narrow", Stage::plan, Severity::error, "the outward landing of the {} cover is {} wide; its {} screws need {} beside a seal {} wide: choose a landing_width of at least {}"},
    {"flange-too-low", Stage::plan, Severity::error, "the bent flanges of the {} cover stand out {}; of sheet {} thick with an inside radius of {} a flange must stand out {} to lie on the die (0.7 of its opening, and 2 thicknesses and the radius): choose a flange_depth of at least {}"},
    {"flange-not-notched", Stage::plan, Severity::error, "the {} cover's flange at the {} cannot be notched for {}: {}; {}"},
    {"flange-too-deep",   Stage::plan, Severity::error, "the flanges of the {} cover reach {} back, so that the {} plate begins {} behind the face of the frame; on {} {} wide it needs {} to be welded to: choose {}"},
    {"face-not-offered",  Stage::plan, Severity::error, "the {} face cannot be closed by {}: {}; choose {}"},
    {"cover-row-without-room", Stage::plan, Severity::error, "the {} cover lies on {} over {} only; its {} screws need {} to stand in; {}"},
    {"no-rod-plate-to-open", Stage::plan, Severity::error, "the {} \"{}\" is to be cut in the rod plate at the {}, and there is none; leave out in = \"rod plate\" to cut what closes the face, or give items with rods a rod plate there"},
    {"no-room-for-opening", Stage::plan, Severity::error, "the {} \"{}\" in {} {}; at least {} of plate must stay between it and an edge or another hole (common practice: the thickness, at least 1 mm); move it, make it smaller, or move what is beside it"},
    {"gland-too-short", Stage::plan, Severity::error, "the thread of an {} gland reaches {} in; the plate of {} and its locknut need {}; choose a thinner plate"},
    {"welded-shut",       Stage::plan, Severity::error, "every face of {} but the bottom, which the rails cross, is welded shut: nothing can go in or come out, and no gas can leave; close one by a cover or leave it open"},
    {"nuts-shut-in",      Stage::plan, Severity::error, "the outer nuts of the {} rod plate stand behind a plate that is welded over the {} face, where no socket reaches them; close that face by a cover, leave it open, or leave the plate out with rod_plates.{} = \"none\""},
    {"opening-too-narrow", Stage::plan, Severity::error, "the {} \"{}\" is {} wide; in a plate of {} the cutter makes nothing narrower than {} (cutter.{} times the thickness); make it wider"},
    {"cross-bar-below",   Stage::plan, Severity::error, "a cross bar of {} would be {} high and reach {} below the bottom ring, whose {} leave {} under the rails; choose a section at most {} high{}"},
    {"cross-bar-place",   Stage::plan, Severity::error, "cross bar {} would run from {} {} to {} {}{}; {}"},
    {"gussets-nowhere",   Stage::plan, Severity::error, "gussets stand in the left and the right side, and the items go in through both; leave entry out at one of them, or frame.gussets"},
    {"gusset-too-thick",  Stage::plan, Severity::error, "a gusset of {} would stand in beyond the uprights' edge of {} that it is welded to; make frame.gussets.thickness at most {}, or choose thicker uprights"},
    {"gusset-leg",        Stage::plan, Severity::error, "a gusset's leg of {} does not fit: {}; make frame.gussets.leg {} {}"},
    {"brace-not-offered", Stage::plan, Severity::error, "the {} face gets no brace: {}; leave frame.braces.{} out"},
    {"brace-too-wide",    Stage::plan, Severity::error, "a brace {} wide is more plate than brace in the {} face, which leaves it {} by {}; make frame.braces.width at most {}"},
    {"gap-too-wide",      Stage::plan, Severity::error, "cope_gap is {}; the weld that fills it bridges at most the thickness of the thinner part, {} (common practice); choose a smaller gap"},
    {"file-name-pattern", Stage::spec, Severity::error, "cutter.file_name is {}, {}; the words are {{mark}}, {{name}}, {{quantity}}, {{material}}, {{thickness}}, {{job}} and {{revision}}, as in \"{{mark}}_{{name}}_{{quantity}}x\""},
    {"boss-covered",      Stage::plan, Severity::error, "no eye can be screwed into {}: {} of another box stands within {} over it; move that box by its at, or the lift points in lifting.at"},
    {"bearers-miss",      Stage::plan, Severity::error, "the bearers between {} do not reach both rings: {}; {}"},
    {"bearers-no-face",   Stage::plan, Severity::error, "bearers find no face to lie on at box \"{}\": its {} {}; {}"},
    {"bolt-no-seat",      Stage::plan, Severity::error, "an {} bolt finds no flat place on {}, whose leg of {} must hold its washer ({}) and a socket ({}) beyond the root, which ends {} from the heel; choose a smaller screw or a wider section"},
    {"bolt-not-reached",  Stage::plan, Severity::error, "the {} bolts of the bearers between {} cannot be reached: {} is in the way; a key needs {} over the head and a socket {} over the nut (common practice); move the bearers with bearers.at, the box with its at, or bolt them to the other box"},
    {"out-of-face",       Stage::plan, Severity::error, "{} are on the {} face and cannot stand out at \"{}\", square to it; choose {}"},
    {"mount-on-cover",    Stage::plan, Severity::error, "{} cannot be welded on at the {} face, which is closed by a cover that comes off; close it by a plate or leave it open, or choose other sides with out"},
    {"mount-too-narrow",  Stage::plan, Severity::error, "{} are {} wide; the {} {} of {} with steel beside it (1.2 hole diameters, EN 1993-1-8) and under its washer needs a width of at least {}"},
    {"mount-misses",      Stage::plan, Severity::error, "{}: {}; {}"},
    {"mount-inside",      Stage::plan, Severity::error, "{}: the hole at ({}, {}) is not beyond a side of the box, where a bolt can be reached; put it at least {} beyond one"},
    {"mount-not-reached", Stage::plan, Severity::error, "{}: a hole {} beyond the {} side leaves no room for a socket on an {} nut beside what stands there; put it at least {} beyond"},
    {"mount-off-leg",     Stage::plan, Severity::error, "{}: on a cleat of {} the hole for an {} bolt must be at least {} beyond the side, for the root and the socket, and at most {}, for the toe and the washer; choose a larger section, a smaller thread, or another place"},
    {"mount-collides",    Stage::plan, Severity::error, "{} of {} would stand in {}; give its place in at, choose another width, or other sides with out"},
    {"measures-contradict", Stage::plan, Severity::error, "{}: no frame has these sizes: {}; measure again, or say how well each was measured, as in {{ value = \"{}\", within = \"2 mm\" }}"},
    {"measure-far-off", Stage::plan, Severity::error, "{} is {}, where the frame is made {}: {} off, more than {}; covers cannot make up for that: measure again, or change the spec to what was built"},
    {"holes-of-one-kind", Stage::spec, Severity::error, "{} needs depth, where the holes are tapped in the item, or ear, where they go through ears of that thickness: {}"},
    {"edge-not-of-face", Stage::spec, Severity::error, "{} has no meaning: the {} face has no {} edge; name one of the four faces beside it"},
    {"item-hole-misfit", Stage::plan, Severity::error, "{}: the hole at ({}, {}) {}; {}"},
    {"item-not-reached", Stage::plan, Severity::error, "{} of {}: {}; {}"},
    {"screw-place", Stage::plan, Severity::error, "{}: the screw at {} {}; {}"},
    {"earth-nowhere", Stage::plan, Severity::error, "{}: the stud at ({}, {}): {}; {}"},
    {"loose-nuts-shut-in", Stage::plan, Severity::error, "{}: every face is closed, and behind the {} cover, the last one, nobody can hold a nut; choose \"weld nut\", \"insert\" or \"nut strip\", or leave another face open"},
    // ---- what is likely a slip
    {"seal-not-held", Stage::spec, Severity::error, "{} is not built in: {} holds no seal; choose {}, or leave the seal out"},
    {"stitch-not-tight", Stage::spec, Severity::error, "{} leaves gaps in the seams of the {} plate, and {} is to keep the box tight: leave one of the two out, or make those seams continuous with gap = 0 in {}"},
    {"no-effect", Stage::spec, Severity::warning, "{} has no effect: {}"},
    {"row-interrupted", Stage::plan, Severity::warning, "{} and the next stand {} apart, more than max_spacing, {}: what is welded or stands there leaves no nearer place; give their places in screws.at, or a larger max_spacing"},
    // ---- notes
    {"in-the-opposite-hand", Stage::spec, Severity::note,
     "that file is read in the opposite hand, asked for here: its left and right, or its front and back, are exchanged"},
    {"also-here", Stage::spec, Severity::note, "{} stands here"},
    // clang-format on
};

/// A string literal as a template argument.
template <std::size_t N>
struct Id {
  char text[N];
  consteval Id(const char (&literal)[N]) { std::copy_n(literal, N, text); }  // NOLINT(google-explicit-constructor)
  [[nodiscard]] constexpr std::string_view view() const { return {text, N - 1}; }
};

void id_is_not_in_the_catalogue();  // never defined: calling it is what stops the compilation

consteval const Entry& find(std::string_view id) {
  for (const Entry& entry : catalogue) {
    if (entry.id == id) return entry;
  }
  id_is_not_in_the_catalogue();
  return catalogue[0];
}

/// The diagnostic of that id, its wording filled in.
template <Id id, class... Args>
[[nodiscard]] Diagnostic say(const Place& place, const Args&... args) {
  constexpr const Entry& entry = find(id.view());
  return Diagnostic{std::string(entry.id),
                    entry.severity,
                    fmt::format(fmt::format_string<const Args&...>(entry.wording), args...),
                    place,
                    {}};
}

/// The same with a note: with_note(say<"a">(...), say<"also-here">(...)).
[[nodiscard]] inline Diagnostic with_note(Diagnostic diagnostic, Diagnostic note) {
  note.severity = Severity::note;
  diagnostic.notes.push_back(std::move(note));
  return diagnostic;
}

}  // namespace fitup::diag
