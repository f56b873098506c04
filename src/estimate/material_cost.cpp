// SPDX-License-Identifier: MIT
#include <algorithm>

#include "quote_parts.hpp"
#include "turnwright/figure/stock.hpp"
#include "turnwright/quantity/whole.hpp"

namespace turnwright {
namespace {

// By what the material is: the first record that its cutting group names.
double credit_share(const Shop& shop, const Material& material) {
  for (const ChipCredit& credit : shop.chip_credits)
    if (material.group.find(credit.name) != std::string::npos) return credit.share;
  return 0;
}

PriceStatus status_of(const Job& job, bool priced) {
  if (job.stock.customers) return PriceStatus::supplied;
  if (!priced) return PriceStatus::no_price;
  return job.material.price_confirmed ? PriceStatus::confirmed : PriceStatus::not_confirmed;
}

// What a sawn length has beside its pieces: the end in the jaws and the saw's kerf.
Length ends_of(const Stock& stock, Length piece, const Shop& shop) {
  if (stock.pieces == 0) return Length(0.0);
  return stock.sawn - static_cast<double>(stock.pieces) * piece + shop.bars.saw_kerf;
}

// Where the lot pays the bars that it opens.
void whole_bars(const Job& job, const Shop& shop, Length length, UnitPrice price, MaterialCost& m) {
  const BarRules& bars = shop.bars;
  const double factor = 1 + shop.policy.overhead_on_material;
  const auto cut = figure::PartsPerBar::work_out<double>(
      {bars.bar_length, length, Length(0.0), Length(0.0), bars.bar_end});
  m.pieces_per_bar = std::max(nearest_whole(cut.parts.si), 1);
  m.whole_bar =
      max(bars.bar_length, length) * job.stock.section * job.material.density * price * factor;
  m.by_bar = m.bar * factor;
}

// A lot that is smaller than a sawn length pays its ends all the same.
void whole_lengths(const Job& job, const Shop& shop, Length ends, UnitPrice price,
                   MaterialCost& m) {
  const double factor = 1 + shop.policy.overhead_on_material;
  const auto pieces = static_cast<double>(job.stock.pieces);
  m.pieces_per_bar = job.stock.pieces;
  m.whole_bar =
      (ends * job.stock.section * job.material.density * price + pieces * m.cut_charge) * factor;
  m.by_bar = m.whole_bar / pieces;
}

}  // namespace

MaterialCost material_cost(const Route& route, const Shop& shop) {
  MaterialCost m;
  const Job& job = route.job;
  const Stock& stock = job.stock;
  const Length piece = stock.length + kerf_of(route, shop), ends = ends_of(stock, piece, shop);
  const double of_one_length = std::max(stock.pieces, 1);
  const Length length = piece + ends / of_one_length;
  if (stock.section.si > 0) m.length = length;
  // Bar weight is bought at the upper limit of the size; a casting by its own shape.
  m.blank =
      (stock.section.si > 0 ? stock.section * length : route.audit.stock) * job.material.density;
  m.finished = job.volume() * job.material.density;
  const bool priced = job.material.price.has_value() && !stock.customers;
  const UnitPrice price = priced ? *job.material.price * stock.price_factor : UnitPrice(0.0);
  m.bar = m.blank * price;
  const bool sawn = !stock.from_bar && !stock.customers && stock.section.si > 0;
  m.cut_charge = sawn ? shop.bars.cut(stock.section) / of_one_length : Amount(0.0);
  m.credit_share = credit_share(shop, job.material);
  m.credit = (m.blank - m.finished) * price * m.credit_share;
  m.overhead = (m.bar + m.cut_charge) * shop.policy.overhead_on_material;
  m.each = m.bar + m.cut_charge + m.overhead - m.credit;
  m.status = status_of(job, priced);
  if (shop.policy.whole_bars && stock.section.si > 0)
    whole_bars(job, shop, length, price, m);
  else if (stock.pieces > 0)
    whole_lengths(job, shop, ends, price, m);
  return m;
}

}  // namespace turnwright
