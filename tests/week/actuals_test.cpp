// SPDX-License-Identifier: MIT
#include <sstream>

#include "../support.hpp"
#include "turnwright/compare/compare.hpp"
#include "turnwright/document/node.hpp"
#include "turnwright/week/actuals.hpp"
#include "weeks.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

Bookings bookings_of(const std::string& rows) {
  std::istringstream in("order,operation,machine,person,kind,start,end,good,scrap,note\n" + rows);
  TableReader reader("booked.csv", in);
  return read_bookings(reader);
}

// Two orders, estimated at an hour of setup and ten minutes a piece.
std::vector<Factor> factors_with(const std::string& rows, std::size_t problems,
                                 const std::string& machine = "A") {
  const Bookings bookings = bookings_of(rows);
  INFO(problems_text(bookings.problems));
  CHECK(bookings.problems.size() == problems);
  return factors_of(bookings, {{"7", "A", machine, 10, 60, 10}, {"8", "A", machine, 10, 60, 10}});
}

const std::string thirty_percent_more =
    "7,10,A,Ines,setup,2026-11-02T06:00,2026-11-02T07:18,,,\n"
    "7,10,A,Ines,run,2026-11-02T07:18,2026-11-02T09:28,10,0,\n"
    "7,10,A,Ines,stop,2026-11-02T09:28,2026-11-02T12:00,,,waits for a tool\n";

std::string file_of(const std::vector<Factor>& factors) {
  return corrections_file(factors, read_date("2026-11-20"), english);
}
const Node& field(const Node& map, std::string_view key) {
  for (const Member& member : map.members)
    if (member.key == key) return member.value;
  FAIL("no " << key);
  return map;
}

}  // namespace

TEST_CASE("booked times are drawn towards the estimate while they are few", "[week][evidence]") {
  // Worked by hand: one order at 1.30 gives exp(ln 1.30 x 1/5), ten give exp(ln 1.30 x 10/14).
  CHECK(shrunk(std::log(1.30), 1) == Approx(1.054).epsilon(0.0005));
  CHECK(shrunk(std::log(1.30), 10) == Approx(1.206).epsilon(0.0005));
  CHECK(shrunk(std::log(1.30), 1000000) == Approx(1.30).epsilon(0.0001));
  const auto plain = factors_with(thirty_percent_more, 0);
  REQUIRE(plain.size() == 2);
  for (const Factor& f : plain) {
    CHECK(f.raw == Approx(1.3));
    CHECK(f.proposed == Approx(1.054).epsilon(0.0005));
    CHECK(f.orders.front().order == "7");
    CHECK(f.orders.front().operation == 10);
  }
}

TEST_CASE("pieces that prove a setup are running time, and change no factor of setup",
          "[week][evidence]") {
  // Worked by hand: 40 minutes of setup as estimated, two pieces of 10 minutes to prove it and ten
  // of the order at 1.3 times: 40 + 1.3 x 20 = 66 minutes are booked as setup.
  const Bookings bookings = bookings_of(
      "7,10,A,Ines,setup,2026-11-02T06:00,2026-11-02T07:06,,,\n"
      "7,10,A,Ines,run,2026-11-02T07:06,2026-11-02T09:16,10,0,\n");
  const auto factors = factors_of(bookings, {{"7", "A", "A", 10, 60, 10, 20}});
  REQUIRE(factors.size() == 2);
  for (const Factor& f : factors) CHECK(f.raw == Approx(f.setup ? 1.0 : 1.3).epsilon(1e-12));
}

