// SPDX-License-Identifier: MIT
// What a plan says of its work beside times: part, clamping, stock, tools.
#include "tell_work.hpp"

#include <algorithm>

#include "turnwright/route/clamping_label.hpp"

namespace turnwright {
namespace {

bool has(const std::vector<SetupItem>& items, int key) {
  return std::any_of(items.begin(), items.end(), [&](const SetupItem& i) { return i.key == key; });
}

// By operation.
using Works = std::vector<std::shared_ptr<const OperationWork>>;
Works works_of(const Route& route) {
  Works works;
  for (const Operation& operation : route.operations) {
    OperationWork work{clamping_label(operation), {}, {}};
    if (works.empty()) {
      work.stock = stock_label(route.job);
      work.blank = blank_label(route.job.stock);
    }
    works.push_back(std::make_shared<const OperationWork>(std::move(work)));
  }
  return works;
}

}  // namespace

void tell_work(const OrderRoutes& order, WeekProblem& problem) {
  const Part& part = order.on.front()->route.job.part;
  problem.parts[order.order] = {part.number, part.name, order.on.front()->route.job.material.name};
  std::map<const Quote*, Works> told;  // machines of the week that are one of the shop's share them
  for (std::size_t i = 0; i < order.machines.size(); ++i) {
    const int machine = order.machines[i];
    const Route& route = order.on[i]->route;
    problem.methods[{order.order, machine}] = order.methods[i];
    problem.turrets[static_cast<std::size_t>(machine)] = route.machine.mounted_tools;
    Works& works = told[order.on[i].get()];
    if (works.empty()) works = works_of(route);
    for (std::size_t k = 0; k < works.size(); ++k)
      problem.works[{order.order, machine, route.operations[k].number}] = works[k];
  }
}

const OperationWork& operation_work(const WeekProblem& problem, const PlannedRun& run) {
  const OperationName& name = problem.names[static_cast<std::size_t>(run.operation)];
  return *problem.works.at({name.order, run.machine, name.operation});
}

// What is set up already has all of its tools; what is won counts on none that a quote leaves.
std::vector<std::string> tools_to_load(const WeekProblem& problem, const PlannedRun& run,
                                       const RunBefore& before) {
  const Choice& choice = choice_of(problem.problem, run);
  std::vector<std::string> tools;
  if (whole_setup(choice) == 0) return tools;
  const std::vector<int>& at_first =
      problem.problem.machines[static_cast<std::size_t>(run.machine)].mounted;
  const bool quoted = problem.problem.lot_with(run.operation).quoted;
  const auto left_by = [&](const PlannedRun* last, int key) {
    return last == nullptr ? std::binary_search(at_first.begin(), at_first.end(), key)
                           : has(choice_of(problem.problem, *last).items, key);
  };
  for (const SetupItem& item : choice.items) {
    const auto known = problem.items.find(item.key);
    if (known == problem.items.end() || known->second.kind != MountedKind::tool) continue;
    const bool mounted = left_by(before.any, item.key) && (quoted || left_by(before.won, item.key));
    if (!mounted) tools.push_back(known->second.name);
  }
  return tools;
}

}  // namespace turnwright
