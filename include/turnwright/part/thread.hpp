// SPDX-License-Identifier: MIT
#pragma once
// Screw threads as a drawing writes them: "M24x2-6g", "M30x6(P2) LH", "1/2-20 UNF-2A", "G1/2".
#include <optional>
#include <string>
#include <string_view>

#include "turnwright/quantity/quantity.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {

/// metric ISO 261, unified ASME B1.1, pipe ISO 228 (parallel), pipe_taper ISO 7, npt ASME B1.20.1,
/// trapezoidal ISO 2904.
enum class ThreadForm { metric, unified, pipe, pipe_taper, npt, trapezoidal };

struct Thread {
  std::string designation;
  ThreadForm form = ThreadForm::metric;
  Length major{}, pitch{};
  int starts = 1;
  bool left_hand = false;
  std::string tolerance_class;  // "6g", "2A"; "" when unsaid

  Length lead() const { return static_cast<double>(starts) * pitch; }
  /// Radial depth of the groove below the major diameter (outside) or above the minor one (inside).
  Length depth(bool inside) const;
  /// The diameter that the hole of an inside thread is made to.
  Length core() const;
  /// Half of the angle between the flanks, rad.
  double flank_angle() const;
};

/// The thread; nothing, and what is wrong with its designation in `fault`.
std::optional<Thread> read_thread(std::string_view text, TextFault& fault);

}  // namespace turnwright
