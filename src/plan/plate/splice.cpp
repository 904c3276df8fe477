// Where a plate may be cut in two, and what of the draft belongs to which piece then.
// Entry: splice_plates.
#include "plan/plate/splice.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "fitup/sheet_fit.h"
#include "geometry/narrow.h"
#include "plan/face_axes.h"
#include "plan/plate/joints.h"
#include "plan/plate/profile_cut.h"
#include "plan/plate/splice_strips.h"
#include "plan/size_words.h"

namespace fitup::plan {

namespace {

using plate::Stretch;

constexpr double step_mm = 1;  // from one place that is tried to the next

/// A cut across a plate.
struct Cut {
  plate::CutLine line;
  Profile low;
  Profile high;
  plate::Strips strips;
};

/// A cut that was made, in space.
struct Made {
  int axis = 0;
  double at = 0;
  Box3 plate;
};

class Splicing {
 public:
  explicit Splicing(Build& whole) : build_(whole), draft_(whole.draft) {}

  std::vector<plate::Splice> run() {
    if (draft_.has_trued()) return {};
    for (std::size_t i = 0; i < draft_.set_up.size(); ++i) {
      const InstanceId id = draft_.set_up[i].part;
      const auto* flat = std::get_if<Flat>(&draft_.part(id).form);
      if (draft_.part(id).role != Role::wall || flat == nullptr || !flat->bends.empty()) continue;
      if (!tables::sheet_fault(flat->profile.bounds().size(), rules())) continue;
      if (boxes_.empty()) look_round();
      if (const auto cut = place_for(id)) split(i, *cut);
    }
    return std::move(splices_);
  }

 private:
  [[nodiscard]] const CutRules& rules() const { return build_.spec.cutter.rules; }
  [[nodiscard]] const Flat& flat(InstanceId id) const { return std::get<Flat>(draft_.part(id).form); }

  [[nodiscard]] std::vector<Box3> boxes_at(InstanceId id) const {
    return plate::boxes_of(draft_.part(id), draft_.instance(id).pose);
  }

  void look_round() {
    for (InstanceId id = 0; id < draft_.size(); ++id) boxes_.push_back(boxes_at(id));
  }

  [[nodiscard]] plate::ToothRule teeth(InstanceId id) const {
    const double t = flat(id).thickness_mm;
    const Material* material = tables::find_material(draft_.part(id).material);
    const auto fit = plate::joint_fit(t, material == nullptr || material->steel, rules().tolerance);
    return {t, fit.longer_mm(), plate::relief_mm(t, rules().inner_radius_mm)};
  }

  /// Into how many pieces of what length at most a plate goes that is cut one way.
  struct Pieces {
    bool upright = false;
    double count = 0;  // 0: it cannot be
    double longest_mm = 0;
    double joints_mm = 0;  // length of all joints
  };
  [[nodiscard]] Pieces pieces(InstanceId id, bool upright) const {
    const Vec2 size = flat(id).profile.bounds().size();
    const double length = upright ? size.x : size.y;
    const double width = upright ? size.y : size.x;
    const double longest = tables::longest_piece_mm(width, rules());
    const double depth = teeth(id).depth_mm();
    if (longest <= 2 * depth) return {upright, 0, 0, 0};
    const double count = std::max(2.0, std::ceil((length - depth) / (longest - depth) - tolerance::direction));
    return {upright, count, longest, (count - 1) * width};
  }

  // The way with the shorter joints first.
  [[nodiscard]] std::optional<Cut> place_for(InstanceId id) const {
    std::array<Pieces, 2> ways{pieces(id, true), pieces(id, false)};
    if (ways[1].joints_mm < ways[0].joints_mm) std::swap(ways[0], ways[1]);
    for (const Pieces& way : ways) {
      if (way.count == 0) continue;
      if (auto cut = place_along(id, way)) return cut;
    }
    return std::nullopt;
  }

  // As near as can be to where the pieces are of one length.
  [[nodiscard]] std::optional<Cut> place_along(InstanceId id, const Pieces& way) const {
    const Box2 bounds = flat(id).profile.bounds();
    const double length = way.upright ? bounds.size().x : bounds.size().y;
    const double from = way.upright ? bounds.low.x : bounds.low.y;
    const double depth = teeth(id).depth_mm();
    // Each but the last one is longer by its teeth.
    const double least = from + length - (way.longest_mm + (way.count - 2) * (way.longest_mm - depth));
    const double most = from + way.longest_mm - depth;
    const double best = std::round(from + length / way.count);
    const Profile profile = way.upright ? flat(id).profile : plate::quarter_turned(flat(id).profile);
    for (double off = 0; best - off >= least || best + off <= most; off += step_mm) {
      for (const double at : {best - off, best + off}) {
        if (at < least || at > most) continue;
        if (auto cut = cut_at(id, profile, way.upright, at)) return cut;
      }
    }
    return std::nullopt;
  }

