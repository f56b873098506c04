// SPDX-License-Identifier: MIT
#include "steps/groove_path.hpp"

#include <algorithm>
#include <cmath>

#include "steps/tools.hpp"
#include "steps/walls.hpp"

namespace turnwright {
namespace {

constexpr Length flush(2e-6);  // what the foot of a fillet may stand higher than its floor

Length radius_on(const Outline& part, Length x) { return max(part.left_of(x), part.right_of(x)); }

// How much higher than its lowest the front of a tool is, so far from its side.
Length front_at(const Tool& tool, Length from_side) {
  const Length nose = tool.nose_radius;
  if (from_side >= nose) return Length(0.0);
  return nose - sqrt(square(nose) - square(nose - from_side));
}

// Where the front may touch: round its corners, and where the part has an edge or a top.
std::vector<Length> places_under(const Outline& part, const Tool& tool, Length z) {
  constexpr int steps = 24;  // of a corner
  const Length left = z - tool.width;
  std::vector<Length> places;
  for (int i = 0; i <= steps; ++i) {
    const double angle = pi / 2 * i / steps;
    const Length in = tool.nose_radius * (1 - std::cos(angle));
    places.push_back(left + in);
    places.push_back(z - in);
  }
  for (const Segment& s : part.pieces()) {
    places.push_back(s.from.z);
    if (const auto turn = turning_point(s)) places.push_back(*turn);
  }
  return places;
}

// Reference places of a tool, its right corner, at which it stands on the floor.
Interval deep_places(const Tool& tool, const Recess& recess) {
  const bool round = is_round_nosed(tool);
  const Length right = recess.floor.to + (round ? tool.nose_radius : Length(0.0));
  const Length left = recess.floor.from + (round ? tool.nose_radius : tool.width);
  return {min(left, right), right};
}

// Between two places, each a share of the tool's width further out; the last is followed down.
void step_outwards(const Practice& practice, const Tool& tool, Length from, Length to,
                   std::vector<Length>& places) {
  const Length side = to - from;
  const int steps = static_cast<int>(
      std::ceil((abs(side) / (practice.plunge_share * tool.width)).si - whole_slack));
  for (int i = 1; i < steps; ++i) places.push_back(from + side * (static_cast<double>(i) / steps));
}

// First to the floor, then further out.
std::vector<Length> plunges_in(const Practice& practice, const Tool& tool, const Recess& recess) {
  if (!recess.opens()) return plunges_over(practice, tool, recess.z.to, recess.z.width());
  const Length first = deep_places(tool, recess).to;
  const Length left = min(recess.z.from + tool.width, first);
  std::vector<Length> places{first};
  step_outwards(practice, tool, first, recess.z.to, places);
  step_outwards(practice, tool, first, left, places);
  const bool square_wall = recess.floor.from.si < recess.z.from.si + same_point;
  if (square_wall && left.si < first.si - same_point) places.push_back(left);
  return places;
}

// A tool along the walls and the floor of a recess.
class RecessContour {
 public:
  RecessContour(const OperationContext& op, Workpiece& work, const Cut& cut, const Recess& recess)
      : op_(op),
        work_(work),
        cut_(cut),
        recess_(recess),
        deep_(deep_places(cut.context.tool, recess)) {}

  std::vector<CutSegment> segments() {
    const auto& pieces = op_.task.final.pieces();
    for (auto s = pieces.rbegin(); s != pieces.rend(); ++s)
      follow(*s, {max(s->from.z, recess_.floor.from), min(s->to.z, recess_.z.to)}, false);
    starts_ = true;
    for (const Segment& s : pieces)
      follow(s, {max(s.from.z, recess_.z.from), min(s.to.z, recess_.floor.from)}, true);
    return std::move(segments_);
  }

 private:
  const Tool& tool() const { return cut_.context.tool; }
  Length height(Length z) const {
    return max(recess_.bottom, stands_at(op_.task.final, tool(), z));
  }

  // The tool's right corner where it touches the part at x.
  Length reference(Length x, bool rises_left) const {
    if (x <= recess_.floor.to && !rises_left) return max(x, deep_.from);
    const Length wall =
        rises_left ? recess_.floor.from - recess_.z.from : recess_.z.to - recess_.floor.to;
    const Length path =
        rises_left ? recess_.z.from + tool().width - deep_.from : recess_.z.to - deep_.to;
    const Length beside = rises_left ? recess_.floor.from - x : x - recess_.floor.to;
    return (rises_left ? deep_.from : deep_.to) + path * (beside / wall).si;
  }

  void follow(const Segment& piece, const Interval& x, bool rises_left) {
    if (x.width().si <= same_point) return;
    const Length right = reference(x.to, rises_left), left = reference(x.from, rises_left);
    if (abs(right - left).si <= same_point) return;
    const Segment part = between(piece, x.from, x.to);
    const Length from = rises_left ? left : right, to = rises_left ? right : left;
    add(part.from.r.si == part.to.r.si && part.bulge == Bulge::none ? level(from, to)
                                                                    : slope(part, from, to));
  }

  CutSegment level(Length from, Length to) {
    const Length r = height((from + to) / 2.0);
    CutSegment segment =
        along(work_, cut_, from, to, r, r + op_.shop.practice.groove_floor_cut, Length(0.0));
    segment.cut = abs(from - to);
    return segment;
  }

