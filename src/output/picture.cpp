// A picture of the assembly as SVG.
// Entry: assembly_svg.

#include "output/picture.h"

#include <fmt/format.h>

#include <algorithm>

#include "output/text.h"

namespace fitup::output {
namespace {

constexpr double page_width = 1200;
constexpr double margin = 30;
constexpr double gap = 60;
constexpr double caption_height = 70;

struct View {
  std::vector<std::vector<Vec2>> lines;
  Box2 bounds;
};

bool is_fastener(Role role) {
  return role == Role::rod || role == Role::nut || role == Role::washer || role == Role::screw;
}

/// What is drawn: large things.
Plan drawn_part(const Plan& plan) {
  Plan drawn = plan;
  std::erase_if(drawn.instances, [&](const Instance& i) { return is_fastener(plan.parts.at(i.part).role); });
  return drawn;
}

Result<View> view_from(const Plan& plan, const Model& model, Vec3 towards_viewer) {
  auto lines = hidden_lines(plan, model, towards_viewer, axis::z);
  if (!lines) return lines.error();
  View view{std::move(lines).value().visible, {}};
  for (const auto& line : view.lines) {
    for (const Vec2 p : line) view.bounds.add(p);
  }
  return view;
}

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '&') out += "&amp;";
    else if (c == '<') out += "&lt;";
    else if (c == '>') out += "&gt;";
    else out.push_back(static_cast<unsigned char>(c) < 0x20 ? ' ' : c);
  }
  return out;
}

/// One path for a view, its upper left at `corner`; y turned down as SVG has it.
std::string path_of(const View& view, Vec2 corner, double scale) {
  std::string out = "<path d=\"";
  for (const auto& line : view.lines) {
    for (std::size_t i = 0; i < line.size(); ++i) {
      const Vec2 p{corner.x + scale * (line[i].x - view.bounds.low.x), corner.y + scale * (view.bounds.high.y - line[i].y)};
      out += fmt::format("{}{} {}", i == 0 ? "M" : "L", number(p.x, 2), number(p.y, 2));
    }
  }
  return out + "\"/>\n";
}

std::string text_at(Vec2 at, int size, std::string_view text) {
  return fmt::format("<text x=\"{}\" y=\"{}\" font-size=\"{}\">{}</text>\n", number(at.x), number(at.y), size, escaped(text));
}

std::string caption(const JobInfo& info, double top) {
  const std::string title = info.title.empty() ? info.name : info.title;
  return text_at({margin, top + 24}, 18, title) +
         text_at({margin, top + 44}, 12, fmt::format("{}, revision {}, spec {}. Fasteners not drawn.", info.name, info.revision,
                                                      short_hash(info.spec_hash)));
}

}  // namespace

Result<std::string> assembly_svg(const Plan& plan, const Model& model, const JobInfo& info) {
  const Plan drawn = drawn_part(plan);
  const auto oblique = view_from(drawn, model, {-1, -1.6, 1.1});
  if (!oblique) return oblique.error();
  if (interrupt_requested()) return Failure{Failure::Kind::interrupted, "draw the assembly", "interrupted; nothing was written"};
  const auto front = view_from(drawn, model, axis::minus_y);
  if (!front) return front.error();

  const Vec2 left = oblique->bounds.size();
  const Vec2 right = front->bounds.size();
  const double scale = (page_width - 2 * margin - gap) / std::max(left.x + right.x, 1.0);
  const double drawing_height = scale * std::max(left.y, right.y);
  const double page_height = margin + drawing_height + caption_height;
  std::string svg = fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0} {1}\" width=\"{0}\" height=\"{1}\">\n",
                                number(page_width), number(page_height));
  svg += fmt::format("<title>{}</title>\n<rect width=\"100%\" height=\"100%\" fill=\"white\"/>\n", escaped(info.name));
  svg += "<g fill=\"none\" stroke=\"black\" stroke-width=\"0.8\" stroke-linejoin=\"round\" stroke-linecap=\"round\">\n";
  svg += path_of(*oblique, {margin, margin + 0.5 * (drawing_height - scale * left.y)}, scale);
  svg += path_of(*front, {margin + scale * left.x + gap, margin + 0.5 * (drawing_height - scale * right.y)}, scale);
  svg += "</g>\n<g font-family=\"sans-serif\" fill=\"black\">\n" + caption(info, margin + drawing_height) + "</g>\n</svg>\n";
  return svg;
}

}  // namespace fitup::output
