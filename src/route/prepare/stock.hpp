// SPDX-License-Identifier: MIT
#pragma once
// What the part is made from.
#include "prepare/preparation.hpp"

namespace turnwright {

/// The stock being chosen: what was asked, and what its condition says.
struct StockChoice {
  Preparation& preparation;
  const PartStock& asked;
  const StockCondition& condition;

  Job& job() const { return preparation.job; }
  Stock& stock() const { return preparation.job.stock; }
  /// Problems of stock that nobody asked for stand at the head of the file.
  void refuse(Message what, Message expected) const;
};

/// The largest diameters of the outside: turned, and left as the bar is bought.
struct LargestDiameters {
  Length turned{}, drawn{};
};

/// The diameter of round bar, or of a tube.
void choose_diameter(const StockChoice& choice, const LargestDiameters& largest);
/// A casting or forging: the finished shape with stock on every side.
void shape_casting(const StockChoice& choice);

}  // namespace turnwright
