// SPDX-License-Identifier: MIT
#pragma once
// Handbook conditions against tuned ones, with what is derived of both worked out once.
#include <vector>

#include "turnwright/compare/tuned.hpp"

namespace turnwright {

/// The same lot with both conditions.
struct TunedLot {
  const Price* handbook = nullptr;
  const Price* best = nullptr;
  double cost_change = 0;  // share of the handbook's cost
};

struct TuneView {
  const Tuned* tuned = nullptr;
  const Quote* handbook = nullptr;
  const Quote* best = nullptr;
  std::vector<TunedLot> lots;
  /// Contribution an hour of the machine at the main quantity and the handbook's price, as in
  /// QuoteView.
  Rate contribution_before{}, contribution{};
  bool proved = false;       // every step to 1e-6
  double proved_to = 0;      // the widest gap, 0 at least
  bool whole_depth = false;  // roughing at the tool's largest depth is best
};
/// Only where both are feasible.
TuneView view_of(const Tuned& tuned);

inline constexpr double proved_gap = 1e-6;
inline bool is_tuned(const TunedStep& step) { return step.gap >= 0; }
inline bool is_proved(const TunedStep& step) { return step.gap <= proved_gap; }

/// A price's change as a share.
double change_of(Money before, Money after);

}  // namespace turnwright
