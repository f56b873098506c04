// SPDX-License-Identifier: MIT
// Whether the finishing tool may take both cuts of an operation.
#include "length_text.hpp"
#include "profile.hpp"
#include "route_planner.hpp"

namespace turnwright {

void RoutePlanner::decide_two_cuts(OperationTask& task, Layout& layout) {
  if (request_.method != MethodKind::two_finish_cuts) return;
  const std::string operation = "setup " + std::to_string(task.operation.number);
  auto refuse = [&](const std::string& why) {
    layout.two_cuts.push_back(false);
    layout.notes.push_back(operation + ": " + why);
  };
  const Tool* finisher = tool_of(shop_, route_.machine, ToolKind::finish);
  if (finisher == nullptr) return refuse("the shop has no finishing tool");
  if (job_.stock.skin)
    return refuse(job_.rough.empty()
                      ? "no finishing insert enters the skin of " + job_.stock.condition +
                            " bar; peeled or drawn bar would help"
                      : "no finishing insert enters the skin of a " + job_.stock.condition);
  const Length over = (job_.stock.upper - job_.stock.diameter) / 2.0;
  const Outline target = reachable(task.target, finisher->copying_angle);
  Length worst_nominal(0.0), last = finish_allowance(route_.machine);
  std::string worst_name;
  Length deepest_last = 1.0 * unit::mm;
  for (std::size_t n = 0; n < job_.outside().size(); ++n) {
    const Surface& s = job_.surfaces[n];
    const View v = view(task.operation.from_left);
    const Length middle = v.z((s.left + s.right) / 2.0);
    if (middle < task.zone_left || s.as_drawn) continue;
    const Length stock =
        task.work.left_of(middle) - min(target.left_of(middle), target.right_of(middle));
    if (stock.si <= same_point) continue;
    // The finish depth of fits is at most 0.5 mm, of others 1.0.
    const Length most_last = s.grade <= 8 ? 0.5 * unit::mm : 1.0 * unit::mm;
    deepest_last = min(deepest_last, most_last);
    if (stock + over > worst_nominal) {
      worst_nominal = stock + over;
      worst_name = s.name;
    }
  }
  if (worst_nominal.si <= same_point) {
    layout.two_cuts.push_back(false);
    return;
  }
  last = max(last, worst_nominal - finisher->largest_depth);
  if (last > deepest_last + Length(same_point)) {
    const std::string help = "a tool good for " + length_text(job_, worst_nominal - deepest_last);
    if (layout.two_cuts_help.empty()) layout.two_cuts_help = help;
    return refuse(worst_name + " has " + length_text(job_, worst_nominal) +
                  " a side; the finishing tool's depth limit of " +
                  length_text(job_, finisher->largest_depth) + " needs three cuts, or " + help);
  }
  task.finisher_takes_both = true;
  task.last_cut = last;
  layout.two_cuts.push_back(true);
  layout.notes.push_back(operation + ": done so, the most on a side is " +
                         length_text(job_, worst_nominal) + " (" + worst_name + ")");
}

}  // namespace turnwright
