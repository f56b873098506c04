// SPDX-License-Identifier: MIT
#pragma once
// Lots, prices, learning, depreciation, capacity.
#include <cmath>

#include "turnwright/figure/identity.hpp"
#include "turnwright/figure/recorded.hpp"

namespace turnwright::figure {

struct LotTime {
  template <class N = double>
  struct Inputs {
    TimeOf<N> setup_time, unit_time;
    Pure<N> quantity;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> time, time_each;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const TimeOf<N> T = given.setup_time + given.quantity * given.unit_time;
    return {T, T / given.quantity};
  }
  static constexpr Identity identity{
      "lot-time",
      std::array{needed("setup-time", "S", unit::h, 0, 1e6),
                 needed("unit-time", "t", unit::min, 0, 1e7),
                 needed("quantity", "N", unit::ratio, 1, 1e9)},
      std::array{result("time", "T", unit::h), result("time-each", "T/N", unit::min)},
      "T = S + N t",
      "P. F. Ostwald and T. S. McLaren, Cost Analysis and Estimating for Engineering and "
      "Management, 2004, chapter 7"};
};

enum class AllowanceOn { work, shift };

struct StandardTime {
  template <class N = double>
  struct Inputs {
    TimeOf<N> observed_time;
    Pure<N> rating, allowance;
    AllowanceOn allowance_on = AllowanceOn::work;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> normal_time, standard_time;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const TimeOf<N> normal = given.observed_time * given.rating;
    return {normal, given.allowance_on == AllowanceOn::work
                        ? TimeOf<N>(normal * (1.0 + given.allowance))
                        : TimeOf<N>(normal / (1.0 - given.allowance))};
  }
  static constexpr Identity identity{
      "standard-time",
      std::array{needed("observed-time", "to", unit::min, 0, 1e7),
                 optional("rating", "r", unit::ratio, 1, 0.1, 3),
                 optional("allowance", "a", unit::ratio, 0, 0, 0.99),
                 choice("allowance-on", {"work", "shift", ""})},
      std::array{result("normal-time", "tn", unit::min), result("standard-time", "ts", unit::min)},
      "tn = to r; ts = tn (1 + a) on work time, tn / (1 - a) on shift time",
      "S. Konz and S. Johnson, Work Design, time standards (notes of 2016)"};
};

struct BreakEvenQuantity {
  template <class N = double>
  struct Inputs {
    AmountOf<N> first_fixed, first_each, second_fixed, second_each;
  };
  template <class N = double>
  struct Results {
    Pure<N> quantity;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {(given.second_fixed - given.first_fixed) / (given.first_each - given.second_each)};
  }
  static constexpr Identity identity{"break-even-quantity",
                                     std::array{needed("first-fixed", "F1", unit::money, 0, 1e9),
                                                needed("first-each", "c1", unit::money, 0, 1e9),
                                                needed("second-fixed", "F2", unit::money, 0, 1e9),
                                                needed("second-each", "c2", unit::money, 0, 1e9)},
                                     std::array{result("quantity", "N", unit::ratio)},
                                     "N = (F2 - F1)/(c1 - c2)",
                                     "any text on engineering economy; F1 + N c1 = F2 + N c2"};
};

struct MakeQuantity {
  template <class N = double>
  struct Inputs {
    Pure<N> good;
    List<Dim{}, N> scrap_rates;
  };
  template <class N = double>
  struct Results {
    Pure<N> start;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    Pure<N> pieces = given.good;
    for (const Pure<N>& p : given.scrap_rates) pieces = pieces / (1.0 - p);
    return {whole_up(pieces)};
  }
  static constexpr Identity identity{
      "make-quantity",
      std::array{needed("good", "N", unit::ratio, 1, 1e9),
                 list("scrap-rates", "p_i", unit::ratio, 0, 0.99)},
      std::array{result("start", "N0", unit::ratio)},
      "N0 = ceil(N / ((1 - p_1)(1 - p_2) …)): what is expected, rounded once",
      "course notes EIN4364 after J. Tompkins et al., Facilities Planning, chapter 2"};
};

struct OutsideCharge {
  template <class N = double>
  struct Inputs {
    Pure<N> pieces;
    AmountOf<N> each, minimum, fixed;
    Pure<N> overhead;
  };
  template <class N = double>
  struct Results {
    AmountOf<N> charge;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {(max(given.pieces * given.each, given.minimum) + given.fixed) * (1.0 + given.overhead)};
  }
  static constexpr Identity identity{
      "outside-charge",
      std::array{needed("pieces", "n", unit::ratio, 0, 1e9),
                 needed("each", "c", unit::money, 0, 1e9),
                 optional("minimum", "m", unit::money, 0, 0, 1e9),
                 optional("fixed", "F", unit::money, 0, 0, 1e9),
                 optional("overhead", "o", unit::ratio, 0, 0, 10)},
      std::array{result("charge", "C", unit::money)},
      "C = (max(n c, m) + F) (1 + o); F certificate, transport and the like", "common practice"};
};

struct LearningUnit {
  template <class N = double>
  struct Inputs {
    TimeOf<N> first;
    Pure<N> rate, unit;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> time_unit, total;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const double exponent = std::log2(value_of(given.rate.si));
    const auto units = static_cast<long>(std::lround(value_of(given.unit.si)));
    double sum = 0;
    for (long i = 1; i <= units; ++i) sum += std::pow(static_cast<double>(i), exponent);
    return {given.first * std::pow(static_cast<double>(units), exponent), given.first * sum};
  }
  static constexpr Identity identity{
      "learning-unit",
      std::array{needed("first", "a", turnwright::unit::h, 0, 1e9),
                 needed("rate", "r", turnwright::unit::ratio, 0.5, 1),
                 needed("unit", "n", turnwright::unit::ratio, 1, 1000000)},
      std::array{result("time-unit", "y_n", turnwright::unit::h),
                 result("total", "T_n", turnwright::unit::h)},
      "y_n = a n^(log2 r); T_n = sum of y_1 … y_n (exact)",
      "J. R. Crawford, 1944, as in H. Kerzner, Project Management, chapter 18"};
};

struct LearningAverage {
  template <class N = double>
  struct Inputs {
    TimeOf<N> first;
    Pure<N> rate, unit;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> time_unit, total;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const double exponent = std::log2(value_of(given.rate.si));
    const double n = value_of(given.unit.si);
    const double total = n * std::pow(n, exponent);
    const double before = n > 1 ? (n - 1) * std::pow(n - 1, exponent) : 0;
    return {given.first * (total - before), given.first * total};
  }
  static constexpr Identity identity{
      "learning-average",
      std::array{needed("first", "a", turnwright::unit::h, 0, 1e9),
                 needed("rate", "r", turnwright::unit::ratio, 0.5, 1),
                 needed("unit", "n", turnwright::unit::ratio, 1, 1000000)},
      std::array{result("time-unit", "y_n", turnwright::unit::h),
                 result("total", "T_n", turnwright::unit::h)},
      "T_n = n a n^(log2 r); y_n = T_n - T_(n-1)",
      "T. P. Wright, Factors affecting the cost of airplanes, 1936"};
};

struct PriceFromMargin {
  template <class N = double>
  struct Inputs {
    AmountOf<N> cost;
    Pure<N> margin;
  };
  template <class N = double>
  struct Results {
    AmountOf<N> price;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.cost / (1.0 - given.margin)};
  }
  static constexpr Identity identity{"price-from-margin",
                                     std::array{needed("cost", "c", unit::money, 0, 1e12),
                                                needed("margin", "m", unit::ratio, 0, 0.99)},
                                     std::array{result("price", "p", unit::money)},
                                     "p = c / (1 - m)", "definition"};
};

