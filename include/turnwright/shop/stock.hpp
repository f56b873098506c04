// SPDX-License-Identifier: MIT
#pragma once
// Bar stock: conditions, sizes, what buying and sawing adds.
#include <optional>
#include <string>
#include <vector>

#include "turnwright/quantity/quantity.hpp"
#include "turnwright/shop/basis.hpp"

namespace turnwright {

struct StockCondition {
  std::string name;
  std::vector<Length> sizes;                  // diameters held, ascending
  std::vector<Length> inch_sizes;             // the same for inch files
  std::vector<Length> upper_to, upper_over;   // plus tolerance by size
  std::vector<Length> clean_up_to, clean_up;  // least removal on diameter by size
  Length facing{};                            // per end
  bool skin = false;
  double price_factor = 1;
  Source source;

  Length over(Length size) const;
  Length clean_up_at(Length size) const;
};

struct BarRules {
  Length bar_length{}, saw_kerf{}, bar_end{};
  Amount cut_charge{};          // of a cut, whatever its size
  Amount cut_charge_per_dm2{};  // more, by the section that the saw goes through
  Source source;

  /// What sawing a bar of this section costs.
  Amount cut(Area section) const {
    return cut_charge + cut_charge_per_dm2 * (section / Area(0.01)).si;
  }
};

struct ChipCredit {
  std::string name;  // steel, brass, aluminium; a cutting group that has it in its name
  double share = 0;
  Source source;
};

}  // namespace turnwright
