// SPDX-License-Identifier: MIT
#include "turnwright/week/plan_week.hpp"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <numeric>
#include <set>

#include "reasons.hpp"
#include "turnwright/quantity/text.hpp"
#include "turnwright/week/check.hpp"
#include "turnwright/week/search.hpp"

namespace turnwright {
namespace {

constexpr double mild = 0.02;  // heat of planning again: near to what hangs

// The order before all others, each of its operations from when it could begin were it alone: put
// at the very front, what waits for work elsewhere would keep a machine empty.
PlanList put_first(const PlanProblem& problem, const WeekPlan& now, std::size_t job) {
  PlanList alone = now.list;
  alone.jobs.assign(problem.jobs[job].operations.size(), static_cast<int>(job));
  std::vector<Minute> begins;
  for (const PlannedRun& run : Decoder(problem).plan(alone).runs) begins.push_back(run.ready_from);
  PlanList first = now.list;
  first.jobs.clear();
  std::size_t next = 0;
  const auto frozen = static_cast<std::size_t>(now.list.frozen);
  for (std::size_t i = 0; i < now.list.jobs.size(); ++i) {
    const int j = now.list.jobs[i];
    const bool its_own = static_cast<std::size_t>(j) == job;
    if (i >= frozen)
      while (next < begins.size() && begins[next] <= now.plan.runs[i].ready_from) {
        first.jobs.push_back(static_cast<int>(job));
        ++next;
      }
    if (its_own && i < frozen) ++next;
    if (!its_own || i < frozen) first.jobs.push_back(j);
  }
  for (; next < begins.size(); ++next) first.jobs.push_back(static_cast<int>(job));
  return first;
}

// Each way of saving an order, tried through the decoder: first in the list; two hours more a day
// on its machines, with somebody there.
std::vector<std::string> saved_by(const Week& week, const WeekProblem& wp, const WeekPlan& now,
                                  std::size_t job) {
  std::vector<std::string> found;
  const PlanList first = put_first(wp.problem, now, job);
  auto tell = [&](const std::string& what, const Plan& plan) {
    const double late = days_late(wp.problem.jobs[job], plan.done[job]);
    std::string worst;
    double most = 0.02;
    int count = 0;
    for (std::size_t j = 0; j < wp.problem.jobs.size(); ++j) {
      const double more = days_late(wp.problem.jobs[j], plan.done[j]) -
                          days_late(wp.problem.jobs[j], now.plan.done[j]);
      if (j == job || more <= 0.02) continue;
      ++count;
      if (more <= most) continue;
      most = more;
      worst =
          week.orders[wp.orders[j]].number + " by " +
          (more > 900 ? std::string("more than the calendar holds") : readable(more, 2) + " days");
    }
    const std::string others =
        count == 0   ? ""
        : count == 1 ? "; makes " + worst + " later"
                     : "; makes " + std::to_string(count) + " others later, most of all " + worst;
    found.push_back(what + ": " +
                    (late <= 0    ? std::string("on time")
                     : late > 900 ? std::string("does not fit into the calendar")
                                  : "late by " + readable(late, 2) + " days") +
                    others);
  };
  tell("put first", Decoder(wp.problem).plan(first));
  // Overtime: two hours after the last open minute of every day that is worked.
  PlanProblem more = wp.problem;
  std::set<int> machines;
  for (const int o : wp.problem.jobs[job].operations)
    for (const Choice& c : wp.problem.operations[static_cast<std::size_t>(o)].choices)
      machines.insert(c.machine);
  for (const int m : machines) {
    PlannedMachine& machine = more.machines[static_cast<std::size_t>(m)];
    std::vector<Span> open = machine.calendar.open();
    std::map<int, Minute> ends;
    for (const Span& s : open) ends[(s.to - 1) / minutes_a_day] = s.to;
    for (const auto& [day, end] : ends) {
      const Minute to = std::min(end + 120, (day + 1) * minutes_a_day);
      open.push_back({end, to});
      for (Minute t = end / time_step; t < to / time_step; ++t) {
        const auto i = static_cast<std::size_t>(t);
        if (i >= more.people.present.size()) continue;
        more.people.present[i] += 1000;
        more.people.setters[i] += 1000;
      }
    }
    machine.calendar = Calendar(open);
  }
  tell("two hours of overtime a day on its machines, with a setter", Decoder(more).plan(now.list));
  return found;
}

WeekPlan told(const Week& week, const WeekProblem& wp, PlanList list) {
  WeekPlan out;
  out.list = std::move(list);
  out.plan = Decoder(wp.problem).plan(out.list);
  out.faults = faults_of(wp.problem, out.plan);
  out.bound = least_lateness(wp.problem);
  const Reasons reasons(week, wp, out.plan);
  out.gaps = reasons.gaps();
  for (std::size_t j = 0; j < wp.problem.jobs.size(); ++j) {
    const double late = days_late(wp.problem.jobs[j], out.plan.done[j]);
    if (late <= 0) continue;
    out.late.push_back({wp.orders[j], late, reasons.chain(j), saved_by(week, wp, out, j)});
  }
  std::stable_sort(out.late.begin(), out.late.end(),
                   [](const LateReason& a, const LateReason& b) { return a.days > b.days; });
  return out;
}

}  // namespace

WeekPlan plan_week(const Week& week, const WeekProblem& wp, int moves, int threads) {
  return told(week, wp,
              search(wp.problem, earliest_first(wp.problem), {.moves = moves, .threads = threads}));
}

WeekPlan plan_again(const Week& week, WeekProblem& wp, const std::vector<HungRun>& hung,
                    Minute frozen, int moves, int threads) {
  PlanProblem& p = wp.problem;
  p.old_start.assign(p.operations.size(), never);
  p.old_machine.assign(p.operations.size(), -1);
  PlanList list;
  list.choices.assign(p.operations.size(), 0);
  for (std::size_t o = 0; o < p.operations.size(); ++o)
    for (const HungRun& run : hung) {
      if (run.order != week.orders[wp.names[o].order].number || run.setup != wp.names[o].setup)
        continue;
      for (std::size_t c = 0; c < p.operations[o].choices.size(); ++c) {
        const int m = p.operations[o].choices[c].machine;
        if (week.machines[static_cast<std::size_t>(m)].name != run.machine) continue;
        p.old_start[o] = run.from;
        p.old_machine[o] = m;
        list.choices[o] = static_cast<int>(c);
      }
    }
  // Frozen is what begins soon, unless its machine is no longer there then.
  auto stays = [&](std::size_t o) {
    return p.old_start[o] < frozen &&
           p.machines[static_cast<std::size_t>(p.old_machine[o])].calendar.next(
               std::max(p.old_start[o], week.now)) < std::max(p.old_start[o], week.now) + 60;
  };
  // As it hung; what is new comes after it, first due first.
  std::vector<int> order(p.operations.size());
  std::iota(order.begin(), order.end(), 0);
  auto due = [&](int o) {
    return p.jobs[static_cast<std::size_t>(p.operations[static_cast<std::size_t>(o)].job)].due;
  };
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    const Minute x = p.old_start[static_cast<std::size_t>(a)],
                 y = p.old_start[static_cast<std::size_t>(b)];
    return x != y ? x < y : due(a) < due(b);
  });
  // The frozen ones stand at the front and keep their machines.
  PlanProblem held = p;
  PlanList start = list;
  for (const int i : order) {
    const auto o = static_cast<std::size_t>(i);
    start.jobs.push_back(p.operations[o].job);
    if (!stays(o)) continue;
    ++start.frozen;
    held.operations[o].choices = {
        p.operations[o].choices[static_cast<std::size_t>(list.choices[o])]};
    start.choices[o] = 0;
  }
  PlanList found = search(held, start, {.moves = moves, .heat = mild, .threads = threads});
  for (std::size_t o = 0; o < p.operations.size(); ++o)
    if (stays(o)) found.choices[o] = list.choices[o];
  return told(week, wp, std::move(found));
}

