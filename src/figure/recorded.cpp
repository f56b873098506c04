// SPDX-License-Identifier: MIT
#include "turnwright/figure/recorded.hpp"

#include <cmath>

#include "turnwright/quantity/money.hpp"

namespace turnwright {
namespace {

Record* record_of(const Recorded& a, const Recorded& b) {
  return a.record != nullptr ? a.record : b.record;
}

int term_of(Record& record, const Recorded& a) {
  if (a.record != nullptr) return a.term;
  Term term;
  term.kind = TermKind::number;
  term.value = a.value;
  return record.add(std::move(term));
}

Recorded combined(TermKind kind, double value, const Recorded& a, const Recorded& b) {
  Record* record = record_of(a, b);
  if (record == nullptr) return {value};
  Term term;
  term.kind = kind;
  term.value = value;
  term.a = term_of(*record, a);
  term.b = term_of(*record, b);
  return {value, record, record->add(std::move(term))};
}

Recorded applied(TermKind kind, double value, const Recorded& a) {
  if (a.record == nullptr) return {value};
  Term term;
  term.kind = kind;
  term.value = value;
  term.a = a.term;
  return {value, a.record, a.record->add(std::move(term))};
}

RecordedCondition compared(TermKind kind, bool holds, const Recorded& a, const Recorded& b) {
  Record* record = record_of(a, b);
  if (record == nullptr) return {holds, nullptr, -1};
  Term term;
  term.kind = kind;
  term.a = term_of(*record, a);
  term.b = term_of(*record, b);
  return {holds, record, record->add(std::move(term))};
}

}  // namespace

int Record::add(Term term) {
  terms_.push_back(std::move(term));
  return static_cast<int>(terms_.size()) - 1;
}

Recorded Record::leaf(std::string text, double si, const Unit& unit, int sheet) {
  Term term;
  term.kind = TermKind::leaf;
  term.value = si;
  term.text = std::move(text);
  term.unit = unit;
  term.unit_name = unit.name;
  term.sheet = sheet;
  return {si, this, add(std::move(term))};
}

void Record::place(const Recorded& number, std::string cell, const Unit& unit, int sheet) {
  if (number.record != this) return;
  Term& term = terms_[static_cast<std::size_t>(number.term)];
  if (term.placed || term.kind == TermKind::leaf) return;
  term.placed = true;
  term.text = std::move(cell);
  term.unit = unit;
  term.unit_name = unit.name;
  term.sheet = sheet;
}

Recorded operator+(const Recorded& a, const Recorded& b) {
  if (b.record == nullptr && b.value == 0) return a;
  if (a.record == nullptr && a.value == 0) return b;
  return combined(TermKind::sum, a.value + b.value, a, b);
}
Recorded operator-(const Recorded& a, const Recorded& b) {
  if (b.record == nullptr && b.value == 0) return a;
  return combined(TermKind::difference, a.value - b.value, a, b);
}
Recorded operator*(const Recorded& a, const Recorded& b) {
  if (a.record != nullptr && a.record == b.record && a.term == b.term)
    return combined(TermKind::power, a.value * a.value, a, Recorded(2.0));
  return combined(TermKind::product, a.value * b.value, a, b);
}
Recorded operator/(const Recorded& a, const Recorded& b) {
  return combined(TermKind::quotient, a.value / b.value, a, b);
}
Recorded operator-(const Recorded& a) { return applied(TermKind::negative, -a.value, a); }
RecordedCondition operator<(const Recorded& a, const Recorded& b) {
  return compared(TermKind::less, a.value < b.value, a, b);
}
RecordedCondition operator<=(const Recorded& a, const Recorded& b) {
  return compared(TermKind::at_most, a.value <= b.value, a, b);
}
Recorded min_of(const Recorded& a, const Recorded& b) {
  return combined(TermKind::least, min_of(a.value, b.value), a, b);
}
Recorded max_of(const Recorded& a, const Recorded& b) {
  return combined(TermKind::greatest, max_of(a.value, b.value), a, b);
}
Recorded root_of(const Recorded& a) { return applied(TermKind::root, root_of(a.value), a); }
Recorded power_of(const Recorded& a, const Recorded& b) {
  return combined(TermKind::power, power_of(a.value, b.value), a, b);
}
Recorded sin_of(const Recorded& a) { return applied(TermKind::sine, sin_of(a.value), a); }
Recorded cos_of(const Recorded& a) { return applied(TermKind::cosine, cos_of(a.value), a); }
Recorded tan_of(const Recorded& a) { return applied(TermKind::tangent, tan_of(a.value), a); }
Recorded atan_of(const Recorded& a) { return applied(TermKind::arc_tangent, atan_of(a.value), a); }
Recorded log_of(const Recorded& a) { return applied(TermKind::logarithm, log_of(a.value), a); }
Recorded whole_up_of(const Recorded& a) {
  return applied(TermKind::whole_up, whole_up_of(a.value), a);
}
Recorded whole_down_of(const Recorded& a) {
  return applied(TermKind::whole_down, whole_down_of(a.value), a);
}
Recorded select_of(const RecordedCondition& condition, const Recorded& a, const Recorded& b) {
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
Recorded times_unit(const Recorded& a, const Unit& unit, int sign) {
  const double value = times_unit(a.value, unit, sign);
  if (a.record == nullptr) return {value};
  Term factor;
  factor.kind = TermKind::unit_factor;
  factor.unit = unit;
  factor.unit_name = unit.name;
  factor.value = as_double(unit.si);
  const double factor_value = factor.value;
  const Recorded f(factor_value, a.record, a.record->add(std::move(factor)));
  return combined(sign > 0 ? TermKind::product : TermKind::quotient, value, a, f);
}
Recorded money_of(const Recorded& a) {
  return applied(TermKind::money, rounded(Amount(a.value)).amount().si, a);
}
Recorded money_to_step(const Recorded& a, const Recorded& step) {
  const Money to = rounded(Amount(step.value));
  return combined(TermKind::to_step, rounded_to_step(Amount(a.value), to).amount().si, a, step);
}

}  // namespace turnwright
