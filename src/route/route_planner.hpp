// SPDX-License-Identifier: MIT
#pragma once
// Which machine and which operations, in which order. Its parts: plan.cpp (the order of decisions),
// layouts.cpp (the operations of a layout), operation.cpp (how one is held), two_cuts.cpp.
#include "operation_planner.hpp"

namespace turnwright {

class RoutePlanner {
 public:
  RoutePlanner(const Job& job, const Shop& shop, const PlanRequest& request)
      : job_(job), shop_(shop), request_(request) {
    route_.job = job;
    route_.method = request.method;
    route_.cautions = job.cautions;
  }

  Route plan();

 private:
  struct Layout {
    std::vector<Operation> operations;
    std::vector<Feature> features;
    std::vector<std::string> cautions;
    std::vector<bool> two_cuts;
    std::vector<std::string> notes;
    std::string why_not, would_help;
    std::string tie;                // what a tie between operations rests on
    Outline hollow;                 // the void so far, global
    std::vector<std::size_t> made;  // surfaces with their knurl or thread
    std::string two_cuts_help;      // what would let two cuts do it, where the tool is the reason
    double score = 0;               // smaller is better
    bool ok() const { return why_not.empty(); }
  };

  void no(std::string why, std::string help);
  Mass blank_mass() const;
  bool choose_machine();
  // A manual lathe turns a cone with its compound slide, or a slender one with the tailstock set
  // over, and a radius only with a form tool.
  bool contours_by_hand();
  View view(bool from_left) const { return {job_.left(), from_left}; }
  // The blank in global coordinates.
  Outline blank() const;
  // The void that the blank comes with.
  Outline blank_hollow() const;
  bool bored_from(bool left) const { return !job_.bores[left ? 1 : 0].empty(); }
  Interval widest() const;
  // Nothing smaller than the largest radius left of the cut-over: that is for the other operation.
  static Outline raised_left(const Outline& shape, Length z, Length r);
  // Lengths held (from memory): half the diameter in rough work; less is warned of below 0.3 D; a
  // disc or flange is held on less still, with care.
  static Length full_grip(Length diameter) { return max(0.5 * diameter, 10.0 * unit::mm); }
  static Length fair_grip(Length diameter) { return max(0.3 * diameter, 10.0 * unit::mm); }
  static Length least_grip(Length diameter) { return max(0.06 * diameter, 5.0 * unit::mm); }
  Length grip_length(Length diameter) const;
  Length jaw_clearance() const;
  bool tied_to(std::size_t surface, const std::string& datum) const;
  // Why the work is not stiff enough without a centre, or "": the finishing cut against a share of
  // each tolerance, the roughing cut against what is left to finish.
  std::string reason_for_centre(const OperationTask& task) const;
  double plain_share(const OperationTask& task) const;
  bool decide_support(OperationTask& task, Layout& layout);
  void decide_two_cuts(OperationTask& task, Layout& layout);
  // The chuck's rated speed holds for jaws well inside it; further out they pull away with the
  // root of the radius, and a casting is out of balance (both from memory).
  Machine with_chuck_speed(const Operation& operation) const;
  // What this operation opens inside: its own bore, in the last one whatever is left.
  void inside_of(OperationTask& task, const View& v, const Layout& layout) const;
  bool run(OperationTask task, Layout& layout);
  Layout parted_from_bar();
  static Layout one_end_only(Layout layout);
  Length parting_width() const;
  bool single_possible() const;
  Layout one_operation();
  // A casting or a square is held in four jaws and clocked.
  void four_jaws(Operation& operation, bool fine) const;
  Layout two_from(bool left_first);
  // Other work that has its place between roughing and finishing.
  const OtherWork* work_between() const;
  // A tie finer than soft jaws hold, between surfaces on both sides of the cut-over.
  bool tie_needs_centres() const;
  // Faces and centre holes in the chuck, then all turning between the same two centres.
  Layout between_centres();
  void clamp_for_facing(OperationTask& task, const View& v) const;
  void clamp_between_centres(OperationTask& task, const View& v, Length cut_over,
                             Layout& layout) const;
  bool drawn_at(Length z) const;
  static void set_grip(Operation& operation, const View& v, Length local_from, Length local_to);
  // An operation on turned surfaces.
  struct Rechucking {
    bool from_left;
    Length cut_over;  // global z
    int number;
    bool roughs, finishes, last;
  };

  // On the nearest flat to the cut that is long enough.
  void rechucking(const Rechucking& how, Layout& layout);
  // A finished bore right through that a mandrel fits; the number of surfaces when there is none.
  std::size_t through_bore() const;
  // A tie to that bore that jaws do not hold, or nothing outside to hold on.
  bool wants_mandrel(bool from_left, Length cut_over, bool nothing_held) const;
  void on_mandrel(OperationTask task, const View& v, Layout& layout);
  // A thin wall under the jaws: pie jaws, or it is squeezed oval.
  void thin_walls(const Surface& held, Layout& layout, Operation& operation) const;
  std::string accuracy_row(const char* clamping) const;
  // Ties between surfaces of both operations decide jaws and checking, by how true they hold.
  void jaws_for(const Surface& held, bool from_left, Length cut_over, Operation& operation,
                Layout& layout);
  static void caution_short_grip(const Job& job, Layout& layout);
  void take(Layout layout);
  void try_layout(Layout (RoutePlanner::*plan_it)()) { take((this->*plan_it)()); }
  void two_operations();
  const Job& job_;
  const Shop& shop_;
  const PlanRequest& request_;
  Route route_;
  bool shallow_ = false;  // held on less than usual
};

}  // namespace turnwright
