// SPDX-License-Identifier: MIT
// Money that a shop would have lost, or charged twice: each case stood wrong once.
#include <algorithm>
#include <cmath>

#include "../support.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/estimate/books.hpp"
#include "turnwright/estimate/customer_quote.hpp"
#include "turnwright/estimate/order.hpp"
#include "turnwright/figure/money.hpp"
#include "turnwright/figure/sure_quantity.hpp"
#include "turnwright/part/request.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

Quote quote_of(const Part& part, const Shop& shop = shipped_shop()) {
  const auto job = prepare(part, shop);
  REQUIRE(job);
  const auto route = plan_route(*job, shop, {"CNC lathe, medium"});
  REQUIRE(route);
  return make_quote(*route, shop);
}
Quote quote_of(const std::string& text, const Shop& shop = shipped_shop()) {
  return quote_of(part_of(text), shop);
}

std::string policy(const std::string& name, const std::string& value) {
  return "policy: [{name: " + name + ", value: " + value + ", source: x, basis: typical}]\n";
}
std::string said_of(const Checked<Shop>& shop) {
  return shop ? "" : problems_text(shop.problems());
}

Money cents(int c) { return Money::from_hundredths(c); }

}  // namespace

TEST_CASE("absurd money of a shop is refused, with the range that makes sense",
          "[estimate][shop]") {
  for (const auto& [name, value] : {std::pair{"margin", "-0.2"},
                                    {"margin", "0.95"},
                                    {"markup", "-0.1"},
                                    {"markup", "9"},
                                    {"scrap share", "0.94"},
                                    {"scrap share", "-0.01"},
                                    {"overhead on material", "-0.1"},
                                    {"overhead on outside work", "7"},
                                    {"minimum order", "-75"},
                                    {"allowance", "0.9"}}) {
    INFO(name << " " << value);
    CHECK(said_of(shop_with(policy(name, value))).find("expected from 0 ") != std::string::npos);
  }
  auto with_rate = [](const std::string& rate) {
    return said_of(
        shop_with("machines: [{name: M, kind: CNC, slowest: 35 rev/min, fastest: 4500 rev/min, "
                  "power: 15 kW, largest torque: 320 Nm, largest diameter: 320, largest length: "
                  "600, chuck: {diameter: 200, rated speed: 4200 rev/min}, source: x, basis: "
                  "typical, rate: " +
                  rate + "}]\n"));
  };
  CHECK(with_rate("75 EUR/h").empty());
  for (const char* rate :
       {"-75 EUR/h", "0 EUR/h all-in", "55000 EUR/h", "{all-in: -1 EUR/h}",
        "{machine: -20 EUR/h, person: 40 EUR/h}", "{machine: 20 EUR/h, person: -40 EUR/h}",
        "{machine: 20 EUR/h, person: 40 EUR/h, overhead: -0.5}"}) {
    INFO(rate);
    CHECK(with_rate(rate).find("expected from") != std::string::npos);
  }
  CHECK_FALSE(
      shop_with("materials: [{name: C45, price: -1.60 EUR/kg, source: x, basis: typical}]\n"));
  CHECK_FALSE(read_part("p.yaml", shaft() + "other work: [{what: w, price: 3, scrap: 0.94}]\n"));
  CHECK_FALSE(read_part("p.yaml", shaft() + "one-offs: [\"jaws, -3.55 EUR\"]\n"));
}

TEST_CASE("a markup beside a margin is refused", "[estimate][shop]") {
  const std::string both =
      "policy:\n- {name: margin, value: 0.15, source: x, basis: typical}\n- {name: markup, value: "
      "0.20, source: x, basis: typical}\n";
  CHECK(said_of(shop_with(both)).find("a markup beside a margin") != std::string::npos);
  // One of them is the shop's own word over the shipped margin.
  REQUIRE(shop_with(policy("markup", "0.20")));
  CHECK(shop_with(policy("markup", "0.20"))->policy.markup);
}

TEST_CASE("first-time work is paid once in a frame order", "[estimate]") {
  Part part = part_of(shaft());
  part.quantities = {240};
  part.releases = 4;
  const Quote fresh = quote_of(part);
  part.repeat = true;
  const Quote again = quote_of(part);
  const double rate = fresh.lot.machine_rate.si;
  const double once = fresh.times.setup.si - again.times.setup.si;
  REQUIRE(once > 0);
  CHECK(fresh.times.first_time.si == Approx(once));
  CHECK(again.times.first_time.si == 0);
  CHECK(lot_lines(fresh, 240).setup.si == Approx(lot_lines(again, 240).setup.si + once * rate));
  // The machine is taken for it once, too.
  CHECK(lot_machine_time(fresh, 240).si == Approx(lot_machine_time(again, 240).si + once));
}

