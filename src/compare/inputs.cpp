// SPDX-License-Identifier: MIT
#include "turnwright/compare/inputs.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <thread>

namespace turnwright {
namespace {

// The cheapest of the ways at a quantity, planned anew.
int leader(const Part& part, const Shop& shop, const std::string& machine,
           const std::vector<const MethodResult*>& methods, int quantity) {
  int best = -1;
  double least = 0;
  for (std::size_t i = 0; i < methods.size(); ++i) {
    const MethodResult w = plan_method(part, shop, methods[i]->records, machine);
    if (!w.feasible()) continue;
    const double cost = lot_cost(w.quote, quantity).si;
    if (best >= 0 && cost >= least) continue;
    best = static_cast<int>(i);
    least = cost;
  }
  return best;
}

}  // namespace

const std::vector<ChangeableInput>& changeable_inputs() {
  static const std::vector<ChangeableInput> inputs{
      {"hour of the machine",
       [](Shop& s, double f) {
         for (Machine& m : s.machines) {
           if (m.rate.all_in) m.rate.all_in = f * *m.rate.all_in;
           m.rate.machine = f * m.rate.machine;
         }
       }},
      {"hour of a person",
       [](Shop& s, double f) {
         for (Machine& m : s.machines) m.rate.person = f * m.rate.person;
       }},
      {"share of a person at a running machine",
       [](Shop& s, double f) {
         for (Machine& m : s.machines) m.operator_share = std::min(1.0, f * m.operator_share);
       }},
      {"price of material",
       [](Shop& s, double f) {
         for (Material& m : s.materials)
           if (m.price) m.price = f * *m.price;
       }},
      {"cutting speeds",
       [](Shop& s, double f) {
         for (CuttingGroup& g : s.cutting_groups)
           for (CuttingRow& r : g.rows)
             for (Speed& v : r.speed) v = f * v;
       }},
      {"feeds",
       [](Shop& s, double f) {
         for (CuttingGroup& g : s.cutting_groups)
           for (CuttingRow& r : g.rows)
             for (Length& feed : r.feed) feed = f * feed;
         for (Tool& t : s.tools) t.largest_feed = f * t.largest_feed;
       }},
      {"depth of the finishing tool",
       [](Shop& s, double f) {
         for (Tool& t : s.tools)
           if (t.kind == ToolKind::finish) t.largest_depth = f * t.largest_depth;
       }},
      {"cutting force",
       [](Shop& s, double f) {
         for (Material& m : s.materials) m.kc11 = f * m.kc11;
       }},
      {"life of an edge",
       [](Shop& s, double f) {
         for (Grade& g : s.grades) g.reference_life = f * g.reference_life;
       }},
      {"price of edges",
       [](Shop& s, double f) {
         for (Tool& t : s.tools) t.price = f * t.price;
       }},
      {"change of a tool",
       [](Shop& s, double f) {
         for (HandlingElement& e : s.handling)
           if (e.name == "change tool") e.manual = f * e.manual, e.cnc = f * e.cnc;
       }},
      {"handling",
       [](Shop& s, double f) {
         for (HandlingElement& e : s.handling)
           if (e.name != "change tool") e.manual = f * e.manual, e.cnc = f * e.cnc;
       }},
      {"setup",
       [](Shop& s, double f) {
         for (HandlingElement& e : s.setup) e.manual = f * e.manual, e.cnc = f * e.cnc;
       }},
      {"power of the machine",
       [](Shop& s, double f) {
         for (Machine& m : s.machines)
           m.power = f * m.power, m.largest_torque = f * m.largest_torque;
       }},
      {"prices of outside work", [](Shop& s, double f) {
         for (OutsideWork& w : s.outside_work) w.each = f * w.each, w.lot = f * w.lot;
       }}};
  return inputs;
}

std::vector<Sensitivity> sensitivities(const Part& part, const Shop& shop,
                                       const std::string& machine, int quantity) {
  const std::vector<const Method*> method = default_method(shop);
  auto each = [&](const Shop& changed) -> std::optional<double> {
    const MethodResult w = plan_method(part, changed, method, machine);
    if (!w.feasible()) return std::nullopt;
    Shop fine = changed;
    fine.policy.price_steps = {{}};
    return price_at(w.quote, fine, quantity).each.amount().si;
  };
  std::vector<Sensitivity> found;
  const auto now = each(shop);
  if (!now || *now <= 0) return found;
  for (const ChangeableInput& input : changeable_inputs()) {
    Sensitivity s;
    s.input = input.name;
    bool possible = true;
    for (const double factor : {0.9, 1.1}) {
      Shop changed = shop;
      input.change(changed, factor);
      const auto price = each(changed);
      possible = possible && price;
      if (!price) break;
      (factor < 1 ? s.lower : s.higher) = rounded(Amount(*price));
      s.widest = std::max(s.widest, std::abs(*price / *now - 1));
    }
    if (possible && s.widest > 1e-5) found.push_back(std::move(s));
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const Sensitivity& a, const Sensitivity& b) { return a.widest > b.widest; });
  return found;
}

