// Which instances are one part: by shape, by what is marked on it, and by what stands there.
// Entry: marked, kinds_of.
#include "plan/alike.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "plan/same_part.h"

namespace fitup::plan {

namespace {

Vec3 middle_of(const std::vector<Placed>& all) {
  Box3 box;
  for (const Placed& p : all) box.add(p.pose.origin());
  return all.empty() ? Vec3{} : box.middle();
}

std::vector<std::vector<Neighbour>> welded_to(const std::vector<Placed>& all, const std::vector<Joint>& joints) {
  std::vector<std::vector<Neighbour>> out(all.size());
  const auto add = [&](InstanceId to, InstanceId id, double gap_mm) {
    auto& there = out[to];
    const auto known = std::find_if(there.begin(), there.end(), [id](const Neighbour& n) { return n.id == id; });
    if (known != there.end()) return;
    if (takes_marks(all[to].part)) there.push_back({id, &all[id].part, all[id].pose, gap_mm});
  };
  for (const Joint& joint : joints) {
    if (joint.kind != JointKind::weld) continue;
    add(joint.a, joint.b, joint.largest_gap_mm);
    add(joint.b, joint.a, joint.largest_gap_mm);
  }
  return out;
}

bool goes_over(const Flat& flat, const Pose& pose, const std::vector<FaceGuest>& guests, Vec3 middle) {
  const auto upper =
      std::count_if(guests.begin(), guests.end(), [](const FaceGuest& g) { return g.upper && !g.by_hole; });
  const auto lower =
      std::count_if(guests.begin(), guests.end(), [](const FaceGuest& g) { return !g.upper && !g.by_hole; });
  if (upper != lower) return lower > upper;
  const Box2 b = flat.profile.bounds();
  const Vec3 at = pose.point({b.middle().x, b.middle().y, flat.thickness_mm / 2});
  return upper > 0 && dot(pose.z(), middle - at) < 0;
}

// What is up stays up.
void turn_over(MarkedPart& marked, Flat& flat) {
  auto turned = turned_over(flat, std::abs(marked.placed.pose.y().z) > 0.5);
  flat = std::move(turned.flat);
  marked.placed.pose = marked.placed.pose * turned.turn.inverse();
  const auto turn = [&](Vec2 p) {
    const Vec3 q = turned.turn.point({p.x, p.y, 0});
    return Vec2{q.x, q.y};
  };
  for (FaceGuest& guest : marked.guests) {
    for (FaceLine& line : guest.lines) line = {turn(line.from), turn(line.to)};
    guest.middle = turn(guest.middle);
  }
}

std::string of_point(Vec3 p) { return fmt::format("{:.3f} {:.3f} {:.3f}", p.x + 1e-7, p.y + 1e-7, p.z + 1e-7); }

using Links = std::vector<std::pair<InstanceId, InstanceId>>;  // studs: host, stud

Links studs_of(const std::vector<MarkedPart>& all, const std::vector<Joint>& joints) {
  Links out;
  for (const Joint& joint : joints) {
    if (joint.kind != JointKind::weld) continue;
    if (all[joint.a].placed.part.role == Role::stud) out.emplace_back(joint.b, joint.a);
    if (all[joint.b].placed.part.role == Role::stud) out.emplace_back(joint.a, joint.b);
  }
  return out;
}

/// Lower is better: up lies along the drawing's y, and what looks out of the box is the same face of all.
int unlikeness(const Pose& stands) {
  const std::array<Vec3, 6> own{stands.y(),          stands.x(), Vec3{} - stands.x(),
                                Vec3{} - stands.y(), stands.z(), Vec3{} - stands.z()};
  for (std::size_t i = 0; i < own.size(); ++i) {
    if (own[i].z > 0.5) return static_cast<int>(i);
  }
  return static_cast<int>(own.size());
}

class Sorting {
 public:
  Sorting(const std::vector<MarkedPart>& all, const std::vector<Joint>& joints, const std::vector<std::string>& further)
      : all_(all), studs_(all.size()), kinds_(all.size()) {
    for (const auto& [host, stud] : studs_of(all, joints)) studs_[host].push_back(stud);
    for (std::size_t i = 0; i < all.size(); ++i) {
      attitudes_.push_back(attitude_of(all[i].placed.part));
      attitudes_.back().key += further[i];
      if (attitudes_.back().turns.empty()) attitudes_.back().turns.push_back(attitudes_.back().to_common);
    }
  }

