// SPDX-License-Identifier: MIT
#pragma once
// One cut as it is said at the lathe: "50 to 42 x120", "face 120 to 0", "drill 18 x40",
// "bore 30 to 32 x50", "groove 3 wide 40 to 34", "part off 40", "thread M24x2 x30", "ream 12 x30",
// "tap M10 x20", "knurl RGE 1.0 30 x20".
#include <optional>
#include <string>
#include <string_view>

#include "turnwright/part/thread.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {

enum class BenchWorkKind { turn, face, drill, ream, bore, groove, part_off, thread, tap, knurl };
/// "part-off": how JSON spells it; the words stand under "bench.work." and this.
const char* name_of(BenchWorkKind kind);

struct BenchWork {
  BenchWorkKind kind = BenchWorkKind::turn;
  std::string text;     // as written
  bool inch = false;    // its lengths are in inches
  Length from{}, to{};  // diameters; of a hole, a thread and a knurl both are its own
  Length length{};      // along the axis; of a face: the stock on it, 0: unsaid
  Length width{};       // of a groove
  Thread thread;
  std::string knurl;  // DIN 82
  Length pitch{};     // of a knurl
};

/// The work; nothing, and what is wrong with it in `fault`. Numbers without a unit are inches where
/// `inch`, or where another number of the text is.
std::optional<BenchWork> read_bench_work(const std::string& text, bool inch, TextFault& fault);

/// What somebody has set at the lathe: "300 rev/min, 0.1 mm/rev, 1 mm". Without a spindle speed the
/// surface speed, without both the usual ones, 0.
struct BenchSettings {
  Frequency spindle{};
  Speed surface_speed{};
  Length feed{}, depth{};
};
std::optional<BenchSettings> read_bench_settings(const std::string& text, bool inch,
                                                 TextFault& fault);

}  // namespace turnwright
