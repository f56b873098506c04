// SPDX-License-Identifier: MIT
#pragma once
// Units with their exact factor to SI. `unit::mm` and its kind multiply numbers into quantities:
//   0.2 * unit::mm_per_rev        in(d, unit::mm)        read_unit("ft/min")
#include <optional>
#include <string>
#include <string_view>

#include "turnwright/quantity/quantity.hpp"
#include "turnwright/quantity/ratio.hpp"

namespace turnwright {

/// `degrees`: the one irrational unit, pi/180 comes on top of `si`.
struct Unit {
  std::string_view name;
  Dim dim{};
  Ratio si{};
  bool degrees = false;
  bool angle = false;

  /// The factor to SI as a double, degrees included.
  constexpr double factor() const { return as_double(si) * (degrees ? pi / 180.0 : 1.0); }
};

template <Dim D>
struct UnitOf : Unit {
  constexpr UnitOf(std::string_view text, Wide num, Wide den, bool in_degrees = false,
                   bool is_angle = false)
      : Unit{text, D, reduced(num, den), in_degrees, is_angle} {}
};

template <Dim D>
constexpr Quantity<D> operator*(double value, const UnitOf<D>& unit) {
  return Quantity<D>(unit.degrees ? value * unit.factor()
                                  : value * static_cast<double>(unit.si.num) /
                                        static_cast<double>(unit.si.den));
}
/// The number that stands before the unit.
template <Dim D>
constexpr double in(Quantity<D> value, const UnitOf<D>& unit) {
  return unit.degrees
             ? value.si / unit.factor()
             : value.si * static_cast<double>(unit.si.den) / static_cast<double>(unit.si.num);
}
double shown(double si, const Unit& unit);
double coherent(double value, const Unit& unit);

/// The value times a unit's factor, or divided by it (sign -1). The recording number has its own.
inline double times_unit(double value, const Unit& unit, int sign) {
  const auto num = static_cast<double>(unit.si.num), den = static_cast<double>(unit.si.den);
  return sign > 0 ? value * num / den : value * den / num;
}
/// Inside formulas: "T / unit::min" is a pure number, and stays exact in a recorded formula.
template <Dim D, class N, Dim E>
auto operator/(Quantity<D, N> a, const UnitOf<E>& unit) {
  return Quantity<D - E, N>(times_unit(a.si, unit, -1));
}
template <Dim D, class N, Dim E>
auto operator*(Quantity<D, N> a, const UnitOf<E>& unit) {
  return Quantity<D + E, N>(times_unit(a.si, unit, +1));
}

namespace unit {
inline constexpr UnitOf<Dim{}> ratio{"", 1, 1};
inline constexpr UnitOf<Dim{}> percent{"%", 1, 100};
inline constexpr UnitOf<Dim{}> rad{"rad", 1, 1, false, true};
inline constexpr UnitOf<Dim{}> deg{"deg", 1, 1, true, true};
inline constexpr UnitOf<Dim{1}> m{"m", 1, 1};
inline constexpr UnitOf<Dim{1}> mm{"mm", 1, 1000};
inline constexpr UnitOf<Dim{1}> um{"um", 1, 1000000};
inline constexpr UnitOf<Dim{1}> inch{"in", 254, 10000};
inline constexpr UnitOf<Dim{1}> uin{"uin", 254, 10000000000};
inline constexpr UnitOf<Dim{1}> mm_per_rev{"mm/rev", 1, 1000};
inline constexpr UnitOf<Dim{1}> inch_per_rev{"in/rev", 254, 10000};
inline constexpr UnitOf<Dim{2}> mm2{"mm2", 1, 1000000};
inline constexpr UnitOf<Dim{3}> mm3{"mm3", 1, 1000000000};
inline constexpr UnitOf<Dim{3}> cm3{"cm3", 1, 1000000};
inline constexpr UnitOf<Dim{3}> in3{"in3", Wide{254} * 254 * 254, Wide{1000000} * 1000000};
inline constexpr UnitOf<Dim{0, 1}> kg{"kg", 1, 1};
inline constexpr UnitOf<Dim{0, 1}> lb{"lb", 45359237, 100000000};
inline constexpr UnitOf<Dim{0, 0, 1}> s{"s", 1, 1};
inline constexpr UnitOf<Dim{0, 0, 1}> min{"min", 60, 1};
inline constexpr UnitOf<Dim{0, 0, 1}> h{"h", 3600, 1};
inline constexpr UnitOf<Dim{0, 0, -1}> rev_per_min{"rev/min", 1, 60};
inline constexpr UnitOf<Dim{0, 0, -1}> per_s{"1/s", 1, 1};
inline constexpr UnitOf<Dim{1, 0, -1}> m_per_s{"m/s", 1, 1};
inline constexpr UnitOf<Dim{1, 0, -1}> m_per_min{"m/min", 1, 60};
inline constexpr UnitOf<Dim{1, 0, -1}> ft_per_min{"ft/min", 3048, 600000};
inline constexpr UnitOf<Dim{1, 0, -1}> mm_per_min{"mm/min", 1, 60000};
inline constexpr UnitOf<Dim{1, 0, -1}> in_per_min{"in/min", 254, 600000};
inline constexpr UnitOf<Dim{1, 1, -2}> N{"N", 1, 1};
inline constexpr UnitOf<Dim{-1, 1, -2}> N_per_mm2{"N/mm2", 1000000, 1};
inline constexpr UnitOf<Dim{-1, 1, -2}> GPa{"GPa", 1000000000, 1};
inline constexpr UnitOf<Dim{-1, 1, -2}> J_per_mm3{"J/mm3", 1000000000, 1};
inline constexpr UnitOf<Dim{2, 1, -3}> W{"W", 1, 1};
inline constexpr UnitOf<Dim{2, 1, -3}> kW{"kW", 1000, 1};
inline constexpr UnitOf<Dim{2, 1, -2}> Nm{"Nm", 1, 1};
inline constexpr UnitOf<Dim{3, 0, -1}> cm3_per_min{"cm3/min", 1, 60000000};
inline constexpr UnitOf<Dim{-3, 1}> kg_per_m3{"kg/m3", 1, 1};
inline constexpr UnitOf<Dim{0, 0, 0, 1}> money{"EUR", 1, 1};
inline constexpr UnitOf<Dim{0, 0, -1, 1}> money_per_h{"EUR/h", 1, 3600};
inline constexpr UnitOf<Dim{0, -1, 0, 1}> money_per_kg{"EUR/kg", 1, 1};
}  // namespace unit

/// A unit as typed: "mm/rev", "hp*min/in3", "EUR/h". `nothing` when a word of it is not known.
/// Products with *, quotients with /, whole powers as in mm2 or m^3.
struct TypedUnit {
  std::string text;
  Dim dim{};
  Ratio si{};
  bool degrees = false;
  bool angle = false;
  std::string currency;  // "" when no money or an unnamed currency

  Unit unit() const { return {text, dim, si, degrees, angle}; }
};
std::optional<TypedUnit> read_unit(std::string_view text);

}  // namespace turnwright
