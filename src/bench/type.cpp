// Words on paper, shaped and broken by Pango without hinting, so that lengths do not depend on a screen.
// Entry: Type.

#include "bench/type.h"

#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>

#include "diag/words.h"

namespace fitup::bench {
namespace {

constexpr double points_per_mm = 72 / 25.4;
constexpr const char* family = "DejaVu Sans";

struct Unref {
  void operator()(void* object) const { g_object_unref(object); }
};
template <class T>
using Held = std::unique_ptr<T, Unref>;

}  // namespace

struct Type::Insides {
  Held<PangoFontMap> fonts{pango_cairo_font_map_new()};
  Held<PangoContext> context{pango_font_map_create_context(fonts.get())};

  Insides() {
    pango_cairo_font_map_set_resolution(reinterpret_cast<PangoCairoFontMap*>(fonts.get()), 72);
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(context.get(), options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(context.get(), FALSE);
    pango_context_set_language(context.get(), pango_language_from_string("en"));  // not the machine's
  }

  [[nodiscard]] Held<PangoLayout> layout(std::string_view words, double size_mm, bool bold) const {
    Held<PangoLayout> made(pango_layout_new(context.get()));
    PangoFontDescription* font = pango_font_description_new();
    pango_font_description_set_family_static(font, family);
    pango_font_description_set_weight(font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_font_description_set_absolute_size(font, size_mm * points_per_mm * PANGO_SCALE);
    pango_layout_set_font_description(made.get(), font);
    pango_font_description_free(font);
    const std::string text = printable(words);
    pango_layout_set_text(made.get(), text.data(), static_cast<int>(text.size()));
    return made;
  }
};

namespace {

double width_of(PangoLayout* layout) {
  int width = 0;
  pango_layout_get_size(layout, &width, nullptr);
  return static_cast<double>(width) / PANGO_SCALE / points_per_mm;
}

std::string trimmed(std::string text) {
  while (!text.empty() && text.back() == ' ') text.pop_back();
  return text;
}

}  // namespace

Type::Type() : insides_(std::make_unique<Insides>()) {}
Type::~Type() = default;

double Type::width_mm(std::string_view words, double size_mm, bool bold) const {
  return width_of(insides_->layout(words, size_mm, bold).get());
}

std::vector<std::string> Type::wrapped(std::string_view words, double size_mm, bool bold, double width_mm) const {
  const auto layout = insides_->layout(words, size_mm, bold);
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  pango_layout_set_width(layout.get(), static_cast<int>(std::floor(width_mm * points_per_mm * PANGO_SCALE)));
  const std::string text = pango_layout_get_text(layout.get());
  std::vector<std::string> lines;
  for (int i = 0; i < pango_layout_get_line_count(layout.get()); ++i) {
    const PangoLayoutLine* line = pango_layout_get_line_readonly(layout.get(), i);
    lines.push_back(
        trimmed(text.substr(static_cast<std::size_t>(line->start_index), static_cast<std::size_t>(line->length))));
  }
  if (lines.empty()) lines.emplace_back();
  return lines;
}

double Type::widest_word_mm(std::string_view words, double size_mm, bool bold) const {
  double widest = 0;
  std::size_t from = 0;
  while (from < words.size()) {
    const std::size_t to = std::min(words.find_first_of(" -", from), words.size() - 1);
    widest = std::max(widest, width_mm(words.substr(from, to + 1 - from), size_mm, bold));
    from = to + 1;
  }
  return widest;
}

Label Type::label(Vec2 at, std::string words, double size_mm, Anchor anchor, bool bold, bool upwards) const {
  const double width = width_mm(words, size_mm, bold);
  const double before = anchor == Anchor::left ? 0 : anchor == Anchor::right ? width : 0.5 * width;
  const double ascent = 0.78 * size_mm;
  const double descent = 0.22 * size_mm;
  const Box2 box = upwards ? box_of({at.x - ascent, at.y + before - width}, {at.x + descent, at.y + before})
                           : box_of({at.x - before, at.y - ascent}, {at.x - before + width, at.y + descent});
  return {at, std::move(words), size_mm, bold, anchor, upwards, box};
}

void Type::draw(void* cairo, const Label& label) const {
  auto* to = static_cast<cairo_t*>(cairo);
  const auto layout = insides_->layout(label.words, label.size_mm, label.bold);
  const double width = width_of(layout.get());
  const double before = label.anchor == Anchor::left ? 0 : label.anchor == Anchor::right ? width : 0.5 * width;
  cairo_save(to);
  cairo_translate(to, label.at.x * points_per_mm, label.at.y * points_per_mm);
  if (label.upwards) cairo_rotate(to, -std::acos(0.0));
  cairo_move_to(to, -before * points_per_mm, 0);
  pango_cairo_show_layout_line(to, pango_layout_get_line_readonly(layout.get(), 0));
  cairo_restore(to);
}

std::string printable(std::string_view words) {
  std::string out;
  for (std::size_t at = 0; at < words.size();) {
    const std::size_t length = diag::sequence_length(words, at);
    if (length == 0) {
      out += "\xEF\xBF\xBD";  // U+FFFD
      ++at;
      continue;
    }
    const std::string_view sequence = words.substr(at, length);
    at += length;
    const auto byte = static_cast<unsigned char>(sequence.front());
    if (byte < 0x20 || byte == 0x7F) {
      out += ' ';
    } else {
      out += sequence;
    }
  }
  return out;
}

}  // namespace fitup::bench
