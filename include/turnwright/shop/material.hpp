// SPDX-License-Identifier: MIT
#pragma once
// Work materials and the table of starting speeds.
#include <algorithm>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/quantity/quantity.hpp"
#include "turnwright/shop/basis.hpp"
#include "turnwright/shop/row_ids.hpp"

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
  /// The kinds of step that the row is for, at their own speed; none: turning, from which the other
  /// kinds take their share.
  std::vector<StepFactorId> steps;
  Time reference_life{};      // of an edge at these speeds; 0: that of the grade
  std::vector<Length> depth;  // of the cut; the diameter of a drill, the width of a plunging tool
  std::vector<Length> feed;   // none where a row for its own steps leaves it to the tool
  std::vector<Speed> speed;
  std::string outside_why;  // why it lies outside of what others publish, "" when it does not
  Source source;            // of the row, or of its group

  bool is_for(StepFactorId step) const {
    return std::find(steps.begin(), steps.end(), step) != steps.end();
  }
};

struct CuttingGroup {
  CuttingGroup();  // written once, in material.cpp, not in every file that copies one
  CuttingGroup(const CuttingGroup&);
  CuttingGroup(CuttingGroup&&) noexcept;
  CuttingGroup& operator=(const CuttingGroup&);
  CuttingGroup& operator=(CuttingGroup&&) noexcept;
  ~CuttingGroup();

  std::string name;
  std::string iso513;
  std::vector<CuttingRow> rows;  // softer first within a grade
  Source source;
};

struct StepFactor {
  std::string name;
  double speed = 1;
  std::map<std::string, double, std::less<>> by_grade;  // where a grade takes another share
  double feed_share_of_width = 0;                       // plunging tools
  Source source;

  double speed_of(std::string_view grade) const {
    const auto own = by_grade.find(grade);
    return own == by_grade.end() ? speed : own->second;
  }
};

struct Grade {
  std::string name;
  std::string like;  // the grade whose rows hold where a group has none for this one, "" when none
  double exponent = 0.25;  // Taylor's n
  Time reference_life{};   // the life that the table's speeds stand for, where a row says no other
  double feed_exponent = 0;
  Source source;
};

}  // namespace turnwright
