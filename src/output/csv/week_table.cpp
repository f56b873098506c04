// SPDX-License-Identifier: MIT
// A plan as a table, which is read again as the posted plan: its columns are words of a file, in
// English in every language.
#include <algorithm>
#include <cmath>

#include "turnwright/document/table.hpp"
#include "turnwright/output/week.hpp"
#include "view/week_people.hpp"
#include "view/week_view.hpp"

namespace turnwright {
namespace {

// In the list that made the plan: people are given to work in its order.
std::ptrdiff_t place_of(const WeekPlan& plan, const PlannedRun& run) {
  return &run - plan.plan.runs.data();
}

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + name;
  return text;
}

// Minutes that it waits, by what for.
std::string waits_cells(const Waiting& waits) {
  std::string cells;
  for (const double hours :
       {waits.machine, waits.pinned, waits.people, waits.material, waits.outside})
    cells += "," + std::to_string(std::lround(60 * hours));
  return cells;
}

// What is not in the plan: no machine, no times, the reason last.
std::string lines_left_out(const std::vector<LeftOut>& all, std::size_t columns) {
  const Words words;
  std::string lines;
  for (const LeftOut& left : all)
    lines += "," + table_cell(left.order) + std::string(columns - 2, ',') +
             table_cell(words.joined(reasons_of(left), "; ")) + "\n";
  return lines;
}

}  // namespace

std::string week_table(const Week& week, const WeekProblem& wp, const WeekPlan& plan) {
  std::string out = "machine,order,operation,setup from,runs from,to,setup min,place,state";
  const bool by_name = week.people_by_name();
  if (by_name) out += ",sets up,attends";
  out +=
      ",waits machine min,waits pinned min,waits people min,waits material min,waits outside min";
  const std::vector<LeftOut> left_out = all_left_out(week, wp);
  if (!left_out.empty()) out += ",not in the plan";
  const auto columns = static_cast<std::size_t>(std::count(out.begin(), out.end(), ',')) + 1;
  out += "\n";
  const std::vector<Waiting> waits = waiting_by_operation(wp.problem, plan.plan);
  std::map<int, WorkPeople> people = people_by_operation(week, plan.plan);
  for (std::size_t m = 0; m < week.machines.size(); ++m)
    for (const PlannedRun* run : runs_on(plan.plan, static_cast<int>(m))) {
      const OperationName& n = wp.names[static_cast<std::size_t>(run->operation)];
      for (const std::string& cell :
           {week.machines[m].name, lot_name(week, wp, lot_of(wp, run->operation)),
            std::to_string(n.operation), iso_text(week, run->setup_from),
            iso_text(week, run->run_from), iso_text(week, run->to)})
        out += table_cell(cell) + ",";
      out += std::to_string(run->setup) + "," + std::to_string(place_of(plan, *run));
      out += wp.problem.lot_with(run->operation).quoted ? ",quoted" : ",won";
      if (by_name)
        out += "," + table_cell(joined(people[run->operation].sets)) + "," +
               table_cell(joined(people[run->operation].runs));
      out += waits_cells(waits[static_cast<std::size_t>(run->operation)]);
      out += left_out.empty() ? "\n" : ",\n";
    }
  return out + lines_left_out(left_out, columns);
}

}  // namespace turnwright
