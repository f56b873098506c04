// SPDX-License-Identifier: MIT
#include "operation_planner.hpp"

#include <algorithm>
#include <cmath>

#include "length_text.hpp"

namespace turnwright {

Outline blocked_left(const Outline& shape, Length zone_left) {
  const Outline wall(
      std::vector<Segment>{{{zone_left - far, far}, {zone_left, far}, Bulge::none, {}, {}}});
  return combine(shape, wall, Envelope::upper);
}

Length finish_allowance(const Machine& machine) {
  // 0.3-0.5 on CNC (from memory), 0.4 to 0.75 on manual lathes (chestofbooks; P. N. Rao p. 130).
  return machine.manual() ? 0.5 * unit::mm : 0.4 * unit::mm;
}

Operation OperationPlanner::plan() {
  task_.operation.before = task_.work;
  task_.operation.hollow_before = task_.hollow;
  body_ = body_volume(task_.work, task_.hollow);
  auto next = [&](void (OperationPlanner::*steps)()) {
    if (why_not.empty()) (this->*steps)();
  };
  if (task_.facing.si > same_point) next(&OperationPlanner::face);
  if (task_.centre_hole) next(&OperationPlanner::centre);
  // With a centre in its mouth the bore comes first.
  const bool inside_first = task_.operation.support == Support::chuck_and_centre;
  const bool opens = task_.turn && !task_.hollow_final.empty();
  if (opens) next(&OperationPlanner::drill);
  if (opens && inside_first) next(&OperationPlanner::inside);
  if (task_.turn && task_.roughs) {
    next(&OperationPlanner::rough);
    if (opens && !inside_first) next(&OperationPlanner::rough_bore);
  }
  if (task_.turn && task_.finishes) {
    next(&OperationPlanner::knurls);
    next(&OperationPlanner::finish);
    if (opens && !inside_first) {
      next(&OperationPlanner::finish_bore);
      next(&OperationPlanner::ream);
    }
    next(&OperationPlanner::grooves);
    if (opens && !inside_first) next(&OperationPlanner::inside_edges);
    next(&OperationPlanner::face_grooves);
    next(&OperationPlanner::threads);
  }
  if (task_.finishes) given();
  if (task_.part_off && why_not.empty()) part_off();
  Operation& operation = task_.operation;
  operation.after = view_.local(task_.work);
  operation.before = view_.local(operation.before);
  operation.hollow_after = view_.local(task_.hollow);
  operation.hollow_before = view_.local(operation.hollow_before);
  for (Step& step : operation.steps) {
    step.work_after = view_.local(step.work_after);
    step.hollow_after = view_.local(step.hollow_after);
    if (view_.from_left) {
      const Interval span = view_.between(step.from, step.to);
      step.from = span.from;
      step.to = span.to;
    }
    for (Pass& pass : step.passes) {
      pass.from.z = view_.z(pass.from.z);
      pass.to.z = view_.z(pass.to.z);
    }
  }
  return std::move(operation);
}

bool goes_on(const Tool& tool, const Machine& machine) {
  return tool.for_lathe == ToolFor::both || (tool.for_lathe == ToolFor::manual) == machine.manual();
}

const Tool* tool_of(const Shop& shop, const Machine& machine, ToolKind kind) {
  for (const std::string& name : machine.mounted_tools)
    if (const Tool* t = shop.tool(name); t != nullptr && t->kind == kind) return t;
  for (const Tool& t : shop.tools)
    if (t.kind == kind && goes_on(t, machine)) return &t;
  return nullptr;
}

const Tool* parting_tool(const Shop& shop, Length reach) {
  const Tool* best = nullptr;
  for (const Tool& t : shop.tools)
    if (t.kind == ToolKind::part_off && t.reach.si >= reach.si - same_point &&
        (best == nullptr || t.width < best->width))
      best = &t;
  return best;
}

const Tool* OperationPlanner::rougher() const {
  return tool_of(task_.finisher_takes_both ? ToolKind::finish : ToolKind::rough);
}

// The standing finisher, unless another reaches more of the contour.
const Tool* OperationPlanner::finishing_tool() const {
  const Tool* best = tool_of(ToolKind::finish);
  if (best == nullptr || task_.finisher_takes_both) return best;
  const Length corner = smallest_corner();
  auto too_round = [&](const Tool& t) { return t.nose_radius.si > corner.si + same_point; };
  auto left_over = [&](const Tool& t) {
    const Outline zone = blocked_left(task_.target, task_.zone_left);
    return (reachable(zone, t.copying_angle).only(task_.zone_left, Length(0.0)).volume() -
            zone.only(task_.zone_left, Length(0.0)).volume())
        .si;
  };
  double least = left_over(*best);
  if (too_round(*best)) least = 1e9;
  if (least < 1e-15) return best;
  for (const Tool& t : shop_.tools) {
    if (t.kind != ToolKind::finish || t.grade != best->grade || too_round(t)) continue;
    const double left = left_over(t);
    if (left < least * 0.999) {
      least = left;
      best = &t;
    }
  }
  return best;
}

// The sharpest inner corner of the contour in this zone.
Length OperationPlanner::smallest_corner() const {
  Length least(1.0);
  for (const Surface& s : job_.outside()) {
    if (!in_zone(s)) continue;
    for (const Corner& c : job_.element_of(s).corners) {
      const ReliefSize* size = shop_.standards.relief(s.diameter());
      if (c.radius.si > 0)
        least = min(least, c.radius);
      else if (size != nullptr)
        least = min(least, size->radius);
    }
  }
  return least;
}

bool OperationPlanner::in_zone(const Surface& s) const {
  return view_.z((s.left + s.right) / 2.0) > task_.zone_left;
}
bool OperationPlanner::fits_lathe(const Tool& t) const { return goes_on(t, machine_); }

CutContext OperationPlanner::context(const Tool& tool, StepKind kind, Length diameter,
                                     Length ra) const {
  // Jaws that hold on little turn the work with less.
  const Operation& operation = task_.operation;
  const Length held = operation.grip_to - operation.grip_from;
  const Number share = operation.grip_diameter.si > 0
                           ? min(Number(1.0), held / (0.3 * operation.grip_diameter))
                           : Number(1.0);
  return {shop_, job_.material, machine_, tool, kind, diameter, share * operation.grip_diameter,
          ra};
}

OperationPlanner::Wanted OperationPlanner::wanted_at(Length local, bool inside) const {
  const Length z = view_.z(local);
  for (std::size_t i = 0; i < job_.surfaces.size(); ++i) {
    const Surface& s = job_.surfaces[i];
    if (s.inside() == inside && z > s.left && z < s.right) return {s.ra, s.grade, i};
  }
  return {};
}

Step OperationPlanner::begin(StepKind kind, std::string why) const {
  Step step;
  step.number = static_cast<int>(task_.operation.steps.size() + 1) * 10;
  step.kind = kind;
  step.why = std::move(why);
  return step;
}

Step OperationPlanner::begin(StepKind kind, const Tool& tool, std::string why) const {
  Step step = begin(kind, std::move(why));
  step.tool = tool.name;
  step.grade = tool.grade;
  return step;
}

void OperationPlanner::apply(Step& step, const CutConditions& k) const {
  step.wanted = k.wanted;
  step.used = k.used;
  step.limits = k.limits;
  step.taylor_constant = k.taylor_constant;
  if (k.tuned && k.tuned->found) {
    step.limited_by = k.tuned->binding;
    step.limit_worth = k.tuned->worth;
    step.proof_gap = k.tuned->gap();
  } else if (k.tuned) {
    for (std::size_t i = 0; i < k.tuned->contradict.size(); ++i)
      step.no_optimum += (i == 0 ? "" : " against ") + k.tuned->contradict[i] + " (by itself x" +
                         readable(k.tuned->give_way[i], 3) + " would do)";
  }
  step.taylor_exponent = k.taylor_exponent;
}

// A first cut on scale runs slower.
CutConditions OperationPlanner::under_skin(CutConditions k) const {
  const bool casting = !job_.rough.empty();  // raw on every side
  if ((skin_on_ || casting) && job_.stock.skin)
    k.used.surface_speed = k.used.surface_speed * shop_.factor("skin " + job_.stock.condition);
  if (skin_on_ && job_.stock.flats.si > 0)
    k.used.surface_speed = k.used.surface_speed * shop_.factor("interrupted corners");
  return k;
}

void OperationPlanner::at_one_speed(Pass& pass) {
  if (pass.constant_speed) return;
  pass.constant_speed = true;
  pass.spindle = min(pass.surface_speed / (pi * pass.large_diameter), pass.fastest);
}

void OperationPlanner::set_speed(const CutContext& c, const CutConditions& k, Pass& pass) {
  pass.feed = k.used.feed;
  pass.surface_speed = k.used.surface_speed;
  pass.fastest = fastest_speed(machine_);
  if (machine_.ladder.empty()) {
    if (machine_.fixed_speed) at_one_speed(pass);
    return;
  }
  pass.constant_speed = true;
  const Frequency n =
      lever_speed(c, pass.surface_speed, pass.large_diameter, pass.path(), pass.feed, lever_);
  lever_ = n;
  pass.spindle = n;
}

Pass OperationPlanner::along(const CutContext& c, const CutConditions& k, Length from, Length to,
                             Length radius, Length before, Length approach) {
  Pass pass;
  pass.motion = Motion::along;
  pass.from = {from, radius};
  pass.to = {to, radius};
  pass.cut = from - to;
  pass.approach = approach;
  pass.large_diameter = pass.small_diameter = 2.0 * before;
  pass.depth = before - radius;
  pass.travel = pass.path() + 4.0 * unit::mm;
  set_speed(c, k, pass);
  return pass;
}

Pass OperationPlanner::across(const CutContext& c, const CutConditions& k, Length z, Length r_from,
                              Length r_to, Length approach) {
  Pass pass;
  pass.motion = Motion::across;
  pass.from = {z, r_from};
  pass.to = {z, r_to};
  pass.cut = abs(r_from - r_to);
  pass.approach = approach;
  pass.large_diameter = 2.0 * (max(r_from, r_to) + approach);
  pass.small_diameter = 2.0 * min(r_from, r_to);
  pass.depth = k.used.depth;
  pass.travel = pass.path() + 4.0 * unit::mm;
  set_speed(c, k, pass);
  return pass;
}

void OperationPlanner::done(Step step, const Outline& after) {
  // Walls that only guarded the cut leave nothing behind.
  task_.work = after.only(task_.operation.before.left(), task_.operation.before.right());
  finished(std::move(step));
}
void OperationPlanner::done_inside(Step step, Outline hollow) {
  task_.hollow = std::move(hollow);
  finished(std::move(step));
}
void OperationPlanner::finished(Step step) {
  const Volume before = body_;
  body_ = body_volume(task_.work, task_.hollow);
  step.removed = before - body_;
  finished_feature(std::move(step));
}
void OperationPlanner::keep(Step step) {
  step.work_after = task_.work;
  step.hollow_after = task_.hollow;
  task_.operation.steps.push_back(std::move(step));
}
// Lever and feed changes are counted where they happen.
void OperationPlanner::count_changes(Step& step) {
  Length feed(0.0);
  Frequency n(0.0);
  for (const Pass& pass : step.passes) {
    if (pass.feed.si != feed.si) ++step.feed_changes;
    if (pass.constant_speed && pass.spindle.si != n.si) ++step.speed_changes;
    feed = pass.feed;
    n = pass.spindle;
  }
}

// A casting is faced under its skin in one cut (practice: 2.5-3 mm and more, from memory).
Length OperationPlanner::facing_depth() const {
  return Length(job_.rough.empty() ? face_depth_m : 4e-3);
}

void OperationPlanner::face() {
  const Tool* tool = rougher();
  if (tool == nullptr) {
    why_not = "the shop has no tool to face with";
    return;
  }
  const Length a = task_.facing, r = task_.work.largest(Length(0.0), a);
  const Length hole = hole_at(Length(0.0));
  const Length deepest = min(facing_depth(), tool->largest_depth);
  const bool one = a.si <= 0.5e-3 + same_point;
  const int rough_cuts =
      one ? 0 : static_cast<int>(std::ceil((a.si - face_last_m) / deepest.si - whole_slack));
  const FaceRequest& request = view_.from_left ? job_.part.left_face : job_.part.right_face;
  const Length ra = request.ra.value_or(job_.part.drawing.ra.value_or(Length(0.0)));
  Step step = begin(StepKind::face, *tool, "the end face first, before a centre is in the way");
  step.from = Length(0.0);
  step.to = a;
  const Length each = one ? a : (a - Length(face_last_m)) / std::max(rough_cuts, 1);
  const CutContext rough = context(*tool, StepKind::face, 2.0 * r, Length(0.0));
  const CutConditions k = conditions_at(rough, one ? a : each);
  const CutContext fine = context(*tool, StepKind::face, 2.0 * r, ra);
  const CutConditions last = conditions_at(fine, one ? a : Length(face_last_m));
  apply(step, one ? last : k);
  Length z = a;
  for (int i = 0; i < rough_cuts; ++i) {
    z = z - each;
    step.passes.push_back(across(rough, under_skin(k), z, r, hole, Length(approach_m)));
    skin_on_ = false;
  }
  step.passes.push_back(across(fine, last, Length(0.0), r, hole, Length(approach_m)));
  skin_on_ = true;  // the outside still has its skin
  done(std::move(step), task_.work.only(task_.work.left(), Length(0.0)));
}

void OperationPlanner::centre() {
  const Tool* tool = tool_of(ToolKind::centre);
  const Length end = 2.0 * task_.final.left_of(Length(0.0));
  const CentreHole* hole = shop_.standards.centre_hole(end);
  if (tool == nullptr || hole == nullptr || end.si <= hole->countersink.si) {
    why_not = "the end face of " + length_text(job_, end) + " is too small for a centre hole";
    would_help = "a larger end face, or a shorter part";
    return;
  }
  const CentreRequest& asked = job_.part.centres;
  const bool form_b = asked.form == "B";
  Step step = begin(StepKind::centre, *tool, "a centre hole for the tailstock");
  const Length d = form_b ? hole->protected_countersink : hole->countersink;
  const CutContext c = context(*tool, StepKind::centre, d, Length(0.0));
  CutConditions k = conditions_at(c, d / 2.0);
  k.used.feed = machine_feed(machine_, tool->largest_feed);
  k.used.depth = d / 2.0;
  k.limits.clear();
  const Length depth = hole->pilot + (hole->countersink - hole->pilot) / (2 * std::tan(pi / 6)) +
                       (form_b ? (d - hole->countersink) / (2 * std::tan(pi / 3)) : Length(0.0));
  apply(step, k);
  Pass pass;
  pass.from = {Length(0.0), Length(0.0)};
  pass.to = {-depth, Length(0.0)};
  pass.cut = depth;
  pass.approach = Length(approach_m);
  pass.large_diameter = pass.small_diameter = d;
  pass.depth = d / 2.0;
  pass.travel = depth + 100.0 * unit::mm;
  set_speed(c, k, pass);
  step.passes.push_back(pass);
  step.from = -depth;
  const Volume v = hole->volume(form_b);
  features.push_back({"centre hole " + std::string(form_b ? "B " : "A ") +
                          readable(in(hole->pilot, unit::mm)) +
                          (view_.from_left ? " left" : " right"),
                      v, view_.z(Length(0.0)), false});
  step.removed = v;
  keep(std::move(step));
}

// Passes along a shape from right to left, faces included, over the intervals given.
std::vector<Pass> OperationPlanner::path_passes(const Tool& tool, StepKind kind,
                                                const Outline& shape,
                                                const std::vector<Interval>& where, Length depth,
                                                bool by_finish, bool inside) {
  std::vector<Pass> passes;
  const Length top = inside ? Length(0.0) : task_.work.largest(task_.zone_left, Length(0.0));
  for (auto i = where.rbegin(); i != where.rend(); ++i) {
    bool starts = true;
    Length last_r(0.0);
    const auto& pieces = shape.pieces();
    for (auto s = pieces.rbegin(); s != pieces.rend(); ++s) {
      const Length l = max(s->from.z, i->from), r = min(s->to.z, i->to);
      if (r.si - l.si <= same_point) continue;
      const Segment piece = between(*s, l, r);
      const Wanted wanted = wanted_at((l + r) / 2.0, inside);
      const Length before =
          inside ? piece.from.r : min(piece.from.r + depth, max(top, piece.from.r));
      const CutContext c = context(tool, kind, 2.0 * max(max(piece.from.r, piece.to.r), before),
                                   by_finish ? wanted.ra : Length(0.0));
      CutConditions k = conditions_at(c, depth);
      k.used.depth = depth;
      auto add = [&](Pass pass) {
        pass.starts_path = starts;
        if (!starts) pass.travel = Length(0.0);
        if (by_finish && wanted.grade <= 6 && pass.motion == Motion::along) {
          // IT6: two cuts of equal depth.
          pass.depth = pass.depth / 2.0;
          pass.starts_path = true;
          pass.approach = Length(approach_m);
          pass.travel = pass.path();
          passes.push_back(pass);
        }
        passes.push_back(pass);
        starts = false;
      };
      if (!starts && std::abs(piece.to.r.si - last_r.si) > same_point)
        add(across(c, k, r, last_r, piece.to.r, Length(0.0)));
      const Length approach = starts ? Length(approach_m) : Length(0.0);
      if (piece.bulge == Bulge::none && piece.from.r.si == piece.to.r.si) {
        Pass pass = along(c, k, r, l, piece.from.r, before, approach);
        if (inside) pass.depth = depth;
        add(pass);
      } else {
        std::vector<Segment> parts{piece};
        const Length clamp = k.used.surface_speed / (2.0 * (pi * fastest_speed(machine_)));
        if (piece.bulge != Bulge::none) parts = split_at_radius(piece, clamp);
        for (auto part = parts.rbegin(); part != parts.rend(); ++part) {
          Pass pass = across(c, k, part->to.z, part->to.r, part->from.r, Length(0.0));
          pass.from = part->to;
          pass.to = part->from;
          pass.cut = length(*part);
          pass.approach = starts ? Length(approach_m) : Length(0.0);
          pass.motion =
              part->bulge == Bulge::none && pass.approach.si == 0 ? Motion::across : Motion::arc;
          pass.large_diameter =
              2.0 * max(max(part->from.r, part->to.r), turning_point(*part)
                                                           ? radius_at(*part, *turning_point(*part))
                                                           : Length(0.0));
          pass.swept = surface(*part) + pi * pass.large_diameter * pass.approach;
          pass.depth = depth;
          set_speed(c, k, pass);
          add(pass);
        }
      }
      last_r = piece.from.r;
    }
    if (!passes.empty()) passes.back().travel = i->width() + 4.0 * unit::mm;
  }
  return passes;
}

void OperationPlanner::given() {
  for (const GivenTime& g : task_.given) {
    Step step = begin(StepKind::given, g.name + ": the estimator's own time");
    step.tool = "as given";
    step.given = g.time;
    step.from = step.to = view_.z(g.z);
    keep(std::move(step));
  }
}

}  // namespace turnwright