TEST_CASE("rows of nonsense change nothing but their own problem lines", "[week]") {
  const auto plain = factors_with(thirty_percent_more, 0);
  const std::string nonsense =
      "8,10,A,Ines,run,2026-11-03T09:00,2026-11-03T08:00,5,0,\n"
      "8,10,A,Ines,run,2026-02-30T08:00,2026-11-03T09:00,5,0,\n"
      "8,10,A,Ines,runs,2026-11-03T08:00,2026-11-03T09:00,5,0,\n"
      "8,10,A,Ines,run,2026-11-03T08:00,2026-11-03T09:00,-5,0,\n"
      "8,10,A,Ines,run,2026-11-03T00:00,2026-11-03T23:00,5,0,\n"
      "8,10,A,Ines,run,2026-11-04T08:00,2026-11-04T09:00,0,0,\n"
      "8,x,A,Ines,run,2026-11-04T08:00,2026-11-04T09:00,5,0,\n"
      "8,10.5,A,Ines,run,2026-11-04T08:00,2026-11-04T09:00,5,0,\n"
      "8,10,A,Ines,run,9999-12-31T08:00,9999-12-31T09:00,5,0,\n"
      "8,10,A,Ines,run,2026-11-05T08:00,2026-11-05T09:00,5,0,\n"
      "8,10,A,Ines,run,2026-11-05T08:30,2026-11-05T09:30,5,0,overlaps the line before\n";
  const auto with = factors_with(thirty_percent_more + nonsense, 10);
  REQUIRE(with.size() == 2);
  CHECK(with[0].proposed == plain[0].proposed);
  CHECK(with[1].proposed == plain[1].proposed);
  // Three times off is left out, and said.
  const auto outlier = factors_with(
      thirty_percent_more + "8,10,A,Ines,run,2026-11-06T06:00,2026-11-06T14:00,5,0,\n", 0);
  CHECK(outlier[0].proposed == plain[0].proposed);
  CHECK(file_of(with) == file_of(plain));
}

TEST_CASE("of bookings that overlap none is believed, however many lie between", "[week]") {
  const std::string long_one = "7,10,A,Ines,run,2026-12-07T08:00,2026-12-07T16:00,5,0,\n",
                    short_one = "7,10,A,Ines,run,2026-12-07T09:00,2026-12-07T09:30,5,0,\n",
                    third = "7,10,A,Ines,run,2026-12-07T10:00,2026-12-07T11:00,5,0,\n",
                    after = "7,10,A,Ines,run,2026-12-07T16:00,2026-12-07T17:00,5,0,\n";
  const Bookings bookings = bookings_of(long_one + short_one + third + after);
  REQUIRE(bookings.problems.size() == 2);
  CHECK(bookings.problems[1].at.line == 4);
  REQUIRE(bookings.rows.size() == 1);
  CHECK(bookings.rows.front().line == 5);
}

TEST_CASE("a booking is by the shop's own clock, and its times are whole", "[week]") {
  const auto fault = [](const std::string& from, const std::string& to) {
    const Bookings b = bookings_of("7,10,A,Ines,run," + from + "," + to + ",5,0,\n");
    return b.problems.empty() ? std::string("none") : b.problems.front().expected.id;
  };
  CHECK(fault("2026-12-07T23:00", "2026-12-07T24:00:00") == "none");
  CHECK(fault("2026-12-07T23:00Z", "2026-12-07T23:30Z") == "actuals.times-without-zone");
  CHECK(fault("2026-12-07T22:00+02:00", "2026-12-07T23:30") == "actuals.times-without-zone");
  CHECK(fault("2026-12-07T23:00", "2026-12-07T24:59") == "actuals.times-as");
  CHECK(fault("2026-12-07T23:00", "2026-12-07T23:30rubbish") == "actuals.times-as");
}

TEST_CASE("the day of the latest booking is that of a row that is used", "[week]") {
  // Those of the tenth overlap.
  CHECK(bookings_of(thirty_percent_more +
                    "8,10,A,Ines,run,2026-11-10T08:00,2026-11-10T09:00,5,0,\n"
                    "8,10,A,Ines,run,2026-11-10T08:30,2026-11-10T09:30,5,0,\n")
            .last == read_date("2026-11-02"));

  CHECK(bookings_of(thirty_percent_more).last == read_date("2026-11-02"));
  CHECK_FALSE(bookings_of("8,x,A,Ines,run,2026-11-04T08:00,2026-11-04T09:00,5,0,\n").last);
  const Bookings none = bookings_of("");
  CHECK(none.rows.empty());
  CHECK(none.problems.empty());
}

