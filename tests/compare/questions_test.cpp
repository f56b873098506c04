// SPDX-License-Identifier: MIT
#include "turnwright/compare/questions.hpp"

#include "../support.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {
Quote quoted(const Part& part) {
  const auto job = prepare(part, shipped_shop());
  return make_quote(plan_route(*job, shipped_shop(), {}), shipped_shop());
}
const Question* asked(const std::vector<Question>& list, const std::string& word) {
  for (const Question& q : list)
    if (q.ask.find(word) != std::string::npos) return &q;
  return nullptr;
}
}  // namespace

TEST_CASE("another answer costs what the part with that answer costs", "[compare][questions]") {
  Part part = *read_part("p.yaml", shaft());
  part.repeat = false;
  const Quote q = quoted(part);
  const auto list = open_questions(q, shipped_shop());
  REQUIRE(list.size() >= 3);
  for (std::size_t i = 1; i < list.size(); ++i)
    CHECK(std::abs(list[i - 1].change) >= std::abs(list[i].change));
  const int quantity = q.prices[q.prices.size() / 2].quantity;

  Part again = part;
  again.repeat = true;
  const Question* repeat = asked(list, "made here before");
  REQUIRE(repeat != nullptr);
  CHECK(repeat->quantity == quantity);
  CHECK(repeat->change < 0);
  CHECK(repeat->each == price_at(quoted(again), shipped_shop(), quantity).each);

  Part theirs = part;
  theirs.stock.customers = true;
  const Question* material = asked(list, "material supplied");
  REQUIRE(material != nullptr);
  CHECK(material->each == price_at(quoted(theirs), shipped_shop(), quantity).each);
  CHECK(asked(list, "called off")->each == price_at(q, shipped_shop(), (quantity + 1) / 2).each);
}

TEST_CASE("what the drawing says is not asked", "[compare][questions]") {
  Part part = *read_part("p.yaml", shaft());
  part.repeat = true;
  part.stock.customers = true;
  part.quantities = {1};
  part.centres.keep = CentreUse::yes;
  part.drawing.ra = 3.2 * unit::um;
  part.drawing.general.iso_class = "m";
  const auto list = open_questions(quoted(part), shipped_shop());
  for (const char* word : {"before", "supplied", "called off", "centre", "finish", "general"})
    CHECK(asked(list, word) == nullptr);
}
