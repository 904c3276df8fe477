// The assembly and weld sheet.
// Entry: assembly_paper.

#include "bench/assembly_sheet.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <numeric>
#include <set>

#include "bench/as_built_sheet.h"
#include "bench/assembly_steps.h"
#include "bench/bolt_down.h"
#include "bench/flow.h"
#include "bench/held_holes.h"
#include "bench/seam_order.h"
#include "bench/set_out.h"
#include "bench/step_pictures.h"
#include "bench/strip.h"
#include "bench/torque.h"
#include "output/finish_words.h"
#include "output/listed_seams.h"
#include "output/text.h"
#include "output/weld_list.h"

namespace fitup::bench {
namespace {

constexpr const char* paper_name = "Assembly and weld sheet";
constexpr double picture_mm = 62;
constexpr double picture_width_mm = 84;
constexpr double tick_mm = 4;
constexpr double line_mm = text_mm * line_height;

class AssemblySheet {
 public:
  AssemblySheet(const Plan& plan, const Model& model, const JobInfo& info, const Type& type)
      : plan_(plan),
        info_(info),
        units_(info.units),
        type_(type),
        pictures_(plan, model),
        seams_(seams_of(plan)),
        listed_(output::listed_seams(seams_)),
        flow_(paper_, type, info.bench.paper, false, strip_height_mm(info, paper_name, type, info.bench.paper, false)) {
    paper_.name = paper_name;
  }

  Result<Paper> made() {
    flow_.sentence(
        "Steps in the order that was checked: each part has room on its way, and each screw has room for its tool, "
        "when its turn comes. In the pictures the new parts are bold; dots are screws and nuts. Tick each step when it "
        "is done.");
    bool welded = false;
    for (const AssemblyStep& step : assembly_steps(plan_, seams_)) {
      if (!welded && step.kind != StepKind::weld) {
        welded = true;
        transfer();
        coat();
        set_rivet_nuts();
      }
      if (auto done = add(step); !done) return done.error();
    }
    set_down();
    add_strips(paper_, info_, type_);
    return std::move(paper_);
  }

 private:
  /// The holes that the chance of going together takes to be marked through what goes on, each as it is held.
  void transfer() {
    const auto all = held_holes(plan_);
    const Table drilled = drilled_holes_table(plan_, all, units_);
    if (!drilled.rows.empty()) {
      flow_.lead(
          "[  ] Hold what goes on in its place, mark its screw holes through onto the frame, take it off and drill. "
          "The findings take these places as transferred; the cut list says where they come to.");
      flow_.table(drilled);
    }
    const std::string cut = cut_holes_words(all);
    if (!cut.empty()) {
      flow_.sentence(
          fmt::format("[  ] Cut already, nothing to drill: {}. Try each part on before what comes next.", cut));
    }
  }

  void hold_for_tacking(const AssemblyStep& step) {
    const std::string rows = rows_cut_in(held_holes(plan_), step.added);
    if (!rows.empty())
      flow_.sentence(
          fmt::format("Tack what has these holes with the part that goes on held to it through them, so that they meet "
                      "(the findings "
                      "take their places as transferred): {}.",
                      rows));
  }

  void coat() {
    if (output::finish_words(plan_, units_).empty()) return;
    flow_.lead(fmt::format(
        "[  ] Coat the frame, and each cover and rod plate that is made up, once it is welded and has been measured: "
        "{}. What stays bare (threads, bosses, earth points) is said in the notes of order.csv and cut-list.csv.",
        output::finish_words(plan_, units_)));
    flow_.space(3);
  }

  /// With the frame in the lists, but no tool presses one while it is welded, and no bath may reach its thread.
  void set_rivet_nuts() {
    const std::string words = rivet_nut_words(rivet_nuts(plan_));
    if (!words.empty()) flow_.sentence(fmt::format("[  ] Set {}.", words));
  }

  /// What comes when it is closed.
  void set_down() {
    const auto holes = bolt_holes(plan_);
    const bool earthed =
        std::any_of(plan_.parts.begin(), plan_.parts.end(), [](const Part& part) { return part.role == Role::stud; });
    if (holes.empty() && plan_.lift_points.empty() && !earthed) return;
    flow_.heading("When it is closed");
    if (!plan_.lift_points.empty()) {
      flow_.sentence(
          fmt::format("[  ] Screw {} lifting eyes {} in until their collars sit, lift as checks/findings.txt reckons "
                      "with, nobody under the load; take the eyes out where they are in the way.",
                      plan_.lift_points.size(), plan_.lift_points.front().thread));
    }
    if (!holes.empty()) {
      flow_.lead("[  ] Bolt it down. Middles of the holes, from the frame's left front lower corner:");
      flow_.table(bolt_hole_table(plan_, holes, units_));
    }
    if (earthed) flow_.sentence("[  ] Connect the earth lead to its stud, metal on bare metal.");
  }

