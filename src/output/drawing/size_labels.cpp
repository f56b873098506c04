// SPDX-License-Identifier: MIT
#include "drawing/size_labels.hpp"

#include <algorithm>

#include "turnwright/document/reader.hpp"

namespace turnwright {
namespace {

constexpr double letter = 7.2;  // of a label's width a character
constexpr double gap = 6;

double half_width(const SizeLabel& l) {
  return letter * static_cast<double>(characters(l.text)) / 2;
}
double end_of(const SizeLabel& l) { return l.middle + half_width(l); }

using LabelRow = std::vector<SizeLabel*>;

// A label goes to the left, and those before it that are in its way, while each still stands over
// what it points to.
bool move_left(const LabelRow& row, std::size_t i, double by) {
  SizeLabel& l = *row[i];
  if (l.x - l.middle + by >= half_width(l)) return false;
  const double limit = i > 0 ? end_of(*row[i - 1]) + gap : gap;
  const double over = limit - (l.middle - half_width(l) - by);
  if (over > 0 && (i == 0 || !move_left(row, i - 1, over))) return false;
  l.middle -= by;
  return true;
}

// The line of a label in a higher row goes past those in lower ones, which give way where there is
// room.
void give_way(const SizeLabel& to, const std::vector<LabelRow>& rows) {
  for (std::size_t i = 0; i < to.row; ++i) {
    const double over = end_of(*rows[i].back()) - (to.x - gap);
    if (over > 0) move_left(rows[i], rows[i].size() - 1, over);
  }
}

// Inside the drawing.
double centred(const SizeLabel& l, double width) {
  const double half = half_width(l) + 2;
  return std::clamp(l.x, half, std::max(half, width - half));
}

}  // namespace

std::size_t put_in_rows(std::vector<SizeLabel>& labels, double width) {
  std::sort(labels.begin(), labels.end(),
            [](const SizeLabel& a, const SizeLabel& b) { return a.x < b.x; });
  std::vector<LabelRow> rows;
  for (SizeLabel& l : labels) {
    l.middle = centred(l, width);
    while (l.row < rows.size() && l.middle - half_width(l) < end_of(*rows[l.row].back()) + gap)
      ++l.row;
    give_way(l, rows);
    if (l.row == rows.size()) rows.emplace_back();
    rows[l.row].push_back(&l);
  }
  return rows.size();
}

void draw_labels(paper::Drawing& drawing, const std::vector<SizeLabel>& labels, double base,
                 double step) {
  const double reach = step < 0 ? 4 : -12;  // from the base line to where its line begins
  for (const SizeLabel& l : labels) {
    const double y = base + step * static_cast<double>(l.row);
    drawing.labels.push_back({l.middle, y, l.text});
    drawing.shapes.push_back(
        {{{paper::Motion::move, l.x, y + reach}, {paper::Motion::line, l.x, l.y}},
         paper::Colour::none,
         0.8,
         false,
         true});
  }
}

}  // namespace turnwright
