// SPDX-License-Identifier: MIT
#include "turnwright/compare/tuned.hpp"

#include <algorithm>
#include <array>

#include "practised.hpp"

namespace turnwright {
namespace {

constexpr int rounds_of_worth = 4;

// What is tuned, and what its lot brings at the handbook's price.
struct Tuning {
  const Part& part;
  const Shop& shop;
  const MethodResult& method;
  TuneRule rule;
  int quantity;
  Money income;

  Rate contribution(const MethodResult& m) const {
    return contribution_per_hour(*m.quote, quantity, income);
  }
};

MethodResult plan_by(const Tuning& t, const Shop& shop) {
  Method best;
  best.name = name_of(t.rule);
  best.conditions =
      t.rule == TuneRule::time ? ConditionsRule::least_time : ConditionsRule::least_cost;
  std::vector<Method> records = t.method.records;
  std::erase_if(records, [](const Method& m) { return choice_of(m) == MethodChoice::conditions; });
  records.push_back(std::move(best));
  return plan_method(t.part, shop, records, t.method.machine, t.quantity);
}

// What an hour is worth is what the work makes of it (W. Dinkelbach, Management Science 13, 1967);
// a few rounds settle it.
MethodResult plan_by_contribution(const Tuning& t, Rate worth) {
  Shop shop = t.shop;
  MethodResult found;
  shop.hour_worth = worth;
  int plans = 0;
  for (int k = 0; k < rounds_of_worth; ++k) {
    found = plan_by(t, shop);
    plans += found.plans;
    if (!found.feasible()) break;
    shop.hour_worth = max(t.contribution(found), Rate(1e-9));
  }
  found.plans = plans;
  return found;
}

Amount cost_of(const Tuning& t, const MethodResult& m) { return lot_cost(*m.quote, t.quantity); }

// Of least cost for the lot is the cheapest of all that are worked out.
MethodResult plan_tuned(const Tuning& t, Rate worth) {
  if (t.rule == TuneRule::contribution) return plan_by_contribution(t, worth);
  Shop shop = t.shop;
  shop.hour_worth = Rate(0.0);
  MethodResult found = plan_by(t, shop);
  if (t.rule != TuneRule::cost || !found.feasible()) return found;
  MethodResult other = plan_by_contribution(t, worth);
  const int plans = found.plans + other.plans;
  if (other.feasible() && cost_of(t, other) < cost_of(t, found)) found = std::move(other);
  found.plans = plans;
  return found;
}

// The lathe cuts with its nearest steps: what is best before them may be worse than the handbook's.
bool is_better(const Tuning& t, const MethodResult& found) {
  switch (t.rule) {
    case TuneRule::time:
      return found.quote->times.machine_each < t.method.quote->times.machine_each;
    case TuneRule::contribution:
      return t.contribution(found) > t.contribution(t.method);
    case TuneRule::cost:
      break;
  }
  return cost_of(t, found) < cost_of(t, t.method);
}

TunedStep tuned_step(const Operation& operation, const Step& step, const StepTime& time) {
  TunedStep t;
  t.label = step_label(operation, step);
  t.kind = step.kind;
  t.tool = step.tool;
  t.best = step.used;
  t.passes = passes_of(step).size();
  t.cutting = time.cutting;
  t.life = time.life;
  t.limited_by = step.limited_by;
  t.worth = step.limit_worth;
  t.gap = step.proof_gap;
  t.reference_life = step.reference_life;
  return t;
}

// The same work of the handbook's route: by its place, where both have it.
void set_handbook(TunedStep& t, const Quote& handbook, std::size_t i, std::size_t k) {
  const auto& operations = handbook.route.operations;
  if (i >= operations.size() || k >= operations[i].steps.size()) return;
  const Step& step = operations[i].steps[k];
  if (step.kind != t.kind) return;
  t.handbook = step.used;
  t.passes_before = passes_of(step).size();
  t.cutting_before = handbook.times.operations[i].steps[k].cutting;
}

bool lasts_too_short(const TunedStep& t) {
  return t.gap >= 0 && t.life.si > 0 && t.life < least_life_share * t.reference_life;
}

// What holds for several steps is said once.
void caution_short_lives(Tuned& out) {
  std::string steps;
  std::size_t n = 0;
  Time least{}, most{}, reference{};
  for (const TunedStep& t : out.steps) {
    if (!lasts_too_short(t)) continue;
    steps += (n++ > 0 ? ", " : "") + t.label;
    least = n == 1 ? t.life : min(least, t.life);
    most = max(most, t.life);
    reference = max(reference, t.reference_life);
  }
  if (n > 0)
    out.cautions.push_back({"compare.short-edge-life",
                            {{"n", n},
                             {"steps", steps},
                             {"life", measure(least, unit::min, 3)},
                             {"most", measure(most, unit::min, 3)},
                             {"reference", measure(reference, unit::min, 3)}}});
}

void compare_steps(Tuned& out) {
  const auto& operations = out.best.route().operations;
  for (std::size_t i = 0; i < operations.size(); ++i)
    for (std::size_t k = 0; k < operations[i].steps.size(); ++k) {
      const Step& step = operations[i].steps[k];
      TunedStep t = tuned_step(operations[i], step, out.best.quote->times.operations[i].steps[k]);
      set_handbook(t, *out.handbook.quote, i, k);
      out.proved_to = std::max(out.proved_to, t.gap);
      if (!step.no_optimum.empty())
        out.cautions.push_back(
            {"compare.no-optimum", {{"step", t.label}, {"why", step.no_optimum}}});
      out.steps.push_back(std::move(t));
    }
  caution_short_lives(out);
}

}  // namespace

const char* name_of(TuneRule rule) {
  static constexpr std::array names{"cost", "time", "contribution"};
  return names.at(static_cast<std::size_t>(rule));
}

Tuned tune(const Part& part, const Shop& shop, const MethodResult& method, TuneRule rule,
           int quantity) {
  Tuned out;
  out.rule = rule;
  out.quantity = quantity;
  out.handbook = method;
  if (!out.handbook.feasible()) {
    out.best = out.handbook;
    return out;
  }
  const Price price = price_at(*out.handbook.quote, shop, out.quantity);
  const Tuning tuning{part, shop, method, rule, out.quantity, price.income()};
  out.hour_before = tuning.contribution(out.handbook);
  out.best = plan_tuned(tuning, out.hour_before);
  out.roughing_depth = out.best.roughing_depth;
  out.divisions = out.best.divisions;
  if (!out.feasible()) return out;
  if (!is_better(tuning, out.best)) {
    const int plans = out.best.plans;
    out.best = out.handbook;
    out.best.plans = plans;
    out.keeps_handbook = true;
  }
  out.hour = tuning.contribution(out.best);
  compare_steps(out);
  if (rule != TuneRule::contribution) out.nose = larger_nose(out.best, shop, out.quantity);
  return out;
}

}  // namespace turnwright
