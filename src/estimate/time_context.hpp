// SPDX-License-Identifier: MIT
#pragma once
// What every time of a route is worked out with: route, shop, and the lathe's column of the tables.
#include "turnwright/estimate/times.hpp"

namespace turnwright {

struct TimeContext {
  const Route& route;
  const Shop& shop;
  double allowance = 0;  // share on attended external work

  const Machine& machine() const { return route.machine; }
  bool manual() const { return machine().manual(); }
  Time element(HandlingId id) const { return shop.element(id).on(machine().kind); }
  Time setup_element(SetupId id) const { return shop.setup_element(id).on(machine().kind); }
  const Surface& surface(std::size_t n) const { return route.job.surfaces[n]; }
};

/// A groove's flank on a slope, left by a grooving tool that goes down it: by hand with the
/// compound slide.
bool has_flanks(const TimeContext& c, const Step& step);

/// Times of the steps of an operation, one after the other.
std::vector<StepTime> step_times(const TimeContext& c, const Operation& operation);

/// What each piece takes beside the steps, chips, allowance and own records not counted.
std::vector<ElementTime> piece_elements(const TimeContext& c, const Operation& operation);

/// Times of an operation without its setup.
OperationTime operation_time(const TimeContext& c, const Operation& operation);

/// Setting up one operation after the other; `times` holds what a piece takes in each.
void set_up(const TimeContext& c, std::vector<OperationTime>& times);

}  // namespace turnwright
