// SPDX-License-Identifier: MIT
#include "turnwright/tune/limit.hpp"

#include <array>
#include <cstddef>

namespace turnwright {

// In the order of the enums.
const char* name_of(LimitId limit) {
  static constexpr std::array names{"tool-feed",
                                    "face-feed",
                                    "roughness",
                                    "least-feed",
                                    "power",
                                    "torque",
                                    "grip",
                                    "grip-along-axis",
                                    "spindle-speed",
                                    "depth-in-diameters",
                                    "threading-feed-rate",
                                    "bending",
                                    "bar-bending",
                                    "depth",
                                    "reach",
                                    "bar-reach",
                                    "infeed",
                                    "least-speed",
                                    "cutting-force",
                                    "stable-cutting",
                                    "temperature",
                                    "tool-life"};
  static_assert(names.size() == static_cast<std::size_t>(LimitId::tool_life) + 1);
  return names[static_cast<std::size_t>(limit)];
}

const char* name_of(Remedy remedy) {
  static constexpr std::array names{
      "none",          "feed",        "surface-speed",        "speed-and-feed-and-pecks",
      "one-more-pass", "spring-pass", "finish-asks-for-less", "time-rises"};
  static_assert(names.size() == static_cast<std::size_t>(Remedy::time_rises) + 1);
  return names[static_cast<std::size_t>(remedy)];
}

}  // namespace turnwright