TEST_CASE("a corrections file reads back whatever the machine is called", "[week]") {
  for (const std::string name :
       {"Tarn \"the old\" lathe: 12\" swing", "# 3, {left}", "yes", "- x"}) {
    const auto document =
        read_document("corrections.yaml", file_of(factors_with(thirty_percent_more, 0, name)));
    INFO(problems_text(document.problems()));
    REQUIRE(document);
    const Node& records = field(document->root, "corrections");
    REQUIRE(records.items.size() == 2);
    for (const Node& record : records.items) {
      CHECK(field(record, "machine").text == name);
      CHECK(field(record, "factor").text == "1.054");
      CHECK(field(record, "source").text == "own records, 1 order, to 2026-11-20");
    }
  }
}

TEST_CASE("a corrections file holds in the shop folder, also one without a factor", "[week]") {
  const std::string machine = shipped_shop().machines.front().name;
  auto with = [&](const std::string& text) {
    std::vector<NamedText> files = shipped_rates();
    files.push_back({"corrections.yaml", text});
    const auto shop = read_shop(files, files.size() - 1);
    INFO(text << problems_text(shop.problems()));
    REQUIRE(shop);
    return *shop;
  };
  const Shop corrected = with(file_of(factors_with(thirty_percent_more, 0, machine)));
  for (const bool setup : {false, true}) CHECK(corrected.correction(machine, setup) == 1.054);
  const std::string empty = file_of({});
  CHECK(empty.find("corrections: []") != std::string::npos);
  CHECK(with(empty).corrections.empty());
}

TEST_CASE("corrections of the shop folder are an element of their own", "[estimate]") {
  Shop shop = shipped_shop();
  const Route route = route_of(shaft(), "", MethodKind::rough_then_finish, shop);
  const RouteTimes before = times_of(route, shop);
  for (const double factor : {1.25, 0.9}) {
    shop.corrections = {{"x", route.machine.name, false, factor, 1, 0, {}},
                        {"y", route.machine.name, true, factor, 1, 0, {}}};
    const RouteTimes after = times_of(route, shop);
    for (std::size_t i = 0; i < before.operations.size(); ++i)
      CHECK(after.operations[i].machine.si == Approx(factor * before.operations[i].machine.si));
    Time sum(0.0);
    for (const ElementTime& e : after.operations[0].setup_elements) sum += e.machine;
    CHECK(sum.si == Approx(after.operations[0].setup.si));
    // Both factors are alike, and every minute is corrected once, those of the pieces run to prove
    // the setup too: nothing but rounding may be left.
    CHECK(after.setup.si == Approx(factor * before.setup.si).epsilon(1e-12));
  }
}

TEST_CASE("what factors do to a price is told of the price that is quoted", "[week]") {
  // The dear manual lathe stands first in the week; the order is quoted by the other.
  Shop shop = shipped_shop();
  for (Machine& machine : shop.machines)
    if (machine.kind == MachineKind::manual) machine.rate.all_in = 200.0 * unit::money_per_h;
  const Week week = week_in(
      "week: {from: 2026-12-07, to: 2026-12-31}\n"
      "shifts: [{name: early, from: \"06:00\", to: \"14:00\"}]\n"
      "machines: [{machine: \"geared lathe, medium\", called: G, shifts: [early]}, "
      "{machine: \"CNC lathe, medium\", called: A, shifts: [early]}]\norders:\n"
      "- {order: 1, part: p30.yaml, quantity: 40, due: 2026-12-18}\n");
  const Bookings booked = bookings_of("1,10,A,Ines,run,2026-12-07T06:00,2026-12-07T07:00,40,0,\n");
  const Actuals actuals = actuals_of(week, booked, shop, part_by_name);
  REQUIRE(actuals.prices.size() == 1);
  const Part part = *part_by_name(week, week.orders.front());
  const auto quoted = price_part(*prepare(part, shop), shop, {"CNC lathe, medium", {}}, 40);
  CHECK(actuals.prices.front().before == price_at(quoted->quote, shop, 40).each);
  CHECK(actuals.prices.front().after != actuals.prices.front().before);
}
