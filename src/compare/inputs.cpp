// SPDX-License-Identifier: MIT
// What can be changed, and how: a table of inputs.
#include "turnwright/compare/inputs.hpp"

#include <algorithm>
#include <array>

namespace turnwright {
namespace {

bool is_tool_change(const HandlingElement& e) { return e.name == name_of(HandlingId::change_tool); }

}  // namespace

const char* name_of(InputId input) {
  static constexpr std::array names{
      "machine-hour", "person-hour",     "person-share",  "material-price", "cutting-speeds",
      "feeds",        "finishing-depth", "cutting-force", "insert-life",    "insert-price",
      "tool-change",  "handling",        "setup",         "machine-power",  "outside-prices"};
  return names.at(static_cast<std::size_t>(input));
}

const std::vector<ChangeableInput>& changeable_inputs() {
  static const std::vector<ChangeableInput> inputs{
      {InputId::machine_hour,
       [](Shop& s, double f) {
         for (Machine& m : s.machines) {
           if (m.rate.all_in) m.rate.all_in = f * *m.rate.all_in;
           m.rate.machine = f * m.rate.machine;
         }
       }},
      {InputId::person_hour,
       [](Shop& s, double f) {
         for (Machine& m : s.machines) m.rate.person = f * m.rate.person;
       }},
      {InputId::person_share,
       [](Shop& s, double f) {
         for (Machine& m : s.machines) m.operator_share = std::min(1.0, f * m.operator_share);
       }},
      {InputId::material_price,
       [](Shop& s, double f) {
         for (Material& m : s.materials)
           if (m.price) m.price = f * *m.price;
       }},
      {InputId::cutting_speeds,
       [](Shop& s, double f) {
         for (CuttingGroup& g : s.cutting_groups)
           for (CuttingRow& r : g.rows)
             for (Speed& v : r.speed) v = f * v;
       }},
      {InputId::feeds,
       [](Shop& s, double f) {
         for (CuttingGroup& g : s.cutting_groups)
           for (CuttingRow& r : g.rows)
             for (Length& feed : r.feed) feed = f * feed;
         for (Tool& t : s.tools) t.largest_feed = f * t.largest_feed;
       }},
      {InputId::finishing_depth,
       [](Shop& s, double f) {
         for (Tool& t : s.tools)
           if (t.kind == ToolKind::finish) t.largest_depth = f * t.largest_depth;
       }},
      {InputId::cutting_force,
       [](Shop& s, double f) {
         for (Material& m : s.materials) m.kc11 = f * m.kc11;
       }},
      {InputId::insert_life,
       [](Shop& s, double f) {
         for (Grade& g : s.grades) g.reference_life = f * g.reference_life;
       }},
      {InputId::insert_price,
       [](Shop& s, double f) {
         for (Tool& t : s.tools) t.price = f * t.price;
       }},
      {InputId::tool_change,
       [](Shop& s, double f) {
         for (HandlingElement& e : s.handling)
           if (is_tool_change(e)) e.manual = f * e.manual, e.cnc = f * e.cnc;
       }},
      {InputId::handling,
       [](Shop& s, double f) {
         for (HandlingElement& e : s.handling)
           if (!is_tool_change(e)) e.manual = f * e.manual, e.cnc = f * e.cnc;
       }},
      {InputId::setup,
       [](Shop& s, double f) {
         for (HandlingElement& e : s.setup) e.manual = f * e.manual, e.cnc = f * e.cnc;
       }},
      {InputId::machine_power,
       [](Shop& s, double f) {
         for (Machine& m : s.machines)
           m.power = f * m.power, m.largest_torque = f * m.largest_torque;
       }},
      {InputId::outside_prices, [](Shop& s, double f) {
         for (OutsideWork& w : s.outside_work) w.each = f * w.each, w.lot = f * w.lot;
       }}};
  return inputs;
}

}  // namespace turnwright
