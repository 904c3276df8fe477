// Each flat part by itself, where it comes from one key; the places are those of its drawing.
// Entry: check_cut_rules.
#include "checks/cut_rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <map>
#include <utility>

#include "checks/cut_judge.h"
#include "checks/occupancy.h"
#include "checks/order.h"
#include "checks/placed.h"
#include "fitup/sheet_fit.h"
#include "geometry/offset.h"

namespace fitup::checks {

namespace {

using geometry::NarrowKind;

const std::string narrow_source =
    "common practice of shops that cut sheet; the spec's [cutter] where it says otherwise";

struct Kind {
  NarrowKind kind;
  std::string_view name;
  std::string_view key;
  std::string_view mend;
};
constexpr std::array<Kind, 3> kinds{
    {{NarrowKind::hole, "hole", "smallest_hole", "a larger hole or thinner sheet helps"},
     {NarrowKind::slot, "slot", "smallest_slot", "a wider slot or thinner sheet helps"},
     {NarrowKind::web, "web", "smallest_web", "more room between the cut-outs helps"}}};

std::string in_mm(double mm) { return fmt::format("{:.4g} mm", mm); }

/// One flat part with those of its instances that come from one key.
class CutPart {
 public:
  CutPart(const Plan& plan, PartId part, const std::vector<InstanceId>& instances)
      : plan_(plan), part_(plan.parts[part]), flat_(std::get<Flat>(part_.form)), instances_(instances) {}

  void judge(std::vector<Finding>& findings) {
    const std::size_t before = findings.size();
    judge_narrow_places(findings);
    judge_inner_corners(findings);
    judge_sheet(findings);
    judge_thickness(findings);
    judge_kerf(findings);
    sound_ = findings.size() == before;
  }
  [[nodiscard]] bool sound() const { return sound_; }
  /// Slots for tabs that would have been asked about.
  [[nodiscard]] std::size_t tab_slots() const { return tab_slots_; }

 private:
  Finding about(Verdict verdict, std::string_view rule) const {
    const Instance& first = plan_.instances[instances_.front()];
    Finding f;
    f.check = "cut-rules";
    f.verdict = verdict;
    f.key = first.key;
    f.place = first.place;
    f.unit = "mm";
    f.cause = fmt::format("{} {}", rule, first.key);
    for (const InstanceId id : instances_) f.parts.push_back(part_.mark + " " + plan_.instances[id].name);
    return f;
  }

  [[nodiscard]] std::string named() const { return part_.mark + " " + plan_.instances[instances_.front()].name; }

  /// A bent part's pattern lies nowhere in space.
  [[nodiscard]] std::optional<Vec3> in_space(Vec2 at) const {
    if (!flat_.bends.empty()) return std::nullopt;
    return plan_.instances[instances_.front()].pose.point({at.x, at.y, flat_.thickness_mm / 2});
  }

  [[nodiscard]] std::string in_drawing(Vec2 at) const {
    const Vec2 from = at - flat_.profile.bounds().low;
    return fmt::format("{} from the left and {} from below in its file", in_mm(from.x), in_mm(from.y));
  }

  static std::string between(const geometry::NarrowPlace& place) {
    if (place.kind != NarrowKind::web) return "";
    if (place.loop == place.other) return place.loop == 0 ? " in its outline" : " in a cut-out";
    return place.loop == 0 ? " beside its edge" : " between two cut-outs";
  }

  /// Parts that this one is welded to and that may stand in its slots.
  [[nodiscard]] std::vector<PlacedBody> welded_plates() const {
    std::vector<PlacedBody> out;
    const InstanceId own = instances_.front();
    for (const Joint& joint : plan_.joints) {
      if (joint.kind != JointKind::weld || (joint.a != own && joint.b != own)) continue;
      const Instance& other = plan_.instances[joint.a == own ? joint.b : joint.a];
      const Part& part = plan_.parts[other.part];
      if (std::holds_alternative<Flat>(part.form)) out.push_back(place(body_of(part), other.pose));
    }
    return out;
  }

  /// Leaves out slots that another plate stands in, where they are no narrower than the shop cuts.
  void leave_out_tab_slots(std::vector<geometry::NarrowPlace>& places) {
    const double t = flat_.bought_mm();
    const auto is_slot = [](const geometry::NarrowPlace& p) { return p.kind == NarrowKind::slot; };
    if (t > thickest_with_tab_slots_mm || std::none_of(places.begin(), places.end(), is_slot)) return;
    const auto plates = welded_plates();
    const double cut_mm = narrow_limits(NarrowKind::slot, t, plan_.cut_rules).refused_mm;
    tab_slots_ = std::erase_if(places, [&](const geometry::NarrowPlace& p) {
      const Loop* cut_out = p.loop > 0 ? &flat_.profile.holes[p.loop - 1] : nullptr;
      const auto at = in_space(cut_out != nullptr ? cut_out->bounds().middle() : p.at);
      return is_slot(p) && at && p.width_mm >= cut_mm &&
             std::any_of(plates.begin(), plates.end(), [&](const PlacedBody& b) { return occupies(b.outer, *at); });
    });
  }

