// SPDX-License-Identifier: MIT
// Sizes and volumes by standards, closed forms and by hand.
#include <algorithm>
#include <cmath>

#include "../support.hpp"
#include "turnwright/route/segment.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

std::string part_with(const std::string& outside, const std::string& more = "") {
  return "part: {number: T}\nmaterial: C45\nquantities: [1]\noutside: [" + outside + "]\n" + more;
}

const Step* step_of(const Route& route, StepKind kind) {
  for (const Operation& o : route.operations)
    for (const Step& s : o.steps)
      if (s.kind == kind) return &s;
  return nullptr;
}

}  // namespace

TEST_CASE("the last pass of an inside thread is at its nominal diameter", "[route][thread]") {
  // ISO 724: D1 = D - 1.082532 P is bored, within 0.375 by ISO 965 6H; the flanks end at D.
  const Route r =
      route_of(part_with("60 x60", "bore from right: [\"M36x2 x30\"]\n"), "CNC lathe, medium");
  const Step* step = step_of(r, StepKind::thread);
  REQUIRE(step != nullptr);
  const CutSegment& last = step->segments.back();
  CHECK(2 * in(last.from.r, unit::mm) == Approx(36).margin(0.2));
  CHECK(2 * in(step->segments.front().from.r, unit::mm) ==
        Approx(36 - 1.0825 * 2 + 2 * in(step->segments.front().depth, unit::mm)).margin(0.2));
  // The speed is that at the largest diameter it cuts.
  CHECK(in(last.spindle, unit::rev_per_min) ==
        Approx(in(last.surface_speed, unit::m_per_min) * 1000 / (3.14159265 * 36)).epsilon(0.02));
}

TEST_CASE("the wedge of a relief F is its section times the circle of its centroid", "[route]") {
  // DIN 509 F on 50: 0.3 deep, the wedge 2.3 high and 0.2 deep: its centroid a third of the height
  // above the floor. 2 pi (25 - 0.3 + 2.3/3) x 2.3 x 0.2/2 = 36.80 mm3 (Pappus).
  const Job job = job_of(part_with("\"50 x40, relief F left\", 70 x40"));
  const auto wedge = std::find_if(job.features.begin(), job.features.end(),
                                  [](const Feature& f) { return f.name.id == "feature.relief-f"; });
  REQUIRE(wedge != job.features.end());
  CHECK(in(wedge->volume, unit::mm3) == Approx(36.80).epsilon(0.001));
}

TEST_CASE("an arc is as long however its angles wrap", "[route][outline]") {
  // A quarter of a circle of 10 whose end lies on the turn of the angle, on either side of it.
  for (const double past : {-1e-15, 0.0, 1e-15}) {
    const Segment s{{-10.0 * unit::mm, Length(0.020 + past)},
                    {0.0 * unit::mm, 30.0 * unit::mm},
                    Bulge::out,
                    {0.0 * unit::mm, 20.0 * unit::mm},
                    10.0 * unit::mm};
    CHECK(in(length(s), unit::mm) == Approx(5 * 3.14159265358979));
    CHECK(surface(s).si ==
          Approx(2 * 3.14159265358979 * (0.02 * 0.005 * 3.14159265358979 + 0.01 * 0.01)));
  }
}

TEST_CASE("an O-ring groove says what its depth rests on, a plain one does not", "[route]") {
  const auto cautioned = [](const std::string& groove) {
    const Job job = job_of(part_with("\"50 x60, " + groove + "\""));
    return std::any_of(job.cautions.begin(), job.cautions.end(),
                       [](const Message& m) { return m.id == "prepare.o-ring-groove"; });
  };
  CHECK(cautioned("O-ring 3 at 30"));
  CHECK_FALSE(cautioned("groove 4 wide 2 deep at 30"));
}

