// SPDX-License-Identifier: MIT
// Both ends from the chuck: the first on the raw stock, then turned round.
#include <algorithm>
#include <optional>

#include "clamping/blank.hpp"
#include "clamping/grip.hpp"
#include "clamping/layouts/rechucking.hpp"
#include "clamping/support.hpp"
#include "reasons.hpp"

namespace turnwright {
namespace {

// The end that is turned first, local z.
struct FirstEnd {
  View view;
  Outline work;
  Interval wide;       // the longest flat of the largest diameter
  bool drawn = false;  // it stays as the bar is bought
  Length hold_from{};  // the left end of what is held
  Length grip_diameter{};
};

FirstEnd first_end(const PlanContext& context, bool left_first) {
  const Job& job = context.job;
  const View v = context.view(left_first);
  const Interval global = widest(job);
  FirstEnd end{v,
               v.local(blank_outside(job)),
               v.between(global.from, global.to),
               drawn_at(job, (global.from + global.to) / 2.0),
               {},
               {}};
  end.hold_from = end.work.left();
  end.grip_diameter = 2.0 * end.work.right_of(end.hold_from);
  return end;
}

// The raw rim behind a smaller hub, where the jaws pass over the hub.
std::optional<FirstEnd> behind_hub(FirstEnd end) {
  const Length hub = end.grip_diameter / 2.0;
  for (const Segment& s : end.work.pieces()) {
    if (s.from.r <= hub || s.bulge != Bulge::none || s.from.r.si != s.to.r.si) continue;
    end.hold_from = s.from.z;
    end.grip_diameter = 2.0 * s.from.r;
    return end;
  }
  return std::nullopt;
}

// How long the raw diameter is that is held.
Length raw_land(const FirstEnd& end) {
  for (const Segment& s : end.work.pieces())
    if (s.to.z > end.hold_from) return s.to.z - end.hold_from;
  return Length(0.0);
}

// How much of the raw end is held.
Planned<Length> raw_grip(const PlanContext& context, const FirstEnd& end) {
  const Length stock = context.job.stock.diameter, back = end.work.left();
  const Length clearance = jaw_clearance(context);
  if (context.chucking.si > 0) return context.chucking;
  if (context.cast()) {
    // Not longer than the raw diameter that is held, nor than the jaws reach, and no more than half
    // of it where the rest is to be turned.
    const Length reach = context.machine.chuck.jaw_length - (end.hold_from - back);
    const bool rim = end.hold_from + raw_land(end) > end.wide.from + Length(same_point);
    const Length most =
        rim ? max((end.wide.to - end.hold_from) / 2.0, shortest_grip(context, end.grip_diameter))
            : reach;
    const Length there = min(min(raw_land(end) - clearance, reach), most);
    const Length grip = min(best_grip(context, end.grip_diameter, there), there);
    if (grip >= shortest_grip(context, end.grip_diameter)) return grip;
    return Infeasible{{"clamping.raw-end-too-short", {{"length", max(there, Length(0.0))}}},
                      {"plan.try-chucking-boss", "plan.try-other-end"}};
  }
  const Length grip = grip_length(context, stock);
  // Half of what is common to both ends: the other half is held when it is turned round.
  if (!context.short_grip) return best_grip(context, stock, (end.wide.to - back - clearance) / 2.0);
  // On little, both operations share what there is.
  return max(grip, min(full_grip(context, stock), (end.wide.to - back) / 2.0 - clearance));
}

// Raised where the second operation cuts.
void aim(const Job& job, const FirstEnd& end, Length cut_over, OperationTask& task) {
  const Outline turned = end.view.local(job.turned), finished = end.view.local(job.finished);
  const Length top = turned.largest();
  const Length wall = max(top, end.drawn ? job.stock.diameter / 2.0 : top);
  task.target = raised_left(turned, cut_over, wall);
  task.final = raised_left(finished, cut_over, wall);
}

Message first_why(const PlanContext& context, bool left_first) {
  const bool cast = context.cast();
  if (left_first)
    return cast ? "clamping.left-end-first-on-casting" : "clamping.left-end-first-on-bar";
  return cast ? "clamping.right-end-first-on-casting" : "clamping.right-end-first-on-bar";
}

// The first operation; false in `finishes` where both ends are roughed before either is finished.
OperationTask first_task(const PlanContext& context, const FirstEnd& end, Length held, Length jaw,
                         Length cut_over, bool finishes) {
  const Job& job = context.job;
  const bool left_first = end.view.from_left;
  const Length free_from = jaw + jaw_clearance(context);
  OperationTask task;
  task.operation.number = 10;
  task.operation.from_left = left_first;
  task.operation.grip_diameter = end.grip_diameter;
  task.operation.why = first_why(context, left_first);
  task.operation.mass = blank_mass(job);
  set_grip(task.operation, end.view, jaw - held, jaw);
  task.work = end.work;
  task.facing = left_first ? job.stock.facing_left : job.stock.facing_right;
  task.jaw = jaw;
  task.finishes = finishes;
  const bool through = end.drawn && goes_through_spindle(context);
  task.zone_left = through     ? end.wide.to
                   : end.drawn ? cut_over
                               : max(max(free_from, -job.part.overall),
                                     cut_over - context.shop.practice.overlap);
  aim(job, end, cut_over, task);
  for (const GivenTime& g : job.given)
    if (g.left ? left_first : end.view.z(g.z) >= cut_over - Length(same_point))
      task.given.push_back(g);
  return task;
}

Planned<Layout> with_first(const PlanContext& context, OperationTask task, Layout layout) {
  auto held = supported(context, std::move(task), layout.cautions);
  if (!held) return held.infeasible();
  hold_in_four_jaws(context, held->operation, false);
  decide_two_cuts(context, *held, layout);
  return with_operation(context, std::move(*held), std::move(layout));
}

// The operations after the first one.
std::vector<Rechucking> after_first(bool left_first, Length over, bool ends_first) {
  const Turned other{!left_first, over}, same{left_first, over};
  if (!ends_first) return {{other, 20, true, true, true}};
  // Both ends are roughed, the work goes out, and comes back to be finished.
  return {{other, 20, true, false, false},
          {same, 30, false, true, false},
          {other, 40, false, true, true}};
}

// A thread, or a surface with a tolerance of its own, that is finished on both sides of the
// change-over.
bool split_at(const Job& job, Length over) {
  const auto outside = job.outside();
  return std::any_of(outside.begin(), outside.end(), [&](const Surface& s) {
    const bool matters = s.toleranced || job.element_of(s).kind == ElementKind::thread;
    return matters && !s.as_drawn && s.left.si < over.si - same_point &&
           s.right.si > over.si + same_point;
  });
}

// Local z of the jaw face, how much is held, and where the second operation takes over.
struct Hold {
  Length jaw{}, held{}, cut_over{};
};

// Beside the end of what stays as drawn. The jaws hold what there is of the blank, and no air.
Planned<Hold> beside_drawn_end(const PlanContext& context, const FirstEnd& end) {
  const Length jaw = end.wide.to - jaw_clearance(context), there = jaw - end.work.left();
  const Length held = min(best_grip(context, end.grip_diameter, there), there);
  if (held >= least_grip(context, end.grip_diameter)) return Hold{jaw, held, end.wide.from};
  return Infeasible{{"clamping.raw-end-too-short", {{"length", max(there, Length(0.0))}}},
                    {"plan.try-bar-fed", "plan.try-longer-blank", "plan.try-other-end"}};
}

Planned<Hold> first_hold(const PlanContext& context, const FirstEnd& end) {
  const Length clear = jaw_clearance(context);
  const bool into_spindle = goes_through_spindle(context);
  if (end.drawn && into_spindle) return beside_drawn_end(context, end);
  const auto grip = raw_grip(context, end);
  if (!grip) return grip.infeasible();
  Hold hold{end.hold_from + *grip, *grip, {}};
  if (hold.jaw + clear > end.wide.to - Length(same_point))
    return Infeasible{"clamping.jaws-cover-cut",
                      {"plan.try-bar-fed", "plan.try-longer-blank", "plan.try-other-end"}};
  hold.cut_over = max(end.wide.from, hold.jaw + clear);
  // The rest of a raw blank goes into the spindle: no more stands out than is cut.
  const Length pushed_in =
      max(hold.cut_over - context.shop.practice.overlap, -context.job.part.overall) - clear;
  if (!end.drawn && into_spindle && pushed_in > hold.jaw) {
    hold.jaw = pushed_in;
    hold.held = min(best_grip(context, end.grip_diameter, pushed_in - end.hold_from),
                    pushed_in - end.work.left());
  }
  return hold;
}

// A groove is cut in one operation, the second: the change-over moves past it.
Length past_groove(const Job& job, const View& v, Length over) {
  for (const Interval& groove : where_above(job.turned, job.finished)) {
    const Interval z = v.between(groove.from, groove.to);
    if (z.from.si < over.si - same_point && z.to.si > over.si + same_point) return z.to;
  }
  return over;
}

Planned<Layout> held_so(const PlanContext& context, const FirstEnd& end, bool left_first,
                        const Hold& hold) {
  const Length cut_over = hold.cut_over;
  const bool ends_first = work_between(context.job) != nullptr || context.request.ends_first;
  Layout empty;
  empty.hollow = blank_hollow(context.job);
  auto layout =
      with_first(context, first_task(context, end, hold.held, hold.jaw, cut_over, !ends_first),
                 std::move(empty));
  for (const Rechucking& next : after_first(left_first, end.view.z(cut_over), ends_first))
    if (layout) layout = rechucked(context, next, std::move(*layout));
  if (layout) layout->splits = split_at(context.job, end.view.z(cut_over));
  return layout;
}

Planned<Layout> held_on(const PlanContext& context, const FirstEnd& end, bool left_first) {
  const auto hold = first_hold(context, end);
  if (!hold) return hold.infeasible();
  Hold past = *hold;
  past.cut_over = past_groove(context.job, end.view, hold->cut_over);
  if (past.cut_over > hold->cut_over) {
    auto whole = held_so(context, end, left_first, past);
    // What no tool makes is not made in halves either.
    if (whole || whole.infeasible().why.id == in_operation(0, {}).id) return whole;
  }
  return held_so(context, end, left_first, *hold);
}

// Work inside a bore that a mandrel fills.
bool opens_on_mandrel(const Layout& layout) {
  const Operation& last = layout.operations.back();
  return last.mandrel && std::any_of(last.steps.begin(), last.steps.end(), [](const Step& s) {
           return s.kind == StepKind::chamfer || s.kind == StepKind::bore ||
                  s.kind == StepKind::drill || s.kind == StepKind::ream || s.kind == StepKind::tap;
         });
}

Planned<Layout> from_end(const PlanContext& context, bool left_first) {
  const FirstEnd end = first_end(context, left_first);
  auto layout = held_on(context, end, left_first);
  if (layout && opens_on_mandrel(*layout)) {
    if (context.far_edges)
      return Infeasible{"clamping.nothing-to-hold", {"plan.try-bar-fed", "plan.try-longer-blank"}};
    PlanContext before = context;
    before.far_edges = true;
    return from_end(before, left_first);
  }
  if (layout || !context.cast()) return layout;
  const auto rim = behind_hub(end);
  if (!rim) return layout;
  auto on_rim = held_on(context, *rim, left_first);
  return on_rim ? std::move(on_rim) : std::move(layout);
}

// The better of the layouts that begin at either end.
Planned<Layout> better(Planned<Layout> right, Planned<Layout> left) {
  return left && (!right || left->score < right->score) ? std::move(left) : std::move(right);
}

}  // namespace

Planned<Layout> right_end_first(const PlanContext& context) { return from_end(context, false); }

Planned<Layout> two_sides(const PlanContext& context) {
  auto right = from_end(context, false);
  if (right && right->score < 1e-9) return right;
  auto left = from_end(context, true);
  if (right || left) return better(std::move(right), std::move(left));
  // Discs and flanged shafts: held on little, stopped against the jaws.
  PlanContext on_little = context;
  on_little.short_grip = true;
  auto little = better(from_end(on_little, false), from_end(on_little, true));
  if (little) return little;
  on_little.on_rim = true;
  auto rim = better(from_end(on_little, false), from_end(on_little, true));
  return rim ? std::move(rim) : std::move(right);
}

}  // namespace turnwright
