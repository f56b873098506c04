// SPDX-License-Identifier: MIT
#include "reasons.hpp"

#include <algorithm>

namespace turnwright {
namespace {

constexpr Minute long_gap = 8 * 60;       // of open time, worth a word
constexpr std::size_t told_at_first = 8;  // links of a chain, before its first cause

}  // namespace

Reasons::Reasons(const Week& week, const WeekProblem& problem, const Plan& plan)
    : week_(week), wp_(problem), people_(plan) {
  for (int m = 0; m < static_cast<int>(problem.problem.machines.size()); ++m)
    on_[m] = runs_on(plan, m);
  for (const PlannedRun& run : plan.runs) by_operation_[run.operation] = &run;
}

Messages Reasons::chain(std::size_t lot) const {
  const PlannedRun* run = by_operation_.at(wp_.problem.lots[lot].operations.back());
  if (run->to == never) return Messages{Message{"week.beyond-calendar", {{"day", week_.to}}}};
  Messages links;
  if (const int days = days_after(*run); days > 0)
    links.push_back(Message{"week.goes-out", {{"n", days}, {"from", moment_of(week_, run->to)}}});
  std::vector<Messages> steps;
  while (run != nullptr) run = add_link(*run, steps.emplace_back());
  // A long chain by its beginning and its first cause.
  const bool is_long = steps.size() > told_at_first + 2;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    if (is_long && i == told_at_first) {
      i = steps.size() - 1;
      links.push_back(Message{"week.and-so-on", {{"n", static_cast<int>(i - told_at_first)}}});
    }
    links.insert(links.end(), steps[i].begin(), steps[i].end());
  }
  return links;
}

// The run of the same lot before this one; null for its first.
const PlannedRun* Reasons::run_before(const PlannedRun& run) const {
  const auto& operations = lot_with(run).operations;
  const auto at = std::find(operations.begin(), operations.end(), run.operation);
  return at == operations.begin() ? nullptr : by_operation_.at(*std::prev(at));
}

// The first of a lot that comes from another firm; null: it does not.
const SentOut* Reasons::sent_out(const PlannedRun& run) const {
  if (run_before(run) != nullptr || !lot_with(run).is_out) return nullptr;
  const std::size_t order = wp_.names[static_cast<std::size_t>(run.operation)].order;
  const auto found = std::find_if(wp_.out.begin(), wp_.out.end(),
                                  [&](const SentOut& out) { return out.order == order; });
  return found == wp_.out.end() ? nullptr : &*found;
}

const PlannedRun* Reasons::ran_before_on_machine(const PlannedRun& run) const {
  const std::vector<const PlannedRun*>& runs = on_.at(run.machine);
  const auto at = std::lower_bound(
      runs.begin(), runs.end(), run.setup_from,
      [](const PlannedRun* other, Minute from) { return other->setup_from < from; });
  return at == runs.begin() ? nullptr : *std::prev(at);
}

// It could begin before the moment that it is pinned to, which is after `free`.
bool Reasons::waits_for_its_pin(const PlannedRun& run, Minute free) const {
  const PlannedRun* before = run_before(run);
  const Minute pinned = wp_.problem.operation(run.operation).pinned;
  const Minute ready =
      before == nullptr
          ? lot_with(run).release
          : back_after(wp_.problem, std::min(before->to, run.setup_from), days_after(*before));
  return pinned > free && pinned > ready && pinned <= run.setup_from;
}

