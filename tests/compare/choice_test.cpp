// SPDX-License-Identifier: MIT
// What a part is quoted by, against working every practised method out by hand, and where the
// choice is held.
#include <algorithm>
#include <cmath>

#include "../support.hpp"
#include "causes.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/route/joints.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

// Made up: pins of five sizes, long and short, from stock that leaves more or less open.
std::vector<std::string> forty_parts() {
  std::vector<std::string> parts;
  for (const int diameter : {18, 24, 30, 38, 46})
    for (const int length : {16, 40})
      for (const int kind : {0, 1, 2, 3}) {
        const int stock = diameter + 3 + (kind == 1 ? 2 : 0);
        const std::string size = "{round: " + std::to_string(stock) + ", condition: ";
        const std::string given = kind == 0   ? "auto"
                                  : kind == 1 ? size + "hot rolled}"
                                  : kind == 2 ? size + "drawn, fed from: bar}"
                                              : size + "drawn}";
        parts.push_back(
            "part: {number: P}\nmaterial: " + std::string(kind == 3 ? "CuZn39Pb3" : "C45") +
            "\nstock: " + given + "\nquantities: [1, 40, 300]\ndrawing: {Ra: 3.2}\noutside:\n  - " +
            std::to_string(diameter - 4) + " x" + std::to_string(length / 2) + "\n  - " +
            std::to_string(diameter) + " h9 x" + std::to_string(length - length / 2) + "\n");
      }
  return parts;
}

struct ByHand {
  std::string machine;
  Quote quote;
  bool may_lead = true;
};

bool may_lead(const Quote& quote, const Shop& shop) {
  const Job& job = quote.route.job;
  if (!job.stock.cleans_up) return false;
  const Machine& machine = quote.route.machine;
  if (job.stock.from_bar && !machine.bar_fed && machine.kind == MachineKind::cnc &&
      !job.part.stock.feed_said)
    return false;
  for (const OperationTime& operation : quote.times.operations)
    for (const StepTime& step : operation.steps)
      if (step.edge_share > 0 && step.life < shop.policy.shortest_edge_life) return false;
  return true;
}

// Every machine, sawn and bar where the file does not say, both rules of the plan, one operation
// and two: planned one by one, without what the comparison shares or leaves out.
std::vector<ByHand> by_hand(const Part& part, const Shop& shop) {
  std::vector<ByHand> all;
  for (const bool bar : {false, true}) {
    if (part.stock.feed_said && bar != part.stock.from_bar) continue;
    Part fed = part;
    fed.stock.from_bar = bar;
    const auto job = prepare(fed, shop);
    if (!job) continue;
    for (const Machine& machine : shop.machines)
      for (const MethodKind kind : {MethodKind::rough_then_finish, MethodKind::two_finish_cuts})
        for (const bool two : {false, true}) {
          if (bar && two) continue;  // of bar work the planner itself takes two where needed
          const auto route = plan_route(*job, shop, {machine.name, kind, two});
          if (!route) continue;
          Quote quote = make_quote(*route, shop);
          const bool leads = may_lead(quote, shop);
          all.push_back({machine.name, std::move(quote), leads});
        }
  }
  const bool any = std::any_of(all.begin(), all.end(), [](const ByHand& m) { return m.may_lead; });
  if (any) std::erase_if(all, [](const ByHand& m) { return !m.may_lead; });
  return all;
}

const ByHand& cheapest(const std::vector<ByHand>& all, int quantity) {
  return *std::min_element(all.begin(), all.end(), [&](const ByHand& a, const ByHand& b) {
    return lot_cost(a.quote, quantity) < lot_cost(b.quote, quantity);
  });
}

// A method whose lot costs `fixed`, and `each` for a piece.
MethodResult priced_at(double fixed, double each) {
  MethodResult method;
  method.practised = true;
  Quote quote;
  quote.lot.setup_machine = fixed * unit::h;
  quote.lot.machine_rate = 1.0 * unit::money_per_h;
  quote.lot.material_each = Amount(each);
  quote.lot.scrap_from = 1e9;
  method.quote = quote;
  return method;
}

