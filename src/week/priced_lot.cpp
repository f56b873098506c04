// SPDX-License-Identifier: MIT
#include "priced_lot.hpp"

namespace turnwright {
namespace {

PricedLot::Operation priced_operation(const PlannedOperation& operation, const LeastSetup& setup,
                                      PricedHours& hours) {
  PricedLot::Operation priced;
  priced.from = hours.stretch_at(std::max(operation.pinned, operation.ready));
  for (const Choice& c : operation.choices)
    priced.choices.push_back({hours.number_of(c.machine, c.attended, false),
                              hours.number_of(c.machine, whole_person, true),
                              static_cast<double>(c.run),
                              static_cast<double>(setup.of(operation, c))});
  return priced;
}

// An operation that overlaps the one before ends no sooner than that; when it begins is left open.
bool overlaps(const PlannedOperation& before) {
  return before.transfer < 1 && before.days_after == 0;
}

void add_lateness(const PlanProblem& problem, const PlannedLot& lot, PricedLot& priced,
                  const std::vector<Span>& stretches) {
  const Minute end = end_of_calendars(problem);
  const int days = problem.operation(lot.operations.back()).days_after;
  const double alone = lateness_of(problem, lot, done_alone(problem, lot, 0, lot.release), end, 0);
  priced.undone = lateness_of(problem, lot, never, end, 0);
  for (const Span& s : stretches) {
    const Minute done = back_after(problem, s.from, days);
    const double late = std::max(alone, lateness_of(problem, lot, done, end, 0));
    priced.late.push_back(late);
    // Lateness is convex: each further minute adds as much, or more.
    priced.each_minute.push_back(
        days > 0 || done == never
            ? 0
            : std::max(0.0, lateness_of(problem, lot, done + 1, end, 0) - late));
  }
}

}  // namespace

PricedLot priced_lot(const PlanProblem& problem, const PlannedLot& lot, const LeastSetup& setup,
                     PricedHours& hours) {
  PricedLot priced;
  priced.first = hours.stretch_at(lot.release);
  for (std::size_t k = 0; k < lot.operations.size(); ++k) {
    const PlannedOperation& operation = problem.operation(lot.operations[k]);
    if (k == 0 || !overlaps(problem.operation(lot.operations[k - 1]))) priced.stages.emplace_back();
    PricedLot::Stage& stage = priced.stages.back();
    stage.operations.push_back(priced_operation(operation, setup, hours));
    stage.next.clear();
    for (const Span& s : hours.stretches())
      stage.next.push_back(hours.stretch_at(back_after(problem, s.from, operation.days_after)));
  }
  if (!lot.operations.empty()) add_lateness(problem, lot, priced, hours.stretches());
  return priced;
}

double LotBuys::least(const PricedLot& lot) {
  const std::size_t count = hours_.stretches().size();
  best_ = lot.undone;
  end_ = count;
  begins_.assign(count, no_cost);
  if (lot.first < count) begins_[lot.first] = 0;
  ends_.resize(std::max(ends_.size(), lot.stages.size()));
  came_.resize(ends_.size());
  for (std::size_t k = 0; k < lot.stages.size(); ++k) stage(lot, k);
  return best_;
}

// Who begins later and has paid no less is not looked at.
void LotBuys::stage(const PricedLot& lot, std::size_t k) {
  ends_[k].assign(begins_.size(), {});
  double least = no_cost;
  for (std::size_t b = 0; b < begins_.size(); ++b) {
    if (begins_[b] >= least) continue;
    least = begins_[b];
    if (least + lot.late[b] < best_) from(lot, k, b, least);
  }
  if (k + 1 < lot.stages.size()) carry_on(lot.stages[k], k);
}

void LotBuys::begin_offers(const PricedLot::Stage& stage, std::size_t begin) {
  std::size_t n = 0;
  for (const PricedLot::Operation& operation : stage.operations)
    for (const PricedLot::Choice& c : operation.choices) {
      if (n == offers_.size()) offers_.emplace_back();
      offers_[n].run.begin(hours_.work(c.runs), std::max(begin, operation.from), c.run);
      offers_[n].set.begin(hours_.work(c.sets), std::max(begin, operation.from), c.set);
      ++n;
    }
  offers_.resize(n);
}

void LotBuys::from(const PricedLot& lot, std::size_t k, std::size_t begin, double cost) {
  const bool last = k + 1 == lot.stages.size();
  begin_offers(lot.stages[k], begin);
  for (std::size_t t = begin; t < begins_.size() && cost + lot.late[t] < best_; ++t) {
    steps_ += offers_.size();
    const double all = cost + ending_in(lot, k, t);
    if (all < ends_[k][t].cost) ends_[k][t] = {all, begin};
    if (last && all < best_) {
      best_ = all;
      end_ = t;
    }
    for (Offer& offer : offers_) {
      offer.run.add(t);
      offer.set.add(t);
    }
  }
}

double LotBuys::ending_in(const PricedLot& lot, std::size_t k, std::size_t t) const {
  const bool last = k + 1 == lot.stages.size();
  const auto& operations = lot.stages[k].operations;
  double sum = last ? lot.late[t] : 0;
  auto offer = offers_.begin();
  for (const PricedLot::Operation& operation : operations) {
    const double dearer = last && &operation == &operations.back() ? lot.each_minute[t] : 0;
    double least = no_cost;
    for (std::size_t c = 0; c < operation.choices.size(); ++c, ++offer)
      least = std::min(least, offer->run.ending_in(t, dearer) + offer->set.ending_in(t, 0));
    sum += least;
  }
  return sum;
}

void LotBuys::carry_on(const PricedLot::Stage& stage, std::size_t k) {
  std::fill(begins_.begin(), begins_.end(), no_cost);
  came_[k].assign(begins_.size(), 0);
  for (std::size_t t = 0; t < begins_.size(); ++t) {
    const std::size_t next = stage.next[t];
    if (next >= begins_.size() || ends_[k][t].cost >= begins_[next]) continue;
    begins_[next] = ends_[k][t].cost;
    came_[k][next] = t;
  }
}

void LotBuys::take(const PricedLot& lot) {
  std::size_t t = end_;
  if (t == begins_.size()) return;
  for (std::size_t k = lot.stages.size(); k-- > 0;) {
    take_stage(lot, k, t);
    if (k > 0) t = came_[k - 1][ends_[k][t].begun];
  }
}

void LotBuys::take_stage(const PricedLot& lot, std::size_t k, std::size_t t) {
  const PricedLot::Stage& stage = lot.stages[k];
  begin_offers(stage, ends_[k][t].begun);
  for (Offer& offer : offers_)
    for (std::size_t b = ends_[k][t].begun; b < t; ++b) {
      offer.run.add(b);
      offer.set.add(b);
    }
  auto offer = offers_.begin();
  for (const PricedLot::Operation& operation : stage.operations) {
    const bool last = k + 1 == lot.stages.size() && &operation == &stage.operations.back();
    const double dearer = last ? lot.each_minute[t] : 0;
    double least = no_cost;
    std::size_t best = 0;
    for (std::size_t c = 0; c < operation.choices.size(); ++c) {
      const double cost = offer[static_cast<std::ptrdiff_t>(c)].run.ending_in(t, dearer) +
                          offer[static_cast<std::ptrdiff_t>(c)].set.ending_in(t, 0);
      if (cost < least) least = cost, best = c;
    }
    const auto chosen = offer + static_cast<std::ptrdiff_t>(best);
    const PricedLot::Choice& choice = operation.choices[best];
    chosen->run.hand_out(t, dearer,
                         [&](std::size_t b, double m) { hours_.take(choice.runs, b, m); });
    chosen->set.hand_out(t, 0, [&](std::size_t b, double m) { hours_.take(choice.sets, b, m); });
    offer += static_cast<std::ptrdiff_t>(operation.choices.size());
  }
}

}  // namespace turnwright
