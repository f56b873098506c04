// SPDX-License-Identifier: MIT
#include <cmath>
#include <set>

#include "../one_method.hpp"
#include "../support.hpp"
#include "causes.hpp"
#include "turnwright/compare/inputs.hpp"
#include "turnwright/compare/tuned.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

const char* const drift =
    "part: {number: W}\nmaterial: C45\nstock: {round: 52, condition: drawn, fed from: "
    "blank}\nquantities: [1, 20, 200]\ndrawing: {Ra: 3.2}\noutside:\n  - 50 x60\n  - 50 h9 x40\n";

Method record(const Shop& shop, const std::string& name) {
  const Method* method = method_named(shop, name);
  INFO(name);
  REQUIRE(method != nullptr);
  return *method;
}

}  // namespace

TEST_CASE("every method of the rates plans alone what it is compared with", "[compare]") {
  const Shop& shop = shipped_shop();
  const Job job = job_of(drift);
  Combining combining;
  const Comparison c = compare_all(job, shop, {}, {}, true, combining);
  CHECK(combining.possible == combining.planned + combining.left_out);
  int feasible = 0;
  for (const MethodResult& w : c.methods) {
    if (!w.feasible()) {
      CHECK_FALSE(w.quote.infeasible().why.empty());
      continue;
    }
    ++feasible;
    const auto in = inputs_of(job.part, shop, w.records, w.machine);
    REQUIRE(in);
    const auto alone = prepare(in->part, in->shop);
    REQUIRE(alone);
    const auto route = plan_route(*alone, in->shop, in->request);
    REQUIRE(route);
    const Quote quote = make_quote(*route, in->shop);
    for (const int q : {1, 7, 20, 200}) CHECK(lot_cost(quote, q).si == lot_cost(*w.quote, q).si);
    // What is removed is the same part, whatever the method.
    CHECK(std::abs(w.route().audit.imbalance) < 1e-9);
  }
  CHECK(feasible >= 8);
  // The lead equals a scan of all that may lead.
  for (const LeadingRange& lead : c.lead)
    for (int q = lead.from; q <= std::min(lead.to, lead.from + 20); ++q)
      for (const MethodResult& w : c.methods)
        if (may_lead(c, w, q))
          CHECK(lot_cost(*c.methods[lead.method].quote, q).si <= lot_cost(*w.quote, q).si);
  for (const Difference& d : c.reasons)
    check_causes(*c.quoted().quote, *c.methods[d.method].quote, d);
}

TEST_CASE("records put together are shown where they are the cheapest at some quantity",
          "[compare]") {
  const Shop& shop = shipped_shop();
  const Job job = job_of(drift);
  Combining alone, together;
  const Comparison single = compare_all(job, shop, {}, {}, false, alone);
  const Comparison c = compare_all(job, shop, {}, {}, true, together);
  CHECK(together.possible > 0);
  for (std::size_t i = single.methods.size(); i < c.methods.size(); ++i) {
    const MethodResult& both = c.methods[i];
    INFO(both.name);
    bool leads = false;
    for (int q = 1; q <= 400 && !leads; ++q) {
      leads = true;
      for (const MethodResult& other : c.methods)
        if (other.feasible() && lot_cost(*other.quote, q).si < lot_cost(*both.quote, q).si)
          leads = false;
    }
    CHECK(leads);
  }
}

TEST_CASE("bar through the spindle is not held between centres", "[compare]") {
  const Shop& shop = shipped_shop();
  Job bar = job_of(drift);
  bar.part.stock.from_bar = true;
  const MethodResult method = plan_method(bar.part, shop, {record(shop, "between centres")}, "");
  REQUIRE(!method.feasible());
  CHECK(method.quote.infeasible().why.id == "plan.bar-between-centres");
}

TEST_CASE("ground tools are ground again in minutes, not only for money", "[compare]") {
  const Shop& shop = shipped_shop();
  const Part part = job_of(drift).part;
  Method ground = record(shop, "high-speed steel");
  const MethodResult slow = plan_method(part, shop, {ground}, "");
  ground.edge_change = Time(0.0);
  const MethodResult fast = plan_method(part, shop, {ground}, "");
  REQUIRE((slow.feasible() && fast.feasible()));
  CHECK(slow.quote->times.machine_each > fast.quote->times.machine_each);
  CHECK(lot_cost(*slow.quote, 200).si > lot_cost(*fast.quote, 200).si);
}

