// SPDX-License-Identifier: MIT
// What an inch reader gets for a metric unit, and how units are written on paper.
#include <array>
#include <utility>

#include "turnwright/output/words.hpp"

namespace turnwright {
namespace {

// Names that read_unit knows; their factors are exact.
constexpr std::array<std::pair<std::string_view, std::string_view>, 17> counterparts{
    {{"m", "ft"},
     {"mm", "in"},
     {"um", "uin"},
     {"mm/rev", "in/rev"},
     {"mm2", "in2"},
     {"mm3", "in3"},
     {"cm3", "in3"},
     {"kg", "lb"},
     {"m/min", "ft/min"},
     {"mm/min", "in/min"},
     {"N", "lbf"},
     {"N/mm2", "lbf/in2"},
     {"W", "hp"},
     {"kW", "hp"},
     {"Nm", "lbf*ft"},
     {"cm3/min", "in3/min"},
     {"EUR/kg", "EUR/lb"}}};

constexpr std::array<std::pair<std::string_view, std::string_view>, 13> written{
    {{"um", "µm"},
     {"uin", "µin"},
     {"mm2", "mm²"},
     {"in2", "in²"},
     {"mm3", "mm³"},
     {"cm3", "cm³"},
     {"in3", "in³"},
     {"cm3/min", "cm³/min"},
     {"in3/min", "in³/min"},
     {"N/mm2", "N/mm²"},
     {"lbf/in2", "lbf/in²"},
     {"lbf*ft", "lbf·ft"},
     {"deg", "°"}}};

}  // namespace

Unit counterpart(const Unit& metric) {
  for (const auto& [from, to] : counterparts) {
    if (metric.name != from) continue;
    if (const auto typed = read_unit(to)) {
      Unit unit = typed->unit();
      unit.name = to;  // of this table, which outlives the typed text
      return unit;
    }
  }
  return metric;
}

std::string_view printed(const Unit& unit, Language language) {
  if (language == Language::de && unit.name == unit::rev_per_min.name) return "1/min";
  for (const auto& [name, paper] : written)
    if (unit.name == name) return paper;
  return unit.name;
}

}  // namespace turnwright
