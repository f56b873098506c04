// SPDX-License-Identifier: MIT
// Printing of recorded terms. Every term becomes a product: a fraction of units, a fraction of the
// formula's own numbers, and texts above and below the line. Units are only put together at the
// end, so that factors of 1000 cancel or become one constant; only units (never own numbers) may be
// pulled out of sums, MIN, MAX and IF.
#include <charconv>
#include <cmath>

#include "turnwright/figure/recorded.hpp"
#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

enum class Style { cells, symbols, numbers };
enum class Level { atom, power, product, sum };

struct Factor {
  std::string text;
  Level level = Level::atom;
};

struct Printed {
  Ratio units;
  Ratio own;
  std::vector<Factor> above, below;
};

std::string whole_text(Wide value) {
  if (value == 0) return "0";
  const bool negative = value < 0;
  if (negative) value = -value;
  std::string digits;
  while (value > 0) {
    digits.insert(digits.begin(), static_cast<char>('0' + static_cast<int>(value % 10)));
    value /= 10;
  }
  return negative ? "-" + digits : digits;
}

// A literal as the fraction of its shortest decimal: 0.61343 is 61343/100000.
std::optional<Ratio> decimal_fraction(double value) {
  const std::string text = shortest(std::abs(value));
  Wide num = 0, den = 1;
  bool point = false;
  for (const char c : text) {
    if (c == '.') {
      point = true;
    } else if (c >= '0' && c <= '9') {
      if (num > (Wide{1} << 90) || den > (Wide{1} << 60)) return std::nullopt;
      num = num * 10 + (c - '0');
      if (point) den *= 10;
    } else {
      return std::nullopt;  // an exponent: too large or small for a readable constant
    }
  }
  return reduced(value < 0 ? -num : num, den);
}

std::string bracketed(const Factor& factor, Level weakest) {
  return factor.level > weakest ? "(" + factor.text + ")" : factor.text;
}

// The units two terms are brought to; a bare 0 has none of its own.
Ratio common_units(const Printed& a, const Printed& b) {
  return a.above.empty() && a.below.empty() && a.own.num == 0 ? b.units : a.units;
}

class Printer {
 public:
  Printer(const ExpressionGraph& record, Style style, int sheet, const QuantityText& written = {})
      : record_(record), style_(style), sheet_(sheet), written_(written) {}

  Printed print(int index) const;
  /// The product as one text, in units of `unit`.
  Factor joined(Printed p, Ratio unit) const;

 private:
  bool cells() const { return style_ == Style::cells; }
  Printed leaf(const Term& term) const;
  Printed number(double value) const;
  Printed sum(const Term& term) const;
  Printed power(const Term& term) const;
  Printed function(const std::string& name, int argument, const std::string& tail = "") const;
  Printed pair(const std::string& name, const Term& term) const;
  Printed choice(const Term& term) const;
  Printed root(const Term& term) const;
  Printed money(const Term& term) const;
  std::string argument(int index) const { return joined(print(index), Ratio{}).text; }
  void multiply(Ratio& into, Ratio by, Printed& p) const;
  void merge(Printed& p, const Printed& q, bool inverse_of) const;
  std::string times() const { return cells() ? "*" : " \xC2\xB7 "; }
  std::string over() const { return cells() ? "/" : " / "; }

  const ExpressionGraph& record_;
  Style style_;
  int sheet_;
  QuantityText written_;  // where numbers are shown
};

void Printer::multiply(Ratio& into, Ratio by, Printed& p) const {
  if (const auto exact = product(into, by)) {
    into = *exact;
    return;
  }
  p.above.push_back({shortest(as_double(by)), Level::atom});
}

void Printer::merge(Printed& p, const Printed& q, bool inverse_of) const {
  multiply(p.units, inverse_of ? inverse(q.units) : q.units, p);
  multiply(p.own, inverse_of ? inverse(q.own) : q.own, p);
  auto& above = inverse_of ? p.below : p.above;
  auto& below = inverse_of ? p.above : p.below;
  above.insert(above.end(), q.above.begin(), q.above.end());
  below.insert(below.end(), q.below.begin(), q.below.end());
}

Factor Printer::joined(Printed p, Ratio unit) const {
  Ratio c{};
  multiply(c, p.own, p);
  multiply(c, p.units, p);
  multiply(c, inverse(unit), p);
  const bool plain = c == Ratio{};
  if (plain && p.below.empty() && p.above.size() == 1) return p.above.front();
  if (p.above.empty() && p.below.empty() && c.den == 1)
    return {whole_text(c.num), c.num < 0 ? Level::sum : Level::atom};
  std::string text;
  if (c.num != 1 || p.above.empty()) text = whole_text(c.num);
  for (const Factor& f : p.above)
    text += (text.empty() ? "" : times()) + bracketed(f, Level::power);
  const std::size_t lower = p.below.size() + (c.den != 1 ? 1 : 0);
  if (lower > 0) {
    std::string below;
    if (c.den != 1) below = whole_text(c.den);
    for (const Factor& f : p.below)
      below += (below.empty() ? "" : times()) + bracketed(f, Level::power);
    text += over() + (lower > 1 ? "(" + below + ")" : below);
  }
  return {text, c.num < 0 ? Level::sum : Level::product};
}

