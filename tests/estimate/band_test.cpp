// SPDX-License-Identifier: MIT
#include "turnwright/estimate/band.hpp"
#include "../support.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {
std::vector<BandRow> rows(std::initializer_list<std::pair<double, double>> list) {
  std::vector<BandRow> all;
  for (const auto& [amount, band] : list)
    all.push_back({BandRowId::inserts, Amount(amount), band, Basis::typical});
  return all;
}
}  // namespace

TEST_CASE("one triangle alone has its own percentiles", "[estimate][band]") {
  // A triangle from 80 over 100 to 120: a tenth lies below 100 - 20 (1 - sqrt(0.2)).
  const CostSpread s = spread_of(rows({{100, 0.2}}), Amount(100.0), Amount(110.0));
  const double tail = 20 * (1 - std::sqrt(0.2));
  CHECK(s.p10.si == Approx(100 - tail).margin(0.02));
  CHECK(s.p50.si == Approx(100).margin(0.02));
  CHECK(s.p90.si == Approx(100 + tail).margin(0.02));
  CHECK(s.expected.si == Approx(100).margin(0.01));
  // Above 110: half of a quarter of the triangle.
  CHECK(s.loss_chance == Approx(0.125).margin(0.002));
}

TEST_CASE("no band, no width; a wider row never narrows it; the same numbers twice",
          "[estimate][band][property]") {
  const CostSpread none = spread_of(rows({{60, 0}, {40, 0}}), Amount(100.0), Amount(100.0));
  CHECK(none.p10.si == Approx(100));
  CHECK(none.p90.si == Approx(100));
  CHECK(none.loss_chance == 0);
  Draws draws(12);
  for (int i = 0; i < 40; ++i) {
    auto list = rows({{draws.real(1, 50), draws.real(0, 0.3)},
                      {draws.real(1, 50), draws.real(0, 0.3)},
                      {draws.real(1, 50), draws.real(0, 0.3)}});
    const CostSpread narrow = spread_of(list, Amount(100.0), Amount(120.0));
    const CostSpread again = spread_of(list, Amount(100.0), Amount(120.0));
    CHECK(narrow.p10 == again.p10);
    CHECK(narrow.p90 == again.p90);
    list[static_cast<std::size_t>(draws.whole(0, 2))].band += 0.1;
    const CostSpread wide = spread_of(list, Amount(100.0), Amount(120.0));
    CHECK((wide.p90 - wide.p10).si >= (narrow.p90 - narrow.p10).si - 1e-6);
  }
}

TEST_CASE("the rows of a lot add up to its cost, and the widest are named", "[estimate][band]") {
  const Quote q = with_band(make_quote(route_of(shaft()), shipped_shop()), shipped_shop());
  for (const Price& p : q.prices) {
    double sum = 0;
    for (const BandRow& row : band_rows(q, shipped_shop(), p.quantity, p.each.amount()))
      sum += row.amount.si;
    CHECK(sum == Approx(lot_cost(q, p.quantity).si).epsilon(1e-9));
    REQUIRE(p.causes.size() == 3);
    CHECK(p.causes[0].high_each >= p.causes[1].high_each);
    CHECK(p.p10_each <= p.p50_each);
    CHECK(p.p50_each <= p.p90_each);
    CHECK(p.low_each <= p.each);
  }
  // A margin of 15 % covers a good deal; none covers half.
  CHECK(q.prices[1].loss_chance < 0.2);
  Shop bare = shipped_shop();
  bare.policy.margin = 0;
  bare.policy.minimum_order = Money();
  const Quote at_cost =
      with_band(make_quote(route_of(shaft(), "", MethodKind::rough_then_finish, bare), bare), bare);
  // Work errs upwards: at cost, more than half of the lots lose.
  CHECK(at_cost.prices[1].loss_chance > 0.5);
}
