// SPDX-License-Identifier: MIT
#pragma once
// A number that remembers how it came about. Formulas worked with it leave a tree of terms in a
// Record; the tree prints as a spreadsheet formula (with each factor between units as an exact
// fraction), in symbols, or with numbers. A term that was placed in a cell prints as that cell in
// every later formula.
//   Record record({"Steps"});
//   Recorded v = record.leaf("B2", 2.0, unit::m_per_min, 0), d = record.leaf("C2", 0.05, unit::mm,
//   0); auto n = SpindleSpeed::work_out<Recorded>({v, d}).spindle_speed; a1(record, n.si,
//   unit::rev_per_min, 0)    // "=1000*B2/(PI()*C2)"
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "turnwright/quantity/unit.hpp"

namespace turnwright {

class Record;

struct Recorded {
  double value = 0;
  Record* record = nullptr;  // none: a plain constant
  int term = -1;

  Recorded() = default;
  Recorded(double constant) : value(constant) {}  // NOLINT(google-explicit-constructor)
  Recorded(double v, Record* r, int t) : value(v), record(r), term(t) {}
};

struct RecordedCondition {
  bool holds = false;
  Record* record = nullptr;
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

class Record {
 public:
  Record() = default;
  explicit Record(std::vector<std::string> sheets) : sheets_(std::move(sheets)) {}
  Record(const Record&) = delete;
  Record& operator=(const Record&) = delete;

  /// A cell (or symbol) with its value in SI and the unit it is shown in.
  Recorded leaf(std::string text, double si, const Unit& unit, int sheet = -1);
  /// A spreadsheet function call whose text and value the caller gives (SUMIFS, INDEX …).
  Recorded call(std::string text, double si, const Unit& unit) {
    return leaf(std::move(text), si, unit, -1);
  }
  /// From now on the number prints as this cell. A leaf stays what it is.
  void place(const Recorded& number, std::string cell, const Unit& unit, int sheet);

  int add(Term term);
  const Term& term(int i) const { return terms_[static_cast<std::size_t>(i)]; }
  const std::vector<std::string>& sheets() const { return sheets_; }

 private:
  std::vector<Term> terms_;
  std::vector<std::string> sheets_;
};

Recorded operator+(const Recorded& a, const Recorded& b);
Recorded operator-(const Recorded& a, const Recorded& b);
Recorded operator*(const Recorded& a, const Recorded& b);
Recorded operator/(const Recorded& a, const Recorded& b);
Recorded operator-(const Recorded& a);
RecordedCondition operator<(const Recorded& a, const Recorded& b);
RecordedCondition operator<=(const Recorded& a, const Recorded& b);
Recorded min_of(const Recorded& a, const Recorded& b);
Recorded max_of(const Recorded& a, const Recorded& b);
Recorded root_of(const Recorded& a);
Recorded power_of(const Recorded& a, const Recorded& b);
Recorded sin_of(const Recorded& a);
Recorded cos_of(const Recorded& a);
Recorded tan_of(const Recorded& a);
Recorded atan_of(const Recorded& a);
Recorded log_of(const Recorded& a);
Recorded whole_up_of(const Recorded& a);
Recorded whole_down_of(const Recorded& a);
Recorded select_of(const RecordedCondition& condition, const Recorded& a, const Recorded& b);
Recorded times_unit(const Recorded& a, const Unit& unit, int sign);
/// The rule of money in a cell: ROUND(ROUND(x,6),2); the value is the engine's `rounded`.
Recorded money_of(const Recorded& a);
/// ROUND(ROUND(x,6)/step,0)*step.
Recorded money_to_step(const Recorded& a, const Recorded& step);

inline double value_of(double a) { return a; }
inline double value_of(const Recorded& a) { return a.value; }

/// The cell's formula, "=" included, for a cell shown in `shown` on sheet `on_sheet`.
std::string a1(const Record& record, const Recorded& number, const Unit& shown, int on_sheet);
/// "vc / (π · D)" and "120 m/min / (π · 60 mm)": for reading, not for calculating.
std::string in_symbols(const Record& record, const Recorded& number);
std::string with_numbers(const Record& record, const Recorded& number);

}  // namespace turnwright