TEST_CASE("releases of one quantity leave the prices of the others", "[estimate]") {
  const Shop& shop = shipped_shop();
  Part part = part_of(shaft());
  part.quantities = {48, 240, 250};
  const Quote at_once = quote_of(part);
  part.releases = 4;
  part.released = 240;
  const Quote q = quote_of(part);
  CHECK(q.prices[0].each == at_once.prices[0].each);
  CHECK(q.prices[2].each == at_once.prices[2].each);
  CHECK(q.prices[1].each > at_once.prices[1].each);
  CHECK(q.prices[1].at_once_each == price_at(at_once, shop, 240).each);
  CHECK(q.prices[0].releases == 1);
  CHECK(q.prices[1].releases == 4);
  LotCosts lots(q);
  CHECK(lots.at(48).si == Approx(lot_cost(at_once, 48).si));
  CHECK(lots.at(240).si == Approx(lot_cost(q, 240).si));
  // A quantity in releases is no advice for one that is not.
  for (const LargerForLess& l : larger_for_less(q.prices)) CHECK(l.quantity != 240);
}

TEST_CASE("prices by hand that look swapped, or do not cover their cost, are said",
          "[estimate][compare]") {
  const Shop& shop = shipped_shop();
  const auto cautions = [&](int first, int second) {
    Part part = part_of(shaft());
    part.quantities = {20, 100};
    part.selling.prices = {{20, Amount(first)}, {100, Amount(second)}};
    const auto quote = quote_part(*prepare(part, shop), shop, {});
    REQUIRE(quote);
    std::vector<std::string> ids;
    for (const Message& m : quote->quote.cautions)
      if (m.id.starts_with("estimate.hand-price")) ids.push_back(m.id);
    return ids;
  };
  const std::string below = "estimate.hand-price-below-cost", rises = "estimate.hand-price-rises";
  CHECK(cautions(900, 800).empty());
  CHECK(cautions(800, 900) == std::vector{rises});
  CHECK(cautions(900, 1) == std::vector{below});
  CHECK(cautions(1, 2) == std::vector{below, rises, below});
}

TEST_CASE("in two lots, the second is a repeat", "[estimate]") {
  Part part = part_of(shaft());
  part.quantities = {100};
  const Quote q = quote_of(part);
  const Shop shop = shipped_shop();
  const Money one = price_at(q, shop, 100).each, two = each_in_lots(q, shop, 100, 2),
              half = price_at(q, shop, 50).each;
  CHECK(two > one);
  CHECK(two < half);
  part.releases = 2;
  CHECK(two == price_at(quote_of(part), shop, 100).each);
}

TEST_CASE("the minimum order counts what is charged once", "[estimate]") {
  Shop shop = shipped_shop();
  shop.policy.minimum_order = cents(500000);
  Part part = part_of(shaft());
  part.quantities = {10};
  const Money bare = quote_of(part, shop).prices[0].minimum_surcharge;
  OneOff jaws;
  jaws.what = "jaws";
  jaws.price = Amount(200.0);
  part.one_offs = {jaws};
  const Quote q = quote_of(part, shop);
  CHECK(q.prices[0].minimum_surcharge == bare - q.one_offs[0].price);
  CHECK(q.prices[0].total + q.one_offs[0].price + q.prices[0].minimum_surcharge == cents(500000));
}

TEST_CASE("the minimum order is one line of an order of several parts", "[estimate]") {
  Shop shop = shipped_shop();
  Request request;
  request.parts = {RequestItem(), RequestItem()};
  Part first = *ordered(part_of(shaft()), request.parts[0], request);
  first.quantities = {10};
  Part second = first;
  second.quantities = {20};
  const std::vector<Quote> one{quote_of(first, shop), quote_of(second, shop)};
  const Money parts = one[0].prices[0].total + one[1].prices[0].total;
  shop.policy.minimum_order = parts + cents(1234);
  const std::vector<Quote> quotes{quote_of(first, shop), quote_of(second, shop)};
  CHECK(quotes[0].prices[0].minimum_surcharge == Money());
  const CustomerQuote seen =
      customer_quote(request, {{&first, &quotes[0]}, {&second, &quotes[1]}}, shop.policy);
  REQUIRE(seen.orders.size() == 1);
  CHECK(seen.orders[0].surcharge == cents(1234));
  CHECK(seen.orders[0].total == parts + cents(1234));
  // With more quantities, column by column.
  first.quantities = {10, 30};
  const auto orders =
      orders_of({quote_of(first, shop), quote_of(second, shop)}, order_terms(shop.policy));
  REQUIRE(orders.size() == 2);
  CHECK(orders[1].quantities == std::vector<int>{30, 20});
  CHECK(orders[0].surcharge == cents(1234));
  CHECK(orders[1].surcharge == Money());
}

