// The stable text form of a Plan, for reading and for tests.
// Entry: to_text.
#include <array>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "fitup/plan.h"

namespace fitup {

namespace {

template <std::size_t N>
std::string_view word(const std::array<std::string_view, N>& words, std::size_t index) {
  return words.at(index);
}

// No "-0.000".
std::string mm(double v) {
  std::string s = fmt::format("{:.3f}", v);
  return s == "-0.000" ? "0.000" : s;
}
std::string place(Vec3 p) { return fmt::format("({}, {}, {})", mm(p.x), mm(p.y), mm(p.z)); }

std::string direction(Vec3 d) {
  const std::array<std::pair<Vec3, const char*>, 6> names{{{axis::x, "+X"},
                                                           {axis::y, "+Y"},
                                                           {axis::z, "+Z"},
                                                           {axis::minus_x, "-X"},
                                                           {axis::minus_y, "-Y"},
                                                           {axis::minus_z, "-Z"}}};
  for (const auto& [v, name] : names) {
    if (dot(v, d) > 1 - 1e-9) return name;
  }
  return fmt::format("({:.6f}, {:.6f}, {:.6f})", d.x, d.y, d.z);
}

void add_cut(std::string& out, const char* label, const LegCut& cut) {
  if (cut.steps.empty()) return;
  out += fmt::format("      {}:", label);
  for (const CutStep& s : cut.steps)
    out += fmt::format(" {}..{} back {}", mm(s.from_mm), mm(s.to_mm), mm(s.set_back_mm));
  for (const CutCorner& c : cut.corners) {
    out += fmt::format(" corner at {} {} {}", mm(c.at_mm), c.kind == CornerKind::chamfer ? "chamfer" : "radius",
                       mm(c.size_mm));
  }
  out += "\n";
}

void add_mitre(std::string& out, const char* label, const EndCut& end) {
  if (end.mitre)
    out += fmt::format("      {}: mitre 45 degrees along leg {}\n", label, *end.mitre == Leg::a ? "A" : "B");
}

void add_form(std::string& out, const Part& part) {
  if (const auto* flat = std::get_if<Flat>(&part.form)) {
    const Vec2 s = flat->profile.bounds().size();
    out += fmt::format("    flat {} x {} x {}, {} cut holes, {} drilled, cut length {}\n", mm(s.x), mm(s.y),
                       mm(flat->thickness_mm), flat->profile.holes.size(), flat->drilled.size(),
                       mm(flat->profile.perimeter_mm()));
    for (const Bend& b : flat->bends) {
      out += fmt::format("    bend {} 90 degrees from ({}, {}) to ({}, {}), radius {}, over {}\n", b.up ? "up" : "down",
                         mm(b.from.x), mm(b.from.y), mm(b.to.x), mm(b.to.y), mm(b.radius_mm), mm(b.zone_mm));
    }
  } else if (const auto* m = std::get_if<Member>(&part.form)) {
    out +=
        fmt::format("    member {} length {}, {} holes\n", m->section.designation, mm(m->length_mm), m->holes.size());
    add_cut(out, "start A", m->start.a);
    add_cut(out, "start B", m->start.b);
    add_mitre(out, "start", m->start);
    add_cut(out, "end A", m->end.a);
    add_cut(out, "end B", m->end.b);
    add_mitre(out, "end", m->end);
    for (const MemberNotch& n : m->notches) {
      out += fmt::format("      notch leg {} from {} to {}, {} deep from the toe\n", n.leg == Leg::a ? "A" : "B",
                         mm(n.from_mm), mm(n.to_mm), mm(n.depth_mm));
    }
  } else {
    out += fmt::format("    {} prisms\n", std::get<Solidform>(part.form).prisms.size());
  }
}

// Steps are counted from 1.
void add_steps(std::string& out, const Plan& plan) {
  if (plan.steps.empty()) return;
  out += "steps\n";
  const auto listed = [](const std::vector<std::size_t>& steps) {
    std::string words;
    for (const std::size_t s : steps) words += fmt::format(" {}", s + 1);
    return words;
  };
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    const Step& step = plan.steps[i];
    out += fmt::format("  {} {} {}: {} parts", i + 1, to_text(step.kind), step.what, step.adds.size());
    for (const Vec3 way : step.ways) out += (way == step.ways.front() ? ", along " : " or ") + direction(way);
    if (!step.with.empty()) out += ", with" + listed(step.with);
    if (!step.after.empty()) out += ", after" + listed(step.after);
    out += "\n";
  }
}

void add_parts(std::string& out, const Plan& plan) {
  for (PartId id = 0; id < plan.parts.size(); ++id) {
    const Part& p = plan.parts[id];
    int count = p.loose_count;
    for (const Instance& i : plan.instances) count += i.part == id ? 1 : 0;
    out += fmt::format("  {:<12} {} x {} [{}, {}] {} {:.3f} kg\n", p.mark, count, p.name, to_text(p.role),
                       to_text(p.source), p.size, p.mass_kg);
    add_form(out, p);
  }
}

}  // namespace