  [[nodiscard]] std::optional<Cut> cut_at(InstanceId id, const Profile& profile, bool upright, double at) const {
    const plate::ToothRule rule = teeth(id);
    const auto spans = plate::material_across(profile, at, rule.band_mm());
    if (!spans || !clear_of_drills(id, upright, at, rule.band_mm()) || beside_another(id, upright, at)) {
      return std::nullopt;
    }
    auto strips = plate::strips_behind(draft_, boxes_, id, {upright, at}, *spans);
    if (!strips) return std::nullopt;
    auto halves = plate::cut_in_two(profile, at, rule);
    if (!halves) return std::nullopt;
    for (const Profile& half : {halves->low, halves->high}) {
      if (flaw_in(half) || too_narrow(half, at, rule.band_mm(), flat(id).bought_mm())) return std::nullopt;
    }
    Cut cut{{upright, at}, {}, {}, *std::move(strips)};
    cut.low = upright ? halves->low : plate::quarter_turned(halves->low, true);
    cut.high = upright ? halves->high : plate::quarter_turned(halves->high, true);
    return cut;
  }

  // Whether the joint left a web or made a notch that the shop does not cut.
  [[nodiscard]] bool too_narrow(const Profile& half, double at, double beside_mm, double thickness_mm) const {
    const double web = rules().smallest_web * thickness_mm;
    const double slot = rules().smallest_slot * thickness_mm;
    const auto places = geometry::narrow_places(half, std::max(web, slot)).places;
    return std::any_of(places.begin(), places.end(), [&](const geometry::NarrowPlace& p) {
      const bool narrow = (p.kind == geometry::NarrowKind::web && p.width_mm < web - tolerance::snap_mm) ||
                          (p.kind == geometry::NarrowKind::slot && p.width_mm < slot - tolerance::snap_mm);
      return narrow && std::abs(p.at.x - at) <= beside_mm;
    });
  }

  [[nodiscard]] bool clear_of_drills(InstanceId id, bool upright, double at, double beside_mm) const {
    const auto& drilled = flat(id).drilled;
    return std::none_of(drilled.begin(), drilled.end(), [&](const DrilledHole& hole) {
      return std::abs((upright ? hole.at.x : hole.at.y) - at) < beside_mm + hole.diameter_mm / 2;
    });
  }

  // Axis of space along which the pieces follow each other, and the cut's place on it.
  [[nodiscard]] Made in_space(InstanceId id, bool upright, double at) const {
    const Pose& pose = draft_.instance(id).pose;
    const Vec3 way = upright ? pose.x() : pose.y();
    const int axis = std::abs(way.x) > 0.5 ? 0 : std::abs(way.y) > 0.5 ? 1 : 2;
    const Vec3 point = pose.point(upright ? Vec3{at, 0, 0} : Vec3{0, at, 0});
    Box3 box;
    for (const Box3& b : boxes_[id]) box.add(b);
    return {axis, along(point, axis), box};
  }

  [[nodiscard]] bool beside_another(InstanceId id, bool upright, double at) const {
    const Made here = in_space(id, upright, at);
    return std::any_of(made_.begin(), made_.end(), [&](const Made& m) {
      return m.axis == here.axis && std::abs(m.at - here.at) < splices_apart_mm &&
             plate::meets(m.plate, here.plate, splices_apart_mm);
    });
  }

  [[nodiscard]] Part piece(const Part& whole, const Profile& profile, const Cut& cut, bool low) const {
    Part out = whole;
    Flat& flat = std::get<Flat>(out.form);
    flat.profile = profile;
    std::erase_if(flat.drilled,
                  [&](const DrilledHole& h) { return ((cut.line.upright ? h.at.x : h.at.y) < cut.line.at) != low; });
    out.size = flat_size_words(profile.bounds().size(), flat.thickness_mm);
    return out;
  }