Comparison of(std::vector<MethodResult> methods) {
  Comparison c;
  c.methods = std::move(methods);
  c.either_within = 0.02;
  return c;
}

}  // namespace

TEST_CASE("a part is quoted by what working out every practised method by hand finds",
          "[compare][choice]") {
  const Shop& shop = shipped_shop();
  int changes = 0;
  for (const std::string& text : forty_parts()) {
    INFO(text);
    const Job job = job_of(text, shop);
    const auto part = quote_part(job, shop, {});
    REQUIRE(part);
    const std::vector<ByHand> all = by_hand(job.part, shop);
    REQUIRE_FALSE(all.empty());
    std::size_t last = part->methods.chosen.front().method;
    for (int q = 1; q <= 300; ++q) {
      const auto chosen = choose(part->methods, q);
      REQUIRE(chosen);
      const double least = lot_cost(cheapest(all, q).quote, q).si;
      const MethodResult& method = part->methods.methods[chosen->method];
      CHECK(lot_cost(*method.quote, q).si == Approx(least).epsilon(1e-12));
      changes += chosen->method != last ? 1 : 0;
      last = chosen->method;
    }
    for (const Price& price : part->quote.prices) {
      const auto chosen = choose(part->methods, price.quantity);
      CHECK(price.method_index == chosen->method);
      CHECK(price.made_on == part->methods.methods[chosen->method].route().machine.name);
      CHECK(price.method == part->methods.methods[chosen->method].recipe);
    }
    // The comparison is of the same methods, and says the same.
    Combining combining;
    const Comparison c = compare_all(job, shop, {}, {}, false, combining);
    REQUIRE(c.chosen.size() == part->methods.chosen.size());
    for (std::size_t i = 0; i < c.chosen.size(); ++i)
      CHECK(c.methods[c.chosen[i].method].name ==
            part->methods.methods[part->methods.chosen[i].method].name);
  }
  CHECK(changes >= 20);
}

TEST_CASE("the leads of all quantities equal working out each of them", "[compare][choice]") {
  const Shop& shop = shipped_shop();
  const std::vector<std::string> parts = forty_parts();
  for (std::size_t i = 0; i < parts.size(); i += 7) {
    const Comparison c = compare_methods(job_of(parts[i], shop), shop, {});
    int covered = 0;
    for (const LeadingRange& lead : c.lead) {
      CHECK(lead.from == covered + 1);
      covered = lead.to;
      for (int q = lead.from; q <= lead.to; ++q) {
        const double leads = lot_cost(*c.methods[lead.method].quote, q).si;
        std::vector<std::size_t> either;
        for (std::size_t m = 0; m < c.methods.size(); ++m) {
          if (!may_lead(c, c.methods[m], q)) continue;
          const double cost = lot_cost(*c.methods[m].quote, q).si;
          CHECK(cost >= leads);
          if (cost - leads <= c.either_within * leads) either.push_back(m);
        }
        if (either.size() == 1) either.clear();
        CHECK(lead.either == either);
      }
    }
    CHECK(covered == c.scanned_to);
  }
}

TEST_CASE("the cheapest that may lead is quoted", "[compare][choice]") {
  CHECK(choose(of({priced_at(2, 1), priced_at(0, 1)}), 100)->method == 1);
  CHECK(choose(of({priced_at(0, 1), priced_at(1, 1)}), 100)->method == 0);
  // The first of two that cost the same.
  const auto third = choose(of({priced_at(50, 1), priced_at(10, 1), priced_at(5, 1)}), 100);
  CHECK(third->method == 2);
  CHECK(third->next == 1u);
  CHECK(choose(of({priced_at(50, 1), priced_at(5, 1), priced_at(5, 1)}), 100)->method == 1);
  Comparison none = of({});
  CHECK_FALSE(choose(none, 1));
}

