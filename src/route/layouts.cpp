// SPDX-License-Identifier: MIT
// The operations of each layout: parted from bar, one, two, roughed before finished, between
// centres.
#include <algorithm>
#include <cmath>

#include "bend.hpp"
#include "length_text.hpp"
#include "route_planner.hpp"

namespace turnwright {
namespace {

constexpr Length overlap(1.5e-3);  // past the edge of the cut-over diameter, 1-2 mm (from memory)

}  // namespace

Outline RoutePlanner::blank() const {
  if (!job_.rough.empty()) return job_.rough;
  const Stock& s = job_.stock;
  const Length bar_back = s.from_bar ? Length(0.0) : s.facing_left;
  return Outline::cylinder(job_.left() - bar_back, s.facing_right, s.diameter / 2.0);
}

Outline RoutePlanner::blank_hollow() const {
  if (!job_.raw_bore.empty()) return job_.raw_bore;
  if (job_.stock.bore.si <= 0) return {};
  return Outline::cylinder(job_.left() - job_.stock.length, job_.stock.facing_right,
                           job_.stock.bore / 2.0);
}

Interval RoutePlanner::widest() const {
  // The longest flat of the largest radius.
  const Length top = job_.turned.largest();
  Interval best{job_.left(), job_.left()};
  for (const Segment& s : job_.turned.pieces())
    if (s.bulge == Bulge::none && std::abs(s.from.r.si - top.si) < same_point &&
        std::abs(s.to.r.si - top.si) < same_point && s.to.z - s.from.z > best.width())
      best = {s.from.z, s.to.z};
  if (best.width().si > 0) return best;
  for (const Segment& s : job_.turned.pieces())
    if (std::abs(max(s.from.r, s.to.r).si - top.si) < same_point) best = {s.from.z, s.to.z};
  return best;
}

Outline RoutePlanner::raised_left(const Outline& shape, Length z, Length r) {
  if (z <= shape.left()) return shape;
  const Outline wall(std::vector<Segment>{{{shape.left(), r}, {z, r}, Bulge::none, {}, {}}});
  return combine(shape, wall, Envelope::upper);
}

void RoutePlanner::inside_of(OperationTask& task, const View& v, const Layout& layout) const {
  task.hollow = v.local(layout.hollow);
  const Bore& own = job_.bores[task.operation.from_left ? 1 : 0];
  if (!task.turn || !job_.bored()) return;
  if (task.last) {
    task.hollow_final = v.local(job_.hollow());
    task.hollow_target = v.local(job_.hollow_turned());
  } else if (!own.empty()) {
    task.hollow_final = v.local(own.finished);
    task.hollow_target = v.local(own.turned);
  }
  if (!own.empty()) task.bore = &own;
}

bool RoutePlanner::run(OperationTask task, Layout& layout) {
  const View v = view(task.operation.from_left);
  const Machine machine = with_chuck_speed(task.operation);
  inside_of(task, v, layout);
  task.made = layout.made;
  OperationPlanner planner(job_, shop_, machine, v, std::move(task), layout.cautions);
  Operation operation = planner.plan();
  if (!planner.why_not.empty()) {
    layout.why_not = "setup " + std::to_string(operation.number) + ": " + planner.why_not;
    layout.would_help = planner.would_help;
    return false;
  }
  layout.features.insert(layout.features.end(), planner.features.begin(), planner.features.end());
  layout.hollow = operation.hollow_after;
  for (const Step& step : operation.steps)
    if (step.kind == StepKind::knurl || step.kind == StepKind::thread)
      layout.made.insert(layout.made.end(), step.gauged.begin(), step.gauged.end());
  layout.operations.push_back(std::move(operation));
  return true;
}

RoutePlanner::Layout RoutePlanner::parted_from_bar() {
  Layout layout;
  layout.hollow = blank_hollow();
  OperationTask task;
  task.last = true;
  if (bored_from(true)) return one_end_only(std::move(layout));
  task.operation.number = 10;
  task.operation.from_bar = true;
  task.operation.why = "bar through the spindle, parted off: one holding";
  const Length kerf = parting_width();
  const Length L = job_.part.overall;
  // Bar stands out as far as the part, the parting tool and the clearance of the jaws.
  const Length jaw = -L - kerf - route_.machine.chuck.jaw_clearance;
  task.work =
      Outline::cylinder(job_.left() - kerf, job_.stock.facing_right, job_.stock.diameter / 2.0);
  task.target = job_.turned;
  task.final = job_.finished;
  task.zone_left = job_.left();
  task.facing = job_.stock.facing_right;
  task.part_off = true;
  task.part_off_at = job_.left();
  task.jaw = jaw;
  task.given = job_.given;
  task.operation.grip_from = jaw - grip_length(job_.stock.diameter);
  task.operation.grip_to = jaw;
  task.operation.grip_diameter = job_.stock.diameter;
  if (!route_.machine.parts_catcher)
    layout.cautions.push_back(
        route_.machine.name +
        " has no parts catcher: a hook or tray takes the piece, never a hand");
  if (job_.part.outside.back().ra && job_.part.left_face.ra)
    layout.cautions.push_back("the parted face stays as parted");
  task.operation.mass = blank_mass();
  if (!decide_support(task, layout)) return layout;
  if (task.operation.support == Support::chuck_and_centre) {
    layout.why_not =
        "parting off between chuck and centre is not safe; the part is too long to part from bar";
    layout.would_help = "sawn blanks in two holdings";
    return layout;
  }
  // A collet closes on bright bar only.
  task.operation.collet = !job_.stock.skin;
  task.operation.clamping = task.operation.collet ? "bar in the collet" : "bar in the chuck";
  decide_two_cuts(task, layout);
  run(std::move(task), layout);
  return layout;
}

RoutePlanner::Layout RoutePlanner::one_end_only(Layout layout) {
  layout.why_not = "the bore from the left cannot be reached in one holding";
  layout.would_help = "sawn blanks in two holdings, or the bore from the right";
  return layout;
}

Length RoutePlanner::parting_width() const {
  const Tool* tool = parting_tool(shop_, job_.stock.diameter / 2.0);
  return tool != nullptr ? tool->width : 3.0 * unit::mm;
}

bool RoutePlanner::single_possible() const {
  if (job_.stock.facing_left.si > 0) return false;
  // A drawn end that the jaws hold and that nobody cuts.
  Length free_end = job_.left();
  const auto outside = job_.outside();
  for (auto s = outside.rbegin(); s != outside.rend() && s->as_drawn; ++s) free_end = s->right;
  return free_end - job_.left() >=
         grip_length(job_.stock.diameter) + route_.machine.chuck.jaw_clearance;
}

RoutePlanner::Layout RoutePlanner::one_operation() {
  Layout layout;
  layout.hollow = blank_hollow();
  if (bored_from(true)) return one_end_only(std::move(layout));
  OperationTask task;
  task.last = true;
  task.operation.number = 10;
  task.operation.why = "the drawn end is held: one holding does it";
  const Length grip = grip_length(job_.stock.diameter);
  task.operation.grip_from = job_.left();
  task.operation.grip_to = job_.left() + grip;
  task.operation.grip_diameter = job_.stock.diameter;
  task.jaw = task.operation.grip_to;
  task.work = blank();
  task.target = job_.turned;
  task.final = job_.finished;
  task.zone_left = task.jaw + route_.machine.chuck.jaw_clearance;
  task.facing = job_.stock.facing_right;
  task.given = job_.given;
  task.operation.mass = blank_mass();
  if (!decide_support(task, layout)) return layout;
  decide_two_cuts(task, layout);
  run(std::move(task), layout);
  return layout;
}

RoutePlanner::Layout RoutePlanner::two_from(bool left_first) {
  Layout layout;
  layout.hollow = blank_hollow();
  const View v = view(left_first);
  const Length blank_r = job_.stock.diameter / 2.0;
  const Outline turned = v.local(job_.turned), finished = v.local(job_.finished);
  const Interval wide_global = widest();
  const Interval wide = v.between(wide_global.from, wide_global.to);
  const Length clearance = jaw_clearance();
  OperationTask first;
  first.operation.number = 10;
  first.operation.from_left = left_first;
  first.work = v.local(blank());
  first.facing = left_first ? job_.stock.facing_left : job_.stock.facing_right;
  Length grip = grip_length(job_.stock.diameter);
  // On little, both operations share what there is.
  if (shallow_)
    grip = max(
        grip, min(full_grip(job_.stock.diameter), (wide.to - first.work.left()) / 2.0 - clearance));
  const Length back = first.work.left();
  first.operation.grip_diameter = 2.0 * first.work.right_of(back);
  if (!job_.rough.empty()) {
    // Not longer than the raw diameter that is held.
    const Length there = first.work.pieces().front().to.z - back - clearance;
    grip = min(full_grip(first.operation.grip_diameter), there);
    if (grip < least_grip(first.operation.grip_diameter)) {
      layout.why_not = "the raw end is too short to hold: " + length_text(job_, there);
      layout.would_help = "a chucking boss on the casting, or the other end first";
      return layout;
    }
  }
  first.jaw = back + grip;
  const Length free_from = first.jaw + clearance;
  if (free_from > wide.to - Length(same_point)) {
    layout.why_not = "the jaws on the raw bar cover what only this holding can reach";
    layout.would_help = "bar fed and parted off, a longer blank, or the other end first";
    return layout;
  }
  const Length cut_over = max(wide.from, free_from);
  const bool wide_drawn = drawn_at((wide_global.from + wide_global.to) / 2.0);
  first.zone_left = wide_drawn ? cut_over : max(free_from, cut_over - overlap);
  const Length top = turned.largest();
  first.target = raised_left(turned, cut_over, max(top, wide_drawn ? blank_r : top));
  first.final = raised_left(finished, cut_over, max(top, wide_drawn ? blank_r : top));
  set_grip(first.operation, v, back, first.jaw);
  first.operation.why = left_first ? "left end first" : "right end first";
  first.operation.why += job_.rough.empty() ? ", on the raw bar" : ", on the raw casting";
  first.operation.why += "; cut over at the largest diameter";
  const bool ends_first = work_between() != nullptr || request_.ends_first;
  first.finishes = !ends_first;
  first.operation.mass = blank_mass();
  for (const GivenTime& g : job_.given)
    if (g.left ? left_first : v.z(g.z) >= cut_over - Length(same_point)) first.given.push_back(g);
  if (!decide_support(first, layout)) return layout;
  four_jaws(first.operation, false);
  decide_two_cuts(first, layout);
  if (!run(std::move(first), layout)) return layout;
  const Length over = v.z(cut_over);
  if (!ends_first) {
    rechucking({!left_first, over, 20, true, true, true}, layout);
    return layout;
  }
  // Both ends are roughed, the work goes out, and comes back to be finished.
  rechucking({!left_first, over, 20, true, false, false}, layout);
  if (layout.ok()) rechucking({left_first, over, 30, false, true, false}, layout);
  if (layout.ok()) rechucking({!left_first, over, 40, false, true, true}, layout);
  return layout;
}

const OtherWork* RoutePlanner::work_between() const {
  for (const OtherWork& w : job_.part.other_work)
    if (w.after == "roughing") return &w;
  return nullptr;
}

RoutePlanner::Layout RoutePlanner::between_centres() {
  Layout layout;
  const Interval wide_global = widest();
  Outline work = blank();
  int number = 0;
  for (const bool turn : {false, true})
    for (const bool from_left : {false, true}) {
      const View v = view(from_left);
      OperationTask task;
      task.operation.number = number += 10;
      task.operation.from_left = from_left;
      task.turn = turn;
      task.work = v.local(work);
      task.operation.mass = work.volume() * job_.material.density;
      const Interval wide = v.between(wide_global.from, wide_global.to);
      const Length cut_over = from_left ? wide.to : wide.from;
      task.target = from_left ? v.local(job_.turned)
                              : raised_left(v.local(job_.turned), cut_over, job_.turned.largest());
      task.final = from_left ? v.local(job_.finished)
                             : raised_left(v.local(job_.finished), cut_over, job_.turned.largest());
      if (!turn) {
        clamp_for_facing(task, v);
      } else {
        clamp_between_centres(task, v, cut_over, layout);
        if (!layout.ok()) return layout;
      }
      for (const GivenTime& g : job_.given) {
        const bool right = !g.left && g.z >= v.z(cut_over) - Length(same_point);
        const bool mine = right != from_left;
        if (turn && mine) task.given.push_back(g);
      }
      if (turn) decide_two_cuts(task, layout);
      if (!run(std::move(task), layout)) return layout;
      work = layout.operations.back().after;
    }
  layout.tie = accuracy_row("between centres");
  layout.cautions.push_back("tied seats are turned between centres, true to about " +
                            length_text(job_, shop_.accuracy("between centres")) +
                            "; the driver's and centres' rating "
                            "plates decide the depth");
  return layout;
}

void RoutePlanner::clamp_for_facing(OperationTask& task, const View& v) const {
  const Length d = job_.stock.diameter;
  task.facing = task.operation.from_left ? job_.stock.facing_left : job_.stock.facing_right;
  task.centre_hole = true;
  task.jaw = -min(1.5 * d, 0.5 * job_.part.overall);
  task.zone_left = task.jaw + route_.machine.chuck.jaw_clearance;
  set_grip(task.operation, v, max(task.jaw - grip_length(d), task.work.left()), task.jaw);
  task.operation.grip_diameter = d;
  task.operation.clamping = "chuck";
  task.operation.stick_out = -task.jaw;
  task.operation.free_ratio = (task.operation.stick_out / d).si;
  task.operation.why = "the end face and its centre hole only";
}

void RoutePlanner::clamp_between_centres(OperationTask& task, const View& v, Length cut_over,
                                         Layout& layout) const {
  // A face driver leaves the length free; a dog covers its end.
  const Length taken = route_.machine.manual() ? 20.0 * unit::mm : 3.0 * unit::mm;
  const Length end = -job_.part.overall;
  task.jaw = end;
  const Length free_from = end + taken;
  if (cut_over < free_from - Length(same_point)) {
    layout.why_not = "the driver covers what only this holding can reach";
    layout.would_help = "a face driver, or the seats ground";
    return;
  }
  task.zone_left = task.operation.from_left ? cut_over : max(free_from, cut_over - overlap);
  set_grip(task.operation, v, end, end);
  task.operation.support = Support::between_centres;
  task.operation.clamping =
      route_.machine.manual() ? "between centres, dog" : "between centres, face driver";
  task.operation.stick_out = job_.part.overall;
  const Length d = effective_diameter(task.target, end, Length(0.0));
  task.operation.free_ratio = (job_.part.overall / d).si;
  task.operation.why = "a tie finer than soft jaws hold: both seats from the same centres";
}

// On the finished bore: the outside of this operation runs true to it, and nothing is gripped
// outside.
void RoutePlanner::on_mandrel(OperationTask task, const View& v, Layout& layout) {
  const Surface& hole = job_.surfaces[through_bore()];
  task.operation.mandrel = true;
  task.operation.support = Support::between_centres;
  task.operation.clamping = "mandrel in the bore";
  task.operation.grip_diameter = hole.diameter();
  task.operation.grip_from = hole.left;
  task.operation.grip_to = hole.right;
  task.operation.stick_out = job_.part.overall;
  task.jaw = -job_.part.overall;
  const Length d = effective_diameter(task.target, task.jaw, Length(0.0));
  task.operation.free_ratio = (job_.part.overall / d).si;
  task.operation.why = "on a mandrel in " + hole.name + ", true to it";
  task.operation.mass = body_volume(task.work, v.local(layout.hollow)) * job_.material.density;
  layout.tie = accuracy_row("mandrel");
  for (const GivenTime& g : job_.given)
    if (g.left ? task.operation.from_left : v.z(g.z) >= task.zone_left + Length(same_point))
      task.given.push_back(g);
  decide_two_cuts(task, layout);
  run(std::move(task), layout);
}

bool RoutePlanner::drawn_at(Length z) const {
  for (const Surface& s : job_.outside())
    if (z > s.left && z < s.right) return s.as_drawn;
  return false;
}

void RoutePlanner::set_grip(Operation& operation, const View& v, Length local_from,
                            Length local_to) {
  const Interval grip = v.between(local_from, local_to);
  operation.grip_from = grip.from;
  operation.grip_to = grip.to;
}

void RoutePlanner::rechucking(const Rechucking& how, Layout& layout) {
  const bool from_left = how.from_left;
  const Length cut_over = how.cut_over;
  const View v = view(from_left);
  OperationTask task;
  task.last = how.last;
  task.roughs = how.roughs;
  task.finishes = how.finishes;
  task.operation.number = how.number;
  task.operation.from_left = from_left;
  task.work = v.local(layout.operations.back().after);
  task.target = v.local(job_.turned);
  task.final = v.local(job_.finished);
  task.zone_left = v.z(cut_over);
  if (how.roughs) task.facing = from_left ? job_.stock.facing_left : job_.stock.facing_right;
  if (!how.last && how.finishes) {
    const Length top = job_.turned.largest();
    task.target = raised_left(task.target, task.zone_left, top);
    task.final = raised_left(task.final, task.zone_left, top);
    task.zone_left = task.zone_left - overlap;
  }
  const Length clearance = jaw_clearance();
  const Surface* held = nullptr;
  Length jaw(-1e9);
  for (const Surface& s : job_.outside()) {
    if (!s.gripable) continue;
    const Interval seat = v.between(s.left, s.right);
    const Length end = min(seat.to - 1.0 * unit::mm, task.zone_left - clearance);
    const Length needed = shallow_ ? least_grip(s.diameter()) : fair_grip(s.diameter());
    const bool fine = s.grade <= 7 && s.toleranced;
    if (end - seat.from < needed - Length(same_point)) continue;
    // A fine seat only when nothing else is there.
    const Length rank = end - (fine ? Length(1e3) : Length(0.0));
    if (rank > jaw) {
      jaw = rank;
      held = &s;
    }
  }
  if (how.last && how.finishes && wants_mandrel(from_left, cut_over, held == nullptr && shallow_)) {
    on_mandrel(std::move(task), v, layout);
    return;
  }
  if (held == nullptr) {
    layout.why_not = "no turned diameter is long enough for the second holding";
    layout.would_help =
        "bar fed and parted off, a longer blank to hold, or the work between centres";
    return;
  }
  const Interval seat = v.between(held->left, held->right);
  const Length end = min(seat.to - 1.0 * unit::mm, task.zone_left - clearance);
  const Length from = max(seat.from, end - full_grip(held->diameter()));
  task.jaw = end;
  set_grip(task.operation, v, from, end);
  task.operation.grip_diameter = held->diameter();
  jaws_for(*held, from_left, cut_over, task.operation, layout);
  thin_walls(*held, layout, task.operation);
  if (!how.finishes) {
    // Roughing asks for a firm grip, not for a true one.
    task.operation.jaws = Jaws::hard;
    task.operation.check_all = false;
    task.operation.why.clear();
  }
  task.operation.why =
      (task.operation.jaws == Jaws::soft ? "soft jaws bored in place on " : "hard jaws on ") +
      held->name + (task.operation.why.empty() ? "" : "; " + task.operation.why);
  task.operation.mass =
      body_volume(layout.operations.back().after, layout.hollow) * job_.material.density;
  for (const GivenTime& g : job_.given) {
    const bool first = g.left ? !from_left : v.z(g.z) < task.zone_left + Length(same_point);
    if (!first) task.given.push_back(g);
  }
  if (!decide_support(task, layout)) return;
  if (!how.roughs) task.centre_hole = false;  // it is there
  four_jaws(task.operation, true);
  decide_two_cuts(task, layout);
  run(std::move(task), layout);
  if (held->grade <= 7 && held->toleranced) layout.score += 10;
  // A short grip is worse the further the work stands out of it.
  for (const Operation& operation : layout.operations) {
    const Number held_share =
        (operation.grip_to - operation.grip_from) / fair_grip(operation.grip_diameter);
    layout.score += std::max(0.0, 1 - held_share.si) * (1 + operation.free_ratio);
  }
}

}  // namespace turnwright
