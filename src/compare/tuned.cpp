// SPDX-License-Identifier: MIT
#include "turnwright/compare/tuned.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

// An edge that lasts less than a third of what the table's speeds stand for is beyond its evidence.
constexpr double least_life_share = 1.0 / 3;  // a convention of ours

}  // namespace

Tuned tune(const Part& part, const Shop& shop, const std::string& machine, TuneRule score) {
  Tuned out;
  out.quantity = main_quantity(part);
  Method plain, best;
  plain.name = "handbook";
  best.name = score == TuneRule::time           ? "least time"
              : score == TuneRule::contribution ? "most contribution an hour"
                                                : "least cost";
  out.handbook = plan_method(part, shop, {&plain}, machine);
  if (!out.handbook.feasible()) {
    out.best = out.handbook;
    return out;
  }
  const Price price = price_at(out.handbook.quote, shop, out.quantity);
  auto an_hour = [&](const MethodResult& w) {
    const auto lines = lot_lines(w.quote, out.quantity);
    return (price.total.amount() - lines.material - lines.edges - lines.outside) /
           machine_time(w, out.quantity);
  };
  out.hour_before = an_hour(out.handbook);
  // Smaller is better.
  auto score = [&](const MethodResult& w) {
    if (score == TuneRule::contribution) return -an_hour(w).si;
    if (score == TuneRule::time) return machine_time(w, out.quantity).si;
    return lot_cost(w.quote, out.quantity).si;
  };
  std::optional<MethodResult> leading;
  auto consider = [&](Shop changed, ConditionsRule rule, double share) {
    best.conditions = rule;
    MethodResult found;
    // What an hour is worth is what the work makes of it (W. Dinkelbach, Management Science 13,
    // 1967); a few rounds settle it.
    changed.hour_worth = score == TuneRule::contribution ? out.hour_before : Rate(0.0);
    const int rounds = score == TuneRule::contribution ? 4 : 1;
    for (int k = 0; k < rounds; ++k) {
      found = plan_method(part, changed, {&best}, machine);
      if (!found.feasible() || score != TuneRule::contribution) break;
      changed.hour_worth = max(an_hour(found), Rate(1e-9));
    }
    if (!found.feasible()) {
      out.best = leading ? out.best : std::move(found);
      return;
    }
    if (leading && score(found) >= score(*leading)) return;
    leading = std::move(found);
    out.roughing_depth = share;
  };
  for (const double share : {1.0, 0.8, 0.65, 0.5}) {
    Shop changed = shop;
    for (Tool& tool : changed.tools)
      if (tool.kind == ToolKind::rough)
        tool.largest_depth = max(tool.least_depth, share * tool.largest_depth);
    // Where a lot pays whole edges, wear costs nothing at the margin: the least time may cost less.
    if (score != TuneRule::time) consider(changed, ConditionsRule::least_cost, share);
    consider(changed, ConditionsRule::least_time, share);
    ++out.divisions;
  }
  if (leading) out.best = std::move(*leading);
  if (!out.feasible()) return out;
  out.hour = an_hour(out.best);
  const auto& before = out.handbook.route.operations;
  const auto& after = out.best.route.operations;
  for (std::size_t i = 0; i < after.size(); ++i)
    for (std::size_t k = 0; k < after[i].steps.size(); ++k) {
      const Step& step = after[i].steps[k];
      const StepTime& time = out.best.quote.times.operations[i].steps[k];
      TunedStep t;
      t.number = step.number;
      t.kind = step.kind;
      t.tool = step.tool;
      t.best = step.used;
      t.passes = step.passes.size();
      t.cutting = time.cutting;
      t.life = time.life;
      t.limited_by = step.limited_by;
      t.worth = step.limit_worth;
      t.gap = step.proof_gap;
      if (const Grade* grade = shop.grade(step.grade)) t.reference_life = grade->reference_life;
      // The same work of the handbook's route: by its number, where both have it.
      if (i < before.size() && k < before[i].steps.size() && before[i].steps[k].kind == step.kind) {
        t.handbook = before[i].steps[k].used;
        t.passes_before = before[i].steps[k].passes.size();
        t.cutting_before = out.handbook.quote.times.operations[i].steps[k].cutting;
      }
      out.proved_to = std::max(out.proved_to, t.gap);
      if (!step.no_optimum.empty())
        out.cautions.push_back("step " + std::to_string(step.number) +
                               ": no speed and feed keep every limit: " + step.no_optimum +
                               "; it is as in the handbook, with its limits");
      if (t.gap >= 0 && t.life.si > 0 && t.life < least_life_share * t.reference_life)
        out.cautions.push_back(
            "step " + std::to_string(step.number) + ": an edge lasts " +
            readable(in(t.life, unit::min), 3) + " min; the table's speeds stand for " +
            readable(in(t.reference_life, unit::min), 3) +
            " min, so this is beyond its evidence: try it before it is promised");
      out.steps.push_back(std::move(t));
    }
  return out;
}

