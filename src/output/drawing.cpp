// SPDX-License-Identifier: MIT
#include "drawing.hpp"

#include <algorithm>
#include <cmath>

#include "page_parts.hpp"
#include "turnwright/document/reader.hpp"

namespace turnwright {
namespace {

constexpr double drawing_width = 940;
constexpr double letter = 6.2;  // of a label's width a character, at 11 pixels

std::string axis_of(const Scale& s) {
  return "M" + px(s.left() - 14) + " " + px(s.axis()) + "H" + px(s.right() + 14);
}

void closed(Markup& m, const std::string& half, const Scale& s, const char* kind) {
  // The mirror image below the axis is the same path again.
  m.shape("path", {{"class", kind}, {"d", half}, {"fill-rule", "evenodd"}});
  m.shape("path", {{"class", kind},
                   {"d", half},
                   {"fill-rule", "evenodd"},
                   {"transform", "matrix(1 0 0 -1 0 " + px(2 * s.axis()) + ")"}});
}

std::string body_path(const Outline& outside, const Outline& hollow, const Scale& s) {
  return half_path(outside, s) + (hollow.empty() ? "" : half_path(hollow, s));
}

// Labels along the part, each in the first row where it has room.
class Rows {
 public:
  int row(double from, double to) {
    for (std::size_t i = 0; i < ends_.size(); ++i)
      if (from >= ends_[i] + 6) {
        ends_[i] = to;
        return static_cast<int>(i);
      }
    ends_.push_back(to);
    return static_cast<int>(ends_.size()) - 1;
  }
  int count() const { return static_cast<int>(ends_.size()); }

