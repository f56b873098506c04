// SPDX-License-Identifier: MIT
// Which methods a shop practises for a part, and what keeps one from leading unasked.
#include "practised.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "method_words.hpp"
#include "turnwright/route/joints.hpp"

namespace turnwright {
namespace {

using Records = std::vector<Method>;

// The rule of the plan changes fastest.
constexpr std::array all_choices{
    MethodChoice::stock,  MethodChoice::operations, MethodChoice::condition,
    MethodChoice::tools,  MethodChoice::conditions, MethodChoice::spindle,
    MethodChoice::pieces, MethodChoice::machine,    MethodChoice::plan};

bool is_fixed(const PartStock& stock) {
  return stock.feed_said || stock.length || stock.is_shaped();
}

// The records to choose from; none: there is nothing to choose.
Records choices(const Shop& shop, const FixedMethod& fixed, MethodChoice choice) {
  Records found;
  for (const Method& method : fixed.records)
    if (choice_of(method) == choice) found.push_back(method);
  if (!found.empty()) return found;
  for (const Method& method : shop.methods)
    if (method.practised && choice_of(method) == choice) found.push_back(method);
  return found;
}

bool is_decided(const FixedMethod& fixed, MethodChoice choice) {
  return std::any_of(fixed.records.begin(), fixed.records.end(),
                     [&](const Method& m) { return choice_of(m) == choice; });
}

// Bar or sawn, and the rule of the plan, are one of their records; all else may stay as it is.
bool may_be_none(const FixedMethod& fixed, MethodChoice choice) {
  return !is_decided(fixed, choice) && choice != MethodChoice::stock &&
         choice != MethodChoice::plan;
}

// Neither the part's stock nor the list of machines has decided it.
bool is_open(const Part& part, const FixedMethod& fixed, MethodChoice choice) {
  if (is_decided(fixed, choice)) return true;
  if (choice == MethodChoice::stock) return !is_fixed(part.stock);
  if (choice == MethodChoice::condition) return part.stock.condition.empty();
  return choice != MethodChoice::machine;
}

void multiply(std::vector<Records>& recipes, const Records& records, bool may_be_none) {
  if (records.empty()) return;
  std::vector<Records> all;
  for (const Records& recipe : recipes) {
    if (may_be_none) all.push_back(recipe);
    for (const Method& record : records) {
      all.push_back(recipe);
      all.back().push_back(record);
    }
  }
  recipes = std::move(all);
}

bool takes(const Machine& machine, const Method& record) {
  if (record.machine.empty()) return true;
  const auto kind = machine_kind_named(record.machine);
  return kind ? machine.kind == *kind : machine.name == record.machine;
}

std::vector<std::string> machines_of(const Records& records, const Shop& shop,
                                     const FixedMethod& fixed) {
  if (!fixed.machine.empty()) return {fixed.machine};
  std::vector<std::string> names;
  for (const Machine& machine : shop.machines)
    if (std::all_of(records.begin(), records.end(),
                    [&](const Method& record) { return takes(machine, record); }))
      names.push_back(machine.name);
  return names;
}

bool is_from_bar(const Part& part, const Records& records) {
  bool bar = part.stock.from_bar;
  for (const Method& record : records)
    if (!record.stock.empty()) bar = is_bar(record.stock);
  return bar;
}

// Of bar work the planner turns the second end round where that is needed; more only who insists.
bool asks_bar_for_two(const Part& part, const FixedMethod& fixed, const Records& records) {
  const bool two =
      std::any_of(records.begin(), records.end(), [](const Method& m) { return m.clampings == 2; });
  return two && is_from_bar(part, records) && !is_decided(fixed, MethodChoice::operations);
}

// Lathes that a record names, or kinds of them, are in the list of machines.
Recipe with_machines(Records records, const Shop& shop, const FixedMethod& fixed) {
  Recipe recipe{std::move(records), {}};
  recipe.machines = machines_of(recipe.records, shop, fixed);
  if (recipe.machines.empty()) {
    recipe.machines.emplace_back();
    return recipe;
  }
  for (Method& record : recipe.records) record.machine.clear();
  return recipe;
}

bool is_beyond_evidence(const Step& step, const StepTime& time) {
  return step.proof_gap >= 0 && time.life.si > 0 &&
         time.life < least_life_share * step.reference_life;
}

Message by_its_edge(const Operation& operation, const Step& step, const StepTime& time,
                    const Policy& policy) {
  if (time.edge_share <= 0) return {};
  if (!is_beyond_evidence(step, time) && time.life >= policy.shortest_edge_life) return {};
  return {"compare.held-back-edge",
          {{"step", step_label(operation, step)},
           {"tool", step.tool},
           {"life", measure(time.life, unit::min, 3)}}};
}

Message by_edges(const Quote& quote, const Shop& shop) {
  const auto& operations = quote.route.operations;
  for (std::size_t i = 0; i < operations.size(); ++i)
    for (std::size_t k = 0; k < operations[i].steps.size(); ++k)
      if (Message why = by_its_edge(operations[i], operations[i].steps[k],
                                    quote.times.operations[i].steps[k], shop.policy);
          !why.empty())
        return why;
  return {};
}

// Why it is held back stands in what the heaviest reason of all is.
void give_reason(HeldBack& held, Message why) {
  if (held.why.empty()) held.why = std::move(why);
}

void hold_by_practice(HeldBack& held, const Quote& quote, const Shop& shop) {
  const auto hold = [&](Message why) {
    ++held.practice;
    give_reason(held, std::move(why));
  };
  const Job& job = quote.route.job;
  const Machine& machine = quote.route.machine;
  // Nobody pushes bars into a CNC lathe without a feeder where the part's file does not ask for it.
  if (job.stock.from_bar && !machine.bar_fed && machine.kind == MachineKind::cnc &&
      !job.part.stock.feed_said)
    hold({"compare.held-back-bar", {{"machine", machine.name}}});
  if (!job.stock.cleans_up) hold("compare.held-back-stock");
  // A fit is not turned half from the one end and half from the other.
  if (const auto joined = joined_surfaces(quote.route, shop.practice.overlap); !joined.empty())
    hold({"compare.held-back-joint", {{"surface", job.surfaces[joined.front()].name}}});
  if (Message why = by_edges(quote, shop); !why.empty()) hold(std::move(why));
}

// Started times of what is allowed.
int times_over(double share) {
  constexpr double most = 1000;
  return static_cast<int>(std::ceil(std::min(most, share)));
}

// By the step that bends it most.
void hold_by_bending(HeldBack& held, const Route& route) {
  double worst = 1;
  std::string where;
  for (const Operation& operation : route.operations)
    for (const Step& step : operation.steps)
      for (const LimitCheck& limit : step.limits) {
        if (limit.limit != LimitId::bending || limit.actual <= worst * limit.allowed) continue;
        worst = limit.actual / limit.allowed;
        where = step_label(operation, step);
      }
  if (where.empty()) return;
  held.bending = times_over(worst);
  give_reason(held, {"compare.held-back-bending", {{"step", where}, {"times", Figure{worst, 3}}}});
}

// By the tie that is the furthest from being held.
void hold_by_ties(HeldBack& held, const Route& route) {
  const auto worst =
      std::max_element(route.open_ties.begin(), route.open_ties.end(),
                       [](const OpenTie& a, const OpenTie& b) { return a.times < b.times; });
  if (worst == route.open_ties.end()) return;
  held.ties = times_over(worst->times);
  give_reason(held,
              {"compare.held-back-tie", {{"tie", worst->tie}, {"clamping", worst->clamping}}});
}

void hold_by_grade(HeldBack& held, const Route& route) {
  for (const Surface& surface : route.job.surfaces) {
    if (!surface.finer_than(route.machine)) continue;
    give_reason(held, {"compare.held-back-grade",
                       {{"surface", surface.name}, {"machine", route.machine.name}}});
    held.grades = std::max(held.grades, route.machine.finest_grade - surface.grade);
  }
}

int by_hand_up_to(const Quote& quote, const Shop& shop) {
  const Job& job = quote.route.job;
  const bool by_hand = job.stock.from_bar && !quote.route.machine.bar_fed &&
                       quote.route.machine.kind == MachineKind::manual && !job.part.stock.feed_said;
  return by_hand ? shop.practice.bar_by_hand : 0;
}

}  // namespace

MethodChoice choice_of(const Method& m) {
  if (!m.plan.empty()) return MethodChoice::plan;
  if (!m.stock.empty()) return MethodChoice::stock;
  if (!m.condition.empty()) return MethodChoice::condition;
  if (!m.tools.empty()) return MethodChoice::tools;
  if (m.clampings > 0 || m.ends_first) return MethodChoice::operations;
  if (m.conditions != ConditionsRule::handbook) return MethodChoice::conditions;
  if (m.fixed_speed) return MethodChoice::spindle;
  return m.turn_round.empty() ? MethodChoice::machine : MethodChoice::pieces;
}

std::vector<Recipe> practised_recipes(const Part& part, const Shop& shop,
                                      const FixedMethod& fixed) {
  std::vector<Records> all{{}};
  for (const MethodChoice choice : all_choices)
    if (is_open(part, fixed, choice))
      multiply(all, choices(shop, fixed, choice), may_be_none(fixed, choice));
  std::vector<Recipe> recipes;
  for (Records& records : all)
    if (!asks_bar_for_two(part, fixed, records))
      recipes.push_back(with_machines(std::move(records), shop, fixed));
  return recipes;
}

HeldBack MethodResult::held_back_at(int quantity) const {
  if (by_hand_up_to == 0 || quantity <= by_hand_up_to) return held_back;
  HeldBack held = held_back;
  // Beside stock and edges the bar by hand is the heaviest of what a shop does not do.
  if (held.practice++ == 0)
    held.why = {"compare.held-back-by-hand",
                {{"machine", route().machine.name}, {"qty", by_hand_up_to}}};
  return held;
}

void judge_alone(MethodResult& method, const Shop& shop) {
  if (!method.feasible()) return;
  method.held_back = held_back(*method.quote, shop);
  method.by_hand_up_to = by_hand_up_to(*method.quote, shop);
}

HeldBack held_back(const Quote& quote, const Shop& shop) {
  HeldBack held;
  hold_by_practice(held, quote, shop);
  hold_by_bending(held, quote.route);
  hold_by_ties(held, quote.route);
  hold_by_grade(held, quote.route);
  return held;
}

}  // namespace turnwright