std::vector<WinnerChange> winner_changes(const Part& part, const Shop& shop,
                                         const std::string& machine, const Comparison& c,
                                         int quantity) {
  // The leader and those that are not hopeless.
  constexpr double near = 1.5;
  double least = 1e300;
  for (const MethodResult& w : c.methods)
    if (w.feasible()) least = std::min(least, lot_cost(w.quote, quantity).si);
  // Ways within the band of the leader are as good: it takes another one to flip the answer.
  const double band = 1 + shop.policy.either_within;
  std::vector<const MethodResult*> methods;
  std::vector<bool> as_good;
  for (const MethodResult& w : c.methods) {
    const double cost = w.feasible() ? lot_cost(w.quote, quantity).si : 1e300;
    if (w.feasible() && cost > near * least) continue;
    methods.push_back(&w);
    as_good.push_back(cost <= band * least);
  }
  std::vector<WinnerChange> found;
  const int now = leader(part, shop, machine, methods, quantity);
  if (now < 0) return found;
  auto other = [&](int method) {
    return method >= 0 && !as_good[static_cast<std::size_t>(method)];
  };
  const auto& inputs = changeable_inputs();
  std::vector<std::optional<WinnerChange>> of_input(inputs.size());
  auto work_out = [&](const ChangeableInput& input, std::optional<WinnerChange>& nearest) {
    for (const double far : {std::log(5.0), -std::log(5.0)}) {
      auto leads = [&](double log_factor) {
        Shop changed = shop;
        input.change(changed, std::exp(log_factor));
        return leader(part, changed, machine, methods, quantity);
      };
      // Coarse outwards, so that the nearest change is found and not a later one; then halving.
      double inside = 0, outside = 0;
      int then = now;
      for (const double share : {0.06, 0.14, 0.3, 0.6, 1.0}) {
        then = leads(share * far);
        if (other(then)) {
          outside = share * far;
          break;
        }
        inside = share * far;
      }
      if (outside == 0) continue;
      for (int i = 0; i < 9; ++i) {
        const double middle = (inside + outside) / 2;
        const int there = leads(middle);
        if (!other(there))
          inside = middle;
        else
          outside = middle, then = there;
      }
      const WinnerChange winner_change{input.name, std::exp(outside),
                                       methods[static_cast<std::size_t>(then)]->name};
      if (!nearest ||
          std::abs(std::log(winner_change.factor)) < std::abs(std::log(nearest->factor)))
        nearest = winner_change;
    }
  };
  // Each input by itself, so any number of threads finds the same.
  std::atomic<std::size_t> next{0};
  auto work = [&] {
    for (std::size_t i = next++; i < inputs.size(); i = next++) work_out(inputs[i], of_input[i]);
  };
  {
    std::vector<std::jthread> threads;
    for (unsigned i = 1; i < std::max(1U, std::thread::hardware_concurrency()); ++i)
      threads.emplace_back(work);
    work();
  }
  for (const auto& winner_change : of_input)
    if (winner_change) found.push_back(*winner_change);
  std::stable_sort(found.begin(), found.end(), [](const WinnerChange& a, const WinnerChange& b) {
    return std::abs(std::log(a.factor)) < std::abs(std::log(b.factor));
  });
  return found;
}

std::optional<MethodMap> method_map(const Part& part, const Shop& shop, const std::string& machine,
                                    const Comparison& c, int rows, int columns) {
  if (part.stock.form == StockForm::casting || part.stock.form == StockForm::forging)
    return std::nullopt;
  MethodMap map;
  for (const MethodResult& w : c.methods) map.names.push_back(w.name);
  const double most = std::max(10, 2 * part.quantities.back());
  for (int k = 0; k < columns; ++k) {
    const int q = static_cast<int>(std::lround(std::pow(most, k / std::max(columns - 1.0, 1.0))));
    if (map.quantities.empty() || q > map.quantities.back()) map.quantities.push_back(q);
  }
  const auto job = prepare(part, shop);
  if (!job) return std::nullopt;
  const Length largest = 2.0 * job->turned.largest();
  for (int r = 0; r < rows; ++r) {
    // From a quarter of a millimetre a side to six.
    const Length side = (0.25 + 5.75 * r / std::max(rows - 1.0, 1.0)) * unit::mm;
    Part with = part;
    with.stock.form = StockForm::round;
    with.stock.size = largest + 2.0 * side;
    map.stock.push_back(side);
    std::vector<MethodResult> planned;
    planned.reserve(c.methods.size());
    for (const MethodResult& w : c.methods)
      planned.push_back(plan_method(with, shop, w.records, machine));
    std::vector<int> row;
    for (const int q : map.quantities) {
      int best = -1;
      double least = 0;
      for (std::size_t i = 0; i < planned.size(); ++i) {
        if (!planned[i].feasible()) continue;
        const double cost = lot_cost(planned[i].quote, q).si;
        if (best >= 0 && cost >= least) continue;
        best = static_cast<int>(i);
        least = cost;
      }
      row.push_back(best);
    }
    map.method.push_back(std::move(row));
  }
  return map;
}

}  // namespace turnwright
