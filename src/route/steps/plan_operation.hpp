// SPDX-License-Identifier: MIT
#pragma once
// The steps of one operation, in the order of work.
#include <vector>

#include "steps/operation_task.hpp"
#include "turnwright/route/planned.hpp"

namespace turnwright {

/// An operation with its steps, in global coordinates; what was made that is no outline (centre
/// holes); what the setter should know.
struct OperationPlan {
  Operation operation;
  std::vector<Feature> features;
  Messages cautions;
};

/// Plans all steps, or says which one cannot be done and what would help. Steps are numbered
/// from 1.
Planned<OperationPlan> plan_operation(const Job& job, const Shop& shop, const Machine& machine,
                                      const View& view, OperationTask task);

}  // namespace turnwright
