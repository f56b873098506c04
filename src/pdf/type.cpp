// SPDX-License-Identifier: MIT
#include "type.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright::pdf {
namespace {

constexpr double leading = 0.12;  // of the type, between lines
constexpr const char* families = "Liberation Sans, DejaVu Sans, sans-serif";

template <class T>
std::shared_ptr<T> owned(T* object) {
  return {object, [](T* o) { g_object_unref(o); }};
}

// Letters stand where their outlines say, whatever a screen could show.
void set_free_of_screens(PangoContext* context) {
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context, options);
  cairo_font_options_destroy(options);
  pango_cairo_context_set_resolution(context, 72);
  pango_context_set_round_glyph_positions(context, FALSE);
}

// What is no text would be refused whole.
std::string made_valid(const std::string& text) {
  gchar* valid = g_utf8_make_valid(text.data(), static_cast<gssize>(text.size()));
  std::string copy(valid);
  g_free(valid);
  return copy;
}

PangoRectangle extent_of(const Lines& lines) {
  PangoRectangle logical;
  pango_layout_get_extents(lines.get(), nullptr, &logical);
  return logical;
}

}  // namespace

Typesetter::Typesetter(const std::string& language)
    : fonts_(owned(pango_cairo_font_map_new())),
      context_(owned(pango_font_map_create_context(fonts_.get()))) {
  set_free_of_screens(context_.get());
  pango_context_set_language(context_.get(), pango_language_from_string(language.c_str()));
}

bool Typesetter::has_fonts() const {
  PangoFontFamily** families_found = nullptr;
  int count = 0;
  pango_font_map_list_families(fonts_.get(), &families_found, &count);
  g_free(families_found);
  return count > 0;
}

Lines Typesetter::set(const std::string& text, const Look& look, double width, Side side) const {
  Lines lines = owned(pango_layout_new(context_.get()));
  PangoFontDescription* font = pango_font_description_new();
  pango_font_description_set_family(font, families);
  pango_font_description_set_size(font, static_cast<int>(look.points * PANGO_SCALE));
  if (look.bold) pango_font_description_set_weight(font, PANGO_WEIGHT_BOLD);
  if (look.italic) pango_font_description_set_style(font, PANGO_STYLE_ITALIC);
  pango_layout_set_font_description(lines.get(), font);
  pango_font_description_free(font);
  if (width >= 0) {
    // Never less than a line set without bounds takes.
    pango_layout_set_width(lines.get(), static_cast<int>(std::ceil(width * PANGO_SCALE)) + 2);
    pango_layout_set_wrap(lines.get(), PANGO_WRAP_WORD_CHAR);
  }
  pango_layout_set_spacing(lines.get(), static_cast<int>(leading * look.points * PANGO_SCALE));
  pango_layout_set_alignment(lines.get(), side == Side::right    ? PANGO_ALIGN_RIGHT
                                          : side == Side::middle ? PANGO_ALIGN_CENTER
                                                                 : PANGO_ALIGN_LEFT);
  const std::string valid = made_valid(text);
  pango_layout_set_text(lines.get(), valid.data(), static_cast<int>(valid.size()));
  return lines;
}

double Typesetter::least_width(const std::string& text, const Look& look) const {
  double least = 0;
  for (std::size_t from = 0; from < text.size();) {
    const std::size_t to = std::min(text.find_first_of(" \n", from), text.size());
    if (to > from) least = std::max(least, width_of(set(text.substr(from, to - from), look)));
    from = to + 1;
  }
  return least;
}

std::vector<Line> each_of(const Lines& lines) {
  std::vector<Line> list;
  PangoLayoutIter* at = pango_layout_get_iter(lines.get());
  do {
    const PangoLayoutLine* line = pango_layout_iter_get_line_readonly(at);
    PangoRectangle logical;
    pango_layout_iter_get_line_extents(at, nullptr, &logical);
    const auto from = static_cast<std::size_t>(line->start_index);
    list.push_back({from, from + static_cast<std::size_t>(line->length),
                    static_cast<double>(logical.y) / PANGO_SCALE,
                    static_cast<double>(logical.y + logical.height) / PANGO_SCALE});
  } while (pango_layout_iter_next_line(at));
  pango_layout_iter_free(at);
  return list;
}
std::string text_in(const Lines& lines) { return pango_layout_get_text(lines.get()); }

double width_of(const Lines& lines) {
  return static_cast<double>(extent_of(lines).width) / PANGO_SCALE;
}
double height_of(const Lines& lines) {
  return static_cast<double>(extent_of(lines).height) / PANGO_SCALE;
}
double base_of(const Lines& lines) {
  return static_cast<double>(pango_layout_get_baseline(lines.get())) / PANGO_SCALE;
}

}  // namespace turnwright::pdf
