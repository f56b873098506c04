// SPDX-License-Identifier: MIT
#include "turnwright/estimate/times.hpp"

#include "time_context.hpp"
#include "turnwright/estimate/model.hpp"

namespace turnwright {
namespace {

Basis policy_basis(const Policy& policy, const std::string& name) {
  const auto found = policy.sources.find(name);
  return found == policy.sources.end() ? Basis::typical : found->second.basis;
}

void add(OperationTime& t, const ElementTime& element) {
  if (element.machine.si != 0 || element.person.si != 0) t.elements.push_back(element);
}

// Cutting time of the steps; what they take in all goes to `run`.
Time sum_steps(const TimeContext& c, OperationTime& t) {
  Time cutting(0.0);
  for (const StepTime& s : t.steps) {
    cutting += s.cutting;
    t.run += s.machine;
    if (c.manual()) t.attended_handling += s.machine - s.cutting;
  }
  return cutting;
}

model::ClockedTime<double> clocked(const TimeContext& c, const OperationTime& t, Time external) {
  return model::clocked_time<double>(t.run, external, t.internal, t.away,
                                     c.machine().operator_share);
}

// What own records say beside the estimate, as an element of its own.
void own_records(const TimeContext& c, OperationTime& t, Time clearing) {
  const double factor = c.shop.correction(c.machine().name, false);
  if (factor == 1) return;
  const Time external =
      t.external_fixed + clearing + c.allowance * (t.external_fixed + t.attended_handling);
  const Time planned = clocked(c, t, external).machine;
  const Time more = (factor - 1) * planned / (1 + c.allowance);
  add(t, {ElementId::own_records, 0, factor, more, more, false, Basis::own_records});
  t.external_fixed += more;
}

void total(const TimeContext& c, OperationTime& t) {
  const Time cutting = sum_steps(c, t);
  const ChipShare& chips = c.shop.chip_share(c.route.job.material.short_chips);
  t.chip_share = c.manual() ? chips.manual : chips.cnc;
  for (const ElementTime& e : t.elements)
    if (e.away)
      t.away += e.person;
    else
      (e.internal ? t.internal : t.external_fixed) += e.internal ? e.person : e.machine;
  const Time clearing = t.chip_share * cutting;
  own_records(c, t, clearing);
  add(t, {ElementId::chips, 0, 1, clearing, clearing, false, chips.source.basis});
  const Time allowance = c.allowance * (t.external_fixed + t.attended_handling);
  add(t, {ElementId::allowance, 0, 1, allowance, allowance, false,
          policy_basis(c.shop.policy, "allowance")});
  t.external = t.external_fixed + clearing + allowance;
  const auto both = clocked(c, t, t.external);
  t.machine = both.machine;
  t.person = both.person;
}

}  // namespace

OperationTime operation_time(const TimeContext& c, const Operation& operation) {
  OperationTime t;
  t.steps = step_times(c, operation);
  t.elements = piece_elements(c, operation);
  total(c, t);
  return t;
}

double allowance_factor(const Policy& policy) {
  return figure::StandardTime::work_out<>(
             {1.0 * unit::s, 1.0, policy.allowance,
              policy.allowance_on_shift ? figure::AllowanceOn::shift : figure::AllowanceOn::work})
      .standard_time.si;
}

Length kerf_of(const Route& route, const Shop& shop) {
  for (const Operation& operation : route.operations)
    for (const Step& step : operation.steps)
      if (step.kind == StepKind::part_off) return step.to - step.from;
  return shop.bars.saw_kerf;
}

RouteTimes times_of(const Route& route, const Shop& shop) {
  RouteTimes out;
  out.allowance = allowance_factor(shop.policy) - 1;
  out.operator_share = route.machine.operator_share;
  const TimeContext c{route, shop, out.allowance};
  for (const Operation& operation : route.operations) {
    out.operations.push_back(operation_time(c, operation));
    out.machine_each += out.operations.back().machine;
    out.person_each += out.operations.back().person;
  }
  set_up(c, out.operations);
  for (const OperationTime& t : out.operations) {
    out.setup += t.setup;
    out.first_time += t.first_time();
  }
  return out;
}

}  // namespace turnwright