TEST_CASE("what the shop does not practise, and what is held back, never leads unasked",
          "[compare][choice]") {
  Comparison c = of({priced_at(100, 1), priced_at(10, 1), priced_at(5, 1)});
  c.methods[1].held_back = {1, 0, 0, 0, "compare.held-back-stock"};
  c.methods[2].practised = false;
  CHECK(choose(c, 100)->method == 0);
  CHECK_FALSE(choose(c, 100)->next);
  CHECK(cheapest_practised(c.methods, 100) == &c.methods[0]);
  // Where all that is practised is held back, it is quoted all the same.
  c.methods[0].held_back = {1, 0, 0, 0, "compare.held-back-stock"};
  CHECK(choose(c, 100)->method == 1);
}

TEST_CASE("bar is drawn to the stop by hand for so many pieces alone", "[compare][choice]") {
  const auto leader = [](const Shop& shop, int quantity) {
    const Part part = part_of(
        "part: {number: H-1}\nmaterial: C45\nstock: {round: 30, condition: drawn}\n"
        "quantities: [10]\ndrawing: {general: ISO 2768-m, Ra: 3.2}\noutside: [27 x60, 29 x40]\n");
    const Comparison c = choose_methods(*prepare(part, shop), shop, {}, quantity);
    return c.methods[choose(c, quantity)->method];
  };
  // The shipped lathes of medium size: neither has a feeder, one is manual.
  Shop shop = shipped_shop();
  std::erase_if(shop.machines, [](const Machine& m) { return m.bar_fed; });
  const MethodResult few = leader(shop, 10);
  CHECK(few.route().job.stock.from_bar);
  CHECK(few.route().machine.kind == MachineKind::manual);
  CHECK(few.by_hand_up_to == shop.practice.bar_by_hand);
  CHECK(few.held_back_at(shop.practice.bar_by_hand).empty());
  CHECK(few.held_back_at(shop.practice.bar_by_hand + 1).why.id == "compare.held-back-by-hand");
  CHECK_FALSE(leader(shop, shop.practice.bar_by_hand + 1).route().job.stock.from_bar);
  // A price never falls when a rate rises: of all methods the cheapest is quoted.
  const auto cost = [&](double rate) {
    for (Machine& m : shop.machines)
      if (m.kind == MachineKind::manual) m.rate.all_in = rate * unit::money_per_h;
    return lot_cost(*leader(shop, 10).quote, 10).si;
  };
  double before = 0;
  for (double rate = 20; rate < 90; rate += 2.5) {
    CHECK(cost(rate) >= before);
    before = cost(rate);
  }
}

TEST_CASE("what all plans have in common excuses nothing else", "[compare][choice]") {
  // Invented: no lathe holds the drawing, one comes near; no stock cleans up, one lathe has no
  // feeder for bars on top of it.
  Comparison c = of({priced_at(100, 1), priced_at(10, 1)});
  c.methods[0].held_back = {0, 0, 0, 1, "compare.held-back-grade"};
  c.methods[1].held_back = {0, 0, 0, 2, "compare.held-back-grade"};
  CHECK(choose(c, 100)->method == 0);
  c.methods[0].held_back = {0, 2, 0, 0, "compare.held-back-bending"};
  c.methods[1].held_back = {0, 3, 0, 0, "compare.held-back-bending"};
  CHECK(choose(c, 100)->method == 0);
  c.methods[0].held_back = {1, 0, 0, 0, "compare.held-back-stock"};
  c.methods[1].held_back = {2, 0, 0, 0, "compare.held-back-bar"};
  CHECK(choose(c, 100)->method == 0);
  c.methods[1].held_back = {1, 0, 0, 0, "compare.held-back-stock"};
  CHECK(choose(c, 100)->method == 1);
}

