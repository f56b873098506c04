// SPDX-License-Identifier: MIT
#include "turnwright/compare/tuned.hpp"

#include <algorithm>
#include <array>
#include <optional>

namespace turnwright {
namespace {

// An edge that lasts less than a third of what the table's speeds stand for is beyond its evidence.
constexpr double least_life_share = 1.0 / 3;  // a convention of ours

constexpr int rounds_of_worth = 4;

// What is tuned, and what its lot brings at the handbook's price.
struct Tuning {
  const Part& part;
  const Shop& shop;
  const std::string& machine;
  TuneRule rule;
  int quantity;
  Money income;

  bool for_contribution() const { return rule == TuneRule::contribution; }
  Rate contribution(const MethodResult& m) const {
    return contribution_per_hour(*m.quote, quantity, income);
  }
  // Smaller is better.
  double score(const MethodResult& m) const {
    if (rule == TuneRule::contribution) return -contribution(m).si;
    if (rule == TuneRule::time) return lot_machine_time(*m.quote, quantity).si;
    return lot_cost(*m.quote, quantity).si;
  }
};

MethodResult plan_by(const Tuning& t, const Shop& shop, ConditionsRule rule) {
  Method best;
  best.name = name_of(t.rule);
  best.conditions = rule;
  return plan_method(t.part, shop, {best}, t.machine);
}

// What an hour is worth is what the work makes of it (W. Dinkelbach, Management Science 13, 1967);
// a few rounds settle it.
MethodResult plan_tuned(const Tuning& t, Shop shop, ConditionsRule rule, Rate worth) {
  if (!t.for_contribution()) {
    shop.hour_worth = Rate(0.0);
    return plan_by(t, shop, rule);
  }
  MethodResult found;
  shop.hour_worth = worth;
  for (int k = 0; k < rounds_of_worth; ++k) {
    found = plan_by(t, shop, rule);
    if (!found.feasible()) break;
    shop.hour_worth = max(t.contribution(found), Rate(1e-9));
  }
  return found;
}

Shop with_roughing_depth(Shop shop, double share) {
  for (Tool& tool : shop.tools)
    if (tool.kind == ToolKind::rough)
      tool.largest_depth = max(tool.least_depth, share * tool.largest_depth);
  return shop;
}

void search(const Tuning& t, Tuned& out) {
  std::optional<MethodResult> leading;
  auto consider = [&](const Shop& changed, ConditionsRule rule, double share) {
    MethodResult found = plan_tuned(t, changed, rule, out.hour_before);
    if (!found.feasible()) {
      if (!leading) out.best = std::move(found);
      return;
    }
    if (leading && t.score(found) >= t.score(*leading)) return;
    leading = std::move(found);
    out.roughing_depth = share;
  };
  for (const double share : {1.0, 0.8, 0.65, 0.5}) {
    const Shop changed = with_roughing_depth(t.shop, share);
    // Where a lot pays whole edges, wear costs nothing at the margin: the least time may cost less.
    if (t.rule != TuneRule::time) consider(changed, ConditionsRule::least_cost, share);
    consider(changed, ConditionsRule::least_time, share);
    ++out.divisions;
  }
  if (leading) out.best = std::move(*leading);
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

Messages cautions_of(const TunedStep& t, const Message& no_optimum) {
  Messages cautions;
  if (!no_optimum.empty())
    cautions.push_back({"compare.no-optimum", {{"step", t.label}, {"why", no_optimum}}});
  if (t.gap >= 0 && t.life.si > 0 && t.life < least_life_share * t.reference_life)
    cautions.push_back({"compare.short-edge-life",
                        {{"step", t.label},
                         {"life", measure(t.life, unit::min, 3)},
                         {"reference", measure(t.reference_life, unit::min, 3)}}});
  return cautions;
}

void compare_steps(Tuned& out) {
  const auto& operations = out.best.route().operations;
  for (std::size_t i = 0; i < operations.size(); ++i)
    for (std::size_t k = 0; k < operations[i].steps.size(); ++k) {
      const Step& step = operations[i].steps[k];
      TunedStep t = tuned_step(operations[i], step, out.best.quote->times.operations[i].steps[k]);
      set_handbook(t, *out.handbook.quote, i, k);
      out.proved_to = std::max(out.proved_to, t.gap);
      for (Message& caution : cautions_of(t, step.no_optimum))
        out.cautions.push_back(std::move(caution));
      out.steps.push_back(std::move(t));
    }
}

}  // namespace

const char* name_of(TuneRule rule) {
  static constexpr std::array names{"cost", "time", "contribution"};
  return names.at(static_cast<std::size_t>(rule));
}

Tuned tune(const Part& part, const Shop& shop, const std::string& machine, TuneRule rule) {
  Tuned out;
  out.rule = rule;
  out.quantity = main_quantity(part);
  Method plain;
  plain.name = "handbook";
  out.handbook = plan_method(part, shop, {plain}, machine);
  if (!out.handbook.feasible()) {
    out.best = out.handbook;
    return out;
  }
  const Price price = price_at(*out.handbook.quote, shop, out.quantity);
  const Tuning tuning{part, shop, machine, rule, out.quantity, price.income()};
  out.hour_before = tuning.contribution(out.handbook);
  search(tuning, out);
  if (!out.feasible()) return out;
  out.hour = tuning.contribution(out.best);
  compare_steps(out);
  return out;
}

}  // namespace turnwright
