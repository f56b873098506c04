// SPDX-License-Identifier: MIT
// Records over shipped ones, and as text to copy from.
#include "turnwright/shop/records.hpp"

#include "../support.hpp"

using namespace turnwright;
using namespace turnwright::test;

TEST_CASE("of a stock condition or a time a shop writes only what it changes", "[shop]") {
  const auto shop = shop_with(
      "stock conditions:\n- {name: drawn, price factor: 1.35, source: invoices, basis: own "
      "records}\n"
      "handling:\n- {name: pack, CNC: 12, source: watched, basis: own records}\n"
      "setup:\n- {name: jaws, manual: 8 min, source: watched, basis: own records}\n");
  INFO(problems_text(shop.problems()));
  REQUIRE(shop);
  const StockCondition &own = *shop->condition("drawn"),
                       &shipped = *shipped_shop().condition("drawn");
  CHECK(own.price_factor == 1.35);
  CHECK(own.source.basis == Basis::own_records);
  CHECK(own.facing.si == shipped.facing.si);
  CHECK(own.sizes.size() == shipped.sizes.size());
  CHECK(shop->element(HandlingId::pack).cnc.si == 12);
  CHECK(shop->element(HandlingId::pack).manual.si ==
        shipped_shop().element(HandlingId::pack).manual.si);
  CHECK(shop->setup_element(SetupId::jaws).manual.si == 480);
  CHECK(shop->setup_element(SetupId::jaws).cnc.si ==
        shipped_shop().setup_element(SetupId::jaws).cnc.si);
}

TEST_CASE("what a record rests on it says itself, and a new one says all", "[shop]") {
  const auto sourceless = shop_with("stock conditions:\n- {name: drawn, price factor: 1.35}\n");
  CHECK_THAT(problems_text(sourceless.problems()),
             Catch::Contains("lacks 'source'") && Catch::Contains("lacks 'basis'"));
  const auto unknown = shop_with(
      "stock conditions:\n- {name: turned, price factor: 2, source: x, basis: typical}\n");
  CHECK_THAT(problems_text(unknown.problems()), Catch::Contains("lacks 'facing'"));
}

TEST_CASE("a shipped record is printed so that a shop can copy it", "[shop]") {
  const auto drawn = records_text(shipped_rates(), "stock conditions", "drawn");
  REQUIRE(drawn);
  CHECK_THAT(*drawn, Catch::StartsWith("stock conditions:\n# stock.yaml\n- name: drawn\n"));
  // As it stands it changes nothing.
  const auto again = shop_with(*drawn);
  INFO(*drawn << problems_text(again.problems()));
  REQUIRE(again);
  CHECK(again->condition("drawn")->price_factor == shipped_shop().condition("drawn")->price_factor);
  CHECK(again->condition("drawn")->upper_over.size() ==
        shipped_shop().condition("drawn")->upper_over.size());
}

TEST_CASE("every section that ships is printed as records that read back", "[shop]") {
  for (const char* section :
       {"tools", "handling", "methods", "materials", "policy", "cutting groups"}) {
    const auto text = records_text(shipped_rates(), section, "");
    REQUIRE(text);
    const auto again = shop_with(*text);
    INFO(section << problems_text(again.problems()));
    CHECK(again);
  }
}

TEST_CASE("a section or record that is not there has a near one, or all are named", "[shop]") {
  CHECK_THAT(problems_text(records_text(shipped_rates(), "tool", "").problems()),
             Catch::Contains("did you mean 'tools'?"));
  CHECK_THAT(problems_text(records_text(shipped_rates(), "stock conditions", "x").problems()),
             Catch::Contains("expected one of hot rolled, peeled"));
}
