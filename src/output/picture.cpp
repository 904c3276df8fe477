// A picture of the assembly as SVG.
// Entry: assembly_svg.

#include "output/picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "output/text.h"

namespace fitup::output {
namespace {

constexpr double page_width = 1200;
constexpr double margin = 30;
constexpr double gap = 50;
constexpr double label_height = 30;
constexpr double caption_height = 60;

struct View {
  std::string label;
  std::vector<std::vector<Vec2>> lines;
  Box2 bounds;
};

bool is_fastener(Role role) {
  return role == Role::rod || role == Role::nut || role == Role::washer || role == Role::screw;
}

bool is_cover(Role role) { return role == Role::cover_sheet || role == Role::cover_flange; }

bool is_frame(Role role) {
  return role == Role::ring_member || role == Role::upright || role == Role::rail || role == Role::landing ||
         role == Role::boss;
}

bool is_drawn(Role role) { return !is_fastener(role); }
bool is_inside(Role role) { return !is_fastener(role) && !is_cover(role); }

struct Wanted {
  std::string_view label;
  bool (*drawn)(Role);
  Vec3 towards_viewer;
};

constexpr Vec3 front_left_above{-1, -1.6, 1.1};
constexpr std::array<Wanted, 4> wanted{{{"All on", is_drawn, front_left_above},
                                        {"Covers off", is_inside, front_left_above},
                                        {"The bare frame", is_frame, front_left_above},
                                        {"From the front, covers off", is_inside, axis::minus_y}}};

Result<View> view_of(const Plan& plan, const Model& model, const Wanted& what) {
  Plan drawn = plan;
  std::erase_if(drawn.instances, [&](const Instance& i) { return !what.drawn(plan.parts.at(i.part).role); });
  auto lines = hidden_lines(drawn, model, what.towards_viewer, axis::z);
  if (!lines) return lines.error();
  View view{std::string(what.label), std::move(lines).value().visible, {}};
  for (const auto& line : view.lines) {
    for (const Vec2 p : line) view.bounds.add(p);
  }
  return view;
}

/// One path for a view, its upper left at `corner`; y turned down as SVG has it.
std::string path_of(const View& view, Vec2 corner, double scale) {
  std::string out = "<path d=\"";
  for (const auto& line : view.lines) {
    for (std::size_t i = 0; i < line.size(); ++i) {
      const Vec2 p{corner.x + scale * (line[i].x - view.bounds.low.x),
                   corner.y + scale * (view.bounds.high.y - line[i].y)};
      out += fmt::format("{}{} {}", i == 0 ? "M" : "L", number(p.x, 2), number(p.y, 2));
    }
  }
  return out + "\"/>\n";
}

std::string text_at(Vec2 at, int size, std::string_view text) {
  return fmt::format("<text x=\"{}\" y=\"{}\" font-size=\"{}\">{}</text>\n", number(at.x), number(at.y), size,
                     xml_text(text));
}

std::string caption(const JobInfo& info, double top) {
  const std::string title = info.title.empty() ? info.name : info.title;
  const std::string job = fmt::format("{}, revision {}, spec {}. Fasteners are not drawn.", info.name, info.revision,
                                      short_hash(info.spec_hash));
  return text_at({margin, top + 18}, 18, title) + text_at({margin, top + 38}, 12, job);
}

/// Two views in a row, all of the page at one scale.
class Page {
 public:
  explicit Page(std::vector<View> views) : views_(std::move(views)) {
    double widest = 1;
    for (const View& v : views_) widest = std::max(widest, v.bounds.size().x);
    column_ = (page_width - 2 * margin - gap) / 2;
    scale_ = column_ / widest;
  }

  std::string svg(const JobInfo& info) {
    std::string lines;
    std::string words;
    double top = margin;
    for (std::size_t i = 0; i < views_.size(); i += 2) {
      const std::size_t end = std::min(i + 2, views_.size());
      double height = 0;
      for (std::size_t k = i; k < end; ++k) height = std::max(height, scale_ * views_[k].bounds.size().y);
      for (std::size_t k = i; k < end; ++k) {
        const double left = margin + static_cast<double>(k - i) * (column_ + gap);
        const Vec2 size = scale_ * views_[k].bounds.size();
        lines += path_of(views_[k], {left + 0.5 * (column_ - size.x), top + 0.5 * (height - size.y)}, scale_);
        words += text_at({left, top + height + 0.7 * label_height}, 13, views_[k].label);
      }
      top += height + label_height + margin;
    }
    return framed(lines, words + caption(info, top), top + caption_height, info);
  }

 private:
  static std::string framed(const std::string& lines, const std::string& words, double height, const JobInfo& info) {
    std::string out =
        fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0} {1}\" width=\"{0}\" height=\"{1}\">\n",
                    number(page_width), number(height));
    out +=
        fmt::format("<title>{}</title>\n<rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n", xml_text(info.name));
    out +=
        "<g fill=\"none\" stroke=\"black\" stroke-width=\"0.8\" stroke-linejoin=\"round\" stroke-linecap=\"round\">\n";
    return out + lines + "</g>\n<g font-family=\"sans-serif\" fill=\"black\">\n" + words + "</g>\n</svg>\n";
  }

  std::vector<View> views_;
  double column_ = 0;
  double scale_ = 1;
};

}  // namespace

Result<std::string> assembly_svg(const Plan& plan, const Model& model, const JobInfo& info) {
  std::vector<View> views;
  for (const Wanted& what : wanted) {
    if (interrupt_requested()) {
      return Failure{Failure::Kind::interrupted, "draw the assembly", "interrupted; nothing was written"};
    }
    auto view = view_of(plan, model, what);
    if (!view) return view.error();
    if (!view->lines.empty()) views.push_back(std::move(view).value());
  }
  return Page(std::move(views)).svg(info);
}

}  // namespace fitup::output
