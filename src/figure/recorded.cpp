// SPDX-License-Identifier: MIT
#include "turnwright/figure/recorded.hpp"

#include <cmath>

#include "turnwright/quantity/money.hpp"

namespace turnwright {
namespace {

ExpressionGraph* record_of(const Expression& a, const Expression& b) {
  return a.record != nullptr ? a.record : b.record;
}

int term_of(ExpressionGraph& record, const Expression& a) {
  if (a.record != nullptr) return a.term;
  Term term;
  term.kind = TermKind::number;
  term.value = a.value;
  return record.add(std::move(term));
}

Expression combined(TermKind kind, double value, const Expression& a, const Expression& b) {
  ExpressionGraph* record = record_of(a, b);
  if (record == nullptr) return {value};
  Term term;
  term.kind = kind;
  term.value = value;
  term.a = term_of(*record, a);
  term.b = term_of(*record, b);
  return {value, record, record->add(std::move(term))};
}

Expression applied(TermKind kind, double value, const Expression& a) {
  if (a.record == nullptr) return {value};
  Term term;
  term.kind = kind;
  term.value = value;
  term.a = a.term;
  return {value, a.record, a.record->add(std::move(term))};
}

Condition compared(TermKind kind, bool holds, const Expression& a, const Expression& b) {
  ExpressionGraph* record = record_of(a, b);
  if (record == nullptr) return {holds, nullptr, -1};
  Term term;
  term.kind = kind;
  term.a = term_of(*record, a);
  term.b = term_of(*record, b);
  return {holds, record, record->add(std::move(term))};
}

}  // namespace

int ExpressionGraph::add(Term term) {
  terms_.push_back(std::move(term));
  return static_cast<int>(terms_.size()) - 1;
}

Expression ExpressionGraph::leaf(std::string text, double si, const Unit& unit, int sheet) {
  Term term;
  term.kind = TermKind::leaf;
  term.value = si;
  term.text = std::move(text);
  term.unit = unit;
  term.unit_name = unit.name;
  term.sheet = sheet;
  return {si, this, add(std::move(term))};
}

void ExpressionGraph::place(const Expression& number, std::string cell, const Unit& unit,
                            int sheet) {
  if (number.record != this) return;
  Term& term = terms_[static_cast<std::size_t>(number.term)];
  if (term.placed || term.kind == TermKind::leaf) return;
  term.placed = true;
  term.text = std::move(cell);
  term.unit = unit;
  term.unit_name = unit.name;
  term.sheet = sheet;
}

Expression operator+(const Expression& a, const Expression& b) {
  if (b.record == nullptr && b.value == 0) return a;
  if (a.record == nullptr && a.value == 0) return b;
  return combined(TermKind::sum, a.value + b.value, a, b);
}
Expression operator-(const Expression& a, const Expression& b) {
  if (b.record == nullptr && b.value == 0) return a;
  return combined(TermKind::difference, a.value - b.value, a, b);
}
Expression operator*(const Expression& a, const Expression& b) {
  if (a.record != nullptr && a.record == b.record && a.term == b.term)
    return combined(TermKind::power, a.value * a.value, a, Expression(2.0));
  return combined(TermKind::product, a.value * b.value, a, b);
}
Expression operator/(const Expression& a, const Expression& b) {
  return combined(TermKind::quotient, a.value / b.value, a, b);
}
Expression operator-(const Expression& a) { return applied(TermKind::negative, -a.value, a); }
Condition operator<(const Expression& a, const Expression& b) {
  return compared(TermKind::less, a.value < b.value, a, b);
}
Condition operator<=(const Expression& a, const Expression& b) {
  return compared(TermKind::at_most, a.value <= b.value, a, b);
}
Expression min_of(const Expression& a, const Expression& b) {
  return combined(TermKind::least, min_of(a.value, b.value), a, b);
}
Expression max_of(const Expression& a, const Expression& b) {
  return combined(TermKind::greatest, max_of(a.value, b.value), a, b);
}
Expression root_of(const Expression& a) { return applied(TermKind::root, root_of(a.value), a); }
Expression power_of(const Expression& a, const Expression& b) {
  return combined(TermKind::power, power_of(a.value, b.value), a, b);
}
Expression sin_of(const Expression& a) { return applied(TermKind::sine, sin_of(a.value), a); }
Expression cos_of(const Expression& a) { return applied(TermKind::cosine, cos_of(a.value), a); }
Expression tan_of(const Expression& a) { return applied(TermKind::tangent, tan_of(a.value), a); }
Expression atan_of(const Expression& a) {
  return applied(TermKind::arc_tangent, atan_of(a.value), a);
}
Expression log_of(const Expression& a) { return applied(TermKind::logarithm, log_of(a.value), a); }
Expression whole_up_of(const Expression& a) {
  return applied(TermKind::whole_up, whole_up_of(a.value), a);
}
Expression whole_down_of(const Expression& a) {
  return applied(TermKind::whole_down, whole_down_of(a.value), a);
}
Expression select_of(const Condition& condition, const Expression& a, const Expression& b) {
  const double value = condition.holds ? a.value : b.value;
  if (condition.record == nullptr) return condition.holds ? a : b;
  Term term;
  term.kind = TermKind::choice;
  term.value = value;
  term.c = condition.term;
  term.a = term_of(*condition.record, a);
  term.b = term_of(*condition.record, b);
  return {value, condition.record, condition.record->add(std::move(term))};
}
Expression times_unit(const Expression& a, const Unit& unit, int sign) {
  const double value = times_unit(a.value, unit, sign);
  if (a.record == nullptr) return {value};
  Term factor;
  factor.kind = TermKind::unit_factor;
  factor.unit = unit;
  factor.unit_name = unit.name;
  factor.value = as_double(unit.si);
  const double factor_value = factor.value;
  const Expression f(factor_value, a.record, a.record->add(std::move(factor)));
  return combined(sign > 0 ? TermKind::product : TermKind::quotient, value, a, f);
}
Expression money_of(const Expression& a) {
  return applied(TermKind::money, rounded(Amount(a.value)).amount().si, a);
}
Expression money_to_step(const Expression& a, const Expression& step) {
  const Money to = rounded(Amount(step.value));
  return combined(TermKind::to_step, rounded_to_step(Amount(a.value), to).amount().si, a, step);
}

}  // namespace turnwright