TEST_CASE("no part is tuned for the worse by the rule it is tuned by", "[compare][property]") {
  const Shop& shop = shipped_shop();
  int kept = 0;
  // A lathe with steps of speed and feed is often as well off by the handbook.
  for (const char* outside : {"[30 x40, 36 x20]", "[18 x12]", "[44 h9 x90, 48 x10]"})
    for (const char* machine : {"geared lathe, medium", "geared lathe, heavy", "CNC lathe, medium"})
      for (const TuneRule rule : {TuneRule::cost, TuneRule::time, TuneRule::contribution}) {
        const Part part = part_of(std::string("part: {number: T}\nmaterial: C45\nstock: auto\n"
                                              "quantities: [5]\ndrawing: {Ra: 3.2}\noutside: ") +
                                  outside + "\n");
        const Tuned t = tune_on(part, shop, machine, rule);
        INFO(outside << " on " << machine << ", " << name_of(rule));
        REQUIRE(t.feasible());
        const Quote &before = *t.handbook.quote, &after = *t.best.quote;
        if (rule == TuneRule::cost)
          CHECK(lot_cost(after, 5).si <= lot_cost(before, 5).si);
        else if (rule == TuneRule::time)
          CHECK(after.times.machine_each <= before.times.machine_each);
        else
          CHECK(t.hour >= t.hour_before);
        kept += t.keeps_handbook ? 1 : 0;
      }
  CHECK(kept > 0);
}

TEST_CASE("by every method a larger lot costs more in all and a rougher finish no more",
          "[compare][property]") {
  const Shop& shop = shipped_shop();
  Combining combining;
  const Job job = job_of(drift);
  const Comparison c = compare_all(job, shop, {}, {}, false, combining);
  Part rougher = job.part;
  rougher.drawing.ra = 6.3 * unit::um;
  for (const MethodResult& w : c.methods) {
    if (!w.feasible()) continue;
    INFO(w.name);
    double before = 0;
    for (int q = 1; q <= 1000; q += q < 50 ? 1 : 7) {
      const double cost = lot_cost(*w.quote, q).si;
      CHECK(cost >= before - 1e-9);
      before = cost;
    }
    for (const Part* easier : {&rougher}) {
      const MethodResult e = plan_method(*easier, shop, w.records, w.machine);
      REQUIRE(e.feasible());
      for (const int q : {1, 20, 200})
        CHECK(lot_cost(*e.quote, q).si <= lot_cost(*w.quote, q).si + 1e-9);
    }
  }
}

TEST_CASE("a change of the winner changes it, and a little less does not", "[compare]") {
  const Shop& shop = shipped_shop();
  const Job job = job_of(drift);
  Combining combining;
  const Comparison c =
      compare_all(job, shop, {"geared lathe, medium", {}}, {"two finish cuts"}, false, combining);
  REQUIRE(c.methods.size() == 2);
  const auto found = winner_changes(job.part, shop, c, 20);
  auto least = [&](const Shop& s, std::size_t method) {
    const MethodResult w =
        plan_method(job.part, s, {record(shop, c.methods[method].name)}, "geared lathe, medium");
    return w.feasible() ? lot_cost(*w.quote, 20).si : 1e300;
  };
  const std::size_t now = least(shop, 0) <= least(shop, 1) ? 0 : 1;
  CHECK_FALSE(found.empty());
  double before = 0;
  for (const WinnerChange& winner_change : found) {
    CHECK(std::abs(std::log(winner_change.factor)) >= before);
    before = std::abs(std::log(winner_change.factor));
    CHECK(winner_change.leader == c.methods[1 - now].name);
    for (const auto& input : changeable_inputs()) {
      if (input.input != winner_change.input) continue;
      Shop changed = shop;
      input.change(changed, winner_change.factor);
      CHECK(least(changed, 1 - now) < least(changed, now));
      Shop less = shop;
      input.change(less, std::exp(0.98 * std::log(winner_change.factor)));
      CHECK(least(less, 1 - now) >= least(less, now));
    }
  }
}

TEST_CASE("the winner that changes is the one that is quoted", "[compare]") {
  const Shop& shop = shipped_shop();
  const Job job = job_of(drift);
  Combining combining;
  const Comparison c = compare_all(job, shop, {}, {}, false, combining);
  const auto is_practised = [&](const std::string& name) {
    return std::any_of(c.methods.begin(), c.methods.end(),
                       [&](const MethodResult& m) { return m.name == name && m.practised; });
  };
  for (const WinnerChange& change : winner_changes(job.part, shop, c, c.quantity)) {
    CHECK(change.leader != c.quoted().name);
    CHECK(is_practised(change.leader));
  }
  for (const LeadingRange& range : c.lead) CHECK(c.methods[range.method].practised);
  const auto map = method_map(job.part, shop, c, 4, 6);
  REQUIRE(map);
  for (const auto& row : map->method)
    for (const int method : row)
      CHECK((method < 0 || is_practised(map->names[static_cast<std::size_t>(method)])));
}

