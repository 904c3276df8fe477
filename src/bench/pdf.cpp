// A paper as a PDF file, by Cairo.
// Entry: write_pdf.

#include "bench/pdf.h"

#include <cairo-pdf.h>
#include <fmt/format.h>

#include <cmath>

namespace fitup::bench {
namespace {

constexpr double points_per_mm = 72 / 25.4;

struct Release {
  void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
  void operator()(cairo_t* cairo) const { cairo_destroy(cairo); }
};

cairo_status_t append(void* to, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void describe(cairo_surface_t* surface, const Paper& paper, const JobInfo& info) {
  const auto say = [&](cairo_pdf_metadata_t what, const std::string& words) {
    cairo_pdf_surface_set_metadata(surface, what, printable(words).c_str());
  };
  say(CAIRO_PDF_METADATA_TITLE, fmt::format("{}: {}", paper.name, info.title.empty() ? info.name : info.title));
  say(CAIRO_PDF_METADATA_SUBJECT, fmt::format("revision {}", info.revision));
  say(CAIRO_PDF_METADATA_KEYWORDS, fmt::format("{} {}", info.name, info.spec_hash));
  say(CAIRO_PDF_METADATA_CREATOR, fmt::format("fitup {}", info.version));
  say(CAIRO_PDF_METADATA_CREATE_DATE, info.timestamp);
}

/// Cairo turns a positive angle from x to y, which on the page is clockwise: as the strokes count it.
void trace(cairo_t* to, const Stroke& stroke) {
  const auto& corners = stroke.vertices;
  if (corners.empty()) return;
  cairo_new_path(to);
  cairo_move_to(to, corners.front().at.x, corners.front().at.y);
  const std::size_t count = stroke.closed ? corners.size() : corners.size() - 1;
  for (std::size_t i = 0; i < count; ++i) {
    const Edge edge{corners[i].at, corners[(i + 1) % corners.size()].at, corners[i].bulge};
    if (edge.straight()) {
      cairo_line_to(to, edge.to.x, edge.to.y);
      continue;
    }
    const Arc arc = edge.arc();
    if (arc.sweep > 0) {
      cairo_arc(to, arc.centre.x, arc.centre.y, arc.radius, arc.start, arc.start + arc.sweep);
    } else {
      cairo_arc_negative(to, arc.centre.x, arc.centre.y, arc.radius, arc.start, arc.start + arc.sweep);
    }
  }
  if (stroke.closed) cairo_close_path(to);
}

void set_dash(cairo_t* to, const Stroke& stroke) {
  // ISO 128-2, from memory: dash 12 d, gap 3 d; long dash 24 d, gap 3 d, dot 0.5 d, gap 3 d.
  const double d = stroke.width_mm;
  const double dashed[] = {12 * d, 3 * d};
  const double chain[] = {24 * d, 3 * d, 0.5 * d, 3 * d};
  switch (stroke.dash) {
    case Dash::none: cairo_set_dash(to, nullptr, 0, 0); break;
    case Dash::dashed: cairo_set_dash(to, dashed, 2, 0); break;
    case Dash::chain: cairo_set_dash(to, chain, 4, 0); break;
  }
}

void draw(cairo_t* to, const Stroke& stroke) {
  cairo_save(to);
  if (stroke.clip) {
    const Vec2 size = stroke.clip->size();
    cairo_rectangle(to, stroke.clip->low.x, stroke.clip->low.y, size.x, size.y);
    cairo_clip(to);
  }
  trace(to, stroke);
  cairo_set_source_rgb(to, stroke.grey, stroke.grey, stroke.grey);
  if (stroke.filled) {
    cairo_fill(to);
  } else {
    cairo_set_line_width(to, stroke.width_mm);
    set_dash(to, stroke);
    cairo_stroke(to);
  }
  cairo_restore(to);
}

void draw(cairo_t* to, const Page& page, const Type& type) {
  cairo_save(to);
  cairo_scale(to, points_per_mm, points_per_mm);
  cairo_set_line_cap(to, CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join(to, CAIRO_LINE_JOIN_MITER);
  for (const Stroke& stroke : page.strokes) draw(to, stroke);
  cairo_restore(to);
  cairo_set_source_rgb(to, 0, 0, 0);
  for (const Label& label : page.labels) type.draw(to, label);
}

}  // namespace

Result<std::string> write_pdf(const Paper& paper, const JobInfo& info, const Type& type) {
  std::string bytes;
  const std::unique_ptr<cairo_surface_t, Release> surface(cairo_pdf_surface_create_for_stream(append, &bytes, 1, 1));
  cairo_pdf_surface_restrict_to_version(surface.get(), CAIRO_PDF_VERSION_1_4);
  describe(surface.get(), paper, info);
  for (const Page& page : paper.pages) {
    const Vec2 size = points_per_mm * page.size();
    cairo_pdf_surface_set_size(surface.get(), size.x, size.y);
    const std::unique_ptr<cairo_t, Release> to(cairo_create(surface.get()));
    draw(to.get(), page, type);
    cairo_show_page(to.get());
  }
  cairo_surface_finish(surface.get());
  if (const cairo_status_t status = cairo_surface_status(surface.get()); status != CAIRO_STATUS_SUCCESS) {
    return Failure{Failure::Kind::file, fmt::format("draw the pages of {}", paper.name),
                   cairo_status_to_string(status)};
  }
  return bytes;
}

}  // namespace fitup::bench