  Status add(const AssemblyStep& step) {
    const double words_width = flow_.width_mm() - picture_width_mm - 4;
    const auto words = words_beside(step, words_width);
    const auto title = type_.wrapped(number_words(step) + step.title, head_mm, true, flow_.width_mm() - tick_mm - 3);
    const double title_mm = head_mm * line_height * static_cast<double>(title.size()) + 2;
    const double beside_mm = line_mm * static_cast<double>(words.size());
    const double height = title_mm + std::max(picture_mm, beside_mm) + 4;
    const Box2 room = flow_.room(height);
    Page& page = flow_.page();
    page.line(room.low, {room.high.x, room.low.y}, wide_mm);
    const Vec2 tick{room.low.x, room.low.y + 2};
    page.rectangle(box_of(tick, tick + Vec2{tick_mm, tick_mm}));
    double y = room.low.y + 1;
    for (const std::string& line : title) {
      page.labels.push_back(type_.label({room.low.x + tick_mm + 3, y + head_mm}, line, head_mm, Anchor::left, true));
      y += head_mm * line_height;
    }
    const double top = room.low.y + title_mm;
    auto drawn = pictures_.draw(page, box_of({room.low.x, top}, {room.low.x + picture_width_mm, top + picture_mm}),
                                step.drawn_light, step.drawn_bold, step.towards_viewer);
    if (!drawn) return drawn;
    y = top;
    for (const auto& [line, bold] : words) {
      page.labels.push_back(
          type_.label({room.low.x + picture_width_mm + 4, y + text_mm}, line, text_mm, Anchor::left, bold));
      y += line_mm;
    }
    step.kind == StepKind::weld ? welds(step) : made_up(step);
    flow_.space(3);
    return Done{};
  }

  static std::string number_words(const AssemblyStep& step) {
    return step.first == step.last ? fmt::format("{}  ", step.first) : fmt::format("{} to {}  ", step.first, step.last);
  }

  using Words = std::vector<std::pair<std::string, bool>>;

  [[nodiscard]] Words words_beside(const AssemblyStep& step, double width) const {
    Words words;
    const auto add = [&](const std::string& text, bool bold = false) {
      for (const std::string& line : type_.wrapped(text, text_mm, bold, width)) words.emplace_back(line, bold);
    };
    if (step.from_behind) add("Seen from behind", true);
    add("Parts", true);
    if (!step.moved.empty()) add(step.moved + ", as one");
    for (const auto& [what, count] : step.parts) add(fmt::format("{} x {}", count, what));
    std::string told;
    for (const Tightening& one : tightenings(plan_, step)) {
      const auto torque = torque_for(one.thread, info_.bench);
      if (torque && told != one.thread) {
        add(fmt::format("{}: {}", one.thread, torque_words(torque->newton_metres)), true);
        add(torque->source);
        told = one.thread;
      }
      if (torque && one.on_item && !torque->given) {
        add("What the item's maker asks for goes before this: [[bench.torque]] in the spec.");
      }
      if (!one.hold.empty()) add(one.hold);
    }
    if (!step.aids.empty()) add("With", true);
    for (const std::string& aid : step.aids) add(aid);
    for (const std::string& mind : step.minds) add("! " + mind, true);
    return words;
  }

  void welds(const AssemblyStep& step) {
    const auto order = weld_order(plan_, seams_, step.at_once, step.there);
    if (order.empty()) return;
    set_out(step);
    set_up(step);
    hold_for_tacking(step);
    const auto frames = frames_closed_in(step);
    tacks(order, frames);
    flow_.lead(
        "Weld in this order: each next joint lies far from the last, so that shrinkage balances. Seams that are not "
        "listed are left free.");
    Table table{{{"weld"}, {"joint"}, {"where"}, {"seams " + std::string(units_.length())}}, {}};
    for (const WeldJoint& joint : order) {
      table.rows.push_back({{"[  ]", joint_words(joint), place_words(plan_, joint.middle), seam_words(joint)}});
    }
    flow_.table(table);
    if (!frames.empty()) flow_.sentence("Measure the diagonals once more when it has cooled.");
  }

