// SPDX-License-Identifier: MIT
#include "steps/steps.hpp"

namespace turnwright::steps {

Outcome stated_times(const OperationContext& op, Workpiece& work) {
  for (const GivenTime& g : op.task.given) {
    Step step;
    step.kind = StepKind::given;
    step.why = {"steps.stated-time", {{"name", g.name}}};
    step.given = g.time;
    step.from = step.to = op.view.z(g.z);
    work.commit_uncounted(std::move(step));
  }
  return {};
}

}  // namespace turnwright::steps
