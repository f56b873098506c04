// SPDX-License-Identifier: MIT
#include "clamping/support.hpp"

#include "clamping/grip.hpp"
#include "conditions/conditions.hpp"
#include "geometry/bend.hpp"
#include "reasons.hpp"
#include "steps/tools.hpp"

namespace turnwright {
namespace {

// The work in the chuck alone, judged with the shop's finishing and roughing tools.
struct Judged {
  const PlanContext& context;
  const OperationTask& task;
  HeldWork held;

  Force passive(const Tool& tool, StepKind kind, Length depth) const {
    const Material& material = context.job.material;
    const CutContext c{context.shop, material,   context.machine,
                       tool,         kind,       2.0 * task.target.largest(task.jaw, Length(0.0)),
                       Length(0.0),  Length(0.0)};
    return passive_force(material, tool, depth, conditions_at(c, depth).used.feed);
  }
};

// The finishing cut against a share of each tolerance.
std::optional<Message> fit_would_bend(const Judged& j, const Tool& finisher, Length allowance) {
  const Force fine = j.passive(finisher, StepKind::finish, allowance);
  const View v = j.context.view(j.task.operation.from_left);
  for (const Surface& s : j.context.job.outside()) {
    const Interval z = v.between(s.left, s.right);
    if (z.to < j.task.zone_left || s.as_drawn ||
        s.grade > j.context.shop.practice.bending_matters_to)
      continue;
    const double range = compliance_range(j.held, max(z.from, j.task.zone_left), z.to);
    const Length moves(2 * fine.si * range);
    if (moves > j.context.shop.policy.deflection_share * s.tolerance)
      return Message{"clamping.would-bend",
                     {{"surface", s.name}, {"by", measure(moves, unit::um, 2)}}};
  }
  return std::nullopt;
}

// The roughing cut against what is left to finish.
std::optional<Message> rough_cut_would_push(const Judged& j, const Tool& rougher,
                                            Length allowance) {
  const Stock& stock = j.context.job.stock;
  const Length depth =
      min(rougher.largest_depth, max((stock.upper - stock.diameter) / 2.0 + allowance,
                                     stock.diameter / 2.0 - j.task.target.left_of(Length(0.0))));
  const Length gives(j.passive(rougher, StepKind::rough, depth).si *
                     compliance_at(j.held, Length(0.0)));
  if (gives <= allowance / 2.0) return std::nullopt;
  return Message{"clamping.would-push", {{"by", measure(gives, unit::mm, 2)}}};
}

// Why the work is not stiff enough without a centre; none when it is.
std::optional<Message> reason_for_centre(const PlanContext& context, const OperationTask& task) {
  const Tool* finisher = tool_of(context.shop, context.machine, ToolKind::finish);
  const Tool* rougher = tool_of(context.shop, context.machine, ToolKind::rough);
  if (finisher == nullptr || rougher == nullptr) return Message{"clamping.no-tools-to-judge"};
  const Judged judged{
      context,
      task,
      {task.target, task.jaw, Length(0.0), Support::chuck, context.job.material.elastic_modulus,
       context.shop.practice, context.shop.policy.chuck_compliance, nullptr, std::nullopt}};
  const Length allowance =
      context.shop.practice.finish_allowance(context.machine, context.job.stock.diameter);
  const auto bends = fit_would_bend(judged, *finisher, allowance);
  return bends ? bends : rough_cut_would_push(judged, *rougher, allowance);
}

// How much of what stands out is one plain diameter.
double plain_share(const OperationTask& task) {
  Length longest(0.0);
  for (const Segment& s : task.target.pieces())
    if (s.bulge == Bulge::none && s.from.r.si == s.to.r.si)
      longest = max(longest, s.to.z - max(s.from.z, task.jaw));
  return (longest / -task.jaw).si;
}

// A lathe with a tailstock, and a drawing that allows a centre hole.
bool takes_centre(const PlanContext& context) {
  return context.machine.tailstock && context.job.part.centres.keep != CentreUse::no;
}

// A centre at the free end, or not, and why.
struct CentreChoice {
  bool centre = false;
  Message why;
  Message missed;  // what it would be for, where there can be none
};

CentreChoice by_stiffness(const PlanContext& context, const OperationTask& task) {
  const bool possible = takes_centre(context);
  const auto reason = possible && context.centred_from(task.operation.from_left)
                          ? std::optional(Message{"clamping.drawing-has-centre"})
                          : reason_for_centre(context, task);
  const Practice& practice = context.shop.practice;
  const Place ratio("ratio", Figure{task.operation.free_ratio, 2}),
      low("low", Figure{practice.chuck_ratio}), high("high", Figure{practice.centre_ratio});
  if (!reason) return {false, {"clamping.stiff-enough", {ratio, low, high}}, {}};
  // Without one the conditions are changed until every limit holds.
  if (!possible) return {false, {"clamping.lighter-cuts", {ratio, {"reason", *reason}}}, *reason};
  return {true, {"clamping.needs-centre", {ratio, low, high, {"reason", *reason}}}, {}};
}

CentreChoice choose_centre(const PlanContext& context, const OperationTask& task) {
  if (const auto& asked = context.request.support)
    return {*asked != Support::chuck, "clamping.as-asked", {}};
  const Practice& practice = context.shop.practice;
  const double ratio = task.operation.free_ratio;
  const double most = context.short_grip ? practice.short_grip_centre_ratio : practice.centre_ratio;
  const Place stick_out("ratio", Figure{ratio, 2});
  if (task.operation.from_bar && ratio > most &&
      (task.operation.stick_out / context.job.stock.diameter).si <= most)
    return {false, {"clamping.length-by-length", {stick_out}}, {}};
  if (ratio > most)
    return {true, {"clamping.above-needs-centre", {stick_out, {"most", Figure{most}}}}, {}};
  if (ratio > practice.chuck_ratio) return by_stiffness(context, task);
  return {false, {"clamping.chuck-alone", {stick_out, {"most", Figure{practice.chuck_ratio}}}}, {}};
}

// What to say where a centre is needed and cannot be.
Infeasible without_centre(const PlanContext& context, double ratio) {
  const Place stick_out("ratio", Figure{ratio, 2});
  if (context.machine.tailstock)
    return {{"clamping.centre-not-allowed", {stick_out}}, {"plan.try-keep-centres"}};
  return {{"clamping.no-tailstock", {stick_out, {"machine", context.machine.name}}},
          {context.job.stock.from_bar ? "plan.try-guide-bush" : "plan.try-tailstock"}};
}

// Little is held of much that stands out: it is pulled out of the jaws. At a centre they still
// drive it.
std::optional<Infeasible> held_too_short(const PlanContext& context, const Operation& o) {
  if (o.support == Support::between_centres || o.from_bar) return std::nullopt;
  const Length held = o.grip_to - o.grip_from,
               alone = lever_grip(context, o.grip_diameter, o.stick_out);
  const bool centre = o.support == Support::chuck_and_centre;
  const Length least = centre ? min(alone, context.shop.practice.least_short_grip) : alone;
  if (held.si > least.si - same_point) return std::nullopt;
  return Infeasible{{centre ? "clamping.driven-too-short" : "clamping.held-too-short",
                     {{"grip", held}, {"out", o.stick_out}, {"least", least}}},
                    {"plan.try-longer-blank", "plan.try-bar-fed"}};
}

// A rest for what is slender beside its centre.
std::optional<Infeasible> decide_rest(const PlanContext& context, OperationTask& task,
                                      Messages& cautions) {
  Operation& operation = task.operation;
  const Machine& machine = context.machine;
  const Practice& practice = context.shop.practice;
  if (operation.free_ratio <= practice.rest_ratio) return std::nullopt;
  const bool centre = operation.support == Support::chuck_and_centre;
  operation.follow = centre && machine.follow_rest && plain_share(task) >= practice.mostly_plain;
  operation.steady = centre && machine.steady && !operation.follow;
  const Place number("operation", operation.number),
      ratio("ratio", Figure{operation.free_ratio, 2});
  if (operation.follow)
    cautions.push_back({"clamping.follow-rest-in-times", {number, ratio}});
  else if (operation.steady)
    cautions.push_back({"clamping.steady-rest-in-times", {number, ratio}});
  else if (operation.free_ratio > practice.rest_needed)
    return Infeasible{{"clamping.rest-needed", {ratio, {"machine", machine.name}}},
                      {"plan.try-steady"}};
  else
    cautions.push_back({"clamping.no-rest", {number, ratio, {"machine", machine.name}}});
  return std::nullopt;
}

void decide_centre_hole(const PlanContext& context, OperationTask& task, Messages& cautions) {
  Operation& operation = task.operation;
  const bool centre = operation.support == Support::chuck_and_centre;
  const bool mouth = context.bored_from(operation.from_left);
  const bool drawn = context.centred_from(operation.from_left);
  task.centre_hole = (centre || drawn) && !mouth;
  operation.centre_in_bore = centre && mouth;
  if (operation.centre_in_bore)
    cautions.push_back({"clamping.centre-in-mouth", {{"operation", operation.number}}});
  else if (mouth && context.wants_centre_at(operation.from_left))
    cautions.push_back({"clamping.centre-lies-in-bore", {{"operation", operation.number}}});
}

// A long end is not faced free: with little out of the spindle, or in a steady rest.
std::optional<Infeasible> decide_facing(const PlanContext& context, OperationTask& task,
                                        Messages& cautions) {
  Operation& operation = task.operation;
  const Practice& practice = context.shop.practice;
  const bool ends = task.facing.si > same_point || task.centre_hole;
  if (operation.support != Support::chuck_and_centre || !ends ||
      operation.free_ratio <= practice.centre_ratio)
    return std::nullopt;
  const Place ratio("ratio", Figure{operation.free_ratio, 2});
  if (goes_through_spindle(context)) {
    operation.drawn_in = true;
    task.facing_out = facing_out(context, operation);
    cautions.push_back(
        {"clamping.drawn-in", {{"operation", operation.number}, {"out", task.facing_out}}});
    return std::nullopt;
  }
  if (!context.machine.steady)
    return Infeasible{{"clamping.faced-unsupported", {ratio}}, {"plan.try-steady"}};
  operation.steady = true;
  cautions.push_back({"clamping.faced-in-steady",
                      {{"operation", operation.number},
                       {"at", max(operation.stick_out - facing_out(context, operation),
                                  operation.stick_out / 2.0)}}});
  operation.why = both(std::move(operation.why), {"clamping.steady-for-facing", {ratio}});
  return std::nullopt;
}

// As it was asked for: a dog turns the end that the jaws would hold.
void hold_between_centres(Operation& operation) {
  operation.support = Support::between_centres;
  operation.holder = Holder::dog;
  operation.grip_diameter = Length(0.0);
}

}  // namespace

Planned<OperationTask> supported(const PlanContext& context, OperationTask task,
                                 Messages& cautions) {
  Operation& operation = task.operation;
  const Length d = effective_diameter(task.target, task.jaw, Length(0.0));
  // A piece that was there for the jaws alone stands out, too, until it is faced away.
  operation.stick_out = task.facing > -task.jaw ? task.facing - task.jaw : -task.jaw;
  operation.free_ratio = d.si > 0 ? (operation.stick_out / d).si : 0;
  CentreChoice choice = choose_centre(context, task);
  const bool possible = takes_centre(context);
  if (choice.centre && !possible &&
      (context.request.support || operation.free_ratio > context.shop.practice.centre_ratio))
    return without_centre(context, operation.free_ratio);
  operation.support = choice.centre && possible ? Support::chuck_and_centre : Support::chuck;
  operation.holder = Holder::chuck;
  if (context.request.support == Support::between_centres) hold_between_centres(operation);
  if (auto fails = held_too_short(context, operation)) return std::move(*fails);
  decide_centre_hole(context, task, cautions);
  if (auto fails = decide_rest(context, task, cautions)) return std::move(*fails);
  operation.why = both(std::move(operation.why), std::move(choice.why));
  if (!choice.missed.empty())
    cautions.push_back({"clamping.without-centre",
                        {{"operation", operation.number},
                         {"ratio", Figure{operation.free_ratio, 2}},
                         {"reason", std::move(choice.missed)}}});
  if (auto fails = decide_facing(context, task, cautions)) return std::move(*fails);
  return task;
}

}  // namespace turnwright
