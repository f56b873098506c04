// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "../../src/estimate/quote_parts.hpp"
#include "../support.hpp"
#include "turnwright/figure/sure_quantity.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {
Quote quote_of(const std::string& text, const std::string& machine = "",
               const Shop& shop = shipped_shop()) {
  return make_quote(route_of(text, machine, MethodKind::rough_then_finish, shop), shop);
}

Time cutting(const Quote& q) {
  Time t(0.0);
  for (const OperationTime& s : q.times.operations)
    for (const StepTime& step : s.steps) t += step.cutting;
  return t;
}
}  // namespace

namespace {
// A worked example of our own: setup 1.5 h x (21 + 40) x 1.4, running 0.1 h x (21 + 20) x 1.4,
// material 2.90 x 1.10 and inserts 0.35 a piece made, outside max(60, 1.20 a good piece) x 1.05,
// made = ceil(good / 0.96) + 1, margin 15 %, step 0.05, minimum 150. Its setting piece runs and
// wears like the others: here its time stands in the setup and its inserts in the blank, which
// moves cents between lines but none between jobs.
Quote reference_job() {
  Quote q;
  q.split_rate = true;
  auto& in = q.lot;
  in.machine_rate = 21.0 * unit::money_per_h;
  in.person_rate = 40.0 * unit::money_per_h;
  in.overhead = 0.4;
  in.setup_machine = 1.6 * unit::h;
  in.setup_person = 1.55 * unit::h;
  in.machine_each = 0.1 * unit::h;
  in.person_each = 0.05 * unit::h;
  in.material_each = Amount(2.90 * 1.10 + 0.35);
  in.scrap_share = 0.04;
  in.setting_pieces = 1.0;
  model::OutsideStage<double> outside;
  outside.each = Amount(1.20);
  outside.minimum = Amount(60.0);
  in.outside = {outside};
  in.outside_overhead = 0.05;
  return q;
}
Shop reference_shop() {
  Shop shop = shipped_shop();
  shop.policy.margin = 0.15;
  shop.policy.price_steps = {{Money(), Money::from_hundredths(5)}};
  shop.policy.minimum_order = Money::from_hundredths(15000);
  return shop;
}
Money line_of(const Price& p, CostKind kind) {
  for (const CostLine& l : p.lines)
    if (l.kind == kind) return l.amount;
  return {};
}
// The part with a change, quoted.
Quote quote_of(const Part& part, const Shop& shop = shipped_shop()) {
  const auto job = prepare(part, shop);
  REQUIRE(job);
  const auto route = plan_route(*job, shop, {});
  REQUIRE(route);
  return make_quote(*route, shop);
}
}  // namespace

TEST_CASE("the reference job of lot costs comes out to the cent", "[estimate][evidence]") {
  const Quote q = reference_job();
  const Shop shop = reference_shop();
  struct Row {
    int good, made;
    const char *time, *material, *outside, *cost, *each, *total;
  };
  for (const Row& row :
       {Row{1, 3, "145.32", "10.62", "63.00", "218.94", "257.60", "257.60"},
        Row{10, 12, "196.98", "42.48", "63.00", "302.46", "35.60", "356.00"},
        Row{50, 54, "438.06", "191.16", "63.00", "692.22", "16.30", "815.00"},
        Row{250, 262, "1631.98", "927.48", "315.00", "2874.46", "13.55", "3387.50"},
        Row{1000, 1043, "6114.92", "3692.22", "1260.00", "11067.14", "13.00", "13000.00"}}) {
    const Price p = price_at(q, shop, row.good);
    INFO(row.good);
    CHECK(p.made == row.made);
    CHECK(
        (line_of(p, CostKind::setup) + line_of(p, CostKind::machine) + line_of(p, CostKind::labour))
            .text() == row.time);
    CHECK(line_of(p, CostKind::material).text() == row.material);
    CHECK(line_of(p, CostKind::outside_work).text() == row.outside);
    CHECK(p.cost.text() == row.cost);
    CHECK(p.each.text() == row.each);
    CHECK(p.total.text() == row.total);
    CHECK(p.minimum_surcharge == Money());
  }
  const Price at_272 = price_at(q, shop, 272), at_273 = price_at(q, shop, 273);
  CHECK(at_272.each.text() + " " + at_272.total.text() == "13.50 3672.00");
  CHECK(at_273.each.text() + " " + at_273.total.text() == "13.45 3671.85");
  const auto better = larger_for_less({at_272, at_273});
  REQUIRE(better.size() == 1);
  CHECK(better[0].from == 272);
  CHECK(better[0].quantity == 273);
}