  // "floor part 1" and "floor part 2"; of a second piece that is cut again, 2 and 3.
  static std::pair<std::string, std::string> names_of(const std::string& whole) {
    static constexpr std::string_view word = " part ";
    const std::size_t at = whole.rfind(word);
    if (at == std::string::npos) return {fmt::format("{}{}1", whole, word), fmt::format("{}{}2", whole, word)};
    const int number = std::stoi(whole.substr(at + word.size()));
    return {whole, fmt::format("{}{}{}", whole.substr(0, at), word, number + 1)};
  }

  void split(std::size_t turn, const Cut& cut) {
    const SetUp set = draft_.set_up[turn];
    const InstanceId low = set.part;
    const Instance whole = draft_.instance(low);
    const Made made = in_space(low, cut.line.upright, cut.line.at);
    const Part part = draft_.part(low);
    const auto names = names_of(whole.name);
    Part second = piece(part, cut.high, cut, false);
    draft_.part(low) = piece(part, cut.low, cut, true);
    std::tie(draft_.part(low).name, second.name) = names_of(part.name);
    const Origin origin{whole.key, whole.place, whole.group};
    const InstanceId high = draft_.add(std::move(second), whole.pose, names.second, origin);
    draft_.set_up.insert(draft_.set_up.begin() + static_cast<std::ptrdiff_t>(turn) + 1, {high, set.way});
    boxes_[low] = boxes_at(low);
    boxes_.push_back(boxes_at(high));
    made_.push_back(made);
    splices_.push_back({low, high, names.first, {}, made.axis, made.at});
    take_over(splices_.back(), made.plate);
    const Pose& stands = draft_.instance(low).pose;
    draft_.join(low, high, JointKind::weld, cut.line.upright ? stands.x() : stands.y());
    for (const Stretch& s : cut.strips.along) add_strip(splices_.back(), cut, s, origin, whole.name);
  }

  // What lies on the second piece is joined to it.
  void take_over(const plate::Splice& splice, const Box3& whole) {
    const std::vector<Joint> joints = draft_.joints();
    for (const Joint& j : joints) {
      if (j.a != splice.low && j.b != splice.low) continue;
      const InstanceId other = j.a == splice.low ? j.b : j.a;
      if (!plate::lies_on(boxes_[other], whole, splice, false, j.largest_gap_mm)) continue;
      draft_.join(j.a == splice.low ? splice.high : j.a, j.b == splice.low ? splice.high : j.b, j.kind, j.normal,
                  j.largest_gap_mm, j.major_mm);
    }
    const auto is_high = [&](Vec3 p) { return along(p, splice.axis) > splice.at; };
    for (Fastener& f : draft_.fasteners) {
      for (InstanceId& held : f.stack) {
        if (held == splice.low && is_high(draft_.instance(f.screw).pose.origin())) held = splice.high;
      }
    }
    for (Pattern& pattern : draft_.patterns) {
      for (PatternBody& body : pattern.bodies) {
        for (PatternHole& hole : body.holes) {
          if (hole.plate == splice.low && is_high(hole.at)) hole.plate = splice.high;
        }
      }
    }
  }

  void add_strip(plate::Splice& splice, const Cut& cut, const Stretch& s, const Origin& origin, const std::string& of) {
    const double t = flat(splice.low).thickness_mm;
    const auto [from, to] = plate::strip_corners(t, cut.line, s);
    Flat strip;
    strip.thickness_mm = t;
    strip.profile.outer = Loop::rectangle({0, 0}, to - from);
    Part part = draft_.part(splice.low);
    part.mark = "DBL02";
    part.name = "strip behind a joint";
    part.role = Role::doubler;
    part.size = flat_size_words(to - from, t);
    part.form = std::move(strip);
    const Pose stands = draft_.instance(splice.low).pose;
    const Vec3 corner = stands.point({from.x, from.y, cut.strips.above ? t : -t});
    const InstanceId id = draft_.add(std::move(part), Pose::at(corner, stands.x(), stands.y()),
                                     fmt::format("strip behind the joint of the {}", of), origin);
    boxes_.push_back(boxes_at(id));
    splice.strips.push_back(id);
    for (const InstanceId half : {splice.low, splice.high}) {
      draft_.join(id, half, JointKind::weld, (cut.strips.above ? -1.0 : 1.0) * stands.z());
    }
  }

  Build& build_;
  Draft& draft_;
  std::vector<std::vector<Box3>> boxes_;  // of each prism; index: InstanceId
  std::vector<Made> made_;
  std::vector<plate::Splice> splices_;
};

}  // namespace

std::vector<plate::Splice> splice_plates(Build& whole) { return Splicing(whole).run(); }

}  // namespace fitup::plan
