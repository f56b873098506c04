// SPDX-License-Identifier: MIT
#include "html/charts.hpp"

#include <algorithm>
#include <cmath>

namespace turnwright {
namespace {

constexpr double bar_height = 22, name_width = 170, end_width = 100;
constexpr double row_height = bar_height + 8;
constexpr double curve_height = 250, left = 52, right = 16, top = 12, bottom = 40;

// 1, 2, 5, 10, 20 … between two numbers.
std::vector<double> round_steps(double low, double high) {
  std::vector<double> steps;
  for (double decade = std::pow(10, std::floor(std::log10(low))); decade <= high; decade *= 10)
    for (const double n : {1.0, 2.0, 5.0})
      if (n * decade >= low * 0.999 && n * decade <= high * 1.001) steps.push_back(n * decade);
  return steps;
}

double length_of(const Bar& bar) {
  double sum = 0;
  for (const BarPiece& s : bar.pieces) sum += s.length;
  return sum;
}

std::string amount(double value, const std::string& unit, const Words& words) {
  return words.readable(value, 3) + " " + unit;
}

void draw_bar(PageWriter& page, const Bar& bar, double y, double scale, const std::string& unit) {
  Markup& m = page.markup();
  const Words& words = page.words();
  picture_text(m, name_width - 8, y + bar_height * 0.7, bar.name, "end");
  double x = name_width;
  for (const BarPiece& s : bar.pieces) {
    const double wide = s.length * scale;
    if (wide > 0.01)
      picture_rect(m, x, y, wide, bar_height,
                   "k" + std::to_string(s.colour) + (s.hatched ? " faint" : ""),
                   s.name + ", " + amount(s.length, unit, words));
    x += wide;
  }
  picture_text(m, x + 6, y + bar_height * 0.7, amount(length_of(bar), unit, words), "start");
}

// From values to places on the picture: x logarithmic, y from 0.
struct Axes {
  double width = 0, x_low = 1e300, x_high = 0, y_high = 0;

  Axes(const std::vector<Curve>& curves, double wide) : width(wide) {
    for (const Curve& c : curves)
      for (std::size_t i = 0; i < c.x.size(); ++i) {
        x_low = std::min(x_low, c.x[i]);
        x_high = std::max(x_high, c.x[i]);
        y_high = std::max(y_high, c.y[i]);
      }
  }
  bool empty() const { return x_high <= x_low || y_high <= 0; }
  double x(double v) const {
    return left + (width - left - right) * std::log(v / x_low) / std::log(x_high / x_low);
  }
  double y(double v) const { return top + (curve_height - top - bottom) * (1 - v / y_high); }
  double step() const {
    const double decade = std::pow(10, std::floor(std::log10(y_high)));
    return y_high / decade < 2 ? decade / 4 : y_high / decade < 5 ? decade / 2 : decade;
  }
};

void draw_grid(PageWriter& page, const Axes& axes, const std::string& unit) {
  Markup& m = page.markup();
  const Words& words = page.words();
  std::string grid;
  for (const double q : round_steps(axes.x_low, axes.x_high)) {
    grid += "M" + px(axes.x(q)) + " " + px(top) + "V" + px(curve_height - bottom);
    picture_text(m, axes.x(q), curve_height - bottom + 17, words.readable(q, 4), "middle");
  }
  for (double v = 0; v <= axes.y_high; v += axes.step()) {
    grid += "M" + px(left) + " " + px(axes.y(v)) + "H" + px(axes.width - right);
    picture_text(m, left - 6, axes.y(v) + 4, words.readable(v, 4), "end");
  }
  m.shape("path", {{"class", "grid"}, {"d", grid}});
  picture_text(m, axes.width - right, curve_height - 6, words("page.pieces"), "end");
  picture_text(m, 4, top + 2, unit, "start");
}

void draw_points(PageWriter& page, const Curve& c, const Axes& axes) {
  const Words& words = page.words();
  for (std::size_t i = 0; i < c.x.size(); ++i)
    page.markup()
        .open("circle", {{"class", "k" + std::to_string(c.colour)},
                         {"cx", px(axes.x(c.x[i]))},
                         {"cy", px(axes.y(c.y[i]))},
                         {"r", "4.5"}})
        .put("title", c.name + ", " + words.readable(c.x[i], 6) + ": " + words.fixed(c.y[i], 2))
        .close();
}

void draw_line(PageWriter& page, const Curve& c, const Axes& axes) {
  std::string d;
  for (std::size_t i = 0; i < c.x.size(); ++i)
    d += (i == 0 ? "M" : "L") + px(axes.x(c.x[i])) + " " + px(axes.y(c.y[i]));
  page.markup()
      .open("path", {{"class", "line s" + std::to_string(c.colour)}, {"d", d}})
      .put("title", c.name)
      .close();
}

}  // namespace

void draw_bars(PageWriter& page, const std::vector<Bar>& bars, const Message& label,
               const std::string& unit) {
  double longest = 0;
  for (const Bar& bar : bars) longest = std::max(longest, length_of(bar));
  if (longest <= 0) return;
  const double scale = (whole_width - name_width - end_width) / longest;
  begin_picture(page.markup(), whole_width, row_height * static_cast<double>(bars.size()) + 6,
                page.words()(label));
  double y = 4;
  for (const Bar& bar : bars) {
    draw_bar(page, bar, y, scale, unit);
    y += row_height;
  }
  page.markup().close();
}

void draw_curves(PageWriter& page, const std::vector<Curve>& curves, const Message& label,
                 const std::string& unit, double width) {
  const Axes axes(curves, width);
  if (axes.empty()) return;
  begin_picture(page.markup(), width, curve_height, page.words()(label));
  draw_grid(page, axes, unit);
  for (const Curve& c : curves) c.marked ? draw_points(page, c, axes) : draw_line(page, c, axes);
  page.markup().close();
}

}  // namespace turnwright
