// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "judge.hpp"
#include "turnwright/compare/inputs.hpp"

namespace turnwright {
namespace {

// From 1 to twice the largest of the part, evenly on a logarithmic scale, each once.
std::vector<int> quantities_of(const Part& part, int columns) {
  std::vector<int> quantities;
  const double most = std::max(10, 2 * part.quantities.back());
  for (int k = 0; k < columns; ++k) {
    const int q = static_cast<int>(std::lround(std::pow(most, k / std::max(columns - 1.0, 1.0))));
    if (quantities.empty() || q > quantities.back()) quantities.push_back(q);
  }
  return quantities;
}

// From a quarter of a millimetre per side to six.
Length stock_of_row(int row, int rows) {
  return (0.25 + 5.75 * row / std::max(rows - 1.0, 1.0)) * unit::mm;
}

std::vector<MethodResult> planned(const Part& part, const Shop& shop, const Comparison& c) {
  std::vector<MethodResult> results;
  results.reserve(c.methods.size());
  MethodPlanner planner(part, shop);
  for (const MethodResult& m : c.methods) results.push_back(plan_again(planner, m, shop));
  return results;
}

}  // namespace

std::optional<MethodMap> method_map(const Part& part, const Shop& shop, const Comparison& c,
                                    int rows, int columns) {
  if (part.stock.is_shaped()) return std::nullopt;
  const auto job = prepare(part, shop);
  if (!job) return std::nullopt;
  MethodMap map;
  for (const MethodResult& m : c.methods) map.names.push_back(m.name);
  map.quantities = quantities_of(part, columns);
  const Length largest = 2.0 * job->turned.largest();
  for (int r = 0; r < rows; ++r) {
    map.stock.push_back(stock_of_row(r, rows));
    Part with = part;
    with.stock.form = StockForm::round;
    with.stock.size = largest + 2.0 * map.stock.back();
    const std::vector<MethodResult> results = planned(with, shop, c);
    std::vector<int> row;
    for (const int q : map.quantities) row.push_back(cheapest_contender(results, q));
    map.method.push_back(std::move(row));
  }
  return map;
}

}  // namespace turnwright
