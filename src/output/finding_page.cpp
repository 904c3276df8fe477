// A finding's picture: heading, the near and the wider cut, the whole, and which part is which.
// Entry: finding_page.
#include "output/finding_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "output/findings_files.h"
#include "output/panel.h"
#include "output/sight.h"
#include "output/svg.h"
#include "output/text.h"
#include "output/units.h"

namespace fitup::output {
namespace {

constexpr double margin = 30;
constexpr double gap = 40;
constexpr double page_width = 2 * margin + 2 * panel_width + gap;
constexpr double line_height = 18;
constexpr double words_width = panel_width - 42;  // of the legend, beside its swatches
constexpr Vec3 front_left_above{-1, -1.6, 1.1};

/// Colour and hatch say the same: A hatched upwards, B downwards, the rest plain.
constexpr const char* defs = R"(<defs>
<pattern id="a" width="8" height="8" patternUnits="userSpaceOnUse"><path d="M-2 2L2 -2M0 8L8 0M6 10L10 6" stroke="#1f5f99" stroke-width="1.4"/></pattern>
<pattern id="b" width="8" height="8" patternUnits="userSpaceOnUse"><path d="M-2 6L2 10M0 0L8 8M6 -2L10 2" stroke="#b35900" stroke-width="1.4"/></pattern>
</defs>
)";
constexpr const char* style_rest = "fill=\"#e9e9e9\" stroke=\"#777\" stroke-width=\"0.8\"";
constexpr const char* style_a = "fill=\"#cfe3f5\" stroke=\"#1f5f99\" stroke-width=\"1.6\" fill-opacity=\"0.75\"";
constexpr const char* style_b = "fill=\"#fbe0c2\" stroke=\"#b35900\" stroke-width=\"1.6\" fill-opacity=\"0.75\"";
constexpr const char* style_others = "fill=\"#f4ead9\" stroke=\"#b35900\" stroke-width=\"0.8\"";
constexpr const char* style_zone = "fill=\"none\" stroke=\"#a00\" stroke-width=\"1.2\" stroke-dasharray=\"6 4\"";
constexpr const char* style_amount = "fill=\"none\" stroke=\"#c00\" stroke-width=\"1.4\"";

std::string_view seen_from(const Look& look) {
  return look.axis == 0 ? "from the right" : look.axis == 1 ? "from the front" : "from above";
}

class Page {
 public:
  Page(const Finding& finding, const std::optional<FindingScene>& scene, const PlacedPlan& placed, const JobInfo& info)
      : finding_(finding), scene_(scene), placed_(placed), info_(info), units_(info.units) {}

  std::string document() {
    std::string out = heading();
    const double first = top_ + 26;
    const double second = scene_ ? first + panel_height + 72 : first;
    if (scene_) {
      out += near_cut({margin, first}) + wider_cut({margin + panel_width + gap, first});
    }
    out += whole({margin, second}) + legend({margin + panel_width + gap, second});
    const double height = second + panel_height + 40;
    return fmt::format(
               "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0} {1}\" width=\"{0}\" height=\"{1}\">\n",
               number(page_width), number(height)) +
           fmt::format("<title>{}</title>\n", xml_text(title())) + defs +
           "<rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n<g font-family=\"sans-serif\">\n" + out +
           "</g>\n</svg>\n";
  }

 private:
  [[nodiscard]] std::string title() const { return fmt::format("{}: {}", to_text(finding_.verdict), finding_.check); }

  std::string heading() {
    std::string out = svg::text({margin, margin + 14}, 20, title());
    top_ = margin + 34;
    const auto say = [&](std::string_view words) {
      for (const std::string& line : svg::wrapped(words, 14, page_width - 2 * margin)) {
        out += svg::text({margin, top_}, 14, line);
        top_ += line_height;
      }
    };
    say(units_.sentence(finding_.message));
    if (finding_.remedy) say("To mend: " + remedy_text(*finding_.remedy));
    for (const std::string& line : job_lines()) {
      out += svg::text({margin, top_ + 2}, 12, line);
      top_ += line_height;
    }
    return out;
  }

