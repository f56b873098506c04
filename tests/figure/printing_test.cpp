// SPDX-License-Identifier: MIT
// How recorded formulas are printed, in cells, symbols and numbers, and their slopes. Every
// expected text and slope is worked by hand.
#include <cmath>

#include "../support.hpp"
#include "turnwright/figure/recorded.hpp"
#include "turnwright/figure/slope.hpp"

using namespace turnwright;
using namespace turnwright::test;

namespace {

// Two plain numbers a = 3 and b = 2, a length of 50 mm and an angle of 30 degrees.
struct Sheet {
  ExpressionGraph graph{{"S", "T"}};
  Expression a = graph.leaf("A1", 3, unit::ratio, 0), b = graph.leaf("B1", 2, unit::ratio, 0),
             length = graph.leaf("C1", 0.05, unit::mm, 0),
             angle = graph.leaf("D1", pi / 6, unit::deg, 0);

  std::string cell(const Expression& e, const Unit& in = unit::ratio) const {
    return a1(graph, e, in, 0);
  }
  std::string symbols(const Expression& e) const { return in_symbols(graph, e); }
  std::string numbers(const Expression& e) const { return with_numbers(graph, e, metric_text); }
  double by_a(const Expression& e) const { return slope(graph, e, a); }
};

}  // namespace

TEST_CASE("every kind of term prints in cells and in symbols", "[figure][recorded]") {
  Sheet s;
  struct Row {
    Expression e;
    const char *cell, *symbols;
  };
  const Expression two(2.0), half(0.5);
  const Row rows[] = {
      {s.a + s.b, "=A1+B1", "A1 + B1"},
      {s.a - s.b, "=A1-B1", "A1 − B1"},
      {s.a - (s.b - s.a), "=A1-(B1-A1)", "A1 − (B1 − A1)"},
      {s.a + (-s.b), "=A1+(-1*B1)", "A1 + (-1 · B1)"},
      {s.a * s.b, "=A1*B1", "A1 · B1"},
      {s.a / (s.b * s.a), "=A1/(B1*A1)", "A1 / (B1 · A1)"},
      {-s.a, "=-1*A1", "-1 · A1"},
      {half * s.a, "=A1/2", "0.5 · A1"},
      {Expression(-0.5) * s.a, "=-1*A1/2", "(-0.5) · A1"},
      {Expression(1e-9) * s.a, "=1e-09*A1", "1e-09 · A1"},
      {Expression(-1e30) * s.a, "=(-1e+30)*A1", "(-1e+30) · A1"},
      {Expression(3 * pi) * s.a, "=3*PI()*A1", "3 · π · A1"},
      {s.a * s.a, "=A1^2", "A1²"},
      {power_of(s.a, Expression(3.0)), "=A1^3", "A1³"},
      {power_of(s.a / s.b, Expression(4.0)), "=A1^4/B1^4", "A1^4 / B1^4"},
      {power_of(s.a, Expression(5.0)), "=A1^5", "A1^5"},
      {power_of(s.a, Expression(1.0)), "=A1^1", "A1^1"},
      {power_of(s.a, Expression(2.5)), "=A1^(5/2)", "A1^2.5"},
      {power_of(s.a, s.b), "=A1^B1", "A1^B1"},
      {power_of(s.a + s.b, two), "=(A1+B1)^2", "(A1 + B1)²"},
      {root_of(s.a), "=SQRT(A1)", "√(A1)"},
      {sin_of(s.a), "=SIN(A1)", "sin(A1)"},
      {cos_of(s.a), "=COS(A1)", "cos(A1)"},
      {tan_of(s.a), "=TAN(A1)", "tan(A1)"},
      {atan_of(s.a), "=ATAN(A1)", "arctan(A1)"},
      {log_of(s.a), "=LN(A1)", "ln(A1)"},
      {whole_up_of(s.a), "=ROUNDUP(A1-1E-09,0)", "whole number above(A1)"},
      {whole_down_of(s.a), "=INT(A1+1E-09)", "whole number below(A1)"},
      {min_of(s.a, s.b), "=MIN(A1,B1)", "least of (A1, B1)"},
      {max_of(s.a, s.b), "=MAX(A1,B1)", "greatest of (A1, B1)"},
      {select_of(s.a < s.b, s.a, s.b), "=IF(A1<B1,A1,B1)", "A1 if A1 < B1, else B1"},
      {select_of(s.a <= s.b, two, s.b), "=IF(A1<=B1,2,B1)", "2 if A1 ≤ B1, else B1"},
      {money_of(s.a), "=ROUND(ROUND(A1,6),2)", "A1"},
      {money_to_step(s.a, s.b), "=ROUND(ROUND(A1,6)/B1,0)*B1", "A1"}};
  for (const Row& row : rows) {
    CHECK(s.cell(row.e) == row.cell);
    CHECK(s.symbols(row.e) == row.symbols);
  }
}