TEST_CASE("a price never falls when a cost rises by a tenth", "[compare][property]") {
  const Part part = job_of(drift).part;
  const MethodResult method =
      plan_method(part, shipped_shop(), {record(shipped_shop(), "rough then finish")}, "");
  for (const Sensitivity& s : sensitivities(part, shipped_shop(), method, 20)) {
    INFO(name_of(s.input));
    const bool saves = s.input == InputId::cutting_speeds || s.input == InputId::feeds ||
                       s.input == InputId::insert_life || s.input == InputId::machine_power ||
                       s.input == InputId::finishing_depth;
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
      const Tuned t = tune_on(part, shipped_shop(), machine, TuneRule::cost);
      INFO(machine << ", " << material);
      if (!t.feasible()) continue;
      for (const TunedStep& s : t.steps) CHECK(s.gap <= 1e-6);
      for (const Operation& operation : t.best.route().operations)
        for (const Step& step : operation.steps)
          for (const LimitCheck& limit : step.limits)
            if (limit.limit == LimitId::power || limit.limit == LimitId::torque ||
                limit.limit == LimitId::grip || limit.limit == LimitId::roughness ||
                limit.limit == LimitId::tool_feed)
              CHECK(limit.actual <= limit.allowed * (1 + 1e-6));
      const double before = lot_cost(*t.handbook.quote, 20).si,
                   after = lot_cost(*t.best.quote, 20).si;
      CHECK(after <= before);
    }
}

TEST_CASE("each rule is best at what it is for", "[compare][tune]") {
  Part part = job_of(drift).part;
  part.stock.size = 64.0 * unit::mm;
  const Shop& shop = shipped_shop();
  const Tuned cost = tune_on(part, shop, "CNC lathe, medium", TuneRule::cost);
  const Tuned time = tune_on(part, shop, "CNC lathe, medium", TuneRule::time);
  const Tuned hour = tune_on(part, shop, "CNC lathe, medium", TuneRule::contribution);
  for (const Tuned* t : {&cost, &time, &hour}) {
    REQUIRE(t->feasible());
    CHECK(t->divisions == 4);
    CHECK(t->proved_to <= 1e-6);
  }
  auto lot = [](const Tuned& t) { return lot_cost(*t.best.quote, t.quantity).si; };
  auto took = [](const Tuned& t) { return t.best.quote->times.machine_each.si; };
  CHECK(lot(cost) <= lot(time) * (1 + 1e-4));
  CHECK(took(time) <= took(cost) * (1 + 1e-4));
  CHECK(hour.hour.si >= cost.hour.si * (1 - 1e-3));
  CHECK(hour.hour.si >= hour.hour_before.si);
  // A lot that pays whole edges: no rule finds one that costs less.
  CHECK(lot(cost) <= lot(hour) * (1 + 1e-9));
  CHECK(lot(cost) <= lot(time) * (1 + 1e-9));
  CHECK(cost.best.plans > hour.best.plans);
}

TEST_CASE("tuned conditions are found again with the worth of an hour that they were taken by",
          "[compare][tune]") {
  const Tuned hour =
      tune_on(job_of(drift).part, shipped_shop(), "CNC lathe, medium", TuneRule::contribution);
  REQUIRE(hour.feasible());
  CHECK(hour.best.hour_worth.si > 0);
  const MethodResult again =
      MethodPlanner(job_of(drift).part, shipped_shop(), hour.quantity).plan_again(hour.best);
  REQUIRE(again.feasible());
  CHECK(again.quote->times.machine_each == hour.best.quote->times.machine_each);
}

