// SPDX-License-Identifier: MIT
#include "../support.hpp"

#include <cmath>
#include <set>

#include "turnwright/figure/catalogue.hpp"
#include "turnwright/figure/cutting.hpp"
#include "turnwright/figure/speeds.hpp"
#include "turnwright/figure/threads.hpp"
#include "turnwright/figure/times.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {
figure::Backwards back(const char* name, std::vector<double> given, std::size_t missing,
                       std::size_t result, double target) {
  const figure::Entry* e = figure::find(name);
  REQUIRE(e != nullptr);
  std::vector<figure::Numbers> numbers;
  for (const double x : given) numbers.push_back({x});
  return figure::work_backwards(*e, numbers, missing, result, target);
}
}  // namespace

TEST_CASE("a recorded formula prints with its units as exact fractions", "[figure][recorded]") {
  ExpressionGraph r({"Steps", "Passes"});
  const SpeedOf<Expression> v(r.leaf("B4", 2.0, unit::m_per_min, 0));
  const LengthOf<Expression> d(r.leaf("C4", 0.05, unit::mm, 0));
  const auto n = figure::SpindleSpeed::work_out<Expression>({v, d}).spindle_speed;
  CHECK(a1(r, n.si, unit::rev_per_min, 0) == "=1000*B4/(PI()*C4)");
  CHECK(a1(r, n.si, unit::rev_per_min, 1) == "=1000*Steps!B4/(PI()*Steps!C4)");
  CHECK(n.si.value == Approx(2.0 / (pi * 0.05)).epsilon(1e-15));
  const SpeedOf<Expression> sfm(r.leaf("B5", 2.0, unit::ft_per_min, 0));
  const LengthOf<Expression> inch(r.leaf("C5", 0.05, unit::inch, 0));
  CHECK(a1(r, figure::SpindleSpeed::work_out<Expression>({sfm, inch}).spindle_speed.si,
           unit::rev_per_min, 0) == "=12*B5/(PI()*C5)");
  const auto p = figure::CuttingPower::work_out<Expression>(
      {d, d, v, PressureOf<Expression>(r.leaf("F4", 2e9, unit::N_per_mm2, 0)),
       Pure<Expression>(Expression(1.0))});
  CHECK(a1(r, p.power.si, unit::kW, 0) == "=F4*C4*C4*B4/60000");
}

TEST_CASE("a placed term prints as its cell", "[figure][recorded]") {
  ExpressionGraph r({"S"});
  const LengthOf<Expression> D(r.leaf("C2", 0.05, unit::mm, 0)),
      f(r.leaf("D2", 2e-4, unit::mm_per_rev, 0));
  const SpeedOf<Expression> v(r.leaf("B2", 2.0, unit::m_per_min, 0));
  const FrequencyOf<Expression> n(r.leaf("fastest_speed", 50, unit::rev_per_min));
  const auto t = figure::FacingTimeConstantSurfaceSpeed::work_out<Expression>(
      {D, LengthOf<Expression>(Expression(0.0)), f, v, n});
  r.place(t.clamp_diameter.si, "J2", unit::mm, 0);
  const std::string text = a1(r, t.time.si, unit::min, 0);
  CHECK_THAT(text, Catch::Contains("J2") && !Catch::Contains("MIN("));
}

TEST_CASE("a minus before a power and powers of powers are guarded", "[figure][recorded]") {
  ExpressionGraph r({"S"});
  const Pure<Expression> a(r.leaf("A1", 3, unit::ratio, 0)), b(r.leaf("B1", 2, unit::ratio, 0));
  CHECK(a1(r, (-square(a)).si, unit::ratio, 0) == "=-1*A1^2");
  CHECK(a1(r, pow(pow(a, b), b).si, unit::ratio, 0) == "=(A1^B1)^B1");
  CHECK(a1(r, (a - (b - a)).si, unit::ratio, 0) == "=A1-(B1-A1)");
  CHECK(a1(r, whole_up(a / b).si, unit::ratio, 0) == "=ROUNDUP(A1/B1-1E-09,0)");
}

TEST_CASE("every figure is whole: name, source, units, ranges", "[figure]") {
  std::set<std::string_view> names;
  for (const auto& e : figure::all()) {
    INFO(e.name);
    CHECK(names.insert(e.name).second);
    CHECK_FALSE(e.source.empty());
    CHECK_FALSE(e.formula.empty());
    CHECK(Words()("figure." + std::string(e.name)).back() == '.');
    for (const auto& f : e.inputs) CHECK(f.low <= f.high);
  }
  CHECK(names.size() >= 58);
}

TEST_CASE("figures are worked backwards, or say why not", "[figure][backwards]") {
  const auto v = back("tool-life", {0, 0.25, 75.0 / 60}, 0, 0, 81 * 60.0);
  REQUIRE(v.found);
  CHECK(v.si == Approx(25.0 / 60).epsilon(1e-9));
  CHECK(v.moved);
  const auto jump = back("parts-per-bar", {3, 0, 0.003, 0, 0.12}, 1, 0, 86.5);
  CHECK_FALSE(jump.found);
  CHECK_THAT(Words()(jump.why_not), Catch::Contains("jumps"));
  const auto plateau = back("parts-per-bar", {3, 0, 0.003, 0, 0.12}, 1, 0, 86);
  CHECK_FALSE(plateau.found);
  // 86 pieces of 2880 mm, no 87: above 2880/87 - 3, to 2880/86 - 3.
  CHECK_THAT(Words()(plateau.why_not),
             Catch::Contains("more than one") && Catch::Contains("30.1 mm to 30.49 mm"));
  const auto nothing = back("spindle-speed", {2, 0}, 1, 0, 1e9);
  CHECK_THAT(Words()(nothing.why_not), Catch::Contains("no answer"));
  const auto unmoved = back("cutting-power", {0.003, 2e-4, 2, 3.1e9, 0}, 4, 0, 10);
  CHECK_THAT(Words()(unmoved.why_not), Catch::Contains("does not depend"));
}

