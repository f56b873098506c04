// SPDX-License-Identifier: MIT
#include "picture.hpp"

#include <cairo.h>
#include <png.h>

#include <cmath>
#include <cstdint>
#include <cstring>
#include <memory>

#include "boxes.hpp"

namespace turnwright::pdf {
namespace {

using Surface = std::unique_ptr<cairo_surface_t, decltype(&cairo_surface_destroy)>;

bool draw_on(cairo_surface_t* surface, const paper::Drawing& drawing, double pixels,
             const Typesetter& type) {
  const std::unique_ptr<cairo_t, decltype(&cairo_destroy)> cairo(cairo_create(surface),
                                                                 &cairo_destroy);
  cairo_set_source_rgb(cairo.get(), 1, 1, 1);
  cairo_paint(cairo.get());
  cairo_scale(cairo.get(), pixels, pixels);
  draw_drawing(cairo.get(), drawing, type);
  cairo_surface_flush(surface);
  return cairo_status(cairo.get()) == CAIRO_STATUS_SUCCESS;
}

// Red, green, blue: a pixel of the surface is one number of 0x00RRGGBB.
std::string bytes_of(cairo_surface_t* surface) {
  const int width = cairo_image_surface_get_width(surface);
  const int height = cairo_image_surface_get_height(surface);
  const unsigned char* row = cairo_image_surface_get_data(surface);
  std::string bytes;
  bytes.reserve(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 3);
  for (int y = 0; y < height; ++y, row += cairo_image_surface_get_stride(surface))
    for (std::ptrdiff_t x = 0; x < width; ++x) {
      std::uint32_t pixel = 0;
      std::memcpy(&pixel, row + 4 * x, sizeof pixel);
      for (const int shift : {16, 8, 0}) bytes += static_cast<char>(pixel >> shift & 0xff);
    }
  return bytes;
}

// Not as small as it could be: that would take longer than the quote it is for.
std::string png_of(cairo_surface_t* surface) {
  const std::string bytes = bytes_of(surface);
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = static_cast<png_uint_32>(cairo_image_surface_get_width(surface));
  image.height = static_cast<png_uint_32>(cairo_image_surface_get_height(surface));
  image.format = PNG_FORMAT_RGB;
  image.flags = PNG_IMAGE_FLAG_FAST;
  std::string png(PNG_IMAGE_PNG_SIZE_MAX(image), '\0');
  png_alloc_size_t size = png.size();
  const int done =
      png_image_write_to_memory(&image, png.data(), &size, 0, bytes.data(), 0, nullptr);
  png.resize(done != 0 ? size : 0);
  return png;
}

}  // namespace

std::string picture_of(const paper::Drawing& drawing, double pixels) {
  const Typesetter type("en");  // sizes and names only: no line is broken
  if (!type.has_fonts()) return {};
  const Surface surface(cairo_image_surface_create(
                            CAIRO_FORMAT_RGB24, static_cast<int>(std::ceil(drawing.width * pixels)),
                            static_cast<int>(std::ceil(drawing.height * pixels))),
                        &cairo_surface_destroy);
  if (!draw_on(surface.get(), drawing, pixels, type)) return {};
  return png_of(surface.get());
}

}  // namespace turnwright::pdf