struct PriceFromMarkup {
  template <class N = double>
  struct Inputs {
    AmountOf<N> cost;
    Pure<N> markup;
  };
  template <class N = double>
  struct Results {
    AmountOf<N> price;
    Pure<N> margin;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.cost * (1.0 + given.markup), given.markup / (1.0 + given.markup)};
  }
  static constexpr Identity identity{
      "price-from-markup",
      std::array{needed("cost", "c", unit::money, 0, 1e12),
                 needed("markup", "u", unit::ratio, 0, 100)},
      std::array{result("price", "p", unit::money), result("margin", "m", unit::ratio)},
      "p = c (1 + u); m = u / (1 + u)", "definition"};
};

struct StraightLineDepreciation {
  template <class N = double>
  struct Inputs {
    AmountOf<N> price, residual;
    Pure<N> years;
  };
  template <class N = double>
  struct Results {
    AmountOf<N> per_year;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {(given.price - given.residual) / given.years};
  }
  static constexpr Identity identity{
      "straight-line-depreciation",
      std::array{needed("price", "P", unit::money, 0, 1e12),
                 optional("residual", "R", unit::money, 0, 0, 1e12),
                 needed("years", "n", unit::ratio, 0.1, 100)},
      std::array{result("per-year", "d", unit::money)}, "d = (P - R)/n",
      "P. C. Sharma, A Textbook of Production Engineering, 11th ed. 2008, chapter 5"};
};