  void judge_narrow_places(std::vector<Finding>& findings) {
    const double t = flat_.bought_mm();
    constexpr std::size_t without_end = std::numeric_limits<std::size_t>::max();  // our own parts are not hostile
    auto search = geometry::narrow_places(flat_.profile, widest_asked_mm(t, plan_.cut_rules), without_end);
    leave_out_tab_slots(search.places);
    for (const Kind& kind : kinds) {
      const auto fault = judge_narrow(search.places, kind.kind, t, plan_.cut_rules);
      if (fault) findings.push_back(too_narrow(kind, *fault));
    }
  }

  [[nodiscard]] Finding too_narrow(const Kind& kind, const NarrowFault& fault) const {
    Finding f = about(fault.verdict, kind.name);
    f.value = fault.at.width_mm;
    f.limit = fault.limit_mm;
    f.source = narrow_source;
    f.at = in_space(fault.at.at);
    f.count = fault.count;
    const std::string what = fmt::format("a {} of {}{}, {}", kind.name, in_mm(fault.at.width_mm), between(fault.at),
                                         in_drawing(fault.at.at));
    if (fault.verdict == Verdict::fail) {
      f.message =
          fmt::format("{} has {}; the shop cuts none narrower than {}, {:.3g} times the thickness (cutter.{}): {}",
                      named(), what, in_mm(fault.limit_mm), fault.times, kind.key, kind.mend);
    } else {
      f.message = fmt::format(
          "{} has {}; ask the shop about what is narrower than {}, {:.3g} times the thickness "
          "(cutter.asked_below): {}",
          named(), what, in_mm(fault.limit_mm), fault.times, kind.mend);
    }
    return f;
  }

  void judge_inner_corners(std::vector<Finding>& findings) const {
    if (plan_.cut_rules.inner_radius_mm <= 0) return;
    const auto fault = judge_corners(geometry::inner_corners(flat_.profile), plan_.cut_rules);
    if (!fault) return;
    Finding f = about(Verdict::fail, "inner radius");
    f.value = fault->at.radius_mm;
    f.limit = plan_.cut_rules.inner_radius_mm;
    f.source = "the spec's cutter.inner_radius";
    f.at = in_space(fault->at.at);
    f.count = fault->count;
    f.message =
        fmt::format("{} has an inner corner of radius {}, {}; the shop cuts none smaller than {} (cutter.inner_radius)",
                    named(), in_mm(fault->at.radius_mm), in_drawing(fault->at.at), in_mm(*f.limit));
    findings.push_back(std::move(f));
  }

  /// Why the plan has not cut it in two (plan/plate/splice.h).
  [[nodiscard]] std::string_view why_whole() const {
    const auto finds_its_place = [&](const SetUp& set) { return set.part == instances_.front(); };
    if (!flat_.bends.empty()) return "A bent sheet is one: a joint would run through its bends";
    switch (part_.role) {
      case Role::cover_sheet:
      case Role::cover_flange:
        return "A cover is one sheet: it lies on its seal and comes off, and a joint would be neither flat nor tight";
      case Role::rod_plate: return "A rod plate is one: the pull of its rods would go through the joint";
      case Role::rail: return "A rail is one: what stands on it would bend the joint";
      case Role::rib: return "A rib is one: it is what keeps a floor straight";
      case Role::wall:
        if (std::any_of(plan_.set_up.begin(), plan_.set_up.end(), finds_its_place)) {
          if (!plan_.trued.empty()) {
            return "No splice: what is made to a measured frame is not cut in pieces, nor are the boxes joined to it";
          }
          return "No splice: no line across it gives pieces that fit, keeps clear of slots, tabs and holes, has room "
                 "for a strip behind it and lies 100 mm from the splices beside it";
        }
        break;
      default: break;
    }
    return "It is not spliced: only a box of plates (box.NAME.build) has its walls, floor, top, rings, sills and "
           "headers cut in pieces";
  }