TEST_CASE("the ladder takes the nearest step within the band, else the lower", "[figure]") {
  const std::vector<Frequency> steps{275.0 / 60 * unit::per_s, 320.0 / 60 * unit::per_s};
  auto pick = [&](double wanted, double band) {
    return in(
        figure::LadderSpeed::work_out<>({wanted / 60 * unit::per_s, steps, band}).spindle_speed,
        unit::rev_per_min);
  };
  CHECK(pick(310, 0.1) == Approx(320));
  CHECK(pick(310, 0.0) == Approx(275));
  CHECK(pick(280, 0.1) == Approx(275));
  CHECK(pick(200, 0.1) == Approx(275));
}

TEST_CASE("a slope is exact at constant surface speed with the clamp", "[figure]") {
  // Against a fine sum of the definition.
  const double D = 0.08, d = 0.01, L = 0.05, f = 2e-4, v = 3, nmax = 60;
  double sum = 0;
  constexpr int n = 200000;
  for (int i = 0; i < n; ++i) {
    const double x = d + (D - d) * (i + 0.5) / n;
    sum += L / n / (f * std::min(v / (pi * x), nmax));
  }
  const Time t = figure::SlopedPathTime::work_out<>(
                     {Length(D), Length(d), Length(L), Length(f), Speed(v), Frequency(nmax)})
                     .time;
  CHECK(t.si == Approx(sum).epsilon(1e-9));
}

TEST_CASE("a thread's groove and a drill's load agree with their definitions", "[figure]") {
  // The groove summed in thin rings: its width at a depth t is 7/8 P - 2 t tan(30 deg).
  const double d = 0.024, P = 0.002, h = 0.613 * P, l = 0.025;
  double sum = 0, torque = 0, power = 0;
  constexpr int n = 100000;
  for (int i = 0; i < n; ++i) {
    const double t = h * (i + 0.5) / n;
    sum += 2 * pi * (d / 2 - t) * (0.875 * P - 2 * t * std::tan(pi / 6)) * (h / n) * (l / P);
  }
  const Volume v = figure::ThreadGrooveVolume::work_out<>(
                       {Length(d), Length(P), Length(h), Length(l), Number(pi / 6)})
                       .volume;
  CHECK(v.si == Approx(sum).epsilon(1e-9));
  // Two lips, each half the feed thick: torque and power summed along the radius.
  const double D = 0.02, f = 3e-4, kc = 2e9, rim = 0.4;
  for (int i = 0; i < n; ++i) {
    const double r = D / 2 * (i + 0.5) / n, force = kc * f * (D / 2 / n);
    torque += force * r;
    power += force * rim * r / (D / 2);
  }
  const auto load = figure::DrillLoad::work_out<>(
      {Length(D), Length(f), Pressure(kc), Speed(rim), Number(118.0 / 180 * pi)});
  CHECK(load.torque.si == Approx(torque).epsilon(1e-6));
  CHECK(load.power.si == Approx(power).epsilon(1e-6));
}

TEST_CASE("slopes are those of small differences, by every figure that has numbers", "[figure]") {
  Draws draws(8);
  int compared = 0;
  for (const figure::Entry& entry : figure::all())
    for (int round = 0; round < 20; ++round) {
      std::vector<figure::Numbers> given;
      bool plain = true;
      for (const figure::Field& f : entry.inputs) {
        plain = plain && !f.list && f.choices[0].empty();
        if (!plain) break;
        const double low = std::max(f.low, 1e-3 * f.high), high = std::min(f.high, 1e3 * low);
        if (!(low > 0) || std::isinf(high)) plain = false;
        given.push_back(
            {coherent(low * std::pow(high / low, draws.whole(10, 990) / 1000.0), f.unit)});
      }
      if (!plain) break;
      std::vector<figure::Explanation> lines;
      std::vector<figure::Numbers> now;
      try {
        lines = entry.explain(given, metric_text);
        now = entry.work_out(given);
      } catch (const std::exception&) {
        continue;
      }
      for (std::size_t r = 0; r < lines.size(); ++r)
        for (std::size_t i = 0; i < lines[r].slopes.size(); ++i) {
          const double s = lines[r].slopes[i];
          if (!std::isfinite(s) || now[r].size() != 1) continue;
          auto at = [&](double factor) {
            auto other = given;
            other[i][0] *= factor;
            return entry.work_out(other)[r][0];
          };
          const double up = (at(1 + 1e-5) / now[r][0] - 1) / 1e-5;
          const double down = (1 - at(1 - 1e-5) / now[r][0]) / 1e-5;
          // A step or a corner between the two: no slope to compare.
          if (!std::isfinite(up) || std::abs(up - down) > 1e-3 * (1 + std::abs(up))) continue;
          INFO(entry.name << ", input " << i << ", result " << r);
          CHECK(std::abs(s - (up + down) / 2) <= 1e-3 * (1 + std::abs(s)));
          ++compared;
        }
    }
  CHECK(compared > 500);
}