  /// In one line; where the title is too long for that, the revision stands in a line of its own, undivided.
  [[nodiscard]] std::vector<std::string> job_lines() const {
    constexpr double size = 12;
    const std::string title = fmt::format("{}, {}", info_.title.empty() ? info_.name : info_.title, info_.name);
    const std::string edition = fmt::format("revision {}, spec {}", info_.revision, short_hash(info_.spec_hash));
    auto lines = svg::wrapped(title + ", " + edition, size, page_width - 2 * margin);
    if (lines.size() == 1) return lines;
    lines = svg::wrapped(title, size, page_width - 2 * margin);
    lines.push_back(edition);
    return lines;
  }

  // --- cuts

  void draw_cut(Panel& panel) const {
    const FindingScene& s = *scene_;
    const double at = s.look.along(s.at);
    for (InstanceId id = 0; id < placed_.plan().instances.size(); ++id) {
      if (id == s.a || id == s.b || stand_apart(s.look.on_paper(placed_.box(id)), panel.window())) continue;
      const bool other = std::find(s.others.begin(), s.others.end(), id) != s.others.end();
      panel.add(cut(placed_.body(id), s.look, at), other ? style_others : style_rest);
    }
    const std::vector<Outline> b = s.b ? drawn(placed_.body(*s.b)) : std::vector<Outline>{};
    const std::vector<Outline> a = drawn(moved(placed_.body(s.a), s.a_moved));
    panel.add(b, style_b);
    panel.add(b, "fill=\"url(#b)\"");
    panel.add(a, style_a);
    panel.add(a, "fill=\"url(#a)\"");
    for (const Zone& zone : placed_.plan().zones) {
      if (!checks::apart(zone.box, {s.at, s.at}, 1))
        panel.add(shape(checks::body_of_box(zone.box), s.look), style_zone);
    }
    letter(panel, a, "A");
    letter(panel, b, "B");
  }

  /// Cut through the place; what the plane misses, by its shape.
  [[nodiscard]] std::vector<Outline> drawn(const checks::PlacedBody& body) const {
    auto outlines = cut(body, scene_->look, scene_->look.along(scene_->at));
    return outlines.empty() ? shape(body, scene_->look) : outlines;
  }

  /// Inside the part, in the window, as far from the place as there is room.
  void letter(Panel& panel, const std::vector<Outline>& outlines, std::string_view name) const {
    if (outlines.empty()) return;
    const Box2& w = panel.window();
    const Vec2 place = scene_->look.on_paper(scene_->at);
    constexpr int steps = 24;
    std::optional<Vec2> best;
    double best_depth = -1;
    for (int i = 1; i < steps; ++i) {
      for (int k = 1; k < steps; ++k) {
        const Vec2 p{w.low.x + w.size().x * i / steps, w.low.y + w.size().y * k / steps};
        if (!contains(outlines, p)) continue;
        const double edge = std::min({p.x - w.low.x, w.high.x - p.x, p.y - w.low.y, w.high.y - p.y});
        const double depth = std::min(norm(p - place) * 0.7, 2.5 * edge);
        if (depth <= best_depth) continue;
        best = p;
        best_depth = depth;
      }
    }
    if (best) panel.above(badge(panel.on_page(*best), name));
  }

  [[nodiscard]] static std::string badge(Vec2 at, std::string_view name) {
    return fmt::format("<circle cx=\"{}\" cy=\"{}\" r=\"11\" fill=\"white\" stroke=\"#222\" stroke-width=\"1\"/>\n",
                       number(at.x, 2), number(at.y, 2)) +
           svg::text(at + Vec2{0, 5}, 14, name, svg::Anchor::middle);
  }

  [[nodiscard]] std::string cut_title(std::string_view what) const {
    const Look& look = scene_->look;
    return fmt::format("{}, cut at {} {} {}, seen {}", what,
                       std::array{"X", "Y", "Z"}.at(static_cast<std::size_t>(look.axis)),
                       units_.length(look.along(scene_->at)), units_.length(), seen_from(look));
  }

  std::string near_cut(Vec2 corner) const {
    const Vec2 place = scene_->look.on_paper(scene_->at);
    const Vec2 half{scene_->near_mm, scene_->near_mm};
    Panel panel(corner, {place - half, place + half}, "near");
    draw_cut(panel);
    amount(panel);
    if (scene_->hole_mm > 0) {
      panel.above(label(corner + Vec2{14, 26}, fmt::format("hole {}, in it {} {}", units_.length(scene_->hole_mm),
                                                           units_.length(scene_->fastener_mm), units_.length())));
    } else if (!scene_->amount) {
      panel.above(mark(panel.on_page(place)));
    }
    way(panel);
    return panel.svg(cut_title("The place"), units_);
  }

