// SPDX-License-Identifier: MIT
// Ten thousand random requests: lines add up, the customer's arithmetic works, prices never rise.
#include <algorithm>
#include <array>

#include "../support.hpp"
#include "turnwright/estimate/customer_quote.hpp"
#include "turnwright/part/request.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

Money cents(std::int64_t c) { return Money::from_hundredths(c); }

// Invented figures, wide of any shop's.
Shop random_shop(Draws& draws) {
  Shop shop = shipped_shop();
  Policy& p = shop.policy;
  p.margin = draws.real(0, 0.6);
  p.markup = draws.whole(0, 1) == 1;
  p.minimum_order = cents(draws.whole(0, 40000));
  p.price_unit = std::array{1, 100, 1000}[static_cast<std::size_t>(draws.whole(0, 2))];
  p.price_steps = {{Money(), cents(draws.whole(1, 50))}};
  if (draws.whole(0, 1) == 1)
    p.price_steps = {{cents(1000), cents(1)}, {cents(10000), cents(5)}, {Money(), cents(50)}};
  p.scrap_share = draws.real(0, 0.2);
  p.setting_pieces = draws.whole(0, 3);
  p.service_level = draws.whole(0, 3) == 0 ? draws.real(0.5, 0.99) : 0;
  p.whole_bars = draws.whole(0, 1) == 1;
  return shop;
}
OtherWork random_work(Draws& draws) {
  OtherWork w;
  w.what = "work";
  w.per = static_cast<ChargedBy>(draws.whole(0, 4));
  if (draws.whole(0, 2) == 0 && w.per < ChargedBy::kg) {
    w.time = draws.real(0, 20) * unit::min;
    return w;
  }
  w.price = Amount(draws.real(0, 9));
  if (w.per == ChargedBy::minute) w.time = draws.real(0, 9) * unit::min;
  w.minimum = Amount(draws.whole(0, 1) * draws.real(0, 90));
  w.certificate = Amount(draws.real(0, 40));
  w.scrap = draws.whole(0, 1) * draws.real(0, 0.3);
  return w;
}
RequestItem random_order(Draws& draws, Part& part) {
  RequestItem item;
  item.releases = draws.whole(0, 2) == 0 ? draws.whole(2, 6) : 1;
  int q = 0;
  for (int i = draws.whole(1, 5); i > 0; --i)
    item.quantities.push_back(q += item.releases * draws.whole(1, 200));
  item.customers_material = draws.whole(0, 4) == 0;
  item.repeat = draws.whole(0, 1) == 1;
  part.other_work.clear();
  for (int i = draws.whole(0, 3); i > 0; --i) part.other_work.push_back(random_work(draws));
  part.one_offs.clear();
  for (int i = draws.whole(0, 2); i > 0; --i) {
    OneOff o;
    o.what = "jaws";
    o.price = Amount(draws.real(0, 300));
    o.paid = static_cast<PaidBy>(draws.whole(0, 2));
    o.pieces = o.paid == PaidBy::pieces ? draws.whole(1, 900) : 0;
    part.one_offs.push_back(o);
  }
  return item;
}

}  // namespace

TEST_CASE("ten thousand random requests add up and never rise", "[estimate][property]") {
  const std::array texts{
      shaft(),
      std::string("part: {number: B}\nmaterial: CuZn39Pb3\nstock: {round: 40, condition: drawn}\n"
                  "outside: [38 x30, 30 x12]\nbore from right: [\"20 x42\"]\n"),
      std::string("part: {number: P}\nmaterial: C45\nstock: {round: 25, condition: drawn, fed "
                  "from: bar}\noutside: [20 x10, \"25 as drawn x20\"]\n")};
  std::vector<Route> routes;
  for (const std::string& text : texts) routes.push_back(route_of(text));
  Draws draws(20261201);
  int quotes = 0, prices = 0;
  for (int i = 0; i < 10000; ++i) {
    // A shop for every hundred requests: a copy of its rates is the dear part.
    static Shop shop;
    if (i % 100 == 0) shop = random_shop(draws);
    Route& route = routes[static_cast<std::size_t>(i) % routes.size()];
    Part part = route.job.part;
    const RequestItem item = random_order(draws, part);
    const auto asked = ordered(part, item, Request{});
    REQUIRE(asked);
    route.job.part = *asked;
    const Quote q = make_quote(route, shop);
    ++quotes;
    bool good = true;
    Money once;  // counts towards the minimum order
    for (const OneOffLine& o : q.one_offs) once = once + o.price;
    const Price* before = nullptr;
    for (const Price& p : q.prices) {
      Money sum;
      for (const CostLine& line : p.lines) {
        sum = sum + line.amount;
        good = good && (line.amount >= Money() || line.kind == CostKind::material);
      }
      good = good && sum == p.cost && p.each >= Money() && p.made >= p.quantity;
      good = good && p.total == rounded(p.each.amount() * p.quantity / double(p.price_unit));
      good = good && (p.minimum_surcharge == Money() ||
                      p.total + p.minimum_surcharge + once == shop.policy.minimum_order);
      good = good && p.margin == p.total + p.minimum_surcharge - p.cost;
      good = good && (before == nullptr || before->each >= p.each);
      before = &p;
      ++prices;
    }
    INFO("request " << i);
    if (!good) CHECK(good);
    Request request;
    request.date = *read_date("2026-12-01");
    request.parts = {item};
    const CustomerQuote seen = customer_quote(request, {{&q.route.job.part, &q}}, shop.policy);
    REQUIRE(seen.items.size() == 1);
    CHECK(seen.items[0].prices.size() == q.prices.size());
    CHECK(text_of(seen.valid_until) == "2026-12-31");
  }
  CHECK(quotes == 10000);
  CHECK(prices > 20000);
}

TEST_CASE("days and weeks are those of the calendar", "[quantity]") {
  for (const char* text : {"2026-12-01", "2024-02-29", "2000-02-29"})
    CHECK(text_of(*read_date(text)) == text);
  for (const char* text : {"2026-02-29", "1900-02-29", "2026-13-01", "2026-00-10", "2026-1-01",
                           "01.12.2026", "2026-12-011", "2026-12-0x", ""})
    CHECK_FALSE(read_date(text));
  CHECK(text_of(days_after(*read_date("2026-12-15"), 30)) == "2027-01-14");
  CHECK(days_between(*read_date("2026-12-15"), *read_date("2027-01-14")) == 30);
  // ISO 8601: 2020 and 2026 have 53 weeks, 2027 has 52.
  CHECK(is_week("2026-W53"));
  CHECK(is_week("2020-W53"));
  // The turns of years by ISO 8601: 2027-01-03 is the Sunday of the last week of 2026.
  for (const auto& [day, week] : {std::pair{"2026-12-28", "2026-W53"},
                                  {"2027-01-03", "2026-W53"},
                                  {"2027-01-04", "2027-W01"},
                                  {"2024-12-30", "2025-W01"},
                                  {"2021-01-03", "2020-W53"},
                                  {"2026-07-01", "2026-W27"}})
    CHECK(week_of(*read_date(day)) == week);
  for (const char* text : {"2027-W53", "2027-W00", "2027W01", "2027-W1"})
    CHECK_FALSE(is_week(text));
}
