// SPDX-License-Identifier: MIT
// Which thread a plain diameter may stand for: models show threads as cylinders. Only ever asked,
// never written: a coupler's bore of 5 is no M6.
#include <array>
#include <cmath>

#include "drafting.hpp"
#include "turnwright/part/thread.hpp"
#include "turnwright/quantity/unit.hpp"

namespace turnwright {
namespace {

// Metric coarse threads, first choice (ISO 261:1998, table 2), and the drills for them (ISO
// 2306:1972, from memory): the major diameter less the pitch, to a drill that is sold.
struct Coarse {
  double major, drill;  // mm
};
constexpr std::array coarse{Coarse{2, 1.6},   Coarse{2.5, 2.05}, Coarse{3, 2.5},   Coarse{4, 3.3},
                            Coarse{5, 4.2},   Coarse{6, 5.0},    Coarse{8, 6.8},   Coarse{10, 8.5},
                            Coarse{12, 10.2}, Coarse{16, 14.0},  Coarse{20, 17.5}, Coarse{24, 21.0},
                            Coarse{30, 26.5}, Coarse{36, 32.0},  Coarse{42, 37.5}, Coarse{48, 43.0},
                            Coarse{56, 50.5}, Coarse{64, 58.0}};
constexpr double as_drawn = 0.011;  // mm, a size that stands for another

std::string name(const Coarse& c) {
  std::string text = std::to_string(c.major);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return "M" + text;
}

}  // namespace

std::string tapped_in(Length hole) {
  const double d = in(hole, unit::mm);
  for (const Coarse& c : coarse) {
    TextFault fault;
    const auto thread = read_thread(name(c), fault);
    const double core = thread ? in(thread->core(), unit::mm) : c.drill;
    if (std::abs(d - c.drill) < as_drawn || std::abs(d - core) < as_drawn) return name(c);
  }
  return "";
}

std::string threaded_on(Length shaft) {
  for (const Coarse& c : coarse)
    if (std::abs(in(shaft, unit::mm) - c.major) < as_drawn) return name(c);
  return "";
}

}  // namespace turnwright
