// SPDX-License-Identifier: MIT
#include <cmath>

#include "../support.hpp"
#include "turnwright/route/outline.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

Segment line(double z1, double r1, double z2, double r2) {
  return {{Length(z1), Length(r1)}, {Length(z2), Length(r2)}, Bulge::none, {}, {}};
}

// Gauss-Legendre on many panels in long double: independent of the closed forms.
long double quadrature_volume(const Segment& s) {
  static const long double x[] = {0.1834346424956498L, 0.5255324099163290L, 0.7966664774136267L,
                                  0.9602898564975363L};
  static const long double w[] = {0.3626837833783620L, 0.3137066458778873L, 0.2223810344533745L,
                                  0.1012285362903763L};
  auto value = [&](long double z) -> long double {
    if (s.bulge == Bulge::none) {
      const long double t = (z - s.from.z.si) / (s.to.z.si - s.from.z.si);
      const long double r = s.from.r.si + t * (s.to.r.si - s.from.r.si);
      return r * r;
    }
    const long double d = z - s.centre.z.si;
    const long double h =
        std::sqrt(std::max(0.0L, static_cast<long double>(s.radius.si) * s.radius.si - d * d));
    const long double r = s.centre.r.si + (s.bulge == Bulge::out ? h : -h);
    return r * r;
  };
  constexpr int panels = 400;
  long double sum = 0;
  const long double a = s.from.z.si, b = s.to.z.si;
  for (int i = 0; i < panels; ++i) {
    const long double l = a + (b - a) * i / panels, h = (b - a) / panels / 2;
    for (int k = 0; k < 4; ++k)
      sum += w[k] * h * (value(l + h * (1 - x[k])) + value(l + h * (1 + x[k])));
  }
  return 3.14159265358979323846L * std::abs(sum);
}

Segment random_segment(Draws& draws) {
  const double z1 = draws.real(-0.1, 0.1), dz = draws.real(0.001, 0.1), r1 = draws.real(0.01, 0.1),
               r2 = draws.real(0.01, 0.1);
  if (draws.whole(0, 2) == 0) return line(z1, r1, z1 + dz, r2);
  const double chord = std::hypot(dz, r2 - r1);
  for (int tries = 0; tries < 20; ++tries) {
    const double radius =
        chord / 2 * std::exp(draws.real(0.01, draws.whole(0, 4) == 0 ? 12.0 : 2.0));
    const Bulge bulge = draws.whole(0, 1) ? Bulge::out : Bulge::in;
    const Segment s =
        arc_between({Length(z1), Length(r1)}, {Length(z1 + dz), Length(r2)}, Length(radius), bulge);
    // A function of z, and clear of the vertical tangents, where the quadrature (not the closed
    // form) loses its digits.
    const double side = bulge == Bulge::out ? 1 : -1, clear = 0.05 * radius;
    if (side * (r1 - s.centre.r.si) > clear && side * (r2 - s.centre.r.si) > clear) return s;
  }
  return line(z1, r1, z1 + dz, r2);
}

}  // namespace

TEST_CASE("volumes in closed form agree with quadrature on 4,000 random pieces",
          "[route][outline]") {
  Draws draws(1);
  double worst = 0;
  for (int i = 0; i < 4000; ++i) {
    const Segment s = random_segment(draws);
    const auto exact = static_cast<double>(quadrature_volume(s));
    worst = std::max(worst, std::abs(volume(s).si - exact) / exact);
  }
  INFO("worst " << worst);
  CHECK(worst < 1e-9);
}

TEST_CASE("surface and length agree with a polygon of many sides", "[route][outline]") {
  Draws draws(2);
  for (int i = 0; i < 200; ++i) {
    const Segment s = random_segment(draws);
    double sum = 0, len = 0;
    constexpr int n = 20000;
    Point last = s.from;
    for (int k = 1; k <= n; ++k) {
      const Length z = s.from.z + (s.to.z - s.from.z) * (static_cast<double>(k) / n);
      const Point p{z, k == n ? s.to.r : radius_at(s, z)};
      const double d = std::hypot((p.z - last.z).si, (p.r - last.r).si);
      len += d;
      sum += pi * (p.r + last.r).si * d;
      last = p;
    }
    CHECK(length(s).si == Approx(len).epsilon(2e-6));
    CHECK(surface(s).si == Approx(sum).epsilon(2e-6));
  }
}

TEST_CASE("degenerate 1: a level exactly at the limit cuts", "[route][outline]") {
  const Outline work = Outline::cylinder(Length(-0.1), Length(0), Length(0.03));
  const Outline limit({line(-0.1, 0.025, -0.04, 0.025), line(-0.04, 0.02, 0, 0.02)});
  for (const double noise : {0.0, 1.8e-15, -1.8e-15}) {
    const Level level = cut_level(work, limit, Length(0.025 + noise));
    REQUIRE(level.cuts.size() == 1);
    CHECK(level.cuts[0].width().si == Approx(0.1));
  }
}

TEST_CASE("degenerate 2: where work and part touch nothing is left", "[route][outline]") {
  const Outline a = Outline::cylinder(Length(-0.1), Length(0), Length(0.03));
  const Outline b = Outline::cylinder(Length(-0.1), Length(0), Length(0.03 - 5e-10));
  CHECK(where_above(a, b).empty());
  CHECK(where_above(a, a).empty());
}

