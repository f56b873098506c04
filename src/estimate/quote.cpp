// SPDX-License-Identifier: MIT
#include "turnwright/estimate/quote.hpp"

#include "quote_parts.hpp"
#include "turnwright/estimate/books.hpp"

namespace turnwright {

Quote::Quote() = default;
Quote::Quote(const Quote&) = default;
Quote::Quote(Quote&&) noexcept = default;
Quote& Quote::operator=(const Quote&) = default;
Quote& Quote::operator=(Quote&&) noexcept = default;
Quote::~Quote() = default;

namespace {

// Amounts in other currencies were converted while the files were read.
Message exchange_note(const ExchangeRate& rate, const std::string& own) {
  return {"estimate.exchange",
          {{"currency", rate.currency},
           {"rate", Figure{rate.rate, 6}},
           {"own", own},
           {"date", rate.date},
           {"source", rate.source}}};
}

// An hour that brings less than the books need leaves the rest of its cost to the others.
void add_rate_below_books(Quote& quote, const Shop& shop) {
  constexpr double worth_saying = 0.99;  // of what is needed
  if (shop.books.empty()) return;
  const BookRates books = work_out_books(shop.books, shop.machines);
  const Machine& machine = quote.route.machine;
  const MachineClassCost* of = class_of(books, machine.name);
  if (of == nullptr) return;
  const Rate needed = needed_rate(books, *of), quoted = quoted_rate(machine.rate, of->people);
  if (quoted >= worth_saying * needed) return;
  quote.cautions.push_back({"estimate.rate-below-books",
                            {{"machine", machine.name},
                             {"quoted", measure(quoted, unit::money_per_h)},
                             {"needed", measure(needed, unit::money_per_h)}}});
}

}  // namespace

void mark_old_price(Quote& quote, Date on, const Policy& policy) {
  const Material& material = quote.route.job.material;
  const auto date = read_date(material.price_date);
  if (!date || quote.route.job.part.stock.customers) return;
  const int age = days_between(*date, on);
  if (age < 0)
    quote.unconfirmed.push_back(
        {"estimate.price-of-later", {{"material", material.name}, {"date", *date}}});
  if (age > policy.price_age)
    quote.unconfirmed.push_back(
        {"estimate.old-price", {{"material", material.name}, {"date", *date}, {"n", age}}});
}

Messages to_confirm(const Quote& quote) {
  Messages list = quote.unconfirmed;
  const Messages& reading = quote.route.job.cautions;
  list.insert(list.end(), reading.begin(), reading.end());
  return list;
}

Quote make_quote(const Route& route, const Shop& shop) {
  Quote quote;
  quote.route = route;
  quote.times = times_of(route, shop);
  quote.material = material_cost(route, shop);
  quote.currency = shop.policy.currency;
  quote.rate = rate_in_words(route.machine);
  quote.split_rate = !route.machine.rate.all_in.has_value();
  quote.service_level = shop.policy.service_level;
  quote.lot = lot_inputs(quote, shop);
  add_one_offs(quote, shop);
  for (const int q : route.job.part.quantities) quote.prices.push_back(price_at(quote, shop, q));
  never_rising(quote.prices, route.job.part);
  quote.unconfirmed = route.job.unconfirmed;
  quote.cautions = route.cautions;
  for (const ExchangeRate& rate : shop.currencies.rates)
    quote.cautions.push_back(exchange_note(rate, shop.currencies.own));
  add_rate_below_books(quote, shop);
  if (!shop.own_machines) quote.unconfirmed.push_back("estimate.shipped-rates");
  return quote;
}

}  // namespace turnwright
