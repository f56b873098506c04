// SPDX-License-Identifier: MIT
#pragma once
// Screw threads as a drawing writes them: "M24x2-6g", "M30x6(P2) LH", "1/2-20 UNF-2A", "G1/2".
#include <optional>
#include <string>
#include <string_view>

#include "turnwright/quantity/quantity.hpp"

namespace turnwright {

/// metric ISO 261, unified ASME B1.1, pipe ISO 228 (parallel), ISO 7 and ASME B1.20.1 (taper),
/// trapezoidal ISO 2904.
enum class ThreadForm { metric, unified, pipe, pipe_taper, trapezoidal };

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

struct ThreadFault {
  std::string what, expected, suggestion;
};
/// The thread, or what is wrong with its designation.
std::optional<Thread> read_thread(std::string_view text, ThreadFault& fault);

}  // namespace turnwright
