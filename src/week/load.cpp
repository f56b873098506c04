// SPDX-License-Identifier: MIT
#include "turnwright/week/load.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>

#include "turnwright/quantity/text.hpp"
#include "turnwright/week/check.hpp"
#include "turnwright/week/search.hpp"

namespace turnwright {
namespace {

// Everything in steps of the plan, up: a machine that is done a minute early waits for the step.
constexpr Minute long_gap = 8 * 60;  // of open time, worth a word
constexpr double mild = 0.02;        // heat of planning again: near to what hangs

Minute steps_up(double minutes) {
  return static_cast<Minute>(std::ceil(minutes / time_step - 1e-9)) * time_step;
}

class ProblemMaker {
 public:
  ProblemMaker(const Week& week, const std::vector<OrderRoutes>& routes)
      : week_(week), routes_(routes) {}

  WeekProblem make() {
    machines();
    people();
    for (int d = 0; d <= week_.days(); ++d) out_.problem.back_on.push_back(back_from(d));
    for (const OrderRoutes& order : routes_) job(order);
    return std::move(out_);
  }

 private:
  int key(const std::string& name) {
    return keys_.emplace(name, static_cast<int>(keys_.size())).first->second;
  }
  void machines() {
    for (const WeekMachine& m : week_.machines) {
      PlannedMachine planned;
      planned.calendar = m.open;
      for (const std::string& name : m.stands) planned.stands.push_back(key(name));
      std::sort(planned.stands.begin(), planned.stands.end());
      out_.problem.machines.push_back(std::move(planned));
    }
  }
  void people() {
    if (week_.people.empty()) return;
    Presence& p = out_.problem.people;
    const auto steps = static_cast<std::size_t>(week_.end() / time_step);
    p.present.assign(steps, 0);
    p.setters.assign(steps, 0);
    for (const Person& person : week_.people)
      for (const Span& s : person.there.open())
        for (Minute t = s.from / time_step; t < s.to / time_step; ++t) {
          const auto i = static_cast<std::size_t>(t);
          if (i >= steps) break;
          p.present[i] += 1000;
          if (person.sets) p.setters[i] += 1000;
        }
  }
  // The beginning of the day after the first working day from d on.
  Minute back_from(int d) const {
    for (; d < week_.days(); ++d)
      if (week_.working[static_cast<std::size_t>(d)]) return (d + 1) * minutes_a_day;
    return never;
  }
  void job(const OrderRoutes& order) {
    const Order& o = week_.orders[order.order];
    PlannedJob job;
    job.release = o.release;
    job.due = week_.end_of(o.due);
    job.weight = o.importance * (o.state == OrderState::quoted ? std::max(o.probability, 0.01) : 1);
    const Quote& first = order.on.front();
    const auto& work = first.route.job.part.other_work;
    const bool between = std::any_of(work.begin(), work.end(),
                                     [](const OtherWork& w) { return w.after == "roughing"; });
    const std::size_t n = first.route.setups.size();
    int days_between_cuts = 0, days_after = 0;
    for (const OtherWork& w : work)
      (w.after == "roughing" ? days_between_cuts : days_after) +=
          static_cast<int>(std::ceil(w.days));
    bool first_left = true;
    for (std::size_t k = 0; k < n; ++k) {
      const int number = first.route.setups[k].number;
      if (std::find(o.finished.begin(), o.finished.end(), number) != o.finished.end()) continue;
      PlannedOperation operation;
      operation.job = static_cast<int>(out_.problem.jobs.size());
      for (std::size_t i = 0; i < order.on.size(); ++i)
        operation.choices.push_back(choice(order.on[i], k, order.machines[i], o, first_left));
      first_left = false;
      if (between && k + 1 == n / 2) operation.days_after = days_between_cuts;
      if (k + 1 == n) operation.days_after = days_after;
      job.operations.push_back(static_cast<int>(out_.problem.operations.size()));
      out_.problem.operations.push_back(std::move(operation));
      out_.names.push_back({order.order, first.route.setups[k].number});
      out_.band.push_back(order.band);
    }
    if (job.operations.empty()) return;  // all of it is done
    out_.orders.push_back(order.order);
    out_.problem.jobs.push_back(std::move(job));
  }
  // `now`: what runs now, where the order runs: set up, and some pieces done.
  Choice choice(const Quote& quote, std::size_t k, int machine, const Order& o, bool now) {
    const SetupTime& t = quote.times.setups[k];
    const Setup& setup = quote.route.setups[k];
    const auto lines = lot_lines(quote, o.quantity);
    const double pieces = std::max(0.0, lines.pieces.si - (now ? o.done : 0));
    Choice c;
    c.machine = machine;
    c.run = steps_up(pieces * in(t.machine, unit::min));
    c.attended =
        t.machine.si > 0
            ? std::min(1000, static_cast<int>(std::lround(1000 * (t.person / t.machine).si)))
            : 0;
    // What may stand already: jaws, the bar's size, tools beside the standing ones.
    double rest = in(t.make_ready, unit::min);
    auto part = [&](const std::string& name, double minutes) {
      c.parts.push_back({key(name), static_cast<Minute>(std::lround(minutes))});
      rest -= static_cast<double>(c.parts.back().minutes);
    };
    std::set<std::string> tools;
    const auto& standing = quote.route.machine.standing_tools;
    for (const Step& step : setup.steps)
      if (!step.given && std::find(standing.begin(), standing.end(), step.tool) == standing.end())
        tools.insert(step.tool);
    double tool_minutes = 0;
    int counted = 0;
    for (const ElementTime& e : t.make_ready_elements) {
      const double minutes = in(e.machine, unit::min);
      if (e.name == "jaws")
        part("jaws, " + std::string(setup.jaws == Jaws::soft ? "soft" : "hard"), minutes);
      if (e.name == "soft jaws bored")
        part("soft jaws bored to " + readable(in(setup.grip_diameter, unit::mm), 5), minutes);
      if (e.name == "bar feeder")
        part("bar " + readable(in(quote.route.job.stock.diameter, unit::mm), 5), minutes);
      if (e.name.ends_with("tools not standing")) {
        tool_minutes = minutes;
        counted = std::stoi(e.name);
      }
    }
    // The holding before brought some of its tools: they stand only when it ran just before.
    const double each = counted > 0 ? tool_minutes / counted : 0;
    for (const std::string& tool : tools) c.parts.push_back({key("tool " + tool), 0});
    if (each > 0) {
      rest -= tool_minutes;
      for (ReadyPart& p : c.parts)
        if (p.minutes == 0) p.minutes = static_cast<Minute>(std::lround(each));
    }
    std::sort(c.parts.begin(), c.parts.end(),
              [](const ReadyPart& a, const ReadyPart& b) { return a.key < b.key; });
    c.ready = steps_up(std::max(rest, 0.0));
    // A batch that runs is set up: nothing but what is left of it.
    if (o.state == OrderState::running && now) {
      c.ready = 0;
      for (ReadyPart& p : c.parts) p.minutes = 0;
    }
    return c;
  }

