// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>
#include <set>

#include "turnwright/compare/tuned.hpp"

namespace turnwright {
namespace {

constexpr std::size_t most_parts = 10;
constexpr double faster = 1.1;

// A part's lot at its main quantity; below 0: it cannot be made.
struct Lot {
  const Part* part;
  double cost;
  Money each;
};

Lot lot_of(const Part& part, const Shop& shop, const std::string& machine) {
  const MethodResult result = plan_method(part, shop, {Method{}}, machine);
  if (!result.feasible()) return {&part, -1, {}};
  const int q = main_quantity(part);
  return {&part, lot_cost(*result.quote, q).si, price_at(*result.quote, shop, q).each};
}

using Lots = std::vector<Lot>;

Lots lots_of(const std::vector<Part>& parts, const Shop& shop, const std::string& machine) {
  Lots lots;
  for (const Part& part : parts) lots.push_back(lot_of(part, shop, machine));
  return lots;
}

// Cutting groups of the materials of what can be made.
std::set<std::string> groups_of(const Lots& lots, const Shop& shop) {
  std::set<std::string> groups;
  for (const Lot& lot : lots)
    if (lot.cost >= 0)
      if (const Material* m = shop.material(lot.part->material)) groups.insert(m->group);
  return groups;
}

std::set<std::string> grades_of(const CuttingGroup& group) {
  std::set<std::string> grades;
  for (const CuttingRow& row : group.rows) grades.insert(row.grade);
  return grades;
}

Shop with_faster(Shop shop, std::size_t group, const std::string& grade) {
  for (CuttingRow& row : shop.cutting_groups[group].rows)
    if (row.grade == grade)
      for (Speed& v : row.speed) v = faster * v;
  return shop;
}

RowEffect effect_of(std::string row, const Lots& now, const Lots& then) {
  RowEffect effect{std::move(row), {}, 0};
  for (std::size_t i = 0; i < then.size(); ++i) {
    if (then[i].cost < 0 || now[i].cost < 0) continue;
    const double by = then[i].cost - now[i].cost;
    effect.change = effect.change + Amount(by);
    effect.parts += std::abs(by) > 1e-9 ? 1 : 0;
  }
  return effect;
}

std::vector<PartEffect> largest_of(const Lots& now, const Lots& then) {
  std::vector<PartEffect> largest;
  for (std::size_t i = 0; i < then.size(); ++i)
    if (then[i].cost >= 0 && now[i].cost >= 0 && then[i].each != now[i].each)
      largest.push_back({now[i].part->number, now[i].each, then[i].each});
  auto change = [](const PartEffect& p) {
    return std::abs((p.after.amount() / p.before.amount()).si - 1);
  };
  std::stable_sort(largest.begin(), largest.end(),
                   [&](const PartEffect& a, const PartEffect& b) { return change(a) > change(b); });
  if (largest.size() > most_parts) largest.resize(most_parts);
  return largest;
}

}  // namespace

ShopEffects shop_effects(const std::vector<Part>& parts, const Shop& shop,
                         const std::string& machine) {
  ShopEffects out;
  const Lots now = lots_of(parts, shop, machine);
  for (const Lot& lot : now)
    if (lot.cost >= 0) out.total = out.total + Amount(lot.cost);
  const std::set<std::string> groups = groups_of(now, shop);
  Lots of_widest;
  double widest = -1;
  for (std::size_t g = 0; g < shop.cutting_groups.size(); ++g) {
    const CuttingGroup& group = shop.cutting_groups[g];
    if (!groups.contains(group.name)) continue;
    for (const std::string& grade : grades_of(group)) {
      Lots then = lots_of(parts, with_faster(shop, g, grade), machine);
      RowEffect effect = effect_of(group.name + ", " + grade, now, then);
      if (effect.parts == 0) continue;
      if (std::abs(effect.change.si) > widest) {
        widest = std::abs(effect.change.si);
        of_widest = std::move(then);
      }
      out.rows.push_back(std::move(effect));
    }
  }
  std::stable_sort(out.rows.begin(), out.rows.end(), [](const RowEffect& a, const RowEffect& b) {
    return std::abs(a.change.si) > std::abs(b.change.si);
  });
  out.largest = largest_of(now, of_widest);
  return out;
}

}  // namespace turnwright
