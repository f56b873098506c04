// SPDX-License-Identifier: MIT
#include "steps/gauge.hpp"

#include "steps/cut.hpp"

namespace turnwright {
namespace {

// How much of a stretch lies in the intervals.
Length covered(const std::vector<Interval>& intervals, const Interval& stretch) {
  Length sum(0.0);
  for (const Interval& i : intervals)
    sum += max(Length(0.0), min(i.to, stretch.to) - max(i.from, stretch.from));
  return sum;
}

}  // namespace

bool has_later_step(const Job& job, const Surface& surface) {
  const Element& e = job.element_of(surface);
  return !e.allow && (e.knurl || e.kind == ElementKind::thread);
}

Length gauge_made(const OperationContext& op, const Outline& before, const Outline& after,
                  Step& step) {
  constexpr double nearly_nothing = 0.1;  // a corner that another tool clears
  const Outline part = op.view.local(op.job.turned);
  const auto above = where_above(before, part), still = where_above(after, part);
  Length finest(0.0);
  for (std::size_t n = 0; n < op.job.outside().size(); ++n) {
    const Surface& s = op.job.surfaces[n];
    const Interval z = op.view.between(s.left, s.right);
    const Length was = covered(above, z), left = covered(still, z);
    const Length corner = nearly_nothing * z.width();
    if (s.as_drawn || was - left < Length(same_point)) continue;
    if (was >= corner && left < corner && !has_later_step(op.job, s)) gauge(step, n);
    if (s.ra.si > 0) finest = finest.si > 0 ? min(finest, s.ra) : s.ra;
  }
  return finest;
}

}  // namespace turnwright
