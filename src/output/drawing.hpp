// SPDX-License-Identifier: MIT
#pragma once
// The workpiece to scale, as SVG: a half section of outline and void, mirrored at the centre line.
#include <string>

#include "markup.hpp"
#include "shown.hpp"

namespace turnwright {

/// How outlines come onto a picture: x from the left, y down, the centre line at `axis`.
class Scale {
 public:
  /// The longest and largest work that is to fit into width and height.
  Scale(Length left, Length right, Length largest, double width, double height);
  double x(Length z) const;
  double y(Length r) const;
  double size(Length l) const { return l.si * factor_; }
  double axis() const { return axis_; }
  double left() const { return margin_; }
  double right() const;
  /// Seen with the part turned round: the left end at the right.
  Scale turned_round() const;
  bool is_turned_round() const { return turned_; }

 private:
  double left_, right_, factor_ = 1, axis_ = 0, margin_ = 0;
  bool turned_ = false;
};

/// "M…L…" of the half above the axis, open along it; lines and true arcs.
std::string half_path(const Outline& outline, const Scale& scale);

/// The finished part with centre line, diameters and lengths.
void draw_part(Markup& m, const Job& job, const Shown& shown);

/// One step in its operation: what it removes shaded, what is left, jaws and centre.
void draw_step(Markup& m, const Operation& operation, std::size_t step);

}  // namespace turnwright
