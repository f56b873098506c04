// SPDX-License-Identifier: MIT
// Conditions of threads.
#include "conditions/limits.hpp"
#include "turnwright/figure/speeds.hpp"

namespace turnwright {
namespace {

// The carriage must follow the spindle, and a hand the carriage.
void limit_carriage(CutConditions& k, const CutContext& c, Length diameter, Length lead) {
  const Practice& practice = c.shop.practice;
  const Speed carriage = c.machine.manual() ? practice.half_nut_speed
                                            : min(practice.threading_share * c.machine.rapid,
                                                  practice.threading_carriage);
  const Frequency fastest = carriage / lead;
  const Frequency n =
      figure::SpindleSpeed::work_out<>({k.used.surface_speed, diameter}).spindle_speed;
  const bool binding = n > fastest;
  if (binding) k.used.surface_speed = pi * diameter * fastest;
  k.at_most = n * (1 + c.shop.policy.ladder_band) > fastest;
  k.limits.push_back(checked(LimitId::threading_feed_rate, carriage.si,
                             (real_spindle(k, c, diameter) * lead).si, unit::m_per_min, binding,
                             Remedy::surface_speed));
}

}  // namespace

CutConditions thread_conditions(const CutContext& c, Length diameter, Length lead, Length infeed) {
  CutConditions k;
  const bool on_axis = c.tool.kind == ToolKind::tap || c.tool.kind == ToolKind::die;
  const Length depth = on_axis ? c.shop.practice.hole_table_depth : infeed;
  const TableSpeed table =
      table_speed(c.shop, c.material, {c.tool.grade, step_id(c), diameter, depth});
  k.wanted = {machine_factor(c) * table.of_step(), lead, infeed};
  k.used = k.wanted;
  if (c.tool.kind == ToolKind::thread || c.tool.kind == ToolKind::inside_thread)
    limit_carriage(k, c, diameter, lead);
  check_spindle_speed(k, c, diameter);
  set_life(k, c, table);
  return k;
}

}  // namespace turnwright
