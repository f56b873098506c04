// SPDX-License-Identifier: MIT
#pragma once
// Work materials and the table of starting speeds.
#include <optional>
#include <string>
#include <vector>

#include "turnwright/quantity/quantity.hpp"
#include "turnwright/shop/basis.hpp"

namespace turnwright {

/// Brinell hardness is a scale of its own: a plain number, HB.
struct HardnessRange {
  double low = 0;
  double high = 0;
  double mean() const { return (low + high) / 2; }
};

struct Material {
  std::string name;
  std::vector<std::string> also;
  std::string condition;
  std::string group;  // of the cutting table
  HardnessRange hardness;
  Density density{};
  Pressure elastic_modulus{};
  Pressure kc11{};  // specific force of a chip 1 mm thick and wide
  double mc = 0;    // its exponent
  bool short_chips = false;
  bool chips_burn = false;
  std::optional<UnitPrice> price;  // none: not known
  bool price_confirmed = false;
  std::string price_date;  // as written, "" when none
  Source source;
};

/// One row of the cutting table: speeds and feeds at growing depths.
struct CuttingRow {
  HardnessRange hardness;
  std::string grade;
  std::vector<Length> depth;
  std::vector<Length> feed;
  std::vector<Speed> speed;
};

struct CuttingGroup {
  std::string name;
  std::string iso513;
  std::vector<CuttingRow> rows;  // softer first within a grade
  Source source;
};

struct StepFactor {
  std::string name;
  double speed = 1;
  double feed_share_of_width = 0;  // plunging tools
  Source source;
};

struct Grade {
  std::string name;
  double exponent = 0.25;  // Taylor's n
  Time reference_life{};   // the life that the table's speeds stand for
  double feed_exponent = 0;
  Source source;
};

}  // namespace turnwright
