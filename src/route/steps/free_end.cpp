// SPDX-License-Identifier: MIT
#include "steps/free_end.hpp"

#include "geometry/bend.hpp"

namespace turnwright {

Machine at_free_end(const OperationContext& op) {
  const Operation& o = op.task.operation;
  Machine machine = op.machine;
  if (o.free_ratio <= 0) return machine;
  machine.chuck.rated_speed =
      min(machine.chuck.rated_speed, steady_speed(op.job.material, o, false));
  return machine;
}

}  // namespace turnwright