TEST_CASE("work drawn in for facing stands one and a half diameters out", "[route][clamping]") {
  // 40 raw, through the spindle: faced 60 mm out of the jaws, turned at the centre afterwards.
  const Route r = route_of(
      "part: {number: T}\nmaterial: C45\nquantities: [1]\nstock: {round: 40, condition: hot "
      "rolled}\n"
      "outside: [\"30 x200\", \"36 x150\"]\n",
      "CNC lathe, medium");
  const auto drawn = std::find_if(r.operations.begin(), r.operations.end(),
                                  [](const Operation& o) { return o.drawn_in; });
  REQUIRE(drawn != r.operations.end());
  CHECK(in(drawn->grip_diameter, unit::mm) == Approx(40));
  CHECK(in(drawn->steps.front().stick_out, unit::mm) == Approx(60));
  CHECK_THAT(in(drawn->stick_out, unit::mm), !Catch::WithinAbs(60, 1));
}

TEST_CASE("rough cuts are as many as the depth allows, and no more", "[route]") {
  // A fit of 30 from 40 leaves at most 0.5 for the last cut: what is roughed is 4.5 a side or so,
  // and the passes are its whole number of depths, all equally deep.
  Shop shop = shipped_shop();
  for (const double deepest : {1.0, 1.4, 2.0, 5.0}) {
    for (Tool& tool : shop.tools) tool.largest_depth = deepest * unit::mm;
    const Route r = route_of(
        "part: {number: T}\nmaterial: C45\nquantities: [1]\nstock: {round: 40, condition: drawn}\n"
        "outside: [\"30 h6 x60\", 40 x40]\n",
        "CNC lathe, medium", MethodKind::rough_then_finish, shop);
    const Step* step = step_of(r, StepKind::rough);
    REQUIRE(step != nullptr);
    double roughed = 0;
    for (const CutSegment& s : step->segments) roughed += in(s.depth, unit::mm);
    INFO(deepest << " mm: " << roughed);
    CHECK(roughed == Approx(4.5).margin(0.15));
    // A fiftieth of the depth makes no pass more.
    const int passes = static_cast<int>(std::ceil(roughed / deepest - 0.02));
    CHECK(step->segments.size() == static_cast<std::size_t>(passes));
    for (const CutSegment& s : step->segments)
      CHECK(in(s.depth, unit::mm) == Approx(roughed / passes));
  }
}

TEST_CASE("the power of a cut is its force times its speed", "[route]") {
  // Kienzle: kc = kc1.1 (f sin kappa / 1 mm)^-mc, P = d f kc v, at the spindle: no loss in it.
  const Route r = route_of(part_with("40 x60, 50 x40"), "CNC lathe, medium");
  const Step* step = step_of(r, StepKind::rough);
  REQUIRE(step != nullptr);
  const auto power = std::find_if(step->limits.begin(), step->limits.end(),
                                  [](const LimitCheck& l) { return l.limit == LimitId::power; });
  REQUIRE(power != step->limits.end());
  const Material& m = r.job.material;
  const Tool* tool = shipped_shop().tool(step->tool);
  REQUIRE(tool != nullptr);
  const double f = in(step->used.feed, unit::mm), d = in(step->used.depth, unit::mm);
  const double force =
      in(m.kc11, unit::N_per_mm2) * std::pow(f * std::sin(tool->lead_angle.si), -m.mc) * f * d;
  CHECK(power->actual == Approx(force * step->used.surface_speed.si));
}

TEST_CASE("a blank is called by how it comes", "[route]") {
  Stock stock;
  CHECK(blank_label(stock).id == "text.blank");  // a casting has no section
  stock.section = 1.0 * unit::mm2;
  CHECK(blank_label(stock).id == "text.blank-sawn");
  stock.from_bar = true;
  CHECK(blank_label(stock).id == "text.blank-from-bar");
  stock.pieces = 1;
  CHECK(blank_label(stock).id == "text.blank-from-length");
}

TEST_CASE("a kind of method has its word", "[route]") {
  CHECK(method_kind_named("rough then finish") == MethodKind::rough_then_finish);
  CHECK(method_kind_named("two finish cuts") == MethodKind::two_finish_cuts);
  CHECK(method_kind_named("between centres") == MethodKind::between_centres);
  CHECK(method_kind_named("leave and grind") == MethodKind::leave_and_grind);
  CHECK_FALSE(method_kind_named("leave"));
}