  const Week& week_;
  const std::vector<OrderRoutes>& routes_;
  WeekProblem out_;
  std::map<std::string, int> keys_;
};

double hours(Minute m) { return m / 60.0; }

Minute all_ready(const Choice& c) {
  Minute ready = c.ready;
  for (const ReadyPart& part : c.parts) ready += part.minutes;
  return ready;
}
// Of the machines that can do it, the one that is then the least loaded.
const Choice& lightest(const PlannedOperation& operation, const std::vector<Load>& loads) {
  const Choice* best = &operation.choices.front();
  double least = 1e300;
  for (const Choice& c : operation.choices) {
    const Load& load = loads[static_cast<std::size_t>(c.machine)];
    const double there = load.sum_there();
    if (there <= 0) continue;
    const double share = (load.sum_needed() + hours(all_ready(c) + c.run)) / there;
    if (share >= least) continue;
    least = share;
    best = &c;
  }
  return *best;
}

}  // namespace

double Load::sum_needed() const { return std::accumulate(needed.begin(), needed.end(), 0.0); }
double Load::sum_there() const { return std::accumulate(there.begin(), there.end(), 0.0); }

WeekProblem week_problem(const Week& week, const std::vector<OrderRoutes>& routes) {
  return ProblemMaker(week, routes).make();
}

std::vector<Load> infinite_load(const Week& week, const WeekProblem& wp) {
  const auto days = static_cast<std::size_t>(week.days());
  std::vector<Load> loads;
  for (const WeekMachine& m : week.machines) {
    Load load{m.name, false, std::vector<double>(days), std::vector<double>(days), 0};
    for (std::size_t d = 0; d < days; ++d) {
      const auto from = static_cast<Minute>(d) * minutes_a_day;
      load.there[d] = hours(m.open.between(from, from + minutes_a_day));
    }
    loads.push_back(std::move(load));
  }
  Load people{"people", true, std::vector<double>(days), std::vector<double>(days), 0};
  for (const Person& p : week.people)
    for (std::size_t d = 0; d < days; ++d) {
      const auto from = static_cast<Minute>(d) * minutes_a_day;
      people.there[d] += hours(p.there.between(from, from + minutes_a_day));
    }
  for (std::size_t j = 0; j < wp.problem.jobs.size(); ++j) {
    const Order& order = week.orders[wp.orders[j]];
    const double share = order.state == OrderState::quoted ? order.probability : 1;
    const auto& operations = wp.problem.jobs[j].operations;
    auto last = static_cast<int>(
        std::clamp<Minute>(wp.problem.jobs[j].due / minutes_a_day - 1, 0, week.days() - 1));
    // Backwards from the due date: each operation on the last days that are open before the next.
    for (auto o = operations.rbegin(); o != operations.rend(); ++o) {
      const PlannedOperation& operation = wp.problem.operations[static_cast<std::size_t>(*o)];
      last -= operation.days_after;
      const Choice& c = lightest(operation, loads);
      Load& load = loads[static_cast<std::size_t>(c.machine)];
      const Minute ready = all_ready(c);
      double left = hours(ready + c.run);
      const double attended =
          left > 0 ? (hours(ready) + hours(c.run) * c.attended / 1000) / left : 0;
      load.quoted += order.state == OrderState::quoted ? left * share : 0;
      const int first = order.release / minutes_a_day;
      int d = std::max(last, first);
      while (left > 0) {
        const auto i = static_cast<std::size_t>(std::clamp(d, 0, week.days() - 1));
        const bool earliest = d <= first || d <= 0;
        const double here = earliest ? left : std::min(left, load.there[i]);
        load.needed[i] += here * share;
        people.needed[i] += here * share * attended;
        left -= here;
        if (left > 1e-9) --d;
        if (earliest) break;
      }
      last = std::max(std::min(last, d), first);
    }
  }
  if (!week.people.empty()) loads.push_back(std::move(people));
  return loads;
}

namespace {

class Reasons {
 public:
  Reasons(const Week& week, const WeekProblem& wp, const WeekPlan& plan) : week_(week), wp_(wp) {
    for (const PlannedRun& run : plan.plan.runs)
      if (run.to != never) on_[run.machine].push_back(&run);
    for (auto& [machine, runs] : on_)
      std::sort(runs.begin(), runs.end(),
                [](const auto* a, const auto* b) { return a->ready_from < b->ready_from; });
    for (const PlannedRun& run : plan.plan.runs) by_operation_[run.operation] = &run;
  }

