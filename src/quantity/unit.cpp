// SPDX-License-Identifier: MIT
#include "turnwright/quantity/unit.hpp"
#include "turnwright/quantity/currency.hpp"

#include <array>
#include <cctype>

namespace turnwright {
namespace {

struct Atom {
  std::string_view name;
  Dim dim;
  Wide num, den;
  bool degrees = false;
  bool angle = false;
  bool currency = false;
};

constexpr Dim length{1}, volume{3}, mass{0, 1}, seconds{0, 0, 1}, hertz{0, 0, -1}, force{1, 1, -2},
    pressure{-1, 1, -2}, power{2, 1, -3}, energy{2, 1, -2}, speed{1, 0, -1}, money{0, 0, 0, 1},
    none{};

// lbf = lb x 9.80665 m/s2 and hp = 550 ft lbf/s, both exact (NIST SP 811, 2008, appendix B).
constexpr Wide lbf_num = Wide{45359237} * 980665, lbf_den = Wide{100000000} * 100000;
constexpr std::array atoms{
    Atom{"mm", length, 1, 1000},
    Atom{"cm", length, 1, 100},
    Atom{"dm", length, 1, 10},
    Atom{"m", length, 1, 1},
    Atom{"km", length, 1000, 1},
    Atom{"um", length, 1, 1000000},
    Atom{"\xC2\xB5m", length, 1, 1000000},
    Atom{"\xCE\xBCm", length, 1, 1000000},
    Atom{"in", length, 254, 10000},
    Atom{"inch", length, 254, 10000},
    Atom{"\"", length, 254, 10000},
    Atom{"uin", length, 254, Wide{10000000000}},
    Atom{"ft", length, 3048, 10000},
    Atom{"ipr", length, 254, 10000},
    Atom{"kg", mass, 1, 1},
    Atom{"g", mass, 1, 1000},
    Atom{"t", mass, 1000, 1},
    Atom{"lb", mass, 45359237, 100000000},
    Atom{"s", seconds, 1, 1},
    Atom{"min", seconds, 60, 1},
    Atom{"h", seconds, 3600, 1},
    Atom{"ms", seconds, 1, 1000},
    Atom{"rev", none, 1, 1},
    Atom{"rpm", hertz, 1, 60},
    Atom{"sfm", speed, 3048, 600000},
    Atom{"N", force, 1, 1},
    Atom{"kN", force, 1000, 1},
    Atom{"lbf", force, lbf_num, lbf_den},
    Atom{"Pa", pressure, 1, 1},
    Atom{"kPa", pressure, 1000, 1},
    Atom{"MPa", pressure, 1000000, 1},
    Atom{"GPa", pressure, 1000000000, 1},
    Atom{"bar", pressure, 100000, 1},
    Atom{"psi", pressure, lbf_num * 10000 * 10000, lbf_den * 254 * 254},
    Atom{"ksi", pressure, lbf_num * 1000 * 10000 * 10000, lbf_den * 254 * 254},
    Atom{"W", power, 1, 1},
    Atom{"kW", power, 1000, 1},
    Atom{"hp", power, lbf_num * 550 * 3048, lbf_den * 10000},
    Atom{"J", energy, 1, 1},
    Atom{"kJ", energy, 1000, 1},
    Atom{"Nm", energy, 1, 1},
    Atom{"l", volume, 1, 1000},
    Atom{"deg", none, 1, 1, true, true},
    Atom{"\xC2\xB0", none, 1, 1, true, true},
    Atom{"rad", none, 1, 1, false, true},
    Atom{"%", none, 1, 100},
    Atom{"ratio", none, 1, 1},
    Atom{"pc", none, 1, 1},
    Atom{"piece", none, 1, 1},
    Atom{"tooth", none, 1, 1},
    Atom{"money", money, 1, 1},
    Atom{"EUR", money, 1, 1, false, false, true},
    Atom{"USD", money, 1, 1, false, false, true},
    Atom{"GBP", money, 1, 1, false, false, true},
    Atom{"CHF", money, 1, 1, false, false, true},
    Atom{"SEK", money, 1, 1, false, false, true},
    Atom{"PLN", money, 1, 1, false, false, true},
    Atom{"CZK", money, 1, 1, false, false, true},
    Atom{"JPY", money, 1, 1, false, false, true},
    Atom{"CAD", money, 1, 1, false, false, true},
};

const Atom* find_atom(std::string_view name) {
  for (const Atom& atom : atoms)
    if (atom.name == name) return &atom;
  return nullptr;
}

// "mm2" -> {mm, 2}; "m^3" -> {m, 3}; "1" -> {"", 1}.
bool multiply_in(TypedUnit& unit, std::string_view word, int sign) {
  if (word == "1") return true;
  int exponent = 1;
  if (!word.empty() && (word.back() == '2' || word.back() == '3')) {
    exponent = word.back() - '0';
    word.remove_suffix(1);
    if (!word.empty() && word.back() == '^') word.remove_suffix(1);
  }
  const Atom* atom = find_atom(word);
  if (atom == nullptr) return false;
  for (int i = 0; i < exponent; ++i) {
    const Ratio factor = reduced(atom->num, atom->den);
    const auto next = product(unit.si, sign > 0 ? factor : inverse(factor));
    if (!next) return false;
    unit.si = *next;
    unit.dim = sign > 0 ? unit.dim + atom->dim : unit.dim - atom->dim;
  }
  unit.degrees = unit.degrees || atom->degrees;
  unit.angle = unit.angle || atom->angle;
  if (atom->currency) unit.currency = atom->name;
  return true;
}

}  // namespace

bool is_currency(std::string_view code) {
  const Atom* atom = find_atom(code);
  return atom != nullptr && atom->currency;
}

double shown(double si, const Unit& unit) {
  return unit.degrees ? si / unit.factor()
                      : si * static_cast<double>(unit.si.den) / static_cast<double>(unit.si.num);
}
double coherent(double value, const Unit& unit) {
  return unit.degrees ? value * unit.factor()
                      : value * static_cast<double>(unit.si.num) / static_cast<double>(unit.si.den);
}

std::optional<TypedUnit> read_unit(std::string_view text) {
  TypedUnit unit;
  unit.text = text;
  int sign = 1;
  std::size_t start = 0;
  for (std::size_t i = 0; i <= text.size(); ++i) {
    const bool ends = i == text.size() || text[i] == '/' || text[i] == '*';
    if (!ends) continue;
    std::string_view word = text.substr(start, i - start);
    while (!word.empty() && word.front() == ' ') word.remove_prefix(1);
    while (!word.empty() && word.back() == ' ') word.remove_suffix(1);
    // "/h" is a rate in an unnamed currency.
    if (word.empty() && start == 0 && i < text.size() && text[i] == '/')
      unit.dim = money;
    else if (!multiply_in(unit, word, sign))
      return std::nullopt;
    if (i < text.size() && text[i] == '/') sign = -1;
    if (i < text.size() && text[i] == '*') sign = 1;
    start = i + 1;
  }
  return unit;
}

}  // namespace turnwright
