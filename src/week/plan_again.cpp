// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cstdlib>
#include <map>
#include <numeric>
#include <optional>
#include <set>
#include <tuple>

#include "on_machine.hpp"
#include "rescue.hpp"
#include "turnwright/week/decoder.hpp"
#include "turnwright/week/first_list.hpp"
#include "turnwright/week/plan_week.hpp"
#include "turnwright/week/search.hpp"
#include "with_reasons.hpp"

namespace turnwright {
namespace {

// What is posted, by order or batch, and operation; of what stands there twice the first.
class PostedByWork {
 public:
  PostedByWork(const Week& week, const WeekProblem& wp, const std::vector<PostedRun>& posted)
      : week_(week), wp_(wp) {
    for (const PostedRun& run : posted) runs_.try_emplace({run.order, run.operation}, &run);
  }
  // Null: it is not posted.
  const PostedRun* of(int operation) const {
    const auto found = runs_.find({lot_name(week_, wp_, lot_of(wp_, operation)),
                                   wp_.names[static_cast<std::size_t>(operation)].operation});
    return found == runs_.end() ? nullptr : found->second;
  }

 private:
  const Week& week_;
  const WeekProblem& wp_;
  std::map<std::pair<std::string, int>, const PostedRun*> runs_;
};

// Where an operation is posted, if it still can be there.
void learn(const Week& week, WeekProblem& wp, std::size_t o, const PostedRun& run,
           DispatchOrder& list, std::vector<int>& list_place) {
  PlanProblem& p = wp.problem;
  const auto& choices = p.operations[o].choices;
  for (std::size_t c = 0; c < choices.size(); ++c) {
    if (week.machine(choices[c].machine).name != run.machine) continue;
    p.old_start[o] = run.from;
    if (run.place >= 0) list_place[o] = run.place;
    p.old_machine[o] = choices[c].machine;
    list.choices[o] = static_cast<int>(c);
  }
}

// What begins before `frozen` stands at the front and keeps its machine.
struct Frozen {
  PlanProblem problem;  // in which it has no other choice
  DispatchOrder order;
  std::vector<std::size_t> operations;
};

// Frozen is what begins soon, unless its machine is no longer open then.
bool stays(const Week& week, const PlanProblem& p, std::size_t o, Minute frozen) {
  if (p.operations[o].runs) return true;
  const Minute from = std::max(p.old_start[o], week.now);
  return from < frozen && p.calendar_of(p.old_machine[o]).next(from) < from + 60;
}

Frozen frozen_before(const Week& week, const PlanProblem& p, const DispatchOrder& list,
                     Minute frozen) {
  Frozen out{p, list, {}};
  std::vector<int> rest;
  std::vector<std::size_t> next(p.lots.size(), 0);
  std::vector<bool> moves_on(p.lots.size(), false);  // work of it before does not stay
  out.order.lots.clear();
  for (const int j : list.lots) {
    const auto lot = static_cast<std::size_t>(j);
    const auto o = static_cast<std::size_t>(p.lots[lot].operations[next[lot]++]);
    if (moves_on[lot] || !stays(week, p, o, frozen)) {
      moves_on[lot] = true;
      rest.push_back(j);
      continue;
    }
    out.order.lots.push_back(j);
    out.operations.push_back(o);
  }
  out.order.frozen = static_cast<int>(out.order.lots.size());
  hold_frozen(out.problem, out.order);
  out.order.lots.insert(out.order.lots.end(), rest.begin(), rest.end());
  return out;
}

// As posted, and lists near to it where no machine waits long for what is held up before it.
std::vector<DispatchOrder> lists_near(const Frozen& held) {
  const PlanProblem& p = held.problem;
  const DispatchOrder& start = held.order;
  std::vector<DispatchOrder> lists{start};
  FirstList near;
  near.front.assign(start.lots.begin(), start.lots.begin() + start.frozen);
  near.choices = start.choices;
  near.rank.assign(p.old_start.begin(), p.old_start.end());
  for (std::size_t o = 0; o < near.rank.size(); ++o)
    if (p.old_start[o] == never) near.rank[o] += p.lot_with(static_cast<int>(o)).due;
  for (const Minute window : {0, 240, minutes_a_day}) {
    near.window = window;
    lists.push_back(earliest_first(p, near));
    lists.back().frozen = start.frozen;
  }
  return lists;
}

// A list of the same problem as the frozen one, where it has the same at its front.
std::optional<DispatchOrder> behind_same(const Frozen& held, Frozen other) {
  const auto front = [](const Frozen& f) {
    return std::vector<int>(f.order.lots.begin(), f.order.lots.begin() + f.order.frozen);
  };
  if (held.operations != other.operations || front(held) != front(other)) return std::nullopt;
  return std::move(other.order);
}

// It runs, or some of it is made and it stands set up: it goes on, and begins no more.
bool goes_on(const Week& week, const WeekProblem& wp, const PlannedRun& run) {
  return wp.problem.operation(run.operation).runs ||
         (run.setup == 0 && pieces_left(week, wp, run.operation).begun);
}

// What is other in a run, as one message; empty when it is on its machine at its time.
Message difference(const Week& week, const WeekProblem& wp, const PlannedRun& run,
                   const PostedRun* was) {
  const bool fits = run.to != never;
  const std::string& machine = week.machine(run.machine).name;
  if (was != nullptr && was->machine == machine && fits &&
      (std::abs(run.setup_from - was->from) <= same_time ||
       (was->from < week.now && goes_on(week, wp, run))))
    return {};
  Message change{was == nullptr            ? "week.change-new"
                 : was->machine != machine ? "week.change-machine"
                                           : "week.change-time",
                 {{"work", work_name(week, wp, run.operation)},
                  {"machine", machine},
                  {"now", fits ? Message{"week.begins", {{"from", moment_of(week, run.setup_from)}}}
                               : Message("week.no-longer-fits")}}};
  if (was != nullptr) change.places.push_back({"was", moment_of(week, was->from)});
  if (was != nullptr && was->machine != machine) change.places.push_back({"before", was->machine});
  return change;
}

// Why an order that is posted is in the plan no more; empty where all of it may be done.
Message why_gone(const Week& week, const WeekProblem& wp, const PostedRun& was) {
  const std::string number = was.order.substr(0, was.order.rfind('.'));
  const auto order = std::find_if(week.orders.begin(), week.orders.end(), [&](const WeekOrder& o) {
    return o.number == was.order || o.number == number;
  });
  const std::vector<Place> places{{"order", was.order}, {"was", moment_of(week, was.from)}};
  if (order == week.orders.end())
    return was.from < week.now ? Message() : Message{"week.change-gone", places};
  if (!order->hold.empty()) {
    Message held{"week.change-held", places};
    held.places.push_back({"why", order->hold});
    return held;
  }
  const bool left_out =
      std::any_of(wp.left_out.begin(), wp.left_out.end(),
                  [&](const LeftOut& left) { return left.order == order->number; });
  return left_out ? Message{"week.change-left-out", places} : Message();
}

// What is on each machine: of the first operations that were posted to begin before now, those that
// the week says run before others, and of those the one posted last. None where one runs already,
// and where bookings tell what was on the machine: they know better than the plan.
std::vector<int> begun_on(const Week& week, const WeekProblem& wp) {
  const PlanProblem& p = wp.problem;
  std::vector<bool> taken(p.machines.size(), false);
  std::vector<int> begun(p.machines.size(), -1);
  const auto rank = [&](int o) {
    const auto lot = static_cast<std::size_t>(p.operation(o).lot);
    return std::pair(week.orders[wp.orders[lot]].state == OrderState::running,
                     p.old_start[static_cast<std::size_t>(o)]);
  };
  for (const PlannedLot& lot : p.lots) {
    if (lot.operations.empty()) continue;
    const int o = lot.operations.front();
    const PlannedOperation& operation = p.operation(o);
    if (operation.runs) taken[static_cast<std::size_t>(operation.choices.front().machine)] = true;
    const Minute was = p.old_start[static_cast<std::size_t>(o)];
    if (operation.runs || was == never || was >= week.now || operation.pinned > week.now) continue;
    const int machine = p.old_machine[static_cast<std::size_t>(o)];
    if (week.machine(machine).left) continue;
    int& last = begun[static_cast<std::size_t>(machine)];
    if (last < 0 || rank(o) > rank(last)) last = o;
  }
  for (std::size_t m = 0; m < begun.size(); ++m)
    if (taken[m]) begun[m] = -1;
  return begun;
}

// There it stays, set up, and comes first; unless the machine is down for longer than a day.
void bind_begun(const Week& week, WeekProblem& wp, DispatchOrder& list) {
  PlanProblem& p = wp.problem;
  for (const int begun : begun_on(week, wp)) {
    if (begun < 0) continue;
    const auto o = static_cast<std::size_t>(begun);
    PlannedOperation& operation = p.operations[o];
    const auto open = opens_again(p.calendar_of(p.old_machine[o]), week.now);
    if (!open) continue;
    Choice choice = operation.choices[static_cast<std::size_t>(list.choices[o])];
    take_as_set_up(choice);
    operation.choices = {std::move(choice)};
    operation.runs = true;
    p.old_start[o] = *open;
    list.choices[o] = 0;
  }
}

// Every operation is where it is posted.
bool is_as_posted(const PlanProblem& p, const DispatchOrder& list) {
  const Plan plan = Decoder(p).plan(list);
  return std::all_of(plan.runs.begin(), plan.runs.end(), [&](const PlannedRun& run) {
    return p.old_start[static_cast<std::size_t>(run.operation)] != never &&
           change_of(p, run.operation, run.machine, run.setup_from) == 0;
  });
}

bool is_same_plan(const PlanProblem& p, const DispatchOrder& one, const DispatchOrder& other) {
  std::vector<std::pair<int, Minute>> at(p.operations.size());
  for (const PlannedRun& run : Decoder(p).plan(one).runs)
    at[static_cast<std::size_t>(run.operation)] = {run.machine, run.setup_from};
  const Plan plan = Decoder(p).plan(other);
  return std::all_of(plan.runs.begin(), plan.runs.end(), [&](const PlannedRun& run) {
    return at[static_cast<std::size_t>(run.operation)] == std::pair(run.machine, run.setup_from);
  });
}

}  // namespace

DispatchOrder posted_list(const Week& week, WeekProblem& wp, const std::vector<PostedRun>& posted) {
  PlanProblem& p = wp.problem;
  p.old_start.assign(p.operations.size(), never);
  p.old_machine.assign(p.operations.size(), -1);
  DispatchOrder list;
  list.choices.assign(p.operations.size(), 0);
  std::vector<int> place(p.operations.size(), -1);
  const PostedByWork by_work(week, wp, posted);
  for (std::size_t o = 0; o < p.operations.size(); ++o)
    if (const PostedRun* run = by_work.of(static_cast<int>(o)))
      learn(week, wp, o, *run, list, place);
  bind_begun(week, wp, list);
  // What runs, then as it is posted: as its list had it where all of it says so; what is new comes
  // after it, first due first.
  std::vector<int> order(p.operations.size());
  std::iota(order.begin(), order.end(), 0);
  const auto of = [](const auto& list_of, int o) { return list_of[static_cast<std::size_t>(o)]; };
  bool placed = true;
  for (std::size_t o = 0; o < place.size(); ++o)
    placed = placed && (place[o] >= 0 || p.old_start[o] == never);
  const auto key = [&](int o) {
    const bool known = of(p.old_start, o) != never;
    return std::tuple(!p.operation(o).runs, placed && known ? of(place, o) : 0,
                      placed && known ? 0 : of(p.old_start, o), known ? 0 : p.lot_with(o).due);
  };
  std::stable_sort(order.begin(), order.end(), [&](int a, int b) {
    const bool known_a = of(p.old_start, a) != never, known_b = of(p.old_start, b) != never;
    if (!p.operation(a).runs && !p.operation(b).runs && known_a != known_b) return known_a;
    return key(a) < key(b);
  });
  for (const int o : order) list.lots.push_back(p.operation(o).lot);
  return list;
}

DispatchOrder list_again(const Week& week, const PlanProblem& problem, const DispatchOrder& posted,
                         Minute frozen, int moves, int threads, const DispatchOrder* like) {
  const Frozen held = frozen_before(week, problem, posted, frozen);
  const auto with_choices = [&](DispatchOrder list) {
    for (const std::size_t o : held.operations) list.choices[o] = posted.choices[o];
    return list;
  };
  // People work to what is posted: nothing that is better by a little takes its place.
  if (is_as_posted(problem, posted)) {
    DispatchOrder front = with_choices(held.order);
    return is_same_plan(problem, front, posted) ? front : posted;
  }
  std::vector<DispatchOrder> near = lists_near(held);
  if (like != nullptr)
    if (auto also = behind_same(held, frozen_before(week, problem, *like, frozen)))
      near.insert(near.begin(), std::move(*also));
  // Where a moved date or a rush upsets what is posted, what is best lies far from it, and costs
  // its changes there, too.
  const auto front = held.order.lots.begin();
  return with_choices(search_near(
      held.problem, near, lists_behind(held.problem, {front, front + held.order.frozen}, threads),
      {.moves = moves, .threads = threads}));
}

WeekPlan plan_again(const Week& week, WeekProblem& wp, const std::vector<PostedRun>& posted,
                    Minute frozen, int moves, int threads, const std::vector<PostedRun>* like) {
  const DispatchOrder list = posted_list(week, wp, posted);
  std::optional<DispatchOrder> start;
  if (like != nullptr) start = list_like(week, wp, *like);
  WeekPlan plan = with_reasons(
      week, wp,
      list_again(week, wp.problem, list, frozen, moves, threads, start ? &*start : nullptr),
      moves / 3, threads);
  plan.changes = differences(week, wp, plan, posted);
  return plan;
}

std::vector<PostedRun> as_posted(const Week& week, const WeekProblem& wp, const Plan& plan) {
  std::vector<PostedRun> posted;
  for (std::size_t i = 0; i < plan.runs.size(); ++i) {
    const PlannedRun& run = plan.runs[i];
    if (run.to != never)
      posted.push_back({week.machine(run.machine).name,
                        lot_name(week, wp, lot_of(wp, run.operation)),
                        wp.names[static_cast<std::size_t>(run.operation)].operation, run.setup_from,
                        static_cast<int>(i)});
  }
  return posted;
}

DispatchOrder list_like(const Week& week, WeekProblem wp, const std::vector<PostedRun>& posted) {
  DispatchOrder list = posted_list(week, wp, posted);
  list.frozen =
      static_cast<int>(std::count_if(wp.problem.operations.begin(), wp.problem.operations.end(),
                                     [](const PlannedOperation& o) { return o.runs; }));
  return list;
}

Messages differences(const Week& week, const WeekProblem& wp, const WeekPlan& plan,
                     const std::vector<PostedRun>& posted) {
  struct Change {
    std::string order;
    int operation;
    Message what;
  };
  std::vector<Change> changes;
  const PostedByWork by_work(week, wp, posted);
  for (const PlannedRun& run : plan.plan.runs) {
    const std::string order = lot_name(week, wp, lot_of(wp, run.operation));
    const int operation = wp.names[static_cast<std::size_t>(run.operation)].operation;
    Message what = difference(week, wp, run, by_work.of(run.operation));
    if (!what.empty()) changes.push_back({order, operation, std::move(what)});
  }
  std::set<std::string> planned;
  for (std::size_t j = 0; j < wp.orders.size(); ++j) planned.insert(lot_name(week, wp, j));
  for (const PostedRun& was : posted)
    if (Message why = planned.contains(was.order) ? Message() : why_gone(week, wp, was);
        !why.empty()) {
      planned.insert(was.order);  // each is said once
      changes.push_back({was.order, 0, std::move(why)});
    }
  std::stable_sort(changes.begin(), changes.end(), [](const Change& a, const Change& b) {
    return std::tie(a.order, a.operation) < std::tie(b.order, b.operation);
  });
  Messages messages;
  for (Change& change : changes) messages.push_back(std::move(change.what));
  return messages;
}

}  // namespace turnwright
