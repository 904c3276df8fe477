// The canonical text of a Spec.
// Entry: to_text(Spec).

#include <fmt/format.h>

#include <string>
#include <vector>

#include "fitup/spec.h"
#include "spec/bench_keys.h"
#include "spec/build_cutter.h"
#include "spec/spec_lines.h"
#include "spec/spec_writer.h"

namespace fitup {

namespace {

using spec::numbered;
using spec::Writer;

void write_from(Writer& out, const std::string& key, const CountedFrom& from) {
  if (from.right) out.line(key + ".from_right", true);
  if (from.back) out.line(key + ".from_back", true);
}

void write_rods(Writer& out, const std::string& key, const RodSpec& rods) {
  out.line(key + ".thread", rods.thread);
  out.line(key + ".projection", rods.projection);
  out.line(key + ".strength", rods.strength);
  out.line(key + ".fixed", rods.fixed);
  out.line(key + ".locknut", rods.locknut);
  out.line(key + ".washer", rods.washer);
  out.line(key + ".within", rods.within);
  out.line(key + ".bore", rods.bore);
  for (std::size_t i = 0; i < rods.at.size(); ++i) out.line(numbered(key + ".at", i), rods.at[i]);
}

void write_item(Writer& out, const ItemSpec& item) {
  const std::string key = "item." + item.name;
  out.line(key + ".size", item.size);
  for (std::size_t i = 0; i < item.size_within.size(); ++i)
    out.line(numbered(key + ".size.within", i), item.size_within[i]);
  out.line(key + ".mass", item.mass);
  out.line(key + ".swelling", item.swelling);
  if (item.rods) write_rods(out, key + ".rods", *item.rods);
  out.add(spec::mounts_lines(item));
  if (item.foot_strips) {
    out.line(key + ".foot_strips.width", item.foot_strips->width);
    out.line(key + ".foot_strips.sides", item.foot_strips->sides);
  }
  for (std::size_t i = 0; i < item.keep_clear.size(); ++i) {
    const KeepClearSpec& zone = item.keep_clear[i];
    const std::string at = numbered(key + ".keep_clear", i);
    out.line(at + ".face", zone.face);
    out.line(at + ".at", zone.at);
    out.line(at + ".size", zone.size);
    out.line(at + ".depth", zone.depth);
    out.line(at + ".why", zone.why);
  }
}

void write_section(Writer& out, const OwnSection& own) {
  const Section& s = own.section;
  const bool angle = s.shape == SectionShape::angle;
  const bool tube = s.shape == SectionShape::tube;
  const std::string key = "section." + own.name;
  out.line(key + ".kind", std::string(angle ? "angle" : tube ? "tube" : "flat"));
  out.line(key + ".width", Length::mm(s.leg_a_mm));
  if (angle || tube) out.line(key + ".height", Length::mm(s.leg_b_mm));
  out.line(key + ".thickness", Length::mm(s.thickness_mm));
  if (angle) out.line(key + ".root_radius", Length::mm(s.root_radius_mm));
  if (angle) out.line(key + ".toe_radius", Length::mm(s.toe_radius_mm));
  if (tube) out.line(key + ".corner_radius", Length::mm(s.corner_radius_mm));
}

void write_stiffening(Writer& out, const std::string& key, const FrameSpec& frame) {
  if (const auto& bars = frame.cross_bars) {
    out.line(key + ".cross_bars.section", bars->section);
    out.line(key + ".cross_bars.long_side", bars->long_side);
    out.line(key + ".cross_bars.count", bars->count);
    out.line(key + ".cross_bars.at", bars->at);
    write_from(out, key + ".cross_bars.at", bars->at_from);
    write_from(out, key + ".cross_bars", bars->from);
  }
  if (const auto& braces = frame.braces) {
    out.line(key + ".braces.width", braces->width);
    out.line(key + ".braces.thickness", braces->thickness);
    for (std::size_t i = 0; i < braces->faces.size(); ++i)
      out.line(key + ".braces." + std::string(to_text(all_faces[i])), braces->faces[i]);
  }
  if (const auto& gussets = frame.gussets) {
    out.line(key + ".gussets.leg", gussets->leg);
    out.line(key + ".gussets.thickness", gussets->thickness);
  }
}

void write_frame(Writer& out, const std::string& key, const FrameSpec& frame) {
  out.line(key + ".section", frame.section);
  if (frame.top_section.given) out.line(key + ".top_section", frame.top_section);
  write_stiffening(out, key, frame);
  out.line(key + ".long_side", frame.long_side);
  out.line(key + ".corners", frame.corners);
  out.line(key + ".bottom_legs", frame.bottom_legs);
  out.line(key + ".uprights", frame.uprights);
  out.line(key + ".cope_gap", frame.cope_gap);
  out.line(key + ".vents", frame.vents);
  if (frame.vent_diameter.given) out.line(key + ".vent_diameter", frame.vent_diameter);
  out.line(key + ".material", frame.material);
}

void write_clearance(Writer& out, const std::string& key, const ClearanceSpec& clearance) {
  out.line(key + ".left", clearance.left);
  out.line(key + ".right", clearance.right);
  out.line(key + ".front", clearance.front);
  out.line(key + ".back", clearance.back);
  out.line(key + ".top", clearance.top);
}

void write_rails(Writer& out, const std::string& key, const RailsSpec& rails) {
  out.line(key + ".thickness", rails.thickness);
  out.line(key + ".margin", rails.margin);
  out.line(key + ".outer_width", rails.outer_width);
  out.line(key + ".at", rails.at);
  write_from(out, key + ".at", rails.at_from);
}

void write_rod_plates(Writer& out, const std::string& key, const RodPlatesSpec& plates) {
  out.line(key + ".thickness", plates.thickness);
  out.line(key + ".clearance_hole", plates.clearance_hole);
  out.line(key + ".front", plates.front);
  out.line(key + ".back", plates.back);
  out.line(key + ".screw", plates.screw);
  out.line(key + ".screw_fixing", plates.screw_fixing);
  out.line(key + ".screw_hole", plates.screw_hole);
  out.line(key + ".screw_slot", plates.screw_slot);
  out.line(key + ".screw_at", plates.screw_at);
  out.line(key + ".gap", plates.gap);
}

void write_opening(Writer& out, const std::string& key, const OpeningSpec& opening) {
  out.line(key + ".kind", opening.kind);
  out.line(key + ".in", opening.in);
  out.line(key + ".at", opening.at);
  write_from(out, key + ".at", opening.at_from);
  out.line(key + ".diameter", opening.diameter);
  out.line(key + ".size", opening.size);
  out.line(key + ".corner_radius", opening.corner_radius);
  out.line(key + ".thread", opening.thread);
  out.line(key + ".columns", opening.columns);
  out.line(key + ".rows", opening.rows);
  out.line(key + ".pitch", opening.pitch);
  out.line(key + ".room", opening.room);
  out.line(key + ".edge_strip", opening.edge_strip);
  out.line(key + ".why", opening.why);
}

void write_mounts(Writer& out, const std::string& key, const MountSpec& mounts) {
  out.line(key + ".kind", mounts.kind);
  out.line(key + ".out", mounts.out);
  out.line(key + ".thickness", mounts.thickness);
  out.line(key + ".section", mounts.section);
  out.line(key + ".width", mounts.width);
  out.line(key + ".thread", mounts.thread);
  out.line(key + ".clearance_hole", mounts.clearance_hole);
  out.line(key + ".slot", mounts.slot);
  out.line(key + ".grip", mounts.grip);
  out.line(key + ".at", mounts.at);
  write_from(out, key + ".at", mounts.at_from);
}

void write_joined(Writer& out, const std::string& key, const BoxSpec& box) {
  out.line(key + ".under", box.under);
  out.line(key + ".on", box.on);
  out.line(key + ".at", box.at);
  write_from(out, key + ".at", box.at_from);
  if (box.feet) write_mounts(out, key + ".feet", *box.feet);
  for (const Face f : all_faces)
    out.line(key + ".bay." + std::string(to_text(f)), box.bay[static_cast<std::size_t>(f)]);
  if (!box.bearers) return;
  out.line(key + ".bearers.section", box.bearers->section);
  out.line(key + ".bearers.count", box.bearers->count);
  out.line(key + ".bearers.at", box.bearers->at);
  write_from(out, key + ".bearers.at", box.bearers->at_from);
  out.line(key + ".bearers.bolted_to", box.bearers->bolted_to);
  out.line(key + ".bearers.screw", box.bearers->screw);
}

void write_stitch(Writer& out, const std::string& key, const std::optional<StitchSpec>& stitch) {
  if (!stitch) return;
  out.line(key + ".stitch.length", stitch->length);
  out.line(key + ".stitch.gap", stitch->gap);
}

void write_closing(Writer& out, const std::string& key, const FaceSpec& face) {
  out.line(key + ".set", face.set);
  out.line(key + ".flanges", face.flanges);
  out.line(key + ".flange_section", face.flange_section);
  out.line(key + ".flange_corners", face.flange_corners);
  out.line(key + ".notch_gap", face.notch_gap);
  write_stitch(out, key, face.stitch);
  if (!face.bend) return;
  out.line(key + ".bend.radius", face.bend->radius);
  out.line(key + ".bend.k", face.bend->k);
}

void write_face(Writer& out, const std::string& key, const FaceSpec& face) {
  out.line(key + ".entry", face.entry);
  out.line(key + ".closed_by", face.closed_by);
  out.line(key + ".style", face.style);
  out.line(key + ".thickness", face.thickness);
  out.line(key + ".screws.thread", face.screws.thread);
  out.line(key + ".screws.max_spacing", face.screws.max_spacing);
  out.line(key + ".screws.fixing", face.screws.fixing);
  out.line(key + ".screws.hole", face.screws.hole);
  out.line(key + ".screws.slot", face.screws.slot);
  out.line(key + ".flange_depth", face.flange_depth);
  out.line(key + ".gap", face.gap);
  out.line(key + ".landing_width", face.landing_width);
  out.line(key + ".landing", face.landing);
  if (face.seal) {
    out.line(key + ".seal.width", face.seal->width);
    out.line(key + ".seal.thickness", face.seal->thickness);
    out.line(key + ".seal.compression", face.seal->compression);
    out.line(key + ".seal.material", face.seal->material);
  }
  for (std::size_t i = 0; i < face.openings.size(); ++i) {
    write_opening(out, numbered(key + ".openings", i), face.openings[i]);
  }
  if (face.lugs) write_mounts(out, key + ".lugs", *face.lugs);
  out.add(spec::fixing_lines(key, face));
  write_closing(out, key, face);
}

void write_plates(Writer& out, const std::string& key, const PlatesSpec& plates) {
  out.line(key + ".thickness", plates.thickness);
  out.line(key + ".border", plates.border);
  out.line(key + ".tabs", plates.tabs);
  out.line(key + ".base_ring", plates.base_ring);
  out.line(key + ".floor", plates.floor);
  out.line(key + ".tray_depth", plates.tray_depth);
  if (!plates.bend) return;
  out.line(key + ".bend.radius", plates.bend->radius);
  out.line(key + ".bend.k", plates.bend->k);
}

void write_box(Writer& out, const BoxSpec& box) {
  const std::string key = "box." + box.name;
  write_frame(out, key + ".frame", box.frame);
  write_clearance(out, key + ".clearance", box.clearance);
  write_rails(out, key + ".rails", box.rails);
  if (box.rod_plates) write_rod_plates(out, key + ".rod_plates", *box.rod_plates);
  for (std::size_t i = 0; i < box.row.size(); ++i) {
    const std::string at = numbered(key + ".row", i);
    out.line(at + ".of", box.row[i].of);
    out.line(at + ".count", box.row[i].count);
    out.line(at + ".between", box.row[i].between);
    out.line(at + ".gap", box.row[i].gap);
    out.line(at + ".at", box.row[i].at);
    write_from(out, at + ".at", box.row[i].at_from);
    out.line(at + ".turned", 90 * *box.row[i].turned);
    out.line(at + ".line", box.row[i].line);
    out.line(at + ".level", box.row[i].level);
  }
  if (box.flush_at_back) out.line(key + ".flush_at_back", true);
  if (box.flush_at_right) out.line(key + ".flush_at_right", true);
  out.line(key + ".line_gap", box.line_gap);
  if (box.sequence) {
    for (std::size_t i = 0; i < box.sequence->value.size(); ++i)
      out.line(numbered(key + ".sequence", i), box.sequence->value[i]);
    write_from(out, key + ".sequence", box.sequence_from);
  }
  out.line(key + ".outside", box.outside);
  out.line(key + ".welds.leg", box.welds.leg);
  out.line(key + ".welds.sides", box.welds.sides);
  out.line(key + ".welds.grind_flush", box.welds.grind_flush);
  write_stitch(out, key + ".welds", box.welds.stitch);
  out.line(key + ".build", box.build);
  write_plates(out, key + ".plates", box.plates);
  write_joined(out, key, box);
  for (const Face face : all_faces) write_face(out, key + ".face." + std::string(to_text(face)), box.face(face));
}

void write_lifting(Writer& out, const LiftingSpec& lifting) {
  out.line("lifting.thread", lifting.thread);
  out.line("lifting.points", lifting.points);
  out.line("lifting.eyes", lifting.eyes);
  out.line("lifting.boss_diameter", lifting.boss_diameter);
  out.line("lifting.boss_height", lifting.boss_height);
  out.line("lifting.at", lifting.at);
  write_from(out, "lifting.at", lifting.at_from);
}

void write_loads(Writer& out, const Spec& spec) {
  const LoadRules& rules = spec.load_rules;
  if (spec.lifting) {
    out.line("lifting.sling_angle", rules.sling_angle_deg);
    out.line("lifting.dynamic", rules.dynamic);
    out.line("lifting.standard", std::string(factors_of(rules.lift).word));
  }
  for (const Face f : all_faces) {
    out.line("loads.thrown." + std::string(to_text(f)), rules.thrown_g[static_cast<std::size_t>(f)]);
  }
  if (!rules.thrown_why.empty()) out.line("loads.why", rules.thrown_why);
  out.line("loads.bolts", std::string(rules.bolts.word));
  out.line("loads.welds", std::string(weld_code_words[static_cast<std::size_t>(rules.welds)]));
  if (rules.welds == WeldCode::aws_d1_1) out.line("loads.electrode", std::string(rules.electrode.word));
  out.line("loads.pressure", rules.pressure_kpa);
  out.line("loads.seal_pressure", rules.seal_pressure_kpa);
}

void write_aids(Writer& out, const Spec& spec) {
  out.line("print.fit", spec.print.fit);
  out.line("print.hole_allowance", spec.print.hole_allowance);
  out.line("print.first_layer", spec.print.first_layer);
  out.line("print.bush", spec.print.bush);
  out.add(spec::cut_rule_lines(spec));
  out.line("cutter.units", spec.cutter.units);
  out.line("cutter.dxf", spec.cutter.dxf);
  out.line("cutter.file_name", spec.cutter.file_name);
}

void write_as_built(Writer& out, const BoxSpec& box) {
  for (const Face face : all_faces) {
    const auto& built = box.as_built[static_cast<std::size_t>(face)];
    if (!built) continue;
    const std::string key = fmt::format("as_built.{}.{}.", box.name, to_text(face));
    out.line(key + "across_low", built->across_low);
    out.line(key + "across_high", built->across_high);
    out.line(key + "up_low", built->up_low);
    out.line(key + "up_high", built->up_high);
    out.line(key + "rising", built->rising);
    out.line(key + "falling", built->falling);
  }
}

// Nothing where there is no coat: then neither its thickness nor its count says anything.
void write_finish(Writer& out, const FinishSpec& finish) {
  if (*finish.kind == FinishKind::none) return;
  out.line("finish.kind", finish.kind);
  out.line("finish.thickness", finish.thickness);
  out.line("finish.coats", finish.coats);
}

void write_space(Writer& out, const SpaceSpec& space) {
  out.line("space.size", space.size);
  for (std::size_t i = 0; i < space.size_within.size(); ++i)
    out.line(numbered("space.size.within", i), space.size_within[i]);
  out.line("space.play", space.play);
  out.line("space.at", space.at);
  write_from(out, "space.at", space.at_from);
  for (std::size_t i = 0; i < space.in_the_way.size(); ++i) {
    const std::string key = numbered("space.in_the_way", i);
    out.line(key + ".at", space.in_the_way[i].at);
    write_from(out, key + ".at", space.in_the_way[i].at_from);
    out.line(key + ".size", space.in_the_way[i].size);
    out.line(key + ".why", *space.in_the_way[i].why);
  }
}

void write_keep_apart(Writer& out, const Spec& spec) {
  for (std::size_t i = 0; i < spec.keep_apart.size(); ++i) {
    const KeepApartSpec& apart = spec.keep_apart[i];
    const std::string key = numbered("keep_apart", i);
    out.line(key + ".what", *apart.what);
    out.line(key + ".from", *apart.from);
    out.line(key + ".least", apart.least);
    out.line(key + ".why", *apart.why);
  }
}

}  // namespace

std::string to_text(const Spec& spec) {
  Writer out;
  out.line("name", spec.name);
  out.line("title", spec.title);
  out.line("revision", spec.revision);
  out.line("units", spec.units);
  if (spec.shop != spec.units)
    out.line("shop", std::string(spec.shop == UnitSystem::in_lb ? "inch" : "metric"));
  for (const ItemSpec& item : spec.items) write_item(out, item);
  for (const OwnSection& own : spec.sections) write_section(out, own);
  for (const BoxSpec& box : spec.boxes) write_box(out, box);
  for (const BoxSpec& box : spec.boxes) write_as_built(out, box);
  if (spec.lifting) write_lifting(out, *spec.lifting);
  write_aids(out, spec);
  write_finish(out, spec.finish);
  out.line("making.holes", spec.making.holes);
  out.line("making.drilled", spec.making.drilled);
  write_keep_apart(out, spec);
  if (spec.space) write_space(out, *spec.space);
  out.add(spec::bench_lines(spec));
  write_loads(out, spec);
  return out.sorted();
}

}  // namespace fitup