TEST_CASE("a published batch: casting, tool, times, setup, labour and machine",
          "[estimate][evidence]") {
  // A problem in the manner of M. P. Groover, answer page homeworksource.com/p/1089653: 14.794 a
  // piece. The page puts the labour overhead of 50 % on the machine's rate, 49.00 an hour in all.
  model::LotInputs<double> in;
  in.quantity = 40.0;
  in.setup_machine = in.setup_person = 1.75 * unit::h;
  in.machine_each = in.person_each = (6.86 + 2 + 1.5 / 10) * unit::min;
  in.machine_rate = 22.0 * 1.5 * unit::money_per_h;
  in.person_rate = 16.0 * unit::money_per_h;
  in.material_each = Amount(5.0);
  in.edges = {{Number(0.1), Amount(3.0)}};
  const auto l = model::lot_lines(in);
  const double each = (l.setup + l.machine + l.labour + l.inserts + l.material + l.other).si / 40;
  CHECK(each == Approx(14.794).epsilon(0.001));
}

TEST_CASE("scrap at the last outside stage costs more than at the first", "[estimate][property]") {
  // Invented: hardened after roughing, plated after turning.
  auto with = [](const char* first, const char* last) {
    return quote_of(shaft(
        "C45", "{round: 55, condition: hot rolled}", "30 x42, seat A", "35 x110",
        std::string("other work:\n  - {what: stress relieved, price: 2.00, after: "
                    "roughing, scrap: ") +
            first + "}\n  - {what: plated, price: 3.00, per: dm2, minimum: 60, scrap: " + last +
            "}\n"));
  };
  const Quote none = with("0", "0"), first = with("0.1", "0"), last = with("0", "0.1");
  for (const int q : {10, 50, 250}) {
    CHECK(lot_cost(first, q) > lot_cost(none, q));
    CHECK(lot_cost(last, q) > lot_cost(first, q));
  }
  // By hand at 50: 56 go out to be plated, 58 are turned; and with the first, 51, then 57.
  CHECK(model::stage_pieces(lot_of(last, 50), Number(50.0)).roughed.si == 58);
  CHECK(model::stage_pieces(lot_of(last, 50), Number(50.0)).outside[1].si == 56);
  const auto early = model::stage_pieces(lot_of(first, 50), Number(50.0));
  CHECK(early.finished.si == 52);
  CHECK(early.roughed.si == 58);
}

TEST_CASE("bought work is charged by what it says", "[estimate]") {
  auto outside = [](const std::string& words) {
    const Quote q = quote_of(
        "part: {number: R}\nmaterial: C45\nstock: {round: 50}\nquantities: [20]\noutside: [50 "
        "as drawn x100]\nother work: [{what: w, " +
        words + "}]\n");
    return lot_lines(q, 20).outside.si;
  };
  const double kg = 7850 * pi / 4 * 0.05 * 0.05 * 0.1;
  const double dm2 = (pi * 50 * 100 + 2 * pi / 4 * 50 * 50) / 1e4;
  CHECK(outside("price: 3") == Approx(20 * 3 * 1.05));
  CHECK(outside("price: 3, per: lot") == Approx(3 * 1.05));
  CHECK(outside("price: 3, per: kg") == Approx(20 * 3 * kg * 1.05));
  CHECK(outside("price: 3, per: dm2") == Approx(20 * 3 * dm2 * 1.05));
  CHECK(outside("price: 3, per: minute, minutes: 4") == Approx(20 * 12 * 1.05));
  CHECK(outside("price: 3, minimum: 75, certificate: 20, transport: 30") == Approx(125 * 1.05));
}

TEST_CASE("delivered in releases, the setup comes as often", "[estimate]") {
  Part part = part_of(shaft());
  part.quantities = {60, 240};
  auto quote = [&](int releases) {
    part.releases = releases;
    return quote_of(part);
  };
  part.repeat = true;  // first-time work is done once, whatever the releases
  const Quote at_once = quote(1), in_four = quote(4);
  const auto one = lot_lines(at_once, 60), four = lot_lines(in_four, 240);
  CHECK(four.setup.si == Approx(4 * one.setup.si));
  CHECK(four.machine.si == Approx(4 * one.machine.si));
  CHECK(four.material.si == Approx(4 * one.material.si));
  CHECK(in_four.prices[1].at_once_each == price_at(at_once, shipped_shop(), 240).each);
  CHECK(in_four.prices[1].each > in_four.prices[1].at_once_each);
  CHECK(in_four.prices[1].made == 4 * at_once.prices[0].made);
}

TEST_CASE("a repeat order is a new one less one-offs and first-time work", "[estimate]") {
  const std::string offs =
      "one-offs:\n  - soft jaws, 180 EUR\n  - {what: gauge, price: 240, paid: in the first order}\n"
      "  - {what: program, minutes: 90, paid: over pieces, pieces: 500}\n";
  const Quote bare = quote_of(shaft()), fresh = quote_of(shaft() + offs);
  const double rate = bare.route.machine.rate.all_in->si;
  CHECK(fresh.prices[1].cost.amount().si - bare.prices[1].cost.amount().si ==
        Approx(240 * 1.05 + 50 * 5400 * rate / 500).margin(0.0051));
  REQUIRE(fresh.one_offs.size() == 1);
  CHECK(fresh.one_offs[0].cost.text() == "189.00");
  CHECK(fresh.one_offs[0].price.text() == "222.35");
  std::string again = shaft() + offs;
  again.replace(again.find("{number: T-1}"), 13, "{number: T-1, order: repeat}");
  std::string bare_again = shaft();
  bare_again.replace(bare_again.find("{number: T-1}"), 13, "{number: T-1, order: repeat}");
  const Quote repeated = quote_of(again);
  CHECK(repeated.one_offs.empty());
  for (std::size_t i = 0; i < 3; ++i)
    CHECK(repeated.prices[i].cost == quote_of(bare_again).prices[i].cost);
  // First-time work is setup: the difference is time at the rate and nothing else.
  const Time first_time = fresh.times.setup - repeated.times.setup;
  CHECK(first_time.si > 0);
  for (std::size_t i = 0; i < 3; ++i) {
    const double apart = fresh.prices[i].cost.amount().si - repeated.prices[i].cost.amount().si;
    const int q = fresh.prices[i].quantity;
    CHECK(apart ==
          Approx((first_time.si) * rate + 240 * 1.05 + q * 5400 * rate / 500).margin(0.0151));
  }
}

