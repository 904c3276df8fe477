// The rows of the key table.
// Entry: rules.
#include "spec/keys.h"
#include "tables/rod_plates.h"

namespace fitup::spec {

namespace {

constexpr Range none{};
constexpr Range any_place{-20000, 20000};    // mm: a box is no longer than 20 m
constexpr Range size_range{0, 20000, true};  // mm
constexpr Range clearance_range{0, 5000};    // mm
constexpr Range bay_range{0, 20000};         // mm
constexpr Range sheet_range{0.5, 50};        // mm: thinner is foil, thicker is not cut from sheet
constexpr std::string_view fixing_words = "tapped, nut, locknut, weld nut, insert";
constexpr std::string_view cover_fixing_words = "tapped, nut, locknut, weld nut, insert, nut strip";
constexpr std::string_view face_words = "front, back, left, right, top, bottom";

// A row stays a row.
// clang-format off
const std::vector<Rule> top_rows{
    {"fitup", Type::count, Need::must, "", {1, 1}, "", "version of the spec language"},
    {"start_from", Type::text, Need::may, "", none, "",
     "another spec, by its path from this file: it is read first, and what stands here is put over it; name, title, "
     "revision and what was measured (as_built) are not taken from it"},
    {"opposite_hand", Type::word, Need::may, "", none, "left-right, front-back",
     "builds what start_from brings in the other way round; items keep their own hand, and what stands in this file is "
     "read in the finished box"},
    {"name", Type::name, Need::may, "the file's name", none, "",
     "short name of the job, on its pages and in its files; its folder is called after the spec's file"},
    {"title", Type::text, Need::may, "the name", none, "", "what it is, in words; stands on every page"},
    {"revision", Type::text, Need::filled, "A", none, "",
     "revision of the spec; stands on every page, so that paper of one never meets plates of another"},
    {"units", Type::word, Need::filled, "mm", none, "mm, in", "what a bare number means: mm and kg, or in and lb"},
    {"shop", Type::word, Need::may, "", none, "metric, inch",
     "whose threads, sections, gauges and papers stand in for what is not stated, as the defaults of the other keys say; "
     "without it as `units`"},
    {"sizes", Type::named, Need::filled, "", none, "",
     "names for numbers that occur more than once; usable wherever a quantity is, as in \"2*gap + 1 mm\""},
    {"sizes.NAME", Type::quantity, Need::may, "", none, "", "a number, a quantity or an expression over other sizes"},
};

const std::vector<Rule> item_rows{
    {"item", Type::named, Need::must, "", none, "",
     "the things that the enclosure carries, each under a name of its own"},
    {"item.NAME", Type::table, Need::may, "", none, "", "one kind of item"},
    {"item.NAME.like", Type::item, Need::may, "", none, "",
     "another item that this one is like but for the keys beside it; a size of its own needs a mass of its own"},
    {"item.NAME.size", Type::three_measured, Need::must, "", size_range, "",
     "across (X), deep (Y) and high (Z), without what sticks out"},
    {"item.NAME.mass", Type::mass, Need::must, "", {0, 50000, true}, "", "mass of one, its rods included"},
    {"item.NAME.rods", Type::table, Need::may, "", none, "", "threaded rods through the item along its depth"},
    {"item.NAME.rods.thread", Type::thread, Need::must, "", none, "", "thread of the rods"},
    {"item.NAME.rods.at", Type::length_pairs, Need::must, "", {0, 20000}, "",
     "centre of each rod: across and up from the item's left bottom corner, seen from the front"},
    {"item.NAME.rods.projection", Type::length, Need::must, "", {0, 1000}, "",
     "how far a rod sticks out beyond either end face"},
    {"item.NAME.rods.strength", Type::word, Need::may, "", none, "4.6, 4.8, 5.8, 8.8, A2-70",
     "property class that the lists ask for, its nuts' class following from it (ISO 898-1 and -2, ISO 3506); without it "
     "they ask for none"},
    {"item.NAME.rods.fixed", Type::yes_no, Need::filled, "false", none, "",
     "whether the rods are held in the item, so that they neither turn nor come out; the lists say which"},
    {"item.NAME.rods.locknut", Type::yes_no, Need::filled, "false", none, "",
     "whether the nut outside a rod plate is a prevailing torque nut (ISO 7040), which is higher"},
    {"item.NAME.rods.washer", Type::word, Need::filled, "plain", none, "plain, large",
     "under that nut: ISO 7089, or the large washer of ISO 7093-1"},
    {"item.NAME.rods.within", Type::length, Need::filled, "0.2 mm", {0, 5}, "",
     "how far off the rods' places may have been measured, either way (0.2 mm: a calliper by hand, common practice); "
     "hole-fit reckons with it"},
    {"item.NAME.rods.bore", Type::length, Need::may, "", {1, 200}, "",
     "diameter of the item's own holes, where its rods are loose in them and may be moved; without it nothing is counted "
     "on"},
    {"item.NAME.swelling", Type::length, Need::filled, "0 mm", {0, 500}, "",
     "how much wider, across, the item becomes over its life, in all; stack reckons with it"},
    {"item.NAME.foot_strips", Type::table, Need::may, "", none, "",
     "strips under the item that it stands on, along two of its edges; without them it stands with its whole bottom on the "
     "frame's legs, other items or their rails, and where these do not carry it, on rails under 20 mm of its left and "
     "right edge"},
    {"item.NAME.foot_strips.sides", Type::word, Need::filled, "left right", none, "left right, front back",
     "the two edges that the strips run along; the rails lie under them: from front to back, or from left to right"},
    {"item.NAME.foot_strips.width", Type::length, Need::must, "", {0, 1000, true}, "",
     "width of one strip, from the item's edge inward"},
    {"item.NAME.keep_clear", Type::tables, Need::may, "", none, "",
     "zones in front of a face that must stay free: connectors, terminals, vents"},
    {"item.NAME.keep_clear.face", Type::word, Need::must, "", none, face_words, "the face that the zone stands on"},
    {"item.NAME.keep_clear.at", Type::two_lengths, Need::must, "", any_place, "",
     "low corner of the zone in that face, from the item's low corner, in X, Y, Z order of the face's axes"},
    {"item.NAME.keep_clear.size", Type::two_lengths, Need::must, "", size_range, "",
     "size of the zone in the same two directions"},
    {"item.NAME.keep_clear.depth", Type::length, Need::must, "", {0, 5000, true}, "",
     "how far the zone reaches out from the face"},
    {"item.NAME.keep_clear.why", Type::text, Need::filled, "kept clear", none, "", "what needs the room"},
};

const std::vector<Rule> section_rows{
    {"section", Type::named, Need::may, "", none, "",
     "sections that the tables do not hold, each under a name of its own, which frame.section and frame.uprights take; "
     "their mass follows from their size"},
    {"section.NAME", Type::table, Need::may, "", none, "", "one section by its size"},
    {"section.NAME.kind", Type::word, Need::must, "", none, "angle, flat, tube", "what it is: an angle, a flat bar, or a square or rectangular tube"},
    {"section.NAME.width", Type::length, Need::must, "", {5, 500}, "", "of a flat bar or a tube, or the one leg of an angle"},
    {"section.NAME.height", Type::length, Need::may, "", {5, 500}, "",
     "the other leg of an angle, or of a tube; without it both are equal"},
    {"section.NAME.thickness", Type::length, Need::must, "", {1, 50}, "", "of a flat bar, of both legs of an angle, or of a tube's wall"},
    {"section.NAME.root_radius", Type::length, Need::may, "", {0, 50}, "",
     "between the legs of an angle; without it as much as it is thick (common practice)"},
    {"section.NAME.toe_radius", Type::length, Need::may, "", {0, 50}, "",
     "at the inner edge of an angle's legs; without it half the root radius, as in EN 10056-1"},
    {"section.NAME.corner_radius", Type::length, Need::may, "", {0, 100}, "",
     "of a tube, outside; without it twice its thickness, 2.5 times from 6 mm and 3 times from 10 mm up, as in EN 10219-2 "
     "(from memory); inside it is less by the thickness"},
};

const std::vector<Rule> box_rows{
    {"box", Type::named, Need::must, "", none, "", "the enclosure's box, under a name of its own"},
    {"box.NAME", Type::table, Need::may, "", none, "", "one rectangular frame with its faces"},
    {"box.NAME.like", Type::box, Need::may, "", none, "",
     "another box that this one is like but for the keys beside it"},
    {"box.NAME.build", Type::word, Need::filled, "framed", none, "framed, plate",
     "framed: a welded frame of rolled section, closed by plates and covers; plate: cut sheet, whose tabs and slots find "
     "their own places, on a ring of angle where plates.base_ring names one; it does without frame.section: it is then 4 mm "
     "thick with borders of 40 mm, in an inch shop 3/16 in and 1-1/2 in, where plates says nothing else"},
    {"box.NAME.frame", Type::table, Need::framed, "", none, "", "what the frame is made of"},
    {"box.NAME.frame.section", Type::ring, Need::framed, "", none, "",
     "angle, or square or rectangular tube, of the bottom and top rings: of the tables, or the name of an own one"},
    {"box.NAME.frame.long_side", Type::word, Need::filled, "standing", none, "standing, flat",
     "which way the longer leg of an unequal angle, or the longer side of a rectangular tube, points in the rings"},
    {"box.NAME.frame.corners", Type::word, Need::filled, "coped", none, "coped, butted, mitred",
     "coped: the ends of the side members are cut to the profile of the front and back ones; butted: they end square "
     "before it, and the uprights reach up into the corner; mitred: all are sawn off at 45 degrees in the ring's plane; a "
     "tube is butted or mitred, and butted where nothing is said; caps set into the ends of the front and back tubes close "
     "them"},
    {"box.NAME.frame.bottom_legs", Type::word, Need::filled, "down", none, "down, up",
     "where the standing legs of a bottom ring of angle point; down leaves a flat floor for the rails"},
    {"box.NAME.frame.uprights", Type::upright, Need::may, "", none, "",
     "flat bar, tube or angle of the uprights: a flat lies flush in the side planes, a tube stands in the corner, its longer "
     "side along the sides, an angle is the corner's post with both legs in the outer planes; without it the flat most like "
     "an angle's leg, not wider, or the ring's own tube"},
    {"box.NAME.frame.vents", Type::word, Need::filled, "none", none, "none, ends",
     "ends: a hole near both ends of every tube, so that it drains, and lets air out in a zinc bath"},
    {"box.NAME.frame.vent_diameter", Type::length, Need::may, "", {3, 60}, "",
     "of such a hole; without it 6 mm and a fifth of the tube's mean side, in whole mm (common practice)"},
    {"box.NAME.frame.cope_gap", Type::length, Need::filled, {"1 mm", "1/32 in"}, {0.2, 10}, "",
     "gap between a member's end and the member it yields to, filled by the weld"},
    {"box.NAME.frame.material", Type::material, Need::filled, {"S235JR", "A36"}, none, "", "material of the frame, its plates and covers: a steel; of a box that is built from plates also an aluminium alloy"},
    {"box.NAME.clearance", Type::table, Need::must, "", none, "",
     "free space from the items' bodies to the inside of the frame; the bottom follows from the rails; where outside gives "
     "the size, what is left out takes what remains: of two of one direction, each half"},
    {"box.NAME.clearance.left", Type::measured, Need::may, "", clearance_range, "", "to the inside of the left face"},
    {"box.NAME.clearance.right", Type::measured, Need::may, "", clearance_range, "", "to the inside of the right face"},
    {"box.NAME.clearance.front", Type::measured, Need::may, "", clearance_range, "", "to the inside of the front face"},
    {"box.NAME.clearance.back", Type::measured, Need::may, "", clearance_range, "", "to the inside of the back face"},
    {"box.NAME.clearance.top", Type::measured, Need::may, "", clearance_range, "", "to the inside of the top face"},
    {"box.NAME.outside", Type::three_lengths, Need::may, "", {0, 20000}, "",
     "outer size of the frame: across (X), deep (Y), high (Z); 0 leaves that direction to what stands inside"},
    {"box.NAME.rails", Type::table, Need::filled, "", none, "",
     "strips on the bottom legs that the items stand on, where they need them: from front to back, or from left to right "
     "under foot strips along the front and the back edge"},
    {"box.NAME.rails.thickness", Type::length, Need::filled, {"5 mm", "3/16 in"}, {1, 50}, "", "thickness of the rails"},
    {"box.NAME.rails.margin", Type::length, Need::filled, {"3 mm", "1/8 in"}, {0, 100}, "",
     "how much wider than the foot strip a rail is, on either side; the width is rounded up to 5 mm"},
    {"box.NAME.rails.outer_width", Type::length, Need::may, "", {5, 500}, "",
     "width of the first and the last rail, which then begin 2 mm from the wall if they carry their strip from there; "
     "without it the margin decides"},
    {"box.NAME.rails.at", Type::lengths, Need::may, "", any_place, "",
     "centre of each rail along X, of rails from left to right along Y, from the frame's corner; without it each foot strip gets its rail, neighbours up "
     "to 30 mm apart sharing one", Hand::place},
    {"box.NAME.rod_plates", Type::table, Need::may, "", none, "",
     "plates at the front and the back with the holes for the items' rods"},
    {"box.NAME.rod_plates.thickness", Type::length, Need::filled, {"3 mm", "11 ga"},
     {tables::thinnest_rod_plate_mm, tables::thickest_rod_plate_mm}, "", "thickness of the plates"},
    {"box.NAME.rod_plates.clearance_hole", Type::word, Need::filled, "medium", none, "close, medium, loose",
     "how much larger than the rod the holes are: fine, medium or coarse of ISO 273"},
    {"box.NAME.rod_plates.front", Type::word, Need::filled, "bolted", none, "none, bolted, welded",
     "how the front plate is fixed"},
    {"box.NAME.rod_plates.back", Type::word, Need::filled, "welded", none, "none, bolted, welded",
     "how the back plate is fixed"},
    {"box.NAME.rod_plates.screw", Type::screw_thread, Need::filled, {"M4", "#8-32"}, none, "",
     "thread of a bolted plate's screws"},
    {"box.NAME.rod_plates.screw_fixing", Type::word, Need::filled, "tapped", none, fixing_words,
     "what holds those screws, as face.FACE.screws.fixing"},
    {"box.NAME.rod_plates.screw_hole", Type::word, Need::filled, "round", none, "round, slot",
     "hole in the plate's flange; a slot runs from front to back, so that the plate goes up to the nuts"},
    {"box.NAME.rod_plates.screw_slot", Type::length, Need::may, "", {0.5, 100}, "",
     "how far a screw may be moved in such a slot; without it as far as the welded frame may be off, both ways (ISO 13920-B)"},
    {"box.NAME.rod_plates.gap", Type::length, Need::filled, {"0.5 mm", "1/64 in"}, {0.1, 4}, "",
     "free space between each return flange of a bolted plate and its upright, so that the plate goes in coated; its screws draw it together"},
    {"box.NAME.row", Type::tables, Need::must, "", none, "", "what stands in the box, from left to right",
     Hand::row},
    {"box.NAME.row.of", Type::item, Need::must, "", none, "", "which item"},
    {"box.NAME.row.count", Type::count, Need::filled, "1", {1, 200}, "", "how many of it, next to each other"},
    {"box.NAME.row.between", Type::item, Need::may, "", none, "", "an item that stands in each gap between them"},
    {"box.NAME.row.gap", Type::length, Need::may, "", clearance_range, "",
     "an empty gap between them, in place of an item"},
    {"box.NAME.row.at", Type::three_lengths, Need::may, "", any_place, "",
     "front left bottom corner of the first, from the frame's corner; then it is only checked, never moved; its width still "
     "counts in its line and level: what stands on others has another level", Hand::place},
    {"box.NAME.row.turned", Type::count, Need::filled, "0", {0, 270}, "",
     "turned about the vertical by 0, 90, 180 or 270 degrees, counter-clockwise seen from above: at 90 its front looks to "
     "the right; its rods, foot strips and zones turn with it; what stands between is not turned", Hand::turn},
    {"box.NAME.row.line", Type::count, Need::filled, "1", {1, 20}, "",
     "which of several rows behind each other, from 1 at the front"},
    {"box.NAME.row.level", Type::count, Need::filled, "1", {1, 20}, "",
     "which of several rows on each other, from 1 on the floor; each stands on the items of the one below it in its line"},
    {"box.NAME.line_gap", Type::length, Need::filled, "0 mm", clearance_range, "",
     "free space between rows behind each other, from one's deepest item to the next"},
    {"box.NAME.sequence", Type::texts, Need::may, "", none, "",
     "what comes to its place only after what is named before it: items, rod plates, covers and the box itself, by the names "
     "that findings and the assembly sheet have for them, as in [\"block 3\", \"block 1\", \"rod plate front\"]; all else, and "
     "without it everything, comes as early as it can", Hand::place},
    {"box.NAME.face", Type::table, Need::filled, "", none, "",
     "how each face is closed; a face that is not named stays open"},
    {"box.NAME.face.FACE", Type::table, Need::filled, "", none, "",
     "one face: front, back, left, right, top or bottom"},
    {"box.NAME.face.FACE.entry", Type::yes_no, Need::filled, "false", none, "",
     "whether the items go in through this face: then each must pass, straight in, the opening that the frame, welded rod "
     "plates, a flat cover's strips, weld nuts, rivet nuts and nut strips leave, or be lifted over what stands up at its "
     "bottom and come down behind that"},
    {"box.NAME.face.FACE.closed_by", Type::word, Need::filled, "open", none, "open, plate, cover",
     "plate: welded on; cover: screwed on and removable, at the bottom only on legs that point up"},
    {"box.NAME.face.FACE.style", Type::word, Need::filled, "flat", none, "flat, flanged",
     "of a cover: flat lies on the frame; flanged laps round it and is screwed from the sides: the front and the back over the top, all three over the sides, a cover before a neighbour's flange beginning behind it"},
    {"box.NAME.face.FACE.thickness", Type::length, Need::filled, {"2 mm", "14 ga"}, sheet_range, "",
     "thickness of the plate or cover"},
    {"box.NAME.face.FACE.screws", Type::table, Need::filled, "", none, "", "the screws of a cover"},
    {"box.NAME.face.FACE.screws.thread", Type::screw_thread, Need::filled, {"M4", "#8-32"}, none, "", "thread of the screws"},
    {"box.NAME.face.FACE.screws.max_spacing", Type::length, Need::filled, {"120 mm", "5 in"}, {10, 2000}, "",
     "largest distance from one screw to the next"},
    {"box.NAME.face.FACE.screws.fixing", Type::word, Need::filled, "tapped", none, cover_fixing_words,
     "what holds a screw: a thread in the frame; a washer and a nut behind it (locknut: ISO 7040); a weld nut (DIN "
     "929); a rivet nut; a tapped strip for the row, welded on behind where the frame holds no thread. Not stated, and "
     "it holds none: a weld nut, a rivet nut, a nut or a strip, whichever first leaves no more to be said"},
    {"box.NAME.face.FACE.screws.hole", Type::word, Need::filled, "round", none, "round, slot",
     "hole in the cover; a slot runs along the row, and a washer comes under the head"},
    {"box.NAME.face.FACE.screws.slot", Type::length, Need::may, "", {0.5, 100}, "",
     "how far a screw may be moved in such a slot; without it as far as the welded frame may be off, both ways (ISO 13920-B)"},
    {"box.NAME.face.FACE.flange_depth", Type::length, Need::filled, {"30 mm", "1 1/4 in"}, {5, 200}, "",
     "how far the flanges of a flanged cover reach back; not stated, less far where that leaves the rows of a cover beside it "
     "no room"},
    {"box.NAME.face.FACE.gap", Type::length, Need::filled, {"2 mm", "5/64 in"}, {0, 50}, "", "free space under a flange"},
    {"box.NAME.face.FACE.landing_width", Type::length, Need::filled, {"16 mm", "5/8 in"}, {5, 200}, "",
     "width of the strips beside the uprights that a flat cover lies on, or of its outward ring; without it that, or what the seat of its screws' nuts and the webs beside their holes (cutter.smallest_web) ask for, whichever is more"},
    {"box.NAME.face.FACE.landing", Type::word, Need::filled, "inward", none, "inward, outward",
     "of a flat cover: inward, strips beside the uprights where they are needed; outward, a mitred ring of strips round the "
     "frame, as thick as its legs, beside a tube of flat bar that reaches beyond its round corner, which leaves the opening free and can hold a seal; beside another cover it stands off on "
     "upstands, beyond that one (front and back keep their place, then the top, then the sides, the bottom last). Not stated, and "
     "an item or a rod plate does not pass such strips at the front or the back: outward"},
    {"box.NAME.face.FACE.seal", Type::table, Need::may, "", none, "",
     "a strip between a flat cover and its outward landing, inside the screws"},
    {"box.NAME.face.FACE.seal.width", Type::length, Need::must, "", {2, 100}, "", "width of the strip"},
    {"box.NAME.face.FACE.seal.thickness", Type::length, Need::must, "", {1, 30}, "",
     "thickness of the strip before it is squeezed"},
    {"box.NAME.face.FACE.seal.compression", Type::number, Need::filled, "0.3", {0.05, 0.7}, "",
     "how much of its thickness is squeezed away: what is left sets the cover's distance from the landing (common practice "
     "for cellular rubber; the maker's figure goes first)"},
    {"box.NAME.face.FACE.seal.material", Type::word, Need::filled, "EPDM", none, "EPDM, NBR, silicone",
     "the cellular rubber that the strip is cut from"},
    {"box.NAME.face.FACE.openings", Type::tables, Need::may, "", none, "",
     "holes in the plate or cover that closes the face: for cables, hoses, air and water"},
    {"box.NAME.face.FACE.openings.kind", Type::word, Need::must, "", none, "round, rectangle, slot, gland, drain, hose",
     "round: diameter; rectangle, slot (round ends): size; gland: thread, the gland goes in; drain: diameter; hose: "
     "diameter of the hose, the hole is larger by the strip round its edge"},
    {"box.NAME.face.FACE.openings.in", Type::word, Need::filled, "face", none, "face, rod plate",
     "face: in the plate or cover that closes the face; rod plate: in the rod plate before it, at the front or the back"},
    {"box.NAME.face.FACE.openings.at", Type::two_lengths, Need::may, "", any_place, "",
     "middle of the hole or of the field of holes, from the frame's corner, in X, Y, Z order of the face's axes; only a "
     "drain in the bottom goes without: then there is one in each corner", Hand::place},
    {"box.NAME.face.FACE.openings.diameter", Type::length, Need::may, "", {0, 2000, true}, "",
     "of a round hole, a drain (8 mm without it, common practice), or of a hose outside"},
    {"box.NAME.face.FACE.openings.size", Type::two_lengths, Need::may, "", {0, 5000, true}, "",
     "of a rectangle or a slot, along the face's two axes"},
    {"box.NAME.face.FACE.openings.corner_radius", Type::length, Need::filled, {"3 mm", "1/8 in"}, {0, 500}, "",
     "of a rectangle"},
    {"box.NAME.face.FACE.openings.thread", Type::gland_thread, Need::may, "", none, "", "of a gland"},
    {"box.NAME.face.FACE.openings.columns", Type::count, Need::filled, "1", {1, 30}, "",
     "how many holes along the face's first axis, as in a vent"},
    {"box.NAME.face.FACE.openings.rows", Type::count, Need::filled, "1", {1, 30}, "",
     "how many along its second axis"},
    {"box.NAME.face.FACE.openings.pitch", Type::two_lengths, Need::may, "", {0, 5000, true}, "",
     "from the middle of one hole to the next, along both axes"},
    {"box.NAME.face.FACE.openings.room", Type::length, Need::may, "", {0, 2000}, "",
     "depth behind the plate that must stay free of everything; without it 10 mm, of a gland its locknut and a cable's "
     "bend of twice the thread, of a hose twice its diameter"},
    {"box.NAME.face.FACE.openings.edge_strip", Type::length, Need::filled, {"3 mm", "1/8 in"}, {0, 20}, "",
     "thickness of the rubber strip round the hole of a hose, which has a lip of 5 mm on both faces (common practice); 0 "
     "for none"},
    {"box.NAME.face.FACE.openings.why", Type::text, Need::filled, "opening", none, "", "what it is for"},
};

const std::vector<Rule> join_rows{
    {"box.NAME.bay", Type::table, Need::may, "", none, "",
     "free room before a face of the frame, in the bay that the box goes into: items, rod plates and covers that go in or "
     "come off there must find room in it, and so must tools and screws"},
    {"box.NAME.bay.front", Type::length, Need::may, "", bay_range, "", "before the front"},
    {"box.NAME.bay.back", Type::length, Need::may, "", bay_range, "", "behind the back"},
    {"box.NAME.bay.left", Type::length, Need::may, "", bay_range, "", "at the left"},
    {"box.NAME.bay.right", Type::length, Need::may, "", bay_range, "", "at the right"},
    {"box.NAME.bay.top", Type::length, Need::may, "", bay_range, "", "over the top"},
    {"box.NAME.bay.bottom", Type::length, Need::may, "", bay_range, "", "below the bottom"},
    {"box.NAME.under", Type::box, Need::may, "", none, "", "another box that this one hangs below, on bearers"},
    {"box.NAME.on", Type::box, Need::may, "", none, "", "another box that this one stands on, on bearers"},
    {"box.NAME.at", Type::two_lengths, Need::may, "", any_place, "",
     "X and Y of this box's front left corner from that of the other box's frame; without it the two are centred",
     Hand::place},
    {"box.NAME.bearers", Type::table, Need::may, "", none, "",
     "lengths of section between this box and the other, from front to back across both rings"},
    {"box.NAME.bearers.section", Type::bar, Need::must, "", none, "",
     "a flat bar, which lies flat, or an angle, one leg of which lies against what it is bolted to"},
    {"box.NAME.bearers.count", Type::count, Need::filled, "2", {2, 8}, "", "how many, where no places are given"},
    {"box.NAME.bearers.at", Type::lengths, Need::may, "", any_place, "",
     "middle of each along X from this box's own frame corner; without it they are spread as far as the bolts can be "
     "reached", Hand::place},
    {"box.NAME.bearers.bolted_to", Type::word, Need::filled, "this", none, "this, other, neither",
     "the box that they are bolted to, this one or the other; they are welded to what they are not bolted to"},
    {"box.NAME.bearers.screw", Type::screw_thread, Need::filled, {"M8", "5/16-18"}, none, "", "thread of the bolts"},
    {"box.NAME.feet", Type::table, Need::may, "", none, "",
     "feet welded on under the bottom ring, with holes beside the box for bolts to what it stands on"},
    {"box.NAME.feet.kind", Type::word, Need::filled, "plate", none, "plate, angle",
     "plate: a flat plate in the face's plane; angle: a cleat with one leg in that plane and the other against the side"},
    {"box.NAME.feet.out", Type::word, Need::may, "", none, "left right, front back",
     "the sides beyond which the feet stand; without it left and right, or front and back where a flat cover, beside cleats any cover, "
     "comes off at these alone"},
    {"box.NAME.feet.thickness", Type::length, Need::filled, {"6 mm", "1/4 in"}, {2, 40}, "", "of a plate; feet by rule thicker, off the shelf, where steel hangs below"},
    {"box.NAME.feet.section", Type::angle, Need::filled, {"L 50x50x5", "L 2x2x3/16 in"}, none, "", "of an angle cleat"},
    {"box.NAME.feet.width", Type::length, Need::filled, {"50 mm", "2 in"}, {10, 500}, "", "of one, along the side"},
    {"box.NAME.feet.thread", Type::thread, Need::filled, {"M8", "3/8-16"}, none, "", "thread of the bolt that goes through each"},
    {"box.NAME.feet.clearance_hole", Type::word, Need::filled, "medium", none, "close, medium, loose",
     "how much larger than the bolt the hole is: fine, medium or coarse of ISO 273"},
    {"box.NAME.feet.slot", Type::length, Need::may, "", {1, 200}, "",
     "how far the bolt may be moved along the side, in a slot; without it the hole is round"},
    {"box.NAME.feet.grip", Type::length, Need::may, "", {0.5, 500}, "",
     "thickness of what it stands on, where the bolts go through: bought.csv then says how long they are"},
    {"box.NAME.feet.at", Type::length_pairs, Need::may, "", any_place, "",
     "middle of each hole, from the frame's corner, in X, Y, Z order of the face's axes; each stands at the side that it "
     "is beyond; without it there are two at each side, near the corners", Hand::place},
    {"box.NAME.face.FACE.lugs", Type::table, Need::may, "", none, "",
     "lugs welded on at this face, with holes beside the box for bolts to the wall that the face hangs on"},
    {"box.NAME.face.FACE.lugs.kind", Type::word, Need::filled, "plate", none, "plate, angle",
     "plate: a flat plate in the face's plane; angle: a cleat with one leg in that plane and the other against the side"},
    {"box.NAME.face.FACE.lugs.out", Type::word, Need::may, "", none, "left right, front back, top bottom",
     "the sides beyond which the lugs stand; without it left and right, of a left or right face front and back; the other two where a cover comes off at these"},
    {"box.NAME.face.FACE.lugs.thickness", Type::length, Need::filled, {"6 mm", "1/4 in"}, {2, 40}, "", "of a plate"},
    {"box.NAME.face.FACE.lugs.section", Type::angle, Need::filled, {"L 50x50x5", "L 2x2x3/16 in"}, none, "", "of an angle cleat"},
    {"box.NAME.face.FACE.lugs.width", Type::length, Need::filled, {"50 mm", "2 in"}, {10, 500}, "", "of one, along the side"},
    {"box.NAME.face.FACE.lugs.thread", Type::thread, Need::filled, {"M8", "3/8-16"}, none, "", "thread of the bolt that goes through each"},
    {"box.NAME.face.FACE.lugs.clearance_hole", Type::word, Need::filled, "medium", none, "close, medium, loose",
     "how much larger than the bolt the hole is: fine, medium or coarse of ISO 273"},
    {"box.NAME.face.FACE.lugs.slot", Type::length, Need::may, "", {1, 200}, "",
     "how far the bolt may be moved along the side, in a slot; without it the hole is round"},
    {"box.NAME.face.FACE.lugs.grip", Type::length, Need::may, "", {0.5, 500}, "",
     "thickness of what it hangs on, where the bolts go through: bought.csv then says how long they are"},
    {"box.NAME.face.FACE.lugs.at", Type::length_pairs, Need::may, "", any_place, "",
     "middle of each hole, from the frame's corner, in X, Y, Z order of the face's axes; each stands at the side that it "
     "is beyond; without it there are two at each side, near the corners", Hand::place},
};

const std::vector<Rule> other_rows{
    {"lifting", Type::table, Need::may, "", none, "", "welded bosses with a tapped hole for lifting eyes"},
    {"lifting.thread", Type::eye_thread, Need::filled, {"M10", "1/2-13"}, none, "", "thread of the eyes"},
    {"lifting.points", Type::count, Need::filled, "4", {2, 4}, "",
     "number of lift points: by rule four, two on each side, or two, one in the middle of each side, or beside what is kept clear there; three stand at places that are given"},
    {"lifting.boss_diameter", Type::length, Need::may, "", {5, 300}, "",
     "diameter of the bosses; without it the collar of the eye decides"},
    {"lifting.boss_height", Type::length, Need::may, "", {5, 300}, "",
     "height of the bosses; without it the depth of hole that the eye asks for decides"},
    {"lifting.at", Type::length_pairs, Need::may, "", any_place, "",
     "X and Y of each lift point from the frame's corner; then it is only checked, never moved", Hand::place},
    {"lifting.eyes", Type::yes_no, Need::filled, "false", none, "",
     "whether the eyes stand in the model, screwed into their bosses, and so in its height and its mass"},
    {"print", Type::table, Need::filled, "", none, "", "3D-printed aids"},
    {"print.fit", Type::length, Need::filled, "0.2 mm", {0, 5}, "",
     "a printed part is this much smaller than the gap it fills (common practice)"},
    {"print.hole_allowance", Type::length, Need::filled, "0.2 mm", {0, 2}, "",
     "a printed hole comes out this much smaller than it is drawn, and is drawn larger (common practice)"},
    {"print.first_layer", Type::length, Need::filled, "0.2 mm", {0, 2}, "",
     "the first 0.4 mm of a print are set in by this much all round, as the first layers are pressed wide (common "
     "practice)"},
    {"print.bush", Type::length, Need::may, "", {2, 60}, "",
     "outside diameter of the drill bushes that are pressed into the holes of drill guides; without it the printed hole "
     "guides the drill"},
};

// clang-format on

}  // namespace

const std::vector<Rule>& rules() {
  static const std::vector<Rule> all = [] {
    std::vector<Rule> rows;
    for (const auto* part : {&top_rows, &item_rows, &section_rows, &box_rows, &closing_rows(), &stiffening_rows(),
                             &weld_rows(), &plate_rows(), &join_rows, &other_rows, &cutter_rows(), &finish_rows(),
                             &fixing_rows(), &load_rows(), &bench_rows()})
      rows.insert(rows.end(), part->begin(), part->end());
    return rows;
  }();
  return all;
}

}  // namespace fitup::spec
