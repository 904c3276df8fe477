// What of a box, or of one that is joined to it, hangs below its feet.
// Entry: check_standing.
#include "checks/standing.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "checks/order.h"
#include "fitup/tolerances.h"
#include "fitup/welded_sizes.h"

namespace fitup::checks {

namespace {

constexpr std::string_view feet_key = ".feet";

struct Hanging {
  InstanceId id = 0;
  double by_mm = 0;
};

class Standing {
 public:
  explicit Standing(const Plan& plan) : plan_(plan) {}

  std::vector<Finding> findings() {
    std::vector<Finding> found;
    for (const auto& [box, feet] : feet_of_boxes()) of_box(box, feet, found);
    return found;
  }

 private:
  [[nodiscard]] Role role(InstanceId id) const { return plan_.parts[plan_.instances[id].part].role; }
  [[nodiscard]] std::string label(InstanceId id) const {
    return plan_.parts[plan_.instances[id].part].mark + " " + plan_.instances[id].name;
  }

  // By the key of the box: "box.main".
  [[nodiscard]] std::map<std::string, std::vector<InstanceId>> feet_of_boxes() const {
    std::map<std::string, std::vector<InstanceId>> feet;
    for (InstanceId id = 0; id < plan_.instances.size(); ++id) {
      const std::string& key = plan_.instances[id].key;
      if (role(id) == Role::foot && key.ends_with(feet_key)) {
        feet[key.substr(0, key.size() - feet_key.size())].push_back(id);
      }
    }
    return feet;
  }

  [[nodiscard]] Box3 box_of(InstanceId id) const {
    Box3 box;
    for (Prism prism : body_of(plan_.parts[plan_.instances[id].part]).outer) {
      prism.pose = plan_.instances[id].pose * prism.pose;
      box.add(prism.bounds());
    }
    return box;
  }
  [[nodiscard]] double underside_mm(InstanceId id) const { return box_of(id).low.z; }

  [[nodiscard]] bool is_of_box(InstanceId id) const { return plan_.instances[id].key.starts_with("box."); }
  [[nodiscard]] bool is_line(InstanceId id) const { return role(id) == Role::gland || role(id) == Role::edge_strip; }
  [[nodiscard]] bool is_steel_of_box(InstanceId id) const { return is_of_box(id) && !is_line(id); }

  [[nodiscard]] bool are_plates(const std::vector<InstanceId>& feet) const {
    return std::holds_alternative<Flat>(plan_.parts[plan_.instances[feet.front()].part].form);
  }

  [[nodiscard]] double underside_of_frame_mm(const std::string& box) const {
    const auto frame = std::find_if(plan_.frames.begin(), plan_.frames.end(),
                                    [&](const PlacedFrame& f) { return "box." + f.box == box; });
    return frame == plan_.frames.end() ? 0 : frame->space.low.z;
  }

  // Of what reaches so far below the frame: lower than it is drawn; the frame itself is what the feet are welded to.
  [[nodiscard]] static double may_hang_mm(double below_frame_mm) {
    return below_frame_mm <= tolerance::contact_mm ? 0 : tables::welded_length_permits_mm(below_frame_mm);
  }

  void of_box(const std::string& box, const std::vector<InstanceId>& feet, std::vector<Finding>& found) const {
    double floor_mm = -1e300;
    for (const InstanceId foot : feet) floor_mm = std::max(floor_mm, underside_mm(foot));
    std::vector<Hanging> steel;
    std::vector<Hanging> lines;
    std::vector<Hanging> others;
    std::vector<Hanging> near;
    const double frame_mm = underside_of_frame_mm(box);
    for (InstanceId id = 0; id < plan_.instances.size(); ++id) {
      const bool own = plan_.instances[id].key.starts_with(box + ".");
      if (role(id) == Role::foot && own) continue;
      const double by = floor_mm - underside_mm(id);
      if (by <= tolerance::contact_mm) {
        const bool clear = -by >= may_hang_mm(frame_mm - underside_mm(id)) - tolerance::contact_mm;
        if (!clear && is_steel_of_box(id)) near.push_back({id, by});
        continue;
      }
      if (!own) {
        if (is_of_box(id)) others.push_back({id, by});
        continue;
      }
      (is_line(id) ? lines : steel).push_back({id, by});
    }
    if (!steel.empty()) found.push_back(on_steel(box, feet, std::move(steel)));
    if (!others.empty()) found.push_back(on_other(box, feet, std::move(others)));
    if (!lines.empty()) found.push_back(on_lines(box, feet, std::move(lines)));
    // Cleats lie level with what they stand beside.
    if (!near.empty() && steel.empty() && others.empty() && are_plates(feet))
      found.push_back(barely(box, feet, std::move(near), frame_mm));
    if (found.empty() || found.back().key != box + std::string(feet_key)) found.push_back(lowest(box, feet));
  }

  [[nodiscard]] Finding about(const std::string& box, const std::vector<InstanceId>& feet, Verdict verdict) const {
    Finding f;
    f.check = "standing";
    f.verdict = verdict;
    f.key = box + std::string(feet_key);
    f.place = plan_.instances[feet.front()].place;
    return f;
  }

