// SPDX-License-Identifier: MIT
#pragma once
// One cut with every number that screen and files derive from it, worked out once.
#include <optional>
#include <vector>

#include "turnwright/compare/bench_cut.hpp"

namespace turnwright {

/// What a feed may be by one reason.
enum class FeedReason {
  table,
  first,
  tool_most,
  tool_least,
  width,
  lead,
  diameter,
  rolls,
  roughness,
  stiffness,
  machine
};
const char* name_of(FeedReason reason);
struct FeedView {
  FeedReason reason = FeedReason::table;
  Length feed{};
  bool decides = false;
};

/// The spindle speed of the first pass, and what it is measured against.
struct SpindleView {
  Length diameter{};
  Speed wanted{}, real{};  // surface speed asked for; at the speed that is set
  Frequency exact{}, by_rule{}, set{}, next_lower{};
  double rule_off = 0;   // of the rule 4 CS / D
  double deviation = 0;  // of what is set from the exact
  bool on_ladder = false, in_band = false;
  bool clamped = false;  // the fastest of machine and chuck decides
  bool varies = false;   // constant surface speed over falling diameters
};

struct BenchStepView {
  const Step* step = nullptr;
  const StepTime* time = nullptr;
  const Tool* tool = nullptr;
  BenchTask task;
  TableSpeed table;
  std::vector<SpeedCorrection> corrections;
  SpindleView spindle;
  std::vector<FeedView> feeds;
  Length depth{}, feed{};
  int passes = 0;
  Speed feed_rate{};       // what the carriage travels in a minute
  Length in_a_minute{};    // the same as a length
  Length in_15_seconds{};  // of the surface
  CutLoad load;
  Power rated_power{};
  Torque rated_torque{};
  Deflected bent;
  Time each{};      // cutting of the first pass
  double skin = 1;  // on the first cut's speed

  /// Overloaded: a speed above the exact one takes what the machine does not give.
  bool overloads() const { return load.power > rated_power * (1 + whole_slack); }
};
BenchStepView view_of(const BenchCut& cut, const Step& step, const StepTime& time);

/// What took the surface speed down.
Messages lowered_by(const Step& step);

/// How far the rule 4 CS / D is off the exact speed: pi / 3 - 1, everywhere.
double rule_deviation();

}  // namespace turnwright
