// SPDX-License-Identifier: MIT
#include "setup_planner.hpp"

#include <algorithm>
#include <cmath>

#include "bend.hpp"
#include "profile.hpp"
#include "said.hpp"
#include "turnwright/figure/cutting.hpp"

namespace turnwright {
namespace {

constexpr double approach_m = 2e-3;           // P. N. Rao p. 130: 2 mm on one side
constexpr double shortest_shoulder_m = 3e-3;  // what is shorter is an edge break or a relief
constexpr double scale_depth_m =
    0.5e-3;                             // a first cut thinner than this rubs on scale (from memory)
constexpr double depth_slack = 0.02;    // no turner adds a pass for a fiftieth (common practice)
constexpr double sliver_m = 0.3e-3;     // thinner layers join their neighbour (from memory)
constexpr double face_last_m = 0.3e-3;  // last facing cut, typical
constexpr double face_depth_m = 2e-3;   // deepest facing cut, 0.76-2.5 mm in training texts
constexpr Length far(1e3);

// The shape with a wall left of the zone: what is held or left to the other holding stays.
Outline blocked_left(const Outline& shape, Length zone_left) {
  const Outline wall(
      std::vector<Segment>{{{zone_left - far, far}, {zone_left, far}, Bulge::none, {}, {}}});
  return combine(shape, wall, Take::upper);
}

}  // namespace

Length finish_allowance(const Machine& machine) {
  // 0.3-0.5 on CNC (from memory), 0.4 to 0.75 on manual lathes (chestofbooks; P. N. Rao p. 130).
  return machine.manual() ? 0.5 * unit::mm : 0.4 * unit::mm;
}

Setup SetupPlanner::plan() {
  task_.setup.before = task_.work;
  if (task_.facing.si > touch) face();
  if (task_.centre_hole && why_not.empty()) centre();
  if (task_.turn) {
    if (why_not.empty()) rough();
    if (why_not.empty()) finish();
    if (why_not.empty()) grooves();
  }
  given();
  if (task_.part_off && why_not.empty()) part_off();
  Setup& setup = task_.setup;
  setup.after = view_.local(task_.work);
  setup.before = view_.local(setup.before);
  for (Step& step : setup.steps) {
    if (view_.from_left) {
      const Length a = view_.z(step.from), b = view_.z(step.to);
      step.from = min(a, b);
      step.to = max(a, b);
    }
    for (Pass& pass : step.passes) {
      pass.from.z = view_.z(pass.from.z);
      pass.to.z = view_.z(pass.to.z);
    }
  }
  return std::move(setup);
}

const Tool* SetupPlanner::tool_of(ToolKind kind) const {
  for (const std::string& name : machine_.standing_tools)
    if (const Tool* t = shop_.tool(name); t != nullptr && t->kind == kind) return t;
  for (const Tool& t : shop_.tools)
    if (t.kind == kind) return &t;
  return nullptr;
}

const Tool* SetupPlanner::rougher() const {
  return tool_of(task_.finisher_takes_both ? ToolKind::finish : ToolKind::rough);
}

// The standing finisher, unless another reaches more of the contour.
const Tool* SetupPlanner::finishing_tool() const {
  const Tool* best = tool_of(ToolKind::finish);
  if (best == nullptr || task_.finisher_takes_both) return best;
  auto left_over = [&](const Tool& t) {
    const Outline zone = blocked_left(task_.target, task_.zone_left);
    return (reachable(zone, t.copying_angle).only(task_.zone_left, Length(0.0)).volume() -
            zone.only(task_.zone_left, Length(0.0)).volume())
        .si;
  };
  double least = left_over(*best);
  if (least < 1e-15) return best;
  for (const Tool& t : shop_.tools) {
    if (t.kind != ToolKind::finish || t.grade != best->grade) continue;
    const double left = left_over(t);
    if (left < least * 0.999) {
      least = left;
      best = &t;
    }
  }
  return best;
}

CutContext SetupPlanner::context(const Tool& tool, StepKind kind, Length diameter,
                                 Length ra) const {
  // Jaws that hold on little turn the work with less.
  const Setup& setup = task_.setup;
  const Length held = setup.grip_to - setup.grip_from;
  const Number share = setup.grip_diameter.si > 0
                           ? min(Number(1.0), held / (0.3 * setup.grip_diameter))
                           : Number(1.0);
  return {shop_, job_.material, machine_, tool, kind, diameter, share * setup.grip_diameter, ra};
}

SetupPlanner::Wanted SetupPlanner::wanted_at(Length local) const {
  const Length z = view_.z(local);
  for (std::size_t i = 0; i < job_.surfaces.size(); ++i) {
    const Surface& s = job_.surfaces[i];
    if (z > s.left && z < s.right) return {s.ra, s.grade, i};
  }
  return {};
}

Step SetupPlanner::begin(StepKind kind, const Tool& tool, std::string why) const {
  Step step;
  step.number = static_cast<int>(task_.setup.steps.size() + 1) * 10;
  step.kind = kind;
  step.tool = tool.name;
  step.grade = tool.grade;
  step.why = std::move(why);
  return step;
}

void SetupPlanner::apply(Step& step, const CutConditions& k) const {
  step.wanted = k.wanted;
  step.used = k.used;
  step.limits = k.limits;
  step.taylor_constant = k.taylor_constant;
  step.taylor_exponent = k.taylor_exponent;
}

// A first cut on scale runs slower.
CutConditions SetupPlanner::under_skin(CutConditions k) const {
  if (skin_on_ && job_.stock.skin)
    k.used.surface_speed = k.used.surface_speed * shop_.factor("skin " + job_.stock.condition);
  return k;
}

void SetupPlanner::set_speed(const CutContext& c, const CutConditions& k, Pass& pass) {
  pass.feed = k.used.feed;
  pass.surface_speed = k.used.surface_speed;
  pass.fastest = fastest_speed(machine_);
  if (machine_.ladder.empty()) return;
  pass.constant_speed = true;
  const Frequency n =
      lever_speed(c, pass.surface_speed, pass.large_diameter, pass.path(), pass.feed, lever_);
  lever_ = n;
  pass.spindle = n;
}

Pass SetupPlanner::along(const CutContext& c, const CutConditions& k, Length from, Length to,
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

Pass SetupPlanner::across(const CutContext& c, const CutConditions& k, Length z, Length r_from,
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

void SetupPlanner::done(Step step, Outline after) {
  step.removed = task_.work.volume() - after.volume();
  task_.work = std::move(after);
  // Lever and feed changes are counted where they happen.
  Length feed(0.0);
  Frequency n(0.0);
  for (const Pass& pass : step.passes) {
    if (pass.feed.si != feed.si) ++step.feed_changes;
    if (pass.constant_speed && pass.spindle.si != n.si) ++step.speed_changes;
    feed = pass.feed;
    n = pass.spindle;
  }
  task_.setup.steps.push_back(std::move(step));
}

void SetupPlanner::face() {
  const Tool* tool = rougher();
  if (tool == nullptr) {
    why_not = "the shop has no tool to face with";
    return;
  }
  const Length a = task_.facing, r = task_.work.largest();
  const Length deepest = min(Length(face_depth_m), tool->largest_depth);
  const bool one = a.si <= 0.5e-3 + touch;
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
    step.passes.push_back(across(rough, under_skin(k), z, r, Length(0.0), Length(approach_m)));
    skin_on_ = false;
  }
  step.passes.push_back(across(fine, last, Length(0.0), r, Length(0.0), Length(approach_m)));
  skin_on_ = true;  // the outside still has its skin
  done(std::move(step), task_.work.only(task_.work.left(), Length(0.0)));
}

void SetupPlanner::centre() {
  const Tool* tool = tool_of(ToolKind::centre);
  const Length end = 2.0 * task_.final.left_of(Length(0.0));
  const CentreHole* hole = shop_.standards.centre_hole(end);
  if (tool == nullptr || hole == nullptr || end.si <= hole->countersink.si) {
    why_not = "the end face of " + said(job_, end) + " is too small for a centre hole";
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
                      v, view_.z(Length(0.0))});
  step.removed = v;
  task_.setup.steps.push_back(std::move(step));
}

void SetupPlanner::rough() {
  const Tool* tool = rougher();
  if (tool == nullptr) {
    why_not = "the shop has no roughing tool";
    return;
  }
  const Length allowance = task_.finisher_takes_both ? task_.last_cut : finish_allowance(machine_);
  Outline limit = view_.local(with_allowance(job_, allowance, Length(axial_allowance)));
  limit = combine(limit, task_.target, Take::upper);
  limit = reachable(blocked_left(limit, task_.zone_left), tool->copying_angle);
  if (where_above(task_.work.only(task_.zone_left, Length(0.0)), limit).empty()) return;
  Step step = begin(
      StepKind::rough, *tool,
      task_.finisher_takes_both
          ? "the finishing tool takes the first of its two cuts"
          : "to " + said(job_, allowance) + " a side, the depth divided evenly between shoulders");
  step.from = task_.zone_left;
  if (task_.finisher_takes_both) {
    Length deepest(0.0);
    for (const Interval& i : where_above(task_.work.only(task_.zone_left, Length(0.0)), limit))
      for (const Segment& s : limit.pieces())
        if (s.to.z > i.from && s.from.z < i.to)
          deepest = max(deepest, task_.work.largest(i.from, i.to) - min(s.from.r, s.to.r));
    contour_cut(*tool, limit, step, deepest);
    return;
  }
  rough_levels(*tool, limit, step);
}

void SetupPlanner::rough_levels(const Tool& tool, const Outline& limit, Step& step) {
  const Length top = task_.work.largest(task_.zone_left, Length(0.0));
  const Length over = (job_.stock.upper - job_.stock.diameter) / 2.0;
  // Radii of the shoulders, from the outside in.
  std::vector<double> shoulders;
  for (const Segment& s : limit.pieces()) {
    if (s.to.z.si <= task_.zone_left.si + touch) continue;
    const double low = min(s.from.r, s.to.r).si;
    const double width = (s.to.z - max(s.from.z, task_.zone_left)).si;
    // Edge breaks and reliefs are no shoulders; a cone or arc counts with its smaller end.
    if (low < top.si - touch && width >= shortest_shoulder_m) shoulders.push_back(low);
  }
  if (shoulders.empty()) return;
  std::sort(shoulders.rbegin(), shoulders.rend());
  std::vector<double> levels;
  for (std::size_t i = 0; i < shoulders.size(); ++i) {
    const bool sliver = i + 1 < shoulders.size() && shoulders[i] - shoulders[i + 1] < sliver_m &&
                        shoulders[i] - shoulders[i + 1] > touch;
    if (sliver) continue;
    if (levels.empty() || levels.back() - shoulders[i] > touch) levels.push_back(shoulders[i]);
  }
  if (levels.empty()) return;
  // The deepest cut that tool, power, torque and grip stand.
  const CutContext c = context(tool, StepKind::rough, 2.0 * top, Length(0.0));
  Length most = tool.largest_depth;
  LimitCheck stopped;
  CutConditions k = conditions_at(c, most);
  while (!k.depth_ok && most > tool.least_depth) {
    for (const LimitCheck& l : k.limits)
      if (l.bit) stopped = l;
    most = max(most * 0.9, tool.least_depth);
    k = conditions_at(c, most);
  }
  std::vector<std::pair<double, double>> cuts;  // radius before, after
  double from = top.si, deepest = 0;
  for (std::size_t i = 0; i < levels.size(); ++i) {
    const double gap = from - levels[i] + (i == 0 ? over.si : 0);
    const int n = std::max(1, static_cast<int>(std::ceil(gap / most.si - depth_slack)));
    for (int j = 1; j <= n; ++j) {
      const double after = j == n ? levels[i] : from - (from - levels[i]) * j / n;
      const double before = from - (from - levels[i]) * (j - 1) / n;
      cuts.emplace_back(before, after);
      deepest = std::max(deepest, before - after);
    }
    from = levels[i];
  }
  k = conditions_at(c, Length(deepest));
  apply(step, k);
  step.limits.insert(step.limits.begin(), {"depth", most.si, deepest, unit::mm,
                                           most < tool.largest_depth, "depth, one more pass"});
  if (stopped.bit) step.limits.push_back(stopped);
  if (job_.stock.skin && cuts.front().first - cuts.front().second < scale_depth_m)
    cautions_.push_back("the first cut under the skin is only " +
                        said(job_, Length(cuts.front().first - cuts.front().second)) + " deep");
  Outline work = task_.work;
  bool first = true;
  for (const auto& [before, after] : cuts) {
    const Level level = cut_level(work, limit, Length(after));
    for (auto i = level.cuts.rbegin(); i != level.cuts.rend(); ++i) {
      const Length outer = min(work.largest(i->from, i->to), Length(before));
      step.passes.push_back(along(c, first ? under_skin(k) : k, i->to, i->from, Length(after),
                                  outer, Length(approach_m)));
    }
    first = first && level.cuts.empty();
    work = level.after;
  }
  skin_on_ = false;
  // Steps left on cones and arcs: one pass along the contour.
  const auto left = where_above(work.only(task_.zone_left, Length(0.0)), limit);
  bool steps_left = false;
  for (const Interval& i : left) steps_left = steps_left || i.width().si > shortest_shoulder_m;
  if (steps_left) {
    const auto more = path_passes(tool, StepKind::rough, limit, left, k.used.depth, false);
    step.passes.insert(step.passes.end(), more.begin(), more.end());
    work = combine(work, limit, Take::lower);
  }
  done(std::move(step), std::move(work));
}

void SetupPlanner::contour_cut(const Tool& tool, const Outline& limit, Step& step, Length depth) {
  const CutContext c = context(tool, StepKind::rough, 2.0 * task_.work.largest(), Length(0.0));
  const CutConditions k = conditions_at(c, depth);
  apply(step, k);
  step.limits.insert(step.limits.begin(),
                     {"depth", tool.largest_depth.si, depth.si, unit::mm, false, ""});
  step.passes =
      path_passes(tool, StepKind::rough, limit,
                  where_above(task_.work.only(task_.zone_left, Length(0.0)), limit), depth, false);
  if (!k.depth_ok) {
    why_not = "power, torque or grip do not stand a cut " + said(job_, depth) +
              " deep with the finishing tool";
    would_help = "rough then finish";
  }
  skin_on_ = false;
  done(std::move(step), combine(task_.work, limit, Take::lower));
}

// Passes along a shape from right to left, faces included, over the intervals given.
std::vector<Pass> SetupPlanner::path_passes(const Tool& tool, StepKind kind, const Outline& shape,
                                            const std::vector<Interval>& where, Length depth,
                                            bool by_finish) {
  std::vector<Pass> passes;
  const Length top = task_.work.largest(task_.zone_left, Length(0.0));
  for (auto i = where.rbegin(); i != where.rend(); ++i) {
    bool starts = true;
    Length last_r(0.0);
    const auto& pieces = shape.pieces();
    for (auto s = pieces.rbegin(); s != pieces.rend(); ++s) {
      const Length l = max(s->from.z, i->from), r = min(s->to.z, i->to);
      if (r.si - l.si <= touch) continue;
      const Segment piece = between(*s, l, r);
      const Wanted wanted = wanted_at((l + r) / 2.0);
      const Length before = min(piece.from.r + depth, max(top, piece.from.r));
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
      if (!starts && std::abs(piece.to.r.si - last_r.si) > touch)
        add(across(c, k, r, last_r, piece.to.r, Length(0.0)));
      const Length approach = starts ? Length(approach_m) : Length(0.0);
      if (piece.bulge == Bulge::none && piece.from.r.si == piece.to.r.si) {
        add(along(c, k, r, l, piece.from.r, before, approach));
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

void SetupPlanner::finish() {
  const Tool* tool = finishing_tool();
  const Outline shape =
      tool == nullptr ? Outline()
                      : reachable(blocked_left(task_.target, task_.zone_left), tool->copying_angle);
  const auto where = tool == nullptr
                         ? std::vector<Interval>{}
                         : where_above(task_.work.only(task_.zone_left, Length(0.0)), shape);
  if (where.empty()) return;
  const Length depth = task_.finisher_takes_both ? task_.last_cut : finish_allowance(machine_);
  Step step = begin(StepKind::finish, *tool, "the contour to size, faces and reliefs with it");
  step.from = task_.zone_left;
  step.passes = path_passes(*tool, StepKind::finish, shape, where, depth, true);
  // The finest surface decides what the step shows.
  Length finest(1.0);
  for (const Interval& i : where)
    for (std::size_t n = 0; n < job_.surfaces.size(); ++n) {
      const Surface& s = job_.surfaces[n];
      const Length a = view_.z(s.left), b = view_.z(s.right);
      if (min(a, b).si > i.to.si - touch || max(a, b).si < i.from.si + touch) continue;
      if (s.as_drawn) continue;
      if (std::find(step.gauged.begin(), step.gauged.end(), n) == step.gauged.end())
        step.gauged.push_back(n);
      if (s.ra.si > 0) finest = min(finest, s.ra);
    }
  const Length widest = 2.0 * shape.largest(where.front().from, where.back().to);
  const CutContext c = context(*tool, StepKind::finish, min(widest, 2.0 * task_.work.largest()),
                               finest.si < 1 ? finest : Length(0.0));
  apply(step, conditions_at(c, depth));
  step.limits.insert(step.limits.begin(),
                     {"depth", tool->largest_depth.si, depth.si, unit::mm, false, ""});
  bending(*tool, step, step.passes);
  done(std::move(step), combine(task_.work, shape, Take::lower));
}

// The variation of the deflection along a toleranced surface, doubled, against a share of its
// tolerance. Knobs: depth (lighter last cuts), then feed.
void SetupPlanner::bending(const Tool& tool, Step& step, std::vector<Pass>& passes) {
  const HeldWork held{task_.target,
                      task_.jaw,
                      Length(0.0),
                      task_.setup.support,
                      job_.material.elastic_modulus,
                      shop_.policy.chuck_compliance};
  LimitCheck worst{"bending over the surface", 0, 0, unit::um, false, ""};
  double worst_share = 0;
  std::string worst_name;
  for (std::size_t p = 0; p < passes.size(); ++p) {
    Pass& pass = passes[p];
    if (pass.motion != Motion::along) continue;
    const Wanted wanted = wanted_at((pass.from.z + pass.to.z) / 2.0);
    if (wanted.surface == npos || wanted.grade > 11) continue;
    const double range = compliance_range(held, pass.to.z, pass.from.z);
    const Length allowed = shop_.policy.deflection_share * job_.surfaces[wanted.surface].tolerance;
    auto bent = [&](Length depth, Length feed) {
      const Pressure kc = figure::SpecificForce::work_out<>(
                              {job_.material.kc11, job_.material.mc, feed, tool.lead_angle})
                              .specific_force;
      const Force fc = figure::CuttingForce::work_out<>({depth, feed, kc}).force;
      const Force fp = figure::PassiveForce::work_out<>({fc, depth, tool.nose_radius}).force;
      return Length(2 * fp.si * range);
    };
    bool bit = false;
    std::string knob;
    if (bent(pass.depth, pass.feed) > allowed && pass.depth / 2.0 >= tool.least_depth) {
      bit = true;
      knob = "depth, one more light cut";
      Pass extra = pass;
      extra.depth = pass.depth = pass.depth / 2.0;
      extra.starts_path = true;
      extra.approach = Length(approach_m);
      extra.travel = extra.path();
      passes.insert(passes.begin() + static_cast<std::ptrdiff_t>(p), extra);
      ++p;
    }
    Pass& last = passes[p];
    while (bent(last.depth, last.feed) > allowed && last.feed * 0.8 >= tool.least_feed) {
      bit = true;
      knob = "feed";
      last.feed = machine_feed(machine_, last.feed * 0.8);
    }
    const Length y = bent(last.depth, last.feed);
    const double share = y.si / allowed.si;
    if (share > 1)
      cautions_.push_back(job_.surfaces[wanted.surface].name + " bends by " +
                          readable(in(y, unit::um), 3) + " um over its length (allowed " +
                          readable(in(allowed, unit::um), 3) +
                          " um): support it, or leave it for grinding");
    if (share > worst_share) {
      worst_share = share;
      worst.allowed = allowed.si;
      worst.actual = y.si;
      worst.bit = bit;
      worst.knob = bit ? knob : "";
    }
  }
  if (worst_share > 0) step.limits.push_back(worst);
}

const Tool* SetupPlanner::grooving_tool(const Interval& interval, Length depth) const {
  const Tool* best = nullptr;
  const bool at_part_off =
      task_.part_off && std::abs(interval.from.si - task_.part_off_at.si) < touch;
  if (at_part_off) return tool_of(ToolKind::part_off);
  for (const Tool& t : shop_.tools) {
    if (t.kind != ToolKind::groove) continue;
    if (t.width.si > interval.width().si + touch || t.reach < depth) continue;
    if (best == nullptr || t.width > best->width) best = &t;
  }
  return best;
}

void SetupPlanner::grooves() {
  // Whatever the contour left above the part in this zone is plunged.
  const auto left = where_above(task_.work.only(task_.zone_left, Length(0.0)),
                                blocked_left(task_.final, task_.zone_left));
  for (auto i = left.rbegin(); i != left.rend() && why_not.empty(); ++i) groove(*i);
}

void SetupPlanner::groove(const Interval& interval) {
  Length bottom = task_.work.largest(interval.from, interval.to);
  const Length top = bottom;
  for (const Segment& s : task_.final.pieces())
    if (s.to.z.si > interval.from.si + touch && s.from.z.si < interval.to.si - touch)
      bottom = min(bottom, min(s.from.r, s.to.r));
  const Length depth = top - bottom;
  const Tool* tool = grooving_tool(interval, depth);
  if (tool == nullptr) {
    why_not = "no grooving tool reaches the recess at " + said(job_, -view_.z(interval.to)) + " (" +
              said(job_, interval.width()) + " wide, " + said(job_, depth) + " deep)";
    would_help = "a grooving tool no wider than " + said(job_, interval.width()) +
                 " that reaches " + said(job_, depth);
    return;
  }
  Step step =
      begin(StepKind::groove, *tool,
            tool->kind == ToolKind::part_off ? "the rear edge before parting, with the parting tool"
                                             : "what the contour tool cannot reach");
  step.from = interval.from;
  step.to = interval.to;
  const CutContext c = context(*tool, StepKind::groove, 2.0 * top, Length(0.0));
  CutConditions k = conditions_at(c, depth);
  k.used.depth = k.wanted.depth = depth;
  apply(step, k);
  step.limits.insert(step.limits.begin(), {"reach", tool->reach.si, depth.si, unit::mm, false, ""});
  const double w = tool->width.si, W = interval.width().si;
  const int plunges =
      W <= w + touch ? 1 : 1 + static_cast<int>(std::ceil((W - w) / (0.8 * w) - whole_slack));
  for (int i = 0; i < plunges; ++i) {
    const double share = plunges == 1 ? 0 : static_cast<double>(i) / (plunges - 1);
    step.passes.push_back(across(c, k, interval.to - Length(share * std::max(0.0, W - w)), top,
                                 bottom, 1.0 * unit::mm));
  }
  if (plunges > 1)  // walls and floor once more
    step.passes.push_back(along(c, k, interval.to - tool->width, interval.from, bottom,
                                bottom + 0.1 * unit::mm, Length(0.0)));
  for (std::size_t n = 0; n < job_.surfaces.size(); ++n) {
    const Length middle = view_.z((interval.from + interval.to) / 2.0);
    if (middle > job_.surfaces[n].left && middle < job_.surfaces[n].right &&
        interval.width().si > 0.9 * (job_.surfaces[n].right - job_.surfaces[n].left).si)
      step.gauged.push_back(n);
  }
  // Only this interval comes down to the part.
  const Length left = task_.work.left(), right = task_.work.right();
  std::vector<Segment> cut;
  if (interval.from > left) cut.push_back({{left, far}, {interval.from, far}, Bulge::none, {}, {}});
  const Outline kept = task_.final.only(interval.from, interval.to);
  cut.insert(cut.end(), kept.pieces().begin(), kept.pieces().end());
  if (right > interval.to) cut.push_back({{interval.to, far}, {right, far}, Bulge::none, {}, {}});
  done(std::move(step), combine(task_.work, Outline(cut), Take::lower));
}

void SetupPlanner::part_off() {
  const Length r = task_.work.left_of(task_.part_off_at);
  const Tool* tool = nullptr;
  for (const Tool& t : shop_.tools)
    if (t.kind == ToolKind::part_off && t.reach.si >= r.si - touch &&
        (tool == nullptr || t.width < tool->width))
      tool = &t;
  if (tool == nullptr) {
    why_not = "no parting tool reaches the middle of " + said(job_, 2.0 * r);
    would_help = "a parting tool that reaches " + said(job_, r) + ", or sawn blanks";
    return;
  }
  Step step = begin(StepKind::part_off, *tool, "parted close to the jaws, never between centres");
  const CutContext c = context(*tool, StepKind::part_off, 2.0 * r, Length(0.0));
  CutConditions k = conditions_at(c, r);
  k.used.depth = k.wanted.depth = r;
  apply(step, k);
  // The last 2 mm of diameter at 30 % less feed (a tool maker's catalogue 2019, p. 460).
  const Length slow = min(1.0 * unit::mm, r);
  step.passes.push_back(across(c, k, task_.part_off_at, r, slow, 1.0 * unit::mm));
  CutConditions centre = k;
  centre.used.feed = machine_feed(machine_, k.used.feed * 0.7);
  Pass end = across(c, centre, task_.part_off_at, slow, Length(0.0), Length(0.0));
  end.starts_path = false;
  step.passes.push_back(end);
  step.from = task_.part_off_at - tool->width;
  step.to = task_.part_off_at;
  const Length keep_from = task_.part_off_at;
  done(std::move(step), task_.work.only(keep_from, task_.work.right()));
}

void SetupPlanner::given() {
  for (const GivenTime& g : task_.given) {
    Step step;
    step.number = static_cast<int>(task_.setup.steps.size() + 1) * 10;
    step.kind = StepKind::given;
    step.why = g.name + ": the estimator's own time";
    step.tool = "as given";
    step.given = g.time;
    step.from = step.to = view_.z(g.z);
    task_.setup.steps.push_back(step);
  }
}

}  // namespace turnwright