  std::string wider_cut(Vec2 corner) const {
    Box2 around = scene_->around;
    const Vec2 room = 0.08 * around.size() + Vec2{5, 5};
    around = {around.low - room, around.high + room};
    Panel panel(corner, around, "around");
    draw_cut(panel);
    panel.above(mark(panel.on_page(scene_->look.on_paper(scene_->at))));
    way(panel);
    return panel.svg(cut_title("Around it"), units_);
  }

  /// What was measured, between the two faces that it was measured from.
  void amount(Panel& panel) const {
    const FindingScene& s = *scene_;
    if (!s.amount) return;
    const auto at = [&](double mm) {
      std::array<double, 3> c{s.at.x, s.at.y, s.at.z};
      c[static_cast<std::size_t>(s.across)] = mm;
      return panel.on_page(s.look.on_paper(Vec3{c[0], c[1], c[2]}));
    };
    const Vec2 low = at(s.amount->low);
    const Vec2 high = at(s.amount->high);
    const Vec2 ahead = (1 / std::max(norm(high - low), 1e-9)) * (high - low);
    const Vec2 aside{-ahead.y, ahead.x};
    for (const Vec2 p : {low, high}) panel.above(stroke(p - 34.0 * aside, p + 34.0 * aside, style_amount));
    panel.above(arrow(low - 40.0 * ahead, low, style_amount) + arrow(high + 40.0 * ahead, high, style_amount));
    panel.above(stroke(low, high, style_amount));
    const bool level = std::abs(ahead.x) > 0.5;
    const Vec2 words = high + 48.0 * ahead + (level ? Vec2{0, 5} : Vec2{10, 0});
    panel.above(label(words, units_.measure(std::abs(*finding_.value), finding_.unit)));
  }

  [[nodiscard]] static std::string label(Vec2 at, std::string_view words) {
    return fmt::format("<rect x=\"{}\" y=\"{}\" width=\"{}\" height=\"20\" fill=\"white\" fill-opacity=\"0.85\"/>\n",
                       number(at.x - 3, 2), number(at.y - 15, 2), number(9.2 * static_cast<double>(words.size()) + 6)) +
           fmt::format("<text x=\"{}\" y=\"{}\" font-size=\"16\" font-weight=\"bold\" fill=\"#c00\">{}</text>\n",
                       number(at.x, 2), number(at.y, 2), xml_text(words));
  }

  /// Along which the part comes, where that lies in the paper.
  void way(Panel& panel) const {
    if (!scene_->way) return;
    const Vec2 run = scene_->look.on_paper(*scene_->way);
    if (norm(run) < 0.5) return;
    const Vec2 place = panel.on_page(scene_->look.on_paper(scene_->at));
    const Vec2 ahead{run.x, -run.y};
    const char* style = "fill=\"none\" stroke=\"#1f5f99\" stroke-width=\"3\"";
    panel.above(arrow(place - 110.0 * ahead, place - 30.0 * ahead, style));
  }

  // --- the whole

  [[nodiscard]] static std::vector<Outline> faces(const Box3& box, const Projection& view) {
    const auto p = [&](bool x, bool y, bool z) {
      return view.at({x ? box.high.x : box.low.x, y ? box.high.y : box.low.y, z ? box.high.z : box.low.z});
    };
    // Of a box seen from the front left above: its front, its left and its top.
    return {{p(false, false, false), p(true, false, false), p(true, false, true), p(false, false, true)},
            {p(false, false, false), p(false, true, false), p(false, true, true), p(false, false, true)},
            {p(false, false, true), p(true, false, true), p(true, true, true), p(false, true, true)}};
  }

  static void draw_box(Panel& panel, const Box3& box, const Projection& view, std::string_view style) {
    for (const Outline& face : faces(box, view)) panel.add(std::vector<Outline>{face}, style);
  }

  [[nodiscard]] Box3 box_a() const {
    const Box3& box = placed_.box(scene_->a);
    return {box.low + scene_->a_moved, box.high + scene_->a_moved};
  }