  std::vector<std::string> chain(std::size_t job) const {
    std::vector<std::string> links;
    const auto& operations = wp_.problem.jobs[job].operations;
    int o = operations.back();
    const PlannedRun* run = by_operation_.at(o);
    if (run->to == never) {
      links.push_back("does not fit into the calendar, which ends on " + text_of(week_.to));
      return links;
    }
    if (const int days = wp_.problem.operations[static_cast<std::size_t>(o)].days_after; days > 0)
      links.push_back("is " + std::to_string(days) + " working days elsewhere from " +
                      moment_text(week_, run->to) + " on");
    for (int depth = 0; depth < 8; ++depth) {
      const PlannedOperation& operation = wp_.problem.operations[static_cast<std::size_t>(o)];
      const PlannedJob& its_job = wp_.problem.jobs[static_cast<std::size_t>(operation.job)];
      std::string here = name(o) + " on " + machine(run->machine) + " begins " +
                         moment_text(week_, run->ready_from);
      // What it could begin after: its own order before it, or what held the machine.
      Minute own = its_job.release;
      int before = -1;
      for (const int other : its_job.operations) {
        if (other == o) break;
        before = other;
      }
      if (before >= 0) own = by_operation_.at(before)->to;
      const PlannedRun* held = nullptr;
      for (const PlannedRun* other : on_.at(run->machine))
        if (other->to <= run->ready_from && other != run &&
            (held == nullptr || other->to > held->to))
          held = other;
      if (held != nullptr && held->to > own) {
        links.push_back(here + ", after " + name(held->operation) + " on the same machine");
        o = held->operation;
        run = held;
      } else if (before >= 0) {
        const int days = wp_.problem.operations[static_cast<std::size_t>(before)].days_after;
        links.push_back(here + (days > 0
                                    ? ", after " + std::to_string(days) + " working days elsewhere"
                                    : ", after " + name(before)));
        o = before;
        run = by_operation_.at(before);
      } else {
        links.push_back(here +
                        (its_job.release > week_.now ? ": its material is there from " +
                                                           beginning_text(week_, its_job.release)
                                                     : ": nothing holds it up before") +
                        ", and it takes " + readable((run->to - run->ready_from) / 60.0, 3) +
                        " h to " + moment_text(week_, run->to));
        break;
      }
    }
    return links;
  }
  // Open time of a machine between two pieces of work, when it is long: what the second waits for.
  std::vector<std::string> gaps() const {
    std::vector<std::string> lines;
    for (const auto& [m, runs] : on_) {
      Minute free = week_.now;
      const Calendar& open = week_.machines[static_cast<std::size_t>(m)].open;
      for (const PlannedRun* run : runs) {
        const Minute idle = open.between(free, run->ready_from);
        if (idle >= long_gap) {
          std::string line = machine(m);
          line.append(" stands for ").append(readable(idle / 60.0, 3)).append(" h from ");
          line.append(moment_text(week_, free)).append(": ").append(name(run->operation));
          line.append(waits_for(*run));
          lines.push_back(std::move(line));
        }
        free = std::max(free, run->to);
      }
    }
    return lines;
  }
  std::string waits_for(const PlannedRun& run) const {
    const auto& operations = wp_.problem.operations;
    const PlannedJob& job = wp_.problem.jobs[static_cast<std::size_t>(
        operations[static_cast<std::size_t>(run.operation)].job)];
    int before = -1;
    for (const int other : job.operations) {
      if (other == run.operation) break;
      before = other;
    }
    if (before < 0 && job.release > week_.now)
      return " waits for its material, there on " + beginning_text(week_, job.release);
    if (before < 0) return " waits for people";
    if (operations[static_cast<std::size_t>(before)].days_after > 0)
      return " is elsewhere after " + name(before);
    const PlannedRun* earlier = by_operation_.at(before);
    return " waits for " + name(before) + " on " + machine(earlier->machine) + " until " +
           moment_text(week_, earlier->to);
  }
  // The machine that the order waits longest for.
  std::string bottleneck(std::size_t job) const {
    std::string found;
    Minute longest = -1, own = wp_.problem.jobs[job].release;
    for (const int o : wp_.problem.jobs[job].operations) {
      const PlannedRun* run = by_operation_.at(o);
      if (run->to == never) continue;
      if (run->ready_from - own > longest) {
        longest = run->ready_from - own;
        found = machine(run->machine);
      }
      own = run->to;
    }
    return found;
  }
  std::string name(int o) const {
    const OperationName& n = wp_.names[static_cast<std::size_t>(o)];
    return week_.orders[n.order].number + "/" + std::to_string(n.setup);
  }
  std::string machine(int m) const { return week_.machines[static_cast<std::size_t>(m)].name; }

