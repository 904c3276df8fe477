// Words on the faces of flat parts: what piece it is, which way it stands, what is welded where.
// Entry: name_faces.
#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include "fitup/plan.h"
#include "geometry/intersect.h"
#include "geometry/region.h"
#include "geometry/strokes.h"
#include "plan/face_marks.h"

namespace fitup {

namespace {

using geometry::Region;
using plan::FaceGuest;
using plan::Neighbour;

// Common practice of marking: tall enough to be read, and where there is no room for that, as small as a laser still
// draws legibly.
constexpr std::array<double, 3> heights_mm{6, 4, 2.5};
constexpr double clear_mm = 1;       // around words
constexpr double line_pitch = 1.5;   // from base line to base line, in heights
constexpr int grid = 24;             // places that are tried across a part
constexpr double beside_wall = 0.2;  // a plate this near to its side of the box, in sizes of the box, is its wall

bool boxes_meet(const Box2& a, const Box2& b) { return !geometry::apart(a, b, 0); }

bool enters(const geometry::Stretch& s, const Box2& box) {
  if (!boxes_meet(s.box, box)) return false;
  const auto within = [&](Vec2 p) {
    return p.x >= box.low.x && p.x <= box.high.x && p.y >= box.low.y && p.y <= box.high.y;
  };
  if (within(s.edge.from) || within(s.edge.to)) return true;
  const auto sides = Loop::rectangle(box.low, box.high).edges();
  return std::any_of(sides.begin(), sides.end(),
                     [&](const Edge& side) { return !geometry::common_points(s.edge, side).empty(); });
}

/// What of a face is still free.
class Room {
 public:
  explicit Room(const Flat& flat) : face_(flat.profile) {
    for (const FaceLine& line : flat.marks.lines) add(line);
    for (const Bend& bend : flat.bends) add({bend.from, bend.to});
    for (const DrilledHole& hole : flat.drilled) {
      const double r = hole.diameter_mm / 2;
      taken_.push_back({hole.at - Vec2{r, r}, hole.at + Vec2{r, r}});
    }
  }
  [[nodiscard]] const Box2& bounds() const { return face_.bounds(); }

  [[nodiscard]] bool take(const Box2& words) {
    const Box2 box{words.low - Vec2{clear_mm, clear_mm}, words.high + Vec2{clear_mm, clear_mm}};
    const auto meets = [&box](const geometry::Stretch& s) { return enters(s, box); };
    const Box2& all = face_.bounds();
    const bool within =
        box.low.x > all.low.x && box.high.x < all.high.x && box.low.y > all.low.y && box.high.y < all.high.y;
    if (!within) return false;
    if (std::any_of(taken_.begin(), taken_.end(), [&](const Box2& t) { return boxes_meet(t, box); })) return false;
    if (std::any_of(lines_.begin(), lines_.end(), meets)) return false;
    if (std::any_of(face_.outline().begin(), face_.outline().end(), meets)) return false;
    if (!face_.contains(box.middle())) return false;
    taken_.push_back(words);
    return true;
  }

 private:
  void add(const FaceLine& line) { lines_.push_back(geometry::stretch_of({line.from, line.to, 0})); }

  Region face_;
  std::vector<geometry::Stretch> lines_;
  std::vector<Box2> taken_;
};

/// Lines of words, one below the other.
using Block = std::vector<std::string>;

Vec2 size_of(const Block& block, double height_mm) {
  double width = 0;
  for (const std::string& line : block) width = std::max(width, geometry::strokes_width_mm(line, height_mm));
  return {width, height_mm * (1 + line_pitch * static_cast<double>(block.size() - 1))};
}

void write(FaceMarks& marks, const Block& block, Vec2 low, double height_mm) {
  const auto lines = block.size();
  for (std::size_t i = 0; i < lines; ++i) {
    const double up = height_mm * line_pitch * static_cast<double>(lines - 1 - i);
    marks.words.push_back({low + Vec2{0, up}, height_mm, block[i]});
  }
}

/// At the first of the places, by their middles, where it has room.
bool put(FaceMarks& marks, Room& room, const Block& block, double height_mm, const std::vector<Vec2>& middles) {
  const Vec2 size = size_of(block, height_mm);
  for (const Vec2 middle : middles) {
    const Vec2 low = middle - 0.5 * size;
    if (!room.take({low, low + size})) continue;
    write(marks, block, low, height_mm);
    return true;
  }
  return false;
}

/// All over the face, those nearest to a point first.
std::vector<Vec2> places_near(const Box2& bounds, Vec2 point) {
  std::vector<Vec2> out{point};
  for (int i = 1; i < grid; ++i) {
    for (int k = 1; k < grid; ++k) {
      const Vec2 share{static_cast<double>(i) / grid, static_cast<double>(k) / grid};
      out.push_back(bounds.low + Vec2{share.x * bounds.size().x, share.y * bounds.size().y});
    }
  }
  std::stable_sort(out.begin(), out.end(), [&](Vec2 a, Vec2 b) { return norm(a - point) < norm(b - point) - 1e-6; });
  return out;
}

/// Within a neighbour's outline, then beside its lines at either hand.
std::vector<Vec2> places_at(const FaceGuest& guest, Vec2 size) {
  std::vector<Vec2> out{guest.middle};
  for (const FaceLine& line : guest.lines) {
    const Vec2 way = line.to - line.from;
    const double length = norm(way);
    if (length <= 0) continue;
    const Vec2 beside{-way.y / length, way.x / length};
    const double off = 0.5 * (std::abs(beside.x) * size.x + std::abs(beside.y) * size.y) + 2 * clear_mm;
    for (const double share : {0.5, 0.25, 0.75, 0.1, 0.9}) {
      for (const double hand : {1.0, -1.0}) out.push_back(line.from + share * way + hand * off * beside);
    }
  }
  return out;
}

const Box3& box_of(const Plan& plan, Vec3 point) {
  const auto nearer = [point](const PlacedFrame& a, const PlacedFrame& b) {
    return norm(a.space.middle() - point) < norm(b.space.middle() - point);
  };
  return std::min_element(plan.frames.begin(), plan.frames.end(), nearer)->space;
}

// Where a direction of the box points on the drawing; none where it is not in the face.
std::optional<char> arrow(const Pose& stands, Vec3 way) {
  const std::array<std::pair<Vec3, char>, 4> signs{
      {{stands.y(), '^'}, {Vec3{} - stands.y(), '!'}, {stands.x(), '>'}, {Vec3{} - stands.x(), '<'}}};
  for (const auto& [own, sign] : signs) {
    if (dot(own, way) > 0.9) return sign;
  }
  return std::nullopt;
}

/// "^UP", and where the face lies "^FRONT"; and to where the face looks: "OUT", "IN", "TOP".
std::set<std::string> ways_of(const Plan& plan, const Flat& flat, const Pose& stands) {
  const bool lies = std::abs(stands.z().z) > 0.9;
  std::set<std::string> out;
  if (const auto sign = arrow(stands, lies ? axis::minus_y : axis::z)) {
    out.insert(std::string(1, *sign) + (lies ? "FRONT" : "UP"));
  }
  const Vec2 middle = flat.profile.bounds().middle();
  const Vec3 at = stands.point({middle.x, middle.y, flat.thickness_mm});
  const Box3& box = box_of(plan, at);
  const double size = std::abs(dot(box.size(), stands.z()));
  const double beyond = dot(at - box.middle(), stands.z());
  if (lies) {
    out.insert(stands.z().z > 0 ? "TOP" : "UNDERSIDE");
  } else if (std::abs(std::abs(beyond) - size / 2) < beside_wall * size) {
    out.insert(beyond > 0 ? "OUT" : "IN");
  } else {
    const Vec3 z = stands.z();
    out.insert(z.x > 0.9 ? "TO RIGHT" : z.x < -0.9 ? "TO LEFT" : z.y > 0.9 ? "TO BACK" : "TO FRONT");
  }
  return out;
}

class Naming {
 public:
  explicit Naming(Plan& plan) : plan_(plan), stand_(plan.parts.size()) {
    for (InstanceId id = 0; id < plan.instances.size(); ++id) stand_[plan.instances[id].part].push_back(id);
  }

