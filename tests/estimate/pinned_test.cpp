// SPDX-License-Identifier: MIT
// Numbers worked out by hand, where a wrong sign would let everything else agree with itself.
#include <algorithm>

#include "../../src/estimate/quote_parts.hpp"
#include "../support.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/estimate/books.hpp"
#include "turnwright/estimate/customer_quote.hpp"
#include "turnwright/estimate/model.hpp"
#include "turnwright/estimate/order.hpp"
#include "turnwright/figure/tool_life.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

Quote quote_at(Shop shop, const std::string& more = "") {
  const auto route = plan_route(job_of(shaft() + more, shop), shop, {"CNC lathe, medium"});
  REQUIRE(route);
  return make_quote(*route, shop);
}

}  // namespace

TEST_CASE("a markup is added to the cost, a margin is a share of the price", "[estimate]") {
  // 100 a lot of 10: 20 % on cost is 12.00 each, 20 % of the price is 12.50.
  const Amount lot(100.0);
  CHECK(model::price_each<double>(lot, Number(10.0), Number(0.2), true).si == Approx(12.0));
  CHECK(model::price_each<double>(lot, Number(10.0), Number(0.2), false).si == Approx(12.5));
  CHECK(figure::PriceFromMarkup::work_out<>({lot, Number(0.18)}).price.si == Approx(118.0));
  Shop shop = shipped_shop();
  shop.policy.margin = 0.18;
  shop.policy.markup = true;
  shop.policy.price_steps = {{Money(), Money::from_hundredths(1)}};
  shop.policy.minimum_order = Money();
  for (const Price& p : quote_at(shop).prices) {
    CHECK(p.total.amount().si == Approx(1.18 * p.cost.amount().si).epsilon(0.001));
    CHECK(p.total > p.cost);
  }
}

TEST_CASE("what another firm spoils is made in addition", "[estimate]") {
  // 100 good ones of which a tenth is lost outside: 100/0.9, 112 go out.
  model::LotInputs<double> in;
  in.quantity = Number(100.0);
  in.releases = Number(1.0);
  in.machine_each = 1.0 * unit::h;
  in.machine_rate = 1.0 * unit::money_per_h;
  model::OutsideStage<double> outside;
  outside.scrap = Number(0.1);
  outside.each = Amount(1.0);
  in.outside = {outside};
  const auto lines = model::lot_lines(in);
  CHECK(lines.pieces.si == 112);
  CHECK(lines.outside.si == Approx(112));
  CHECK(lines.machine.si == Approx(112));
  // A certainty of its own starts from the pieces run: of 120 a twentieth is lost before they go
  // out.
  in.service_pieces = Number(120.0);
  in.scrap_share = Number(0.05);
  CHECK(model::lot_lines(in).outside.si == Approx(114));  // 120 x 0.95
  // A second firm gets what the first has not spoilt: 114 x 0.9, and a part of a piece is one.
  in.outside.push_back(outside);
  CHECK(model::lot_lines(in).outside.si == Approx(114 + 103));
}

TEST_CASE("a bought one-off over pieces is its share of the lot", "[estimate]") {
  // 240 with the 5 % on bought things, over 500 pieces: 0.504 each, whatever the lot.
  const Shop& shop = shipped_shop();
  const Quote with =
      quote_at(shop, "one-offs: [{what: gauge, price: 240, paid: over pieces, pieces: 500}]\n");
  const Quote bare = quote_at(shop);
  for (std::size_t i = 0; i < bare.prices.size(); ++i)
    CHECK(with.prices[i].cost.amount().si - bare.prices[i].cost.amount().si ==
          Approx(0.504 * bare.prices[i].quantity).margin(0.0051));
}

TEST_CASE("below the clamp a facing cut runs at the fastest speed", "[estimate][times]") {
  // From 60 to 20 at 300 m/min: the clamp of 3000 rev/min is reached at 31.83 mm. Above it
  // pi (60^2 - 31.83^2)/(2 x 300000 x 0.2), below (31.83 - 20)/(0.2 x 3000), times 20/(60 - 20).
  const auto t = [](double large, double small, double path) {
    return in(figure::SlopedPathTime::work_out<>(
                  {large * unit::mm, small * unit::mm, path * unit::mm, 0.2 * unit::mm,
                   300.0 * unit::m_per_min, 3000.0 * unit::rev_per_min})
                  .time,
              unit::min);
  };
  CHECK(t(60, 20, 20) == Approx(0.5 * (0.067719 + 0.019718)).epsilon(1e-4));
  // All of it below: 10 mm of path at 3000 x 0.2.
  CHECK(t(30, 10, 10) == Approx(10.0 / 600));
  // All of it above: the mean diameter, pi x 50 x 10/(300000 x 0.2).
  CHECK(t(60, 40, 10) == Approx(3.14159265 * 50 * 10 / 60000));
}