TEST_CASE("by the lot, the larger of price and minimum is charged", "[estimate]") {
  auto outside = [](const std::string& work) {
    return lot_lines(quote_of(shaft() + "other work: [{what: w, " + work + "}]\n"), 20).outside.si;
  };
  CHECK(outside("price: 40, per: lot, minimum: 60") == Approx(63.00));
  CHECK(outside("price: 80, per: lot, minimum: 60") == Approx(84.00));
}

TEST_CASE("the make quantity is rounded once, a lot keeps whole pieces", "[figure][estimate]") {
  // By hand: 100 / (0.9 x 0.9 x 0.9) = 137.17; stage by stage 112, 125, 139.
  CHECK(figure::MakeQuantity::work_out<>({100.0, {0.1, 0.1, 0.1}}).start.si == 138);
  model::LotInputs<double> in;
  model::OutsideStage<double> stage;
  stage.scrap = 0.1;
  in.outside = {stage, stage, stage};
  CHECK(model::stage_pieces(in, Number(100.0)).roughed.si == 139);
}

TEST_CASE("whole bars lose no piece to rounding", "[estimate]") {
  // A bar of 3 m less an end of 120: 234 and twice 2 of facing and a cut of 2 go in 12 times.
  Shop shop = shipped_shop();
  shop.policy.whole_bars = true;
  const Quote q = quote_of(
      "part: {number: P}\nmaterial: C45\nstock: {round: 36, condition: hot rolled}\noutside: [32 "
      "x234]\n",
      shop);
  CHECK(in(q.material.length, unit::mm) == Approx(240));
  CHECK(q.material.pieces_per_bar == 12);
}

TEST_CASE("minutes and money in one text are both charged, and neither is part of the name",
          "[part][estimate]") {
  const Quote q = quote_of(shaft() + "one-offs: [\"program, 90 min, 120 EUR\"]\n");
  REQUIRE(q.one_offs.size() == 1);
  CHECK(q.one_offs[0].what == "program");
  const double hour = in(q.lot.machine_rate, unit::money_per_h);
  CHECK(q.one_offs[0].cost == rounded(Amount(120 * 1.05 + 1.5 * hour)));
  CHECK_FALSE(read_part("p.yaml", shaft() + "other work: [\"keyway, 6 min, 4.50 EUR\"]\n"));
}

TEST_CASE("costs are for the unit that prices are for", "[estimate]") {
  Part part = part_of(shaft());
  part.quantities = {100};
  const Shop shop = shipped_shop();
  const Quote each = with_band(quote_of(part), shop);
  part.price_unit = 100;
  const Quote hundred = with_band(quote_of(part), shop);
  CHECK(hundred.prices[0].p50_each.amount().si ==
        Approx(100 * each.prices[0].p50_each.amount().si).margin(0.51));
  CHECK(hundred.prices[0].causes[0].high_each.si ==
        Approx(100 * each.prices[0].causes[0].high_each.si));
}

TEST_CASE("a price of a day after the request is not confirmed", "[estimate]") {
  Shop shop = shipped_shop();
  for (Material& m : shop.materials) m.price_date = "2026-12-15";
  Quote q = quote_of(part_of(shaft()), shop);
  const std::size_t before = q.unconfirmed.size();
  mark_old_price(q, *read_date("2026-12-01"), shop.policy);
  REQUIRE(q.unconfirmed.size() == before + 1);
  CHECK(english(q.unconfirmed.back()) ==
        "price of 42CrMo4+QT is dated 15 Dec 2026, after the request");
}

