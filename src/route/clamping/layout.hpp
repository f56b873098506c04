// SPDX-License-Identifier: MIT
#pragma once
// What the operations of a part are laid out from, and a layout of them.
#include "steps/operation_task.hpp"

namespace turnwright {

/// What every decision about clamping is made from.
struct PlanContext {
  const Job& job;
  const Shop& shop;
  const Machine& machine;
  const PlanRequest& request;
  bool short_grip = false;  // held on less than usual: discs and flanged shafts
  bool on_rim = false;      // turned round on less still: the face on the step of soft jaws
  bool far_edges = false;   // broken from the first end: a mandrel fills the bore afterwards
  Length chucking{};        // of the blank's left end that is there for the jaws alone; 0: none

  View view(bool from_left) const { return {job.left(), from_left}; }
  bool bored_from(bool left) const { return !job.bores[left ? 1 : 0].empty(); }
  /// The drawing asks for a centre hole at that end.
  bool centred_from(bool left) const {
    const CentreRequest& asked = job.part.centres;
    return (left ? asked.left : asked.right) && asked.keep != CentreUse::no;
  }
  /// And wants it on the finished part: one that may stay need not be made.
  bool wants_centre_at(bool left) const {
    return centred_from(left) && job.part.centres.keep != CentreUse::may;
  }
  bool cast() const { return !job.raw_outside.empty(); }
};

/// Operations in order, and what was decided on the way.
struct Layout {
  std::vector<Operation> operations;
  std::vector<Feature> features;
  Messages cautions;
  std::vector<bool> two_cuts;
  Messages two_cut_notes;
  Message tie_rests_on;
  std::optional<Stock> stock;     // where it is not the job's: a parted end is faced
  Messages two_cuts_remedies;     // what would let two cuts do it, where the tool is the reason
  Outline hollow;                 // the void so far, global
  std::vector<std::size_t> made;  // surfaces with their knurl or thread
  double score = 0;               // smaller is better
  bool splits = false;            // a toleranced surface is finished in two operations
};

/// The bar through the spindle, parted off; the second end turned round where it asks for it.
Planned<Layout> parted_from_bar(const PlanContext& context);
/// The blank may be sawn longer than the part needs.
bool length_is_free(const PlanContext& context);
/// Several pieces from one sawn length in the chuck, each parted off.
Planned<Layout> parted_from_length(const PlanContext& context);
/// From a blank that is longer by what the jaws hold: all that can be is turned beside it, and it
/// is faced away on the turned rim.
Planned<Layout> with_chucking_piece(const PlanContext& context);
/// A drawn end is held, that nobody cuts.
Planned<Layout> one_side(const PlanContext& context);
/// Why one operation does not do it.
Infeasible left_bore_out_of_reach();
/// The drawn end is long enough to hold.
bool one_side_possible(const PlanContext& context);
/// Both ends from the chuck, turned round; held on little where nothing else is left.
Planned<Layout> two_sides(const PlanContext& context);
/// The same, the right end turned first.
Planned<Layout> right_end_first(const PlanContext& context);
/// Both ends may have a centre, and the lathe has one to hold them.
bool centres_possible(const PlanContext& context);
/// Faces and centre holes in the chuck, then all turning between the same two centres.
Planned<Layout> between_centres(const PlanContext& context);
/// A tie finer than soft jaws hold, between surfaces on both sides of the cut-over.
bool tie_needs_centres(const PlanContext& context);

/// The layout with one operation more, or why that cannot be done.
Planned<Layout> with_operation(const PlanContext& context, OperationTask task, Layout layout);
/// The stated times of what is turned in an operation on turned surfaces.
void take_stated_times(const PlanContext& context, OperationTask& task);
/// Whether the finishing tool takes both cuts of an operation, where that was asked for.
void decide_two_cuts(const PlanContext& context, OperationTask& task, Layout& layout);
/// Warns of every operation that is held on little.
void caution_short_grips(const PlanContext& context, Layout& layout);
/// The first clamping drives what stands out at a centre by less of a raw end than is fair: a
/// longer blank is better.
bool driven_by_little(const PlanContext& context, const Layout& layout);
/// Thin walls that are held in jaws that squeeze them, and that spring open afterwards.
void caution_thin_walls(const PlanContext& context, Layout& layout);

/// Other work that has its place between roughing and finishing, or null.
const OtherWork* work_between(const Job& job);

}  // namespace turnwright