TEST_CASE("enough good pieces with a certainty, by the exact binomial", "[estimate][evidence]") {
  // The sum written out, in long double, term by term from the definition.
  auto at_least = [](int good, int n, long double p) {
    long double sum = 0;
    for (int k = good; k <= n; ++k)
      sum += std::exp(std::lgamma(n + 1.0L) - std::lgamma(k + 1.0L) - std::lgamma(n - k + 1.0L) +
                      k * std::log(1 - p) + (n - k) * std::log(p));
    return sum;
  };
  int checked = 0;
  for (const int good : {1, 2, 5, 10, 50, 120, 250})
    for (const double scrap : {0.01, 0.03, 0.1, 0.25})
      for (const double level : {0.5, 0.9, 0.95, 0.99}) {
        int n = good;
        while (at_least(good, n, scrap) < level - 1e-12) ++n;  // ties count
        const auto found = figure::SureQuantity::work_out<double>(
            {Number(static_cast<double>(good)), Number(scrap), Number(level)});
        INFO(good << " " << scrap << " " << level);
        CHECK(found.start.si == n);
        ++checked;
      }
  CHECK(checked == 112);
  Shop shop = shipped_shop();
  shop.policy.service_level = 0.95;
  shop.policy.scrap_share = 0.04;
  CHECK(lot_lines(quote_of(shaft(), "", shop), 50).pieces.si == 55);
}

TEST_CASE("prices by the hundred, with a step for each size", "[estimate][property]") {
  Shop shop = shipped_shop();
  auto cents = [](std::int64_t c) { return Money::from_hundredths(c); };
  shop.policy.price_steps = {
      {cents(1000), cents(1)}, {cents(10000), cents(5)}, {Money(), cents(50)}};
  shop.policy.price_unit = 100;
  Part part = part_of(shaft());
  Draws draws(100);
  for (int i = 0; i < 30; ++i) {
    part.quantities = {draws.whole(1, 9), draws.whole(10, 90), draws.whole(91, 2000)};
    const Quote q = quote_of(part, shop);
    for (const Price& p : q.prices) {
      CHECK(p.price_unit == 100);
      CHECK(p.each.hundredths() % 50 == 0);  // above 100.00 all of them
      CHECK(p.total == rounded(p.each.amount() * p.quantity / 100.0));
    }
    CHECK(q.prices[0].each >= q.prices[1].each);
    CHECK(q.prices[1].each >= q.prices[2].each);
  }
  const Policy& policy = shop.policy;
  CHECK(policy.step_of(Amount(9.99)).text() == "0.01");
  CHECK(policy.step_of(Amount(10.0)).text() == "0.05");
  CHECK(policy.step_of(Amount(100.0)).text() == "0.50");
  // Rounded prices never fall while costs rise, across both bounds.
  Money last;
  for (int c = 900; c < 12000; ++c) {
    const Amount x(c / 100.0 + 0.003);
    const Money now = rounded_to_step(x, policy.step_of(x));
    CHECK(now >= last);
    last = now;
  }
}

TEST_CASE("whole bars are paid by the lot that opens them", "[estimate]") {
  Shop shop = shipped_shop();
  const Quote used = quote_of(shaft(), "", shop);
  shop.policy.whole_bars = true;
  const Quote whole = quote_of(shaft(), "", shop);
  const int per = whole.material.pieces_per_bar;
  CHECK(per > 1);
  double last = 0;
  for (int q = 1; q < 60; ++q) {
    const auto l = lot_lines(whole, q);
    const double bars = std::ceil(l.made.si / per);
    CHECK(l.material.si ==
          Approx(bars * whole.material.whole_bar.si +
                 l.made.si * (used.material.each.si - used.material.bar.si * 1.1)));
    CHECK(l.material >= lot_lines(used, q).material);
    CHECK(l.material.si >= last);
    last = l.material.si;
  }
}