TEST_CASE("a rate below what the books need is a caution, and split rates are held against them",
          "[estimate][books]") {
  Shop shop = shipped_shop();
  Accounts& books = shop.books;
  books.people = {{"turners", 1, 30.0 * unit::money_per_h, 1000.0 * unit::h, 1, {}}};
  books.machines = {{"CNC",
                     1,
                     Amount(100000.0),
                     Amount(0.0),
                     10,
                     1000.0 * unit::h,
                     Area(0.0),
                     Power(0.0),
                     Amount(0.0),
                     {"CNC lathe, medium"},
                     {}}};
  books.overheads = {{"rent", Amount(20000.0), {}}};
  const BookRates r = work_out_books(books, shop.machines);
  // 30 an hour of a person, 10 of the machine, 50 % on both: by hand 60.
  CHECK(in(needed_rate(r, *class_of(r, "CNC lathe, medium")), unit::money_per_h) == Approx(60));
  auto quoted_at = [&](HourlyRate rate) {
    for (Machine& m : shop.machines)
      if (m.name == "CNC lathe, medium") m.rate = rate;
    const Quote q = quote_of(part_of(shaft()), shop);
    return std::any_of(q.cautions.begin(), q.cautions.end(),
                       [](const Message& m) { return m.id == "estimate.rate-below-books"; });
  };
  HourlyRate rate;
  rate.all_in = 55.0 * unit::money_per_h;
  CHECK(quoted_at(rate));
  rate.all_in = 60.0 * unit::money_per_h;
  CHECK_FALSE(quoted_at(rate));
  CHECK(rounded(recovery_of_quoted(r, shop, 1)->returned).text() == "60000.00");
  rate = {std::nullopt, 10.0 * unit::money_per_h, 30.0 * unit::money_per_h, 0.4};
  CHECK(quoted_at(rate));
  CHECK(rounded(recovery_of_quoted(r, shop, 1)->returned).text() == "56000.00");
  // What is bought brings its own overheads.
  shop.books.material_bought = Amount(50000.0);
  shop.books.outside_bought = Amount(10000.0);
  CHECK(rounded(recovery_of_quoted(r, shop, 1)->returned).text() == "61500.00");
}

TEST_CASE("centre holes that are kept: true is yes", "[part]") {
  const auto part = read_part("p.yaml", shaft() + "centres: {both ends: A 2.5, keep: true}\n");
  REQUIRE(part);
  CHECK(part->centres.keep == CentreUse::yes);
}

TEST_CASE("margin, discount and price of a line are the request's, and the margin shows",
          "[estimate]") {
  Part part = part_of(shaft());
  part.quantities = {10, 50};
  const Shop shop = shipped_shop();
  part.selling.margin = 0.3;
  const Quote by_margin = quote_of(part, shop);
  CHECK(by_margin.prices[0].margin_share == Approx(0.3).margin(0.002));
  part.selling.discount = 0.1;
  const Quote less = quote_of(part, shop);
  CHECK(less.prices[0].each.amount().si ==
        Approx(0.9 * by_margin.prices[0].each.amount().si).margin(0.05));
  part.selling = {};
  part.selling.prices = {{50, Amount(12.34)}};
  const Quote fixed = quote_of(part, shop);
  CHECK(fixed.prices[1].each == cents(1234));
  CHECK(fixed.prices[1].total == cents(61700));
  CHECK(fixed.prices[1].margin == cents(61700) - fixed.prices[1].cost);
  CHECK(fixed.prices[1].margin_share < 0);
  CHECK(fixed.prices[0].each == quote_of(part_of(shaft()), shop).prices[0].each);
}

TEST_CASE("plating is charged by the area that is stated", "[part][estimate]") {
  const Quote q =
      quote_of(shaft() + "other work: [{what: zinc, price: 3, per: dm2, area: 3.4 dm2}]\n");
  CHECK(lot_lines(q, 10).outside.si == Approx(10 * 3 * 3.4 * 1.05));
  CHECK_FALSE(read_part("p.yaml", shaft() + "other work: [{what: w, price: 3, area: 3 dm2}]\n"));
}

TEST_CASE("rows that err together widen the band, and work errs upwards", "[estimate][band]") {
  auto spread = [](double common, double upward) {
    std::vector<BandRow> rows(5);
    for (BandRow& row : rows) {
      row.row = BandRowId::handling_times;
      row.amount = Amount(20.0);
      row.band = 0.1;
      row.of(SharedError::times) = common;
      row.upward = upward;
    }
    return spread_of(rows, Amount(100.0), Amount(117.0));
  };
  const CostSpread own = spread(0, 1), together = spread(0.1, 1), late = spread(0.1, 1.5);
  CHECK((together.p90 - together.p10).si > 1.5 * (own.p90 - own.p10).si);
  CHECK(late.p50.si > 100.5);
  CHECK(late.p90.si - 100 > 100 - late.p10.si);
  CHECK(late.loss_chance > together.loss_chance);
}

