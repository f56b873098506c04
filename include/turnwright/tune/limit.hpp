// SPDX-License-Identifier: MIT
#pragma once
// What a cutting condition can be limited by, and what is changed so that the limit holds.

namespace turnwright {

enum class LimitId {
  tool_feed,
  face_feed,
  roughness,
  least_feed,
  power,
  torque,
  grip,
  grip_along_axis,
  spindle_speed,
  depth_in_diameters,
  threading_feed_rate,
  bending,
  bar_bending,
  depth,           // of one cut
  reach,           // of a plunging tool
  bar_reach,       // of a boring bar
  infeed,          // of a thread's pass
  least_speed,     // the lower end of what is searched
  cutting_force,   // of published models, as the three below
  stable_cutting,  // no built-up edge
  temperature,
  tool_life
};
/// "tool-feed": how files and JSON spell it; the words stand under "limit." and this.
const char* name_of(LimitId limit);

enum class Remedy {
  none,
  feed,
  surface_speed,
  speed_and_feed_and_pecks,
  one_more_pass,
  spring_pass,
  finish_asks_for_less,
  time_rises
};
/// "surface-speed"; the words stand under "remedy." and this.
const char* name_of(Remedy remedy);

}  // namespace turnwright