TEST_CASE("learning only where asked, each doubling by its rate", "[estimate]") {
  const Quote plain = quote_of(shaft());
  const Quote learning = quote_of(shaft() + "learning: {rate: 0.9, planned time at piece: 4}\n");
  // Crawford: unit 4 is 0.81 of unit 1, so two units average (1 + 0.9)/2/0.81 of the planned.
  CHECK(lot_lines(learning, 2).machine.si ==
        Approx(lot_lines(plain, 2).machine.si * 1.9 / 2 / 0.81));
  CHECK(lot_lines(learning, 1000).machine < lot_lines(plain, 1000).machine);
}

TEST_CASE("where the next quantity of a list costs less in total", "[estimate][property]") {
  Draws draws(272);
  for (int i = 0; i < 300; ++i) {
    std::vector<Price> list;
    const double rebate = i % 2 == 0 ? 0 : draws.whole(1, 20) / 100.0;
    int quantity = 0;
    auto each = draws.whole(2000, 9000);
    for (int k = 0; k < 4; ++k) {
      Price p;
      p.quantity = quantity += draws.whole(1, 60);
      p.each = Money::from_hundredths(each);
      p.minimum_order = Money::from_hundredths(15000);
      p.rebate_share = rebate;
      total_up(p);
      list.push_back(p);
      each = each * draws.whole(50, 100) / 100;
    }
    std::vector<std::pair<int, int>> wanted, found;
    for (std::size_t k = 0; k + 1 < list.size(); ++k)
      for (int q = list[k].quantity; q < list[k + 1].quantity; ++q) {
        // Of both what the customer pays: after the rebate.
        const Money goods = list[k].each * q;
        const Money paid =
            std::max(goods - rounded(goods.amount() * rebate), Money::from_hundredths(15000));
        if (paid <= list[k + 1].income()) continue;
        wanted.emplace_back(q, list[k + 1].quantity);
        break;
      }
    for (const LargerForLess& l : larger_for_less(list)) found.emplace_back(l.from, l.quantity);
    CHECK(found == wanted);
  }
}

TEST_CASE("lines add up to cost, each times quantity to the total", "[estimate]") {
  for (const char* machine : {"CNC lathe, medium", "geared lathe, medium"}) {
    const Quote q = quote_of(shaft(), machine);
    for (const Price& p : q.prices) {
      Money sum;
      for (const CostLine& l : p.lines) sum = sum + l.amount;
      CHECK(sum == p.cost);
      CHECK(p.each * p.quantity == p.total);
      CHECK(p.total + p.minimum_surcharge - p.cost == p.margin);
      CHECK(p.low_each <= p.each);
      CHECK(p.each <= p.high_each);
    }
  }
}

TEST_CASE("times of passes add up to steps, steps and elements to pieces", "[estimate]") {
  const Quote q = quote_of(shaft());
  Time machine(0.0);
  for (std::size_t i = 0; i < q.times.operations.size(); ++i) {
    const OperationTime& t = q.times.operations[i];
    Time run(0.0), external(0.0), internal(0.0);
    for (std::size_t k = 0; k < t.steps.size(); ++k) {
      Time passes(0.0);
      for (const SegmentTime& s : t.steps[k].segments) passes += s.cutting;
      CHECK(passes.si == Approx(t.steps[k].cutting.si).epsilon(1e-12));
      run += t.steps[k].machine;
    }
    for (const ElementTime& e : t.elements)
      if (!e.away) (e.internal ? internal : external) += e.internal ? e.person : e.machine;
    CHECK(t.machine.si == Approx((external + max(run, internal)).si).epsilon(1e-12));
    machine += t.machine;
  }
  CHECK(machine.si == Approx(q.times.machine_each.si).epsilon(1e-12));
}

TEST_CASE("harder is never faster: cutting and edge share of every step", "[estimate][monotone]") {
  for (const char* machine : {"CNC lathe, medium", "geared lathe, medium"}) {
    const Quote soft = quote_of(shaft("42CrMo4 +A"), machine),
                hard = quote_of(shaft("42CrMo4 +QT"), machine);
    const Quote hardest =
        quote_of(shaft("{like: 42CrMo4 +QT, hardness: 350 HB, price: 2.45 EUR/kg}"), machine);
    CHECK(cutting(soft) <= cutting(hard));
    CHECK(cutting(hard) <= cutting(hardest));
    for (const auto& [a, b] : {std::pair(&soft, &hard), std::pair(&hard, &hardest)})
      for (std::size_t i = 0; i < a->times.operations.size(); ++i)
        for (std::size_t k = 0; k < a->times.operations[i].steps.size(); ++k) {
          INFO(machine << " operation " << i << " step " << k);
          const StepTime &x = a->times.operations[i].steps[k], &y = b->times.operations[i].steps[k];
          CHECK(x.cutting.si <= y.cutting.si * (1 + 1e-12));
          // At one speed it wears more; a geared lathe may have to take a step that wears less.
          CHECK(b->route.operations[i].steps[k].taylor_constant <=
                a->route.operations[i].steps[k].taylor_constant * (1 + 1e-12));
          if (a->route.machine.ladder.empty() || y.steady_speed >= x.steady_speed)
            CHECK(x.edge_share <= y.edge_share * (1 + 1e-12));
        }
  }
}