  /// Where each part stands that is welded in its place.
  void set_out(const AssemblyStep& step) {
    for (const SetOut& one : set_out_in_frames(plan_, step.at_once)) put_set_out(one, "of " + one.datum);
  }

  void put_set_out(const SetOut& what, const std::string& of) {
    flow_.lead(
        fmt::format("Where each part stands, from edge to edge, a nut by the middle of its hole, counted from the left "
                    "front lower corner {}. It lies: which way its legs, its face and its right edge point, and where "
                    "its start is, named as in its drawing.",
                    of));
    flow_.table(set_out_table(plan_, what, units_));
  }

  /// The frames whose members or walls come together in the step.
  [[nodiscard]] std::vector<const PlacedFrame*> frames_closed_in(const AssemblyStep& step) const {
    std::vector<const PlacedFrame*> frames;
    for (const PlacedFrame& frame : plan_.frames) {
      const std::string of_box = "box." + frame.box;
      const bool closed = std::any_of(step.added.begin(), step.added.end(), [&](InstanceId id) {
        const Instance& instance = plan_.instances[id];
        if (!is_ring_or_wall(plan_.parts[instance.part].role)) return false;
        return plan_.frames.size() == 1 || instance.key == of_box || instance.key.starts_with(of_box + ".");
      });
      if (closed) frames.push_back(&frame);
    }
    return frames;
  }

  /// What comes as one to its place is welded before.
  void made_up(const AssemblyStep& step) {
    const auto order = weld_order(plan_, seams_, step.added, {});
    if (order.empty()) return;
    std::set<InstanceId> ids;
    for (const WeldJoint& joint : order) ids.insert({joint.a, joint.b});
    flow_.lead(
        "Made up beforehand, on the bench: tack these joints, measure, then weld them in this order, and let it cool "
        "clamped flat.");
    put_set_out(set_out_together(plan_, {ids.begin(), ids.end()}), "of what is made up");
    Table table{{{"tack"}, {"weld"}, {"joint"}, {"where"}, {"seams " + std::string(units_.length())}}, {}};
    for (const WeldJoint& joint : order) {
      table.rows.push_back({{"[  ]", "[  ]", joint_words(joint), place_words(plan_, joint.middle), seam_words(joint)}});
    }
    flow_.table(table);
  }

  /// Of a box of plates: which goes into which, and along which way.
  void set_up(const AssemblyStep& step) {
    const bool ring = has_base_ring(step);
    Table table{{{"set up"}, {"part"}, {"it goes"}}, {}};
    for (const SetUp& one : plan_.set_up) {
      if (!std::binary_search(step.added.begin(), step.added.end(), one.part)) continue;
      const std::string how = table.rows.empty() && !ring ? "first, on the bench" : way_words(one.way);
      table.rows.push_back({{"[  ]", mark(one.part) + " " + plan_.instances[one.part].name, how}});
    }
    if (table.rows.empty()) return;
    flow_.lead(
        ring ? "Tack, square and weld the base ring first, flat on the bench. Then set all plates up on it in this "
               "order, tabs into slots, before any of them is tacked: in another they lock each other out."
             : "Set all plates up in this order, tabs into slots, before anything is tacked: in another they lock "
               "each other out.");
    flow_.table(table);
  }

  /// Whether what is set up stands on a ring of angle.
  [[nodiscard]] bool has_base_ring(const AssemblyStep& step) const {
    const auto is = [&](InstanceId id, Role role) {
      return plan_.parts[plan_.instances[id].part].role == role &&
             std::binary_search(step.added.begin(), step.added.end(), id);
    };
    return std::any_of(plan_.joints.begin(), plan_.joints.end(), [&](const Joint& j) {
      return j.kind == JointKind::weld && is(j.a, Role::wall) && is(j.b, Role::ring_member);
    });
  }

  /// A closed frame is squared before anything stiffens it.
  void tacks(const std::vector<WeldJoint>& joints, const std::vector<const PlacedFrame*>& frames) {
    flow_.lead("Tack all joints in this order, with opposite corners after each other; weld nothing out yet.");
    const auto stages = tack_stages(plan_, joints);
    for (const bool of_frame : {true, false}) {
      Table table{{{"tack"}, {"joint"}, {"where"}, {"together"}}, {}};
      for (const TackStage& stage : stages) {
        if (stage.of_frame == of_frame) add_stage(table, stage, joints);
      }
      if (table.rows.empty()) continue;
      flow_.table(table);
      squaring(frames);
    }
  }