TEST_CASE("a part made for the first time is less certain than one made before",
          "[estimate][band]") {
  Part part = part_of(shaft());
  const Shop shop = shipped_shop();
  const Price first = with_band(quote_of(part, shop), shop).prices[0];
  part.repeat = true;
  const Price again = with_band(quote_of(part, shop), shop).prices[0];
  const double wide = (first.p90_each - first.p10_each).amount().si / first.cost.amount().si;
  const double narrow = (again.p90_each - again.p10_each).amount().si / again.cost.amount().si;
  CHECK(wide > narrow);
  CHECK(first.p50_each > rounded(first.cost.amount() / double(first.quantity)));
  // 15 % of margin do not make a first shaft safe: +-1.7 % and no risk came out once.
  CHECK(first.loss_chance > 0.01);
  CHECK(first.loss_chance > again.loss_chance);
  CHECK(wide * first.quantity > 2 * 0.05);  // of the lot
}

TEST_CASE("a piece too few is not invoiced: the binomial chance of it is a row of the band",
          "[estimate][band][evidence]") {
  // 20 good pieces of 21, each good in 0.9: worked out by hand, none is missing with a chance of
  // 0.9^21 + 21 x 0.1 x 0.9^20 = 0.1094 + 0.2553.
  const auto chances = figure::chances_of_shortage(20, 21, 0.9);
  CHECK(chances[0] == Approx(0.3647).margin(0.0001));
  CHECK(chances.back() == Approx(1).margin(1e-6));
  CHECK(figure::chances_of_shortage(20, 21, 1).size() == 1);
  BandRow row;
  row.row = BandRowId::scrap;
  row.missing = Amount(5.0);
  row.short_by = chances;
  // The mean number missing: the sum over k of the chance that more than k are.
  double missing = 0;
  for (const double no_more : chances) missing += 1 - no_more;
  const CostSpread spread = spread_of({row}, Amount(100.0), Amount(100.0));
  CHECK(spread.expected.si == Approx(100 + 5 * missing).margin(0.02));
  CHECK(spread.loss_chance == Approx(1 - chances[0]).margin(0.001));
  Shop shop = shipped_shop();
  auto rows_of = [&](double scrap) {
    shop.policy.scrap_share = scrap;
    const Quote q = quote_of(part_of(shaft()), shop);
    return band_rows(q, shop, 50, Amount(10.0));
  };
  CHECK(rows_of(0.02).back().row == BandRowId::scrap);
  CHECK(rows_of(0).back().row != BandRowId::scrap);
}

TEST_CASE("outside work, one-offs and own stated times have widths of their own",
          "[estimate][band]") {
  const Shop shop = shipped_shop();
  const Quote q = quote_of(
      part_of(shaft() + "other work:\n  - {what: key, minutes: 4}\n"
                        "  - {what: zinc, price: 2 EUR}\n"
                        "one-offs:\n  - {what: gauge, price: 80 EUR, paid: in the first order}\n"),
      shop);
  std::vector<BandRowId> found;
  for (const BandRow& row : band_rows(q, shop, 50, Amount(10.0)))
    if (row.high() > row.low()) found.push_back(row.row);
  for (const BandRowId id : {BandRowId::other_work, BandRowId::outside_work, BandRowId::one_offs})
    CHECK(std::find(found.begin(), found.end(), id) != found.end());
}

TEST_CASE("rebate, charges and tax stand below the goods of an order", "[estimate][offer]") {
  // Worked by hand: goods 1,000.00, 3 % off is 30.00, freight 85.00: 1,055.00 net, 19 % is 200.45.
  Quote q;
  Price p;
  p.quantity = 10;
  p.total = cents(100000);
  q.prices = {p};
  const auto orders = orders_of({q}, {{}, cents(8500), 0.03, 0.19});
  REQUIRE(orders.size() == 1);
  CHECK(orders[0].rebate.text() == "30.00");
  CHECK(orders[0].net.text() == "1055.00");
  CHECK(orders[0].tax.text() == "200.45");
  CHECK(orders[0].total.text() == "1255.45");
}
