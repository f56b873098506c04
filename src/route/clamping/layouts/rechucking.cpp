// SPDX-License-Identifier: MIT
#include "clamping/layouts/rechucking.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "clamping/blank.hpp"
#include "clamping/grip.hpp"
#include "clamping/support.hpp"
#include "reasons.hpp"

namespace turnwright {
namespace {

constexpr Length neck_from(0.5e-3);       // higher than jaws open past
constexpr double plain_within = 0.02e-3;  // m, of the radius: mean sizes differ by tolerances

// A turned surface to hold on, local z; the jaws end at `jaw`.
struct Seat {
  const Surface& surface;
  Length from{}, jaw{};
};

// The longest plain stretch of a surface: without its grooves, reliefs and broken edges. A hexagon
// is held on its flats.
Interval plain_of(const Outline& finished, const Interval& surface, Length radius) {
  Interval best{surface.from, surface.from};
  Length from = surface.from;
  for (const Segment& s : finished.pieces()) {
    if (s.to.z <= surface.from || s.from.z >= surface.to) continue;
    const bool plain = s.bulge == Bulge::none && std::abs((s.from.r - radius).si) < plain_within &&
                       std::abs((s.to.r - radius).si) < plain_within;
    if (!plain) from = min(s.to.z, surface.to);
    const Interval here{from, min(s.to.z, surface.to)};
    if (plain && here.width() > best.width()) best = here;
  }
  return best;
}

// Jaws that are bored with a step: it takes the face, they the rim.
Length least_seat(const PlanContext& context, Length diameter) {
  const Practice& practice = context.shop.practice;
  if (context.on_rim) return max(practice.rim_grip * diameter, practice.least_rim_grip);
  return least_grip(context, diameter);
}

// Larger work on both sides: no jaws slide on.
bool in_a_neck(const Outline& work, const Interval& seat, Length radius) {
  const Length larger = radius + neck_from;
  return seat.from > work.left() && seat.to < work.right() &&
         work.largest(work.left(), seat.from) > larger &&
         work.largest(seat.to, work.right()) > larger;
}

std::optional<Seat> seat_on(const PlanContext& context, const View& v, const OperationTask& task,
                            const Surface& s) {
  const Length zone_left = task.zone_left;
  if (!s.gripable) return std::nullopt;
  const Interval z =
      plain_of(v.local(context.job.finished), v.between(s.left, s.right), s.diameter() / 2.0);
  const Length inside = context.shop.practice.grip_inside_edge;
  const Length end = min(min(z.to - inside, zone_left - jaw_clearance(context)),
                         reach_of_jaws(context, task.work));
  const Length needed = least_seat(context, s.diameter());
  if (end - z.from < needed - Length(same_point)) return std::nullopt;
  if (!context.cast() && in_a_neck(task.work, {z.from, end}, s.diameter() / 2.0))
    return std::nullopt;
  return Seat{s, z.from, end};
}

// Long enough for what stands out of it, a piece to be faced away included.
bool is_firm(const PlanContext& context, const OperationTask& task, const Seat& s) {
  const Length out = max(task.facing, Length(0.0)) - s.jaw;
  return s.jaw - s.from >= lever_grip(context, s.surface.diameter(), out) - Length(same_point);
}

// The nearest to the cut that is firm; a fine seat only when nothing else is there.
std::optional<Seat> nearest_seat(const PlanContext& context, const View& v,
                                 const OperationTask& task) {
  std::vector<Seat> seats;
  for (const Surface& s : context.job.outside())
    if (const auto seat = seat_on(context, v, task, s)) seats.push_back(*seat);
  auto rank = [&](const Seat& s) {
    const double worse =
        (fine_seat(context, s.surface) ? 1e3 : 0) + (is_firm(context, task, s) ? 0 : 2e3);
    return s.jaw - Length(worse);
  };
  const auto best = std::max_element(
      seats.begin(), seats.end(), [&](const Seat& a, const Seat& b) { return rank(a) < rank(b); });
  if (best == seats.end()) return std::nullopt;
  return *best;
}

// What is left to do here: the work as it is, and where the cut changes over.
OperationTask task_of(const PlanContext& context, const Rechucking& how, const Layout& layout) {
  const Job& job = context.job;
  const bool from_left = how.turned.from_left;
  const View v = context.view(from_left);
  OperationTask task;
  task.last = how.last;
  task.roughs = how.roughs;
  task.finishes = how.finishes;
  task.operation.number = how.number;
  task.operation.from_left = from_left;
  task.work = v.local(layout.operations.back().after);
  task.target = v.local(job.turned);
  task.final = v.local(job.finished);
  task.zone_left = v.z(how.turned.cut_over);
  if (how.roughs) task.facing = from_left ? job.stock.facing_left : job.stock.facing_right;
  if (how.last || !how.finishes) return task;
  const Length top = job.turned.largest();
  task.target = raised_left(task.target, task.zone_left, top);
  task.final = raised_left(task.final, task.zone_left, top);
  task.zone_left = task.zone_left - context.shop.practice.overlap;
  return task;
}

void hold_on(const PlanContext& context, const Rechucking& how, const Seat& seat,
             OperationTask& task, Layout& layout) {
  Operation& operation = task.operation;
  const Surface& held = seat.surface;
  task.jaw = seat.jaw;
  set_grip(operation, context.view(how.turned.from_left),
           max(seat.from, seat.jaw - best_grip(context, held.diameter(), seat.jaw - seat.from)),
           seat.jaw);
  operation.grip_diameter = held.diameter();
  choose_jaws(context, held, how.turned, operation, layout);
  // On a narrow rim it is the step of soft jaws that holds.
  if (operation.grip_to - operation.grip_from < context.shop.practice.least_short_grip)
    operation.jaws = Jaws::soft;
  spare_thin_wall(context, held, operation, layout);
  if (!how.finishes) {
    // Roughing asks for a firm grip, not for a true one.
    operation.jaws = Jaws::hard;
    operation.check_all = false;
    operation.why = {};
  }
  const Place surface("surface", held.name);
  operation.why =
      both(operation.jaws == Jaws::padded ? Message{"clamping.padded-jaws-on", {surface}}
           : operation.jaws == Jaws::soft ? Message{"clamping.soft-jaws-on", {surface}}
                                          : Message{"clamping.hard-jaws-on", {surface}},
           std::move(operation.why));
  operation.mass =
      body_volume(layout.operations.back().after, layout.hollow) * context.job.material.density;
}

// Fine seats are better not held, and a short grip is worse the further the work stands out of it.
double score_of(const PlanContext& context, const Layout& layout, const Surface& held) {
  double score = layout.score;
  if (fine_seat(context, held)) score += 10;
  for (const Operation& operation : layout.operations) {
    const Number held_share =
        (operation.grip_to - operation.grip_from) / fair_grip(context, operation.grip_diameter);
    score += std::max(0.0, 1 - held_share.si) * (1 + operation.free_ratio);
  }
  return score;
}

}  // namespace

Planned<Layout> rechucked(const PlanContext& context, const Rechucking& how, Layout layout) {
  const View v = context.view(how.turned.from_left);
  OperationTask task = task_of(context, how, layout);
  const auto seat = nearest_seat(context, v, task);
  if (how.last && how.finishes && wants_mandrel(context, how.turned, !seat && context.short_grip))
    return on_mandrel(context, std::move(task), std::move(layout));
  if (!seat)
    return Infeasible{"clamping.nothing-to-hold",
                      {"plan.try-bar-fed", "plan.try-longer-blank", "plan.try-between-centres"}};
  hold_on(context, how, *seat, task, layout);
  take_stated_times(context, task);
  auto held = supported(context, std::move(task), layout.cautions);
  if (!held) return held.infeasible();
  if (!how.roughs) held->centre_hole = false;  // it is there
  hold_in_four_jaws(context, held->operation, true);
  decide_two_cuts(context, *held, layout);
  auto done = with_operation(context, std::move(*held), std::move(layout));
  if (done) done->score = score_of(context, *done, seat->surface);
  return done;
}

}  // namespace turnwright
