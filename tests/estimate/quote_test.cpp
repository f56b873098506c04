// SPDX-License-Identifier: MIT
#include <algorithm>
#include <cmath>

#include "../support.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {
Quote quoted(const std::string& text, const std::string& machine = "",
             const Shop& shop = shipped_shop()) {
  return make_quote(route_of(text, machine, WayKind::rough_then_finish, shop), shop);
}

Time cutting(const Quote& q) {
  Time t(0.0);
  for (const SetupTime& s : q.times.setups)
    for (const StepTime& step : s.steps) t += step.cutting;
  return t;
}
}  // namespace

TEST_CASE("the reference job of lot costs comes out to the cent", "[estimate][evidence]") {
  // A worked example of our own: make-ready 1.5 h x (21 + 40) x 1.4, running
  // 0.1 h x (21 + 20) x 1.4, material 2.90 x 1.10, edges 0.35; made = ceil(good / 0.96) + 1. Its
  // running counts setting pieces too, so pieces are set by hand here.
  model::LotInputs<double> in;
  in.machine_rate = 21.0 * unit::money_per_h;
  in.person_rate = 40.0 * unit::money_per_h;
  in.overhead = 0.4;
  in.make_ready_machine = in.make_ready_person = 1.5 * unit::h;
  in.machine_each = 0.1 * unit::h;
  in.person_each = 0.05 * unit::h;
  in.material_each = Amount(2.90 * 1.10);
  struct Row {
    double pieces;
    const char *ready, *running, *material;
  };
  for (const Row& row :
       {Row{3, "128.10", "17.22", "9.57"}, Row{12, "128.10", "68.88", "38.28"},
        Row{54, "128.10", "309.96", "172.26"}, Row{262, "128.10", "1503.88", "835.78"},
        Row{1043, "128.10", "5986.82", "3327.17"}}) {
    in.quantity = row.pieces;
    const auto l = model::lot_lines(in);
    CHECK(rounded(l.make_ready).text() == row.ready);
    CHECK(rounded(l.machine + l.labour).text() == row.running);
    CHECK(rounded(l.material).text() == row.material);
  }
  in.scrap_share = 0.04;
  in.setting_pieces = 1.0;
  for (const auto& [good, made] : {std::pair{1, 3}, {10, 12}, {50, 54}, {250, 262}, {1000, 1043}}) {
    in.quantity = static_cast<double>(good);
    CHECK(model::lot_lines(in).made.si == made);
  }
}

TEST_CASE("where the next quantity of a list costs less in total", "[estimate][property]") {
  Draws draws(272);
  for (int i = 0; i < 300; ++i) {
    std::vector<Price> list;
    int quantity = 0;
    auto each = draws.whole(2000, 9000);
    for (int k = 0; k < 4; ++k) {
      Price p;
      p.quantity = quantity += draws.whole(1, 60);
      p.each = Money::from_hundredths(each);
      p.total = p.each * p.quantity;
      const Money least = Money::from_hundredths(15000);
      if (p.total < least) p.minimum_surcharge = least - p.total;
      list.push_back(p);
      each = each * draws.whole(50, 100) / 100;
    }
    std::vector<std::pair<int, int>> wanted, found;
    for (std::size_t k = 0; k + 1 < list.size(); ++k)
      for (int q = list[k].quantity; q < list[k + 1].quantity; ++q) {
        const auto paid = std::max<std::int64_t>(list[k].each.hundredths() * q, 15000);
        const auto next = list[k + 1].total + list[k + 1].minimum_surcharge;
        if (paid <= next.hundredths()) continue;
        wanted.emplace_back(q, list[k + 1].quantity);
        break;
      }
    for (const LargerForLess& l : larger_for_less(list)) found.emplace_back(l.from, l.quantity);
    CHECK(found == wanted);
  }
}

