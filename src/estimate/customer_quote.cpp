// SPDX-License-Identifier: MIT
#include "turnwright/estimate/customer_quote.hpp"

#include <algorithm>

#include "turnwright/estimate/order.hpp"

namespace turnwright {
namespace {

// Material that the customer brings for a lot: setting and scrap pieces too.
void add_blanks(CustomerPrice& to, const Quote& quote, const Price& price) {
  const Stock& stock = quote.route.job.stock;
  if (!stock.customers) return;
  if (stock.from_bar)
    to.bar = static_cast<double>(price.made) * quote.material.length;
  else
    to.blanks = stock.pieces > 0 ? (price.made + stock.pieces - 1) / stock.pieces : price.made;
}

int lead_days_of(const RequestItem& asked, std::size_t price) {
  if (asked.lead_days.empty()) return 0;
  return asked.lead_days[std::min(price, asked.lead_days.size() - 1)];
}

CustomerItem named_item(const Part& part) {
  CustomerItem item;
  item.number = part.number;
  item.name = part.name;
  item.revision = part.revision;
  if (!part.like) item.material = part.material;  // a material like another is on the drawing
  item.customers_material = part.stock.customers;
  return item;
}

CustomerItem item_of(const RequestItem& asked, const Showing& show, const OfferedPart& offered) {
  CustomerItem item = named_item(*offered.part);
  item.offered = offered.quote != nullptr;
  item.not_offered = asked.not_offered;
  item.option = asked.selling.option;
  if (!item.offered) return item;
  const Quote& quote = *offered.quote;
  const Job& job = quote.route.job;
  for (std::size_t i = 0; i < quote.prices.size(); ++i) {
    const Price& p = quote.prices[i];
    item.prices.push_back({p.quantity,
                           p.releases,
                           p.price_unit,
                           p.each,
                           p.total,
                           p.minimum_surcharge,
                           lead_days_of(asked, i),
                           0,
                           {}});
    add_blanks(item.prices.back(), quote, p);
  }
  if (item.customers_material) item.stock = stock_label(job), item.blank = blank_label(job.stock);
  for (const OneOffLine& o : quote.one_offs) item.once.push_back({o.what, o.price});
  if (show.work)
    for (const OtherWork& w : job.part.other_work) item.work.push_back(w.what);
  if (show.mass) item.mass = quote.material.finished;
  if (show.delivery_week) item.week = asked.week;
  return item;
}

void add_terms(CustomerQuote& q, const Request& request) {
  q.terms = request.terms;
  q.packing = request.packing;
  q.payment = request.payment;
  q.clause = request.clause;
  q.tolerance = request.tolerance;
  q.material_certificate = request.show.material_certificate;
}

void add_orders(CustomerQuote& q, const Request& request, const std::vector<OfferedPart>& parts,
                const Policy& policy) {
  const OrderTerms terms = order_terms(policy, &request);
  q.minimum_order = terms.minimum;
  q.rebate = terms.rebate;
  q.tax = terms.tax;
  for (const Charge& charge : request.charges) q.charges.push_back({charge.what, charge.price});
  std::vector<Quote> quotes;
  for (const OfferedPart& part : parts)
    if (part.quote != nullptr) quotes.push_back(*part.quote);
  for (const Order& o : orders_of(quotes, terms))
    q.orders.push_back({o.quantities, o.surcharge, o.rebate, o.net, o.tax, o.total});
}

}  // namespace

CustomerQuote customer_quote(const Request& request, const std::vector<OfferedPart>& parts,
                             const Policy& policy) {
  CustomerQuote q;
  q.customer = request.customer;
  q.contact = request.contact;
  q.address = request.address;
  q.reference = request.reference;
  q.number = request.number;
  q.revision = request.revision;
  q.date = request.date;
  q.valid_until = days_after(request.date, request.valid_days);
  q.currency = policy.currency;
  add_terms(q, request);
  for (std::size_t i = 0; i < parts.size(); ++i)
    q.items.push_back(item_of(request.parts[i], request.show, parts[i]));
  add_orders(q, request, parts, policy);
  return q;
}

}  // namespace turnwright