Printed Printer::leaf(const Term& term) const {
  Printed p;
  if (style_ == Style::numbers) {
    // A quantity with its unit reads as one thing, but not under a power sign.
    const bool bare = term.unit.name.empty();
    Unit unit = term.unit;
    unit.name = term.unit_name;
    p.above.push_back({written_(term.value, unit), bare ? Level::atom : Level::power});
    return p;
  }
  if (style_ == Style::symbols) {
    p.above.push_back({term.text, Level::atom});
    return p;
  }
  std::string cell = term.text;
  if (term.sheet >= 0 && term.sheet != sheet_)
    cell = record_.sheets()[static_cast<std::size_t>(term.sheet)] + "!" + cell;
  if (term.unit.degrees) {
    p.above.push_back({"RADIANS(" + cell + ")", Level::atom});
    return p;
  }
  p.units = term.unit.si;
  p.above.push_back({cell, Level::atom});
  return p;
}

Printed Printer::number(double value) const {
  Printed p;
  for (int k = 1; k <= 8; ++k)
    if (value == k * pi) {
      p.own = {k, 1};
      p.above.push_back({cells() ? "PI()" : "\xCF\x80", Level::atom});
      return p;
    }
  if (const auto exact = decimal_fraction(value)) {
    // In words a decimal stays a decimal.
    if (cells() || exact->den == 1)
      p.own = *exact;
    else
      p.above.push_back({shortest(value), value < 0 ? Level::sum : Level::atom});
  } else {
    p.above.push_back({shortest(value), value < 0 ? Level::sum : Level::atom});
  }
  return p;
}

Printed Printer::sum(const Term& term) const {
  const Printed a = print(term.a), b = print(term.b);
  Printed p;
  p.units = common_units(a, b);
  const Factor left = joined(a, p.units), right = joined(b, p.units);
  const bool minus = term.kind == TermKind::difference;
  const bool guard = right.text.starts_with('-') || (minus && right.level == Level::sum);
  const std::string sign = cells() ? (minus ? "-" : "+") : (minus ? " \xE2\x88\x92 " : " + ");
  p.above.push_back({left.text + sign + (guard ? "(" + right.text + ")" : right.text), Level::sum});
  return p;
}

Printed Printer::power(const Term& term) const {
  const Term& exponent = record_.term(term.b);
  const Printed base = print(term.a);
  const bool whole = exponent.kind == TermKind::number && !exponent.placed &&
                     exponent.value == std::floor(exponent.value) && exponent.value >= 2 &&
                     exponent.value <= 4;
  if (whole) {
    Printed p;
    const int k = static_cast<int>(exponent.value);
    for (int i = 0; i < k; ++i) {
      multiply(p.units, base.units, p);
      multiply(p.own, base.own, p);
    }
    const std::string sup = cells()  ? "^" + std::to_string(k)
                            : k == 2 ? "\xC2\xB2"
                            : k == 3 ? "\xC2\xB3"
                                     : "^4";
    for (const Factor& f : base.above)
      p.above.push_back({bracketed(f, Level::atom) + sup, Level::power});
    for (const Factor& f : base.below)
      p.below.push_back({bracketed(f, Level::atom) + sup, Level::power});
    return p;
  }
  Printed p;
  const Factor b = joined(base, Ratio{}), e = joined(print(term.b), Ratio{});
  p.above.push_back({bracketed(b, Level::atom) + "^" + bracketed(e, Level::atom), Level::power});
  return p;
}

Printed Printer::function(const std::string& name, int index, const std::string& tail) const {
  Printed p;
  p.above.push_back({name + "(" + argument(index) + tail + ")", Level::atom});
  return p;
}

Printed Printer::pair(const std::string& name, const Term& term) const {
  const Printed a = print(term.a), b = print(term.b);
  Printed p;
  p.units = common_units(a, b);
  const std::string comma = cells() ? "," : ", ";
  p.above.push_back(
      {name + "(" + joined(a, p.units).text + comma + joined(b, p.units).text + ")", Level::atom});
  return p;
}

Printed Printer::choice(const Term& term) const {
  const Term& condition = record_.term(term.c);
  const Printed l = print(condition.a), r = print(condition.b);
  const Printed a = print(term.a), b = print(term.b);
  const bool less = condition.kind == TermKind::less;
  Printed p;
  p.units = common_units(a, b);
  const Ratio tested = common_units(l, r);
  const std::string left = joined(l, tested).text, right = joined(r, tested).text;
  const std::string yes = joined(a, p.units).text, no = joined(b, p.units).text;
  if (cells())
    p.above.push_back(
        {"IF(" + left + (less ? "<" : "<=") + right + "," + yes + "," + no + ")", Level::atom});
  else
    p.above.push_back(
        {yes + " if " + left + (less ? " < " : " \xE2\x89\xA4 ") + right + ", else " + no,
         Level::sum});
  return p;
}

