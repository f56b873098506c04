// SPDX-License-Identifier: MIT
#include "turnwright/compare/compare.hpp"

#include <algorithm>

#include "judge.hpp"
#include "method_words.hpp"
#include "practised.hpp"

namespace turnwright {
namespace {

// Every piece is checked where seats that are tied lie in two operations.
bool tied_over_operations(const MethodResult& method) {
  if (!method.feasible()) return false;
  const auto& operations = method.route().operations;
  return std::any_of(operations.begin(), operations.end(),
                     [](const Operation& o) { return o.check_all; });
}

// Nothing of it is other than in the first: same lathe, minutes and money, or the same reason for
// being impossible there.
bool same(const MethodResult& a, const MethodResult& b) {
  if (!a.feasible() && !b.feasible())
    return a.machine == b.machine && a.method == b.method &&
           a.quote.infeasible().why == b.quote.infeasible().why;
  if (!a.feasible() || !b.feasible() || a.route().machine.name != b.route().machine.name)
    return false;
  if (a.quote->times.machine_each.si != b.quote->times.machine_each.si) return false;
  for (const int q : {1, 10, 100})
    if (lot_cost(*a.quote, q).si != lot_cost(*b.quote, q).si) return false;
  return true;
}

bool is_known(const Comparison& c, const MethodResult& method) {
  return std::any_of(c.methods.begin(), c.methods.end(),
                     [&](const MethodResult& known) { return same(known, method); });
}

// Where several machines take part, a method's name says on which.
void name_machine(MethodResult& method, const Shop& shop, const FixedMethod& fixed) {
  if (fixed.machine.empty() && shop.machines.size() > 1 && !method.machine.empty())
    method.name += " (" + method.machine + ")";
}

bool is_rule_or_two(const Method& m) {
  return m.clampings == 2 || choice_of(m) == MethodChoice::plan;
}

// The same records but for the rule of the plan and the wish for two operations.
bool differ_by_rule_or_two(const std::vector<Method>& a, const std::vector<Method>& b) {
  const auto others = [](const std::vector<Method>& records) {
    std::vector<std::string> names;
    for (const Method& m : records)
      if (!is_rule_or_two(m)) names.push_back(m.name);
    return names;
  };
  return others(a) == others(b);
}

// Where each end needs its own operation anyway, by any rule of the plan, asking for two changes
// nothing.
bool asks_in_vain_for_two(const Comparison& c, const Recipe& recipe, const std::string& machine) {
  if (std::none_of(recipe.records.begin(), recipe.records.end(),
                   [](const Method& m) { return m.clampings == 2; }))
    return false;
  return std::any_of(c.methods.begin(), c.methods.end(), [&](const MethodResult& m) {
    return m.machine == machine && m.feasible() && m.route().operations.size() > 1 &&
           differ_by_rule_or_two(m.records, recipe.records);
  });
}

void add_practised(Comparison& c, MethodPlanner& planner, const Job& job, const Shop& shop,
                   const FixedMethod& fixed) {
  for (const Recipe& recipe : practised_recipes(job.part, shop, fixed))
    for (const std::string& machine : recipe.machines) {
      if (asks_in_vain_for_two(c, recipe, machine)) continue;
      MethodResult method = planner.plan(recipe.records, machine);
      method.practised = true;
      if (method.feasible()) method.held_back = held_back(*method.quote, shop);
      name_machine(method, shop, fixed);
      if (!is_known(c, method)) c.methods.push_back(std::move(method));
    }
}

// The records of the quoted method with others in the place of those that decide the same.
std::vector<Method> with_records(const MethodResult& quoted, const std::vector<Method>& others) {
  std::vector<Method> records = quoted.records;
  for (const Method& other : others) {
    std::erase_if(records, [&](const Method& m) { return choice_of(m) == choice_of(other); });
    records.push_back(other);
  }
  return records;
}

// Called by the records that are put in. `tuned`: of which the division of depth is taken over.
MethodResult plan_variant(MethodPlanner& planner, const MethodResult& quoted, const Shop& shop,
                          const std::vector<Method>& others, const MethodResult* tuned = nullptr) {
  const bool own =
      std::any_of(others.begin(), others.end(), [](const Method& m) { return !m.machine.empty(); });
  const std::vector<Method> records = with_records(quoted, others);
  MethodResult method = planner.plan_as(records, own ? "" : quoted.machine, tuned);
  if (method.feasible()) method.held_back = held_back(*method.quote, shop);
  method.name = joined_names(others);
  return method;
}

// What else would hold the tie, and what it costs.
void add_ties(Comparison& c, MethodPlanner& planner, const Shop& shop) {
  if (c.chosen.empty() || !tied_over_operations(c.quoted())) return;
  const MethodResult quoted = c.quoted();
  for (const MethodKind kind : {MethodKind::between_centres, MethodKind::leave_and_grind})
    if (const Method* record = method_of(shop, kind))
      c.methods.push_back(plan_variant(planner, quoted, shop, {*record}));
}

// What the price holds whatever is cut: no lot of this stock and outside work costs less.
double floor_of(const MethodResult& method, int quantity) {
  const auto lines = lot_lines(*method.quote, quantity);
  return (lines.material + lines.outside + lines.one_offs).si;
}

double best_of(const Comparison& c, int quantity) {
  double least = 1e300;
  for (const MethodResult& method : c.methods)
    if (method.feasible()) least = std::min(least, lot_cost(*method.quote, quantity).si);
  return least;
}

using Quantities = std::vector<int>;

// The stock of a pair is that of one of the two.
bool is_hopeless(const Comparison& c, const MethodResult& a, const MethodResult& b,
                 const Quantities& at) {
  return std::all_of(at.begin(), at.end(), [&](int q) {
    return std::min(floor_of(a, q), floor_of(b, q)) >= best_of(c, q);
  });
}

// Worth a line only where it is the cheapest somewhere.
bool is_best_somewhere(const Comparison& c, const MethodResult& method, const Quantities& at) {
  return std::any_of(at.begin(), at.end(),
                     [&](int q) { return lot_cost(*method.quote, q).si < best_of(c, q); });
}

// A record put into the quoted method, and what came of it.
struct Variant {
  Method record;
  MethodResult method;
};

void add_pairs(Comparison& c, MethodPlanner& planner, const Job& job, const Shop& shop,
               const std::vector<Variant>& variants, Combining& combining) {
  const Quantities at{1, job.part.quantities.front(), c.quantity, job.part.quantities.back()};
  const MethodResult quoted = c.quoted();
  for (std::size_t i = 0; i < variants.size(); ++i)
    for (std::size_t k = i + 1; k < variants.size(); ++k) {
      const auto& [a, by_a] = variants[i];
      const auto& [b, by_b] = variants[k];
      if (!by_a.feasible() || !by_b.feasible() || choice_of(a) == choice_of(b)) continue;
      ++combining.possible;
      if (is_hopeless(c, by_a, by_b, at)) {
        ++combining.left_out;
        continue;
      }
      ++combining.planned;
      const MethodResult& tuned = by_a.divisions > 0 ? by_a : by_b;
      MethodResult both = plan_variant(planner, quoted, shop, {a, b}, &tuned);
      if (both.feasible() && !is_known(c, both) && is_best_somewhere(c, both, at))
        c.methods.push_back(std::move(both));
    }
}

bool is_named(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

// Beside what is quoted and the first, only what was asked for.
void keep_named(Comparison& c, const std::vector<std::string>& names) {
  std::vector<bool> kept(c.methods.size());
  for (std::size_t i = 0; i < kept.size(); ++i)
    kept[i] = i == 0 || std::any_of(c.methods[i].records.begin(), c.methods[i].records.end(),
                                    [&](const Method& m) { return is_named(names, m.name); });
  for (const ChosenMethod& chosen : c.chosen) kept[chosen.method] = true;
  std::vector<MethodResult> methods;
  for (std::size_t i = 0; i < kept.size(); ++i)
    if (kept[i]) methods.push_back(std::move(c.methods[i]));
  c.methods = std::move(methods);
}

// A kind of lathe alone: each of its machines has its row already.
bool is_kind_of_lathe(const Method& record) {
  return choice_of(record) == MethodChoice::machine && machine_kind_named(record.machine);
}

std::vector<Variant> variants_of(const Comparison& c, MethodPlanner& planner, const Shop& shop,
                                 const std::vector<std::string>& names) {
  std::vector<Variant> variants;
  for (const Method& record : shop.methods) {
    const bool asked = names.empty() ? !is_kind_of_lathe(record) : is_named(names, record.name);
    if (record.practised || !asked) continue;
    variants.push_back({record, plan_variant(planner, c.quoted(), shop, {record})});
  }
  return variants;
}

}  // namespace

std::vector<MethodResult> practised_methods(const Job& job, const Shop& shop,
                                            const FixedMethod& fixed, int quantity) {
  Comparison c;
  MethodPlanner planner(job.part, shop, quantity);
  add_practised(c, planner, job, shop, fixed);
  return std::move(c.methods);
}

Comparison choose_methods(const Job& job, const Shop& shop, const FixedMethod& fixed,
                          int quantity) {
  Comparison c;
  c.methods = practised_methods(job, shop, fixed, quantity);
  judge_choice(c, job.part, shop, quantity);
  return c;
}

Comparison compare_methods(const Job& job, const Shop& shop, const FixedMethod& fixed,
                           int quantity) {
  Comparison c = choose_methods(job, shop, fixed, quantity);
  MethodPlanner planner(job.part, shop, c.quantity);
  add_ties(c, planner, shop);
  judge(c, job.part, shop);
  return c;
}

Comparison compare_all(const Job& job, const Shop& shop, const FixedMethod& fixed,
                       const std::vector<std::string>& names, bool combine, Combining& combining,
                       int quantity) {
  Comparison c = choose_methods(job, shop, fixed, quantity);
  MethodPlanner planner(job.part, shop, c.quantity);
  if (!names.empty()) {
    keep_named(c, names);
    judge_choice(c, job.part, shop, quantity);
  }
  if (!c.methods.empty()) {
    const std::vector<Variant> variants = variants_of(c, planner, shop, names);
    for (const Variant& variant : variants)
      if (!is_known(c, variant.method)) c.methods.push_back(variant.method);
    if (combine) add_pairs(c, planner, job, shop, variants, combining);
  }
  judge(c, job.part, shop);
  return c;
}

}  // namespace turnwright