TEST_CASE("a run-out that no clamping holds keeps a method from leading", "[compare][choice]") {
  // Centres hold 0.007: the price of 0.001 is that of 0.005, which must be said.
  const auto leader = [](const char* runout) {
    const std::string text = std::string("part: {number: R-1}\nmaterial: C45\nquantities: [50]\n") +
                             "stock: {round: 40, condition: hot rolled, fed from: blank}\n"
                             "drawing: {general: ISO 2768-m, Ra: 3.2}\noutside:\n"
                             "  - 25 h7 x40, seat A\n  - 35 x60\n  - 25 h7 x40, runout " +
                             runout + " to A\ncentres: {both ends: B, keep: yes}\n";
    return *price_part(*prepare(*read_part("r.yaml", text), shipped_shop()), shipped_shop(), {});
  };
  const PartQuote held = leader("0.007"), finer = leader("0.001");
  CHECK(held.methods.quoted().held_back.empty());
  CHECK(held.quote.route.open_ties.empty());
  const HeldBack& back = finer.methods.quoted().held_back;
  CHECK(back.ties == 7);
  CHECK(back.is_of_drawing());
  CHECK_THAT(english(back.why), Catch::Contains("run-out 0.001 mm"));
  CHECK_THAT(english(back.why), Catch::Contains("between centres, true to about 0.007 mm"));
  REQUIRE(finer.quote.route.open_ties.size() == 1);
  bool said = false;
  for (const Message& caution : finer.quote.cautions)
    said = said || caution.id == "clamping.tie-not-held";
  CHECK(said);
}

TEST_CASE("a tighter drawing is no cheaper where no lathe holds it", "[compare][choice]") {
  const auto leader = [](const char* fit) {
    const std::string text = std::string(
                                 "part: {number: E-1}\nmaterial: C45\nstock: {round: 40}\n"
                                 "quantities: [100]\ndrawing: {general: ISO 2768-m, Ra: 3.2}\n"
                                 "outside: [\"20 ") +
                             fit + " x30, Ra 1.6\", 30 x40, 38 x20]\n";
    return *price_part(*prepare(*read_part("e.yaml", text), shipped_shop()), shipped_shop(), {});
  };
  const PartQuote held = leader("h6"), finer = leader("h5");
  CHECK(held.methods.quoted().held_back.empty());
  CHECK(finer.methods.quoted().held_back.grades > 0);
  CHECK(finer.quote.prices.front().each.hundredths() >=
        held.quote.prices.front().each.hundredths());
}

TEST_CASE(
    "a plan that bends or a lathe that is too coarse leads only where no other holds the drawing",
    "[compare][choice]") {
  Comparison c = of({priced_at(100, 1), priced_at(10, 1), priced_at(5, 1)});
  c.methods[1].held_back = {0, 0, 0, 1, "compare.held-back-grade"};
  c.methods[2].held_back = {0, 2, 0, 0, "compare.held-back-bending"};
  CHECK(choose(c, 100)->method == 0);
  // Where all are held back, the one that is least.
  c.methods[0].held_back = {1, 0, 0, 0, "compare.held-back-bar"};
  CHECK(choose(c, 100)->method == 1);
  CHECK_FALSE(choose(c, 100)->next);
}

TEST_CASE("a machine, a method and the stock of the file leave no other choice",
          "[compare][choice]") {
  const Shop& shop = shipped_shop();
  const std::string open =
      "part: {number: P}\nmaterial: C45\nstock: {round: 33, condition: drawn}\nquantities: [1, "
      "200]\ndrawing: {Ra: 3.2}\noutside: [30 x40]\n";
  const auto records = methods_named(shop, "two finish cuts");
  REQUIRE(records.size() == 1);
  CHECK(methods_named(shop, "two finish cuts + sawn blanks").size() == 2);
  CHECK(methods_named(shop, "two finish cuts + nothing").empty());
  auto each = [&](const std::string& text, const FixedMethod& fixed, auto check) {
    const auto methods = practised_methods(job_of(text, shop), shop, fixed);
    CHECK_FALSE(methods.empty());
    for (const MethodResult& method : methods)
      if (method.feasible()) check(method);
  };
  each(open, {"geared lathe, medium", {}},
       [](const MethodResult& m) { CHECK(m.route().machine.name == "geared lathe, medium"); });
  each(open, {"", records},
       [](const MethodResult& m) { CHECK(m.method == MethodKind::two_finish_cuts); });
  bool bar = false, sawn = false;
  each(open, {}, [&](const MethodResult& m) {
    (m.route().job.stock.from_bar ? bar : sawn) = true;
    CHECK(m.route().job.stock.condition == "drawn");
    CHECK(in(m.route().job.stock.diameter, unit::mm) == Approx(33));
  });
  CHECK((bar && sawn));
  std::string said = open;
  said.replace(said.find("drawn"), 5, "drawn, fed from: bar");
  each(said, {}, [](const MethodResult& m) { CHECK(m.route().job.stock.from_bar); });
}

