// SPDX-License-Identifier: MIT
#pragma once
#include <algorithm>

#include "../support.hpp"

namespace turnwright::test {

/// The money of a difference, each cause worked out from the lots by itself, adds up to its total.
inline void check_causes(const Quote& first, const Quote& other, const Difference& d) {
  const auto a = lot_lines(first, d.quantity), b = lot_lines(other, d.quantity);
  auto sum_of = [](const Quote& q, Time StepTime::*time) {
    Time sum(0.0);
    for (const OperationTime& operation : q.times.operations)
      for (const StepTime& step : operation.steps) sum += step.*time;
    return sum;
  };
  // Each at the rate of its own machine.
  auto running = [&](Time StepTime::*time) {
    auto cost = [&](const Quote& q, const model::LotLines<double>& lines) {
      return q.lot.releases * lines.pieces * sum_of(q, time) * q.lot.machine_rate *
             (1.0 + q.lot.overhead);
    };
    return cost(other, b) - cost(first, a);
  };
  const Amount changes = running(&StepTime::tool_change), cutting = running(&StepTime::cutting);
  const Amount other_time = (b.machine + b.labour + b.other + b.one_offs) -
                            (a.machine + a.labour + a.other + a.one_offs) - changes - cutting;
  CHECK(d.outside.si == Approx((b.outside - a.outside).si).margin(1e-9));
  CHECK(d.setup.si == Approx((b.setup - a.setup).si).margin(1e-9));
  CHECK(d.inserts.si == Approx((b.inserts - a.inserts).si).margin(1e-9));
  CHECK(d.material.si == Approx((b.material - a.material).si).margin(1e-9));
  CHECK(d.tool_change.si == Approx(changes.si).margin(1e-9));
  CHECK(d.cutting.si == Approx(cutting.si).margin(1e-9));
  CHECK(d.other_time.si == Approx(other_time.si).margin(1e-9));
  CHECK(d.total.si ==
        Approx((lot_cost(other, d.quantity) - lot_cost(first, d.quantity)).si).margin(1e-9));
}

/// Whether a method may be quoted unasked: the shop practises it, and no other is held back less in
/// a lot of so many.
inline bool may_lead(const Comparison& c, const MethodResult& method, int quantity) {
  if (!method.feasible() || !method.practised) return false;
  return std::none_of(c.methods.begin(), c.methods.end(), [&](const MethodResult& other) {
    return other.feasible() && other.practised &&
           other.held_back_at(quantity) < method.held_back_at(quantity);
  });
}

}  // namespace turnwright::test
