// SPDX-License-Identifier: MIT
#include "turnwright/compare/compare.hpp"

#include <algorithm>
#include <set>

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
      judge_alone(method, shop);
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
  judge_alone(method, shop);
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

// Each of the first, then a tenth more each time, up to twice the list, and all of the list: what a
// lot costs changes little between two of them.
std::vector<int> probed_quantities(const std::vector<int>& listed) {
  std::set<int> at(listed.begin(), listed.end());
  for (int q = 1; q <= 2 * listed.back(); q = q < 20 ? q + 1 : q + q / 10) at.insert(q);
  return {at.begin(), at.end()};
}

// A record put into the quoted method, and what came of it.
struct Variant {
  Method record;
  MethodResult method;
};

// Several records together, kept where they are the cheapest at some quantity.
class Combiner {
 public:
  Combiner(Comparison& c, MethodPlanner& planner, const Job& job, const Shop& shop,
           const std::vector<Variant>& variants, Combining& combining)
      : c_(c),
        planner_(planner),
        shop_(shop),
        variants_(variants),
        combining_(combining),
        quoted_(c.quoted()),
        at_(probed_quantities(job.part.quantities)),
        best_(at_.size(), 1e300) {
    for (const MethodResult& method : c_.methods)
      if (method.feasible()) take(costs_of(method));
  }

  /// Two, and with two that lead somewhere a third; what later ones beat everywhere goes again.
  void combine() {
    const auto first = static_cast<std::ptrdiff_t>(c_.methods.size());
    for (std::size_t i = 0; i < variants_.size(); ++i)
      for (std::size_t k = i + 1; k < variants_.size(); ++k)
        if (plan({i, k}))
          for (std::size_t l = 0; l < variants_.size(); ++l)
            if (l != i && l != k) plan({i, k, l});
    c_.methods.erase(
        std::remove_if(c_.methods.begin() + first, c_.methods.end(),
                       [&](const MethodResult& m) { return !leads_somewhere(costs_of(m)); }),
        c_.methods.end());
  }

 private:
  std::vector<double> costs_of(const MethodResult& method) const {
    std::vector<double> costs;
    LotCosts lots(*method.quote);
    for (const int quantity : at_) costs.push_back(lots.at(quantity).si);
    return costs;
  }
  void take(const std::vector<double>& costs) {
    for (std::size_t i = 0; i < best_.size(); ++i) best_[i] = std::min(best_[i], costs[i]);
  }
  // Somewhere as cheap as the best.
  bool leads_somewhere(const std::vector<double>& costs) const {
    for (std::size_t i = 0; i < at_.size(); ++i)
      if (costs[i] <= best_[i]) return true;
    return false;
  }
  bool go_together(const std::vector<std::size_t>& of) const {
    std::set<MethodChoice> choices;
    for (const std::size_t i : of) {
      if (!variants_[i].method.feasible()) return false;
      choices.insert(choice_of(variants_[i].record));
    }
    return choices.size() == of.size();
  }
  // The stock of several is that of one of them.
  bool is_hopeless(const std::vector<std::size_t>& of) const {
    for (std::size_t i = 0; i < at_.size(); ++i)
      for (const std::size_t v : of)
        if (floor_of(variants_[v].method, at_[i]) < best_[i]) return false;
    return true;
  }
  const MethodResult* tuned_of(const std::vector<std::size_t>& of) const {
    for (const std::size_t i : of)
      if (variants_[i].method.divisions > 0) return &variants_[i].method;
    return &variants_[of.back()].method;
  }
  // True where the lead is taken at some quantity.
  bool plan(const std::vector<std::size_t>& of) {
    if (!go_together(of) || !tried_.insert({of.begin(), of.end()}).second) return false;
    ++combining_.possible;
    if (is_hopeless(of)) {
      ++combining_.left_out;
      return false;
    }
    ++combining_.planned;
    std::vector<Method> records;
    for (const std::size_t i : of) records.push_back(variants_[i].record);
    MethodResult method = plan_variant(planner_, quoted_, shop_, records, tuned_of(of));
    if (!method.feasible() || is_known(c_, method)) return false;
    const std::vector<double> costs = costs_of(method);
    bool leads = false;
    for (std::size_t i = 0; i < at_.size(); ++i) leads = leads || costs[i] < best_[i];
    if (!leads) return false;
    take(costs);
    c_.methods.push_back(std::move(method));
    return true;
  }

  Comparison& c_;
  MethodPlanner& planner_;
  const Shop& shop_;
  const std::vector<Variant>& variants_;
  Combining& combining_;
  MethodResult quoted_;
  std::vector<int> at_;
  std::vector<double> best_;
  std::set<std::set<std::size_t>> tried_;
};

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
    if (combine) Combiner(c, planner, job, shop, variants, combining).combine();
  }
  judge(c, job.part, shop, !names.empty());
  return c;
}

}  // namespace turnwright
