// SPDX-License-Identifier: MIT
// The practice of the trade as rows of the rates.
#include "../support.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

std::string row(const std::string& name, const std::string& value) {
  return "practice:\n- {name: " + name + ", value: " + value +
         ", source: test, basis: own records}\n";
}

Shop shop_of(const std::string& name, const std::string& value) {
  const auto shop = shop_with(row(name, value));
  INFO(problems_text(shop.problems()));
  REQUIRE(shop);
  return *shop;
}

std::string problems_with(const std::string& name, const std::string& value) {
  return problems_text(shop_with(row(name, value)).problems());
}

double first_grip(const Shop& shop) {
  const Route route = route_of(shaft(), "", MethodKind::rough_then_finish, shop);
  return in(route.operations.front().grip_to - route.operations.front().grip_from, unit::mm);
}

// The shipped rates without one row of the practice.
std::vector<NamedText> without(const std::string& name) {
  auto files = shipped_rates();
  for (NamedText& file : files) {
    const std::size_t at = file.text.find("- {name: " + name + ", value:");
    if (at != std::string::npos) file.text.erase(at, file.text.find('\n', at) + 1 - at);
  }
  return files;
}

}  // namespace

TEST_CASE("every row of the practice says where it comes from", "[shop][rates][practice]") {
  const Practice& practice = shipped_shop().practice;
  CHECK(practice.sources.size() == 130);
  for (const auto& [name, source] : practice.sources) {
    INFO(name);
    CHECK_FALSE(source.text.empty());
    CHECK(source.basis != Basis::given);
    CHECK(source.basis != Basis::own_records);
  }
}

TEST_CASE("rows of the practice are read in their units", "[shop][practice]") {
  const Practice& practice = shipped_shop().practice;
  CHECK(practice.approach == 2.0 * unit::mm);
  CHECK(practice.rough_grade == 11);
  CHECK(practice.full_grip == 0.5);
  CHECK(practice.half_nut_speed == 0.6 * unit::m_per_min);
  CHECK(practice.centre_compliance.si == 2e-8);
  CHECK(practice.ground_seat_roughness == 3.2 * unit::um);
}

TEST_CASE("a row of the shop's own practice changes the plan", "[shop][practice]") {
  CHECK(first_grip(shipped_shop()) == Approx(40));  // the jaws of a chuck of 200 mm
  CHECK(first_grip(shop_of("full grip", "0.9")) == Approx(0.9 * 55));
  const Shop more = shop_of("finish allowance on CNC", "0.6 mm");
  Machine machine;
  machine.kind = MachineKind::cnc;
  CHECK(more.practice.finish_allowance(machine, 50.0 * unit::mm) == 0.6 * unit::mm);
  CHECK(more.practice.sources.at("finish allowance on CNC").basis == Basis::own_records);
  CHECK(more.practice.approach == shipped_shop().practice.approach);
}

TEST_CASE("a row of the practice that cannot be is a problem with its place", "[shop][practice]") {
  CHECK_THAT(problems_with("full grip", "40"),
             Catch::Contains("mine.yaml:2:28: found '40'") && Catch::Contains("from 0.05 to 3"));
  CHECK_THAT(problems_with("approach", "-2 mm"), Catch::Contains("found '-2 mm'"));
  CHECK_THAT(problems_with("rough turning grade", "3"), Catch::Contains("found '3'"));
  CHECK_THAT(problems_with("approach", "2 min"), Catch::Contains("mine.yaml:2:27: "));
  CHECK_THAT(problems_with("aproach", "2 mm"),
             Catch::Contains("unknown row 'aproach'") && Catch::Contains("mean 'approach'"));
}

TEST_CASE("a row of the practice that is missing is a problem", "[shop][practice]") {
  const auto files = without("tailstock travel");
  const auto shop = read_shop(files, files.size());
  REQUIRE_FALSE(shop);
  CHECK(shop.problems().size() == 1);
  CHECK_THAT(problems_text(shop.problems()),
             Catch::Contains("lack the row 'tailstock travel' of practice"));
}
