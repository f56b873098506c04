// SPDX-License-Identifier: MIT
// Figures with numbers worked by hand, each with another value in every place.
#include <cmath>

#include "../support.hpp"
#include "turnwright/figure/cutting.hpp"
#include "turnwright/figure/feeds.hpp"
#include "turnwright/figure/finish.hpp"
#include "turnwright/figure/recorded.hpp"
#include "turnwright/figure/stock.hpp"
#include "turnwright/figure/tapers.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {
Length mm(double x) { return x * unit::mm; }
constexpr double pi_by_hand = 3.14159265358979;
}  // namespace

TEST_CASE("a taper from 50 to 40 over 100 is 1 in 10, half of it on a side", "[figure]") {
  const auto taper = figure::TaperAngle::work_out<>({mm(50), mm(40), mm(100)});
  CHECK(taper.ratio.si == Approx(0.1));
  CHECK(std::tan(taper.half_angle.si) == Approx(0.05));
  // Between centres 300 apart the tailstock goes out by 300 x 10/200.
  CHECK(in(figure::TailstockOffset::work_out<>({mm(50), mm(40), mm(100), mm(300)}).offset,
           unit::mm) == Approx(15));
}

TEST_CASE("feeds are products and tenths", "[figure]") {
  CHECK(in(figure::ShopFeed::work_out<>({mm(3)}).feed, unit::mm) == Approx(0.3));
  CHECK(in(figure::FeedRate::work_out<>({mm(0.2), 900.0 * unit::rev_per_min}).feed_rate,
           unit::mm_per_min) == Approx(180));
}

TEST_CASE("a feed of 0.2 leaves ridges of 6.25 um behind a nose of 0.8", "[figure]") {
  // 0.04/(8 x 0.8) and a quarter of it.
  const auto round = figure::Roughness::work_out<>({mm(0.2), mm(0.8)});
  CHECK(in(round.Rt, unit::um) == Approx(6.25));
  CHECK(in(round.Ra, unit::um) == Approx(1.5625));
  // A sharp corner: 0.2/(tan 45 + cot of the angle whose tangent is a half).
  const auto sharp =
      figure::RoughnessSharp::work_out<>({mm(0.2), Number(pi / 4), Number(std::atan(0.5))});
  CHECK(in(sharp.Rt, unit::mm) == Approx(0.2 / 3));
}

TEST_CASE("what is removed in a minute is a section times the way of the tool", "[figure]") {
  // From 50 to 40: (2500 - 1600)/4 pi square millimetres, 0.2 mm 900 times a minute.
  const auto turned =
      figure::RemovalRateTurned::work_out<>({mm(50), mm(40), mm(0.2), 900.0 * unit::rev_per_min});
  CHECK(in(turned.depth, unit::mm) == Approx(5));
  CHECK(in(turned.removal_rate, unit::cm3_per_min) == Approx(225 * pi_by_hand * 180 / 1000));
  const auto drilled =
      figure::DrillingRemovalRate::work_out<>({mm(10), mm(0.2), 900.0 * unit::rev_per_min});
  CHECK(in(drilled.removal_rate, unit::cm3_per_min) == Approx(25 * pi_by_hand * 180 / 1000));
}

TEST_CASE("a metre of bar weighs its section", "[figure]") {
  // 8000 kg/m3, 10 across: pi/4, sqrt(3)/2 and 1 of a square centimetre.
  const auto weight = [](figure::Section section) {
    return in(
        figure::BarWeight::work_out<>({mm(10), mm(1000), 8000.0 * unit::kg_per_m3, section}).mass,
        unit::kg);
  };
  CHECK(weight(figure::Section::round) == Approx(0.8 * pi_by_hand / 4));
  CHECK(weight(figure::Section::hexagon) == Approx(0.8 * 0.8660254));
  CHECK(weight(figure::Section::square) == Approx(0.8));
}

TEST_CASE("equal numbers are at most each other, and not less", "[figure][recorded]") {
  ExpressionGraph r({"S"});
  const Expression a = r.leaf("A1", 2, unit::ratio, 0), b = r.leaf("B1", 2, unit::ratio, 0);
  CHECK((a <= b).holds);
  CHECK_FALSE((a < b).holds);
}
