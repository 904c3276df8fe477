// What of a joint's line nothing stands in front of, on either face.
// Entry: strips_behind.
#include "plan/plate/splice_strips.h"

#include <algorithm>
#include <string>

#include "plan/face_axes.h"

namespace fitup::plan::plate {

namespace {

constexpr double strip_width = 8;      // in thicknesses (common practice),
constexpr double least_strip_mm = 24;  // and at least so much
constexpr double least_length = 4;     // in thicknesses
constexpr double least_share = 0.5;    // of each span
constexpr double above_mm = 1;         // of it nothing stands nearer
constexpr double beside_bead_mm = 2;   // from a strip to what stands beside it, besides a bead

// "box.main" of "box.main.face.top".
std::string box_of(const std::string& key) { return key.substr(0, key.find('.', key.find('.') + 1)); }

std::vector<Stretch> without(const std::vector<Stretch>& free, const Stretch& taken) {
  std::vector<Stretch> out;
  for (const Stretch& s : free) {
    if (taken.from_mm > s.from_mm) out.push_back({s.from_mm, std::min(s.to_mm, taken.from_mm)});
    if (taken.to_mm < s.to_mm) out.push_back({std::max(s.from_mm, taken.to_mm), s.to_mm});
  }
  return out;
}

class Behind {
 public:
  Behind(const Draft& draft, const std::vector<std::vector<Box3>>& boxes, InstanceId id, const CutLine& line,
         bool above)
      : boxes_(boxes),
        id_(id),
        pose_(draft.instance(id).pose),
        t_(std::get<Flat>(draft.part(id).form).thickness_mm),
        line_(line) {
    strips_.above = above;
  }

  std::optional<Strips> run(const std::vector<Stretch>& spans) {
    for (const Stretch& span : spans) {
      if (!put_behind(span)) return std::nullopt;
    }
    return std::move(strips_);
  }

 private:
  // What a strip fills that stands free.
  [[nodiscard]] Box3 room(const Stretch& s, double beside_mm) const {
    const auto [low, high] = strip_corners(t_, line_, s);
    const double top = strips_.above ? 2 * t_ + above_mm : -t_ - above_mm;
    Box3 out;
    out.add(pose_.point({low.x - beside_mm, low.y - beside_mm, strips_.above ? t_ : 0}));
    out.add(pose_.point({high.x + beside_mm, high.y + beside_mm, top}));
    return out;
  }

  bool put_behind(const Stretch& span) {
    const double land = t_ + beside_bead_mm;
    std::vector<Stretch> free{{span.from_mm + land, span.to_mm - land}};
    if (free.front().length_mm() <= 0) return false;
    const Box3 wanted = room(free.front(), land);
    for (InstanceId other = 0; other < boxes_.size(); ++other) {
      if (other == id_) continue;
      for (const Box3& b : boxes_[other]) {
        if (meets(wanted, b, 0)) free = without(free, stretch_of(b, land));
      }
    }
    double covered = 0;
    for (const Stretch& s : free) {
      if (s.length_mm() < least_length * t_) continue;
      strips_.along.push_back(s);
      covered += s.length_mm();
    }
    return covered >= least_share * span.length_mm();
  }

  // What of the line something stands in front of.
  [[nodiscard]] Stretch stretch_of(const Box3& b, double beside_mm) const {
    const auto on_line = [&](Vec3 p) { return line_.upright ? pose_.local(p).y : -pose_.local(p).x; };
    const auto [from, to] = std::minmax({on_line(b.low), on_line(b.high)});
    return {from - beside_mm, to + beside_mm};
  }

  const std::vector<std::vector<Box3>>& boxes_;
  InstanceId id_;
  Pose pose_;
  double t_;
  CutLine line_;
  Strips strips_;
};

// Whether the face at z = thickness is the one towards the middle of its box.
bool looks_in(const Draft& draft, const std::vector<std::vector<Box3>>& boxes, InstanceId id) {
  const std::string box = box_of(draft.instance(id).key);
  Box3 shell;
  for (const SetUp& set : draft.set_up) {
    if (box_of(draft.instance(set.part).key) != box) continue;
    for (const Box3& b : boxes[set.part]) shell.add(b);
  }
  const Pose& pose = draft.instance(id).pose;
  return dot(pose.z(), shell.middle() - pose.origin()) > 0;
}

}  // namespace

std::optional<Strips> strips_behind(const Draft& draft, const std::vector<std::vector<Box3>>& boxes, InstanceId id,
                                    const CutLine& line, const std::vector<Stretch>& spans) {
  const bool inward = looks_in(draft, boxes, id);
  for (const bool above : {inward, !inward}) {
    if (auto strips = Behind(draft, boxes, id, line, above).run(spans)) return strips;
  }
  return std::nullopt;
}

std::pair<Vec2, Vec2> strip_corners(double thickness_mm, const CutLine& line, const Stretch& strip) {
  const double half = std::max(strip_width * thickness_mm, least_strip_mm) / 2;
  if (line.upright) return {{line.at - half, strip.from_mm}, {line.at + half, strip.to_mm}};
  return {{-strip.to_mm, line.at - half}, {-strip.from_mm, line.at + half}};
}

std::vector<Box3> boxes_of(const Part& part, const Pose& pose) {
  std::vector<Box3> out;
  for (Prism prism : body_of(part).outer) {
    prism.pose = pose * prism.pose;
    out.push_back(prism.bounds());
  }
  return out;
}

bool meets(const Box3& a, const Box3& b, double by_mm) {
  for (int axis = 0; axis < 3; ++axis) {
    if (along(a.low, axis) >= along(b.high, axis) + by_mm || along(a.high, axis) <= along(b.low, axis) - by_mm)
      return false;
  }
  return true;
}

}  // namespace fitup::plan::plate
