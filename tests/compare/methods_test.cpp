// SPDX-License-Identifier: MIT
#include <cmath>

#include "../support.hpp"
#include "turnwright/compare/inputs.hpp"
#include "turnwright/compare/tuned.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

const char* const drift =
    "part: {number: W}\nmaterial: C45\nstock: {round: 52, condition: drawn}\nquantities: [1, 20, "
    "200]\ndrawing: {Ra: 3.2}\noutside:\n  - 50 x60\n  - 50 h9 x40\n";

}  // namespace

TEST_CASE("every way of the rates plans alone what it is compared with", "[compare]") {
  const Shop& shop = shipped_shop();
  const Job job = job_of(drift);
  Combining combining;
  const Comparison c = compare_all(job, shop, "", {}, true, combining);
  CHECK(combining.possible == combining.planned + combining.left_out);
  int feasible = 0;
  for (const MethodResult& w : c.methods) {
    if (!w.feasible()) {
      CHECK_FALSE(w.route.why_not.empty());
      continue;
    }
    ++feasible;
    std::vector<const Method*> records;
    for (std::size_t from = 0; from < w.name.size();) {
      const std::size_t to = std::min(w.name.find(" + ", from), w.name.size());
      records.push_back(method_named(shop, w.name.substr(from, to - from)));
      REQUIRE(records.back() != nullptr);
      from = to + 3;
    }
    const MethodInputs in = inputs_of(job.part, shop, records, "");
    const auto alone = prepare(in.part, in.shop);
    REQUIRE(alone);
    const Quote quote = make_quote(plan_route(*alone, in.shop, in.request), in.shop);
    for (const int q : {1, 7, 20, 200}) CHECK(lot_cost(quote, q).si == lot_cost(w.quote, q).si);
    // What is removed is the same part, whatever the way.
    CHECK(std::abs(w.route.audit.imbalance) < 1e-9);
  }
  CHECK(feasible >= 8);
  // The lead equals a scan of all of them.
  for (const LeadingRange& lead : c.lead)
    for (int q = lead.from; q <= std::min(lead.to, lead.from + 20); ++q)
      for (const MethodResult& w : c.methods)
        if (w.feasible())
          CHECK(lot_cost(c.methods[lead.method].quote, q).si <= lot_cost(w.quote, q).si);
  for (const Difference& d : c.reasons)
    CHECK(d.total.si ==
          Approx((d.setup + d.tool_change + d.cutting + d.other_time + d.edges + d.material).si)
              .margin(1e-9));
}

TEST_CASE("by every way a larger lot costs more in all and a rougher finish no more",
          "[compare][property]") {
  const Shop& shop = shipped_shop();
  Combining combining;
  const Job job = job_of(drift);
  const Comparison c = compare_all(job, shop, "", {}, false, combining);
  Part rougher = job.part;
  rougher.drawing.ra = 6.3 * unit::um;
  for (const MethodResult& w : c.methods) {
    if (!w.feasible()) continue;
    INFO(w.name);
    double before = 0;
    for (int q = 1; q <= 1000; q += q < 50 ? 1 : 7) {
      const double cost = lot_cost(w.quote, q).si;
      CHECK(cost >= before - 1e-9);
      before = cost;
    }
    for (const Part* easier : {&rougher}) {
      const MethodResult e = plan_method(*easier, shop, {method_named(shop, w.name)}, "");
      REQUIRE(e.feasible());
      for (const int q : {1, 20, 200})
        CHECK(lot_cost(e.quote, q).si <= lot_cost(w.quote, q).si + 1e-9);
    }
  }
}

TEST_CASE("a flip flips, and a little less does not", "[compare]") {
  const Shop& shop = shipped_shop();
  const Job job = job_of(drift);
  Combining combining;
  const Comparison c =
      compare_all(job, shop, "geared lathe, medium", {"two finish cuts"}, false, combining);
  REQUIRE(c.methods.size() == 2);
  const auto found = winner_changes(job.part, shop, "geared lathe, medium", c, 20);
  auto least = [&](const Shop& s, std::size_t method) {
    const Method* record = method_named(shop, c.methods[method].name);
    const MethodResult w = plan_method(job.part, s, {record}, "geared lathe, medium");
    return w.feasible() ? lot_cost(w.quote, 20).si : 1e300;
  };
  const std::size_t now = least(shop, 0) <= least(shop, 1) ? 0 : 1;
  CHECK_FALSE(found.empty());
  double before = 0;
  for (const WinnerChange& winner_change : found) {
    CHECK(std::abs(std::log(winner_change.factor)) >= before);
    before = std::abs(std::log(winner_change.factor));
    CHECK(winner_change.leader == c.methods[1 - now].name);
    for (const auto& input : changeable_inputs()) {
      if (input.name != winner_change.input) continue;
      Shop changed = shop;
      input.change(changed, winner_change.factor);
      CHECK(least(changed, 1 - now) < least(changed, now));
      Shop less = shop;
      input.change(less, std::exp(0.98 * std::log(winner_change.factor)));
      CHECK(least(less, 1 - now) >= least(less, now));
    }
  }
}