TEST_CASE("a fit with a joint in it is held back, and said", "[compare][choice]") {
  Shop shop = shipped_shop();
  const Job job = job_of(
      "part: {number: J}\nmaterial: C45\nquantities: [100]\ndrawing: {general: ISO 2768-m, Ra: "
      "3.2}\noutside: [\"12 h9 x85, Ra 1.6, chamfer 1x45 both\"]\n",
      shop);
  int joined = 0;
  const Comparison c = choose_methods(job, shop, {});
  for (const MethodResult& m : c.methods) {
    if (!m.feasible() || joined_surfaces(m.route(), shop.practice.overlap).empty()) continue;
    ++joined;
    CAPTURE(m.name);
    CHECK(m.held_back.practice > 0);
    CHECK(std::any_of(m.route().cautions.begin(), m.route().cautions.end(),
                      [](const Message& caution) { return caution.id == "clamping.joint"; }));
  }
  CHECK(joined > 0);
  CHECK(joined_surfaces(c.quoted().route(), shop.practice.overlap).empty());
}

TEST_CASE("material that the customer brings leaves the method open", "[compare][choice]") {
  const Shop& shop = shipped_shop();
  Part part = part_of(
      "part: {number: S}\nmaterial: C45\nquantities: [20, 300]\ndrawing: {general: ISO 2768-m, Ra: "
      "3.2}\noutside: [\"32 x20, chamfer 1x45 both\"]\nbore from right: [\"20 H7 through, Ra 1.6, "
      "chamfer 0.5x45 both\"]\n");
  const auto quoted = [&](const Part& of) {
    const auto job = prepare(of, shop);
    REQUIRE(job);
    return choose_methods(*job, shop, {}, 300);
  };
  const Comparison bought = quoted(part);
  REQUIRE(bought.quoted().route().job.stock.from_bar);
  part.stock.customers = true;
  const Comparison brought = quoted(part);
  CHECK(brought.quoted().route().job.stock.from_bar);
  // What is asked of the one is the price of the other.
  const auto questions = open_questions(bought.quoted(), shop, {}, 300);
  const auto supplied = std::find_if(questions.begin(), questions.end(), [](const Question& q) {
    return q.ask == Message("question.material-supplied");
  });
  REQUIRE(supplied != questions.end());
  CHECK(supplied->each == brought.each);
}

TEST_CASE("the lead is told around a quantity that comes in releases", "[compare][choice]") {
  // In four lots 40 pieces cost more than 42 in one.
  Part part = part_of(
      "part: {number: R-4}\nmaterial: C45\nstock: {round: 30, condition: drawn}\n"
      "quantities: [8, 40]\ndrawing: {general: ISO 2768-m, Ra: 3.2}\noutside: [27 x60]\n");
  part.releases = 4;
  part.released = 40;
  const Comparison c = compare_methods(*prepare(part, shipped_shop()), shipped_shop(), {});
  int covered = 0;
  for (const LeadingRange& lead : c.lead) {
    CHECK(lead.from == covered + 1);
    covered = lead.to;
    if (lead.from > 100) break;
    for (int q = lead.from; q <= std::min(lead.to, 100); ++q)
      for (const MethodResult& m : c.methods)
        if (may_lead(c, m, q))
          CHECK(lot_cost(*m.quote, q).si >= lot_cost(*c.methods[lead.method].quote, q).si);
  }
}