std::string_view to_text(Role role) {
  static constexpr std::array<std::string_view, 40> words{
      "ring member", "upright",     "rail",          "landing",     "rod plate",   "rod plate flange",
      "face plate",  "cover sheet", "cover flange",  "boss",        "item",        "rod",
      "nut",         "washer",      "screw",         "spacer",      "drill guide", "gland",
      "rod bush",    "nut gauge",   "corner square", "shim",        "bearer",      "foot",
      "lug",         "cross bar",   "brace",         "gusset",      "insert",      "eye",
      "seal",        "cap",         "nut strip",     "mount strip", "stud",        "edge strip",
      "wall",        "rib",         "doubler",       "row guide"};
  return word(words, static_cast<std::size_t>(role));
}

std::string_view to_text(Source source) {
  static constexpr std::array<std::string_view, 5> words{"cut", "sawn", "bought", "stand-in", "printed"};
  return word(words, static_cast<std::size_t>(source));
}

std::string_view to_text(JointKind kind) {
  static constexpr std::array<std::string_view, 5> words{"weld", "bolted", "bearing", "slip", "thread"};
  return word(words, static_cast<std::size_t>(kind));
}

std::string_view to_text(StepKind kind) {
  static constexpr std::array<std::string_view, 3> words{"weld", "place", "fasten"};
  return word(words, static_cast<std::size_t>(kind));
}

namespace {

std::string elements(const Plan& plan, const Joint& joint) {
  if (joint.kind != JointKind::weld || joint.weld_rule >= plan.weld_rules.size()) return {};
  const WeldRule& rule = plan.weld_rules[joint.weld_rule];
  if (rule.element_mm <= 0 || rule.distance_mm <= 0) return {};
  return fmt::format(" elements of {} at most {} apart", mm(rule.element_mm), mm(rule.distance_mm));
}

}  // namespace

std::string to_text(const Plan& plan) {
  std::string out = fmt::format("plan {} revision {}: frame {} x {} x {} mm\n", plan.name, plan.revision,
                                mm(plan.frame_size.x), mm(plan.frame_size.y), mm(plan.frame_size.z));
  for (std::size_t i = 1; i < plan.frames.size(); ++i) {
    const PlacedFrame& frame = plan.frames[i];
    const Vec3 size = frame.space.size();
    out += fmt::format("box {}: frame {} x {} x {} mm at {}\n", frame.box, mm(size.x), mm(size.y), mm(size.z),
                       place(frame.space.low));
  }
  if (!plan.open_faces.empty()) out += fmt::format("open: {}\n", fmt::join(plan.open_faces, ", "));
  for (const Followed& f : plan.followed) out += fmt::format("not stated: {} = {}, as {}\n", f.key, f.value, f.why);
  out += "parts\n";
  add_parts(out, plan);
  out += "instances\n";
  for (const Instance& i : plan.instances) {
    out += fmt::format("  {:<32} {:<10} at {} x {} y {} in {}\n", i.name, plan.parts[i.part].mark,
                       place(i.pose.origin()), direction(i.pose.x()), direction(i.pose.y()), i.group);
  }
  out += "joints\n";
  for (const Joint& j : plan.joints) {
    out += fmt::format("  {} {} to {} {} gap up to {}{}\n", to_text(j.kind), plan.instances[j.a].name,
                       plan.instances[j.b].name, direction(j.normal), mm(j.largest_gap_mm), elements(plan, j));
  }
  out += "fasteners\n";
  for (const Fastener& f : plan.fasteners) {
    out += fmt::format("  {} {} engagement {} draws {}\n", f.thread, plan.instances[f.screw].name, mm(f.engagement_mm),
                       mm(f.draws_mm));
  }
  if (plan.coat) out += fmt::format("coat {} {} on each surface\n", plan.coat->words, mm(plan.coat->surface_mm));
  for (const InstanceId id : plan.trued) out += fmt::format("to the measured frame {}\n", plan.instances[id].name);
  for (const KeptApart& k : plan.kept_apart) {
    out += fmt::format("apart {} ({}) from {} ({}) at least {}: {}\n", k.what, k.parts.size(), k.from, k.others.size(),
                       mm(k.least_mm), k.why);
  }
  add_steps(out, plan);
  for (const LiftPoint& l : plan.lift_points) out += fmt::format("lift point {} {}\n", l.thread, place(l.at));
  return out;
}

}  // namespace fitup