TEST_CASE("units go into the constants of a cell, and stand beside numbers in words",
          "[figure][recorded]") {
  Sheet s;
  CHECK(s.cell(s.length * s.length, unit::mm2) == "=C1^2");
  CHECK(s.cell(root_of(s.length * s.length), unit::mm) == "=SQRT(C1^2)");
  CHECK(s.cell(root_of(s.length), unit::ratio) == "=SQRT(C1/1000)");
  CHECK(s.cell(sin_of(s.angle), unit::ratio) == "=SIN(RADIANS(D1))");
  CHECK(s.cell(atan_of(s.a), unit::deg) == "=DEGREES(ATAN(A1))");
  CHECK(s.cell(max_of(Expression(0.0), s.length), unit::mm) == "=MAX(0,C1)");
  CHECK(s.cell(times_unit(s.a, unit::mm, 1), unit::mm) == "=A1");
  CHECK(s.cell(times_unit(s.length, unit::mm, -1)) == "=C1");
  CHECK(s.symbols(times_unit(s.a, unit::mm, 1)) == "A1 · mm");
  CHECK(s.numbers(times_unit(s.a, unit::mm, 1)) == "3 · 1 mm");
  CHECK(s.numbers(s.length * s.length) == "(50 mm)²");
  CHECK(s.numbers(s.a / s.length) == "3 / 50 mm");
  CHECK(a1(s.graph, Expression(0.05), unit::mm, 0) == "=50");
  CHECK(s.symbols(Expression(0.5)) == "0.5");
  CHECK(s.numbers(Expression(0.5)) == "0.5");
  // A constant alone is one too, and a minus before it is no product.
  CHECK(s.cell(s.a - Expression(-2.0)) == "=A1-(-2)");
  CHECK(s.cell(min_of(s.a, Expression(-4.0))) == "=MIN(A1,-4)");
}

TEST_CASE("a placed term is its cell, in its unit and from its sheet", "[figure][recorded]") {
  Sheet s;
  const Expression twice = s.length + s.length;
  s.graph.place(twice, "E1", unit::mm, 1);
  s.graph.place(twice, "F1", unit::mm, 1);     // placed once
  s.graph.place(s.length, "G1", unit::mm, 1);  // a leaf stays what it is
  s.graph.place(Expression(3.0), "H1", unit::mm, 1);
  CHECK(s.cell(twice * s.a, unit::mm) == "=T!E1*A1");
  CHECK(a1(s.graph, twice * s.a, unit::mm, 1) == "=E1*S!A1");
  CHECK(s.cell(s.length, unit::mm) == "=C1");
}

TEST_CASE("what is worked with plain constants alone leaves no record", "[figure][recorded]") {
  const Expression three(3.0), two(2.0);
  CHECK((three + two).record == nullptr);
  CHECK((-three).value == -3);
  CHECK(root_of(three * three).value == Approx(3));
  CHECK((three < two).record == nullptr);
  CHECK(select_of(three < two, three, two).value == 2);
  CHECK(select_of(two <= three, three, two).value == 3);
  CHECK(times_unit(three, unit::mm, 1).value == Approx(0.003));
  CHECK(times_unit(three, unit::mm, 1).record == nullptr);
  // Nothing added, nothing taken away: the number itself.
  Sheet s;
  CHECK((s.a + Expression(0.0)).term == s.a.term);
  CHECK((Expression(0.0) + s.a).term == s.a.term);
  CHECK((s.a - Expression(0.0)).term == s.a.term);
  CHECK(s.cell(Expression(0.0) - s.a) == "=0-A1");
}

TEST_CASE("slopes are those of the calculus, of every kind of term", "[figure][slope]") {
  Sheet s;
  const double a = 3, b = 2;
  const Expression two(2.0);
  CHECK(s.by_a(s.a + s.b) == 1);
  CHECK(s.by_a(s.b - s.a) == -1);
  CHECK(s.by_a(s.a * s.b) == b);
  CHECK(s.by_a(s.b / s.a) == Approx(-b / (a * a)));
  CHECK(s.by_a(-s.a) == -1);
  CHECK(s.by_a(s.a * s.a) == Approx(2 * a));
  CHECK(s.by_a(power_of(s.b, s.a)) == Approx(std::pow(b, a) * std::log(b)));
  CHECK(s.by_a(power_of(s.a, s.a)) == Approx(std::pow(a, a) * (1 + std::log(a))));
  CHECK(s.by_a(root_of(s.a)) == Approx(0.5 / std::sqrt(a)));
  CHECK(s.by_a(root_of(s.b) * s.a) == Approx(std::sqrt(b)));
  CHECK(s.by_a(sin_of(s.a)) == Approx(std::cos(a)));
  CHECK(s.by_a(cos_of(s.a)) == Approx(-std::sin(a)));
  CHECK(s.by_a(tan_of(s.a)) == Approx(1 / (std::cos(a) * std::cos(a))));
  CHECK(s.by_a(atan_of(s.a)) == Approx(1 / (1 + a * a)));
  CHECK(s.by_a(log_of(s.a)) == Approx(1 / a));
  CHECK(s.by_a(min_of(s.a, s.b)) == 0);
  CHECK(s.by_a(min_of(s.b, s.a * two)) == 0);
  CHECK(s.by_a(max_of(s.a, s.b)) == 1);
  CHECK(s.by_a(max_of(s.b, s.a)) == 1);
  CHECK(s.by_a(select_of(s.a < s.b, s.a, s.b)) == 0);
  CHECK(s.by_a(select_of(s.b <= s.a, s.a * two, s.b)) == 2);
  CHECK(s.by_a(whole_up_of(s.a)) == 0);
  CHECK(s.by_a(whole_down_of(s.a)) == 0);
  CHECK(s.by_a(money_of(s.a)) == 0);
  CHECK(s.by_a(money_to_step(s.a, s.b)) == 0);
  CHECK(s.by_a(times_unit(s.a, unit::mm, 1)) == Approx(0.001));
  // Of what the number is not made of there is none.
  CHECK(std::isnan(s.by_a(s.b * two)));
  CHECK(std::isnan(s.by_a(Expression(3.0))));
  CHECK(std::isnan(slope(s.graph, s.a, Expression(3.0))));
}