  void add_stage(Table& table, const TackStage& stage, const std::vector<WeldJoint>& joints) const {
    std::string what = stage.what;
    for (const std::size_t i : stage.joints) {
      table.rows.push_back({{"[  ]", joint_words(joints[i]), place_words(plan_, joints[i].middle), what}});
      what.clear();
    }
  }

  [[nodiscard]] std::string joint_words(const WeldJoint& joint) const { return mark(joint.a) + " to " + mark(joint.b); }

  /// The diagonals that a square frame has, before it is welded out.
  void squaring(const std::vector<const PlacedFrame*>& frames) {
    for (const PlacedFrame* frame : frames) {
      std::map<std::string, std::string> by_length;
      for (const MeasuredSide& side : measured_sides(frame->space.size())) {
        std::string& faces = by_length[units_.drawn(side.measures[4].planned_mm)];
        faces += (faces.empty() ? "" : " and ") + side.face;
      }
      std::string words;
      for (const auto& [length, faces] : by_length)
        words += fmt::format("{}{} {}", words.empty() ? "" : ", ", faces, length);
      flow_.sentence(fmt::format("[  ] Square the tacked frame{}: both diagonals of each face alike, {} ({}).",
                                 plan_.frames.size() > 1 ? " " + frame->box : "", words, units_.length()));
    }
  }

  [[nodiscard]] std::string mark(InstanceId id) const { return plan_.parts[plan_.instances[id].part].mark; }

  /// "2 fillet 3 x 36 outside left, rising back; butt 4 x 40 outside,
  /// up, bevel 2 first, ground flush"
  [[nodiscard]] std::string seam_words(const WeldJoint& joint) const {
    std::map<std::string, std::size_t> counts;
    for (const output::ListedSeam& listed : listed_) {
      const std::size_t first = listed.pieces.front();
      if (std::find(joint.seams.begin(), joint.seams.end(), first) != joint.seams.end()) ++counts[listed_words(listed)];
    }
    std::string words;
    for (const auto& [what, count] : counts) {
      words += (words.empty() ? "" : "; ") + (count > 1 ? fmt::format("{} ", count) : "") + what;
    }
    return words;
  }

  [[nodiscard]] std::string listed_words(const output::ListedSeam& listed) const {
    const Seam& seam = seams_.all[listed.pieces.front()];
    const std::string length =
        seam.stitch ? ", " + output::stitch_words(seam, units_) + "," : " x " + units_.drawn(listed.weld_mm);
    std::string words = fmt::format("{} {}{} {}", to_text(seam.kind), units_.drawn(seam.size_mm), length,
                                    output::seam_side_words(plan_, seam));
    const double bevel_mm =
        std::accumulate(listed.pieces.begin(), listed.pieces.end(), 0.0,
                        [&](double most, std::size_t piece) { return std::max(most, seams_.all[piece].bevel_mm); });
    const std::string bevel = fmt::format(", bevel {}{} first", units_.drawn(bevel_mm), listed.mixed() ? " there" : "");
    if (listed.mixed()) words += fmt::format(", {} of it ground flush", units_.drawn(listed.flush_mm));
    if (bevel_mm > 0) words += bevel;
    if (listed.flush_mm > 0 && !listed.mixed()) words += ", ground flush";
    if (listed.short_ones > 0) {
      words += ", run on all round at its ends";
    } else if (listed.is_short()) {
      words += ", run on from its neighbour";
    }
    return words;
  }

  [[nodiscard]] std::string torque_words(double nm) const {
    constexpr double nm_per_inch_pound = 0.112984829;  // 4.4482216152605 N x 25.4 mm
    if (info_.units == UnitSystem::in_lb) {
      return fmt::format("{} in lbf ({} N m)", output::number(nm / nm_per_inch_pound, 0), output::number(nm, 1));
    }
    return output::number(nm, 1) + " N m";
  }

  const Plan& plan_;
  const JobInfo& info_;
  output::PaperUnits units_;
  const Type& type_;
  StepPictures pictures_;
  Seams seams_;
  std::vector<output::ListedSeam> listed_;
  Paper paper_;
  Flow flow_;
};

}  // namespace

Result<Paper> assembly_paper(const Plan& plan, const Model& model, const JobInfo& info, const Type& type) {
  return AssemblySheet(plan, model, info, type).made();
}

}  // namespace fitup::bench
