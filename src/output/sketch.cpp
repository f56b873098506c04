// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "shown.hpp"
#include "turnwright/document/reader.hpp"
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

}  // namespace

std::string padded(std::string text, std::size_t width, bool right) {
  const std::size_t n = characters(text);
  if (n >= width) return text;
  const std::string made(width - n, ' ');
  return right ? made + text : text + made;
}

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
  // Seen so that the chuck is at the left.
  const Length mirror = job.left();
  auto local = [&](const Outline& o) { return operation.from_left ? o.mirrored(mirror) : o; };
  auto z = [&](Length global) { return operation.from_left ? mirror - global : global; };
  const Outline before = local(operation.before), after = local(operation.after);
  const Outline hollow = local(operation.hollow_after);
  const Picture picture(before.left(), before.right(), before.largest(), width);
  const int from = picture.column(min(z(operation.grip_from), z(operation.grip_to)));
  const int to = picture.column(max(z(operation.grip_from), z(operation.grip_to)));
  const bool jaws = operation.support != Support::between_centres;
  const bool centre = operation.support != Support::chuck;
  const int end = picture.column(after.empty() ? Length(0.0) : after.right());
  return picture.draw(
      [&](int i) { return picture.height(after.left_of(picture.middle(i))); },
      [&](int i) { return hollow.empty() ? 0 : picture.height(hollow.left_of(picture.middle(i))); },
      [&](int i, int row, int h) {
        const int at = std::abs(row);
        if (jaws && i >= from && i < std::max(to, from + 1) && at > h && at <= h + 1) return '#';
        if (centre && row == 0 && (i == end - 1 || (!jaws && i == 0))) return i == 0 ? '>' : '<';
        return char{0};
      },
      1);
}

}  // namespace turnwright
