// SPDX-License-Identifier: MIT
#pragma once
// A tool along a contour.
#include "steps/cut.hpp"

namespace turnwright {

/// What is followed, by which tool: from right to left, faces included, over the intervals given.
struct Contour {
  const Tool& tool;
  StepKind kind;
  const Outline& shape;
  const std::vector<Interval>& where;
  Length depth{};
  bool by_finish = false;  // the finish asked for decides the feed, IT6 takes two cuts
  bool inside = false;
};
std::vector<CutSegment> segments_along(const OperationContext& op, Workpiece& work,
                                       const Contour& contour);

}  // namespace turnwright