  void judge_sheet(std::vector<Finding>& findings) const {
    const Vec2 size = flat_.profile.bounds().size();
    const auto fault = tables::sheet_fault(size, plan_.cut_rules);
    if (!fault) return;
    Finding f = about(Verdict::fail, "sheet");
    f.value = fault->size_mm;
    f.limit = fault->room_mm;
    f.source = "the sheets of the spec's [cutter], common practice where it names none";
    f.at = in_space(flat_.profile.bounds().middle());
    f.message = fmt::format(
        "{} is {} x {}, {} too large for a sheet of {} x {} less {} all round, either way round (cutter.sheets, "
        "cutter.sheet_margin). {}: larger sheets, or a smaller box",
        named(), in_mm(size.x), in_mm(size.y), in_mm(fault->size_mm - fault->room_mm), in_mm(fault->sheet_mm[0]),
        in_mm(fault->sheet_mm[1]), in_mm(plan_.cut_rules.sheet_margin_mm), why_whole());
    findings.push_back(std::move(f));
  }

  void judge_thickness(std::vector<Finding>& findings) const {
    const double t = flat_.bought_mm();
    const auto instead = nearest_instead_mm(t, tables::on_shelf_mm(part_.material, plan_.cut_rules));
    if (!instead) return;
    Finding f = about(Verdict::fail, "shelf");
    f.value = t;
    f.limit = *instead;
    f.at = in_space(flat_.profile.bounds().middle());
    f.source = "the shelf of the spec's [cutter], common practice where it says nothing of the material";
    f.message =
        fmt::format("{} is of {} {}, which the shop does not have (cutter.shelf, cutter.on_shelf): the nearest is {}",
                    named(), part_.material, in_mm(t), in_mm(*instead));
    findings.push_back(std::move(f));
  }

  void judge_kerf(std::vector<Finding>& findings) const {
    const double kerf = plan_.cut_rules.kerf_mm;
    if (kerf <= 0 || geometry::offset(flat_.profile, kerf / 2)) return;
    Finding f = about(Verdict::fail, "kerf");
    f.value = kerf;
    f.source = "geometry: the cut's middle runs half the kerf beside the outline";
    const auto& holes = flat_.profile.holes;
    const auto tight =
        std::find_if(holes.begin(), holes.end(), [&](const Loop& hole) { return !geometry::offset(hole, -kerf / 2); });
    const Vec2 at = (tight == holes.end() ? flat_.profile.outer : *tight).bounds().middle();
    f.at = in_space(at);
    const std::string where = tight == holes.end() ? " in its outline" : ", its middle " + in_drawing(at) + ",";
    f.message = fmt::format(
        "{} has an inner radius, edge or cut-out{} that a cut {} wide does not get into (cutter.kerf): a "
        "narrower kerf, or larger corners",
        named(), where, in_mm(kerf));
    findings.push_back(std::move(f));
  }

  const Plan& plan_;
  const Part& part_;
  const Flat& flat_;
  const std::vector<InstanceId>& instances_;
  bool sound_ = true;
  std::size_t tab_slots_ = 0;
};

using ByKey = std::map<std::pair<PartId, std::string>, std::vector<InstanceId>>;

ByKey cut_parts(const Plan& plan) {
  ByKey all;
  for (InstanceId id = 0; id < plan.instances.size(); ++id) {
    const Instance& instance = plan.instances[id];
    const Part& part = plan.parts[instance.part];
    if (part.source == Source::cut && std::holds_alternative<Flat>(part.form)) {
      all[{instance.part, instance.key}].push_back(id);
    }
  }
  return all;
}

}  // namespace

std::vector<Finding> check_cut_rules(const Plan& plan) {
  std::vector<Finding> findings;
  const ByKey parts = cut_parts(plan);
  std::size_t sound = 0;
  std::size_t tab_slots = 0;
  for (const auto& [part, instances] : parts) {
    CutPart cut(plan, part.first, instances);
    cut.judge(findings);
    sound += cut.sound() ? 1 : 0;
    tab_slots += cut.tab_slots();
  }
  if (sound == 0) return findings;
  Finding f;
  f.check = "cut-rules";
  f.verdict = Verdict::pass;
  f.source = narrow_source;
  f.message = fmt::format(
      "of {} kinds of flat parts {} are cut without a question: holes, slots, webs, inner corners, size "
      "and thickness{}",
      parts.size(), sound,
      tab_slots == 0 ? ""
                     : fmt::format("; slots for tabs, {} in all, are as wide as the sheet that stands in them and its "
                                   "play, which lasers cut up to {} thick without asking (common practice)",
                                   tab_slots, in_mm(thickest_with_tab_slots_mm)));
  findings.push_back(std::move(f));
  return findings;
}

}  // namespace fitup::checks
