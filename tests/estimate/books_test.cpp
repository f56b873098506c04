// SPDX-License-Identifier: MIT
#include "turnwright/estimate/books.hpp"
#include "../support.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

// A worked example by hand: six turners and an apprentice, three classes of machines, eight
// overheads. Firm, wages and prices invented; the sums worked out apart from this program.
Shop shop_with_books(const std::string& more = "") {
  auto files = shipped_rates();
  const std::size_t own = files.size();
  files.push_back({"books.yaml", R"(units: metric
book people:
- {name: turners, number: 6, wage: 27.50 EUR/h, paid hours: 2080, at machines: 0.84, source: x, basis: typical}
- {name: apprentice, number: 1, wage: 15.00 EUR/h, paid hours: 2080, at machines: 0.60, source: x, basis: typical}
book machines:
- {name: geared lathe, number: 2, price: 38000 EUR, residual: 4000 EUR, years: 12, running hours: 1300, floor: 12, power: 3 kW, service: 900 EUR, source: x, basis: typical}
- {name: CNC lathe, number: 4, price: 145000 EUR, residual: 20000 EUR, years: 9, running hours: 2100, floor: 22, power: 7.5 kW, service: 4200 EUR, source: x, basis: typical}
- {name: bar lathe, number: 1, price: 190000 EUR, residual: 30000 EUR, years: 9, running hours: 3400, floor: 30, power: 8 kW, service: 6000 EUR, source: x, basis: typical}
book values:
- {name: on-cost, value: 0.24, source: x, basis: typical}
- {name: interest, value: 0.06, source: x, basis: typical}
- {name: floor, value: 96 EUR, source: x, basis: typical}
- {name: energy, value: 0.24 EUR, source: x, basis: typical}
book overheads:
- {name: a, amount: 148000 EUR, source: x, basis: typical}
- {name: b, amount: 41000 EUR, source: x, basis: typical}
- {name: c, amount: 17500 EUR, source: x, basis: typical}
- {name: d, amount: 15800 EUR, source: x, basis: typical}
- {name: e, amount: 12400 EUR, source: x, basis: typical}
- {name: f, amount: 9600 EUR, source: x, basis: typical}
- {name: g, amount: 28000 EUR, source: x, basis: typical}
- {name: h, amount: 19500 EUR, source: x, basis: typical}
)" + more});
  const auto shop = read_shop(files, own);
  INFO(problems_text(shop.problems()));
  REQUIRE(shop);
  return *shop;
}

}  // namespace

TEST_CASE("people's hours go to the machines that take them", "[estimate][books]") {
  // Invented, by hand: of 1,500 attended hours at 30, a lathe that takes a whole person for 1,000
  // hours gets 1,200 and one that takes a quarter for another 1,000 gets 300.
  Accounts books;
  books.people = {{"turners", 1, 30.0 * unit::money_per_h, 1500.0 * unit::h, 1, {}}};
  BookedMachine whole;
  whole.running_hours = 1000.0 * unit::h;
  whole.lathes = {"A"};
  BookedMachine quarter = whole;
  quarter.lathes = {"B"};
  books.machines = {whole, quarter};
  Machine a, b;
  a.name = "A";
  b.name = "B";
  b.operator_share = 0.25;
  const BookRates r = work_out_books(books, {a, b});
  CHECK(class_of(r, "A")->people == Approx(1.2));
  CHECK(class_of(r, "B")->people == Approx(0.3));
  CHECK(in(needed_rate(r, *class_of(r, "A")), unit::money_per_h) == Approx(36));
  CHECK(in(needed_rate(r, *class_of(r, "B")), unit::money_per_h) == Approx(9));
  // Hours at these rates return the books.
  CHECK(r.total.si == Approx(1000 * 36 + 1000 * 9));
}

TEST_CASE("the rates of the worked example give the books back to the cent", "[estimate][books]") {
  const BookRates r = work_out_books(shop_with_books().books, {});
  CHECK(in(r.attended, unit::h) == Approx(11731.2));
  CHECK(rounded(r.labour).text() == "464256.00");
  CHECK(in(r.labour_rate, unit::money_per_h) == Approx(39.5745).epsilon(1e-6));
  CHECK(rounded(r.machines[0].per_year).text() == "7081.33");
  CHECK(rounded(r.machines[1].per_year).text() == "28930.89");
  CHECK(rounded(r.machines[2].per_year).text() == "39785.78");
  CHECK(in(r.machines[0].per_hour, unit::money_per_h) == Approx(5.4472).epsilon(1e-5));
  CHECK(in(r.machines[1].per_hour, unit::money_per_h) == Approx(13.7766).epsilon(1e-5));
  CHECK(in(r.machines[2].per_hour, unit::money_per_h) == Approx(11.7017).epsilon(1e-5));
  CHECK(rounded(r.machine_cost).text() == "169672.00");
  CHECK(rounded(r.overhead).text() == "291800.00");
  CHECK(r.overhead_share == Approx(0.460305).epsilon(1e-6));
  CHECK(rounded(r.total).text() == "925728.00");
  CHECK(r.machines_per_person == Approx(1.2275).epsilon(1e-4));
  CHECK(in(r.all_in, unit::money_per_h) == Approx(64.2867).epsilon(1e-6));
  CHECK(rounded(recovery(r, 1).returned).text() == "925728.00");
  CHECK(rounded(recovery(r, 1).under_recovered).text() == "0.00");
  CHECK(rounded(recovery(r, 0.8).returned).text() == "740582.40");
  CHECK(rounded(recovery(r, 0.8).under_recovered).text() == "185145.60");
  CHECK(rounded(recovery(r, 1.2).under_recovered).text() == "-185145.60");
}

TEST_CASE("a cost that rises in the books raises the rates, and they still give it back",
          "[estimate][books][property]") {
  Draws draws(61);
  for (int i = 0; i < 300; ++i) {
    Accounts b = shop_with_books().books;
    const double before = work_out_books(b, {}).all_in.si;
    switch (draws.whole(0, 5)) {
      case 0:
        b.people[0].wage = b.people[0].wage * draws.real(1, 2);
        break;
      case 1:
        b.machines[1].price = b.machines[1].price * draws.real(1, 2);
        break;
      case 2:
        b.overheads[3].amount = b.overheads[3].amount * draws.real(1, 3);
        break;
      case 3:
        b.energy = b.energy * draws.real(1, 4);
        break;
      case 4:
        b.interest += draws.real(0, 0.1);
        break;
      default:
        b.on_cost += draws.real(0, 0.3);
    }
    const BookRates r = work_out_books(b, {});
    CHECK(r.all_in.si >= before * (1 - 1e-12));
    CHECK(recovery(r, 1).returned.si == Approx(r.total.si).epsilon(1e-12));
    if (i > 30) break;
  }
}

TEST_CASE("quoted rates are held against the books where every class has its lathe",
          "[estimate][books]") {
  Shop shop = shop_with_books();
  CHECK_FALSE(recovery_of_quoted(work_out_books(shop.books, shop.machines), shop, 1));
  shop.books.machines[0].lathes = {"geared lathe, medium"};
  shop.books.machines[1].lathes = {"CNC lathe, medium"};
  shop.books.machines[2].lathes = {"CNC lathe, bar fed"};
  const auto quoted = recovery_of_quoted(work_out_books(shop.books, shop.machines), shop, 1);
  REQUIRE(quoted);
  // 2600 h at 55, 8400 h at 75, 3400 h at 58 of the shipped classes.
  CHECK(rounded(quoted->returned).text() == "970200.00");
}
