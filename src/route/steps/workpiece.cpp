// SPDX-License-Identifier: MIT
#include "steps/workpiece.hpp"

#include <algorithm>

#include "reasons.hpp"

namespace turnwright {
namespace {

// Lever and feed changes are counted where they happen.
void count_changes(Step& step) {
  Length feed(0.0);
  Frequency n(0.0);
  for (const CutSegment& segment : step.segments) {
    if (segment.feed.si != feed.si) ++step.feed_changes;
    if (segment.constant_speed && segment.spindle.si != n.si) ++step.speed_changes;
    feed = segment.feed;
    n = segment.spindle;
  }
}

// A feed box has no step fine enough.
void warn_of_roughness(const Step& step, Messages& cautions) {
  constexpr double met = 1 + 1e-9;
  for (const LimitCheck& l : step.limits) {
    if (l.limit != LimitId::roughness || l.actual <= l.allowed * met) continue;
    add_once(cautions, {"steps.too-rough",
                        {{"tool", step.tool},
                         {"ra", measure(Length(l.allowed), unit::um, 3)},
                         {"feed", measure(step.used.feed, unit::mm_per_rev, 3)},
                         {"real", measure(Length(l.actual), unit::um, 3)}}});
  }
}

}  // namespace

Workpiece::Workpiece(const OperationTask& task)
    : outside(task.work),
      hollow(task.hollow),
      hollow_target(task.hollow_target),
      hollow_final(task.hollow_final),
      blank{task.work.left(), task.work.right()},
      volume(body_volume(task.work, task.hollow)) {}

void Workpiece::commit_outside(Step step, const Outline& after) {
  // Walls that only guarded the cut leave nothing behind.
  outside = after.only(blank.from, blank.to);
  commit_volume(std::move(step));
}
void Workpiece::commit_bore(Step step, Outline after) {
  hollow = std::move(after);
  commit_volume(std::move(step));
}
void Workpiece::commit_volume(Step step) {
  const Volume before = volume;
  volume = body_volume(outside, hollow);
  step.removed = before - volume;
  commit_feature(std::move(step));
}
void Workpiece::commit_feature(Step step) {
  count_changes(step);
  commit_uncounted(std::move(step));
}
void Workpiece::commit_uncounted(Step step) {
  step.work_after = outside;
  step.hollow_after = hollow;
  warn_of_roughness(step, cautions);
  steps.push_back(std::move(step));
}

Length Workpiece::hole_at(Length z) const {
  return hollow.empty() ? Length(0.0) : max(hollow.left_of(z), hollow.right_of(z));
}

Wanted wanted_at(const OperationContext& op, Length local_z, bool inside) {
  const Length z = op.view.z(local_z);
  Wanted found;
  Length widest(0.0);  // a counterbore in a bore right through: the wider
  for (std::size_t i = 0; i < op.job.surfaces.size(); ++i) {
    const Surface& s = op.job.surfaces[i];
    if (s.inside() != inside || z <= s.left || z >= s.right || s.diameter() <= widest) continue;
    found = {s.ra, s.grade, i};
    widest = s.diameter();
  }
  return found;
}

bool in_zone(const OperationContext& op, const Surface& s) {
  return op.view.z((s.left + s.right) / 2.0) > op.task.zone_left;
}

bool made_here(const OperationContext& op, std::size_t surface, const Interval& z) {
  const auto& made = op.task.made;
  if (std::find(made.begin(), made.end(), surface) != made.end()) return false;
  const Length clear =
      op.task.last ? op.task.jaw + op.shop.practice.clear_of_jaws : op.task.zone_left;
  return z.from > clear - Length(same_point);
}

}  // namespace turnwright
