// SPDX-License-Identifier: MIT
#include "../../src/route/geometry/bend.hpp"
#include <cmath>

#include "../support.hpp"
#include "turnwright/figure/stiffness.hpp"

using namespace turnwright;
using test::shipped_shop;

namespace {
const Length L(0.4), D(0.025);
const Pressure E(206e9);
const Outline bar = Outline::cylinder(Length(-0.4), Length(0.0), D / 2.0);
HeldWork held(Support support) {
  return {bar, Length(-0.4), Length(0.0), support, E, shipped_shop().practice,
          0,   nullptr,      std::nullopt};
}
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
  const HeldWork thick{
      stepped, Length(-0.4), Length(0.0), Support::chuck, E, shipped_shop().practice,
      0,       nullptr,      std::nullopt};
  CHECK(compliance_at(thick, Length(0.0)) < compliance_at(held(Support::chuck), Length(0.0)));
}

namespace {

// Another way to the same deflection: the beam equation E I y'' = M by finite differences on a fine
// grid, the reactions of the supports by superposition. It shares nothing with the planner but the
// outline.
class Differences {
 public:
  Differences(const std::vector<std::pair<double, double>>& steps, double modulus, double chuck)
      : modulus_(modulus), chuck_(chuck) {
    for (const auto& [length, radius] : steps) {
      length_ += length;
      ends_.push_back(length_);
      radii_.push_back(radius);
    }
  }
  double length() const { return length_; }
  // Deflection at x under a unit force at a, clamped at 0, by two sums over the grid.
  double flexibility(double x, double a) const {
    double slope = 0, y = 0;
    const double h = length_ / cells;
    for (int i = 0; i < cells; ++i) {
      const double s = (i + 0.5) * h;
      if (s > x) break;
      const double moment = s < a ? a - s : 0;
      const double bend = moment / (modulus_ * inertia(s)) * h;
      y += slope * h + bend * h / 2;
      slope += bend;
    }
    // What is left between the last grid point and x.
    const double rest = x - std::floor(x / h + 0.5) * h;
    return y + slope * rest + chuck_;
  }
  // With supports that give by `soft`, as a set of linear equations.
  double supported(double x, std::vector<double> at, double soft) const {
    const std::size_t n = at.size();
    std::vector<std::vector<double>> m(n, std::vector<double>(n + 1));
    for (std::size_t i = 0; i < n; ++i) {
      for (std::size_t j = 0; j < n; ++j) m[i][j] = flexibility(at[i], at[j]) + (i == j ? soft : 0);
      m[i][n] = flexibility(at[i], x);
    }
    for (std::size_t k = 0; k < n; ++k)
      for (std::size_t i = k + 1; i < n; ++i) {
        const double f = m[i][k] / m[k][k];
        for (std::size_t j = k; j <= n; ++j) m[i][j] -= f * m[k][j];
      }
    double y = flexibility(x, x);
    std::vector<double> r(n);
    for (std::size_t i = n; i-- > 0;) {
      r[i] = m[i][n];
      for (std::size_t j = i + 1; j < n; ++j) r[i] -= m[i][j] * r[j];
      r[i] /= m[i][i];
    }
    for (std::size_t i = 0; i < n; ++i) y -= r[i] * flexibility(x, at[i]);
    return y;
  }

 private:
  static constexpr int cells = 20000;
  double inertia(double s) const {
    for (std::size_t i = 0; i < ends_.size(); ++i)
      if (s < ends_[i]) return pi / 4 * std::pow(radii_[i], 4);
    return pi / 4 * std::pow(radii_.back(), 4);
  }
  double modulus_, chuck_, length_ = 0;
  std::vector<double> ends_, radii_;
};

}  // namespace

TEST_CASE("stepped shafts bend as finite differences say, to a thousandth", "[route][bend]") {
  test::Draws draws(88);
  double worst = 0;
  for (int i = 0; i < 60; ++i) {
    std::vector<std::pair<double, double>> steps;
    std::vector<Segment> pieces;
    const int n = draws.whole(2, 6);
    for (int k = 0; k < n; ++k)
      steps.emplace_back(0.02 + draws.whole(0, 10) * 0.01, 0.006 + draws.whole(0, 24) * 0.001);
    const Differences other(steps, 207e9, 3e-8);
    double z = -other.length();
    for (const auto& [length, radius] : steps) {
      pieces.push_back(
          {{Length(z), Length(radius)}, {Length(z + length), Length(radius)}, Bulge::none, {}, {}});
      z += length;
    }
    const Outline shape(pieces);
    HeldWork work{shape,           Length(-other.length()), Length(0.0), Support::chuck,
                  Pressure(207e9), shipped_shop().practice, 3e-8,        nullptr,
                  std::nullopt};
    const double x = other.length() * draws.real(0.15, 0.95);
    const Length at(x - other.length());
    auto compare = [&](double ours, double theirs) {
      worst = std::max(worst, std::abs(ours / theirs - 1));
      CHECK(ours == Approx(theirs).epsilon(1e-3));
    };
    compare(compliance_at(work, at), other.flexibility(x, x));
    work.support = Support::chuck_and_centre;
    compare(compliance_at(work, at), other.supported(x, {other.length()}, 2e-8));
    work.steady = Length(-other.length() / 2);
    compare(compliance_at(work, at),
            other.supported(x, {other.length(), other.length() / 2}, 2e-8));
  }
  INFO("worst " << worst);
  CHECK(worst < 1e-3);
}

TEST_CASE("a hollow bar bends more than a solid one, by its fourth powers", "[route][bend]") {
  const Outline hole = Outline::cylinder(Length(-0.4), Length(0.0), D * 0.3);
  HeldWork work = held(Support::chuck);
  const double solid = compliance_at(work, Length(0.0));
  work.hollow = &hole;
  CHECK(compliance_at(work, Length(0.0)) == Approx(solid / (1 - std::pow(0.6, 4))).epsilon(1e-9));
}