std::vector<std::string> differences(const Week& week, const WeekProblem& wp, const WeekPlan& plan,
                                     const std::vector<HungRun>& hung) {
  std::vector<std::string> lines;
  for (const PlannedRun& run : plan.plan.runs) {
    const OperationName& n = wp.names[static_cast<std::size_t>(run.operation)];
    const std::string& order = week.orders[n.order].number;
    const auto was = std::find_if(hung.begin(), hung.end(), [&](const HungRun& h) {
      return h.order == order && h.setup == n.setup;
    });
    const std::string& machine = week.machines[static_cast<std::size_t>(run.machine)].name;
    const std::string now = run.to == never ? "no longer fits into the calendar"
                                            : "begins " + moment_text(week, run.ready_from);
    std::string line = work_name(week, wp, run.operation);
    line.append(": ");
    const bool later = run.to == never || was == hung.end() ||
                       std::abs(run.ready_from - was->from) >= minutes_a_day;
    if (was == hung.end()) {
      line.append("new, on ").append(machine).append(", ").append(now);
    } else if (was->machine != machine) {
      line.append("goes from ").append(was->machine).append(" to ").append(machine).append(", ");
      line.append(now).append(" instead of ").append(moment_text(week, was->from));
    } else if (later) {
      line.append(now).append(" instead of ").append(moment_text(week, was->from));
      line.append(", on ").append(machine);
    } else {
      continue;
    }
    lines.push_back(std::move(line));
  }
  std::sort(lines.begin(), lines.end());
  return lines;
}

}  // namespace turnwright