TEST_CASE("twice the speed is a shorter life, by the power of its exponent", "[estimate]") {
  // Taylor with n = 0.25: 2^-4. More feed and depth shorten it too: 2^(-0.75 x 4).
  const auto life = [](double v, double f, double d) {
    figure::ToolLifeRatio::Inputs<> in;
    in.speed_ratio = v;
    in.feed_ratio = f;
    in.depth_ratio = d;
    in.exponent = 0.25;
    in.feed_exponent = 0.75;
    in.depth_exponent = 0.15;
    return figure::ToolLifeRatio::work_out<>(in).life_ratio.si;
  };
  CHECK(life(2, 1, 1) == Approx(1.0 / 16));
  CHECK(life(1, 2, 1) == Approx(1.0 / 8));
  CHECK(life(1, 1, 2) == Approx(0.659754));  // 2^-0.6
  CHECK(life(0.5, 1, 1) == Approx(16));
}

TEST_CASE("a cost of less than one stands in the list of costs", "[estimate]") {
  // 24 with the 5 % on bought things, over 500 pieces: 0.0504 each, 0.50 for ten.
  const Quote quote = quote_at(
      shipped_shop(), "one-offs: [{what: gauge, price: 24, paid: over pieces, pieces: 500}]\n");
  const Price& ten = quote.prices.front();
  REQUIRE(ten.quantity == 10);
  const auto line = std::find_if(ten.lines.begin(), ten.lines.end(),
                                 [](const CostLine& l) { return l.kind == CostKind::one_offs; });
  REQUIRE(line != ten.lines.end());
  CHECK(line->amount == Money::from_hundredths(50));
}

TEST_CASE("what another firm may spoil is a risk of pieces that are missing", "[estimate][band]") {
  // One piece, a tenth of which is lost outside: two go out, both are lost once in a hundred.
  Shop shop = shipped_shop();
  shop.policy.scrap_share = 0;
  const Quote quote = quote_at(shop, "other work: [{what: w, price: 3, scrap: 0.1}]\n");
  const BandRow row = band_rows(quote, shop, 1, Amount(50.0)).back();
  REQUIRE(row.row == BandRowId::scrap);
  REQUIRE(row.short_by.size() == 2);
  CHECK(row.short_by[0] == Approx(0.99));
  CHECK(row.short_by[1] == 1);
}

TEST_CASE("a rate holds the people that its machines need", "[estimate]") {
  // 20 the machine, 30 the person, half as much again: two machines a person, one, two people a
  // machine.
  HourlyRate rate;
  rate.machine = 20.0 * unit::money_per_h;
  rate.person = 30.0 * unit::money_per_h;
  rate.overhead = 0.5;
  const auto quoted = [&](double people) {
    return in(quoted_rate(rate, people), unit::money_per_h);
  };
  CHECK(quoted(0.5) == Approx(52.5));
  CHECK(quoted(2) == Approx(120));
  CHECK(quoted(1) == Approx(75));
  rate.all_in = 61.0 * unit::money_per_h;
  CHECK(quoted(0.5) == Approx(61));
  BookRates books;
  MachineClassCost lathe;
  lathe.per_hour = 20.0 * unit::money_per_h;
  lathe.lathes = {"A"};
  books.machines = {lathe};
  books.labour_rate = 30.0 * unit::money_per_h;
  books.overhead_share = 0.5;
  const auto needed = [&](double people) {
    books.machines.front().people = people;
    return in(needed_rate(books, *class_of(books, "A")), unit::money_per_h);
  };
  CHECK(needed(0.5) == Approx(52.5));
  CHECK(needed(2) == Approx(120));
  CHECK(needed(1) == Approx(75));
  CHECK(class_of(books, "B") == nullptr);
}

