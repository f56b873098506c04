// SPDX-License-Identifier: MIT
#include "clamping/blank.hpp"

#include <cmath>

#include "turnwright/figure/stock.hpp"

namespace turnwright {

Outline blank_outside(const Job& job) {
  if (!job.raw_outside.empty()) return job.raw_outside;
  const Stock& s = job.stock;
  const Length bar_back = s.from_bar ? Length(0.0) : s.facing_left;
  return Outline::cylinder(job.left() - bar_back, s.facing_right, s.diameter / 2.0);
}

Outline blank_hollow(const Job& job) {
  if (!job.raw_bore.empty()) return job.raw_bore;
  if (job.stock.bore.si <= 0) return {};
  return Outline::cylinder(job.left() - job.stock.length, job.stock.facing_right,
                           job.stock.bore / 2.0);
}

Mass blank_mass(const Job& job) {
  if (!job.raw_outside.empty())
    return body_volume(job.raw_outside, job.raw_bore) * job.material.density;
  if (job.stock.form != StockForm::round)
    return job.stock.section * job.stock.length * job.material.density;
  return figure::BarWeight::work_out<>({job.stock.diameter, job.stock.length, job.material.density})
      .mass;
}

Interval widest(const Job& job) {
  const Length top = job.turned.largest();
  auto at_top = [&](Length r) { return std::abs(r.si - top.si) < same_point; };
  Interval best{job.left(), job.left()};
  for (const Segment& s : job.turned.pieces())
    if (s.bulge == Bulge::none && at_top(s.from.r) && at_top(s.to.r) &&
        s.to.z - s.from.z > best.width())
      best = {s.from.z, s.to.z};
  if (best.width().si > 0) return best;
  for (const Segment& s : job.turned.pieces())
    if (at_top(max(s.from.r, s.to.r))) best = {s.from.z, s.to.z};
  return best;
}

bool drawn_at(const Job& job, Length z) {
  for (const Surface& s : job.outside())
    if (z > s.left && z < s.right) return s.as_drawn;
  return false;
}

Outline raised_left(const Outline& shape, Length z, Length r) {
  if (z <= shape.left()) return shape;
  const Outline wall(std::vector<Segment>{{{shape.left(), r}, {z, r}, Bulge::none, {}, {}}});
  return combine(shape, wall, Envelope::upper);
}

}  // namespace turnwright
