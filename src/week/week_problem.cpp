// SPDX-License-Identifier: MIT
#include "turnwright/week/week_problem.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

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
      for (const std::string& name : m.mounted) planned.mounted.push_back(key(name));
      std::sort(planned.mounted.begin(), planned.mounted.end());
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
    const std::size_t n = first.route.operations.size();
    int days_between_cuts = 0, days_after = 0;
    for (const OtherWork& w : work)
      (w.after == "roughing" ? days_between_cuts : days_after) +=
          static_cast<int>(std::ceil(w.days));
    bool first_left = true;
    for (std::size_t k = 0; k < n; ++k) {
      const int number = first.route.operations[k].number;
      if (std::find(o.finished.begin(), o.finished.end(), number) != o.finished.end()) continue;
      PlannedOperation operation;
      operation.job = static_cast<int>(out_.problem.jobs.size());
      for (std::size_t i = 0; i < order.on.size(); ++i)
        operation.choices.push_back(choice(order.on[i], k, order.machines[i], o, first_left));
      first_left = false;
      if (between && k + 1 == n / 2) operation.days_after = days_between_cuts;
      if (k + 1 == n) operation.days_after = days_after;
      operation.transfer = o.transfer;
      job.operations.push_back(static_cast<int>(out_.problem.operations.size()));
      out_.problem.operations.push_back(std::move(operation));
      out_.names.push_back({order.order, first.route.operations[k].number});
      out_.band.push_back(order.band);
    }
    if (job.operations.empty()) return;  // all of it is done
    const std::size_t at = out_.problem.jobs.size();
    out_.problem.jobs.push_back(std::move(job));
    split_job(out_.problem, at, o.batches);
    for (std::size_t j = at; j < out_.problem.jobs.size(); ++j) {
      out_.orders.push_back(order.order);
      out_.batches.push_back(o.batches > 1 ? static_cast<int>(j - at) + 1 : 0);
      if (j == at) continue;
      for (const int whole : out_.problem.jobs[at].operations) {
        out_.names.push_back(out_.names[static_cast<std::size_t>(whole)]);
        out_.band.push_back(order.band);
      }
    }
  }
  // `now`: what runs now, where the order runs: set up, and some pieces done.
  Choice choice(const Quote& quote, std::size_t k, int machine, const Order& o, bool now) {
    const OperationTime& t = quote.times.operations[k];
    const Operation& operation = quote.route.operations[k];
    const auto lines = lot_lines(quote, o.quantity);
    const double pieces = std::max(0.0, lines.pieces.si - (now ? o.done : 0));
    Choice c;
    c.machine = machine;
    const double rated = week_.machines[static_cast<std::size_t>(machine)].rated();
    c.run = steps_up(pieces * in(t.machine, unit::min) / rated);
    c.attended =
        t.machine.si > 0
            ? std::min(1000, static_cast<int>(std::lround(1000 * (t.person / t.machine).si)))
            : 0;
    // What may stand already: jaws, the bar's size, tools beside the standing ones.
    double rest = in(t.setup, unit::min);
    auto part = [&](const std::string& name, double minutes) {
      c.parts.push_back({key(name), static_cast<Minute>(std::lround(minutes))});
      rest -= static_cast<double>(c.parts.back().minutes);
    };
    std::set<std::string> tools;
    const auto& mounted = quote.route.machine.mounted_tools;
    for (const Step& step : operation.steps)
      if (!step.given && std::find(mounted.begin(), mounted.end(), step.tool) == mounted.end())
        tools.insert(step.tool);
    double tool_minutes = 0;
    int counted = 0;
    for (const ElementTime& e : t.setup_elements) {
      const double minutes = in(e.machine, unit::min);
      if (e.name == "jaws")
        part("jaws, " + std::string(operation.jaws == Jaws::soft ? "soft" : "hard"), minutes);
      if (e.name == "soft jaws bored")
        part("soft jaws bored to " + readable(in(operation.grip_diameter, unit::mm), 5), minutes);
      if (e.name == "bar feeder")
        part("bar " + readable(in(quote.route.job.stock.diameter, unit::mm), 5), minutes);
      if (e.name.ends_with("tools not standing")) {
        tool_minutes = minutes;
        counted = std::stoi(e.name);
      }
    }
    // The operation before brought some of its tools: they stand only when it ran just before.
    const double each = counted > 0 ? tool_minutes / counted : 0;
    for (const std::string& tool : tools) c.parts.push_back({key("tool " + tool), 0});
    if (each > 0) {
      rest -= tool_minutes;
      for (ReadyPart& p : c.parts)
        if (p.minutes == 0) p.minutes = static_cast<Minute>(std::lround(each));
    }
    std::sort(c.parts.begin(), c.parts.end(),
              [](const ReadyPart& a, const ReadyPart& b) { return a.key < b.key; });
    c.ready = steps_up(std::max(rest, 0.0) / rated);
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

}  // namespace

std::string job_name(const Week& week, const WeekProblem& problem, std::size_t job) {
  const int batch = problem.batches[job];
  return week.orders[problem.orders[job]].number + (batch > 0 ? "." + std::to_string(batch) : "");
}
int job_pieces(const Week& week, const WeekProblem& problem, std::size_t job) {
  const Order& order = week.orders[problem.orders[job]];
  const int n = order.batches;
  // The first ones get what does not divide.
  return order.quantity / n +
         (problem.batches[job] > 0 && problem.batches[job] <= order.quantity % n);
}

std::string work_name(const Week& week, const WeekProblem& problem, int operation) {
  return job_name(week, problem, job_of(problem, operation)) + "/" +
         std::to_string(problem.names[static_cast<std::size_t>(operation)].operation);
}

Minute steps_up(double minutes) {
  return static_cast<Minute>(std::ceil(minutes / time_step - 1e-9)) * time_step;
}

WeekProblem week_problem(const Week& week, const std::vector<OrderRoutes>& routes) {
  return ProblemMaker(week, routes).make();
}

}  // namespace turnwright
