// SPDX-License-Identifier: MIT
#pragma once
// Removal rate, force, power, torque.
#include "turnwright/figure/identity.hpp"

namespace turnwright::figure {

struct RemovalRate {
  template <class N = double>
  struct Inputs {
    SpeedOf<N> surface_speed;
    LengthOf<N> feed, depth;
  };
  template <class N = double>
  struct Results {
    RemovalOf<N> removal_rate;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.surface_speed * given.feed * given.depth};
  }
  static constexpr Identity identity{
      "removal-rate",
      std::array{needed("surface-speed", "vc", unit::m_per_min, 0.01, 10000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("depth", "ap", unit::mm, 0.0001, 1000)},
      std::array{result("removal-rate", "Q", unit::cm3_per_min)}, "Q = vc f ap",
      "M. P. Groover, Introduction to Manufacturing Processes, 2011, section 15.1"};
};

struct RemovalRateTurned {
  template <class N = double>
  struct Inputs {
    LengthOf<N> start_diameter, end_diameter, feed;
    FrequencyOf<N> spindle_speed;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> depth;
    RemovalOf<N> removal_rate;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [D0, D1, f, n] = given;
    return {(D0 - D1) / 2.0, pi * (square(D0) - square(D1)) / 4.0 * f * n};
  }
  static constexpr Identity identity{
      "removal-rate-turned",
      std::array{needed("start-diameter", "D0", unit::mm, 0.001, 20000),
                 needed("end-diameter", "D1", unit::mm, 0, 20000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("spindle-speed", "n", unit::rev_per_min, 0.01, 200000)},
      std::array{result("depth", "ap", unit::mm), result("removal-rate", "Q", unit::cm3_per_min)},
      "ap = (D0 - D1)/2; Q = pi (D0^2 - D1^2)/4 f n",
      "S. Kalpakjian and S. R. Schmid, Manufacturing Engineering and Technology (from memory); "
      "equals pi Davg ap f n"};
};

struct DrillingRemovalRate {
  template <class N = double>
  struct Inputs {
    LengthOf<N> diameter, feed;
    FrequencyOf<N> spindle_speed;
  };
  template <class N = double>
  struct Results {
    RemovalOf<N> removal_rate;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {pi * square(given.diameter) / 4.0 * given.feed * given.spindle_speed};
  }
  static constexpr Identity identity{
      "drilling-removal-rate",
      std::array{needed("diameter", "D", unit::mm, 0.01, 1000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("spindle-speed", "n", unit::rev_per_min, 0.01, 200000)},
      std::array{result("removal-rate", "Q", unit::cm3_per_min)}, "Q = pi D^2/4 f n",
      "plain geometry; any handbook"};
};

struct CuttingForce {
  template <class N = double>
  struct Inputs {
    LengthOf<N> depth, feed;
    PressureOf<N> specific_force;
  };
  template <class N = double>
  struct Results {
    ForceOf<N> force;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.specific_force * given.depth * given.feed};
  }
  static constexpr Identity identity{
      "cutting-force",
      std::array{needed("depth", "ap", unit::mm, 0.0001, 1000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("specific-force", "kc", unit::N_per_mm2, 1, 100000)},
      std::array{result("force", "Fc", unit::N)}, "Fc = kc ap f",
      "P. N. Rao, Manufacturing Technology vol. 2, 2nd ed. 2009, p. 134"};
};

struct PassiveForce {
  template <class N = double>
  struct Inputs {
    ForceOf<N> cutting_force;
    LengthOf<N> depth, nose_radius;
  };
  template <class N = double>
  struct Results {
    ForceOf<N> force;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const Pure<N> share = given.depth / given.nose_radius;
    // 0.8 Fc below the nose radius, 0.4 Fc at twice it and above, straight between.
    return {given.cutting_force * max(Pure<N>(N(0.4)), min(Pure<N>(N(0.8)), 1.2 - 0.4 * share))};
  }
  static constexpr Identity identity{
      "passive-force",
      std::array{needed("cutting-force", "Fc", unit::N, 0, 1e7),
                 needed("depth", "ap", unit::mm, 0.0001, 1000),
                 needed("nose-radius", "r", unit::mm, 0.01, 100)},
      std::array{result("force", "Fp", unit::N)}, "Fp = Fc max(0.4, min(0.8, 1.2 - 0.4 ap/r))",
      "from memory: 0.3-0.5 Fc where the depth is well above the nose radius, 0.6-1.0 Fc below it"};
};

struct SpecificForce {
  template <class N = double>
  struct Inputs {
    PressureOf<N> kc11;
    Pure<N> rise;
    LengthOf<N> feed;
    Pure<N> lead_angle;
  };
  template <class N = double>
  struct Results {
    LengthOf<N> chip_thickness;
    PressureOf<N> specific_force;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [kc11, mc, f, kappa] = given;
    const LengthOf<N> h = f * sin(kappa);
    return {h, kc11 / pow(h / unit::mm, mc)};
  }
  static constexpr Identity identity{
      "specific-force",
      std::array{needed("kc11", "kc1.1", unit::N_per_mm2, 1, 100000),
                 needed("rise", "mc", unit::ratio, 0, 0.99),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 optional("lead-angle", "kappa", unit::deg, 90, 1, 179)},
      std::array{result("chip-thickness", "h", unit::mm),
                 result("specific-force", "kc", unit::N_per_mm2)},
      "h = f sin(kappa); kc = kc1.1 h^-mc (h in mm)",
      "O. Kienzle, 1952, as in handbooks; kc1.1 of a cutting-tool catalogue, 2017"};
};

struct CuttingPower {
  template <class N = double>
  struct Inputs {
    LengthOf<N> depth, feed;
    SpeedOf<N> surface_speed;
    PressureOf<N> specific_force;
    Pure<N> efficiency;
  };
  template <class N = double>
  struct Results {
    PowerOf<N> power, motor_power;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const PowerOf<N> P = given.specific_force * given.depth * given.feed * given.surface_speed;
    return {P, P / given.efficiency};
  }
  static constexpr Identity identity{
      "cutting-power",
      std::array{needed("depth", "ap", unit::mm, 0.0001, 1000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("surface-speed", "vc", unit::m_per_min, 0.01, 10000),
                 needed("specific-force", "kc", unit::N_per_mm2, 1, 100000),
                 optional("efficiency", "eta", unit::ratio, 1, 0.01, 1)},
      std::array{result("power", "Pc", unit::kW), result("motor-power", "Pm", unit::kW)},
      "Pc = kc ap f vc; Pm = Pc / eta",
      "Mitsubishi Materials, Technical information, formulae for cutting power"};
};

struct DrillLoad {
  template <class N = double>
  struct Inputs {
    LengthOf<N> diameter, feed;
    PressureOf<N> specific_force;
    SpeedOf<N> surface_speed;
    Pure<N> point_angle;
  };
  template <class N = double>
  struct Results {
    ForceOf<N> thrust;
    TorqueOf<N> torque;
    PowerOf<N> power;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const auto& [D, f, kc, v, sigma] = given;
    return {0.5 * (kc * f * D / 2.0) * sin(sigma / 2.0), kc * f * square(D) / 8.0,
            kc * f * D * v / 4.0};
  }
  static constexpr Identity identity{
      "drill-load",
      std::array{needed("diameter", "D", unit::mm, 0.1, 1000),
                 needed("feed", "f", unit::mm_per_rev, 0.0001, 100),
                 needed("specific-force", "kc", unit::N_per_mm2, 1, 100000),
                 needed("surface-speed", "vc", unit::m_per_min, 0.01, 10000),
                 optional("point-angle", "sigma", unit::deg, 118, 10, 180)},
      std::array{result("thrust", "Ff", unit::N), result("torque", "M", unit::Nm),
                 result("power", "Pc", unit::kW)},
      "Ff = 0.5 kc f D/2 sin(sigma/2); M = kc f D^2/8; Pc = kc f D vc/4",
      "cutting-tool makers' drilling formulas (thrust by the rule of half the cutting force, from "
      "memory)"};
};

struct UnitPower {
  template <class N = double>
  struct Inputs {
    RemovalOf<N> removal_rate;
    PressureOf<N> unit_power;
    Pure<N> feed_factor, wear_factor, efficiency;
  };
  template <class N = double>
  struct Results {
    PowerOf<N> power, motor_power;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    const PowerOf<N> P =
        given.unit_power * given.feed_factor * given.wear_factor * given.removal_rate;
    return {P, P / given.efficiency};
  }
  static constexpr Identity identity{
      "unit-power",
      std::array{needed("removal-rate", "Q", unit::cm3_per_min, 0, 1e9),
                 needed("unit-power", "U", unit::J_per_mm3, 0.001, 1000),
                 optional("feed-factor", "C", unit::ratio, 1, 0.1, 10),
                 optional("wear-factor", "W", unit::ratio, 1, 0.1, 10),
                 optional("efficiency", "E", unit::ratio, 1, 0.01, 1)},
      std::array{result("power", "Pc", unit::kW), result("motor-power", "Pm", unit::kW)},
      "Pc = U C W Q; Pm = Pc / E",
      "Machinery's Handbook, 31st ed. 2020, Machining power, p. 1147 for U (factors from memory)"};
};

struct SpindleTorque {
  template <class N = double>
  struct Inputs {
    PowerOf<N> power;
    FrequencyOf<N> spindle_speed;
  };
  template <class N = double>
  struct Results {
    TorqueOf<N> torque;
  };
  template <class N = double>
  static Results<N> work_out(const Inputs<N>& given) {
    return {given.power / (2.0 * (pi * given.spindle_speed))};
  }
  static constexpr Identity identity{
      "torque",
      std::array{needed("power", "P", unit::kW, 0, 100000),
                 needed("spindle-speed", "n", unit::rev_per_min, 0.01, 200000)},
      std::array{result("torque", "M", unit::Nm)}, "M = P / (2 pi n)", "definition"};
};

}  // namespace turnwright::figure
