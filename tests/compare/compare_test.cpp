// SPDX-License-Identifier: MIT
#include <cmath>

#include "../support.hpp"
#include "causes.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {
std::string drift() {
  return "part: {number: W}\nmaterial: C45\nstock: {round: 52, condition: drawn, fed from: "
         "blank}\nquantities: [1, "
         "20, 200]\ndrawing: {Ra: 3.2}\noutside:\n  - 50 x60\n  - 50 h9 x40\n";
}
}  // namespace

TEST_CASE("a method's numbers equal those of planning it alone", "[compare]") {
  const Job job = job_of(drift());
  const Comparison c = compare_methods(job, shipped_shop(), {"geared lathe, medium", {}});
  for (const MethodResult& w : c.methods) {
    REQUIRE(w.feasible());
    const auto route = plan_route(job, shipped_shop(), {"geared lathe, medium", w.method});
    REQUIRE(route);
    const Quote alone = make_quote(*route, shipped_shop());
    for (std::size_t i = 0; i < alone.prices.size(); ++i)
      CHECK(alone.prices[i].each == w.quote->prices[i].each);
  }
}

TEST_CASE("the lead equals a scan by hand, and the causes add up", "[compare]") {
  for (const char* machine : {"geared lathe, medium", "CNC lathe, medium"}) {
    const Comparison c = compare_methods(job_of(drift()), shipped_shop(), {machine, {}});
    int covered = 0;
    for (const LeadingRange& l : c.lead) {
      CHECK(l.from == covered + 1);
      covered = l.to;
      for (int q = l.from; q <= l.to; ++q) {
        const double a = lot_cost(*c.methods[0].quote, q).si,
                     b = lot_cost(*c.methods[1].quote, q).si;
        CHECK(l.method == (b < a ? 1u : 0u));
        CHECK((l.either.size() == 2) ==
              (std::abs(a - b) <= shipped_shop().policy.either_within * std::min(a, b)));
      }
    }
    CHECK(covered == c.scanned_to);
    for (const Difference& d : c.differences)
      check_causes(*c.quoted().quote, *c.methods[d.method].quote, d);
  }
}

TEST_CASE("a slow tool change makes two finish cuts win at every quantity", "[compare]") {
  Shop shop = shipped_shop();
  for (HandlingElement& e : shop.handling)
    if (e.name == name_of(HandlingId::change_tool)) e.manual = e.cnc = 60.0 * unit::s;
  const Comparison slow = compare_methods(job_of(drift(), shop), shop, {"CNC lathe, medium", {}});
  for (const LeadingRange& l : slow.lead) CHECK((l.method == 1u || l.to < 5));
  CHECK(slow.lead.back().method == 1u);
}

TEST_CASE("no tool change, no tool setting and a feed to match: roughing first wins from the start",
          "[compare]") {
  Shop shop = shipped_shop();
  for (HandlingElement& e : shop.handling)
    if (e.name == name_of(HandlingId::change_tool)) e.manual = e.cnc = Time(0.0);
  for (HandlingElement& e : shop.setup)
    if (e.name == name_of(SetupId::tool_not_mounted)) e.manual = e.cnc = Time(0.0);
  // The finisher may only feed lightly: each of its passes costs more cutting time.
  for (Tool& t : shop.tools) {
    if (t.kind == ToolKind::finish) t.largest_feed = 0.1 * unit::mm;
    t.price = Amount(0.0);
  }
  const Comparison c = compare_methods(job_of(drift(), shop), shop, {"CNC lathe, medium", {}});
  REQUIRE(c.methods[1].feasible());
  CHECK(c.lead.front().method == 0u);
  CHECK(c.break_even == 0);
}

TEST_CASE("what a tool change costs more stands under tool change, and nowhere else", "[compare]") {
  const char* const machine = "CNC lathe, medium";
  Shop slower = shipped_shop();
  const Time more = 10.0 * unit::s;
  for (HandlingElement& e : slower.handling)
    if (e.name == name_of(HandlingId::change_tool)) e.cnc = e.cnc + more;
  const Comparison before = compare_methods(job_of(drift()), shipped_shop(), {machine, {}}),
                   after = compare_methods(job_of(drift()), slower, {machine, {}});
  auto changes = [](const Quote& q) {
    int n = 0;
    for (const OperationTime& operation : q.times.operations)
      for (const StepTime& step : operation.steps) n += step.tool_change.si > 0 ? 1 : 0;
    return n;
  };
  REQUIRE(before.differences.size() == 3);
  REQUIRE(before.main == after.main);
  const Quote &a = *before.quoted().quote,
              &b = *before.methods[before.differences.front().method].quote;
  const int fewer = changes(b) - changes(a);
  CHECK(fewer != 0);
  for (std::size_t i = 0; i < 3; ++i) {
    const Difference &x = before.differences[i], &y = after.differences[i];
    const Amount each = fewer * more * a.lot.machine_rate;
    CHECK((y.tool_change - x.tool_change).si ==
          Approx((lot_lines(a, x.quantity).pieces * each).si).margin(1e-9));
    CHECK(y.cutting.si == Approx(x.cutting.si).margin(1e-9));
    CHECK(y.material.si == Approx(x.material.si).margin(1e-9));
  }
}