TEST_CASE("lines add up to cost, each times quantity to the total", "[estimate]") {
  for (const char* machine : {"CNC lathe, medium", "geared lathe, medium"}) {
    const Quote q = quoted(shaft(), machine);
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
  const Quote q = quoted(shaft());
  Time machine(0.0);
  for (std::size_t i = 0; i < q.times.setups.size(); ++i) {
    const SetupTime& t = q.times.setups[i];
    Time run(0.0), external(0.0), internal(0.0);
    for (std::size_t k = 0; k < t.steps.size(); ++k) {
      Time passes(0.0);
      for (const PassTime& p : t.steps[k].passes) passes += p.cutting;
      CHECK(passes.si == Approx(t.steps[k].cutting.si).epsilon(1e-12));
      run += t.steps[k].machine;
    }
    for (const ElementTime& e : t.elements)
      (e.internal ? internal : external) += e.internal ? e.person : e.machine;
    CHECK(t.machine.si == Approx((external + max(run, internal)).si).epsilon(1e-12));
    machine += t.machine;
  }
  CHECK(machine.si == Approx(q.times.machine_each.si).epsilon(1e-12));
}

TEST_CASE("harder is never faster: cutting and edge share of every step", "[estimate][monotone]") {
  for (const char* machine : {"CNC lathe, medium", "geared lathe, medium"}) {
    const Quote soft = quoted(shaft("42CrMo4 +A"), machine),
                hard = quoted(shaft("42CrMo4 +QT"), machine);
    const Quote hardest =
        quoted(shaft("{like: 42CrMo4 +QT, hardness: 350 HB, price: 2.45 EUR/kg}"), machine);
    CHECK(cutting(soft) <= cutting(hard));
    CHECK(cutting(hard) <= cutting(hardest));
    for (const auto& [a, b] : {std::pair(&soft, &hard), std::pair(&hard, &hardest)})
      for (std::size_t i = 0; i < a->times.setups.size(); ++i)
        for (std::size_t k = 0; k < a->times.setups[i].steps.size(); ++k) {
          INFO(machine << " setup " << i << " step " << k);
          const StepTime &x = a->times.setups[i].steps[k], &y = b->times.setups[i].steps[k];
          CHECK(x.cutting.si <= y.cutting.si * (1 + 1e-12));
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
    const Quote q = quoted(text);
    double last = 0;
    std::vector<Price> list;
    for (int n = 1; n <= 1000; ++n) {
      const double cost = lot_cost(q, n).si;
      CHECK(cost >= last - 1e-9);
      last = cost;
      list.push_back(price_at(q, shipped_shop(), n));
    }
    never_rising(list, shipped_shop().policy);
    for (std::size_t i = 1; i < list.size(); ++i) CHECK(list[i].each <= list[i - 1].each);
  }
}

TEST_CASE("price never falls when a rate rises", "[estimate][monotone]") {
  Shop shop = shipped_shop();
  const std::string text = shaft();
  const Money base = quoted(text, "", shop).prices[1].each;
  for (Machine& m : shop.machines) m.rate.all_in = *m.rate.all_in * 1.1;
  const Money dearer = quoted(text, "", shop).prices[1].each;
  CHECK(dearer > base);
  for (Material& m : shop.materials) m.price = *m.price * 1.2;
  const Money dearest = quoted(text, "", shop).prices[1].each;
  CHECK(dearest > dearer);
  shop.policy.margin = 0.25;
  CHECK(quoted(text, "", shop).prices[1].each > dearest);
}

TEST_CASE("looser is never dearer", "[estimate][monotone]") {
  auto each = [](const std::string& seat) {
    return quoted(shaft("42CrMo4 +QT", "{round: 55, condition: hot rolled}", seat)).prices[1].each;
  };
  CHECK(each("30 k7 x42, Ra 0.8, relief F, seat A") <= each("30 k6 x42, Ra 0.8, relief F, seat A"));
  CHECK(each("30 h9 x42, Ra 0.8, relief F, seat A") <= each("30 k7 x42, Ra 0.8, relief F, seat A"));
  CHECK(each("30 k6 x42, Ra 1.6, relief F, seat A") <= each("30 k6 x42, Ra 0.8, relief F, seat A"));
  CHECK(each("30 k6 x42, Ra 0.8, seat A") <= each("30 k6 x42, Ra 0.8, relief F, seat A"));
}

TEST_CASE("more stock is never cheaper", "[estimate][monotone]") {
  double last = 0;
  for (const char* round : {"55", "60", "65", "70"}) {
    const double cost = lot_cost(quoted(shaft("42CrMo4 +QT", std::string("{round: ") + round +
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
    Pass p;
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
  const Quote wide = quoted(shaft(), "", shop);
  shop.load.source.band = 0.0;
  for (HandlingElement& e : shop.make_ready) e.source.band = 0.0;
  const Quote narrower = quoted(shaft(), "", shop);
  CHECK(narrower.prices[0].high_each < wide.prices[0].high_each);
  CHECK(narrower.prices[0].low_each > wide.prices[0].low_each);
  for (auto& [basis, share] : shop.policy.bands) share = 0;
  const Quote none = quoted(shaft(), "", shop);
  CHECK(none.prices[0].low_each == none.prices[0].each);
  CHECK(none.prices[0].high_each == none.prices[0].each);
}

TEST_CASE("one-offs on a manual lathe are turned round at once", "[estimate]") {
  const std::string text =
      "part: {number: O}\nmaterial: C45\nquantities: [1, 2, 3]\noutside: [30 x40, 40 x40]\n";
  Shop shop = shipped_shop();
  const Quote at_once = quoted(text, "geared lathe, medium", shop);
  shop.policy.turn_round_up_to = 0;
  const Quote apart = quoted(text, "geared lathe, medium", shop);
  CHECK(lot_cost(at_once, 1) < lot_cost(apart, 1));
  CHECK(lot_cost(at_once, 2) < lot_cost(apart, 2));
  CHECK(lot_cost(at_once, 3).si == lot_cost(apart, 3).si);
  CHECK(lot_cost(quoted(text, "CNC lathe, medium"), 1).si ==
        lot_cost(quoted(text, "CNC lathe, medium", shop), 1).si);
}

TEST_CASE(
    "the two clocks: internal work hides until it exceeds the cycle; the share moves only the "
    "operator",
    "[estimate]") {
  const auto at = [](double internal, double share) {
    return model::holding_time<double>(60.0 * unit::s, 20.0 * unit::s, internal * unit::s,
                                       Number(share));
  };
  CHECK(at(0, 0.25).machine.si == 80);
  CHECK(at(20, 0.25).machine.si == 80);
  CHECK(at(20, 0.25).person.si - at(0, 0.25).person.si == Approx(20));
  CHECK(at(90, 0.25).machine.si == 110);
  CHECK(at(20, 1.0).machine.si == at(20, 0.25).machine.si);
  CHECK(at(20, 1.0).person.si == 80);
}

TEST_CASE("a repeat order is cheaper by the program and its proving, nothing else", "[estimate]") {
  const std::string text = shaft();
  std::string repeat = text;
  repeat.replace(repeat.find("{number: T-1}"), 13, "{number: T-1, order: repeat}");
  const Quote a = quoted(text), b = quoted(repeat);
  Time first_time(0.0);
  for (const SetupTime& s : a.times.setups)
    for (const ElementTime& e : s.make_ready_elements)
      if (e.name.find("first time") != std::string::npos) first_time += e.machine;
  CHECK((a.times.make_ready - b.times.make_ready).si == Approx(first_time.si).epsilon(1e-12));
  CHECK(lot_cost(a, 50).si - lot_cost(b, 50).si ==
        Approx((first_time * *a.route.machine.rate.all_in).si).epsilon(1e-12));
}

TEST_CASE("material at no price lowers the cost by exactly the material line", "[estimate]") {
  Shop shop = shipped_shop();
  for (Material& m : shop.materials) m.price = UnitPrice(0.0);
  shop.bars.cut_charge = Amount(0.0);
  const Quote with = quoted(shaft()), without = quoted(shaft(), "", shop);
  CHECK(lot_cost(with, 50).si - lot_cost(without, 50).si ==
        Approx(54 * with.material.each.si).epsilon(1e-9));
}

TEST_CASE("machine, person and overhead apart give lines of their own", "[estimate]") {
  Shop shop = shipped_shop();
  for (Machine& m : shop.machines)
    m.rate = {std::nullopt, 25.0 * unit::money_per_h, 38.0 * unit::money_per_h, 0.4};
  const Quote q = quoted(shaft(), "", shop);
  const Time made = 52.0 * q.times.machine_each;
  CHECK(q.prices[1].lines[1].name == "machine");
  CHECK(q.prices[1].lines[1].amount == rounded(made * (25.0 * unit::money_per_h) * 1.4));
  CHECK(q.prices[1].lines[2].name == "labour");
  CHECK(q.prices[1].lines[2].amount ==
        rounded(52.0 * q.times.person_each * (38.0 * unit::money_per_h) * 1.4));
  CHECK_THAT(q.rate_words, Catch::Contains("40 % overhead"));
}

TEST_CASE("other work by time follows the hour's rate, by price its overhead", "[estimate]") {
  const std::string more =
      "other work: [\"keyway, 6 min\", {what: hardening, price: 2.00 EUR, per: piece, make-ready: "
      "10 min, days: 5}]\n";
  const Quote with =
      quoted(shaft("C45", "{round: 55, condition: hot rolled}", "30 x42, seat A", "35 x110", more));
  const Quote without =
      quoted(shaft("C45", "{round: 55, condition: hot rolled}", "30 x42, seat A", "35 x110"));
  const double rate = with.route.machine.rate.all_in->si;
  CHECK(lot_cost(with, 50).si - lot_cost(without, 50).si ==
        Approx(52 * (360 * rate + 2.00 * 1.05) + 600 * rate).epsilon(1e-12));
}

TEST_CASE("a placeholder price marks the quote", "[estimate]") {
  const Quote q = quoted(shaft());
  CHECK(std::any_of(q.unconfirmed.begin(), q.unconfirmed.end(), [](const std::string& s) {
    return s.find("not confirmed") != std::string::npos;
  }));
}

TEST_CASE("the shaft's numbers are plausible", "[estimate]") {
  // Practice: 7-11 min CNC, 40-60 manual, make-ready 1.5-3.5 h for such a shaft (typical, from
  // memory).
  const Quote cnc = quoted(shaft()), manual = quoted(shaft(), "geared lathe, medium");
  CHECK(in(cnc.times.machine_each, unit::min) > 7);
  CHECK(in(cnc.times.machine_each, unit::min) < 11);
  CHECK(in(manual.times.machine_each, unit::min) > 25);
  CHECK(in(manual.times.machine_each, unit::min) < 60);
  CHECK(in(cnc.times.make_ready, unit::h) > 1.5);
  CHECK(in(cnc.times.make_ready, unit::h) < 3.5);
}
