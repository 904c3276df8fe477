// Flat covers of the left, the right, the top and the bottom: on the frame's own legs and bars.
// Entry: add_flat_cover.
#include "plan/flat_cover.h"

#include <algorithm>
#include <cmath>

#include <map>

#include <fmt/format.h>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/boss_openings.h"
#include "plan/clear_rows.h"
#include "plan/face_axes.h"
#include "plan/flange_edges.h"
#include "plan/holes.h"
#include "plan/plate/row_part.h"
#include "plan/rule_steps.h"
#include "plan/screw_row.h"
#include "plan/tips_through_rails.h"

namespace fitup::plan {

namespace {

constexpr double row_end_mm = 20;  // a row's first screw from the end of the face
constexpr double between_heads_mm = 1;
constexpr double edge_distance = 1.2;  // of a hole's centre from an edge, in hole diameters (common practice)

struct Interval {
  double low = 0;
  double high = 0;
};

// A part of the frame that takes screws, as the face shows it: `run` along it, `across` it.
struct Strip {
  Host host;
  int run = 0;
  int across = 1;
};

class FlatCover {
 public:
  FlatCover(Build& build, Face face, const Box3& sheet, const std::vector<Host>& rails)
      : build_(build),
        face_(face),
        spec_(build.box_spec().face(face)),
        box_(sheet),
        rails_(rails),
        word_(to_text(face)),
        normal_(axis_of(face)),
        first_axis_(normal_ == 0 ? 1 : 0),
        second_axis_(normal_ == 0 ? 2 : 1) {
    inward_ = unit(normal_, side_of(face) == low ? high : low);
    seat_ = along(side_of(face) == low ? box_.low : box_.high, normal_);
  }

  void run() {
    sheet_ = add_plate(build_, {mark(), word_ + " cover sheet", Role::cover_sheet, material_of(build_)}, box_,
                       unit(normal_, high), word_ + " cover sheet", origin());
    build_.panels[static_cast<std::size_t>(face_)] = sheet_;
    if (face_ == Face::left) build_.side_plates[low] = sheet_;
    if (face_ == Face::right) build_.side_plates[high] = sheet_;
    for (const Host& host : build_.shell.beside[static_cast<std::size_t>(face_)]) {
      if (!face_each_other(box_, host.box, inward_) || !meets_end(build_, face_, host, box_)) continue;
      build_.draft.join(sheet_, host.id, JointKind::bearing, inward_);
    }
    const auto rows = strips();
    for (const Strip& strip : rows) {
      if (strip.run == first_axis_ && !add_row(strip, ends_of(strip))) return;
    }
    for (const Strip& strip : rows) {
      if (strip.run == second_axis_ && !add_row(strip, between(rows, strip))) return;
    }
    if (face_ != Face::bottom) return;
    std::vector<InstanceId> hosts;
    for (const Strip& strip : rows) hosts.push_back(strip.host.id);
    let_through_rails(build_, hosts, rails_);
  }

 private:
  [[nodiscard]] std::string mark() const {
    return face_ == Face::left ? "PLT50" : face_ == Face::right ? "PLT51" : face_ == Face::top ? "PLT52" : "PLT53";
  }
  [[nodiscard]] Origin origin() const { return {build_.key("face." + word_), spec_.place, word_ + " cover"}; }
  [[nodiscard]] double edge_mm() const {
    return edge_distance * tables::find_thread(*spec_.screws.thread)->clear_medium_mm;
  }
  [[nodiscard]] double heads_apart_mm() const {
    return tables::find_button_head(*spec_.screws.thread)->head_mm + between_heads_mm;
  }
  [[nodiscard]] double step_mm() const { return spec_.screws.max_spacing->mm(); }

  // What lies along the face; the sawn ends of members that run the other way are no strips.
  [[nodiscard]] std::vector<Strip> strips() const {
    std::vector<Strip> found;
    for (const Host& beside : build_.shell.beside[static_cast<std::size_t>(face_)]) {
      const Host host = row_part(build_, face_, beside);
      if (!host.row || !face_each_other(box_, host.box, inward_)) continue;
      const Vec3 size = host.box.size();
      const double one = along(size, first_axis_);
      const double other = along(size, second_axis_);
      if (std::max(one, other) < 1.5 * std::min(one, other)) continue;
      found.push_back({host, one > other ? first_axis_ : second_axis_, one > other ? second_axis_ : first_axis_});
    }
    return found;
  }

