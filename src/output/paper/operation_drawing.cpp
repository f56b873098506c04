// SPDX-License-Identifier: MIT
#include "paper/operation_drawing.hpp"

#include <algorithm>
#include <cmath>

#include "paper/outline_shapes.hpp"
#include "turnwright/document/reader.hpp"
#include "view/labels.hpp"

namespace turnwright {
namespace {

constexpr double jaw = 30;  // its height
constexpr double letter = 6.8, row_height = 17, letters = 13, gap = 6;
constexpr double bold = 3, thin = 0.8, edge = 1.4;
constexpr double most_wide = drawing_width - 150, most_high = 210;

// What a size is called, above the surface that it is of.
struct SizeLabel {
  std::string text;
  double x = 0, y = 0;  // on the surface
  double middle = 0;    // of the text
  std::size_t row = 0;
};

double half_width(const SizeLabel& l) {
  return letter * static_cast<double>(characters(l.text)) / 2;
}
double end_of(const SizeLabel& l) { return l.middle + half_width(l); }

using LabelRow = std::vector<SizeLabel*>;

// The line of a label in a higher row goes past those in lower ones, which give way where there is
// room.
void give_way(const SizeLabel& to, const std::vector<LabelRow>& rows) {
  for (std::size_t i = 0; i < to.row; ++i) {
    SizeLabel& last = *rows[i].back();
    const double from = rows[i].size() > 1 ? end_of(*rows[i][rows[i].size() - 2]) + gap : 0;
    const double over = end_of(last) - (to.x - gap);
    if (over > 0 && over < half_width(last) && last.middle - half_width(last) - over >= from)
      last.middle -= over;
  }
}

// Each in the lowest row where it has room.
std::size_t put_in_rows(std::vector<SizeLabel>& labels) {
  std::sort(labels.begin(), labels.end(),
            [](const SizeLabel& a, const SizeLabel& b) { return a.x < b.x; });
  std::vector<LabelRow> rows;
  for (SizeLabel& l : labels) {
    l.middle = l.x;
    while (l.row < rows.size() && l.x - half_width(l) < end_of(*rows[l.row].back()) + gap) ++l.row;
    give_way(l, rows);
    if (l.row == rows.size()) rows.emplace_back();
    rows[l.row].push_back(&l);
  }
  return rows.size();
}

class OperationPicture {
 public:
  OperationPicture(const Job& job, const Operation& operation, const Words& words)
      : job_(job), o_(operation), words_(words), scale_(scale_of(operation)) {
    collect_sizes();
    top_ = row_height * static_cast<double>(put_in_rows(sizes_)) + jaw + 12;
  }

  paper::Drawing drawn() {
    drawing_.width = drawing_width;
    drawing_.height = top_ + 2 * scale_.axis() + jaw + 22;
    drawing_.letters = letters;
    drawing_.highest = 62;
    drawing_.label = words_({"sheet.drawing", {{"op", operation_label(o_)}}});
    draw_bar();
    const paper::Path before = body_path(o_.before, o_.hollow_before, scale_, top_);
    drawing_.shapes.push_back({before, paper::Colour::cut, thin});
    drawing_.shapes.push_back(
        {body_path(o_.after, o_.hollow_after, scale_, top_), paper::Colour::body, thin});
    for (const paper::Path& path :
         {new_path(o_.after, o_.before, Envelope::lower, scale_, top_),
          new_path(o_.hollow_after, o_.hollow_before, Envelope::upper, scale_, top_)})
      if (!path.empty()) drawing_.shapes.push_back({path, paper::Colour::none, bold});
    draw_jaws();
    draw_centres();
    draw_axis();
    draw_sizes();
    return std::move(drawing_);
  }

 private:
  // As far as the clamping reaches.
  static Length left_of(const Operation& o) {
    return o.support == Support::between_centres ? o.before.left()
                                                 : min(o.before.left(), o.grip_from);
  }
  static Scale scale_of(const Operation& o) {
    const Scale scale(left_of(o), max(o.before.right(), o.grip_to), o.before.largest(), most_wide,
                      most_high);
    return o.from_left ? scale.turned_round() : scale;
  }
  double axis() const { return top_ + scale_.axis(); }

