// SPDX-License-Identifier: MIT
#include "steps/free_end.hpp"

#include "geometry/bend.hpp"

namespace turnwright {

Machine at_free_end(const OperationContext& op) {
  const Operation& o = op.task.operation;
  Machine machine = op.machine;
  if (o.free_ratio <= 0) return machine;
  const Frequency whip =
      bending_frequency(op.job.material, o.stick_out / o.free_ratio, o.stick_out, false) / 2.0;
  machine.chuck.rated_speed = min(machine.chuck.rated_speed, whip);
  return machine;
}

}  // namespace turnwright