  // The lowest first; a foot last, so that a picture shows both.
  [[nodiscard]] Finding below(const std::string& box, const std::vector<InstanceId>& feet, Verdict verdict,
                              std::vector<Hanging> hanging) const {
    Finding f = about(box, feet, verdict);
    std::stable_sort(hanging.begin(), hanging.end(),
                     [](const Hanging& a, const Hanging& b) { return a.by_mm > b.by_mm + tolerance::contact_mm; });
    f.value = hanging.front().by_mm;
    f.limit = 0;
    f.unit = "mm";
    f.parts = {label(hanging.front().id), label(feet.front())};
    // In the middle of its underside.
    const Box3 lowest = box_of(hanging.front().id);
    f.at = Vec3{lowest.middle().x, lowest.middle().y, lowest.low.z};
    for (auto i = hanging.begin() + 1; i != hanging.end(); ++i) f.parts.push_back(label(i->id));
    return f;
  }

  [[nodiscard]] Finding on_steel(const std::string& box, const std::vector<InstanceId>& feet,
                                 std::vector<Hanging> hanging) const {
    Finding f = below(box, feet, Verdict::fail, hanging);
    const auto lowest = std::max_element(hanging.begin(), hanging.end(),
                                         [](const Hanging& a, const Hanging& b) { return a.by_mm < b.by_mm; });
    const std::string& key = plan_.instances[lowest->id].key;
    const bool ring =
        std::any_of(hanging.begin(), hanging.end(), [&](const Hanging& h) { return role(h.id) == Role::landing; });
    f.message = fmt::format(
        "{} hangs {} mm below the feet, so that the box stands on it and not on them. {} by at least that, {}, or set "
        "the box on packing higher than that, which is not looked at here",
        f.parts.front(), length_text(*f.value),
        are_plates(feet) ? fmt::format("Make {}.thickness larger", f.key)
                         : fmt::format("Set {}.kind to plate and make it thicker", f.key),
        ring ? fmt::format("set {}.landing to inward", key) : fmt::format("change {}", key));
    return f;
  }

  [[nodiscard]] Finding on_other(const std::string& box, const std::vector<InstanceId>& feet,
                                 const std::vector<Hanging>& hanging) const {
    Finding f = below(box, feet, Verdict::fail, hanging);
    const auto lowest = std::max_element(hanging.begin(), hanging.end(),
                                         [](const Hanging& a, const Hanging& b) { return a.by_mm < b.by_mm; });
    const std::string& key = plan_.instances[lowest->id].key;
    const std::string other = key.substr(0, key.find('.', std::string_view("box.").size()));
    f.message = fmt::format(
        "{}, of another box, hangs {} mm below the feet, so that all stands on it and not on them. Put the feet under "
        "that box ({}.feet) and leave out {}, or set the feet on packing higher than that, which is not looked at here",
        f.parts.front(), length_text(*f.value), other, f.key);
    return f;
  }

  [[nodiscard]] Finding on_lines(const std::string& box, const std::vector<InstanceId>& feet,
                                 std::vector<Hanging> hanging) const {
    Finding f = below(box, feet, Verdict::marginal, std::move(hanging));
    f.message = fmt::format(
        "{} hangs {} mm below the feet, and what goes through it further: see that what the feet are bolted to leaves "
        "it room, make {}.thickness larger, or put it into another face",
        f.parts.front(), length_text(*f.value), f.key);
    return f;
  }

  // What is drawn clear of what the feet stand on, by less than the welded frame may be off.
  [[nodiscard]] Finding barely(const std::string& box, const std::vector<InstanceId>& feet,
                               std::vector<Hanging> hanging, double frame_mm) const {
    Finding f = below(box, feet, Verdict::marginal, hanging);
    const auto lowest = std::max_element(hanging.begin(), hanging.end(),
                                         [](const Hanging& a, const Hanging& b) { return a.by_mm < b.by_mm; });
    const double below_frame = frame_mm - underside_mm(lowest->id);
    f.value = std::max(0.0, -lowest->by_mm);
    f.limit = may_hang_mm(below_frame);
    f.source = "ISO 13920-B, of how far it reaches below the frame";
    f.message = fmt::format(
        "{} ends {} mm above what the feet stand on, {} mm below the frame, where a weldment may be {} mm off (ISO "
        "13920-B): set the box on packing as high at least as that, or make {}.thickness larger by {} mm",
        f.parts.front(), length_text(*f.value), length_text(below_frame), length_text(*f.limit), f.key,
        length_text(*f.limit - *f.value));
    return f;
  }

  [[nodiscard]] Finding lowest(const std::string& box, const std::vector<InstanceId>& feet) const {
    Finding f = about(box, feet, Verdict::pass);
    for (const InstanceId foot : feet) f.parts.push_back(label(foot));
    f.message = fmt::format("{} feet, nothing of their box hangs below them", feet.size());
    return f;
  }

  const Plan& plan_;
};

}  // namespace

std::vector<Finding> check_standing(const Plan& plan) { return Standing(plan).findings(); }

}  // namespace fitup::checks