  void run() {
    collect_neighbours();
    for (PartId id = 0; id < plan_.parts.size(); ++id) {
      if (plan::takes_marks(plan_.parts[id]) && !stand_[id].empty()) name(id);
    }
  }

 private:
  // Of the first instance of each part: the others are like it.
  void collect_neighbours() {
    neighbours_.resize(plan_.parts.size());
    for (const Joint& joint : plan_.joints) {
      if (joint.kind != JointKind::weld) continue;
      for (const auto& [own, other] : {std::pair(joint.a, joint.b), std::pair(joint.b, joint.a)}) {
        const PartId part = plan_.instances[own].part;
        auto& there = neighbours_[part];
        const bool known =
            std::any_of(there.begin(), there.end(), [o = other](const Neighbour& n) { return n.id == o; });
        if (stand_[part].front() != own || known || !plan::takes_marks(plan_.parts[part])) continue;
        const Instance& instance = plan_.instances[other];
        there.push_back({other, &plan_.parts[instance.part], instance.pose, joint.largest_gap_mm});
      }
    }
  }

  // What is so in all places where the part stands.
  [[nodiscard]] Block own_words(PartId id, const Flat& flat) const {
    std::set<std::string> ways = ways_of(plan_, flat, plan_.instances[stand_[id].front()].pose);
    for (const InstanceId other : stand_[id]) {
      const auto here = ways_of(plan_, flat, plan_.instances[other].pose);
      std::erase_if(ways, [&](const std::string& way) { return !here.contains(way); });
    }
    Block block{plan_.parts[id].mark};
    block.insert(block.end(), ways.begin(), ways.end());
    return block;
  }

  void name(PartId id) {
    Flat& flat = std::get<Flat>(plan_.parts[id].form);
    flat.marks.words.clear();
    Room room(flat);
    for (const FaceGuest& guest : plan::guests_on(flat, plan_.instances[stand_[id].front()].pose, neighbours_[id])) {
      if (!guest.upper || guest.by_hole) continue;
      const Block word{of(guest.id)};
      for (const double height : heights_mm) {
        if (put(flat.marks, room, word, height, places_at(guest, size_of(word, height)))) break;
      }
    }
    const Block all = own_words(id, flat);
    const auto everywhere = places_near(room.bounds(), room.bounds().middle());
    for (const double height : heights_mm) {
      if (put(flat.marks, room, all, height, everywhere)) return;
    }
    Block in_a_row{fmt_joined(all)};
    for (const Block& block : {in_a_row, Block{all.front()}}) {
      for (const double height : heights_mm) {
        if (put(flat.marks, room, block, height, everywhere)) return;
      }
    }
  }

  [[nodiscard]] static std::string fmt_joined(const Block& block) {
    std::string out;
    for (const std::string& line : block) out += (out.empty() ? "" : " ") + line;
    return out;
  }

  [[nodiscard]] const std::string& of(InstanceId id) const { return plan_.parts[plan_.instances[id].part].mark; }

  Plan& plan_;
  std::vector<std::vector<InstanceId>> stand_;      // index: PartId
  std::vector<std::vector<Neighbour>> neighbours_;  // index: PartId
};

}  // namespace

void name_faces(Plan& plan) {
  if (!plan.frames.empty()) Naming(plan).run();
}

}  // namespace fitup
