// SPDX-License-Identifier: MIT
// Figures at the edges of their inputs, and worked backwards where the answer is not one. Numbers
// are worked by hand from the formulas that the catalogue prints.
#include <cmath>

#include "../support.hpp"
#include "turnwright/figure/catalogue.hpp"
#include "turnwright/figure/speeds.hpp"
#include "turnwright/figure/sure_quantity.hpp"
#include "turnwright/figure/times.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

const figure::Entry& entry(const char* name) {
  const figure::Entry* e = figure::find(name);
  INFO(name);
  REQUIRE(e != nullptr);
  return *e;
}
std::vector<figure::Numbers> numbers(std::vector<double> given) {
  std::vector<figure::Numbers> list;
  for (const double x : given) list.push_back({x});
  return list;
}
// A result in SI, the inputs in SI too.
double worked(const char* name, const std::vector<double>& given, std::size_t result = 0) {
  return entry(name).work_out(numbers(given))[result].front();
}
figure::Backwards back(const char* name, const std::vector<double>& given, std::size_t missing,
                       std::size_t result, double target) {
  return figure::work_backwards(entry(name), numbers(given), missing, result, target);
}

const double unlimited = figure::unlimited;

}  // namespace

TEST_CASE("figures take each of their choices", "[figure]") {
  // 10 min at a rating of 1.1: 15 % on the work, or of the shift.
  CHECK(worked("standard-time", {600, 1.1, 0.15, 0}, 1) == Approx(660 * 1.15));
  CHECK(worked("standard-time", {600, 1.1, 0.15, 1}, 1) == Approx(660 / 0.85));
  const double steel = 7850;
  CHECK(worked("bar-weight", {0.03, 1, steel, 0}) == Approx(steel * pi / 4 * 9e-4));
  CHECK(worked("bar-weight", {0.03, 1, steel, 1}) == Approx(steel * std::sqrt(3.0) / 2 * 9e-4));
  CHECK(worked("bar-weight", {0.03, 1, steel, 2}) == Approx(steel * 9e-4));
  // An edge of 25 min and a cut of 10: two whole pieces, or two and a half.
  CHECK(worked("piece-cost", {600, 1500, 60, 120, 60.0 / 3600, 5, 0}) == 2);
  CHECK(worked("piece-cost", {600, 1500, 60, 120, 60.0 / 3600, 5, 1}) == 2.5);
  CHECK(worked("piece-cost", {600, 1500, 60, 120, 60.0 / 3600, 5, 1}, 2) ==
        Approx((660 + 120 / 2.5) / 60 + 5 / 2.5));
}

TEST_CASE("figures at the ends of their ranges", "[figure]") {
  // Wright's curve at 80 %: the first piece 100 h, two together 160.
  CHECK(worked("learning-average", {100, 0.8, 1}, 0) == Approx(100));
  CHECK(worked("learning-average", {100, 0.8, 2}, 0) == Approx(60));
  CHECK(worked("learning-average", {100, 0.8, 2}, 1) == Approx(160));
  CHECK(worked("economic-batch", {12000, 100, 6, unlimited}) == Approx(std::sqrt(400000)));
  CHECK(worked("economic-batch", {12000, 100, 6, 48000}) == Approx(std::sqrt(400000 / 0.75)));
  // Without a fastest speed nothing is clamped.
  const double all = pi * 0.01 / (4 * 2 * 2e-4);
  CHECK(worked("facing-time-constant-surface-speed", {0.1, 0, 2e-4, 2, unlimited}, 0) == 0);
  CHECK(worked("facing-time-constant-surface-speed", {0.1, 0, 2e-4, 2, unlimited}, 1) ==
        Approx(all));
  // A flat drill has no point; 90 degrees are as long as the radius.
  CHECK(worked("drilling-time", {0.02, 0.04, 2e-4, 10, pi, 0, 0}) == 0);
  CHECK(worked("drilling-time", {0.02, 0.04, 2e-4, 10, pi / 2, 0, 0}) == Approx(0.01));
  CHECK(worked("drilling-time", {0.02, 0.04, 2e-4, 10, pi, 0, 0}, 1) == Approx(20));
}

TEST_CASE("a ladder without a step low enough gives its slowest", "[figure]") {
  const auto step = [](std::vector<double> speeds, double wanted) {
    std::vector<Frequency> list;
    for (const double s : speeds) list.emplace_back(s);
    return figure::LadderSpeed::work_out<>({Frequency(wanted), list, 0.1}).spindle_speed.si;
  };
  CHECK(step({}, 3) == 3);
  CHECK(step({40, 32, 50}, 20) == 32);
  CHECK(step({18, 16, 19, 30}, 20) == 19);
  CHECK(step({19, 16}, 20) == 19);
}