std::optional<Wide> exact_root(Wide value) {
  if (value < 0) return std::nullopt;
  auto guess = static_cast<Wide>(std::sqrt(static_cast<double>(value)));
  for (Wide g = guess > 1 ? guess - 2 : 0; g <= guess + 2; ++g)
    if (g * g == value) return g;
  return std::nullopt;
}

Printed Printer::root(const Term& term) const {
  const Printed a = print(term.a);
  const auto num = exact_root(a.units.num), den = exact_root(a.units.den);
  Printed p;
  Ratio inside{};
  if (num && den) {
    p.units = reduced(*num, *den);
    inside = a.units;
  }
  const std::string text = joined(a, inside).text;
  p.above.push_back({(cells() ? "SQRT(" : "\xE2\x88\x9A(") + text + ")", Level::atom});
  return p;
}

Printed Printer::money(const Term& term) const {
  Printed p;
  const std::string inner = argument(term.a);
  if (!cells()) {
    p.above.push_back({inner, Level::sum});
    return p;
  }
  if (term.kind == TermKind::money) {
    p.above.push_back({"ROUND(ROUND(" + inner + ",6),2)", Level::atom});
    return p;
  }
  const Factor step = joined(print(term.b), Ratio{});
  p.above.push_back(
      {"ROUND(ROUND(" + inner + ",6)/" + bracketed(step, Level::atom) + ",0)", Level::atom});
  p.above.push_back(step);
  return p;
}

Printed Printer::print(int index) const {
  const Term& term = record_.term(index);
  if (term.placed) return leaf(term);
  const bool c = cells();
  switch (term.kind) {
    case TermKind::leaf:
      return leaf(term);
    case TermKind::number:
      return number(term.value);
    case TermKind::unit_factor: {
      Printed p;
      if (c)
        p.units = term.unit.si;
      else
        p.above.push_back({(style_ == Style::numbers ? "1 " : "") + term.unit_name, Level::atom});
      return p;
    }
    case TermKind::sum:
    case TermKind::difference:
      return sum(term);
    case TermKind::product:
    case TermKind::quotient: {
      Printed p = print(term.a);
      merge(p, print(term.b), term.kind == TermKind::quotient);
      // The same text squared reads better than twice.
      return p;
    }
    case TermKind::negative: {
      Printed p = print(term.a);
      multiply(p.own, {-1, 1}, p);
      return p;
    }
    case TermKind::power:
      return power(term);
    case TermKind::root:
      return root(term);
    case TermKind::sine:
      return function(c ? "SIN" : "sin", term.a);
    case TermKind::cosine:
      return function(c ? "COS" : "cos", term.a);
    case TermKind::tangent:
      return function(c ? "TAN" : "tan", term.a);
    case TermKind::arc_tangent:
      return function(c ? "ATAN" : "arctan", term.a);
    case TermKind::logarithm:
      return function(c ? "LN" : "ln", term.a);
    case TermKind::whole_up:
      return c ? function("ROUNDUP", term.a, "-1E-09,0") : function("whole number above", term.a);
    case TermKind::whole_down:
      return c ? function("INT", term.a, "+1E-09") : function("whole number below", term.a);
    case TermKind::least:
      return pair(c ? "MIN" : "least of ", term);
    case TermKind::greatest:
      return pair(c ? "MAX" : "greatest of ", term);
    case TermKind::choice:
      return choice(term);
    case TermKind::money:
    case TermKind::to_step:
      return money(term);
    case TermKind::at_most:
    case TermKind::less:
      break;
  }
  return {};
}

}  // namespace

std::string a1(const ExpressionGraph& record, const Expression& number, const Unit& shown,
               int on_sheet) {
  if (number.record == nullptr) return "=" + shortest(turnwright::shown(number.value, shown));
  const Printer printer(record, Style::cells, on_sheet);
  const Factor text =
      printer.joined(printer.print(number.term), shown.degrees ? Ratio{} : shown.si);
  return shown.degrees ? "=DEGREES(" + text.text + ")" : "=" + text.text;
}

std::string in_symbols(const ExpressionGraph& record, const Expression& number) {
  if (number.record == nullptr) return shortest(number.value);
  const Printer printer(record, Style::symbols, -1);
  return printer.joined(printer.print(number.term), Ratio{}).text;
}

std::string with_numbers(const ExpressionGraph& record, const Expression& number,
                         const QuantityText& written) {
  if (number.record == nullptr) return shortest(number.value);
  const Printer printer(record, Style::numbers, -1, written);
  return printer.joined(printer.print(number.term), Ratio{}).text;
}

}  // namespace turnwright
