// SPDX-License-Identifier: MIT
// The order of the decisions: the machine, the layout, the audit.
#include <algorithm>

#include "audit.hpp"
#include "clamping/blank.hpp"
#include "clamping/machine.hpp"
#include "clamping/ties.hpp"
#include "prepare/grind.hpp"
#include "reasons.hpp"

namespace turnwright {
namespace {

// Requests that one operation cannot meet; nothing when there is none.
std::optional<Infeasible> asks_for_more(const PlanContext& context) {
  const bool one = context.job.stock.from_bar || one_side_possible(context);
  if (const OtherWork* between = work_between(context.job); between != nullptr && one)
    return Infeasible{{"plan.work-between", {{"work", between->what}}},
                      {"plan.try-sawn-blanks", "plan.try-work-after-turning"}};
  if (context.request.ends_first && one)
    return Infeasible{"plan.no-other-end", {"plan.try-sawn-blanks"}};
  if (context.request.method == MethodKind::between_centres && context.job.stock.from_bar)
    return Infeasible{"plan.bar-between-centres", {"plan.try-sawn-blanks"}};
  return std::nullopt;
}

// Both ends of a sawn blank. Where that cannot be held, or would finish a toleranced surface in two
// operations, the blank is longer.
Planned<Layout> from_sawn_blank(const PlanContext& context) {
  auto two = two_sides(context);
  const bool well = two && !two->splits && !driven_by_little(context, *two);
  if (well || !length_is_free(context)) return two;
  if (!context.request.two_at_least && !context.request.ends_first && !work_between(context.job))
    if (auto parted = parted_from_length(context)) return parted;
  auto longer = with_chucking_piece(context);
  return longer ? std::move(longer) : std::move(two);
}

Planned<Layout> layout_of(const PlanContext& context) {
  const PlanRequest& request = context.request;
  if (set_over_needed(context)) {
    if (!context.job.stock.from_bar) return between_centres(context);
    return Infeasible{"plan.bar-between-centres", {"plan.try-sawn-blanks", "plan.try-cnc-lathe"}};
  }
  if (context.job.stock.from_bar) return parted_from_bar(context);
  if (one_side_possible(context) && !request.two_at_least) return one_side(context);
  if (request.method == MethodKind::between_centres || tie_needs_centres(context))
    return between_centres(context);
  return from_sawn_blank(context);
}

// What would let two cuts of the finishing tool do it.
Messages two_cuts_remedies(const Job& job, const Layout& layout) {
  if (!layout.two_cuts_remedies.empty()) return layout.two_cuts_remedies;
  if (!job.raw_outside.empty()) return {"plan.try-rough-then-finish"};
  return {job.stock.skin ? "plan.try-bright-bar" : "plan.try-less-stock"};
}

// The layout keeps the method that was asked for, or why it does not.
Planned<Layout> as_asked(const PlanContext& context, Layout layout) {
  const bool any =
      std::any_of(layout.two_cuts.begin(), layout.two_cuts.end(), [](bool b) { return b; });
  if (context.request.method != MethodKind::two_finish_cuts || any) return layout;
  const Message why = layout.two_cut_notes.empty() ? Message("plan.nothing-finished")
                                                   : chained(layout.two_cut_notes);
  return Infeasible{{"plan.no-two-cuts", {{"why", why}}}, two_cuts_remedies(context.job, layout)};
}

void add_cautions(Route& route, const Messages& cautions) {
  for (const Message& caution : cautions) add_once(route.cautions, caution);
}

void number_steps(Route& route) {
  for (Operation& operation : route.operations)
    for (std::size_t i = 0; i < operation.steps.size(); ++i)
      operation.steps[i].number = static_cast<int>(i) + 1;
}

void adopt(const PlanContext& context, Layout layout, Route& route) {
  caution_short_grips(context, layout);
  caution_thin_walls(context, layout);
  add_cautions(route, layout.cautions);
  route.two_cuts = std::move(layout.two_cuts);
  route.two_cut_notes = std::move(layout.two_cut_notes);
  route.tie_rests_on = std::move(layout.tie_rests_on);
  if (layout.stock) route.job.stock = *layout.stock;
  route.operations = std::move(layout.operations);
  for (Feature& feature : layout.features) route.job.features.push_back(std::move(feature));
  number_steps(route);
}

// A tie that is finer than the clampings hold is priced as if they did: that must be known.
void note_open_ties(Route& route, const Shop& shop) {
  route.open_ties = open_ties(route, shop);
  for (const OpenTie& open : route.open_ties)
    add_once(route.cautions, {"clamping.tie-not-held",
                              {{"tie", open.tie},
                               {"clamping", open.clamping},
                               {"leave", shop.practice.left_for_grinding}}});
}

Route begun(const Job& job, const PlanRequest& request, const Machine& machine) {
  Route route;
  route.method = request.method;
  route.job = job;
  route.machine = machine;
  route.cautions = job.cautions;
  return route;
}

Planned<Route> planned_on(const Job& job, const Shop& shop, const PlanRequest& request,
                          const Machine& machine, Message not_on) {
  Route route = begun(job, request, machine);
  if (!not_on.empty())
    route.cautions.push_back(
        {"plan.taken-instead", {{"why", std::move(not_on)}, {"machine", machine.name}}});
  const PlanContext context{job, shop, machine, request};
  const auto by_hand = contours_by_hand(context);
  if (!by_hand) return by_hand.infeasible();
  route.cautions.insert(route.cautions.end(), by_hand->begin(), by_hand->end());
  if (const auto more = asks_for_more(context)) return *more;
  if (const OtherWork* between = work_between(job))
    route.cautions.push_back({"plan.roughed-then-finished", {{"work", between->what}}});
  auto layout = layout_of(context);
  if (layout) layout = as_asked(context, std::move(*layout));
  if (!layout) return layout.infeasible();
  adopt(context, std::move(*layout), route);
  note_open_ties(route, shop);
  add_cautions(route, joint_cautions(route, shop));
  return audited(std::move(route), job, shop.practice);
}

// On the first of the machines that can; where none can, why the first does not.
Planned<Route> planned(const Job& job, const Shop& shop, const PlanRequest& request) {
  const auto choice = choose_machines(job, shop, request.machine, blank_mass(job));
  if (!choice) return choice.infeasible();
  std::optional<Infeasible> first;
  for (const Machine* machine : choice->machines) {
    const Message not_on =
        first ? on_machine(*choice->machines.front(), first->why) : choice->usual_why;
    auto route = planned_on(job, shop, request, *machine, not_on);
    if (route) return route;
    if (!first) first = route.infeasible();
  }
  return *first;
}

}  // namespace

const OtherWork* work_between(const Job& job) {
  const auto& work = job.part.other_work;
  const auto found = std::find_if(
      work.begin(), work.end(), [](const OtherWork& w) { return w.after == WorkAfter::roughing; });
  return found == work.end() ? nullptr : &*found;
}

Planned<Route> plan_route(const Job& job, const Shop& shop, const PlanRequest& request) {
  if (Messages open = to_fill_in(job.part); !open.empty()) {
    Messages remedies{{"plan.fill-in", {{"what", std::move(open)}}}};
    return Infeasible{"plan.not-filled-in", std::move(remedies)};
  }
  if (request.method != MethodKind::leave_and_grind) return planned(job, shop, request);
  const auto ground = left_for_grinding(job, shop);
  if (!ground) return ground.infeasible();
  return planned(*ground, shop, request);
}

}  // namespace turnwright