TEST_CASE("a bigger batch never costs less in total, nor a listed piece more",
          "[estimate][monotone]") {
  for (const std::string& text :
       {shaft(),
        std::string("part: {number: B}\nmaterial: CuZn39Pb3\nstock: {round: 35, condition: drawn, "
                    "fed from: bar}\nquantities: [1]\noutside: [28 x25, 34 x5]\n")}) {
    const Quote q = quote_of(text);
    double last = 0;
    std::vector<Price> list;
    for (int n = 1; n <= 1000; ++n) {
      const double cost = lot_cost(q, n).si;
      CHECK(cost >= last - 1e-9);
      last = cost;
      list.push_back(price_at(q, shipped_shop(), n));
    }
    never_rising(list, q.route.job.part);
    for (std::size_t i = 1; i < list.size(); ++i) CHECK(list[i].each <= list[i - 1].each);
  }
}

TEST_CASE("price never falls when a rate rises", "[estimate][monotone]") {
  Shop shop = shipped_shop();
  const std::string text = shaft();
  const Money base = quote_of(text, "", shop).prices[1].each;
  for (Machine& m : shop.machines) m.rate.all_in = *m.rate.all_in * 1.1;
  const Money dearer = quote_of(text, "", shop).prices[1].each;
  CHECK(dearer > base);
  for (Material& m : shop.materials) m.price = *m.price * 1.2;
  const Money dearest = quote_of(text, "", shop).prices[1].each;
  CHECK(dearest > dearer);
  shop.policy.margin = 0.25;
  CHECK(quote_of(text, "", shop).prices[1].each > dearest);
}

TEST_CASE("looser is never dearer", "[estimate][monotone]") {
  auto each = [](const std::string& seat) {
    return quote_of(shaft("42CrMo4 +QT", "{round: 55, condition: hot rolled}", seat))
        .prices[1]
        .each;
  };
  CHECK(each("30 k7 x42, Ra 0.8, relief F, seat A") <= each("30 k6 x42, Ra 0.8, relief F, seat A"));
  CHECK(each("30 h9 x42, Ra 0.8, relief F, seat A") <= each("30 k7 x42, Ra 0.8, relief F, seat A"));
  CHECK(each("30 k6 x42, Ra 1.6, relief F, seat A") <= each("30 k6 x42, Ra 0.8, relief F, seat A"));
  CHECK(each("30 k6 x42, Ra 0.8, seat A") <= each("30 k6 x42, Ra 0.8, relief F, seat A"));
}

TEST_CASE("more stock is never cheaper", "[estimate][monotone]") {
  double last = 0;
  for (const char* round : {"55", "60", "65", "70"}) {
    const double cost = lot_cost(quote_of(shaft("42CrMo4 +QT", std::string("{round: ") + round +
                                                                   ", condition: hot rolled}")),
                                 50)
                            .si;
    CHECK(cost >= last);
    last = cost;
  }
}

TEST_CASE("times of 4,000 random paths agree with quadrature, clamp and all", "[estimate][times]") {
  Draws draws(21);
  double worst = 0;
  int paths = 0;
  while (paths < 4000) {
    const double r1 = draws.real(0.002, 0.08), r2 = draws.real(0.002, 0.08),
                 dz = draws.real(0.001, 0.1);
    const double v = draws.real(0.5, 6), f = draws.real(5e-5, 5e-4), nmax = draws.real(10, 80),
                 clamp = v / (2 * pi * nmax);
    const bool arc = draws.whole(0, 1) == 1;
    Segment s{{Length(-dz), Length(r1)}, {Length(0.0), Length(r2)}, Bulge::none, {}, {}};
    if (arc)
      s = arc_between(s.from, s.to, Length(std::hypot(dz, r2 - r1) * draws.real(1.0, 3.0)),
                      Bulge::out);
    // An arc must be a function of z, clear of its vertical tangents.
    if (arc && std::min(r1, r2) < s.centre.r.si + 0.1 * s.radius.si) continue;
    ++paths;
    CutSegment p;
    p.motion = arc ? Motion::arc : Motion::across;
    p.cut = length(s);
    p.large_diameter = Length(2 * std::max(r1, r2));
    p.small_diameter = Length(2 * std::min(r1, r2));
    p.surface_speed = Speed(v);
    p.feed = Length(f);
    p.fastest = Frequency(nmax);
    double engine = arc ? 0 : model::pass_time(p).si, exact = 0;
    for (const Segment& piece : split_at_radius(s, Length(clamp))) {
      if (arc) {
        p.cut = length(piece);
        p.swept = surface(piece);
        engine += model::pass_time(p).si;
      }
      // Gauss-Legendre on panels of z: dt = ds / (f n).
      static const double x[] = {0.1834346424956498, 0.5255324099163290, 0.7966664774136267,
                                 0.9602898564975363};
      static const double w[] = {0.3626837833783620, 0.3137066458778873, 0.2223810344533745,
                                 0.1012285362903763};
      constexpr int panels = 24;
      for (int k = 0; k < panels; ++k)
        for (int g = 0; g < 8; ++g) {
          const double h = (piece.to.z - piece.from.z).si / panels / 2,
                       at = g < 4 ? 1 - x[g] : 1 + x[g - 4];
          const double z = piece.from.z.si + 2 * h * k + h * at;
          const double r = radius_at(piece, Length(z)).si;
          const double slope =
              arc ? -(z - piece.centre.z.si) / (r - piece.centre.r.si) : (r2 - r1) / dz;
          exact +=
              w[g % 4] * h * std::sqrt(1 + slope * slope) / (f * std::min(v / (2 * pi * r), nmax));
        }
    }
    worst = std::max(worst, std::abs(engine - exact) / exact);
  }
  INFO("worst " << worst);
  CHECK(worst < 1e-9);
}

