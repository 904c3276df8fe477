// Flat parts fitted into each other: who yields at each seam, and what both are cut to there.
// Entry: add_panels.
#include "plan/plate/panels.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "diag/catalogue.h"
#include "fitup/tolerances.h"
#include "plan/face_axes.h"
#include "plan/size_words.h"
#include "plan/support.h"

namespace fitup::plan::plate {

namespace {

bool near(double a, double b) { return std::abs(a - b) <= tolerance::contact_mm; }

std::optional<Box3> overlap(const Box3& a, const Box3& b) {
  const Box3 both{{std::max(a.low.x, b.low.x), std::max(a.low.y, b.low.y), std::max(a.low.z, b.low.z)},
                  {std::min(a.high.x, b.high.x), std::min(a.high.y, b.high.y), std::min(a.high.z, b.high.z)}};
  const Vec3 size = both.size();
  if (std::min({size.x, size.y, size.z}) <= tolerance::contact_mm) return std::nullopt;
  return both;
}

// Where a panel's outline meets the other: at its low or its high end along an axis, or somewhere between.
enum class At { low_end, high_end, between };

At end_at(const Box3& box, const Box3& part, int axis) {
  if (near(along(part.low, axis), along(box.low, axis))) return At::low_end;
  return near(along(part.high, axis), along(box.high, axis)) ? At::high_end : At::between;
}

// Of a box that is not the first, instances carry its name before their own.
TabsAside set_aside(const std::map<std::string, TabsAside>& one_way, const std::string& instance) {
  for (const auto& [name, aside] : one_way) {
    if (name == instance || name.ends_with(" " + instance)) return aside;
  }
  return {};
}

struct Seam {
  std::size_t host;
  std::size_t guest;
  Box3 shared;
  int run;  // axis along which the seam runs
  At guest_end;
};

class Fitting {
 public:
  Fitting(Build& build, std::vector<Panel> panels, const TabRule& rule)
      : build_(build), panels_(std::move(panels)), rule_(rule), slots_(panels_.size()) {
    for (Panel& panel : panels_) {
      own_edges_.push_back(std::exchange(panel.edges, {}));
      one_way_.push_back(set_aside(build.one_way, panel.instance));
    }
  }

  std::optional<std::vector<InstanceId>> run() {
    for (std::size_t i = 0; i < panels_.size(); ++i) {
      for (std::size_t j = i + 1; j < panels_.size(); ++j) meet(i, j);
    }
    for (std::size_t i = 0; i < panels_.size(); ++i) {
      if (!add(i)) return std::nullopt;
    }
    set_up();
    for (const Weld& w : welds_) weld(w);
    return ids_;
  }

 private:
  [[nodiscard]] const CutRules& rules() const { return build_.spec.cutter.rules; }

  struct Weld {
    std::size_t a;
    std::size_t b;
    Vec3 normal;
  };

  // A tray's edges are one part: it is welded once to what lies along two of them.
  void weld(const Weld& w) {
    const InstanceId a = ids_[w.a];
    const InstanceId b = ids_[w.b];
    const auto& joints = build_.draft.joints();
    const bool known = std::any_of(joints.begin(), joints.end(), [&](const Joint& j) {
      return j.a == a && j.b == b && j.kind == JointKind::weld && norm(j.normal - w.normal) < tolerance::direction;
    });
    if (!known) build_.draft.join(a, b, JointKind::weld, w.normal);
  }

  void meet(std::size_t i, std::size_t j) {
    const auto shared = overlap(panels_[i].box, panels_[j].box);
    if (!shared) {
      if (const auto way = direction_to(panels_[j].box, panels_[i].box)) welds_.push_back({j, i, *way});
      return;
    }
    if (panels_[i].square == panels_[j].square) return;
    const int run = 3 - panels_[i].square - panels_[j].square;
    const At later = end_at(panels_[j].box, *shared, panels_[i].square);
    if (later != At::between) return join({i, j, *shared, run, later});
    const At earlier = end_at(panels_[i].box, *shared, panels_[j].square);
    if (earlier != At::between) return join({j, i, *shared, run, earlier});
    cross(i, j, *shared, run);
  }