  // From the top of a wall down it.
  CutSegment slope(const Segment& part, Length from, Length to) {
    CutSegment segment = across(work_, cut_, from, height(from), height(to), Length(0.0));
    segment.to.z = to;
    segment.cut = length(part);
    segment.large_diameter = 2.0 * max(part.from.r, part.to.r);
    segment.small_diameter = 2.0 * min(part.from.r, part.to.r);
    if (part.bulge != Bulge::none) {
      segment.motion = Motion::arc;
      segment.swept = surface(part);
    }
    segment.depth = op_.shop.practice.plunge_share * tool().width;
    set_speed(work_, cut_, segment);
    return segment;
  }

  void add(CutSegment segment) {
    segment.starts_pass = starts_;
    segments_.push_back(segment);
    starts_ = false;
  }

  const OperationContext& op_;
  Workpiece& work_;
  const Cut& cut_;
  const Recess& recess_;
  Interval deep_;
  std::vector<CutSegment> segments_;
  bool starts_ = true;
};

// The stretch that is open at a radius; of a recess with square walls all of it.
Interval open_at(const OperationContext& op, const Recess& recess, Length r) {
  const Outline level = Outline::cylinder(recess.z.from, recess.z.to, r);
  const auto open = where_above(level, op.task.final);
  if (!recess.opens()) return recess.z;
  return open.empty() ? recess.floor : Interval{open.front().from, open.back().to};
}

}  // namespace

bool Recess::opens() const {
  return floor.from.si > z.from.si + same_point || floor.to.si < z.to.si - same_point;
}

Recess recess_at(const OperationContext& op, const Outline& work, const Interval& z) {
  const Length top = work.largest(z.from, z.to);
  Recess recess{z, top, min(top, lowest(op.task.final, z)), {z.to, z.from}};
  for (const Segment& s : op.task.final.pieces()) {
    const Length left = max(s.from.z, z.from), right = min(s.to.z, z.to);
    if (right.si - left.si <= same_point) continue;
    const auto turn = s.bulge == Bulge::in ? turning_point(s) : std::nullopt;
    for (const Length x : {left, turn && *turn > left && *turn < right ? *turn : left, right}) {
      if (radius_at(s, x) > recess.bottom + flush) continue;
      recess.floor = {min(recess.floor.from, x), max(recess.floor.to, x)};
    }
  }
  return recess;
}

Length stands_at(const Outline& part, const Tool& tool, Length z) {
  const Length left = z - tool.width;
  Length highest(0.0);
  for (const Length x : places_under(part, tool, z)) {
    if (x < left || x > z) continue;
    const Length r = x.si <= left.si + same_point ? part.right_of(x)
                     : x.si >= z.si - same_point  ? part.left_of(x)
                                                  : radius_on(part, x);
    highest = max(highest, r - front_at(tool, min(x - left, z - x)));
  }
  return highest;
}

std::vector<CutSegment> plunged(const OperationContext& op, Workpiece& work, const Cut& cut,
                                const Recess& recess) {
  const Practice& practice = op.shop.practice;
  const Tool& tool = cut.context.tool;
  std::vector<CutSegment> passes;
  const auto places = plunges_in(practice, tool, recess);
  for (const Length z : places) {
    const Length from = work.outside.largest(z - tool.width, z);
    const Length to = max(recess.bottom, stands_at(op.task.final, tool, z));
    if (from.si > to.si + same_point)
      passes.push_back(across(work, cut, z, from, to, practice.plunge_approach));
  }
  if (places.size() == 1 && !recess.opens()) return passes;
  for (const CutSegment& s : RecessContour(op, work, cut, recess).segments()) passes.push_back(s);
  return passes;
}

std::vector<CutSegment> turned_sideways(const OperationContext& op, Workpiece& work, const Cut& cut,
                                        const Recess& recess) {
  const Practice& practice = op.shop.practice;
  const Length width = cut.context.tool.width, depth = recess.depth();
  const int layers =
      std::max(1, static_cast<int>(std::ceil(depth.si / (practice.side_turning_share * width.si) -
                                             whole_slack)));
  std::vector<CutSegment> passes;
  for (int i = 1; i <= layers; ++i) {
    const Length r = recess.top - depth * (static_cast<double>(i) / layers);
    const Length before = recess.top - depth * (static_cast<double>(i - 1) / layers);
    const Interval open = open_at(op, recess, r);
    const Length right = open.to, left = min(open.to, open.from + width);
    const Length z = i % 2 == 1 ? right : left, end = i % 2 == 1 ? left : right;
    passes.push_back(across(work, cut, z, before, r, practice.plunge_approach));
    CutSegment side = along(work, cut, z, end, r, before, Length(0.0));
    side.cut = abs(z - end);
    side.starts_pass = false;
    passes.push_back(side);
  }
  if (recess.opens()) {
    for (const CutSegment& s : RecessContour(op, work, cut, recess).segments()) passes.push_back(s);
    return passes;
  }
  for (const Length wall : {recess.z.to, recess.z.from + width})
    passes.push_back(across(work, cut, wall, recess.top, recess.bottom, practice.plunge_approach));
  return passes;
}

}  // namespace turnwright