TEST_CASE("a row's own band counts before its basis; no band, no width", "[estimate]") {
  Shop shop = shipped_shop();
  const Quote wide = quote_of(shaft(), "", shop);
  shop.load.source.band = 0.0;
  for (HandlingElement& e : shop.setup) e.source.band = 0.0;
  const Quote narrower = quote_of(shaft(), "", shop);
  CHECK(narrower.prices[0].high_each < wide.prices[0].high_each);
  CHECK(narrower.prices[0].low_each > wide.prices[0].low_each);
  for (auto& [basis, share] : shop.policy.bands) share = 0;
  shop.policy.common_error_of_times = shop.policy.common_error_of_prices = 0;
  shop.policy.planning_error = 0;
  const Quote none = quote_of(shaft(), "", shop);
  CHECK(none.prices[0].low_each == none.prices[0].each);
  CHECK(none.prices[0].high_each == none.prices[0].each);
}

TEST_CASE("one-offs on a manual lathe are turned round at once", "[estimate]") {
  const std::string text =
      "part: {number: O}\nmaterial: C45\nquantities: [1, 2, 3]\noutside: [30 x40, 40 x40]\n";
  Shop shop = shipped_shop();
  const Quote at_once = quote_of(text, "geared lathe, medium", shop);
  shop.policy.turn_round_up_to = 0;
  const Quote apart = quote_of(text, "geared lathe, medium", shop);
  CHECK(lot_cost(at_once, 1) < lot_cost(apart, 1));
  CHECK(lot_cost(at_once, 2) < lot_cost(apart, 2));
  CHECK(lot_cost(at_once, 3).si == lot_cost(apart, 3).si);
  CHECK(lot_cost(quote_of(text, "CNC lathe, medium"), 1).si ==
        lot_cost(quote_of(text, "CNC lathe, medium", shop), 1).si);
}

TEST_CASE(
    "cycle and operator time: internal work hides until it exceeds the cycle; the share moves only "
    "the "
    "operator",
    "[estimate]") {
  const auto at = [](double internal, double share) {
    return model::clocked_time<double>(60.0 * unit::s, 20.0 * unit::s, internal * unit::s,
                                       Time(0.0), Number(share));
  };
  CHECK(at(0, 0.25).machine.si == 80);
  CHECK(at(20, 0.25).machine.si == 80);
  CHECK(at(20, 0.25).person.si - at(0, 0.25).person.si == Approx(20));
  CHECK(at(90, 0.25).machine.si == 110);
  CHECK(at(20, 1.0).machine.si == at(20, 0.25).machine.si);
  CHECK(at(20, 1.0).person.si == 80);
}

namespace {
bool is_first_time(ElementId id) {
  return id == ElementId::setup_program || id == ElementId::setup_program_features ||
         id == ElementId::setup_proving;
}
}  // namespace

TEST_CASE("a repeat order is cheaper by the program and its proving, nothing else", "[estimate]") {
  const std::string text = shaft();
  std::string repeat = text;
  repeat.replace(repeat.find("{number: T-1}"), 13, "{number: T-1, order: repeat}");
  const Quote a = quote_of(text), b = quote_of(repeat);
  Time first_time(0.0);
  for (const OperationTime& s : a.times.operations)
    for (const ElementTime& e : s.setup_elements)
      if (is_first_time(e.id)) first_time += e.machine;
  CHECK((a.times.setup - b.times.setup).si == Approx(first_time.si).epsilon(1e-12));
  CHECK(lot_cost(a, 50).si - lot_cost(b, 50).si ==
        Approx((first_time * *a.route.machine.rate.all_in).si).epsilon(1e-12));
}

TEST_CASE("material at no price lowers the cost by exactly the material line", "[estimate]") {
  Shop shop = shipped_shop();
  for (Material& m : shop.materials) m.price = UnitPrice(0.0);
  shop.bars.cut_charge = shop.bars.cut_charge_per_dm2 = Amount(0.0);
  const Quote with = quote_of(shaft()), without = quote_of(shaft(), "", shop);
  CHECK(lot_cost(with, 50).si - lot_cost(without, 50).si ==
        Approx(54 * with.material.each.si).epsilon(1e-9));
}

TEST_CASE("a saw is paid by the cut and by the section it goes through", "[estimate]") {
  // By hand: 2.00 and 2.00 per dm2 of 1.50 dm2.
  BarRules bars;
  bars.cut_charge = bars.cut_charge_per_dm2 = Amount(2.0);
  CHECK(bars.cut(Area(0.015)).si == Approx(5.0));
}

