// SPDX-License-Identifier: MIT
// Work that waits although its machine is open and free: nobody is there who sets it up or attends
// it.
#include <algorithm>

#include "reasons.hpp"
#include "turnwright/week/plan_week.hpp"

namespace turnwright {
namespace {

constexpr Minute worth_a_link = 30;  // of open time

}  // namespace

// The latest of all that it needs but people; nothing waits for people while the operation before
// still runs.
Reasons::Free Reasons::free_for(const PlannedRun& run) const {
  const PlannedOperation& operation = wp_.problem.operation(run.operation);
  Free free{std::max({week_.now, lot_with(run).release, operation.pinned, operation.ready})};
  const auto later = [&](Minute from, const PlannedRun* after) {
    if (from > free.from) free = {from, after};
  };
  if (const PlannedRun* held = ran_before_on_machine(run)) later(held->to, held);
  if (const PlannedRun* before = run_before(run))
    later(before->to > run.setup_from ? never
                                      : back_after(wp_.problem, before->to, days_after(*before)),
          before);
  return free;
}

std::vector<int> Reasons::able(const PlannedRun& run, bool sets) const {
  std::vector<int> hands;
  const std::vector<NamedHand>& named = wp_.problem.people.named;
  const auto machine = static_cast<std::size_t>(run.machine);
  for (std::size_t h = 0; h < named.size(); ++h)
    if ((sets ? named[h].sets : named[h].runs)[machine] != 0) hands.push_back(static_cast<int>(h));
  return hands;
}

// The link, and what the chain goes on with: the work of whoever begins this then, or where that
// was none, of those who were busy for longest.
const PlannedRun* Reasons::add_people(const PlannedRun& run, const Free& free,
                                      Messages& links) const {
  const bool sets = run.setup > 0;
  const PlannedRun* after = free.after;
  Messages people;
  Minute longest = 0;
  const int begins = people_.who_begins(run);
  for (const int hand : able(run, sets)) {
    const std::string& name = week_.people[static_cast<std::size_t>(hand)].name;
    const Busy busy = people_.keeps_busy(hand, run, free.from);
    if (busy.operation < 0) {
      people.push_back({"week.not-there", {{"person", name}}});
      continue;
    }
    people.push_back({"week.busy-with",
                      {{"person", name},
                       {"work", work_name(week_, wp_, busy.operation)},
                       {"until", moment_of(week_, busy.until)}}});
    const Minute last = hand == begins ? never : busy.last;
    if (last <= longest) continue;
    longest = last;
    after = by_operation_.at(busy.operation);
  }
  const Minute open = wp_.problem.calendar_of(run.machine).between(free.from, run.setup_from);
  const bool by_name = !people.empty();
  std::vector<Place> places{{"work", work(run)},
                            {"machine", machine(run.machine)},
                            {"from", moment_of(week_, run.setup_from)},
                            {"free", beginning_of(week_, free.from)},
                            {"hours", hours(open)}};
  if (by_name) places.emplace_back("people", std::move(people));
  if (sets)
    links.push_back({by_name ? "week.begins-when-set-up-by" : "week.begins-when-set-up", places});
  else
    links.push_back(
        {by_name ? "week.begins-when-attended-by" : "week.begins-when-attended", places});
  return after;
}

// Set up or begun, and left alone.
void Reasons::add_idle_time(const PlannedRun& run, Messages& links) const {
  const PlannedRun* before = run_before(run);
  const Minute open = idle_time(wp_.problem, run);
  if (open < worth_a_link || (before != nullptr && before->to > run.setup_from)) return;
  std::vector<Place> places{{"work", work(run)},
                            {"machine", machine(run.machine)},
                            {"hours", hours(open)},
                            {"from", moment_of(week_, run.setup_from)},
                            {"to", moment_of(week_, run.to)}};
  Messages people;
  for (const int hand : able(run, false))
    people.push_back(verbatim(week_.people[static_cast<std::size_t>(hand)].name));
  const bool by_name = !people.empty();
  if (by_name) places.emplace_back("people", std::move(people));
  links.push_back(
      {by_name ? "week.left-for-people-by" : "week.left-for-people", std::move(places)});
}

// What a run waited for, or null at the first cause.
const PlannedRun* Reasons::add_link(const PlannedRun& run, Messages& links) const {
  add_idle_time(run, links);
  const Free free = free_for(run);
  const bool waits =
      free.from < run.setup_from &&
      wp_.problem.calendar_of(run.machine).between(free.from, run.setup_from) >= worth_a_link;
  return waits ? add_people(run, free, links) : add_cause(run, links);
}

}  // namespace turnwright
