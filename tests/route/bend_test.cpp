// SPDX-License-Identifier: MIT
#include "../../src/route/bend.hpp"
#include "../support.hpp"
#include "turnwright/figure/stiffness.hpp"

using namespace turnwright;

namespace {
const Length L(0.4), D(0.025);
const Pressure E(206e9);
const Outline bar = Outline::cylinder(Length(-0.4), Length(0.0), D / 2.0);
HeldWork held(Support support) { return {bar, Length(-0.4), Length(0.0), support, E, 0}; }
}  // namespace

TEST_CASE("a plain bar bends as the handbook's beams do", "[route][bend][evidence]") {
  // Machinery's Handbook beam cases and Roark, as the figures deflection-*; the centre gives a
  // little.
  const double chuck = figure::DeflectionChuck::work_out<>({Force(1.0), L, D, E}).deflection.si;
  CHECK(compliance_at(held(Support::chuck), Length(0.0)) == Approx(chuck).epsilon(1e-9));
  const double propped =
      figure::DeflectionChuckCentre::work_out<>({Force(1.0), L, D, E}).deflection.si;
  CHECK(compliance_at(held(Support::chuck_and_centre), Length(-0.2)) ==
        Approx(propped).epsilon(0.02));
  const double pinned = figure::DeflectionCentres::work_out<>({Force(1.0), L, D, E}).deflection.si;
  CHECK(compliance_at(held(Support::between_centres), Length(-0.2)) ==
        Approx(pinned).epsilon(0.05));
}

TEST_CASE("support always stiffens, a thicker root too", "[route][bend]") {
  for (const double z : {-0.3, -0.2, -0.1, -0.02}) {
    const double free = compliance_at(held(Support::chuck), Length(z));
    CHECK(compliance_at(held(Support::chuck_and_centre), Length(z)) <= free + 2e-8);
  }
  const Outline stepped(
      {{{Length(-0.4), Length(0.02)}, {Length(-0.2), Length(0.02)}, Bulge::none, {}, {}},
       {{Length(-0.2), D / 2.0}, {Length(0.0), D / 2.0}, Bulge::none, {}, {}}});
  const HeldWork thick{stepped, Length(-0.4), Length(0.0), Support::chuck, E, 0};
  CHECK(compliance_at(thick, Length(0.0)) < compliance_at(held(Support::chuck), Length(0.0)));
}
