// SPDX-License-Identifier: MIT
#include "turnwright/estimate/customer_quote.hpp"

#include "turnwright/estimate/order.hpp"
#include "turnwright/part/request.hpp"

namespace turnwright {
namespace {

CustomerItem item_of(const RequestItem& asked, const Showing& show, const Quote& quote) {
  const Part& part = quote.route.job.part;
  CustomerItem item;
  item.number = part.number;
  item.name = part.name;
  item.revision = part.revision;
  if (!part.like) item.material = part.material;  // a material like another is on the drawing
  item.customers_material = part.stock.customers;
  for (const Price& p : quote.prices)
    item.prices.push_back(
        {p.quantity, part.releases, p.price_unit, p.each, p.total, p.minimum_surcharge});
  for (const OneOffLine& o : quote.one_offs) item.once.push_back({o.what, o.price});
  if (show.work)
    for (const OtherWork& w : part.other_work) item.work.push_back(w.what);
  if (show.mass) item.mass = quote.material.finished;
  if (show.delivery_week) item.week = asked.week;
  return item;
}

}  // namespace

CustomerQuote customer_quote(const Request& request, const std::vector<Quote>& quotes,
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
  q.terms = request.terms;
  q.packing = request.packing;
  q.material_certificate = request.show.material_certificate;
  q.minimum_order = policy.minimum_order;
  for (std::size_t i = 0; i < quotes.size(); ++i)
    q.items.push_back(item_of(request.parts[i], request.show, quotes[i]));
  for (const Order& order : orders_of(quotes, policy))
    q.orders.push_back({order.quantities, order.surcharge, order.total});
  return q;
}

}  // namespace turnwright