  // Parts of one shape on which different kinds stand are two, which may tell apart what these stand on.
  std::vector<PartKind> run() {
    std::size_t before = 0;
    for (std::size_t count = sort(true); count > before; count = sort(false)) before = count;
    return kinds_;
  }

 private:
  [[nodiscard]] std::string standing_there(std::size_t i, const Pose& turn, bool shapes_alone) const {
    std::vector<std::string> there;
    const Placed& placed = all_[i].placed;
    for (const InstanceId stud : studs_[i]) {
      const Placed& s = all_[stud].placed;
      there.push_back(s.part.mark + " " + of_point(turn.point(placed.pose.local(s.pose.origin()))));
    }
    for (const FaceGuest& guest : all_[i].guests) {
      if (shapes_alone) break;
      if (guest.by_hole) continue;
      const Vec3 at = turn.point({guest.middle.x, guest.middle.y, 0});
      there.push_back(fmt::format("{} {}", kinds_[guest.id].number, of_point({at.x, at.y, 0})));
    }
    std::sort(there.begin(), there.end());
    return there.empty() ? "" : fmt::format(" with {}", fmt::join(there, ", "));
  }

  std::size_t sort(bool shapes_alone) {
    std::map<std::string, std::size_t> known;
    std::vector<PartKind> kinds;
    for (std::size_t i = 0; i < all_.size(); ++i) {
      std::tuple<std::string, int, std::size_t> best;
      const auto& turns = attitudes_[i].turns;
      for (std::size_t t = 0; t < turns.size(); ++t) {
        std::tuple<std::string, int, std::size_t> here{standing_there(i, turns[t], shapes_alone),
                                                       unlikeness(all_[i].placed.pose * turns[t].inverse()), t};
        if (t == 0 || here < best) best = std::move(here);
      }
      const auto [it, added] = known.try_emplace(attitudes_[i].key + std::get<0>(best), known.size());
      kinds.push_back({it->second, turns[std::get<2>(best)]});
    }
    kinds_ = std::move(kinds);
    return known.size();
  }

  const std::vector<MarkedPart>& all_;
  std::vector<std::vector<InstanceId>> studs_;  // index: InstanceId
  std::vector<Attitude> attitudes_;
  std::vector<PartKind> kinds_;
};

}  // namespace

std::vector<MarkedPart> marked(std::vector<Placed> all, const std::vector<Joint>& joints,
                               const std::vector<MarkedPart>* like) {
  const Vec3 middle = middle_of(all);
  const auto neighbours = welded_to(all, joints);
  std::vector<MarkedPart> out;
  for (std::size_t i = 0; i < all.size(); ++i) {
    MarkedPart marked{all[i]};
    auto* flat = neighbours[i].empty() ? nullptr : std::get_if<Flat>(&marked.placed.part.form);
    if (flat != nullptr) {
      auto guests = guests_on(*flat, all[i].pose, neighbours[i]);
      marked.over = like != nullptr ? (*like)[i].over : goes_over(*flat, all[i].pose, guests, middle);
      for (FaceGuest& guest : guests) {
        if (guest.upper != marked.over) marked.guests.push_back(std::move(guest));
      }
      if (std::all_of(marked.guests.begin(), marked.guests.end(), [](const FaceGuest& g) { return g.by_hole; })) {
        marked.guests.clear();
      }
      if (marked.over) turn_over(marked, *flat);
      for (const FaceGuest& guest : marked.guests) {
        flat->marks.lines.insert(flat->marks.lines.end(), guest.lines.begin(), guest.lines.end());
      }
    }
    out.push_back(std::move(marked));
  }
  return out;
}

std::vector<PartKind> kinds_of(const std::vector<MarkedPart>& all, const std::vector<Joint>& joints,
                               const std::vector<std::string>& further) {
  return Sorting(all, joints, further).run();
}

}  // namespace fitup::plan
