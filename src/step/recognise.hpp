// SPDX-License-Identifier: MIT
#pragma once
// A solid recognised: its outline, what is not turned, and how much of it the outline explains.
#include <vector>

#include "feature.hpp"
#include "outline.hpp"

namespace turnwright::step {

struct Recognised {
  ModelVerdict verdict = ModelVerdict::no_axis;
  double turned_share = 0;  // of the surface
  double volume = 0, outline_volume = 0;
  double length = 0;
  TurnedOutline outline;
  std::vector<Feature> features;
};

/// `grid`: what places are rounded to.
Recognised recognised(const TopoDS_Shape& solid, bool flip, double grid);

}  // namespace turnwright::step