  // What of the seam no third plate stands in.
  [[nodiscard]] Stretch free_of_others(const Seam& seam) const {
    Stretch free{along(seam.shared.low, seam.run), along(seam.shared.high, seam.run)};
    for (std::size_t k = 0; k < panels_.size(); ++k) {
      if (k == seam.host || k == seam.guest) continue;
      const auto taken = overlap(seam.shared, panels_[k].box);
      if (!taken) continue;
      const double from = along(taken->low, seam.run);
      const double to = along(taken->high, seam.run);
      if (from - free.from_mm < free.to_mm - to) {
        free.from_mm = std::max(free.from_mm, to);
      } else {
        free.to_mm = std::min(free.to_mm, from);
      }
    }
    return free;
  }

  // Side of a panel's outline at an end of one axis of its plane.
  [[nodiscard]] static Side4 side(const Panel& panel, int axis, At end) {
    if (axis == panel.plane()[0]) return end == At::low_end ? left_side : right_side;
    return end == At::low_end ? bottom_side : top_side;
  }

  void join(const Seam& seam) {
    Panel& host = panels_[seam.host];
    Panel& guest = panels_[seam.guest];
    const double through = host.thickness_mm();
    auto& edge = guest.edges[side(guest, host.square, seam.guest_end)];
    const double guest_low = along(guest.box.low, seam.run);
    edge.push_back(
        {{along(seam.shared.low, seam.run) - guest_low, along(seam.shared.high, seam.run) - guest_low}, -through});
    welds_.push_back({seam.guest, seam.host, unit(host.square, seam.guest_end == At::low_end ? low : high)});
    const At host_end = end_at(host.box, seam.shared, guest.square);
    // Covers lie on the front and the back.
    const double most = host.square == 1 ? 0 : rule_.out_mm;
    const double out = host_end == At::between ? std::min(rule_.out_mm, most) : 0;
    Stretch free = free_of_others(seam);
    if (seam.run == 2) free.to_mm = std::min(free.to_mm, free.from_mm + guest.tabs_below_mm);
    const int of_guest = aside(seam.guest, seam);
    const auto tabs = tabs_in(free, host, guest, of_guest != 0 ? of_guest : aside(seam.host, seam));
    for (const Stretch& tab : tabs) {
      const Stretch there{free.from_mm + tab.from_mm, free.from_mm + tab.to_mm};
      edge.push_back({{there.from_mm - guest_low, there.to_mm - guest_low}, out});
      let_through(seam, there, host_end);
    }
  }

  // Which way a panel wants the tabs of one of its seams set aside.
  [[nodiscard]] int aside(std::size_t panel, const Seam& seam) const {
    const auto run = static_cast<std::size_t>(seam.run);
    const TabsAside& wanted = one_way_[panel];
    if (wanted.way[run] != 0) return wanted.way[run];
    const int across = 3 - panels_[panel].square - seam.run;
    const bool is_high = along(seam.shared.middle(), across) > along(panels_[panel].box.middle(), across);
    return is_high ? wanted.twist[run] : -wanted.twist[run];
  }

  /// With so much beside the slots that the cutter does not ask; where there is no room for that, as little as it cuts.
  [[nodiscard]] std::vector<Stretch> tabs_in(const Stretch& free, const Panel& host, const Panel& guest,
                                             int aside) const {
    const double t = host.thickness_mm();
    const JointFit fit = joint_fit(guest.thickness_mm(), rule_.steel, rules().tolerance);
    const double wider = fit.longer_mm() / 2 + relief_mm(t, rules().inner_radius_mm);
    for (const double web : {std::max(rules().smallest_web, rules().asked_below), rules().smallest_web}) {
      auto tabs = tabs_along(free.length_mm(), guest.thickness_mm(), aside, web * t + wider);
      if (!tabs.empty()) return tabs;
    }
    return {};
  }

