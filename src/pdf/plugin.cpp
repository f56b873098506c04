// SPDX-License-Identifier: MIT
// The plug-in's functions: a document or a drawing in, the bytes of a PDF or a picture out; the
// same for the same.
#include <cairo-pdf.h>

#include <exception>
#include <numbers>

#include "boundary.hpp"
#include "pages.hpp"
#include "picture.hpp"
#include "write_language.hpp"

namespace turnwright::pdf {
namespace {

constexpr double foot_points = 8;

cairo_status_t append(void* to, const unsigned char* bytes, unsigned int count) {
  static_cast<std::string*>(to)->append(reinterpret_cast<const char*>(bytes), count);
  return CAIRO_STATUS_SUCCESS;
}

void say_about(cairo_surface_t* surface, const paper::Paper& paper) {
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, paper.title.c_str());
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "Turnwright");
  // Of the document, never of the clock; "" leaves it out.
  const std::string day = paper.date.empty() ? "" : paper.date + "T00:00:00Z";
  cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, day.c_str());
}

void draw_across(cairo_t* cairo, const std::string& text, const Sheet& sheet,
                 const Typesetter& type) {
  if (text.empty()) return;
  constexpr double trial = 40;
  const double width = width_of(type.set(text, {trial, true}));
  const Lines lines = type.set(text, {trial * 0.85 * sheet.height / width, true});
  cairo_save(cairo);
  cairo_translate(cairo, sheet.width / 2, sheet.height / 2);
  cairo_rotate(cairo, -std::numbers::pi * 0.3);
  cairo_move_to(cairo, -width_of(lines) / 2, -height_of(lines) / 2);
  cairo_set_source_rgb(cairo, 0.9, 0.88, 0.88);
  pango_cairo_show_layout(cairo, lines.get());
  cairo_restore(cairo);
}

std::string count_text(const std::string& form, std::size_t page, std::size_t pages) {
  std::string text;
  for (const char c : form)
    text += c == paper::page_mark    ? std::to_string(page)
            : c == paper::pages_mark ? std::to_string(pages)
                                     : std::string(1, c);
  return text;
}

void draw_foot(cairo_t* cairo, const std::string& left, const std::string& right,
               const Sheet& sheet, const Typesetter& type) {
  const double y = sheet.height - sheet.margin - 2;
  set_ink(cairo, paper::Ink::grey);
  cairo_move_to(cairo, sheet.margin, y);
  pango_cairo_show_layout(cairo, type.set(left, {foot_points}).get());
  const Lines count = type.set(right, {foot_points});
  cairo_move_to(cairo, sheet.width - sheet.margin - width_of(count), y);
  pango_cairo_show_layout(cairo, count.get());
}

int draw_document(const paper::Paper& paper, std::string& out) {
  const Typesetter type(paper.language);
  if (!type.has_fonts()) return 2;
  const Sheet sheet = sheet_of(paper);
  const std::vector<Box> pages = pages_of(paper, type);
  std::string bytes;
  cairo_surface_t* surface =
      cairo_pdf_surface_create_for_stream(append, &bytes, sheet.width, sheet.height);
  cairo_pdf_surface_restrict_to_version(surface, CAIRO_PDF_VERSION_1_5);
  say_about(surface, paper);
  cairo_t* cairo = cairo_create(surface);
  for (std::size_t i = 0; i < pages.size(); ++i) {
    draw_across(cairo, paper.across, sheet, type);
    cairo_tag_begin(cairo, "Sect", nullptr);
    draw(cairo, pages[i], type);
    cairo_tag_end(cairo, "Sect");
    draw_foot(cairo, paper.foot, count_text(paper.count, i + 1, pages.size()), sheet, type);
    cairo_show_page(cairo);
  }
  const bool right = cairo_status(cairo) == CAIRO_STATUS_SUCCESS;
  cairo_destroy(cairo);
  cairo_surface_finish(surface);
  const bool finished = cairo_surface_status(surface) == CAIRO_STATUS_SUCCESS;
  cairo_surface_destroy(surface);
  if (!right || !finished) return 0;
  out = with_language(std::move(bytes), paper.language);
  return 1;
}

}  // namespace
}  // namespace turnwright::pdf

#define TURNWRIGHT_EXPORT __attribute__((visibility("default")))

extern "C" {

TURNWRIGHT_EXPORT int turnwright_pdf_version() { return turnwright::pdf::boundary_version; }

TURNWRIGHT_EXPORT int turnwright_pdf_draw(const turnwright::paper::Paper* paper, std::string* out) {
  try {
    return turnwright::pdf::draw_document(*paper, *out);
  } catch (const turnwright::pdf::HigherThanAPage&) {
    return 3;
  } catch (const std::exception&) {
    return 0;
  }
}

TURNWRIGHT_EXPORT int turnwright_pdf_picture(const turnwright::paper::Drawing* drawing,
                                             double pixels, std::string* out) {
  try {
    *out = turnwright::pdf::picture_of(*drawing, pixels);
    return out->empty() ? 0 : 1;
  } catch (const std::exception&) {
    return 0;
  }
}

}  // extern "C"
