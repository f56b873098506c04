// SPDX-License-Identifier: MIT
// What is said of records that cannot be, and what the tables of a shop give at and beyond their
// ends.
#include "../wrong_texts.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

Shop shop_of(const std::string& own_file) {
  const auto shop = shop_with(own_file);
  INFO(own_file << problems_text(shop.problems()));
  REQUIRE(shop);
  return *shop;
}

// What the wrong records lean on; all of the shipped rates each time would take minutes.
const std::string few_rates =
    "cutting groups:\n- {name: medium carbon steel, rows: [{hardness: 100-300, grade: hss, depth: "
    "[1], feed: [0.1], speed: [30]}], source: invented, basis: typical}\n"
    "grades:\n- {name: coated carbide, exponent: 0.25, reference life: 15, source: invented, "
    "basis: "
    "typical}\n- {name: hss, exponent: 0.15, reference life: 60, source: invented, basis: "
    "typical}\n"
    "materials:\n- {name: C45, group: medium carbon steel, hardness: 190, density: 7850, elastic "
    "modulus: 210, kc1.1: 1800, source: invented, basis: typical}\n"
    "- {name: CuSn7Zn4Pb7, also: [Rg7], group: medium carbon steel, hardness: 70, density: 8830, "
    "elastic modulus: 106, kc1.1: 700, source: invented, basis: typical}\n"
    "policy:\n- {name: margin, value: 0.1, source: invented, basis: typical}\n";

constexpr Length mm = 1.0 * unit::mm;

}  // namespace

TEST_CASE("of a wrong record everything is said where it is wrong", "[shop][wrong]") {
  check_wrong("shop/wrong/records.txt", 200, [](const std::string& text) {
    return read_shop({{"rates.yaml", few_rates}, {"mine.yaml", text}}, 1).problems();
  });
}

TEST_CASE("an empty file of a shop changes nothing", "[shop]") {
  for (const char* text : {"", "# nothing yet\n", "description: mine\nunits: metric\n"})
    CHECK(shop_of(text).machines.size() == shipped_shop().machines.size());
}

TEST_CASE("sources of a shop are named by their titles", "[shop]") {
  const Shop shop = shop_of(
      "sources: {OWN: \"Our records, 2025\"}\nchips:\n- {name: long, manual: 0.1, CNC: 0.2, "
      "source: "
      "\"OWN, p. 3\", basis: own records, band: 0.2}\n");
  const auto row = std::find_if(shop.chips.begin(), shop.chips.end(),
                                [](const ChipShare& c) { return c.name == "long"; });
  REQUIRE(row != shop.chips.end());
  CHECK(shop.source_text(row->source) == "Our records, 2025, p. 3");
  CHECK(row->source.band == 0.2);
  CHECK(std::string(name_of(row->source.basis)) == "own-records");
  CHECK(std::string(name_of(Basis::given)) == "given");
}

TEST_CASE("a method of the shop overlays the shipped one of its name", "[shop]") {
  const Method& shipped = shipped_shop().methods.front();
  const Shop shop = shop_of("methods:\n- {name: " + shipped.name +
                            ", conditions: least time, spindle: fixed, order: end by end, source: "
                            "invented, basis: typical}\n");
  REQUIRE(shop.methods.size() == shipped_shop().methods.size());
  const Method& own = shop.methods.front();
  CHECK(own.name == shipped.name);
  CHECK(own.why == shipped.why);
  CHECK(own.conditions == ConditionsRule::least_time);
  CHECK(own.fixed_speed);
  CHECK_FALSE(own.ends_first);
}

TEST_CASE("a price step rises with the price", "[shop]") {
  const Policy policy = shop_of(
                            "policy:\n- {name: price step, value: [0.01, 0.05, 0.50], below: [10, "
                            "100], source: invented, basis: typical}\n")
                            .policy;
  CHECK(policy.step_of(Amount(9.99)).hundredths() == 1);
  CHECK(policy.step_of(Amount(10)).hundredths() == 5);
  CHECK(policy.step_of(Amount(5000)).hundredths() == 50);
  CHECK(policy.basis_of("price step") == Basis::typical);
  CHECK(policy.basis_of("no such row") == Basis::typical);
}

TEST_CASE("records of a shop are read with all of their keys", "[shop]") {
  const Shop shop = shop_of(
      "machines:\n- {name: old, kind: manual, ladder: [500, 50, 200], feeds: [0.2, 0.1], power: 4 "
      "kW, largest torque: 100, largest diameter: 300, largest length: 800, chuck: {diameter: 200, "
      "rated speed: 2000, grip force: 30}, lever ranges: [{name: B, colour: red, up to: 500}, "
      "{name: A, up to: 100}], mounted tools: [], rate: {machine: 20, person: 30, overhead: 10 %}, "
      "condition: worn, coolant: dry, source: invented, basis: typical}\n"
      "book values:\n- {name: material bought, value: 90000, source: invented, basis: typical}\n- "
      "{name: outside bought, value: 7000, source: invented, basis: typical}\n"
      "other machines:\n- {name: mill, rate: 60, source: invented, basis: typical}\n"
      "exchange:\n- {name: USD, rate: 0.9, date: 2026-12-01, source: invented, basis: typical}\n"
      "setup:\n- {name: jaws, manual: 10 min, CNC: 5 min, source: invented, basis: typical}\n");
  const Machine& m = shop.machines.front();
  CHECK(in(m.slowest, unit::rev_per_min) == Approx(50));
  CHECK(in(m.fastest, unit::rev_per_min) == Approx(500));
  REQUIRE(m.lever_ranges.size() == 2);
  CHECK(m.lever_ranges[0].name == "A");
  CHECK(m.worn);
  CHECK_FALSE(m.flood);
  CHECK(m.steady);
  CHECK(m.chuck.grip_force.si == Approx(30000));
  CHECK(m.rate.overhead == Approx(0.1));
  CHECK_FALSE(m.rate.all_in);
  CHECK(shop.books.material_bought.si == Approx(90000));
  CHECK(shop.books.outside_bought.si == Approx(7000));
  CHECK(shop.other_machine("mill")->rate == 60.0 * unit::money_per_h);
  CHECK(*shop.currencies.factor("USD") == Approx(0.9));
  CHECK(shop.setup_element(SetupId::jaws).manual.si == Approx(600));
}