  void collect_sizes() {
    for (const Step& step : o_.steps)
      for (const std::size_t n : step.gauged) {
        const Surface& s = job_.surfaces[n];
        sizes_.push_back({words_(s.name), (scale_.x(s.left) + scale_.x(s.right)) / 2,
                          scale_.y((s.left_radius + s.right_radius) / 2.0)});
      }
  }
  void draw_sizes() {
    for (const SizeLabel& l : sizes_) {
      const double y = top_ - jaw - 12 - row_height * static_cast<double>(l.row);
      drawing_.labels.push_back({l.middle, y, l.text});
      drawing_.shapes.push_back(
          {{{paper::Motion::move, l.x, y + 4}, {paper::Motion::line, l.x, top_ + l.y}},
           paper::Colour::none,
           thin});
    }
  }
  void block(double x, double y, double wide, double high) {
    paper::Path path{{paper::Motion::move, x, y},
                     {paper::Motion::line, x + wide, y},
                     {paper::Motion::line, x + wide, y + high},
                     {paper::Motion::line, x, y + high},
                     {paper::Motion::close}};
    drawing_.shapes.push_back({path, paper::Colour::white, edge});
    paper::Path hatch;
    for (double at = 8; at < wide + high; at += 8) {
      const double a = std::max(0.0, at - high), b = std::min(at, wide);
      hatch.push_back({paper::Motion::move, x + a, y + at - a});
      hatch.push_back({paper::Motion::line, x + b, y + at - b});
    }
    drawing_.shapes.push_back({hatch, paper::Colour::none, thin});
  }
  void draw_jaws() {
    const double a = scale_.x(o_.grip_from), b = scale_.x(o_.grip_to);
    const double from = std::min(a, b), wide = std::max(std::abs(b - a), 5.0);
    const double r = scale_.size(o_.grip_diameter / 2.0);
    if (o_.mandrel) return block(from, axis() - r, wide, 2 * r);
    if (o_.support == Support::between_centres) return;
    block(from, axis() - r - jaw, wide, jaw);
    block(from, axis() + r, wide, jaw);
    drawing_.labels.push_back(
        {from + wide / 2, axis() + r + jaw + 15, words_(clamping_of(o_)),
         from < drawing_width / 4 ? paper::Anchor::start : paper::Anchor::middle});
    if (from < drawing_width / 4) drawing_.labels.back().x = from;
  }
  // What of a bar stays in its jaws.
  void draw_bar() {
    if (o_.mandrel || left_of(o_).si > o_.before.left().si - same_point) return;
    const Outline bar = Outline::cylinder(left_of(o_), o_.before.left(), o_.grip_diameter / 2.0);
    drawing_.shapes.push_back({body_path(bar, Outline(), scale_, top_), paper::Colour::body, thin});
  }
  void draw_centre(double x, int side) {
    drawing_.shapes.push_back({{{paper::Motion::move, x - side * 4, axis()},
                                {paper::Motion::line, x + side * 24, axis() - 14},
                                {paper::Motion::line, x + side * 24, axis() + 14},
                                {paper::Motion::close}},
                               paper::Colour::white,
                               edge});
  }
  void draw_centres() {
    if (o_.support == Support::chuck || o_.after.empty()) return;
    const double a = scale_.x(o_.after.left()), b = scale_.x(o_.after.right());
    draw_centre(std::max(a, b), 1);
    if (o_.support == Support::between_centres) draw_centre(std::min(a, b), -1);
  }
  void draw_axis() {
    drawing_.shapes.push_back({{{paper::Motion::move, scale_.left() - 24, axis()},
                                {paper::Motion::line, scale_.right() + 34, axis()}},
                               paper::Colour::none,
                               thin,
                               true});
  }

  const Job& job_;
  const Operation& o_;
  const Words& words_;
  Scale scale_;
  std::vector<SizeLabel> sizes_;
  double top_ = 0;
  paper::Drawing drawing_;
};

}  // namespace

paper::Drawing operation_drawing(const Job& job, const Operation& operation, const Words& words) {
  return OperationPicture(job, operation, words).drawn();
}

}  // namespace turnwright