  // What of the strip the sheet covers, in one direction.
  [[nodiscard]] Interval covered(const Strip& strip, int axis) const {
    return {std::max(along(strip.host.box.low, axis), along(box_.low, axis)),
            std::min(along(strip.host.box.high, axis), along(box_.high, axis))};
  }
  [[nodiscard]] double middle(const Strip& strip) const {
    const Interval lap = covered(strip, strip.across);
    const double half = (lap.low + lap.high) / 2;
    const double round = beside_round_mm(build_, face_, strip.host);
    const double low_end = along(strip.host.box.low, strip.across) + round;
    const double high_end = along(strip.host.box.high, strip.across) - round;
    return round > 0 && low_end < high_end ? std::clamp(half, low_end, high_end) : half;
  }
  // What of the sheet's lap a row may stand in, its edges left aside: of a tube what is flat.
  [[nodiscard]] double room_mm(const Strip& strip) const {
    const Interval lap = covered(strip, strip.across);
    const double beside = std::max(0.0, beside_round_mm(build_, face_, strip.host) - edge_mm());
    return std::min(lap.high, along(strip.host.box.high, strip.across) - beside) -
           std::max(lap.low, along(strip.host.box.low, strip.across) + beside);
  }

  [[nodiscard]] std::vector<double> ends_of(const Strip& strip) const {
    const Interval lap = covered(strip, strip.run);
    const double first =
        steps_of(*tables::find_thread(*spec_.screws.thread)).place_up(std::max(row_end_mm, seam_mm(strip)));
    const double end = along(build_.shell.size, strip.run) - first;
    return clear_row(strip, std::max(first, lap.low + edge_mm()), std::min(end, lap.high - edge_mm()));
  }

  // Between the rows that run across; where those stand close, what the strip itself has room for.
  [[nodiscard]] std::vector<double> between(const std::vector<Strip>& rows, const Strip& strip) const {
    const Interval lap = covered(strip, strip.run);
    const Interval room{lap.low + edge_mm(), lap.high - edge_mm()};
    double from = lap.low;
    double to = lap.high;
    for (const Strip& other : rows) {
      if (other.run != strip.across) continue;
      const double at = middle(other);
      (at < (lap.low + lap.high) / 2 ? from : to) = at;
    }
    const auto even = spread_between(from, to, step_mm());
    const bool fits = std::all_of(even.begin(), even.end(),
                                  [&](double at) { return at >= room.low && at <= room.high && !is_taken(strip, at); });
    if (fits || room.low > room.high) return fits ? even : std::vector<double>{};
    return clear_row(strip, room.low, room.high);
  }

  // Room that a lift boss takes from a row: its cut-out, and steel beside it.
  [[nodiscard]] std::vector<Interval> taken(const Strip& strip) const {
    std::vector<Interval> found;
    if (face_ != Face::top) return found;
    for (const LiftPoint& point : build_.draft.lift_points) {
      const double half = boss_cut_out_mm(build_, point) / 2 + edge_mm();
      if (std::abs(along(point.at, strip.across) - middle(strip)) >= half) continue;
      const double at = along(point.at, strip.run);
      found.push_back({at - half, at + half});
    }
    std::sort(found.begin(), found.end(), [](const Interval& a, const Interval& b) { return a.low < b.low; });
    return found;
  }
  [[nodiscard]] bool is_taken(const Strip& strip, double at) const {
    const auto all = taken(strip);
    return std::any_of(all.begin(), all.end(), [at](const Interval& i) { return i.low < at && at < i.high; });
  }

  // Evenly between what is taken, a screw at either side of it.
  [[nodiscard]] std::vector<double> clear_row(const Strip& strip, double from, double to) const {
    std::vector<double> row;
    const auto add = [&](double low_end, double high_end) {
      if (high_end < low_end - tolerance::contact_mm) return;
      // Where two heads have no room, one.
      const double middle_mm = (low_end + high_end) / 2;
      const auto piece =
          high_end - low_end < heads_apart_mm() ? std::vector<double>{middle_mm} : spread(low_end, high_end, step_mm());
      row.insert(row.end(), piece.begin(), piece.end());
    };
    for (const Interval& gone : taken(strip)) {
      add(from, std::min(gone.low, to));
      from = std::max(from, gone.high);
    }
    add(from, to);
    return row;
  }

  // False if the flange of a cover beside it leaves the row no steel.
  bool add_row(const Strip& strip, const std::vector<double>& places) {
    const double room = room_mm(strip);
    if (room < 2 * edge_mm() - tolerance::contact_mm) {
      build_.diagnostics.add(diag::say<"cover-row-without-room">(
          spec_.closed_by.place, word_, build_.draft.instance(strip.host.id).name, build_.in_words(room),
          *spec_.screws.thread, build_.at_least(2 * edge_mm()),
          more_room_for_row(build_, face_, beside_of(strip), 2 * edge_mm() - room)));
      return false;
    }
    const std::string name = row_word(strip);
    for (const double at : given_or(strip, places))
      screw(strip, at, fmt::format("{} cover screw {} {}", word_, name, ++count_[name]));
    return true;
  }