TEST_CASE("a fit beyond the standard is none", "[shop][standards]") {
  const Standards& s = shipped_shop().standards;
  CHECK(s.fit("h", 7, 500.0 * mm));
  CHECK_FALSE(s.fit("h", 7, 501.0 * mm));
  CHECK_FALSE(s.fit("h", 7, Length(0.0)));
  CHECK_FALSE(s.fit("h", 4, 30.0 * mm));
  CHECK_FALSE(s.fit("h", 15, 30.0 * mm));
  // A shop's own row that ends below the size, and one centred on it.
  const Shop own = shop_of(
      "fits:\n- {name: shaft q, side: lower, grades: 6-8, up to: [10], deviation: [5], source: "
      "invented, basis: typical}\n- {name: shaft w, side: centred, grades: 7, up to: [100], "
      "deviation: [0], source: invented, basis: typical}\n");
  CHECK(in(own.standards.fit("q", 7, 10.0 * mm)->lower, unit::um) == Approx(5));
  CHECK_FALSE(own.standards.fit("q", 7, 11.0 * mm));
  CHECK_FALSE(own.standards.fit("q", 9, 10.0 * mm));
  const auto centred = *own.standards.fit("w", 7, 50.0 * mm);
  CHECK(centred.upper == -centred.lower);
}

TEST_CASE("tables of standards end with their last row, or with nothing", "[shop][standards]") {
  const Standards& s = shipped_shop().standards;
  const GeneralTolerance& medium = *std::find_if(s.general.begin(), s.general.end(),
                                                 [](const auto& row) { return row.name == "m"; });
  CHECK(s.general_tolerance("m", Length(100.0)) == medium.plus_minus.back());
  CHECK(s.general_tolerance("m", medium.up_to.front()) == medium.plus_minus.front());
  CHECK_FALSE(s.general_tolerance("x", mm));
  CHECK(s.centre_hole(Length(100.0)) == &s.centre_holes.back());
  CHECK(s.runout(Length(1.0)) == &s.runouts.back());
  CHECK(s.relief(Length(1e6)) == nullptr);
  CHECK(s.circlip(mm * 20, false) != nullptr);
  CHECK(s.circlip(mm * 20.5, false) == nullptr);
  CHECK(s.knurl("RGE") != nullptr);
  CHECK(s.knurl("RGX") == nullptr);
  const Standards none;
  CHECK(none.centre_hole(mm) == nullptr);
  CHECK(none.runout(mm) == nullptr);
}

TEST_CASE("passes of a thread lie between those of the table, and grow beyond it",
          "[shop][standards]") {
  ThreadPasses t;
  CHECK(t.at(mm) == 1);
  t.pitch = {mm, 2.0 * mm};
  t.passes = {6, 10};
  CHECK(t.at(0.5 * mm) == 6);
  CHECK(t.at(mm) == 6);
  CHECK(t.at(1.5 * mm) == 8);
  CHECK(t.at(1.6 * mm) == 9);  // 8.4, whole passes
  CHECK(t.at(2.0 * mm) == 10);
  CHECK(t.at(3.0 * mm) == 15);
}

TEST_CASE("a grade is the coarsest that a width still holds", "[shop][standards]") {
  // IT of 30 mm, ISO 286-1: IT7 21 um, IT14 520 um; beyond 1.6 of it there is none that is held.
  CHECK(grade_of(30.0 * mm, 21.5 * unit::um) == 7);
  CHECK(grade_of(30.0 * mm, 530.0 * unit::um) == 14);
  CHECK(grade_of(30.0 * mm, 2000.0 * unit::um) == 15);
  CHECK(grade_of(30.0 * mm, 1.0 * unit::um) == 4);
}

TEST_CASE("what a shop has no row for is as it is without one", "[shop]") {
  Shop none;
  CHECK(none.skin_factor("drawn") == 1);
  CHECK(none.gauging_share(7) == 1);
  CHECK(none.correction("any", true) == 1);
  StockCondition c;
  CHECK(c.over(mm).si == 0);
  CHECK(c.clean_up_at(mm).si == 0);
  c.upper_to = {10.0 * mm};
  c.upper_over = {mm};
  c.clean_up_to = {10.0 * mm, 20.0 * mm};
  c.clean_up = {mm, 2.0 * mm};
  CHECK(c.over(11.0 * mm) == mm);
  CHECK(c.clean_up_at(10.0 * mm) == mm);
  CHECK(c.clean_up_at(50.0 * mm) == 2.0 * mm);
  none.gauging = {{6, 0.5, {}}, {8, 0.2, {}}};
  CHECK(none.gauging_share(9) == 0.2);
  CHECK(none.gauging_share(7) == 0.5);
  CHECK(none.gauging_share(5) == 1);
}
