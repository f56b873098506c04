// SPDX-License-Identifier: MIT
// Whether a band whose widths come from booked times holds what it says: months of an invented
// shop, drawn log-normal and correlated, which the band does not know.
#include <cmath>

#include "../support.hpp"
#include "turnwright/estimate/band.hpp"
#include "turnwright/week/actuals.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

// Invented for the test: deviations of logarithms. What a month is off by, and an order, are the
// same for its setup and its running.
constexpr double level = 0.10, of_month = 0.05, of_order = 0.08, of_running = 0.07, of_setup = 0.16;
constexpr int months = 1000, earlier_months = 6, orders_a_month = 4;
constexpr double setup_minutes = 60, piece_minutes = 10;
constexpr int pieces = 20;

struct Off {
  double setup = 1, running = 1;  // by which the times are longer
};

// A shop that has its own level, and its months.
class InventedShop {
 public:
  explicit InventedShop(Draws& draws)
      : draws_(draws), setup_(level * normal()), running_(level * normal()) {}

  Off order(double month) {
    const double shared = month + of_order * normal();
    return {std::exp(setup_ + shared + of_setup * normal()),
            std::exp(running_ + shared + of_running * normal())};
  }
  double month() { return of_month * normal(); }

 private:
  double normal() {
    return std::sqrt(-2 * std::log(draws_.real(1e-12, 1))) * std::cos(2 * pi * draws_.real(0, 1));
  }
  Draws& draws_;
  double setup_, running_;
};

Booking booking(const std::string& order, BookedKind kind, double minutes) {
  Booking b;
  b.order = order;
  b.machine = "A";
  b.operation = 10;
  b.kind = kind;
  b.to = static_cast<Minute>(std::lround(minutes));
  b.good = kind == BookedKind::run ? pieces : 0;
  return b;
}

// The months before this one, as they were booked.
std::vector<Factor> booked(InventedShop& shop, const std::string& machine) {
  Bookings bookings;
  std::vector<Estimated> estimates;
  for (int m = 0; m < earlier_months; ++m) {
    const double month = shop.month();
    for (int i = 0; i < orders_a_month; ++i) {
      const std::string order = std::to_string(estimates.size());
      const Off off = shop.order(month);
      bookings.rows.push_back(booking(order, BookedKind::setup, setup_minutes * off.setup));
      bookings.rows.push_back(
          booking(order, BookedKind::run, pieces * piece_minutes * off.running));
      estimates.push_back({order, "A", machine, 10, setup_minutes, piece_minutes});
    }
  }
  return factors_of(bookings, estimates);
}

Correction correction(const std::string& machine, bool setup, double factor) {
  Correction c;
  c.machine = machine;
  c.setup = setup;
  c.factor = factor;
  return c;
}

// Nothing but times is off in these months.
Shop shop_of_times() {
  Shop shop = shipped_shop();
  shop.policy.common_error_of_prices = 0;
  shop.policy.scrap_share = 0;
  for (auto& [basis, share] : shop.policy.bands) share = 0;
  for (Material& material : shop.materials) material.source.band = 0;
  return shop;
}

struct Held {
  int held = 0, below = 0, above = 0;
};
// `narrowed`: a share of the booked spread, to see that the count notices.
Held months_held(double narrowed) {
  Held count;
  Draws draws(20261128);
  Shop shop = shop_of_times();
  const Route route = route_of(shaft(), "", MethodKind::rough_then_finish, shop);
  const int quantity = main_quantity(route.job.part);
  for (int month = 0; month < months; ++month) {
    InventedShop invented(draws);
    shop.corrections.clear();
    for (const Factor& f : booked(invented, route.machine.name)) {
      shop.corrections.push_back(correction(f.machine, f.setup, f.proposed));
      shop.corrections.back().spread = std::exp(narrowed * std::log(further_spread(f)));
      shop.corrections.back().with_running = f.with_running;
    }
    const Quote quote = make_quote(route, shop);
    const Price planned = price_at(quote, shop, quantity);
    const CostSpread band = spread_of(band_rows(quote, shop, quantity, planned.each.amount()),
                                      planned.cost.amount(), planned.income().amount());
    const Off off = invented.order(invented.month());
    shop.corrections = {correction(route.machine.name, true, off.setup),
                        correction(route.machine.name, false, off.running)};
    const Amount came = lot_cost(make_quote(route, shop), quantity);
    count.below += came < band.p10 ? 1 : 0;
    count.above += came > band.p90 ? 1 : 0;
  }
  count.held = months - count.below - count.above;
  return count;
}

}  // namespace

TEST_CASE(
    "of a thousand months that another generator draws, the band from booked times holds eighty "
    "in a hundred",
    "[week][band][property]") {
  const Held as_booked = months_held(1);
  INFO(as_booked.held << " of 1000 months within P10 to P90, " << as_booked.below << " below, "
                      << as_booked.above << " above");
  CHECK(as_booked.held >= 750);
  CHECK(as_booked.held <= 850);
  // A band of half that spread would be found out, and one of twice it too.
  CHECK(months_held(0.5).held < 650);
  CHECK(months_held(2).held > 950);
}

TEST_CASE("few bookings say nothing of a spread, many of them go into the corrections",
          "[week][band]") {
  auto factor = [](std::size_t orders) {
    Factor f;
    f.machine = "A";
    f.spread = 1.2;
    f.orders.resize(orders, {"7", 10, 66, 60, false});
    return f;
  };
  CHECK(further_spread(factor(least_orders - 1)) == 1);
  // Worked by hand: ln 1.2 x sqrt(1 + 1/(16 + 4)).
  CHECK(std::log(further_spread(factor(16))) == Approx(0.18232 * 1.024695).epsilon(1e-4));
  const std::string file = corrections_file({factor(16)}, read_date("2026-11-20"), english);
  CHECK(file.find("spread: 1.205") != std::string::npos);
}