TEST_CASE("own work on a mill costs the mill's hours", "[estimate]") {
  Shop shop = shipped_shop();
  shop.other_machines.push_back({"mill", 60.0 * unit::money_per_h, {}});
  const std::string at_lathe = "other work: [{what: flats, minutes: 6, setup: 30}]\n",
                    at_mill = "other work: [{what: flats, minutes: 6, setup: 30, at: mill}]\n";
  const Quote plain = quote_of(shaft() + at_lathe, "", shop),
              milled = quote_of(shaft() + at_mill, "", shop);
  const auto line = [](const Quote& q) { return lot_lines(q, 50).other.si; };
  const double pieces = line(plain) / (plain.lot.machine_rate + plain.lot.person_rate).si;
  CHECK(milled.lot.other_cost_each.si == Approx(6.0));
  CHECK(milled.lot.other_cost_lot.si == Approx(30.0));
  CHECK(line(milled) == Approx(pieces * (60.0 * unit::money_per_h).si));
  CHECK(lot_lines(milled, 50).machine.si == Approx(lot_lines(plain, 50).machine.si));
}

TEST_CASE("the hour of another machine is paid as it stands, whatever the lathe's overhead",
          "[estimate]") {
  // By hand: 2 releases of 10, 30 + 10 x 6 min each at 60.00; a quarter of overhead only on the
  // lathe's own 4 min at 12.00 + 30.00.
  model::LotInputs<double> in;
  in.quantity = 20.0;
  in.releases = 2.0;
  in.machine_rate = 12.0 * unit::money_per_h;
  in.person_rate = 30.0 * unit::money_per_h;
  in.overhead = 0.25;
  in.other_time_lot = 4.0 * unit::min;
  in.other_cost_lot = Amount(30.0);
  in.other_cost_each = Amount(6.0);
  CHECK(model::lot_lines(in).other.si == Approx(2 * (90 + 4.0 / 60 * 42 * 1.25)).epsilon(1e-12));
}

TEST_CASE("machine, person and overhead apart give lines of their own", "[estimate]") {
  Shop shop = shipped_shop();
  for (Machine& m : shop.machines)
    m.rate = {std::nullopt, 25.0 * unit::money_per_h, 38.0 * unit::money_per_h, 0.4};
  const Quote q = quote_of(shaft(), "", shop);
  const Time made = 52.0 * q.times.machine_each;
  CHECK(q.prices[1].lines[1].kind == CostKind::machine);
  CHECK(q.prices[1].lines[1].amount == rounded(made * (25.0 * unit::money_per_h) * 1.4));
  CHECK(q.prices[1].lines[2].kind == CostKind::labour);
  CHECK(q.prices[1].lines[2].amount ==
        rounded(52.0 * q.times.person_each * (38.0 * unit::money_per_h) * 1.4));
  CHECK_THAT(english(q.rate), Catch::Contains("40 % overhead"));
}

TEST_CASE("other work by time follows the hour's rate, by price its overhead", "[estimate]") {
  const std::string more =
      "other work: [\"keyway, 6 min\", {what: hardening, price: 2.00 EUR, per: piece, setup: "
      "10 min, days: 5}]\n";
  const Quote with = quote_of(
      shaft("C45", "{round: 55, condition: hot rolled}", "30 x42, seat A", "35 x110", more));
  const Quote without =
      quote_of(shaft("C45", "{round: 55, condition: hot rolled}", "30 x42, seat A", "35 x110"));
  const double rate = with.route.machine.rate.all_in->si;
  // Own work on every piece run; the other firm is paid for the good ones that go there.
  CHECK(lot_cost(with, 50).si - lot_cost(without, 50).si ==
        Approx(52 * 360 * rate + 50 * 2.00 * 1.05 + 600 * rate).epsilon(1e-12));
}

TEST_CASE("one machine time of a lot, and one contribution per hour", "[estimate]") {
  Part part = part_of(shaft());
  part.quantities = {60, 240};
  part.releases = 4;
  const Quote q = quote_of(part);
  for (const Price& p : q.prices) {
    CHECK(lot_machine_time(q, p.quantity) == p.machine);
    // Each release is set up anew, first-time work is done in the first.
    const Time setup = 4.0 * q.times.setup - 3.0 * q.times.first_time;
    CHECK(p.machine.si == Approx((setup + lot_lines(q, p.quantity).machine_run).si).epsilon(1e-12));
    const Money bought = line_of(p, CostKind::material) + line_of(p, CostKind::inserts) +
                         line_of(p, CostKind::outside_work);
    CHECK(contribution_per_hour(q, p.quantity, p.income()).si ==
          Approx(((p.income() - bought).amount() / p.machine).si).margin(0.02 / p.machine.si));
  }
  CHECK(main_quantity(part) == 240);
}

