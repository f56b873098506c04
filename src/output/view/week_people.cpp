// SPDX-License-Identifier: MIT
#include "view/week_people.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "formatting.hpp"

namespace turnwright {
namespace {

// A longer break is no pause: the shift is over.
constexpr Minute longest_pause = 60;

using Stints = std::vector<const Stint*>;

const std::string& name_of(const Week& week, const Stint& stint) {
  return week.people[static_cast<std::size_t>(stint.hand)].name;
}

void add_once(std::vector<std::string>& names, const std::string& name) {
  if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
}

// Where another goes on, or the same after the shift; a line each.
void half_set(const Week& week, const RunView& run, const Stints& stints, Messages& lines) {
  Minute done = 0;
  for (std::size_t n = 0; n < stints.size() && stints[n]->sets; ++n) {
    const Stint& last = *stints[n];
    done += last.to - last.from;
    if (n + 1 == stints.size() || !stints[n + 1]->sets) return;
    const Stint& next = *stints[n + 1];
    if (next.hand == last.hand && next.from - last.to <= longest_pause) continue;
    lines.push_back({"weekpage.half-set",
                     {{"work", run.posted},
                      {"machine", week.machine(run.run->machine).name},
                      {"done", done},
                      {"all", run.run->setup},
                      {"until", moment_of(week, last.to)},
                      {"person", name_of(week, last)},
                      {"next", name_of(week, next)},
                      {"from", moment_of(week, next.from)}}});
  }
}

// Begun, and while its machine is open nobody is at it for longer than a pause; a line each.
void wait_begun(const Week& week, const RunView& run, const Stints& stints, Messages& lines) {
  const WeekMachine& machine = week.machine(run.run->machine);
  for (std::size_t n = 1; n < stints.size(); ++n) {
    const Stint &last = *stints[n - 1], &next = *stints[n];
    if (machine.open.between(last.to, next.from) <= longest_pause) continue;
    lines.push_back({"weekpage.begun-waits",
                     {{"work", run.name},
                      {"machine", machine.name},
                      {"from", moment_of(week, last.to)},
                      {"to", moment_of(week, next.from)},
                      {"person", name_of(week, next)}}});
  }
}

// After a pause, in which he does nothing else. `all`: what he does.
bool goes_on(const StintView& last, const Stint& stint, const PlannedRun& run, const Stints& all) {
  return last.run == &run && last.sets == stint.sets && stint.from - last.to <= longest_pause &&
         std::none_of(all.begin(), all.end(), [&](const Stint* other) {
           return other->from < stint.from && other->to > last.to;
         });
}

void add_stint(const WeekProblem& problem, const Stint& stint, const RunView& run,
               const Stints& all, PersonView& person) {
  const auto same =
      std::find_if(person.stints.rbegin(), person.stints.rend(),
                   [&](const StintView& last) { return goes_on(last, stint, *run.run, all); });
  if (same != person.stints.rend()) {
    same->to = stint.to;
    return;
  }
  const Choice& choice = choice_of(problem.problem, *run.run);
  person.stints.push_back({run.run, run.posted, stint.from, stint.to, stint.sets,
                           stint.sets ? whole_person : choice.attended});
}

}  // namespace

std::map<int, WorkPeople> people_by_operation(const Week& week, const Plan& plan) {
  std::map<int, WorkPeople> people;
  for (const Stint& stint : plan.stints) {
    WorkPeople& of = people[stint.operation];
    add_once(stint.sets ? of.sets : of.runs, name_of(week, stint));
  }
  return people;
}

void put_people(const Week& week, const WeekProblem& problem, const Plan& plan, WeekView& view) {
  std::map<int, Stints> by_operation, by_hand;
  for (const Stint& stint : plan.stints) {
    by_operation[stint.operation].push_back(&stint);
    by_hand[stint.hand].push_back(&stint);
  }
  std::map<int, WorkPeople> people = people_by_operation(week, plan);
  for (const Person& person : week.people) view.people.push_back({person.name, {}, person.away});
  for (std::vector<RunView>& runs : view.runs)
    for (RunView& run : runs) {
      const Stints& stints = by_operation[run.run->operation];
      for (const Stint* stint : stints)
        add_stint(problem, *stint, run, by_hand[stint->hand],
                  view.people[static_cast<std::size_t>(stint->hand)]);
      run.people = std::move(people[run.run->operation]);
      half_set(week, run, stints, view.half_set);
      wait_begun(week, run, stints, view.waits_begun);
    }
  for (PersonView& person : view.people) {
    std::erase_if(person.stints, [&](const StintView& s) {
      return !view.shown.has({s.from, s.to});
    });
    std::erase_if(person.away, [&](const Downtime& away) {
      return !view.shown.has(away.span) || away.span.to <= week.now;
    });
    std::stable_sort(person.stints.begin(), person.stints.end(),
                     [](const StintView& a, const StintView& b) {
                       return std::tie(a.from, a.to) < std::tie(b.from, b.to);
                     });
  }
}

Table person_table(const Week& week, const PersonView& person, const Words& words) {
  Table table;
  table.columns = {words_column("weekpage.from"), words_column("weekpage.to"),
                   words_column("weekpage.work"), words_column("weekpage.machine"),
                   words_column("weekpage.does")};
  for (const Downtime& away : person.away)
    table.add({words(beginning_of(week, away.span.from)), words(moment_of(week, away.span.to)), "",
               "",
               away.why.empty() ? words("weekpage.away")
                                : words({"weekpage.away-for", {{"why", away.why}}})});
  for (const StintView& stint : person.stints)
    table.add({words(moment_of(week, stint.from)), words(moment_of(week, stint.to)),
               words(stint.name), words.name(week.machine(stint.run->machine).name),
               stint.sets ? words("weekpage.sets-it-up")
                          : words({"weekpage.attends-it",
                                   {{"share", percent_text(stint.attended / 1000.0, words)}}})});
  return table;
}

void add_people_columns(const WeekView& view, Table& table) {
  if (view.people.empty()) return;
  table.columns.push_back(words_column("weekpage.sets-up"));
  table.columns.push_back(words_column("weekpage.attends"));
}

void add_people_cells(const WeekView& view, const RunView& run, const Words& words, Cells& cells) {
  if (view.people.empty()) return;
  cells.push_back(names_text(run.people.sets, words));
  cells.push_back(names_text(run.people.runs, words));
}

std::string names_text(const std::vector<std::string>& names, const Words& words) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : ", ") + words.name(name);
  return text;
}

}  // namespace turnwright