 private:
  std::vector<double> ends_;
};

struct Label {
  std::string text;
  double middle = 0, from = 0, to = 0;  // x; the stretch that is meant
  double at = 0;                        // y of what it points to
  int row = 0;
};

double label_width(const std::string& text) {
  return letter * static_cast<double>(characters(text));
}
// Keeps a label inside the picture.
double centred(const Label& l) {
  const double half = label_width(l.text) / 2;
  return std::clamp(l.middle, half + 2, std::max(half + 2, drawing_width - half - 2));
}

}  // namespace

Scale::Scale(Length left, Length right, Length largest, double width, double height)
    : left_(left.si), right_(right.si) {
  factor_ = std::min(width / (right_ - left_), height / (2 * largest.si));
  margin_ = (drawing_width - (right_ - left_) * factor_) / 2;
  axis_ = largest.si * factor_;
}
double Scale::x(Length z) const {
  return margin_ + (turned_ ? right_ - z.si : z.si - left_) * factor_;
}
double Scale::y(Length r) const { return axis_ - r.si * factor_; }
double Scale::right() const { return margin_ + (right_ - left_) * factor_; }
Scale Scale::turned_round() const {
  Scale s = *this;
  s.turned_ = !turned_;
  return s;
}

std::string half_path(const Outline& outline, const Scale& s) {
  std::string d;
  auto to = [&](char command, const Point& p) { d += command + px(s.x(p.z)) + " " + px(s.y(p.r)); };
  Length end(0.0);
  bool open = false;
  auto close = [&] {
    // Left open along the axis: the fill closes it, and no edge is drawn there.
    if (open) d += "L" + px(s.x(end)) + " " + px(s.axis());
    open = false;
  };
  for (const Segment& segment : outline.pieces()) {
    if (segment.from.r.si < same_point && segment.to.r.si < same_point) {
      close();
      continue;
    }
    if (!open) {
      to('M', {segment.from.z, Length(0.0)});
      open = true;
    }
    to('L', segment.from);
    if (segment.bulge == Bulge::none) {
      to('L', segment.to);
    } else {
      // z grows along the path; "out" bends away from the axis, which is up on the picture.
      const bool clockwise = (segment.bulge == Bulge::out) != s.is_turned_round();
      const std::string r = px(s.size(segment.radius));
      for (const std::string& word :
           {"A" + r, " " + r, std::string(clockwise ? " 0 0 1 " : " 0 0 0 "), px(s.x(segment.to.z)),
            " " + px(s.y(segment.to.r))})
        d += word;
    }
    end = segment.to.z;
  }
  close();
  return d;
}

void draw_part(Markup& m, const Job& job, const Shown& shown) {
  const Scale scale(job.left(), Length(0.0), job.finished.largest(), drawing_width - 60, 250);
  // Diameters above, lengths below, each row of labels as close as it fits.
  std::vector<Label> above, below;
  Rows rows_above, rows_below;
  auto add = [&](std::vector<Label>& into, Rows& rows, Label l) {
    const double half = label_width(l.text) / 2, x = centred(l);
    l.row = rows.row(x - half, x + half);
    into.push_back(std::move(l));
  };
  std::vector<const Surface*> from_left;
  for (const Surface& surface : job.outside()) from_left.push_back(&surface);
  std::reverse(from_left.begin(), from_left.end());
  for (const Surface* surface : from_left) {
    Label l;
    l.from = scale.x(surface->left);
    l.to = scale.x(surface->right);
    l.middle = (l.from + l.to) / 2;
    l.at = scale.y(max(surface->left_radius, surface->right_radius));
    l.text = surface->name;
    if (surface->ra.si > 0) l.text += ", Ra " + readable(in(surface->ra, shown.roughness()), 3);
    add(above, rows_above, l);
    l.text = shown.number(surface->right - surface->left, 5);
    l.at = scale.axis();
    add(below, rows_below, l);
  }
  constexpr double row_height = 16;
  const double top = row_height * rows_above.count() + 14;
  const double body = 2 * scale.axis();
  const double below_at = top + body + 22;
  const double overall_at = below_at + row_height * rows_below.count() + 12;
  const double height = overall_at + 14;
  begin_picture(
      m, drawing_width, height,
      "the finished part to scale, lengths and diameters in " + std::string(shown.length().name));
  m.open("g", {{"transform", "translate(0 " + px(top) + ")"}});
  closed(m, body_path(job.finished, job.hollow(), scale), scale, "body edge");
  m.shape("path", {{"class", "axis"}, {"d", axis_of(scale)}});
  m.close();
  auto text = [&](double x, double y, const std::string& words) {
    picture_text(m, x, y, words, "middle");
  };
  for (const Label& l : above) {
    const double y = top - 10 - row_height * l.row;
    m.shape("path", {{"class", "thin"},
                     {"d", "M" + px(l.middle) + " " + px(top + l.at) + "V" + px(y + 3)}});
    text(centred(l), y, l.text);
  }
  std::string ticks;
  for (const Label& l : below) {
    for (const double x : {l.from, l.to})
      ticks += "M" + px(x) + " " + px(top + body + 2) + "V" + px(below_at - 8);
    text(centred(l), below_at + 4 + row_height * l.row, l.text);
  }
  ticks += "M" + px(scale.left()) + " " + px(overall_at) + "H" + px(scale.right());
  for (const double x : {scale.left(), scale.right()})
    ticks += "M" + px(x) + " " + px(overall_at - 5) + "v10";
  m.shape("path", {{"class", "thin"}, {"d", ticks}});
  text((scale.left() + scale.right()) / 2, overall_at - 4, shown.mm(job.part.overall));
  m.close();
}

void draw_step(Markup& m, const Operation& operation, std::size_t k) {
  const Step& step = operation.steps[k];
  const Outline& before = k == 0 ? operation.before : operation.steps[k - 1].work_after;
  const Outline& hollow = k == 0 ? operation.hollow_before : operation.steps[k - 1].hollow_after;
  Scale scale(operation.before.left(), operation.before.right(), operation.before.largest(),
              drawing_width - 130, 200);
  if (operation.from_left) scale = scale.turned_round();
  constexpr double jaw = 26;
  const double height = 2 * scale.axis() + 2 * jaw + 8;
  begin_picture(m, drawing_width, height,
                "step " + std::to_string(step.number) + ", " + name_of(step.kind) + ", from " +
                    readable(in(-step.to, unit::mm), 4) + " to " +
                    readable(in(-step.from, unit::mm), 4) + " mm; shaded: what it removes");
  m.open("g", {{"transform", "translate(0 " + px(jaw + 4) + ")"}});
  closed(m, body_path(before, hollow, scale), scale, "cut");
  closed(m, body_path(step.work_after, step.hollow_after, scale), scale, "body edge");
  const double a = scale.x(operation.grip_from), b = scale.x(operation.grip_to);
  const double from = std::min(a, b), wide = std::max(std::abs(b - a), 4.0);
  auto block = [&](double y, double high) {
    m.shape("rect", {{"class", "jaw"},
                     {"x", px(from)},
                     {"y", px(y)},
                     {"width", px(wide)},
                     {"height", px(high)}});
  };
  const double r = scale.size(operation.grip_diameter / 2.0);
  if (operation.mandrel) {
    block(scale.axis() - r, 2 * r);
  } else if (operation.support != Support::between_centres) {
    block(scale.axis() - r - jaw, jaw);
    block(scale.axis() + r, jaw);
  }
  // Centres point into the ends: the tailstock's at the free end, the other at the driver.
  auto point = [&](double x, int side) {
    m.shape("path", {{"class", "jaw"},
                     {"d", "M" + px(x - side * 4) + " " + px(scale.axis()) + "l" + px(side * 26) +
                               " -13v26z"}});
  };
  const Outline& work = step.work_after.empty() ? before : step.work_after;
  const double free_end = std::max(scale.x(work.left()), scale.x(work.right()));
  const bool held_yet = step.kind != StepKind::face && step.kind != StepKind::centre;
  if (operation.support == Support::between_centres ||
      (operation.support == Support::chuck_and_centre && held_yet))
    point(free_end, 1);
  if (operation.support == Support::between_centres)
    point(std::min(scale.x(work.left()), scale.x(work.right())), -1);
  m.shape("path", {{"class", "axis"}, {"d", axis_of(scale)}});
  m.close();
  m.close();
}

}  // namespace turnwright
