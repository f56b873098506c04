// SPDX-License-Identifier: MIT
#pragma once
// A solid recognised: its outline, what is not turned, and how much of it the outline explains.
#include <vector>

#include "feature.hpp"
#include "outline.hpp"

namespace turnwright::step {

/// About where the outline has more than the model.
struct Missing {
  double at = 0;  // from the right-hand end
  double diameter = 0;
};

struct Recognised {
  ModelVerdict verdict = ModelVerdict::no_axis;
  double turned_share = 0;  // of the surface
  double volume = 0, outline_volume = 0;
  Missing missing;
  double length = 0;
  TurnedOutline outline;
  std::vector<Feature> features;
};

/// `grid`: what places are rounded to.
Recognised recognised(const TopoDS_Shape& solid, bool flip, double grid);

}  // namespace turnwright::step
