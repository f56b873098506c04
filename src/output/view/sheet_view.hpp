// SPDX-License-Identifier: MIT
#pragma once
// A step sheet as text and paper both have it.
#include <string>
#include <vector>

#include "turnwright/estimate/times.hpp"
#include "turnwright/output/json.hpp"
#include "turnwright/output/words.hpp"

namespace turnwright {

struct SheetTool {
  std::string station, name, insert;
  bool mounted = false;  // in the turret, else to be loaded
};

/// A size that a step finishes.
struct SheetSize {
  Message size;        // as drawn
  std::string limits;  // "+0.015/+0.002", "±0.3", or what it is turned to before grinding
  Message gauged;      // how often; empty: not
  int count = 1;       // alike in this step
};

/// Numbers without a cut are "".
struct SheetStep {
  std::string label, work, station;
  std::string surface_speed, spindle, feed, depth, passes, minutes;
  Message why;  // where its kind does not say it
  std::vector<SheetSize> sizes;
};

struct SheetOperation {
  const Operation* operation = nullptr;
  Messages clamping;  // grip, side, bar
  std::vector<SheetTool> tools;
  std::vector<SheetStep> steps;
  Messages cautions;
  Time cycle{}, setup{};
};

struct SheetView {
  std::vector<SheetOperation> operations;
  Message too_many_tools;  // for the turret
  Messages cautions;       // of the part
};
SheetView sheet_view(const Route& route, const RouteTimes& times, const Shop& shop,
                     const Words& words);

/// "30 k6 x42 +0.015/+0.002, every piece", with how many of them.
std::string size_line(const SheetSize& size, const Words& words);

}  // namespace turnwright
