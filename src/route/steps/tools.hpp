// SPDX-License-Identifier: MIT
#pragma once
// Which tool of the shop does a job.
#include "turnwright/route/job.hpp"

namespace turnwright {

/// Whether a tool goes on this lathe.
bool goes_on(const Tool& tool, const Machine& machine);
/// The first tool of a kind: one that is mounted in the machine before the shop's list; or nullptr.
const Tool* tool_of(const Shop& shop, const Machine& machine, ToolKind kind);
/// A parting tool that reaches so deep: one that is mounted, else the narrowest; or nullptr.
const Tool* parting_tool(const Shop& shop, const Machine& machine, Length reach);
/// How far parting travels: to the middle, or through the wall to the narrowest of a bore right
/// through from the right, or of the bar's own.
Length parting_reach(const Job& job);
/// A tool of a set that has this size: one that goes so deep before one that does not, this kind of
/// lathe's own before a common one; or nullptr.
const Tool* sized_tool(const Shop& shop, const Machine& machine, ToolKind kind, Length size,
                       Length depth);
/// The thickest boring bar that enters such a hole and reaches so far, or nullptr.
const Tool* thickest_bar(const Shop& shop, const Machine& machine, Length hole, Length reach);
/// Of high-speed steel: a drill that wanders and is spotted, a threading tool that takes less.
bool high_speed_steel(const Tool& tool);
/// A grooving tool ground to a point, for the V that its flanks make.
bool is_form_tool(const Tool& tool);
/// Its front is half a circle.
bool is_round_nosed(const Tool& tool);
bool bar_fits(const Tool& bar, Length hole, Length reach);

/// The widest tool of a kind that goes on the lathe and fits, or nullptr.
template <class Fits>
const Tool* widest_tool(const Shop& shop, const Machine& machine, ToolKind kind, Fits fits) {
  const Tool* best = nullptr;
  for (const Tool& t : shop.tools)
    if (t.kind == kind && goes_on(t, machine) && fits(t) &&
        (best == nullptr || t.width > best->width))
      best = &t;
  return best;
}

/// The widest grooving tool, ground to no form, that has room and reaches so deep, or nullptr.
const Tool* straight_grooving_tool(const Shop& shop, const Machine& machine, Length room,
                                   Length depth);

/// Calls `visit(tool, size)` for every metric drill of every set that goes on the lathe.
template <class Visit>
void for_each_drill(const Shop& shop, const Machine& machine, Visit visit) {
  for (const Tool& t : shop.tools)
    if (t.kind == ToolKind::drill && !t.inch_set && goes_on(t, machine))
      for (const Length size : t.sizes) visit(t, size);
}

}  // namespace turnwright