TEST_CASE("an edge is worn by the speed that is cut with, not by the one that was wanted",
          "[estimate][times]") {
  // With n = 1/4 wear rises by the fourth power. By hand: half the speed wears a sixteenth as much;
  // a face to the axis at one spindle speed a fifth, the mean of x^4; to half of its diameter
  // (1 - 1/32) / (5 x 1/2).
  const Speed wanted = 120.0 * unit::m_per_min;
  const Length d = 100.0 * unit::mm;
  const Frequency exact = wanted / (pi * d);
  const auto worn = [&](Motion motion, bool one_speed, Length small, Frequency spindle) {
    const model::PassCells<double> pass{d, small, 50.0 * unit::mm, Area(0.0)};
    const Time t =
        model::pass_time<double>(motion, one_speed, pass, wanted, 0.2 * unit::mm, spindle);
    return (model::wear_time<double>(motion, one_speed, pass, wanted, 0.2 * unit::mm, spindle, t,
                                     Number(0.25)) /
            t)
        .si;
  };
  CHECK(worn(Motion::along, true, d, exact / 2.0) == Approx(1.0 / 16));
  CHECK(worn(Motion::along, true, d, 2.0 * exact) == Approx(16.0));  // a step above
  CHECK(worn(Motion::along, false, d, exact / 2.0) == Approx(1.0 / 16));
  CHECK(worn(Motion::along, false, d, 2.0 * exact) == Approx(1.0));
  CHECK(worn(Motion::across, true, Length(0.0), exact) == Approx(0.2));
  CHECK(worn(Motion::across, true, d / 2.0, exact) == Approx((1 - 1.0 / 32) / 2.5));
  // At constant surface speed nothing changes down to the clamp, here never and at half of the
  // diameter: t there is 3/4 of the area's minutes and 1/2 of the clamped, worn 3/4 and 1/10.
  CHECK(worn(Motion::across, false, d / 2.0, 2.0 * exact) == Approx(1.0));
  CHECK(worn(Motion::across, false, Length(0.0), 2.0 * exact) == Approx((0.75 + 0.1) / 1.25));
}

TEST_CASE("a geared lathe's edges last by its steps", "[estimate][times]") {
  const auto route = plan_route(job_of(shaft()), shipped_shop(), {"geared lathe, medium"});
  REQUIRE(route);
  const RouteTimes times = times_of(*route, shipped_shop());
  int steps = 0;
  for (std::size_t i = 0; i < times.operations.size(); ++i)
    for (std::size_t k = 0; k < times.operations[i].steps.size(); ++k) {
      const Step& step = route->operations[i].steps[k];
      const StepTime& time = times.operations[i].steps[k];
      if (time.edge_share <= 0) continue;
      // Minutes by life at each stretch's speed: those at one spindle speed along the axis.
      double share = 0;
      bool plain = true;
      for (std::size_t s = 0; s < step.segments.size(); ++s) {
        const CutSegment& cut = step.segments[s];
        plain = plain && cut.motion == Motion::along && cut.constant_speed;
        const double skin = (cut.surface_speed / step.used.surface_speed).si;
        const Speed v = pi * cut.large_diameter * cut.spindle / skin;
        share +=
            (time.segments[s].cutting /
             figure::ToolLife::work_out<>({v, step.taylor_exponent, step.taylor_constant}).life)
                .si;
      }
      if (!plain) continue;
      ++steps;
      CHECK(time.edge_share == Approx(share).epsilon(1e-9));
      CHECK((time.cutting / time.life).si == Approx(share).epsilon(1e-9));
    }
  CHECK(steps > 1);
}

TEST_CASE("a tool of no known grade has no life, and no wear is charged", "[estimate][times]") {
  Shop shop = shipped_shop();
  shop.grades.clear();
  for (const OperationTime& o : quote_at(shop).times.operations)
    for (const StepTime& step : o.steps) CHECK(step.edge_share == 0);
}

TEST_CASE("a rebate is off the total, and what is missing after it comes on top", "[estimate]") {
  // 5 at 10.00, a tenth is let off: 45.00, to 80.00 are 35.00 missing.
  Price p;
  p.quantity = 5;
  p.each = Money::from_hundredths(1000);
  p.minimum_order = Money::from_hundredths(8000);
  p.cost = Money::from_hundredths(3600);
  p.rebate_share = 0.1;
  total_up(p);
  CHECK(p.total == Money::from_hundredths(5000));
  CHECK(p.minimum_surcharge == Money::from_hundredths(3500));
  CHECK(p.rebate == Money::from_hundredths(500));
  CHECK(p.margin == Money::from_hundredths(4400));
  CHECK(p.margin_share == Approx(0.55));
  // 20.00 charged once, of which 2.00 are let off: 17.00 are missing.
  p.once = Money::from_hundredths(2000);
  total_up(p);
  CHECK(p.minimum_surcharge == Money::from_hundredths(1700));
  CHECK(p.rebate == Money::from_hundredths(500));
}