  std::string whole(Vec2 corner) const {
    const Projection view(front_left_above, axis::z);
    Box2 bounds;
    for (InstanceId id = 0; id < placed_.plan().instances.size(); ++id) {
      for (const Outline& face : faces(placed_.box(id), view)) {
        for (const Vec2 p : face) bounds.add(p);
      }
    }
    if (scene_) {
      for (const Outline& face : faces(box_a(), view)) {
        for (const Vec2 p : face) bounds.add(p);
      }
    }
    Panel panel(corner, {bounds.low - 0.05 * bounds.size(), bounds.high + 0.05 * bounds.size()}, "whole");
    for (InstanceId id = 0; id < placed_.plan().instances.size(); ++id) {
      const Role role = placed_.plan().parts[placed_.plan().instances[id].part].role;
      const bool frame =
          role == Role::ring_member || role == Role::upright || role == Role::bearer || role == Role::item;
      if (frame) draw_box(panel, placed_.box(id), view, "fill=\"none\" stroke=\"#999\" stroke-width=\"0.7\"");
    }
    if (scene_) {
      for (const InstanceId id : scene_->others) draw_box(panel, placed_.box(id), view, style_others);
      if (scene_->b) draw_box(panel, placed_.box(*scene_->b), view, style_b);
      draw_box(panel, box_a(), view, style_a);
      panel.above(mark(panel.on_page(view.at(scene_->at))));
    }
    return panel.svg("The whole, from the front left above: frame and items as boxes", units_);
  }

  std::string legend(Vec2 corner) const {
    std::string out;
    double y = corner.y + 6;
    const auto row = [&](std::string_view style, std::string_view hatch, std::string_view words) {
      const Outline swatch{{corner.x, y}, {corner.x + 30, y}, {corner.x + 30, y + 18}, {corner.x, y + 18}};
      out += filled({swatch}, style);
      if (!hatch.empty()) out += filled({swatch}, hatch);
      for (const std::string& line : svg::wrapped(words, 14, words_width)) {
        out += svg::text({corner.x + 42, y + 14}, 14, line);
        y += line_height;
      }
      y += 10;
    };
    if (scene_) {
      const bool stopped = !(scene_->a_moved == Vec3{});
      row(style_a, "fill=\"url(#a)\"",
          fmt::format("A: {}{}", placed_.label(scene_->a), stopped ? ", where it is stopped on its way" : ""));
      if (scene_->b) row(style_b, "fill=\"url(#b)\"", "B: " + placed_.label(*scene_->b));
      if (!scene_->others.empty()) row(style_others, "", others());
      row(style_rest, "", "what else stands there");
    }
    if (finding_.value) {
      std::string measured = "measured " + units_.measure(*finding_.value, finding_.unit);
      constexpr double contact_mm = 1e-3;  // no limit that anyone could measure
      if (finding_.limit && std::abs(*finding_.limit) > contact_mm)
        measured += ", limit " + units_.measure(*finding_.limit, finding_.unit);
      row("fill=\"none\" stroke=\"#c00\" stroke-width=\"2\"", "", measured);
    }
    if (scene_) {
      out += svg::text({corner.x, y + 14}, 14,
                       fmt::format("The place: X {}, Y {}, Z {} {}", units_.length(scene_->at.x),
                                   units_.length(scene_->at.y), units_.length(scene_->at.z), units_.length()));
    }
    return out;
  }

  [[nodiscard]] std::string others() const {
    constexpr std::size_t most = 4;
    std::string words = "likewise: ";
    for (std::size_t i = 0; i < scene_->others.size(); ++i) {
      if (i == most) return words + fmt::format(" and {} more", scene_->others.size() - most);
      words += (i == 0 ? "" : ", ") + placed_.label(scene_->others[i]);
    }
    return words;
  }

  const Finding& finding_;
  const std::optional<FindingScene>& scene_;
  const PlacedPlan& placed_;
  const JobInfo& info_;
  PaperUnits units_;
  double top_ = 0;
};

}  // namespace

std::string finding_page(const Finding& finding, const std::optional<FindingScene>& scene, const PlacedPlan& placed,
                         const JobInfo& info) {
  return Page(finding, scene, placed, info).document();
}

}  // namespace fitup::output
