// SPDX-License-Identifier: MIT
#pragma once
// What the explanation of a price works with: a lot, its pieces and its lines of cost.
#include "table.hpp"
#include "text/explain.hpp"

namespace turnwright {

struct ExplainedLot {
  const Explained& what;
  int quantity;
  model::LotInputs<double> in;
  model::LotLines<double> lines;
  const Words& words;

  int releases() const { return static_cast<int>(in.releases.si); }
  /// Good pieces of each release.
  Number good() const { return in.quantity / in.releases; }
};

/// From the good pieces back to those that are run, stage by stage, and the blanks.
void explain_pieces(TextWriter& out, const ExplainedLot& lot);
/// The lines of cost, each with what it is worked out from.
Table explain_costs(const ExplainedLot& lot, Money cost);
/// What own work beside the turning takes: minutes, and by whose hour.
Messages explain_other_work(const ExplainedLot& lot);
/// Of the lathe's hour and of the operator's: machine, person, and the overhead on both.
Messages rates_of(const ExplainedLot& lot);

}  // namespace turnwright