  // The face at whose edge it lies.
  [[nodiscard]] Face beside_of(const Strip& strip) const {
    return face_at(strip.across, middle(strip) < along(build_.shell.size, strip.across) / 2 ? low : high);
  }

  // What it is screwed into; a plate that has several rows says by the edge which one.
  [[nodiscard]] std::string row_word(const Strip& strip) const {
    const auto& all = build_.shell.beside[static_cast<std::size_t>(face_)];
    const auto rows = std::count_if(all.begin(), all.end(), [&](const Host& h) { return h.id == strip.host.id; });
    return rows > 1 ? std::string(to_text(beside_of(strip))) : build_.draft.instance(strip.host.id).name;
  }

  // From the end of the face: beyond what is welded there, and beside a mitre that comes to the row at 45 degrees.
  [[nodiscard]] double seam_mm(const Strip& strip) const {
    const double hole = tables::find_thread(*spec_.screws.thread)->clear_medium_mm;
    const double leg = strip.host.depth_mm(unit(normal_, high));
    const double square = clear_of_seam_mm(leg, hole);
    if (!is_mitred(strip)) return square;
    const double from_side = std::min(middle(strip), along(build_.shell.size, strip.across) - middle(strip));
    return std::max(square, from_side + std::sqrt(2.0) * std::max(square - leg, edge_mm()));
  }
  // Along the face; a mitre through the legs that it does not lie on is a square end to it.
  [[nodiscard]] bool is_mitred(const Strip& strip) const {
    const auto* member = std::get_if<Member>(&build_.draft.part(strip.host.id).form);
    return normal_ == 2 && member != nullptr && (member->start.mitre || member->end.mitre);
  }

  // A row that is moved for something else must not be moved into a boss.
  void keep_off_bosses(const Strip& strip, const std::string& name) const {
    const auto& gaps = build_.row_gaps;
    if (std::none_of(gaps.begin(), gaps.end(), [&](const RowGap& gap) { return gap.row == name; })) return;
    for (const Interval& gone : taken(strip)) add_row_gap(build_, {name, gone.low, gone.high});
  }

  // The spec may give those of a strip that lies along an edge.
  [[nodiscard]] std::vector<double> given_or(const Strip& strip, const std::vector<double>& by_rule) const {
    const double far = along(build_.shell.size, strip.across);
    const double at = middle(strip);
    const std::string name = fmt::format("{} cover screw {}", word_, row_word(strip));
    keep_off_bosses(strip, name);
    if (at > far / 4 && at < 3 * far / 4) {
      return out_of_gaps(build_.row_gaps, name, by_rule, heads_apart_mm(), step_mm());
    }
    const Interval lap = covered(strip, strip.run);
    const double end = along(build_.shell.size, strip.run);
    const ScrewRow row{face_,
                       beside_of(strip),
                       strip.run,
                       std::max(lap.low + edge_mm(), seam_mm(strip)),
                       std::min(lap.high - edge_mm(), end - seam_mm(strip)),
                       name};
    return places_along(build_, row, by_rule);
  }

  void screw(const Strip& strip, double at, const std::string& name) {
    const double t = spec_.thickness->mm();
    const double into = strip.host.depth_mm(unit(normal_, high));
    const Vec3 seat =
        at * unit(strip.run, high) + middle(strip) * unit(strip.across, high) + seat_ * unit(normal_, high);
    add_screw(build_, {*spec_.screws.thread,
                       spec_.screws.thread.place,
                       seat,
                       inward_,
                       {{sheet_, 0, t}, {strip.host.id, t, t + into}},
                       name,
                       origin(),
                       std::nullopt,
                       *spec_.screws.fixing,
                       build_.key("face." + word_ + ".screws.fixing"),
                       slot_mm_of(build_, spec_.screws.hole, spec_.screws.slot, unit(strip.run, high)),
                       unit(strip.run, high),
                       &spec_.screws});
  }

  Build& build_;
  Face face_;
  const FaceSpec& spec_;
  Box3 box_;
  const std::vector<Host>& rails_;
  std::string word_;
  int normal_;
  int first_axis_;
  int second_axis_;
  Vec3 inward_;
  double seat_ = 0;
  InstanceId sheet_ = 0;
  std::map<std::string, int> count_;
};

}  // namespace

void add_flat_cover(Build& build, Face face, const Box3& sheet, const std::vector<Host>& rails) {
  FlatCover(build, face, sheet, rails).run();
  if (const auto panel = build.panels[static_cast<std::size_t>(face)]; face == Face::top && panel) {
    clear_bosses(build, *panel);
  }
}

}  // namespace fitup::plan