ShopEffects shop_effects(const std::vector<Part>& parts, const Shop& shop,
                         const std::string& machine) {
  const Method plain;
  const std::vector<const Method*> method{&plain};
  struct Lot {
    const Part* part;
    double cost;
    Money each;
  };
  auto lots = [&](const Shop& s) {
    std::vector<Lot> list;
    for (const Part& part : parts) {
      const MethodResult w = plan_method(part, s, method, machine);
      if (!w.feasible()) {
        list.push_back({&part, -1, {}});
        continue;
      }
      const int q = main_quantity(part);
      list.push_back({&part, lot_cost(w.quote, q).si, price_at(w.quote, s, q).each});
    }
    return list;
  };
  ShopEffects out;
  const std::vector<Lot> now = lots(shop);
  std::set<std::string> groups;
  for (const Lot& lot : now) {
    if (lot.cost < 0) continue;
    out.total = out.total + Amount(lot.cost);
    if (const Material* m = shop.material(lot.part->material)) groups.insert(m->group);
  }
  std::vector<Lot> of_first;
  double widest = -1;
  for (std::size_t g = 0; g < shop.cutting_groups.size(); ++g) {
    const CuttingGroup& group = shop.cutting_groups[g];
    if (!groups.contains(group.name)) continue;
    std::set<std::string> grades;
    for (const CuttingRow& row : group.rows) grades.insert(row.grade);
    for (const std::string& grade : grades) {
      Shop changed = shop;
      for (CuttingRow& row : changed.cutting_groups[g].rows)
        if (row.grade == grade)
          for (Speed& v : row.speed) v = 1.1 * v;
      RowEffect effect;
      effect.row = group.name + ", " + grade;
      std::vector<Lot> then = lots(changed);
      for (std::size_t i = 0; i < then.size(); ++i) {
        if (then[i].cost < 0 || now[i].cost < 0) continue;
        const double by = then[i].cost - now[i].cost;
        effect.change = effect.change + Amount(by);
        effect.parts += std::abs(by) > 1e-9 ? 1 : 0;
      }
      if (effect.parts == 0) continue;
      if (std::abs(effect.change.si) > widest) {
        widest = std::abs(effect.change.si);
        of_first = std::move(then);
      }
      out.rows.push_back(std::move(effect));
    }
  }
  std::stable_sort(out.rows.begin(), out.rows.end(), [](const RowEffect& a, const RowEffect& b) {
    return std::abs(a.change.si) > std::abs(b.change.si);
  });
  for (std::size_t i = 0; i < of_first.size(); ++i)
    if (of_first[i].cost >= 0 && now[i].cost >= 0 && of_first[i].each != now[i].each)
      out.largest.push_back({now[i].part->number, now[i].each, of_first[i].each});
  auto change = [](const PartEffect& p) {
    return std::abs((p.after.amount() / p.before.amount()).si - 1);
  };
  std::stable_sort(out.largest.begin(), out.largest.end(),
                   [&](const PartEffect& a, const PartEffect& b) { return change(a) > change(b); });
  if (out.largest.size() > 10) out.largest.resize(10);
  return out;
}

}  // namespace turnwright
