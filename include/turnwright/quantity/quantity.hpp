// SPDX-License-Identifier: MIT
#pragma once
// A number with a dimension. The value is always in the coherent SI unit (m, kg, s, and the shop's
// currency for money); revolutions, pieces and radians count as plain numbers.
//   Length d = 30.0 * unit::mm;
//   Frequency n = 120.0 * unit::m_per_min / (pi * d);
// N is double in the engine and a recording number when a workbook formula is wanted.
#include <cmath>
#include <concepts>
#include <type_traits>

namespace turnwright {

struct Dim {
  int length = 0;
  int mass = 0;
  int time = 0;
  int money = 0;
  friend constexpr bool operator==(const Dim&, const Dim&) = default;
};
constexpr Dim operator+(Dim a, Dim b) {
  return {a.length + b.length, a.mass + b.mass, a.time + b.time, a.money + b.money};
}
constexpr Dim operator-(Dim a, Dim b) {
  return {a.length - b.length, a.mass - b.mass, a.time - b.time, a.money - b.money};
}

inline constexpr double pi = 3.14159265358979323846;

template <Dim D, class N = double>
struct Quantity {
  N si{};
  static constexpr Dim dimension = D;
  using Number = N;

  constexpr Quantity() = default;
  constexpr explicit Quantity(N value) requires(!(D == Dim{})) : si(value) {}
  // A pure number needs no ceremony.
  constexpr Quantity(N value)  // NOLINT(google-explicit-constructor)
      requires(D == Dim{})
      : si(value) {}
  template <class M>
  requires(!std::same_as<M, N> &&
           std::convertible_to<M, N>) constexpr Quantity(Quantity<D, M> other)
      : si(other.si) {}  // NOLINT(google-explicit-constructor)
};

template <class A, class B>
using Mixed = std::common_type_t<A, B>;

template <Dim A, class N, Dim B, class M>
constexpr auto operator+(Quantity<A, N> a, Quantity<B, M> b) {
  static_assert(A == B, "different dimensions");
  return Quantity<A, Mixed<N, M>>(a.si + b.si);
}
template <Dim A, class N, Dim B, class M>
constexpr auto operator-(Quantity<A, N> a, Quantity<B, M> b) {
  static_assert(A == B, "different dimensions");
  return Quantity<A, Mixed<N, M>>(a.si - b.si);
}
template <Dim A, class N>
constexpr Quantity<A, N> operator-(Quantity<A, N> a) {
  return Quantity<A, N>(-a.si);
}
template <Dim A, class N, Dim B, class M>
constexpr auto operator*(Quantity<A, N> a, Quantity<B, M> b) {
  return Quantity<A + B, Mixed<N, M>>(a.si * b.si);
}
template <Dim A, class N, Dim B, class M>
constexpr auto operator/(Quantity<A, N> a, Quantity<B, M> b) {
  return Quantity<A - B, Mixed<N, M>>(a.si / b.si);
}
template <Dim A, class N>
constexpr Quantity<A, N> operator*(double a, Quantity<A, N> b) {
  return Quantity<A, N>(a * b.si);
}
template <Dim A, class N>
constexpr Quantity<A, N> operator*(Quantity<A, N> a, double b) {
  return Quantity<A, N>(a.si * b);
}
template <Dim A, class N>
constexpr Quantity<A, N> operator/(Quantity<A, N> a, double b) {
  return Quantity<A, N>(a.si / b);
}
template <Dim A, class N>
constexpr auto operator/(double a, Quantity<A, N> b) {
  return Quantity<Dim{} - A, N>(a / b.si);
}
template <Dim A, class N>
requires(A == Dim{}) constexpr Quantity<A, N> operator+(Quantity<A, N> a, double b) {
  return a.si + b;
}
template <Dim A, class N>
requires(A == Dim{}) constexpr Quantity<A, N> operator+(double a, Quantity<A, N> b) {
  return a + b.si;
}
template <Dim A, class N>
requires(A == Dim{}) constexpr Quantity<A, N> operator-(Quantity<A, N> a, double b) {
  return a.si - b;
}
template <Dim A, class N>
requires(A == Dim{}) constexpr Quantity<A, N> operator-(double a, Quantity<A, N> b) {
  return a - b.si;
}
template <Dim A, class N, class M>
constexpr Quantity<A, N>& operator+=(Quantity<A, N>& a, Quantity<A, M> b) {
  a.si = a.si + b.si;
  return a;
}
template <Dim A, class N, class M>
constexpr Quantity<A, N>& operator-=(Quantity<A, N>& a, Quantity<A, M> b) {
  a.si = a.si - b.si;
  return a;
}
template <Dim A, class N, Dim B, class M>
constexpr auto operator<(Quantity<A, N> a, Quantity<B, M> b) {
  static_assert(A == B, "different dimensions");
  return a.si < b.si;
}
template <Dim A, class N, Dim B, class M>
constexpr auto operator>(Quantity<A, N> a, Quantity<B, M> b) {
  static_assert(A == B, "different dimensions");
  return b.si < a.si;
}
template <Dim A, class N, Dim B, class M>
constexpr auto operator<=(Quantity<A, N> a, Quantity<B, M> b) {
  static_assert(A == B, "different dimensions");
  return a.si <= b.si;
}
template <Dim A, class N, Dim B, class M>
constexpr auto operator>=(Quantity<A, N> a, Quantity<B, M> b) {
  static_assert(A == B, "different dimensions");
  return b.si <= a.si;
}
template <Dim A>
constexpr bool operator==(Quantity<A> a, Quantity<A> b) {
  return a.si == b.si;
}

template <class N = double>
using Pure = Quantity<Dim{}, N>;
template <class N = double>
using LengthOf = Quantity<Dim{1}, N>;
template <class N = double>
using AreaOf = Quantity<Dim{2}, N>;
template <class N = double>
using VolumeOf = Quantity<Dim{3}, N>;
template <class N = double>
using MassOf = Quantity<Dim{0, 1}, N>;
template <class N = double>
using TimeOf = Quantity<Dim{0, 0, 1}, N>;
template <class N = double>
using FrequencyOf = Quantity<Dim{0, 0, -1}, N>;
template <class N = double>
using SpeedOf = Quantity<Dim{1, 0, -1}, N>;
template <class N = double>
using ForceOf = Quantity<Dim{1, 1, -2}, N>;
template <class N = double>
using PressureOf = Quantity<Dim{-1, 1, -2}, N>;
template <class N = double>
using PowerOf = Quantity<Dim{2, 1, -3}, N>;
template <class N = double>
using TorqueOf = Quantity<Dim{2, 1, -2}, N>;
template <class N = double>
using RemovalOf = Quantity<Dim{3, 0, -1}, N>;
template <class N = double>
using DensityOf = Quantity<Dim{-3, 1}, N>;
template <class N = double>
using AmountOf = Quantity<Dim{0, 0, 0, 1}, N>;
template <class N = double>
using RateOf = Quantity<Dim{0, 0, -1, 1}, N>;
template <class N = double>
using UnitPriceOf = Quantity<Dim{0, -1, 0, 1}, N>;

using Number = Pure<>;
using Length = LengthOf<>;
using Area = AreaOf<>;
using Volume = VolumeOf<>;
using Mass = MassOf<>;
using Time = TimeOf<>;
using Frequency = FrequencyOf<>;
using Speed = SpeedOf<>;
using Force = ForceOf<>;
using Pressure = PressureOf<>;
using Power = PowerOf<>;
using Torque = TorqueOf<>;
using Removal = RemovalOf<>;
using Density = DensityOf<>;
using Amount = AmountOf<>;        // money before it is rounded
using Rate = RateOf<>;            // money per time
using UnitPrice = UnitPriceOf<>;  // money per mass

// The functions of the formulas. For double here; figure/recorded.hpp adds the recording number.
inline double min_of(double a, double b) { return b < a ? b : a; }
inline double max_of(double a, double b) { return a < b ? b : a; }
inline double root_of(double a) { return std::sqrt(a); }
inline double power_of(double a, double b) { return std::pow(a, b); }
inline double sin_of(double a) { return std::sin(a); }
inline double cos_of(double a) { return std::cos(a); }
inline double tan_of(double a) { return std::tan(a); }
inline double atan_of(double a) { return std::atan(a); }
inline double log_of(double a) { return std::log(a); }
/// The slack of every whole number that comes out of a division: 4.0000000001 passes are four.
inline constexpr double whole_slack = 1e-9;
inline double whole_up_of(double a) { return std::ceil(a - whole_slack); }
inline double whole_down_of(double a) { return std::floor(a + whole_slack); }
inline double select_of(bool condition, double a, double b) { return condition ? a : b; }

template <Dim D, class N, class M>
auto min(Quantity<D, N> a, Quantity<D, M> b) {
  return Quantity<D, Mixed<N, M>>(min_of(a.si, b.si));
}
template <Dim D, class N, class M>
auto max(Quantity<D, N> a, Quantity<D, M> b) {
  return Quantity<D, Mixed<N, M>>(max_of(a.si, b.si));
}
template <Dim D, class N>
auto abs(Quantity<D, N> a) {
  return max(a, -a);
}
template <Dim D, class N>
auto square(Quantity<D, N> a) {
  return Quantity<D + D, N>(a.si * a.si);
}
template <Dim D, class N>
requires(D.length % 2 == 0 && D.mass % 2 == 0 && D.time % 2 == 0 &&
         D.money % 2 == 0) auto sqrt(Quantity<D, N> a) {
  return Quantity<Dim{D.length / 2, D.mass / 2, D.time / 2, D.money / 2}, N>(root_of(a.si));
}
template <class N, class M>
auto pow(Pure<N> a, Pure<M> b) {
  return Pure<Mixed<N, M>>(power_of(a.si, b.si));
}
template <class N>
auto pow(Pure<N> a, double b) {
  return Pure<N>(power_of(a.si, N(b)));
}
template <class N>
auto sin(Pure<N> a) {
  return Pure<N>(sin_of(a.si));
}
template <class N>
auto cos(Pure<N> a) {
  return Pure<N>(cos_of(a.si));
}
template <class N>
auto tan(Pure<N> a) {
  return Pure<N>(tan_of(a.si));
}
template <class N>
auto atan(Pure<N> a) {
  return Pure<N>(atan_of(a.si));
}
template <class N>
auto log(Pure<N> a) {
  return Pure<N>(log_of(a.si));
}
template <class N>
auto whole_up(Pure<N> a) {
  return Pure<N>(whole_up_of(a.si));
}
template <class N>
auto whole_down(Pure<N> a) {
  return Pure<N>(whole_down_of(a.si));
}
template <class C, Dim D, class N, class M>
auto select(C condition, Quantity<D, N> a, Quantity<D, M> b) {
  using R = Mixed<N, M>;
  return Quantity<D, R>(select_of(condition, R(a.si), R(b.si)));
}

}  // namespace turnwright
