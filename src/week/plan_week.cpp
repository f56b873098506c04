// SPDX-License-Identifier: MIT
#include "turnwright/week/plan_week.hpp"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <numeric>
#include <set>

#include "reasons.hpp"
#include "turnwright/quantity/money.hpp"
#include "turnwright/quantity/text.hpp"
#include "turnwright/quantity/unit.hpp"
#include "turnwright/week/check.hpp"
#include "turnwright/week/first_list.hpp"
#include "turnwright/week/search.hpp"

namespace turnwright {
namespace {

constexpr double mild = 0.02;  // heat of planning again: near to what hangs

// The order before all others, each of its operations from when it could begin were it alone: put
// at the very front, what waits for work elsewhere would keep a machine empty.
DispatchOrder put_first(const PlanProblem& problem, const WeekPlan& now, std::size_t job) {
  DispatchOrder alone = now.list;
  alone.jobs.assign(problem.jobs[job].operations.size(), static_cast<int>(job));
  std::vector<Minute> begins;
  for (const PlannedRun& run : Decoder(problem).plan(alone).runs) begins.push_back(run.ready_from);
  DispatchOrder first = now.list;
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

// What would save a late order, each tried through the decoder.
class RescueTrials {
 public:
  RescueTrials(const Week& week, const WeekProblem& wp, const WeekPlan& now, std::size_t job)
      : week_(week), wp_(wp), p_(wp.problem), now_(now), job_(job) {}

  std::vector<std::string> lines() {
    const PlannedJob& job = p_.jobs[job_];
    const Minute alone = done_alone(p_, job, 0, job.release);
    if (alone == never || alone > job.due)
      lines_.push_back("no order of work saves it: alone in the shop it would be done " +
                       (alone == never ? std::string("after this calendar")
                                       : "on " + moment_text(week_, alone)));
    const DispatchOrder first = put_first(p_, now_, job_);
    tell("put first, the rest rearranged", p_, rearranged(first));
    in_two();
    const Minute most = week_.relief.most > 0 ? week_.relief.most : usual_overtime;
    PlanProblem more = p_;
    for (const int m : machines()) {
      std::set<int> days;
      for (const Span& s : p_.machines[static_cast<std::size_t>(m)].calendar.open())
        days.insert((s.to - 1) / minutes_a_day);
      for (const int day : days) add_overtime(more, {m, day, most});
    }
    tell(readable(most / 60.0, 3) + " hours of overtime a day on its machines, with a setter", more,
         now_.list);
    subcontracted();
    if (!no_gain_.empty()) lines_.push_back(no_gain_ + ": no gain");
    return std::move(lines_);
  }

 private:
  static constexpr Minute usual_overtime = 120;  // a machine and day, common practice

  std::set<int> machines() const {
    std::set<int> found;
    for (const int o : p_.jobs[job_].operations)
      for (const Choice& c : p_.operations[static_cast<std::size_t>(o)].choices)
        found.insert(c.machine);
    return found;
  }
  // The others find their places anew around it, and it its machine, in a short search in which it
  // weighs much more.
  DispatchOrder rearranged(const DispatchOrder& first) const {
    constexpr double much_more = 20;
    constexpr double work = 2e5;  // moves times pieces of work: a tenth of a second
    PlanProblem weighted = p_;
    weighted.jobs[job_].weight *= much_more;
    SearchEffort effort;
    effort.chains = 1;
    effort.heat = 0.003;
    effort.moves = std::max(50, static_cast<int>(work / static_cast<double>(std::max<std::size_t>(
                                                            p_.operations.size(), 1))));
    return search(weighted, first, effort);
  }
  static bool better(const Plan& a, const Plan& b) { return a.lateness < b.lateness; }
  // The second batch beside the first on another machine, or right after it.
  void in_two() {
    if (p_.jobs[job_].operations.empty() || wp_.batches[job_] > 0) return;
    PlanProblem split = p_;
    split_job(split, job_, 2);
    const auto second = static_cast<int>(split.jobs.size()) - 1;
    DispatchOrder list;
    for (const int j : now_.list.jobs) {
      list.jobs.push_back(j);
      if (j == static_cast<int>(job_)) list.jobs.push_back(second);
    }
    list.choices = now_.list.choices;
    for (const int o : p_.jobs[job_].operations) {
      const auto n = static_cast<int>(p_.operations[static_cast<std::size_t>(o)].choices.size());
      list.choices.push_back((list.choices[static_cast<std::size_t>(o)] + 1) % n);
    }
    Plan beside = Decoder(split).plan(list);
    for (std::size_t k = 0; k < p_.jobs[job_].operations.size(); ++k)
      list.choices[p_.operations.size() + k] =
          list.choices[static_cast<std::size_t>(p_.jobs[job_].operations[k])];
    Plan after = Decoder(split).plan(list);
    Plan& best = better(after, beside) ? after : beside;
    // The order is done with its last batch.
    best.done[job_] = std::max(best.done[job_], best.done[static_cast<std::size_t>(second)]);
    tell("in two batches", split, best);
  }
  void subcontracted() {
    if (week_.relief.subcontracted.si <= 0) return;
    const PlannedJob& job = p_.jobs[job_];
    const Minute back = back_after(p_, std::max(job.release, week_.now), week_.relief.days);
    double minutes = 0;
    for (const int o : job.operations) {
      const Choice& c = p_.operations[static_cast<std::size_t>(o)].choices.front();
      minutes += c.ready + c.run;
    }
    const double cost = minutes / 60 * in(week_.relief.subcontracted, unit::money_per_h);
    lines_.push_back("all of it at another firm, for about " + rounded(cost * unit::money).text() +
                     ": " + late_text(days_late(job, back)));
  }
  static std::string late_text(double late) {
    return late <= 0    ? std::string("on time")
           : late > 900 ? std::string("does not fit into the calendar")
                        : "late by " + readable(late, 2) + " days";
  }
  void tell(const std::string& what, const PlanProblem& problem, const DispatchOrder& list) {
    tell(what, problem, Decoder(problem).plan(list));
  }
  void tell(const std::string& what, const PlanProblem& problem, const Plan& plan) {
    const double late = days_late(problem.jobs[job_], plan.done[job_]);
    if (late >= days_late(p_.jobs[job_], now_.plan.done[job_]) - 0.02) {
      no_gain_ += (no_gain_.empty() ? "" : "; ") + what;
      return;
    }
    std::string worst;
    double most = 0.02;
    int count = 0;
    for (std::size_t j = 0; j < p_.jobs.size(); ++j) {
      const double more =
          days_late(problem.jobs[j], plan.done[j]) - days_late(p_.jobs[j], now_.plan.done[j]);
      if (j == job_ || more <= 0.02) continue;
      ++count;
      if (more <= most) continue;
      most = more;
      worst =
          job_name(week_, wp_, j) + " by " +
          (more > 900 ? std::string("more than the calendar holds") : readable(more, 2) + " days");
    }
    const std::string others =
        count == 0   ? ""
        : count == 1 ? "; makes " + worst + " later"
                     : "; makes " + std::to_string(count) + " others later, most of all " + worst;
    lines_.push_back(what + ": " + late_text(late) + others);
  }

  const Week& week_;
  const WeekProblem& wp_;
  const PlanProblem& p_;
  const WeekPlan& now_;
  std::size_t job_;
  std::vector<std::string> lines_;
  std::string no_gain_;
};

int late_orders(const PlanProblem& problem, const Plan& plan) {
  int late = 0;
  for (std::size_t j = 0; j < problem.jobs.size(); ++j)
    late += days_late(problem.jobs[j], plan.done[j]) > 0 ? 1 : 0;
  return late;
}

// A fluid fills every hour, and a plan does not: what is proposed for all hours is tried first,
// then for fewer, until it helps.
std::optional<ReliefTried> relief_tried(const Week& week, const PlanProblem& p, const WeekPlan& now,
                                        int moves, int threads) {
  const bool offered = week.relief.most > 0 || week.relief.subcontracted.si > 0;
  if (!offered || now.plan.lateness <= now.bound + 1e-6) return std::nullopt;
  for (const double share : {1.0, 0.9, 0.8, 0.7, 0.6}) {
    const auto relief = cheapest_relief(p, week.relief, share);
    if (!relief) return std::nullopt;
    if (relief->overtime.empty() && relief->subcontracted.empty()) continue;
    PlanProblem with = p;
    for (const Overtime& o : relief->overtime) add_overtime(with, o);
    for (const std::size_t j : relief->subcontracted) {
      PlannedJob& job = with.jobs[j];
      // Nothing of it is left to do here but to wait for it.
      for (const int o : job.operations) {
        PlannedOperation& operation = with.operations[static_cast<std::size_t>(o)];
        operation.days_after = 0;
        for (Choice& c : operation.choices) c.run = c.ready = 0, c.parts.clear();
      }
      with.operations[static_cast<std::size_t>(job.operations.back())].days_after =
          week.relief.days;
    }
    const DispatchOrder list = search(
        with, now.list, {.moves = std::max(100, moves / 4), .heat = mild, .threads = threads});
    const Plan plan = Decoder(with).plan(list);
    if (plan.lateness >= now.plan.lateness - 1e-6) continue;
    return ReliefTried{*relief, plan.lateness, late_orders(with, plan), late_orders(p, now.plan)};
  }
  return std::nullopt;
}

WeekPlan told(const Week& week, const WeekProblem& wp, DispatchOrder list, int moves, int threads) {
  WeekPlan out;
  out.list = std::move(list);
  out.plan = Decoder(wp.problem).plan(out.list);
  out.faults = faults_of(wp.problem, out.plan);
  const auto bound = out.plan.lateness > 0 ? capacity_bound(wp.problem) : std::nullopt;
  out.bound = bound ? *bound : least_lateness(wp.problem);
  out.bound_by_capacity = bound.has_value();
  const Reasons reasons(week, wp, out.plan);
  out.gaps = reasons.gaps();
  for (std::size_t j = 0; j < wp.problem.jobs.size(); ++j) {
    const double late = days_late(wp.problem.jobs[j], out.plan.done[j]);
    if (late <= 0) continue;
    out.late.push_back({j, late, reasons.chain(j), RescueTrials(week, wp, out, j).lines()});
  }
  std::stable_sort(out.late.begin(), out.late.end(),
                   [](const LateReason& a, const LateReason& b) { return a.days > b.days; });
  out.relief = relief_tried(week, wp.problem, out, moves, threads);
  return out;
}

}  // namespace

InWork in_work(const PlanProblem& problem, const Plan& plan) {
  std::vector<Minute> begins(problem.jobs.size(), never);
  for (const PlannedRun& run : plan.runs) {
    const auto o = static_cast<std::size_t>(run.operation);
    Minute& first = begins[static_cast<std::size_t>(problem.operations[o].job)];
    first = std::min(first, run.ready_from);
  }
  InWork found;
  Minute from = never, to = 0;
  int count = 0;
  double sum = 0;
  for (std::size_t j = 0; j < begins.size(); ++j) {
    if (begins[j] == never || plan.done[j] == never) continue;
    sum += plan.done[j] - begins[j];
    from = std::min(from, begins[j]);
    to = std::max(to, plan.done[j]);
    ++count;
  }
  if (count == 0 || to <= from) return found;
  found.days = static_cast<double>(to - from) / minutes_a_day;
  found.days_each = sum / count / minutes_a_day;
  found.orders = sum / (to - from);
  return found;
}

WeekPlan plan_week(const Week& week, const WeekProblem& wp, int moves, int threads) {
  return told(week, wp,
              search_on(wp.problem, first_lists(wp.problem), {.moves = moves, .threads = threads}),
              moves, threads);
}

DispatchOrder posted_list(const Week& week, WeekProblem& wp, const std::vector<PostedRun>& posted) {
  PlanProblem& p = wp.problem;
  p.old_start.assign(p.operations.size(), never);
  p.old_machine.assign(p.operations.size(), -1);
  DispatchOrder list;
  list.choices.assign(p.operations.size(), 0);
  for (std::size_t o = 0; o < p.operations.size(); ++o)
    for (const PostedRun& run : posted) {
      const auto job = static_cast<std::size_t>(p.operations[o].job);
      if (run.order != job_name(week, wp, job) || run.operation != wp.names[o].operation) continue;
      for (std::size_t c = 0; c < p.operations[o].choices.size(); ++c) {
        const int m = p.operations[o].choices[c].machine;
        if (week.machines[static_cast<std::size_t>(m)].name != run.machine) continue;
        p.old_start[o] = run.from;
        p.old_machine[o] = m;
        list.choices[o] = static_cast<int>(c);
      }
    }
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
  for (const int o : order) list.jobs.push_back(p.operations[static_cast<std::size_t>(o)].job);
  return list;
}

WeekPlan plan_again(const Week& week, WeekProblem& wp, const std::vector<PostedRun>& posted,
                    Minute frozen, int moves, int threads) {
  PlanProblem& p = wp.problem;
  const DispatchOrder list = posted_list(week, wp, posted);
  // Frozen is what begins soon, unless its machine is no longer there then.
  auto stays = [&](std::size_t o) {
    return p.old_start[o] < frozen &&
           p.machines[static_cast<std::size_t>(p.old_machine[o])].calendar.next(
               std::max(p.old_start[o], week.now)) < std::max(p.old_start[o], week.now) + 60;
  };
  // The frozen ones stand at the front and keep their machines.
  PlanProblem held = p;
  DispatchOrder start = list;
  std::vector<int> rest;
  std::vector<std::size_t> next(p.jobs.size(), 0);
  std::vector<std::size_t> held_operations;
  std::vector<bool> moves_on(p.jobs.size(), false);  // work of it before does not stay
  start.jobs.clear();
  for (const int j : list.jobs) {
    const auto job = static_cast<std::size_t>(j);
    const auto o = static_cast<std::size_t>(p.jobs[job].operations[next[job]++]);
    if (moves_on[job] || !stays(o)) {
      moves_on[job] = true;
      rest.push_back(j);
      continue;
    }
    start.jobs.push_back(j);
    held_operations.push_back(o);
    held.operations[o].choices = {
        p.operations[o].choices[static_cast<std::size_t>(list.choices[o])]};
    start.choices[o] = 0;
  }
  start.frozen = static_cast<int>(start.jobs.size());
  start.jobs.insert(start.jobs.end(), rest.begin(), rest.end());
  // As it hung, and lists near to it where no machine waits long for what is held up elsewhere.
  std::vector<DispatchOrder> starts{start};
  FirstList near;
  near.front.assign(start.jobs.begin(), start.jobs.begin() + start.frozen);
  near.choices = start.choices;
  near.rank.assign(p.old_start.begin(), p.old_start.end());
  for (std::size_t o = 0; o < near.rank.size(); ++o)
    if (p.old_start[o] == never)
      near.rank[o] += p.jobs[static_cast<std::size_t>(p.operations[o].job)].due;
  for (const Minute window : {0, 240, minutes_a_day}) {
    near.window = window;
    starts.push_back(earliest_first(held, near));
    starts.back().frozen = start.frozen;
  }
  DispatchOrder found = search(held, starts, {.moves = moves, .heat = mild, .threads = threads});
  for (const std::size_t o : held_operations) found.choices[o] = list.choices[o];
  return told(week, wp, std::move(found), moves, threads);
}

std::vector<std::string> differences(const Week& week, const WeekProblem& wp, const WeekPlan& plan,
                                     const std::vector<PostedRun>& posted) {
  std::vector<std::string> lines;
  for (const PlannedRun& run : plan.plan.runs) {
    const OperationName& n = wp.names[static_cast<std::size_t>(run.operation)];
    const std::string order = job_name(week, wp, job_of(wp, run.operation));
    const auto was = std::find_if(posted.begin(), posted.end(), [&](const PostedRun& h) {
      return h.order == order && h.operation == n.operation;
    });
    const std::string& machine = week.machines[static_cast<std::size_t>(run.machine)].name;
    const std::string now = run.to == never ? "no longer fits into the calendar"
                                            : "begins " + moment_text(week, run.ready_from);
    std::string line = work_name(week, wp, run.operation);
    line.append(": ");
    const bool later = run.to == never || was == posted.end() ||
                       std::abs(run.ready_from - was->from) >= minutes_a_day;
    if (was == posted.end()) {
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
