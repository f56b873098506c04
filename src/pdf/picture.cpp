// SPDX-License-Identifier: MIT
#include "picture.hpp"

#include <cairo.h>
#include <png.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <memory>
#include <vector>

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

// A drawing has few colours, and shades of them at its edges: a third of the bytes of a picture,
// and of the time to pack them. A pixel of the surface is one number of 0x00RRGGBB; shades as near
// as an eye cannot tell are one.
struct Colours {
  std::vector<unsigned char> pixels;   // rows of indices
  std::vector<unsigned char> palette;  // red, green, blue of each
};
constexpr std::size_t most_colours = 256;
constexpr unsigned told_digits = 5;  // binary ones, of each

std::size_t shade(std::uint32_t pixel) {
  std::size_t told = 0;
  for (const unsigned shift : {16U, 8U, 0U})
    told = told << told_digits | (pixel >> (shift + 8 - told_digits) & ((1U << told_digits) - 1));
  return told;
}

// Where there are too many, the last stands for the rest.
Colours colours_of(cairo_surface_t* surface) {
  const auto width = static_cast<std::size_t>(cairo_image_surface_get_width(surface));
  const auto height = static_cast<std::size_t>(cairo_image_surface_get_height(surface));
  const unsigned char* row = cairo_image_surface_get_data(surface);
  Colours colours;
  colours.pixels.reserve(width * height);
  std::vector<int> known(std::size_t{1} << 3 * told_digits, -1);
  for (std::size_t y = 0; y < height; ++y, row += cairo_image_surface_get_stride(surface))
    for (std::size_t x = 0; x < width; ++x) {
      std::uint32_t pixel = 0;
      std::memcpy(&pixel, row + 4 * x, sizeof pixel);
      int& index = known[shade(pixel)];
      if (index < 0) {
        index = static_cast<int>(std::min(colours.palette.size() / 3, most_colours - 1));
        if (colours.palette.size() < 3 * most_colours)
          for (const int shift : {16, 8, 0})
            colours.palette.push_back(static_cast<unsigned char>(pixel >> shift & 0xff));
      }
      colours.pixels.push_back(static_cast<unsigned char>(index));
    }
  return colours;
}

// Not as small as it could be: that would take longer than the quote it is for.
std::string png_of(cairo_surface_t* surface) {
  const Colours colours = colours_of(surface);
  png_image image{};
  image.version = PNG_IMAGE_VERSION;
  image.width = static_cast<png_uint_32>(cairo_image_surface_get_width(surface));
  image.height = static_cast<png_uint_32>(cairo_image_surface_get_height(surface));
  image.format = PNG_FORMAT_RGB_COLORMAP;
  image.flags = PNG_IMAGE_FLAG_FAST;
  image.colormap_entries = static_cast<png_uint_32>(colours.palette.size() / 3);
  std::string png(PNG_IMAGE_PNG_SIZE_MAX(image), '\0');
  png_alloc_size_t size = png.size();
  const int done = png_image_write_to_memory(&image, png.data(), &size, 0, colours.pixels.data(), 0,
                                             colours.palette.data());
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
