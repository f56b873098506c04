// SPDX-License-Identifier: MIT
// A plan as a table, which is read again as the posted plan: its columns are words of a file, in
// English in every language.
#include <algorithm>

#include "turnwright/document/table.hpp"
#include "turnwright/output/week.hpp"

namespace turnwright {
namespace {

// In the list that made the plan: people are given to work in its order.
std::ptrdiff_t place_of(const WeekPlan& plan, const PlannedRun& run) {
  return &run - plan.plan.runs.data();
}

// Who sets it up or attends it, each once.
std::string names_of(const Week& week, const WeekPlan& plan, const PlannedRun& run, bool sets) {
  std::vector<std::string> names;
  for (const Stint& stint : plan.plan.stints) {
    const std::string& name = week.people[static_cast<std::size_t>(stint.hand)].name;
    if (stint.operation == run.operation && stint.sets == sets &&
        std::find(names.begin(), names.end(), name) == names.end())
      names.push_back(name);
  }
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

}  // namespace

std::string week_table(const Week& week, const WeekProblem& wp, const WeekPlan& plan) {
  std::string out = "machine,order,operation,setup from,runs from,to,setup min,place";
  const bool by_name = week.people_by_name();
  out += by_name ? ",sets up,attends\n" : "\n";
  for (std::size_t m = 0; m < week.machines.size(); ++m)
    for (const PlannedRun* run : runs_on(plan.plan, static_cast<int>(m))) {
      const OperationName& n = wp.names[static_cast<std::size_t>(run->operation)];
      for (const std::string& cell :
           {week.machines[m].name, lot_name(week, wp, lot_of(wp, run->operation)),
            std::to_string(n.operation), iso_text(week, run->setup_from),
            iso_text(week, run->run_from), iso_text(week, run->to)})
        out += table_cell(cell) + ",";
      out += std::to_string(run->setup) + "," + std::to_string(place_of(plan, *run));
      if (by_name)
        out += "," + table_cell(names_of(week, plan, *run, true)) + "," +
               table_cell(names_of(week, plan, *run, false));
      out += "\n";
    }
  return out;
}

}  // namespace turnwright
