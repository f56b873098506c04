// SPDX-License-Identifier: MIT
// What can be changed, and how: a table of inputs.
#include "turnwright/compare/inputs.hpp"

#include <algorithm>
#include <array>

namespace turnwright {
namespace {

void machine_hour(Shop& shop, double factor) {
  for (Machine& m : shop.machines) {
    if (m.rate.all_in) m.rate.all_in = factor * *m.rate.all_in;
    m.rate.machine = factor * m.rate.machine;
  }
}
void person_hour(Shop& shop, double factor) {
  for (Machine& m : shop.machines) m.rate.person = factor * m.rate.person;
}
void person_share(Shop& shop, double factor) {
  for (Machine& m : shop.machines) m.operator_share = std::min(1.0, factor * m.operator_share);
}
void material_price(Shop& shop, double factor) {
  for (Material& m : shop.materials)
    if (m.price) m.price = factor * *m.price;
}
void cutting_speeds(Shop& shop, double factor) {
  for (CuttingGroup& group : shop.cutting_groups)
    for (CuttingRow& row : group.rows)
      for (Speed& v : row.speed) v = factor * v;
}
void feeds(Shop& shop, double factor) {
  for (CuttingGroup& group : shop.cutting_groups)
    for (CuttingRow& row : group.rows)
      for (Length& feed : row.feed) feed = factor * feed;
  for (Tool& tool : shop.tools) tool.largest_feed = factor * tool.largest_feed;
}
void finishing_depth(Shop& shop, double factor) {
  for (Tool& tool : shop.tools)
    if (tool.kind == ToolKind::finish) tool.largest_depth = factor * tool.largest_depth;
}
void cutting_force(Shop& shop, double factor) {
  for (Material& m : shop.materials) m.kc11 = factor * m.kc11;
}
void insert_life(Shop& shop, double factor) {
  for (Grade& grade : shop.grades) grade.reference_life = factor * grade.reference_life;
  for (CuttingGroup& group : shop.cutting_groups)
    for (CuttingRow& row : group.rows) row.reference_life = factor * row.reference_life;
}
void insert_price(Shop& shop, double factor) {
  for (Tool& tool : shop.tools) tool.price = factor * tool.price;
}
void scale(HandlingElement& e, double factor) {
  e.manual = factor * e.manual;
  e.cnc = factor * e.cnc;
}
bool is_tool_change(const HandlingElement& e) { return e.name == name_of(HandlingId::change_tool); }
void tool_change(Shop& shop, double factor) {
  for (HandlingElement& e : shop.handling)
    if (is_tool_change(e)) scale(e, factor);
}
// Loading and unloading with it.
void handling(Shop& shop, double factor) {
  for (auto* times : {&shop.load.manual, &shop.load.cnc})
    for (Time& time : *times) time = factor * time;
  for (HandlingElement& e : shop.handling)
    if (!is_tool_change(e)) scale(e, factor);
}
void setup(Shop& shop, double factor) {
  for (HandlingElement& e : shop.setup) scale(e, factor);
}
void machine_power(Shop& shop, double factor) {
  for (Machine& m : shop.machines) {
    m.power = factor * m.power;
    m.largest_torque = factor * m.largest_torque;
  }
}
void outside_prices(Shop& shop, double factor) {
  for (OutsideWork& w : shop.outside_work) {
    w.each = factor * w.each;
    w.lot = factor * w.lot;
  }
}

}  // namespace

const char* name_of(InputId input) {
  static constexpr std::array names{
      "machine-hour", "person-hour",     "person-share",  "material-price", "cutting-speeds",
      "feeds",        "finishing-depth", "cutting-force", "insert-life",    "insert-price",
      "tool-change",  "handling",        "setup",         "machine-power",  "outside-prices"};
  return names.at(static_cast<std::size_t>(input));
}

const std::vector<ChangeableInput>& changeable_inputs() {
  static const std::vector<ChangeableInput> inputs{{InputId::machine_hour, machine_hour},
                                                   {InputId::person_hour, person_hour},
                                                   {InputId::person_share, person_share},
                                                   {InputId::material_price, material_price},
                                                   {InputId::cutting_speeds, cutting_speeds},
                                                   {InputId::feeds, feeds},
                                                   {InputId::finishing_depth, finishing_depth},
                                                   {InputId::cutting_force, cutting_force},
                                                   {InputId::insert_life, insert_life},
                                                   {InputId::insert_price, insert_price},
                                                   {InputId::tool_change, tool_change},
                                                   {InputId::handling, handling},
                                                   {InputId::setup, setup},
                                                   {InputId::machine_power, machine_power},
                                                   {InputId::outside_prices, outside_prices}};
  return inputs;
}

}  // namespace turnwright
