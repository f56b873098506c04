// SPDX-License-Identifier: MIT
#include "clamping/machine.hpp"

#include <algorithm>
#include <cmath>

#include "turnwright/quantity/text.hpp"

namespace turnwright {
namespace {

// The length over which the blank is larger than a diameter.
Length wider_than(const Job& job, Length diameter) {
  if (job.stock.upper <= diameter) return Length(0.0);
  if (job.raw_outside.empty()) return job.stock.length;
  Length sum(0.0);
  for (const Segment& s : job.raw_outside.pieces())
    if (2.0 * max(s.from.r, s.to.r) > diameter) sum = sum + (s.to.z - s.from.z);
  return sum;
}

// What a machine cannot take of this job; empty when it takes it.
Message refused_by(const Machine& m, const Job& job, const Practice& practice, Mass blank) {
  const Stock& s = job.stock;
  if (s.upper > m.largest_diameter)
    return {"plan.over-bed", {{"diameter", s.upper}, {"swing", m.largest_diameter}}};
  // A flange may turn in front of the cross slide; a long body may not.
  const Length wide = wider_than(job, m.swing_over_cross_slide);
  if (wide > practice.flange_in_front)
    return {"plan.over-cross-slide", {{"swing", m.swing_over_cross_slide}, {"length", wide}}};
  if (s.length > m.largest_length)
    return {"plan.too-long", {{"length", s.length}, {"largest", m.largest_length}}};
  if (s.upper > m.chuck.diameter && !m.face_plate)
    return {"plan.over-chuck", {{"diameter", s.upper}, {"chuck", m.chuck.diameter}}};
  if (blank > m.heaviest_work)
    return {"plan.too-heavy",
            {{"mass", measure(blank, unit::kg, 3)},
             {"heaviest", measure(m.heaviest_work, unit::kg, 3)}}};
  if (s.from_bar && s.upper > m.spindle_bore)
    return {"plan.over-spindle-bore", {{"diameter", s.upper}, {"bore", m.spindle_bore}}};
  return {};
}

Infeasible unknown_machine(const Shop& shop, std::string_view wanted) {
  std::vector<std::string> names;
  for (const Machine& m : shop.machines) names.push_back(m.name);
  const std::string near = nearest(wanted, names);
  return {{"plan.unknown-machine", {{"machine", wanted}}},
          {near.empty() ? Message("plan.try-shop-machine") : verbatim(near)}};
}

Planned<MachineChoice> asked_for(const Job& job, const Shop& shop, std::string_view wanted,
                                 Mass blank) {
  const Machine* machine = shop.machine(wanted);
  if (machine == nullptr) return unknown_machine(shop, wanted);
  const Message why = refused_by(*machine, job, shop.practice, blank);
  if (why.empty()) return MachineChoice{{machine}, {}};
  for (const Machine& m : shop.machines)
    if (refused_by(m, job, shop.practice, blank).empty())
      return Infeasible{on_machine(*machine, why), {{"plan.try-machine", {{"machine", m.name}}}}};
  return Infeasible{on_machine(*machine, why), {"plan.try-smaller-part"}};
}

// Bar work goes to a bar-fed machine first, other work away from it.
std::vector<const Machine*> in_order(const Job& job, const Shop& shop) {
  std::vector<const Machine*> order;
  for (const bool bar_fed : {job.stock.from_bar, !job.stock.from_bar})
    for (const Machine& m : shop.machines)
      if (m.bar_fed == bar_fed) order.push_back(&m);
  return order;
}

Planned<MachineChoice> all_that_take(const Job& job, const Shop& shop, Mass blank) {
  MachineChoice choice;
  Message first_why;  // of the first machine tried
  for (const Machine* m : in_order(job, shop)) {
    const Message why = refused_by(*m, job, shop.practice, blank);
    if (why.empty()) {
      choice.machines.push_back(m);
      continue;
    }
    if (first_why.empty()) first_why = on_machine(*m, why);
    if (m == &shop.machines.front()) choice.usual_why = on_machine(*m, why);
  }
  if (!choice.machines.empty()) return choice;
  return Infeasible{first_why.empty() ? Message("plan.no-machine") : first_why,
                    {"plan.try-larger-lathe", "plan.try-subcontract"}};
}

Infeasible arc_by_hand(const PlanContext& context, const Element& e) {
  return {{"plan.arc-by-hand",
           {{"element", e.text}, {"radius", e.radius}, {"machine", context.machine.name}}},
          {"plan.try-cnc-lathe",
           {"plan.try-form-tool", {{"radius", context.shop.practice.largest_form_radius}}},
           "plan.try-stated-time"}};
}

// A longer one is turned between centres, with the tailstock set over.
bool by_compound_slide(const Machine& machine, const Surface& cone) {
  return cone.right - cone.left <= machine.compound_travel;
}

// How a cone is turned by hand: a caution.
Planned<Message> cone_by_hand(const PlanContext& context, const Surface& s, const Element& e) {
  const Machine& machine = context.machine;
  const Part& part = context.job.part;
  const Length length = s.right - s.left;
  if (by_compound_slide(machine, s))
    return Message{"plan.cone-by-compound-slide", {{"element", e.text}}};
  const double set_over =
      std::abs((s.left_radius - s.right_radius).si) * (part.overall / length).si;
  const Length most = context.shop.practice.most_set_over;
  const bool slender = !s.inside() && set_over <= most.si && centres_possible(context);
  if (slender)
    return Message{"plan.cone-by-tailstock", {{"element", e.text}, {"by", Length(set_over)}}};
  return Infeasible{{"plan.cone-too-long",
                     {{"element", e.text},
                      {"length", length},
                      {"machine", machine.name},
                      {"travel", machine.compound_travel}}},
                    {"plan.try-cnc-lathe", "plan.try-slender-cone"}};
}

}  // namespace

Message on_machine(const Machine& m, Message why) {
  return Message{"plan.on-machine", {{"machine", m.name}, {"why", std::move(why)}}};
}

Planned<MachineChoice> choose_machines(const Job& job, const Shop& shop, std::string_view wanted,
                                       Mass blank) {
  return wanted.empty() ? all_that_take(job, shop, blank) : asked_for(job, shop, wanted, blank);
}

bool set_over_needed(const PlanContext& context) {
  const Job& job = context.job;
  return context.machine.manual() &&
         std::any_of(job.surfaces.begin(), job.surfaces.end(), [&](const Surface& s) {
           const Element& e = job.element_of(s);
           return e.kind == ElementKind::cone && !e.allow && !by_compound_slide(context.machine, s);
         });
}

Planned<Messages> contours_by_hand(const PlanContext& context) {
  Messages cautions;
  if (!context.machine.manual()) return cautions;
  for (const Surface& s : context.job.surfaces) {
    const Element& e = context.job.element_of(s);
    if (e.allow) continue;
    if (e.kind == ElementKind::arc && e.radius > context.shop.practice.largest_form_radius)
      return arc_by_hand(context, e);
    if (e.kind != ElementKind::cone) continue;
    const auto turned = cone_by_hand(context, s, e);
    if (!turned) return turned.infeasible();
    cautions.push_back(*turned);
  }
  return cautions;
}

}  // namespace turnwright