TEST_CASE("an order is its parts and what is charged once, to the minimum", "[estimate]") {
  // 100 and 20 + 30 once, a tenth off: 65 to the minimum of 200; 7 for freight, a fifth of tax.
  Quote quote;
  quote.prices.resize(1);
  quote.prices[0].quantity = 3;
  quote.prices[0].total = Money::from_hundredths(10000);
  quote.one_offs.resize(2);
  quote.one_offs[0].price = Money::from_hundredths(2000);
  quote.one_offs[1].price = Money::from_hundredths(3000);
  OrderTerms terms;
  terms.minimum = Money::from_hundredths(20000);
  terms.charges = Money::from_hundredths(700);
  terms.rebate = 0.1;
  terms.tax = 0.2;
  const std::vector<Order> orders = orders_of({quote}, terms);
  REQUIRE(orders.size() == 1);
  CHECK(orders[0].parts == Money::from_hundredths(10000));
  CHECK(orders[0].one_offs == Money::from_hundredths(5000));
  CHECK(orders[0].rebate == Money::from_hundredths(1500));
  CHECK(orders[0].surcharge == Money::from_hundredths(6500));
  CHECK(orders[0].net == Money::from_hundredths(20700));
  CHECK(orders[0].tax == Money::from_hundredths(4140));
  CHECK(orders[0].total == Money::from_hundredths(24840));
}

TEST_CASE("what a customer has agreed holds where the request says nothing else", "[estimate]") {
  Shop shop = shipped_shop();
  CustomerTerms agreed;
  agreed.name = "K";
  agreed.margin = 0.1;
  agreed.discount = 0.05;
  shop.customers = {agreed};
  Request request;
  request.customer = "K";
  request.parts = {RequestItem(), RequestItem()};
  request.parts[0].selling.margin = 0.3;
  request.parts[1].selling.discount = 0.0;
  const Request with = with_customer_terms(request, shop);
  CHECK(with.parts[0].selling.margin == 0.3);
  CHECK(with.parts[0].selling.discount == 0.05);
  CHECK(with.parts[1].selling.margin == 0.1);
  CHECK(with.parts[1].selling.discount == 0.0);
}

TEST_CASE("a customer brings whole lengths, blanks or bar", "[estimate]") {
  // For ten pieces made of four good ones: lengths of three pieces are four.
  Part part = part_of(shaft());
  Quote quote;
  quote.route.job.stock.customers = true;
  quote.material.length = 0.1 * unit::m;
  quote.prices.resize(1);
  quote.prices[0].made = 10;
  Request request;
  request.parts = {RequestItem()};
  const auto seen = [&] {
    const CustomerQuote q = customer_quote(request, {{&part, &quote}}, shipped_shop().policy);
    return q.items.at(0).prices.at(0);
  };
  CHECK(seen().blanks == 10);
  quote.route.job.stock.pieces = 3;
  CHECK(seen().blanks == 4);
  quote.route.job.stock.pieces = 1;
  CHECK(seen().blanks == 10);
  quote.route.job.stock.from_bar = true;
  CHECK(seen().blanks == 0);
  CHECK(in(seen().bar, unit::m) == Approx(1));
}

TEST_CASE("an element that takes no time is not listed", "[estimate][times]") {
  Shop shop = shipped_shop();
  shop.policy.allowance = 0;
  for (const OperationTime& o : quote_at(shop).times.operations)
    for (const ElementTime& e : o.elements) CHECK(e.machine + e.person > Time(0.0));
}

TEST_CASE("a piece of just the time up to which one is spoilt setting up is spoilt", "[estimate]") {
  Shop shop = shipped_shop();
  const Quote before = quote_at(shop);
  shop.policy.setting_piece_up_to = before.times.machine_each;
  shop.policy.setting_blank_up_to = before.material.each;
  const double all =
      shop.policy.setting_pieces * static_cast<double>(before.times.operations.size());
  REQUIRE(all > 0);
  CHECK(quote_at(shop).lot.setting_pieces.si == all);
  shop.policy.setting_piece_up_to = 0.999 * before.times.machine_each;
  CHECK(quote_at(shop).lot.setting_pieces.si == 0);
}
