// SPDX-License-Identifier: MIT
#pragma once
// A number that remembers how it came about. Formulas worked with it leave a tree of terms in a
// Record; the tree prints as a spreadsheet formula (with each factor between units as an exact
// fraction), in symbols, or with numbers. A term that was placed in a cell prints as that cell in
// every later formula.
//   Record record({"Steps"});
//   Expression v = record.leaf("B2", 2.0, unit::m_per_min, 0), d = record.leaf("C2", 0.05,
//   unit::mm, 0); auto n = SpindleSpeed::work_out<Expression>({v, d}).spindle_speed; a1(record,
//   n.si, unit::rev_per_min, 0)    // "=1000*B2/(PI()*C2)"
#include <functional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "turnwright/quantity/unit.hpp"

namespace turnwright {

class ExpressionGraph;

struct Expression {
  double value = 0;
  ExpressionGraph* record = nullptr;  // none: a plain constant
  int term = -1;

  Expression() = default;
  Expression(double constant) : value(constant) {}  // NOLINT(google-explicit-constructor)
  Expression(double v, ExpressionGraph* r, int t) : value(v), record(r), term(t) {}
};

struct Condition {
  bool holds = false;
  ExpressionGraph* record = nullptr;
  int term = -1;
};

enum class TermKind {
  number,
  unit_factor,
  leaf,
  sum,
  difference,
  product,
  quotient,
  negative,
  power,
  root,
  sine,
  cosine,
  tangent,
  arc_tangent,
  logarithm,
  whole_up,
  whole_down,
  least,
  greatest,
  choice,
  at_most,
  less,
  money,
  to_step
};

struct Term {
  TermKind kind = TermKind::number;
  double value = 0;
  int a = -1, b = -1, c = -1;
  std::string text;  // a leaf's cell, symbol or function call; then the placed cell
  Unit unit;         // a leaf's or a placed term's unit; a factor's unit
  std::string unit_name;
  int sheet = -1;
  bool placed = false;
};

class ExpressionGraph {
 public:
  ExpressionGraph() = default;
  explicit ExpressionGraph(std::vector<std::string> sheets) : sheets_(std::move(sheets)) {}
  ExpressionGraph(const ExpressionGraph&) = delete;
  ExpressionGraph& operator=(const ExpressionGraph&) = delete;

  /// A cell (or symbol) with its value in SI and the unit it is shown in.
  Expression leaf(std::string text, double si, const Unit& unit, int sheet = -1);
  /// A spreadsheet function call whose text and value the caller gives (SUMIFS, INDEX …).
  Expression call(std::string text, double si, const Unit& unit) {
    return leaf(std::move(text), si, unit, -1);
  }
  /// From now on the number prints as this cell. A leaf stays what it is.
  void place(const Expression& number, std::string cell, const Unit& unit, int sheet);

  int add(Term term);
  const Term& term(int i) const { return terms_[static_cast<std::size_t>(i)]; }
  const std::vector<std::string>& sheets() const { return sheets_; }

 private:
  std::vector<Term> terms_;
  std::vector<std::string> sheets_;
};

Expression operator+(const Expression& a, const Expression& b);
Expression operator-(const Expression& a, const Expression& b);
Expression operator*(const Expression& a, const Expression& b);
Expression operator/(const Expression& a, const Expression& b);
Expression operator-(const Expression& a);
Condition operator<(const Expression& a, const Expression& b);
Condition operator<=(const Expression& a, const Expression& b);
Expression min_of(const Expression& a, const Expression& b);
Expression max_of(const Expression& a, const Expression& b);
Expression root_of(const Expression& a);
Expression power_of(const Expression& a, const Expression& b);
Expression sin_of(const Expression& a);
Expression cos_of(const Expression& a);
Expression tan_of(const Expression& a);
Expression atan_of(const Expression& a);
Expression log_of(const Expression& a);
Expression whole_up_of(const Expression& a);
Expression whole_down_of(const Expression& a);
Expression select_of(const Condition& condition, const Expression& a, const Expression& b);
Expression times_unit(const Expression& a, const Unit& unit, int sign);
/// The rule of money in a cell: ROUND(ROUND(x,6),2); the value is the engine's `rounded`.
Expression money_of(const Expression& a);
/// ROUND(ROUND(x,6)/step,0)*step.
Expression money_to_step(const Expression& a, const Expression& step);

inline double value_of(double a) { return a; }
inline double value_of(const Expression& a) { return a.value; }

/// The cell's formula, "=" included, for a cell shown in `shown` on sheet `on_sheet`.
std::string a1(const ExpressionGraph& record, const Expression& number, const Unit& shown,
               int on_sheet);
/// How a quantity with its unit is written where a formula shows its numbers.
using QuantityText = std::function<std::string(double si, const Unit& unit)>;
/// "vc / (π · D)" and "120 m/min / (π · 60 mm)": for reading, not for calculating.
std::string in_symbols(const ExpressionGraph& record, const Expression& number);
std::string with_numbers(const ExpressionGraph& record, const Expression& number,
                         const QuantityText& written);

}  // namespace turnwright