  void let_through(const Seam& seam, const Stretch& tab, At host_end) {
    Panel& host = panels_[seam.host];
    const Panel& guest = panels_[seam.guest];
    const JointFit fit = joint_fit(guest.thickness_mm(), rule_.steel, rules().tolerance);
    const double host_low = along(host.box.low, seam.run);
    const Stretch slot{tab.from_mm - host_low - fit.longer_mm() / 2, tab.to_mm - host_low + fit.longer_mm() / 2};
    if (host_end != At::between) {
      const double depth = fit.thickness_mm + (fit.slot_mm() - fit.thickness_mm) / 2;
      host.edges[side(host, guest.square, host_end)].push_back({slot, -depth});
      return;
    }
    const double middle = along(seam.shared.middle(), guest.square) - along(host.box.low, guest.square);
    const Stretch across{middle - fit.slot_mm() / 2, middle + fit.slot_mm() / 2};
    const bool first = seam.run == host.plane()[0];
    const Stretch& u = first ? slot : across;
    const Stretch& v = first ? across : slot;
    slots_[seam.host].push_back(closed_slot({u.from_mm, v.from_mm}, {u.to_mm, v.to_mm}, relief_mm(host.thickness_mm()),
                                            rules().inner_radius_mm));
  }

  // The earlier one is slotted from its high side, the later one from its low side.
  void cross(std::size_t i, std::size_t j, const Box3& shared, int run) {
    const double height = along(shared.size(), run);
    const auto slot = [&](Panel& own, const Panel& other, At end) {
      const JointFit fit = joint_fit(other.thickness_mm(), rule_.steel, rules().tolerance);
      const HalfLap lap = half_lap(height, fit);
      const double middle = along(shared.middle(), other.square) - along(own.box.low, other.square);
      own.edges[side(own, run, end)].push_back({{middle - lap.slot_mm / 2, middle + lap.slot_mm / 2}, -lap.depth_mm});
    };
    slot(panels_[i], panels_[j], At::high_end);
    slot(panels_[j], panels_[i], At::low_end);
    welds_.push_back({j, i, unit(panels_[i].square, low)});
  }

  bool add(std::size_t i) {
    const Panel& panel = panels_[i];
    if (panel.edge_of) {
      ids_.push_back(ids_[*panel.edge_of]);
      return true;
    }
    const InstanceId id = add_plate(build_, panel.part, panel.tray != nullptr ? panel.tray->base() : panel.box,
                                    unit(panel.square, high), panel.instance, panel.origin);
    Part& part = build_.draft.part(id);
    Flat& flat = std::get<Flat>(part.form);
    auto edges = panel.edges;
    for (std::size_t side = 0; side < edges.size(); ++side) {
      edges[side].insert(edges[side].end(), own_edges_[i][side].begin(), own_edges_[i][side].end());
    }
    flat.profile.outer =
        stepped_outline(flat.profile.bounds().size(), edges, relief_mm(panel.thickness_mm(), rules().inner_radius_mm));
    flat.profile.holes = panel.windows;
    flat.profile.holes.insert(flat.profile.holes.end(), slots_[i].begin(), slots_[i].end());
    part.size = flat_size_words(flat.profile.bounds().size(), flat.thickness_mm);
    if (panel.tray != nullptr) bend_up(build_, *panel.tray, id);
    ids_.push_back(id);
    const auto flaw = flaw_in(flat.profile);
    if (flaw) build_.diagnostics.add(diag::say<"panel-impossible">(panel.origin.place, panel.instance, *flaw));
    return !flaw;
  }

  void set_up() {
    std::vector<std::size_t> order(panels_.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return panels_[a].turn < panels_[b].turn; });
    for (const std::size_t i : order) {
      if (!panels_[i].edge_of) build_.draft.set_up.push_back({ids_[i], panels_[i].way});
    }
  }

  Build& build_;
  std::vector<Panel> panels_;
  TabRule rule_;
  std::vector<std::array<std::vector<Step>, 4>> own_edges_;  // index: panel; they hold over what the seams ask for
  std::vector<std::vector<Loop>> slots_;                     // index: panel
  std::vector<TabsAside> one_way_;                           // index: panel
  std::vector<Weld> welds_;
  std::vector<InstanceId> ids_;
};

}  // namespace

double Panel::thickness_mm() const { return along(box.size(), square); }

std::array<int, 2> Panel::plane() const { return {square == 0 ? 1 : 0, square == 2 ? 1 : 2}; }

std::optional<std::vector<InstanceId>> add_panels(Build& build, std::vector<Panel> panels, const TabRule& rule) {
  return Fitting(build, std::move(panels), rule).run();
}

}  // namespace fitup::plan::plate
