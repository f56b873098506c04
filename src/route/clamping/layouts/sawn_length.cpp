// SPDX-License-Identifier: MIT
// A sawn length that is longer than the part by what the jaws hold, so that the whole outside is
// turned in one clamping: several pieces are parted from it, or its end is faced away.
#include <algorithm>
#include <cmath>

#include "clamping/grip.hpp"
#include "clamping/layouts/parting.hpp"
#include "turnwright/quantity/whole.hpp"

namespace turnwright {

bool length_is_free(const PlanContext& context) {
  const Job& job = context.job;
  return !context.cast() && !job.part.stock.length && job.stock.facing_left.si > 0;
}

Planned<Layout> parted_from_length(const PlanContext& context) {
  const Practice& practice = context.shop.practice;
  const Length clearance = context.machine.chuck.jaw_clearance;
  Job job = context.job;
  Stock& stock = job.stock;
  stock.facing_left = Length(0.0);
  stock.length = job.part.overall + stock.facing_right;
  const Length pitch = stock.length + parting_width(context, job);
  const Length out = practice.length_out * stock.diameter - clearance;
  stock.pieces = std::max(1, nearest_whole(std::floor((out / pitch).si)));
  stock.sawn = stock.pieces * pitch + clearance +
               best_grip(context, stock.diameter, context.machine.chuck.jaw_length);
  auto layout = parted_from_bar({job, context.shop, context.machine, context.request});
  if (layout && !layout->stock) layout->stock = stock;
  return layout;
}

Planned<Layout> with_chucking_piece(const PlanContext& context) {
  Job job = context.job;
  Stock& stock = job.stock;
  PlanContext longer{job, context.shop, context.machine, context.request};
  longer.on_rim = true;
  longer.short_grip = job.part.overall < stock.diameter;
  const Length out = job.part.overall + stock.facing_right + jaw_clearance(longer);
  longer.chucking =
      max(grip_length(longer, stock.diameter), lever_grip(longer, stock.diameter, out));
  const Length more = longer.chucking + jaw_clearance(longer);
  stock.facing_left = stock.facing_left + more;
  stock.length = stock.length + more;
  auto layout = right_end_first(longer);
  if (layout) layout->stock = stock;
  return layout;
}

}  // namespace turnwright