// The machine, material, the lot itself, or nothing: what it waited for, or null.
const PlannedRun* Reasons::add_cause(const PlannedRun& run, Messages& links) const {
  const Minute release = lot_with(run).release;
  const PlannedRun* before = run_before(run);
  const PlannedRun* held = ran_before_on_machine(run);
  std::vector<Place> places{{"work", work(run)},
                            {"machine", machine(run.machine)},
                            {"from", moment_of(week_, run.setup_from)}};
  auto add = [&](const char* id, std::vector<Place> more) {
    places.insert(places.end(), more.begin(), more.end());
    links.push_back(Message{id, places});
  };
  if (waits_for_its_pin(run, held == nullptr ? week_.now : held->to)) {
    add("week.begins-pinned", {});
    return nullptr;
  }
  // It began with the first pieces of what then still ran.
  const bool overlaps = before != nullptr && before->to > run.setup_from;
  const Minute there = before == nullptr ? release
                       : overlaps        ? before->run_from
                                         : back_after(wp_.problem, before->to, days_after(*before));
  const Minute ready = wp_.problem.operation(run.operation).ready;
  if (ready > std::max(held == nullptr ? week_.now : held->to, there)) {
    add("week.begins-when-there", {{"material", beginning_of(week_, ready)}});
    return nullptr;
  }
  if (held != nullptr && held->to > there) {
    add("week.begins-after-machine", {{"before", work(*held)}});
    return held;
  }
  if (before != nullptr) {
    if (const int days = days_after(*before); days > 0)
      add("week.begins-after-outside", {{"n", days}});
    else if (overlaps)
      add("week.begins-with-first-pieces", {{"before", work(*before)}});
    else
      add("week.begins-after", {{"before", work(*before)}});
    return before;
  }
  if (const SentOut* out = sent_out(run)) {
    add("week.begins-after-outside", {{"n", out->days}});
    return nullptr;
  }
  places.push_back({"hours", hours(run.setup + choice_of(wp_.problem, run).run)});
  places.push_back({"to", moment_of(week_, run.to)});
  if (release > week_.now)
    add("week.begins-with-material", {{"material", beginning_of(week_, release)}});
  else
    add("week.begins-freely", {});
  return nullptr;
}

std::vector<Gap> Reasons::gaps() const {
  std::vector<Gap> found;
  for (const auto& [m, runs] : on_) {
    Minute free = week_.now;
    for (const PlannedRun* run : runs) {
      const Minute idle = week_.machine(m).open.between(free, run->setup_from);
      if (idle >= long_gap) found.push_back({gap(*run, free, idle), free});
      free = std::max(free, run->to);
    }
  }
  return found;
}

Message Reasons::gap(const PlannedRun& run, Minute from, Minute idle) const {
  Message gap{"week.gap-people",
              {{"machine", machine(run.machine)},
               {"hours", hours(idle)},
               {"from", moment_of(week_, from)},
               {"work", work(run)}}};
  const PlannedRun* before = run_before(run);
  const PlannedOperation& operation = wp_.problem.operation(run.operation);
  const Minute there = before == nullptr ? lot_with(run).release
                                         : back_after(wp_.problem, before->to, days_after(*before));
  const Minute material = before == nullptr ? std::max(operation.ready, there) : operation.ready;
  if (waits_for_its_pin(run, from)) {
    gap.id = "week.gap-pinned";
    gap.places.push_back({"pinned", moment_of(week_, operation.pinned)});
  } else if (const SentOut* out = sent_out(run); out != nullptr && there > from) {
    gap.id = "week.gap-outside";
    gap.places.push_back({"before", work_name(week_, OperationName{out->order, out->operation})});
  } else if (material > from && (before == nullptr || material > before->to)) {
    gap.id = "week.gap-material";
    gap.places.push_back({"material", beginning_of(week_, material)});
  } else if (there <= from) {
    return gap;  // what was there before the gap began is no cause of it
  } else if (days_after(*before) > 0) {
    gap.id = "week.gap-outside";
    gap.places.push_back({"before", work(*before)});
  } else {
    gap.id = before->to > run.setup_from ? "week.gap-first-pieces" : "week.gap-before";
    gap.places.push_back({"before", work(*before)});
    gap.places.push_back({"other", machine(before->machine)});
    if (before->to <= run.setup_from) gap.places.push_back({"until", moment_of(week_, before->to)});
  }
  return gap;
}

std::string Reasons::bottleneck(std::size_t lot) const {
  std::string found;
  Minute longest = -1, own = wp_.problem.lots[lot].release;
  for (const int o : wp_.problem.lots[lot].operations) {
    const PlannedRun* run = by_operation_.at(o);
    if (run->to == never) continue;
    if (run->setup_from - own > longest) {
      longest = run->setup_from - own;
      found = machine(run->machine);
    }
    own = run->to;
  }
  return found;
}

}  // namespace turnwright