TEST_CASE("an unlimited input is no leaf of a formula", "[figure][recorded]") {
  const auto lines =
      entry("economic-batch").explain(numbers({12000, 100, 6, unlimited}), metric_text);
  CHECK(lines[0].symbols == "Q = √(2 · D · S / H)");
  CHECK(std::isnan(lines[0].slopes[3]));
  CHECK(lines[0].slopes[0] == Approx(0.5));
  const auto zero = entry("facing-time-constant-surface-speed")
                        .explain(numbers({0.1, 0, 2e-4, 2, 50}), metric_text);
  CHECK_THAT(zero[0].symbols, Catch::StartsWith("Dc = least of (Do, "));
  // A result of 0 has no share to change by.
  const auto nothing = entry("lot-time").explain(numbers({0, 0, 10}), metric_text);
  for (const double s : nothing[0].slopes) CHECK(std::isnan(s));
  // Lists have no formula, the results beside them do.
  const auto ladder = entry("speed-ladder").explain(numbers({1, 16, 5}), metric_text);
  CHECK(ladder[0].symbols.starts_with("phi = "));
  CHECK(ladder[1].symbols.empty());
}

TEST_CASE("worked backwards an input may be 0", "[figure][backwards]") {
  // T = S + N t: no time is left for the setup.
  const auto none = back("lot-time", {0, 60, 10}, 0, 0, 600);
  REQUIRE(none.found);
  CHECK(none.si == 0);
  const auto some = back("lot-time", {0, 60, 10}, 0, 0, 1500);
  REQUIRE(some.found);
  CHECK(some.si == Approx(900).epsilon(1e-9));
}

TEST_CASE("worked backwards a figure may have no value for a part of the range",
          "[figure][backwards]") {
  // Q^2 = 2 D S / (H (1 - D/p)) has none for p below D.
  const auto p = back("economic-batch", {12000, 100, 6, 0}, 3, 0, std::sqrt(400000 / 0.75));
  REQUIRE(p.found);
  CHECK(p.si == Approx(48000).epsilon(1e-6));
  CHECK_FALSE(back("economic-batch", {12000, 100, 6, 0}, 3, 0, 100).found);
}

TEST_CASE("worked backwards a long plateau is more than one answer", "[figure][backwards]") {
  // From vc/(pi Di) up the clamp does not bind: every faster spindle takes the same time.
  const double time = pi * (0.01 - 0.0025) / (4 * 2 * 2e-4);
  const auto nmax = back("facing-time-constant-surface-speed", {0.1, 0.05, 2e-4, 2, 0}, 4, 1, time);
  CHECK_FALSE(nmax.found);
  CHECK_THAT(english(nmax.why_not), Catch::Contains("more than one"));
}

TEST_CASE("worked backwards every answer of several is named", "[figure][backwards]") {
  // The groove of a thread grows with its depth until its flanks meet, and beyond that the formula
  // falls again: two depths have one volume.
  const std::vector<double> thread{0.024, 0.002, 0.0012, 0.025, pi / 6, 0};
  const double volume = worked("thread-groove-volume", thread);
  const auto depth = back("thread-groove-volume", thread, 2, 0, volume);
  CHECK_FALSE(depth.found);
  CHECK_THAT(english(depth.why_not), Catch::Contains("1.2 mm"));
}

TEST_CASE("chances of a shortage where nothing is scrap, or too little is started", "[figure]") {
  CHECK(figure::chances_of_shortage(10, 12, 1) == std::vector<double>{1});
  CHECK(figure::chances_of_shortage(10, 8, 0.9) == std::vector<double>{1});
  // Of two pieces at 90 %: both good 0.81, one at least 0.99.
  const auto two = figure::chances_of_shortage(2, 2, 0.9);
  REQUIRE(two.size() == 3);
  CHECK(two[0] == Approx(0.81));
  CHECK(two[1] == Approx(0.99));
  CHECK(two[2] == 1);
  CHECK(figure::pieces_to_start(10, 1, 0.99) == 10);
  CHECK(figure::pieces_to_start(1, 0.5, 0.9) == 4);  // 1 - 0.5^4 = 0.9375, 1 - 0.5^3 = 0.875
}

TEST_CASE("a field holds what it is made with", "[figure]") {
  const auto whole = figure::needed("width", "b", unit::mm, 1, 20);
  CHECK(std::isnan(whole.otherwise));
  CHECK((whole.low == 1 && whole.high == 20 && !whole.list));
  const auto otherwise = figure::optional("width", "b", unit::mm, 3, 1, 20);
  CHECK(otherwise.otherwise == 3);
  CHECK(figure::list("speeds", "n", unit::rev_per_min, 1, 9000).list);
  const auto choice = figure::choice("section", {"round", "square", ""});
  CHECK((choice.choices[1] == "square" && choice.otherwise == 0 && choice.high == 2));
  CHECK(figure::result("time", "t", unit::min).unit.name == "min");
  CHECK(figure::results("speeds", "n", unit::rev_per_min).list);
}
