// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "turnwright/compare/inputs.hpp"

namespace turnwright {
namespace {

struct Pricing {
  const Part& part;
  const MethodResult& method;
  int quantity;

  // Not rounded to steps; nothing where the part cannot be made so.
  std::optional<double> each(const Shop& shop) const {
    const MethodResult result = MethodPlanner(part, shop, quantity).plan_again(method);
    if (!result.feasible()) return std::nullopt;
    Shop fine = shop;
    fine.policy.price_steps = {{}};
    return price_at(*result.quote, fine, quantity).worked_out.amount().si;
  }
};

// Nothing where a tenth makes the part impossible.
std::optional<Sensitivity> sensitivity(const Pricing& pricing, const Shop& shop,
                                       const ChangeableInput& input, double now) {
  Sensitivity s{input.input, {}, {}, 0};
  for (const double factor : {0.9, 1.1}) {
    Shop changed = shop;
    input.change(changed, factor);
    const auto price = pricing.each(changed);
    if (!price) return std::nullopt;
    (factor < 1 ? s.lower : s.higher) = rounded(Amount(*price));
    s.widest = std::max(s.widest, std::abs(*price / now - 1));
  }
  return s;
}

}  // namespace

std::vector<Sensitivity> sensitivities(const Part& part, const Shop& shop,
                                       const MethodResult& method, int quantity) {
  const Pricing pricing{part, method, quantity};
  std::vector<Sensitivity> found;
  const auto now = pricing.each(shop);
  if (!now || *now <= 0) return found;
  for (const ChangeableInput& input : changeable_inputs())
    if (const auto s = sensitivity(pricing, shop, input, *now); s && s->widest > 1e-5)
      found.push_back(*s);
  std::stable_sort(found.begin(), found.end(),
                   [](const Sensitivity& a, const Sensitivity& b) { return a.widest > b.widest; });
  return found;
}

}  // namespace turnwright
