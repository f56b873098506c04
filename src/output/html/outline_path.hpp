// SPDX-License-Identifier: MIT
#pragma once
// Outlines as paths of SVG: a half section of outline and void, mirrored at the centre line.
#include <string>

#include "html/markup.hpp"
#include "turnwright/route/outline.hpp"

namespace turnwright {

inline constexpr double drawing_width = 940;

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

/// A body with a void in it, drawn and filled above and below the axis; `cuts`: more paths of its
/// half that are no material.
void draw_body(Markup& m, const Outline& outside, const Outline& hollow, const Scale& scale,
               const char* kind, const std::string& cuts = "");
/// The centre line, a little longer than the work.
void draw_axis(Markup& m, const Scale& scale);

}  // namespace turnwright
