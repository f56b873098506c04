// SPDX-License-Identifier: MIT
#include "text/sketch.hpp"

#include <algorithm>
#include <cmath>

#include "turnwright/output/text.hpp"

namespace turnwright {
namespace {

// A picture of a body of revolution in characters: the upper half above the axis and its mirror
// image.
class Picture {
 public:
  Picture(Length left, Length right, Length top, int width)
      : left_(left.si), length_((right - left).si), top_(top.si), columns_(std::max(20, width)) {
    // A character is about twice as high as wide.
    rows_ = std::clamp(static_cast<int>(std::lround(top_ / length_ * columns_ / 2)), 2, 9);
  }
  int columns() const { return columns_; }
  Length middle(int column) const { return Length(left_ + length_ * (column + 0.5) / columns_); }
  int height(Length r) const { return static_cast<int>(std::lround(r.si / top_ * rows_)); }
  int column(Length z) const {
    return std::clamp(static_cast<int>(std::lround((z.si - left_) / length_ * columns_)), 0,
                      columns_);
  }

  // `outer` and `hole` give the heights of a column; `mark` may put a sign over what is drawn.
  template <class Outer, class Hole, class Mark>
  std::string draw(Outer outer, Hole hole, Mark mark, int margin) const {
    std::string text;
    for (int row = rows_ + margin; row >= -rows_ - margin; --row) {
      std::string line = "  ";
      for (int i = 0; i < columns_; ++i) {
        const int h = outer(i), hollow = hole(i), at = std::abs(row);
        char c = ' ';
        if (row == 0)
          c = i % 4 == 3 ? ' ' : '-';
        else if (at == h)
          c = '=';
        else if (at < h)
          c = at <= hollow ? ' ' : '.';
        const char over = mark(i, row, h);
        line += over != 0 ? over : c;
      }
      while (!line.empty() && line.back() == ' ') line.pop_back();
      text += line + "\n";
    }
    return text;
  }

 private:
  double left_, length_, top_;
  int columns_, rows_ = 2;
};

// The work seen so that the chuck is at the left.
class View {
 public:
  View(const Job& job, const Operation& operation)
      : mirror_(job.left()), mirrored_(operation.from_left) {}
  Outline seen(const Outline& outline) const {
    return mirrored_ ? outline.mirrored(mirror_) : outline;
  }
  Length seen(Length z) const { return mirrored_ ? mirror_ - z : z; }

 private:
  Length mirror_;
  bool mirrored_;
};

// Jaws and centres over the picture.
class Signs {
 public:
  Signs(const Picture& picture, const View& view, const Operation& operation, int end)
      : jaws_(operation.support != Support::between_centres),
        centre_(operation.support != Support::chuck),
        end_(end) {
    const Length a = view.seen(operation.grip_from), b = view.seen(operation.grip_to);
    from_ = picture.column(min(a, b));
    to_ = std::max(picture.column(max(a, b)), from_ + 1);
  }
  /// 0: no sign.
  char at(int column, int row, int height) const {
    const int above = std::abs(row);
    if (jaws_ && column >= from_ && column < to_ && above > height && above <= height + 1)
      return '#';
    if (!centre_ || row != 0) return 0;
    if (column == end_ - 1 && column > 0) return '<';
    return column == 0 && (!jaws_ || end_ == 1) ? '>' : char{0};
  }

 private:
  bool jaws_, centre_;
  int end_, from_ = 0, to_ = 1;
};

}  // namespace

// Left end at the left.
std::string sketch(const Job& job, int width) {
  const Picture picture(job.left(), Length(0.0), job.finished.largest(), width);
  const Outline hollow = job.hollow();
  return picture.draw(
      [&](int i) { return std::max(1, picture.height(job.finished.left_of(picture.middle(i)))); },
      [&](int i) { return hollow.empty() ? 0 : picture.height(hollow.left_of(picture.middle(i))); },
      [](int, int, int) { return char{0}; }, 0);
}

std::string clamping_sketch(const Job& job, const Operation& operation, int width) {
  const View view(job, operation);
  const Outline before = view.seen(operation.before), after = view.seen(operation.after);
  const Outline hollow = view.seen(operation.hollow_after);
  const Picture picture(before.left(), before.right(), before.largest(), width);
  const Signs signs(picture, view, operation,
                    picture.column(after.empty() ? Length(0.0) : after.right()));
  return picture.draw(
      [&](int i) { return picture.height(after.left_of(picture.middle(i))); },
      [&](int i) { return hollow.empty() ? 0 : picture.height(hollow.left_of(picture.middle(i))); },
      [&](int i, int row, int h) { return signs.at(i, row, h); }, 1);
}

}  // namespace turnwright
