// SPDX-License-Identifier: MIT
#pragma once
// The work of one operation as it stands between two steps, and what the steps are planned with.
#include <optional>
#include <vector>

#include "steps/operation_task.hpp"
#include "turnwright/route/planned.hpp"

namespace turnwright {

/// What does not change while an operation is planned.
struct OperationContext {
  const Job& job;
  const Shop& shop;
  const Machine& machine;
  const View& view;
  const OperationTask& task;
};

/// The state, in local coordinates. Every step ends with one of the commits, which keeps it with
/// the work as it leaves it.
struct Workpiece {
  explicit Workpiece(const OperationTask& task);

  Outline outside, hollow;
  Outline hollow_target, hollow_final;  // the void to make, without and with grooves
  Interval blank;                       // the ends of the work as it came
  Volume volume{};
  bool skin_on = true;
  Frequency lever{};          // the spindle speed a manual lathe is set to
  const Tool* bar = nullptr;  // the boring bar in use
  std::vector<Step> steps;
  std::vector<Feature> features;  // made here: centre holes
  Messages cautions;

  /// A step that leaves this outside.
  void commit_outside(Step step, const Outline& after);
  /// A step that leaves this void.
  void commit_bore(Step step, Outline after);
  /// A step that takes off what is no outline; its `removed` is set.
  void commit_feature(Step step);
  /// A step whose changes of speed and feed are not counted.
  void commit_uncounted(Step step);

  /// The void's radius at z, the wider where it steps; 0: none.
  Length hole_at(Length z) const;
  /// What is above the zone's left end, up to the finished face.
  Outline right_of(Length zone_left) const { return outside.only(zone_left, Length(0.0)); }

 private:
  void commit_volume(Step step);
};

/// Why a step cannot be done, or nothing: then it is committed, or there was nothing to do.
using Outcome = std::optional<Infeasible>;

/// What the drawing asks for at a place.
struct Wanted {
  Length ra{};
  int grade = 14;
  std::optional<std::size_t> surface;
};
Wanted wanted_at(const OperationContext& op, Length local_z, bool inside = false);
/// The middle of the surface lies right of the zone's left end.
bool in_zone(const OperationContext& op, const Surface& surface);
/// A knurl or thread is made in one operation: where all of it is turned, or in the last one clear
/// of the jaws.
bool made_here(const OperationContext& op, std::size_t surface, const Interval& local);

}  // namespace turnwright