TEST_CASE("the map's fields are the cheapest methods there", "[compare]") {
  const Shop& shop = shipped_shop();
  const Job job = job_of(drift);
  Combining combining;
  const Comparison c =
      compare_all(job, shop, {}, {"two finish cuts", "manual lathe"}, false, combining);
  const auto map = method_map(job.part, shop, c, 6, 8);
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
        const MethodResult w = plan_method(part, shop, c.methods[i].records, c.methods[i].machine);
        if (!w.feasible() || !c.methods[i].practised) continue;
        const double cost = lot_cost(*w.quote, map->quantities[k]).si;
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

TEST_CASE("every input has its own change", "[compare]") {
  const auto& inputs = changeable_inputs();
  REQUIRE(inputs.size() == static_cast<std::size_t>(InputId::outside_prices) + 1);
  for (std::size_t i = 0; i < inputs.size(); ++i) CHECK(inputs[i].input == static_cast<InputId>(i));
  const Shop& now = shipped_shop();
  Shop slower = now;
  inputs[static_cast<std::size_t>(InputId::tool_change)].change(slower, 2);
  CHECK(slower.element(HandlingId::change_tool).cnc.si ==
        2 * now.element(HandlingId::change_tool).cnc.si);
  CHECK(slower.element(HandlingId::door).cnc == now.element(HandlingId::door).cnc);
  Shop handling = now;
  inputs[static_cast<std::size_t>(InputId::handling)].change(handling, 2);
  CHECK(handling.element(HandlingId::change_tool).cnc == now.element(HandlingId::change_tool).cnc);
  CHECK(handling.element(HandlingId::door).cnc.si == 2 * now.element(HandlingId::door).cnc.si);
}

TEST_CASE("a result outlives the shop and the records that it was planned with", "[compare]") {
  const Part part = job_of(drift).part;
  const MethodResult result = [&] {
    const Shop shop = shipped_shop();
    return plan_method(part, shop, {record(shop, "two finish cuts")}, "CNC lathe, medium");
  }();
  REQUIRE(result.records.size() == 1);
  CHECK(result.records.front().name == "two finish cuts");
  const Tuned t = tune_on(part, shipped_shop(), "CNC lathe, medium", TuneRule::cost);
  REQUIRE(t.feasible());
  REQUIRE(t.best.records.size() == 1);
  CHECK(t.best.records.front().name == t.best.name);
  // Planned again from its own records it is what it was.
  Shop again = shipped_shop();
  for (Tool& tool : again.tools)
    if (tool.kind == ToolKind::rough)
      tool.largest_depth = max(tool.least_depth, t.roughing_depth * tool.largest_depth);
  CHECK(lot_cost(*plan_method(part, again, t.best.records, "CNC lathe, medium").quote, 20).si ==
        lot_cost(*t.best.quote, 20).si);
}

TEST_CASE("why a method does not go with the part or the shop", "[compare]") {
  Shop shop = shipped_shop();
  const Part part = job_of(drift).part;
  Method method;
  method.name = "ours";
  auto refusal = [&](const Shop& s) {
    const MethodResult result = plan_method(part, s, {method}, "");
    REQUIRE_FALSE(result.feasible());
    return result.quote.infeasible();
  };
  method.tools = "none such";
  CHECK(english(refusal(shop).why) == "the cutting table has no speeds of none such for C45");
  method.tools = "";
  method.groups = {"K", "N"};
  CHECK(english(refusal(shop).why) == "C45 is ISO P, and this method is for K and N");
  method.groups = {};
  method.condition = "forged by hand";
  CHECK(refusal(shop).why == Message{"compare.no-condition", {{"condition", method.condition}}});
  method.condition = "";
  method.machine = "manual";
  std::erase_if(shop.machines, [](const Machine& m) { return m.manual(); });
  CHECK(refusal(shop).why == Message("compare.no-manual-lathe"));
  CHECK(refusal(shop).remedies == Messages{"compare.add-lathe"});
}

TEST_CASE("bar with a skin is no method for a surface that stays as the bar comes", "[compare]") {
  const Shop& shop = shipped_shop();
  const Part part = part_of(
      "part: {number: A}\nmaterial: C45\nquantities: [10]\noutside: [\"15 h8 x25\", \"20 "
      "as drawn x60\"]\n");
  const MethodResult black = plan_method(part, shop, {record(shop, "black bar turned")}, "");
  REQUIRE_FALSE(black.feasible());
  CHECK(english(black.quote.infeasible().why).find("skin") != std::string::npos);
}

TEST_CASE("a small lot pays the edges of a tool once, whatever steps it takes", "[compare]") {
  const Shop& shop = shipped_shop();
  const MethodResult method =
      plan_method(part_of(shaft()), shop, {record(shop, "rough then finish")}, "CNC lathe, medium");
  REQUIRE(method.feasible());
  const Quote& quote = *method.quote;
  std::set<std::string> tools;
  std::size_t steps = 0;
  for (std::size_t i = 0; i < quote.route.operations.size(); ++i)
    for (std::size_t k = 0; k < quote.route.operations[i].steps.size(); ++k)
      if (quote.times.operations[i].steps[k].edge_share > 0) {
        tools.insert(quote.route.operations[i].steps[k].tool);
        ++steps;
      }
  CHECK(quote.lot.edges.size() == tools.size());
  CHECK(tools.size() < steps);
  Amount once(0.0);
  for (const auto& edge : quote.lot.edges) once += edge.price;
  CHECK(lot_lines(quote, 1).inserts.si == Approx(once.si));
}