TEST_CASE("a price never falls when a cost rises by a tenth", "[compare][property]") {
  for (const Sensitivity& s : sensitivities(job_of(drift).part, shipped_shop(), "", 20)) {
    INFO(s.input);
    const bool saves = s.input == "cutting speeds" || s.input == "feeds" ||
                       s.input == "life of an edge" || s.input == "power of the machine" ||
                       s.input == "depth of the finishing tool";
    CHECK((saves ? s.higher <= s.lower : s.lower <= s.higher));
  }
}

TEST_CASE("tuned conditions keep every limit, cost no more, and say what is not proved",
          "[compare][tune]") {
  for (const char* machine : {"CNC lathe, medium", "geared lathe, medium"})
    for (const char* material : {"C45", "42CrMo4 +QT", "X5CrNi18-10", "EN AW-6082"}) {
      Part part = job_of(drift).part;
      if (shipped_shop().material(material) == nullptr) continue;
      part.material = material;
      const Tuned t = tune(part, shipped_shop(), machine, TuneRule::cost);
      INFO(machine << ", " << material);
      if (!t.feasible()) continue;
      for (const TunedStep& s : t.steps) CHECK(s.gap <= 1e-6);
      for (const Operation& operation : t.best.route.operations)
        for (const Step& step : operation.steps)
          for (const LimitCheck& limit : step.limits)
            if (limit.name == "power" || limit.name == "torque" || limit.name == "grip" ||
                limit.name == "roughness Ra" || limit.name == "tool feed")
              CHECK(limit.actual <= limit.allowed * (1 + 1e-6));
      const double before = lot_cost(t.handbook.quote, 20).si,
                   after = lot_cost(t.best.quote, 20).si;
      // A ladder of speeds or feeds rounds the optimum down.
      CHECK(after <= before * 1.01);
    }
}

TEST_CASE("each goal is best at what it is for", "[compare][tune]") {
  Part part = job_of(drift).part;
  part.stock.size = 64.0 * unit::mm;
  const Shop& shop = shipped_shop();
  const Tuned cost = tune(part, shop, "CNC lathe, medium", TuneRule::cost);
  const Tuned time = tune(part, shop, "CNC lathe, medium", TuneRule::time);
  const Tuned hour = tune(part, shop, "CNC lathe, medium", TuneRule::contribution);
  for (const Tuned* t : {&cost, &time, &hour}) {
    REQUIRE(t->feasible());
    CHECK(t->divisions == 4);
    CHECK(t->proved_to <= 1e-6);
  }
  auto lot = [](const Tuned& t) { return lot_cost(t.best.quote, t.quantity).si; };
  auto took = [](const Tuned& t) { return t.best.quote.times.machine_each.si; };
  CHECK(lot(cost) <= lot(time) * (1 + 1e-4));
  CHECK(took(time) <= took(cost) * (1 + 1e-4));
  CHECK(hour.hour.si >= cost.hour.si * (1 - 1e-3));
  CHECK(hour.hour.si >= hour.hour_before.si);
}

TEST_CASE("the map's fields are the cheapest ways there", "[compare]") {
  const Shop& shop = shipped_shop();
  const Job job = job_of(drift);
  Combining combining;
  const Comparison c =
      compare_all(job, shop, "", {"two finish cuts", "manual lathe"}, false, combining);
  const auto map = method_map(job.part, shop, "", c, 6, 8);
  REQUIRE(map);
  REQUIRE(map->method.size() == 6);
  for (std::size_t r = 0; r < 6; ++r) {
    Part part = job.part;
    part.stock.form = StockForm::round;
    part.stock.size = 50.0 * unit::mm + 2.0 * map->stock[r];
    for (std::size_t k = 0; k < map->quantities.size(); ++k) {
      double least = 1e300;
      int best = -1;
      for (std::size_t i = 0; i < c.methods.size(); ++i) {
        const MethodResult w = plan_method(part, shop, {method_named(shop, c.methods[i].name)}, "");
        if (!w.feasible()) continue;
        const double cost = lot_cost(w.quote, map->quantities[k]).si;
        if (cost < least) least = cost, best = static_cast<int>(i);
      }
      CHECK(map->method[r][k] == best);
    }
  }
}

TEST_CASE("rows of the rates that matter most, over several parts", "[compare]") {
  Part other = job_of(drift).part;
  other.number = "V";
  other.quantities = {500};
  const ShopEffects e = shop_effects({job_of(drift).part, other}, shipped_shop(), "");
  REQUIRE_FALSE(e.rows.empty());
  for (std::size_t i = 1; i < e.rows.size(); ++i)
    CHECK(std::abs(e.rows[i].change.si) <= std::abs(e.rows[i - 1].change.si));
  CHECK(e.rows.front().change.si < 0);  // faster is cheaper
  CHECK(e.rows.front().parts == 2);
  CHECK(e.largest.size() == 2);
}
