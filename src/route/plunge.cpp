// SPDX-License-Identifier: MIT
// What is plunged: grooves, recesses, rear edges, parting off.
#include <algorithm>
#include <cmath>

#include "length_text.hpp"
#include "operation_planner.hpp"

namespace turnwright {
namespace {

// Side turning with a grooving tool: at most this share of its width (a tool maker's catalogue
// 2019, p. 460).
constexpr double side_turning_share = 0.75;

}  // namespace

const Tool* OperationPlanner::grooving_tool(const Interval& interval, Length depth) const {
  const Tool* best = nullptr;
  const bool at_part_off =
      task_.part_off && std::abs(interval.from.si - task_.part_off_at.si) < same_point;
  if (at_part_off) return tool_of(ToolKind::part_off);
  for (const Tool& t : shop_.tools) {
    if (t.kind != ToolKind::groove || !fits_lathe(t)) continue;
    if (t.width.si > interval.width().si + same_point || t.reach < depth) continue;
    if (best == nullptr || t.width > best->width) best = &t;
  }
  return best;
}

// Each plunge takes four fifths of the tool's width (a tool maker's catalogue 2011, p. 1354).
int OperationPlanner::plunges_of(const Tool& tool, Length width) {
  const double w = tool.width.si, W = width.si;
  return W <= w + same_point ? 1
                             : 1 + static_cast<int>(std::ceil((W - w) / (0.8 * w) - whole_slack));
}

void OperationPlanner::grooves() {
  // Whatever the contour left above the part in this zone is plunged.
  const auto left = where_above(task_.work.only(task_.zone_left, Length(0.0)),
                                blocked_left(task_.final, task_.zone_left));
  for (auto i = left.rbegin(); i != left.rend() && why_not.empty(); ++i) groove(*i);
}

void OperationPlanner::groove(const Interval& interval) {
  Length bottom = task_.work.largest(interval.from, interval.to);
  const Length top = bottom;
  for (const Segment& s : task_.final.pieces())
    if (s.to.z.si > interval.from.si + same_point && s.from.z.si < interval.to.si - same_point)
      bottom = min(bottom, min(s.from.r, s.to.r));
  const Length depth = top - bottom;
  const Tool* tool = grooving_tool(interval, depth);
  if (tool == nullptr) {
    why_not = "no grooving tool reaches the recess at " + length_text(job_, -view_.z(interval.to)) +
              " (" + length_text(job_, interval.width()) + " wide, " + length_text(job_, depth) +
              " deep)";
    would_help = "a grooving tool no wider than " + length_text(job_, interval.width()) +
                 " that reaches " + length_text(job_, depth);
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
  const int plunges = plunges_of(*tool, interval.width());
  if (W > 2 * w && W > 1.5 * depth.si) {
    // Wide and shallow: plunged in layers and turned sideways, then the walls and the floor.
    const int layers =
        std::max(1, static_cast<int>(std::ceil(depth.si / (side_turning_share * w) - whole_slack)));
    for (int i = 1; i <= layers; ++i) {
      const Length r = top - depth * (static_cast<double>(i) / layers);
      const Length before = top - depth * (static_cast<double>(i - 1) / layers);
      // From alternating sides, the tool inside the groove.
      const bool right = i % 2 == 1;
      const Length z = right ? interval.to : interval.from + tool->width;
      const Length end = right ? interval.from + tool->width : interval.to;
      step.passes.push_back(across(c, k, z, before, r, 1.0 * unit::mm));
      Pass side = along(c, k, z, end, r, before, Length(0.0));
      side.cut = abs(z - end);
      side.starts_path = false;
      step.passes.push_back(side);
    }
    for (const Length wall : {interval.to, interval.from + tool->width})
      step.passes.push_back(across(c, k, wall, top, bottom, 1.0 * unit::mm));
  } else {
    for (int i = 0; i < plunges; ++i) {
      const double share = plunges == 1 ? 0 : static_cast<double>(i) / (plunges - 1);
      step.passes.push_back(across(c, k, interval.to - Length(share * std::max(0.0, W - w)), top,
                                   bottom, 1.0 * unit::mm));
    }
    if (plunges > 1)  // walls and floor once more
      step.passes.push_back(along(c, k, interval.to - tool->width, interval.from, bottom,
                                  bottom + 0.1 * unit::mm, Length(0.0)));
  }
  for (std::size_t n = 0; n < job_.outside().size(); ++n) {
    const Length middle = view_.z((interval.from + interval.to) / 2.0);
    if (middle > job_.surfaces[n].left && middle < job_.surfaces[n].right &&
        interval.width().si > 0.9 * (job_.surfaces[n].right - job_.surfaces[n].left).si)
      step.gauged.push_back(n);
  }
  // Only this interval comes down to the part.
  done(std::move(step), lowered(task_.work, task_.final, interval));
}

void OperationPlanner::part_off() {
  const Length r = task_.work.left_of(task_.part_off_at);
  const Tool* tool = parting_tool(shop_, r);
  if (tool == nullptr) {
    why_not = "no parting tool reaches the middle of " + length_text(job_, 2.0 * r);
    would_help = "a parting tool that reaches " + length_text(job_, r) + ", or sawn blanks";
    return;
  }
  Step step = begin(StepKind::part_off, *tool, "parted close to the jaws, never between centres");
  const CutContext c = context(*tool, StepKind::part_off, 2.0 * r, Length(0.0));
  CutConditions k = conditions_at(c, r);
  k.used.depth = k.wanted.depth = r;
  apply(step, k);
  // The last 2 mm of diameter at 30 % less feed (a tool maker's catalogue 2019, p. 460).
  const Length hole = hole_at(task_.part_off_at);
  const Length slow = max(min(1.0 * unit::mm, r), hole);
  step.passes.push_back(across(c, k, task_.part_off_at, r, slow, 1.0 * unit::mm));
  if (hole < slow) {
    CutConditions centre = k;
    centre.used.feed = machine_feed(machine_, k.used.feed * 0.7);
    Pass end = across(c, centre, task_.part_off_at, slow, hole, Length(0.0));
    end.starts_path = false;
    step.passes.push_back(end);
  }
  step.from = task_.part_off_at - tool->width;
  step.to = task_.part_off_at;
  const Length keep_from = task_.part_off_at;
  done(std::move(step), task_.work.only(keep_from, task_.work.right()));
}

}  // namespace turnwright
