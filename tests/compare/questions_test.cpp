// SPDX-License-Identifier: MIT
#include "turnwright/compare/questions.hpp"

#include "../support.hpp"
#include "turnwright/compare/compare.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {
MethodResult planned(const Part& part) {
  MethodResult method = plan_method(part, shipped_shop(), {}, "CNC lathe, medium");
  REQUIRE(method.feasible());
  return method;
}
Quote quoted(const Part& part) { return *planned(part).quote; }
const Question* asked(const std::vector<Question>& list, const Message& what) {
  for (const Question& q : list)
    if (q.ask == what) return &q;
  return nullptr;
}
}  // namespace

TEST_CASE("another answer costs what the part with that answer costs", "[compare][questions]") {
  Part part = *read_part("p.yaml", shaft());
  part.repeat = false;
  const Quote q = quoted(part);
  const auto list = open_questions(planned(part), shipped_shop(), {}, main_quantity(part));
  REQUIRE(list.size() >= 3);
  for (std::size_t i = 1; i < list.size(); ++i)
    CHECK(std::abs(list[i - 1].change) >= std::abs(list[i].change));
  const int quantity = main_quantity(part);

  Part again = part;
  again.repeat = true;
  const Question* repeat = asked(list, "question.made-before");
  REQUIRE(repeat != nullptr);
  CHECK(repeat->quantity == quantity);
  CHECK(repeat->change < 0);
  CHECK(repeat->each == price_at(quoted(again), shipped_shop(), quantity).each);

  Part theirs = part;
  theirs.stock.customers = true;
  const Question* material = asked(list, "question.material-supplied");
  REQUIRE(material != nullptr);
  const Checked<Job> job = prepare(theirs, shipped_shop());
  REQUIRE(job);
  CHECK(material->each == choose_methods(*job, shipped_shop(), {}, quantity).each);
  const Question* lot = asked(list, "question.one-lot");
  REQUIRE(lot != nullptr);
  CHECK(lot->each == each_in_lots(q, shipped_shop(), quantity + quantity % 2, 2));
}

TEST_CASE("what the drawing says is not asked", "[compare][questions]") {
  Part part = *read_part("p.yaml", shaft());
  part.repeat = true;
  part.stock.customers = true;
  part.quantities = {1};
  part.centres.keep = CentreUse::yes;
  part.drawing.ra = 3.2 * unit::um;
  part.drawing.general.iso_class = "m";
  const auto list = open_questions(planned(part), shipped_shop(), {}, 1);
  for (const char* what :
       {"question.made-before", "question.material-supplied", "question.one-lot",
        "question.centre-holes", "question.finish", "question.general-tolerance"})
    CHECK(asked(list, what) == nullptr);
}

TEST_CASE("a material without its condition is a question, with the price of the other",
          "[compare][questions]") {
  const auto with = [](const std::string& material) {
    return part_of("part: {number: P-1}\nmaterial: " + material +
                   "\nstock: {round: 55}\nquantities: [40]\noutside: [40 x60]\n");
  };
  const auto said = [&](const std::string& material) {
    const Part part = with(material);
    const Job job = *prepare(part, shipped_shop());
    const bool caution =
        std::any_of(job.cautions.begin(), job.cautions.end(),
                    [](const Message& m) { return m.id == "prepare.condition-unsaid"; });
    const auto list = open_questions(planned(part), shipped_shop(), {}, 40);
    return std::pair(caution, std::any_of(list.begin(), list.end(), [](const Question& q) {
                       return q.ask.id == "question.condition";
                     }));
  };
  for (const char* bare : {"42CrMo4", "AISI 4140", "1.7225"}) {
    INFO(bare);
    CHECK(said(bare) == std::pair(true, true));
  }
  for (const char* whole : {"42CrMo4+A", "4140 annealed", "42CrMo4 +QT", "42CrMo4 V", "C45"}) {
    INFO(whole);
    CHECK(said(whole) == std::pair(false, false));
  }
  const auto list = open_questions(planned(with("42CrMo4")), shipped_shop(), {}, 40);
  for (const Question& q : list)
    if (q.ask.id == "question.condition")
      CHECK(q.each == price_at(*planned(with("42CrMo4+QT")).quote, shipped_shop(), 40).each);
}

TEST_CASE("how it is delivered is not asked where releases say it", "[compare][questions]") {
  Part part = *read_part("p.yaml", shaft());
  part.quantities = {40};
  const auto asks = [&] {
    return asked(open_questions(planned(part), shipped_shop(), {}, 40), "question.one-lot") !=
           nullptr;
  };
  CHECK(asks());
  part.releases = 4;
  CHECK_FALSE(asks());
}

TEST_CASE(
    "an answer by which the method no longer holds the drawing is priced as it would be quoted",
    "[compare][questions]") {
  // A slender pin, invented: without the centre it bends too far from the bar.
  const auto pin = [](const char* centres) {
    return *read_part("p.yaml",
                      std::string("part: {number: P-1}\nmaterial: C45\n"
                                  "stock: {round: 20, condition: drawn}\nquantities: [100]\n"
                                  "drawing: {general: ISO 2768-m, Ra: 3.2}\n") +
                          centres + "outside: [\"16 h6 x60, Ra 0.8, chamfer 1.5x45 both\"]\n");
  };
  const Shop& shop = shipped_shop();
  const auto quoted_as = [&](const Part& part) {
    return *price_part(*prepare(part, shop), shop, {});
  };
  const PartQuote open = quoted_as(pin(""));
  const auto list = open_questions(open.methods.quoted(), shop, {}, 100);
  const Question* holes = asked(list, "question.centre-holes");
  REQUIRE(holes != nullptr);
  CHECK(holes->each == quoted_as(pin("centres: {keep: no}\n")).quote.prices.front().each);
}
