// SPDX-License-Identifier: MIT
#include "turnwright/compare/compare.hpp"

#include <algorithm>

#include "judge.hpp"

namespace turnwright {
namespace {

// As the shop's record calls it.
std::string name_in(const Shop& shop, MethodKind kind) {
  const Method* record = method_of(shop, kind);
  return record != nullptr ? record->name : name_of(kind);
}

MethodResult by_kind(const Job& job, const Shop& shop, const std::string& machine,
                     MethodKind kind) {
  MethodResult result;
  result.name = name_in(shop, kind);
  result.method = kind;
  if (const auto route = plan_route(job, shop, {machine, kind}))
    result.quote = make_quote(*route, shop);
  else
    result.quote = route.infeasible();
  return result;
}

// Every piece is checked where seats that are tied lie in two operations.
bool tied_over_operations(const MethodResult& method) {
  if (!method.feasible()) return false;
  const auto& operations = method.route().operations;
  return std::any_of(operations.begin(), operations.end(),
                     [](const Operation& o) { return o.check_all; });
}

// Nothing of it is other than in the first: same lathe, minutes and money.
bool same(const MethodResult& a, const MethodResult& b) {
  if (!a.feasible() || !b.feasible() || a.route().machine.name != b.route().machine.name)
    return false;
  for (const int q : {1, 10, 100})
    if (lot_cost(*a.quote, q).si != lot_cost(*b.quote, q).si) return false;
  return a.quote->times.machine_each.si == b.quote->times.machine_each.si;
}

bool is_known(const Comparison& c, const MethodResult& method) {
  return std::any_of(c.methods.begin(), c.methods.end(),
                     [&](const MethodResult& known) { return same(known, method); });
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

void add_pairs(Comparison& c, const Job& job, const Shop& shop, const std::string& machine,
               Combining& combining) {
  const Quantities at{1, job.part.quantities.front(), main_quantity(job.part),
                      job.part.quantities.back()};
  const std::size_t singles = c.methods.size();
  for (std::size_t i = 1; i < singles; ++i)
    for (std::size_t k = i + 1; k < singles; ++k) {
      const MethodResult &a = c.methods[i], &b = c.methods[k];
      if (!a.feasible() || !b.feasible()) continue;
      ++combining.possible;
      if (is_hopeless(c, a, b, at)) {
        ++combining.left_out;
        continue;
      }
      ++combining.planned;
      MethodResult both =
          plan_method(job.part, shop, {a.records.front(), b.records.front()}, machine);
      if (both.feasible() && !is_known(c, both) && is_best_somewhere(c, both, at))
        c.methods.push_back(std::move(both));
    }
}

}  // namespace

Comparison compare_methods(const Job& job, const Shop& shop, const std::string& machine) {
  Comparison c;
  auto add = [&](MethodKind kind) { c.methods.push_back(by_kind(job, shop, machine, kind)); };
  add(MethodKind::rough_then_finish);
  add(MethodKind::two_finish_cuts);
  // What else would hold the tie, and what it costs.
  if (tied_over_operations(c.methods.front())) {
    add(MethodKind::between_centres);
    add(MethodKind::leave_and_grind);
  }
  judge(c, job, shop);
  return c;
}

Comparison compare_all(const Job& job, const Shop& shop, const std::string& machine,
                       const std::vector<std::string>& names, bool combine, Combining& combining) {
  Comparison c;
  c.methods.push_back(plan_method(job.part, shop, default_method(shop), machine));
  c.methods.front().name = name_in(shop, MethodKind::rough_then_finish);
  const Method* planned = method_of(shop, MethodKind::rough_then_finish);
  for (const Method& method : shop.methods) {
    if (&method == planned) continue;
    if (!names.empty() && std::find(names.begin(), names.end(), method.name) == names.end())
      continue;
    MethodResult result = plan_method(job.part, shop, {method}, machine);
    if (!is_known(c, result)) c.methods.push_back(std::move(result));
  }
  if (combine) add_pairs(c, job, shop, machine, combining);
  judge(c, job, shop);
  return c;
}

}  // namespace turnwright
