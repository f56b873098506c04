// SPDX-License-Identifier: MIT
#include "charts.hpp"

#include <algorithm>
#include <cmath>

#include "page_parts.hpp"

namespace turnwright {
namespace {

constexpr double chart_width = 940, bar_height = 24, name_width = 150, end_width = 80;

// 1, 2, 5, 10, 20 … between two numbers.
std::vector<double> round_steps(double low, double high) {
  std::vector<double> steps;
  for (double decade = std::pow(10, std::floor(std::log10(low))); decade <= high; decade *= 10)
    for (const double n : {1.0, 2.0, 5.0})
      if (n * decade >= low * 0.999 && n * decade <= high * 1.001) steps.push_back(n * decade);
  return steps;
}

}  // namespace

void draw_bars(Markup& m, const std::vector<Bar>& bars, const std::string& label,
               const std::string& unit) {
  double longest = 0;
  for (const Bar& bar : bars) {
    double sum = 0;
    for (const Stretch& s : bar.stretches) sum += s.length;
    longest = std::max(longest, sum);
  }
  if (longest <= 0) return;
  const double scale = (chart_width - name_width - end_width) / longest;
  begin_picture(m, chart_width, (bar_height + 8) * static_cast<double>(bars.size()) + 6, label);
  double y = 4;
  for (const Bar& bar : bars) {
    picture_text(m, name_width - 8, y + bar_height * 0.7, bar.name, "end");
    double x = name_width, sum = 0;
    for (const Stretch& s : bar.stretches) {
      sum += s.length;
      const double wide = s.length * scale;
      if (wide > 0.01) {
        m.open("rect", {{"class", "k" + std::to_string(s.colour) + (s.hatched ? " faint" : "")},
                        {"x", px(x)},
                        {"y", px(y)},
                        {"width", px(wide)},
                        {"height", px(bar_height)}});
        m.put("title", s.name + ", " + readable(s.length, 3) + " " + unit).close();
      }
      x += wide;
    }
    picture_text(m, x + 6, y + bar_height * 0.7, readable(sum, 3) + " " + unit, "start");
    y += bar_height + 8;
  }
  m.close();
}

void draw_curves(Markup& m, const std::vector<Curve>& curves, const std::string& label,
                 const std::string& unit) {
  constexpr double height = 300, left = 70, right = 20, top = 12, bottom = 40;
  double x_low = 1e300, x_high = 0, y_high = 0;
  for (const Curve& c : curves)
    for (std::size_t i = 0; i < c.x.size(); ++i) {
      x_low = std::min(x_low, c.x[i]);
      x_high = std::max(x_high, c.x[i]);
      y_high = std::max(y_high, c.y[i]);
    }
  if (x_high <= x_low || y_high <= 0) return;
  auto x = [&](double v) {
    return left + (chart_width - left - right) * std::log(v / x_low) / std::log(x_high / x_low);
  };
  auto y = [&](double v) { return top + (height - top - bottom) * (1 - v / y_high); };
  begin_picture(m, chart_width, height, label);
  std::string grid;
  for (const double q : round_steps(x_low, x_high)) {
    grid += "M" + px(x(q)) + " " + px(top) + "V" + px(height - bottom);
    picture_text(m, x(q), height - bottom + 16, readable(q, 4), "middle");
  }
  const double decade = std::pow(10, std::floor(std::log10(y_high)));
  const double step = y_high / decade < 2 ? decade / 4 : y_high / decade < 5 ? decade / 2 : decade;
  for (double v = 0; v <= y_high; v += step) {
    grid += "M" + px(left) + " " + px(y(v)) + "H" + px(chart_width - right);
    picture_text(m, left - 6, y(v) + 4, readable(v, 4), "end");
  }
  m.shape("path", {{"class", "grid"}, {"d", grid}});
  picture_text(m, chart_width - right, height - 6, "good pieces", "end");
  picture_text(m, 4, top + 2, unit, "start");
  for (const Curve& c : curves) {
    const std::string colour = std::to_string(c.colour);
    if (c.marked) {
      for (std::size_t i = 0; i < c.x.size(); ++i)
        m.open(
             "circle",
             {{"class", "k" + colour}, {"cx", px(x(c.x[i]))}, {"cy", px(y(c.y[i]))}, {"r", "4.5"}})
            .put("title", c.name + " at " + readable(c.x[i], 6) + ": " + fixed(c.y[i], 2))
            .close();
      continue;
    }
    std::string d;
    for (std::size_t i = 0; i < c.x.size(); ++i)
      d += (i == 0 ? "M" : "L") + px(x(c.x[i])) + " " + px(y(c.y[i]));
    m.open("path", {{"class", "line s" + colour}, {"d", d}}).put("title", c.name).close();
  }
  m.close();
}

}  // namespace turnwright