TEST_CASE("degenerate 3 and 4: cylinder and face to the centre with the clamp",
          "[route][outline]") {
  const Segment cylinder = line(-0.1, 0.02, 0, 0.02);
  CHECK(volume(cylinder).si == Approx(pi * 0.0004 * 0.1).epsilon(1e-14));
  const Segment face = line(0, 0, 0, 0.02);
  CHECK(surface(face).si == Approx(pi * 0.0004).epsilon(1e-14));
  CHECK(volume(face).si == 0);
  REQUIRE(split_at_radius(face, Length(0.005)).size() == 2);
}

TEST_CASE("degenerate 5: an arc with its top inside crosses a radius twice", "[route][outline]") {
  const Segment s = arc_between({Length(-0.02), Length(0.03)}, {Length(0.02), Length(0.03)},
                                Length(0.03), Bulge::out);
  REQUIRE(turning_point(s));
  CHECK(turning_point(s)->si == Approx(0).margin(1e-12));
  CHECK(split_at_radius(s, Length(0.033)).size() == 3);
  const Length top = radius_at(s, Length(0.0));
  CHECK(split_at_radius(s, top).size() <= 2);  // tangent
  const Level level = cut_level(Outline::cylinder(Length(-0.02), Length(0.02), Length(0.05)),
                                Outline({s}), Length(0.033));
  CHECK(level.cuts.size() == 2);
}

TEST_CASE("degenerate 6: a half circle is whole", "[route][outline]") {
  const Segment half = arc_between({Length(-0.01), Length(0.0)}, {Length(0.01), Length(0.0)},
                                   Length(0.01), Bulge::out);
  CHECK(volume(half).si == Approx(4.0 / 3 * pi * 1e-6).epsilon(1e-12));
  CHECK(surface(half).si == Approx(4 * pi * 1e-4).epsilon(1e-12));
}

TEST_CASE("degenerate 7: a taper is longer along the slope", "[route][outline]") {
  const Segment cone = line(-0.1, 0.03, 0, 0.02);
  CHECK(length(cone).si == Approx(std::hypot(0.1, 0.01)).epsilon(1e-15));
}

TEST_CASE(
    "degenerate 8: a groove leaves a gap in the roughing levels; a collar shades what lies behind "
    "it",
    "[route][outline]") {
  const Outline work = Outline::cylinder(Length(-0.1), Length(0), Length(0.03));
  const Outline collar({line(-0.1, 0.02, -0.06, 0.02), line(-0.06, 0.028, -0.04, 0.028),
                        line(-0.04, 0.02, 0, 0.02)});
  const Level level = cut_level(work, collar, Length(0.021));
  CHECK(level.cuts.size() == 2);
  const Outline shaded = reachable(collar, Number(0.0));
  CHECK(shaded.left_of(Length(-0.08)).si == Approx(0.028));
  CHECK(cut_level(work, shaded, Length(0.021)).cuts.size() == 1);
  const Outline steep = reachable(collar, 45.0 * unit::deg);
  CHECK(steep.left_of(Length(-0.0649)).si == Approx(0.028 - 0.0049).epsilon(1e-9));
  CHECK(steep.left_of(Length(-0.09)).si == Approx(0.02));
}

TEST_CASE("degenerate 9 and 10: what is no function of z is a feature, no material is r = 0",
          "[route][outline]") {
  const Route r = route_of(shaft());
  bool relief = false;
  for (const Feature& f : r.job.features) relief = relief || f.name.id == "feature.relief-f";
  CHECK(relief);
  const Outline a = Outline::cylinder(Length(-0.1), Length(0), Length(0.03));
  CHECK(a.only(Length(-0.05), Length(0.0)).left_of(Length(-0.06)).si == 0);
}

TEST_CASE("degenerate 11: a split keeps the circle", "[route][outline]") {
  Draws draws(3);
  for (int i = 0; i < 500; ++i) {
    const Segment s = random_segment(draws);
    const Length z = s.from.z + (s.to.z - s.from.z) * draws.real(0.1, 0.9);
    const double whole = volume(s).si,
                 parts = volume(between(s, s.from.z, z)).si + volume(between(s, z, s.to.z)).si;
    CHECK(parts == Approx(whole).epsilon(1e-9));
  }
}

TEST_CASE("lower and upper of two outlines share out the volume", "[route][outline]") {
  Draws draws(4);
  for (int i = 0; i < 300; ++i) {
    auto outline = [&] {
      std::vector<Segment> pieces;
      double z = -0.1;
      while (z < -1e-6) {
        const double next = std::min(0.0, z + draws.real(0.005, 0.04));
        pieces.push_back(
            line(z, draws.real(0.01, 0.05), next < -1e-3 ? next : 0, draws.real(0.01, 0.05)));
        z = pieces.back().to.z.si;
      }
      return Outline(pieces);
    };
    const Outline a = outline(), b = outline();
    const double sum =
        combine(a, b, Envelope::lower).volume().si + combine(a, b, Envelope::upper).volume().si;
    CHECK(sum == Approx(a.volume().si + b.volume().si).epsilon(1e-10));
  }
}