 private:
  const Week& week_;
  const WeekProblem& wp_;
  std::map<int, std::vector<const PlannedRun*>> on_;
  std::map<int, const PlannedRun*> by_operation_;
};

double days_late(const PlannedJob& job, Minute done) {
  return done == never ? 999 : static_cast<double>(std::max(0, done - job.due)) / minutes_a_day;
}

// Each way of saving an order, tried through the decoder: first in the list; two hours more a day
// on its machines, with somebody there.
std::vector<std::string> saved_by(const Week& week, const WeekProblem& wp, const WeekPlan& now,
                                  std::size_t job) {
  std::vector<std::string> found;
  PlanList first = now.list;
  std::stable_partition(first.jobs.begin() + first.frozen, first.jobs.end(),
                        [&](int j) { return static_cast<std::size_t>(j) == job; });
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

}  // namespace

namespace {

WeekPlan told(const Week& week, const WeekProblem& wp, PlanList list) {
  WeekPlan out;
  out.list = std::move(list);
  out.plan = Decoder(wp.problem).plan(out.list);
  out.faults = faults_of(wp.problem, out.plan);
  out.bound = least_lateness(wp.problem);
  const Reasons reasons(week, wp, out);
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
PlanList searched(const PlanProblem& problem, const PlanList& from, int moves, int threads,
                  double heat = SearchEffort().heat) {
  SearchEffort effort;
  effort.heat = heat;
  effort.moves = moves;
  effort.threads = threads;
  return search(problem, from, effort);
}

}  // namespace

WeekPlan plan_week(const Week& week, const WeekProblem& wp, int moves, int threads) {
  return told(week, wp, searched(wp.problem, earliest_first(wp.problem), moves, threads));
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
  PlanList found = searched(held, start, moves, threads, mild);
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
    std::string line = order;
    line.append("/").append(std::to_string(n.setup)).append(": ");
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

PlanProblem drawn(const WeekProblem& wp, std::uint64_t draw) {
  PlanProblem p = wp.problem;
  std::uint64_t state = 0x9E3779B97F4A7C15ULL * (draw + 1);
  auto share = [&] {
    state += 0x9E3779B97F4A7C15ULL;
    std::uint64_t z = state;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
    return static_cast<double>((z ^ (z >> 31)) >> 11) * 0x1.0p-53;
  };
  for (const PlannedJob& job : p.jobs) {
    // What is wrong with an order's times is wrong with all of its operations: one draw an order,
    // on a triangle from low over the planned to high.
    const double u = share();
    const double by = u < 0.5 ? std::sqrt(2 * u) - 1 : 1 - std::sqrt(2 * (1 - u));
    for (const int o : job.operations) {
      const double factor = 1 + wp.band[static_cast<std::size_t>(o)] * by;
      for (Choice& c : p.operations[static_cast<std::size_t>(o)].choices) {
        c.run = steps_up(c.run * factor);
        c.ready = steps_up(c.ready * factor);
      }
    }
  }
  return p;
}

namespace {

// Where the last job's work goes into the list: the place that is done first and makes no other
// order late, or later than it is.
PlanList with_quote(const WeekProblem& wp, const PlanList& list, const Plan& before) {
  const PlanProblem& p = wp.problem;
  const auto asked = static_cast<int>(p.jobs.size()) - 1;
  const auto& operations = p.jobs.back().operations;
  Decoder decoder(p);
  PlanList best;
  Minute best_done = never;
  for (std::size_t machine = 0; machine < p.machines.size(); ++machine)
    for (std::size_t at = 0; at <= list.jobs.size(); ++at) {
      PlanList tried = list;
      tried.choices.resize(p.operations.size(), 0);
      // All of it on this machine where that can be.
      for (const int i : operations) {
        const auto& choices = p.operations[static_cast<std::size_t>(i)].choices;
        for (std::size_t c = 0; c < choices.size(); ++c)
          if (choices[c].machine == static_cast<int>(machine))
            tried.choices[static_cast<std::size_t>(i)] = static_cast<int>(c);
      }
      tried.jobs.insert(tried.jobs.begin() + static_cast<std::ptrdiff_t>(at), operations.size(),
                        asked);
      const Plan plan = decoder.plan(tried);
      bool keeps = true;
      for (std::size_t j = 0; j + 1 < p.jobs.size() && keeps; ++j)
        keeps = plan.done[j] <= std::max(before.done[j], p.jobs[j].due);
      const Minute done = plan.done.back();
      const bool last_resort = best.jobs.empty() && machine == 0 && at == list.jobs.size();
      if (!(keeps && done < best_done) && !last_resort) continue;
      best = std::move(tried);
      if (keeps) best_done = done;
    }
  return best;
}

}  // namespace

Promise promise_of(const Week& week, const WeekProblem& wp, int moves, int threads) {
  Promise promise;
  promise.order = wp.orders.back();
  // The week without the quote first: nobody's date moves for it.
  PlanProblem others = wp.problem;
  others.operations.resize(others.operations.size() - others.jobs.back().operations.size());
  others.jobs.pop_back();
  const PlanList list = searched(others, earliest_first(others), moves, threads);
  WeekPlan plan;
  plan.list = with_quote(wp, list, Decoder(others).plan(list));
  plan.plan = Decoder(wp.problem).plan(plan.list);
  promise.planned = plan.plan.done.back();
  const Reasons reasons(week, wp, plan);
  promise.chain = reasons.chain(wp.problem.jobs.size() - 1);
  promise.bottleneck = reasons.bottleneck(wp.problem.jobs.size() - 1);
  std::vector<Minute> done;
  done.reserve(promise_draws);
  for (std::uint64_t i = 0; i < promise_draws; ++i) {
    const PlanProblem problem = drawn(wp, i);
    done.push_back(Decoder(problem).plan(plan.list).done.back());
  }
  std::sort(done.begin(), done.end());
  auto at = [&](double share) {
    return done[static_cast<std::size_t>(std::ceil(share * promise_draws)) - 1];
  };
  promise.p50 = at(0.5);
  promise.p80 = at(0.8);
  promise.p95 = at(0.95);
  promise.list = plan.list;
  return promise;
}

}  // namespace turnwright