TEST_CASE("both ends are roughed before the work between", "[estimate]") {
  Part part = part_of(shaft());
  CHECK(roughing_operations(quote_of(part).route) == 0);
  OtherWork work;
  work.what = "stress relieved";
  work.price = Amount(2.0);
  work.after = WorkAfter::roughing;
  part.other_work = {work};
  const Route route = quote_of(part).route;
  CHECK(roughing_operations(route) == route.operations.size() / 2);
  CHECK(roughing_operations(route) > 0);
}

TEST_CASE("pieces that prove the setup are corrected once, as running time", "[estimate]") {
  Shop shop = shipped_shop();
  const Route route = route_of(shaft());
  const Quote plain = make_quote(route, shop);
  shop.corrections = {{"x", route.machine.name, false, 1.2, 1, 0, {}},
                      {"y", route.machine.name, true, 1.5, 1, 0, {}}};
  const Quote corrected = make_quote(route, shop);
  for (std::size_t i = 0; i < route.operations.size(); ++i) {
    const OperationTime &before = plain.times.operations[i], &after = corrected.times.operations[i];
    CHECK(after.machine.si == Approx(1.2 * before.machine.si).epsilon(1e-9));
    REQUIRE(before.first_off_cycles == 2);
    CHECK(after.setup.si == Approx(1.5 * before.setup_fixed.si + 2 * 1.2 * before.machine.si));
    CHECK(after.setup_fixed.si == Approx(1.5 * before.setup_fixed.si));
  }
}

TEST_CASE("every element, line, row and status has its words in both languages", "[estimate]") {
  auto check = [](const std::string& topic, const char* name) {
    REQUIRE(name != nullptr);
    const Message word{topic + name, {{"count", 2}, {"n", 2}, {"factor", Figure{1.2}}}};
    for (const Language language : {Language::en, Language::de}) {
      const std::string text = Words(language)(word);
      INFO(text);
      CHECK_FALSE(text.starts_with("{"));
      CHECK(text.find('{') == std::string::npos);
    }
  };
  for (int i = 0; i <= static_cast<int>(ElementId::setup_own_records); ++i)
    check("element.", name_of(static_cast<ElementId>(i)));
  for (int i = 0; i <= static_cast<int>(CostKind::one_offs); ++i)
    check("cost.", name_of(static_cast<CostKind>(i)));
  for (int i = 0; i <= static_cast<int>(BandRowId::other_work); ++i)
    check("band.", name_of(static_cast<BandRowId>(i)));
  for (int i = 0; i <= static_cast<int>(PriceStatus::supplied); ++i)
    check("status.", name_of(static_cast<PriceStatus>(i)));
  CHECK(english({"element.deburring", {{"count", 1}, {"n", 1}}}) == "deburr, 1 edge");
}

TEST_CASE("rates of exchange are said on the quote", "[estimate]") {
  Shop shop = shipped_shop();
  const Quote own = quote_of(part_of(shaft()), shop);
  shop.currencies.rates = {{"USD", 0.92, *read_date("2026-11-30"), "house bank"}};
  const Quote q = quote_of(part_of(shaft()), shop);
  REQUIRE(q.cautions.size() == own.cautions.size() + 1);
  CHECK(english(q.cautions.back()) ==
        "amounts in USD are converted at 0.92 EUR per USD, rate of 30 Nov 2026 (house bank)");
}

TEST_CASE("a material price older than the policy lets pass is not confirmed", "[estimate]") {
  Shop shop = shipped_shop();
  for (Material& m : shop.materials) m.price_date = "2026-10-01";
  Quote q = quote_of(part_of(shaft()), shop);
  const std::size_t before = q.unconfirmed.size();
  mark_old_price(q, *read_date("2026-10-31"), shop.policy);
  CHECK(q.unconfirmed.size() == before);
  mark_old_price(q, *read_date("2026-11-01"), shop.policy);
  REQUIRE(q.unconfirmed.size() == before + 1);
  CHECK(english(q.unconfirmed.back()) ==
        "the price of 42CrMo4+QT is of 1 Oct 2026, 31 days before the request");
}

TEST_CASE("a placeholder price marks the quote", "[estimate]") {
  const Quote q = quote_of(shaft());
  CHECK(q.material.status == PriceStatus::not_confirmed);
  CHECK(std::any_of(q.unconfirmed.begin(), q.unconfirmed.end(), [](const Message& m) {
    return english(m).find("not confirmed") != std::string::npos;
  }));
}

TEST_CASE("the shaft's numbers are plausible", "[estimate]") {
  // Practice: 7-11 min CNC, 40-60 manual, setup 1.5-3.5 h for such a shaft (typical, from
  // memory).
  const Quote cnc = quote_of(shaft()), manual = quote_of(shaft(), "geared lathe, medium");
  CHECK(in(cnc.times.machine_each, unit::min) > 7);
  CHECK(in(cnc.times.machine_each, unit::min) < 11);
  CHECK(in(manual.times.machine_each, unit::min) > 25);
  CHECK(in(manual.times.machine_each, unit::min) < 60);
  CHECK(in(cnc.times.setup, unit::h) > 1.5);
  CHECK(in(cnc.times.setup, unit::h) < 3.5);
}