struct CapitalRecovery {
  template <class N = double>
  struct Inputs {
    AmountOf<N> price;
    Pure<N> interest, years;
  };
  template <class N = double>
  struct Results {
    AmountOf<N> per_year;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [P, i, n] = given;
    const Pure<N> growth = pow(1.0 + i, n);
    return {P * i * growth / (growth - 1.0)};
  }
  static constexpr Identity identity{
      "capital-recovery",
      std::array{needed("price", "P", unit::money, 0, 1e12),
                 needed("interest", "i", unit::ratio, 0.0001, 1),
                 needed("years", "n", unit::ratio, 0.1, 100)},
      std::array{result("per-year", "A", unit::money)}, "A = P i (1+i)^n / ((1+i)^n - 1)",
      "P. C. Sharma, A Textbook of Production Engineering, 11th ed. 2008, example 5.2"};
};

struct EconomicBatch {
  template <class N = double>
  struct Inputs {
    Pure<N> demand;
    AmountOf<N> setup_cost, holding_cost;
    Pure<N> production_rate;
  };
  template <class N = double>
  struct Results {
    Pure<N> quantity;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [D, S, H, p] = given;
    const Pure<N> Q2 = 2.0 * D * S / H;
    if (std::isinf(value_of(p.si))) return {sqrt(Q2)};
    return {sqrt(Q2 / (1.0 - D / p))};
  }
  static constexpr Identity identity{
      "economic-batch",
      std::array{needed("demand", "D", unit::ratio, 1e-6, 1e12),
                 needed("setup-cost", "S", unit::money, 0, 1e9),
                 needed("holding-cost", "H", unit::money, 1e-6, 1e9),
                 optional("production-rate", "p", unit::ratio, unlimited, 1e-6, unlimited)},
      std::array{result("quantity", "Q", unit::ratio)}, "Q = sqrt(2 D S / (H (1 - D/p)))",
      "F. W. Harris, 1913; P. C. Sharma, A Textbook of Production Engineering, example 23.7"};
};

struct RatedCapacity {
  template <class N = double>
  struct Inputs {
    Pure<N> machines;
    TimeOf<N> hours;
    Pure<N> use, efficiency;
  };
  template <class N = double>
  struct Results {
    TimeOf<N> hours;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.machines * given.hours * given.use * given.efficiency};
  }
  static constexpr Identity identity{
      "rated-capacity",
      std::array{needed("machines", "m", unit::ratio, 0, 1e6),
                 needed("hours", "h", unit::h, 0, 1e9), optional("use", "u", unit::ratio, 1, 0, 1),
                 optional("efficiency", "e", unit::ratio, 1, 0, 2)},
      std::array{result("hours", "H", unit::h)}, "H = m h u e",
      "APICS CPIM practice questions, rated capacity"};
};

/// Time at a rate: the money of every time line.
struct TimeCost {
  template <class N = double>
  struct Inputs {
    TimeOf<N> time;
    RateOf<N> rate;
  };
  template <class N = double>
  struct Results {
    AmountOf<N> cost;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.time * given.rate};
  }
  static constexpr Identity identity{"time-cost",
                                     std::array{needed("time", "t", unit::h, 0, 1e9),
                                                needed("rate", "c", unit::money_per_h, 0, 100000)},
                                     std::array{result("cost", "C", unit::money)}, "C = t c",
                                     "definition"};
};

struct MachineHour {
  template <class N = double>
  struct Inputs {
    AmountOf<N> price, residual;
    Pure<N> years, interest;
    AmountOf<N> running_cost;
    TimeOf<N> hours;
  };
  template <class N = double>
  struct Results {
    AmountOf<N> per_year;
    RateOf<N> per_hour;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [P, R, n, i, c, h] = given;
    const AmountOf<N> year = (P - R) / n + i * (P + R) / 2.0 + c;
    return {year, year / h};
  }
  static constexpr Identity identity{
      "machine-hour",
      std::array{needed("price", "P", unit::money, 0, 1e12),
                 optional("residual", "R", unit::money, 0, 0, 1e12),
                 needed("years", "n", unit::ratio, 0.1, 200),
                 optional("interest", "i", unit::ratio, 0, 0, 1),
                 optional("running-cost", "c", unit::money, 0, 0, 1e12),
                 needed("hours", "h", unit::h, 0.001, 100000)},
      std::array{result("per-year", "K", unit::money), result("per-hour", "k", unit::money_per_h)},
      "K = (P - R)/n + i (P + R)/2 + c; k = K / h; c floor, energy and service of a year",
      "machine hour rate after VDI guideline 3258 sheet 1 (Haufe, Controlling Office)"};
};

}  // namespace turnwright::figure
