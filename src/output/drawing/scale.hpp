// SPDX-License-Identifier: MIT
#pragma once
// How a workpiece comes onto a drawing.
#include "turnwright/quantity/quantity.hpp"

namespace turnwright {

/// x from the left, y down, the centre line at `axis`.
class Scale {
 public:
  /// The longest and largest work that is to fit into width and height, in the middle of a drawing.
  Scale(Length left, Length right, Length largest, double width, double height, double drawing);
  double x(Length z) const;
  double y(Length r) const;
  double size(Length l) const { return l.si * factor_; }
  double axis() const { return axis_; }
  double left() const { return margin_; }
  double right() const;
  /// Lower by what is free above.
  void move_down(double room) { axis_ += room; }
  /// Seen with the part turned round: the left end at the right.
  Scale turned_round() const;
  bool is_turned_round() const { return turned_; }

 private:
  double left_, right_, factor_ = 1, axis_ = 0, margin_ = 0;
  bool turned_ = false;
};

}  // namespace turnwright
