// SPDX-License-Identifier: MIT
#pragma once
// The steps of one operation, planned in local coordinates: the free end is at the right, its
// finished face at z = 0; an operation from the left sees the part mirrored.
#include "conditions.hpp"
#include "turnwright/route/route.hpp"

namespace turnwright {

struct OperationTask {
  Operation operation;  // operation decided, no steps
  Outline work;         // local, as it comes
  Outline target,
      final;       // local: without and with grooves, raised where this operation must not cut
  Outline hollow;  // local: the void as it comes
  Outline hollow_target, hollow_final;  // local: the void to make here, without and with grooves
  const Bore* bore = nullptr;           // opened from this end, null: none
  bool last = false;                    // no operation comes after this one
  std::vector<std::size_t> made;        // surfaces whose knurl or thread is done already
  Length zone_left{};                   // local: nothing is cut left of it
  Length facing{};                      // at the free end
  bool centre_hole = false;
  bool turn = true;                     // false: only the end face and its centre hole
  bool roughs = true, finishes = true;  // one of them only, where other work comes between
  bool part_off = false;
  Length part_off_at{};  // local z of the parted face
  bool finisher_takes_both = false;
  Length last_cut{};             // depth of the finisher's second cut
  Length jaw{};                  // local z of the jaw face
  std::vector<GivenTime> given;  // done in this operation
};

/// What the part looks like from one end.
struct View {
  Length mirror{};
  bool from_left = false;
  Outline local(const Outline& o) const { return from_left ? o.mirrored(mirror) : o; }
  Length z(Length global) const { return from_left ? mirror - global : global; }
  Interval between(Length a, Length b) const { return {min(z(a), z(b)), max(z(a), z(b))}; }
};

/// Whether a tool goes on this lathe.
bool goes_on(const Tool& tool, const Machine& machine);
/// The first tool of a kind: one that stands in the machine before the shop's list; or nullptr.
const Tool* tool_of(const Shop& shop, const Machine& machine, ToolKind kind);
/// The narrowest parting tool that reaches so deep, or nullptr.
const Tool* parting_tool(const Shop& shop, Length reach);

class OperationPlanner {
 public:
  OperationPlanner(const Job& job, const Shop& shop, const Machine& machine, const View& view,
                   OperationTask task, std::vector<std::string>& cautions)
      : job_(job),
        shop_(shop),
        machine_(machine),
        view_(view),
        task_(std::move(task)),
        cautions_(cautions) {}

  /// Plans all steps; `why_not` is set when it cannot be done.
  Operation plan();
  std::string why_not, would_help;
  std::vector<Feature> features;  // made here: centre holes

 private:
  struct Wanted {
    Length ra{};
    int grade = 14;
    std::size_t surface = npos;
  };
  static constexpr std::size_t npos = static_cast<std::size_t>(-1);

  void face();
  void centre();
  void rough();
  void rough_shoulders(const Tool& tool, const Outline& limit, Step& step);
  // ---- inside: bore.cpp
  void inside();
  void drill();
  void drill_to_meet();
  void drill_wider(Length drilled);
  void spot(Length diameter);
  void drill_to(Length diameter, Length depth, bool point, Length start = Length(0.0));
  Length wider_until(std::size_t surface) const;
  void flat_bottom(const Tool& bar, Step& step);
  void rough_bore();
  void bore_levels(const Tool& bar, const Outline& limit, Step& step);
  void finish_bore();
  void bar_bending(const Tool& bar, Step& step);
  void ream();
  void inside_edges();
  void inside_groove(const Interval& interval);
  void edge(const Interval& interval, bool far_end);
  Outline opened(const Interval& interval) const;
  Outline bar_target() const;
  Outline spanned_limit(Length radial, Length axial, const Outline& target) const;
  static int plunges_of(const Tool& tool, Length width);
  const Tool* bar_for(Length enters, Length reach) const;
  Length hole_at(Length z) const;
  Length bottom_of_bore() const;
  // ---- threads, knurls, face grooves: feature_steps.cpp
  void knurls();
  void face_grooves();
  void threads();
  void thread(const ThreadCut& cut);
  void single_point(const ThreadCut& cut, const Tool& tool);
  void tapped(const ThreadCut& cut, const Tool& tool);
  const Tool* threading_tool(const ThreadCut& cut) const;
  const Tool* sized_tool(ToolKind kind, Length size, Length depth) const;
  bool in_zone(const Surface& s) const;
  bool made_here(std::size_t surface, const Interval& z) const;
  bool fits_lathe(const Tool& t) const;
  struct Cut {
    Length before{}, after{};  // radii
    Length depth() const { return before - after; }
  };
  static std::vector<Length> shoulder_levels(const Outline& limit, Length top, Length zone);
  /// `over`: how much larger than nominal the first cut may find the work.
  static std::vector<Cut> divided(const std::vector<Length>& levels, Length top, Length most,
                                  Length over);
  void rough_levels(const Tool& tool, const Outline& limit, Step& step);
  void cut_levels(const Tool& tool, const Outline& limit, const std::vector<Cut>& cuts,
                  const CutContext& c, const CutConditions& k, Step& step);
  void contour_cut(const Tool& tool, const Outline& limit, const std::vector<Interval>& where,
                   Step& step, Length depth);
  void finish();
  Outline finished_by(const Tool& tool) const;
  void bending(const Tool& tool, Step& step);
  Length bent(const Tool& tool, const Pass& pass, double compliance) const;
  void grooves();
  void groove(const Interval& interval);
  void part_off();
  void given();

  const Tool* tool_of(ToolKind kind) const { return turnwright::tool_of(shop_, machine_, kind); }
  const Tool* finishing_tool() const;
  const Tool* grooving_tool(const Interval& interval, Length depth) const;
  const Tool* rougher() const;
  CutContext context(const Tool& tool, StepKind kind, Length diameter, Length ra) const;
  Wanted wanted_at(Length z, bool inside = false) const;
  Step begin(StepKind kind, std::string why) const;
  Step begin(StepKind kind, const Tool& tool, std::string why) const;
  void apply(Step& step, const CutConditions& conditions) const;
  Pass along(const CutContext& c, const CutConditions& k, Length from, Length to, Length radius,
             Length before, Length approach);
  Pass across(const CutContext& c, const CutConditions& k, Length z, Length r_from, Length r_to,
              Length approach);
  std::vector<Pass> path_passes(const Tool& tool, StepKind kind, const Outline& shape,
                                const std::vector<Interval>& where, Length depth, bool by_finish,
                                bool inside = false);
  // The speed does not change on the way: a thread follows the spindle, and some lathes know no
  // other.
  static void at_one_speed(Pass& pass);
  void set_speed(const CutContext& c, const CutConditions& k, Pass& pass);
  void done(Step step, const Outline& after);
  /// The step with the work as it leaves it.
  void keep(Step step);
  void done_inside(Step step, Outline hollow);
  void finished(Step step);
  void finished_feature(Step step);
  static void count_changes(Step& step);
  void gauge_inside(Step& step, const std::vector<Interval>& where) const;
  CutConditions under_skin(CutConditions k) const;
  Length smallest_corner() const;
  Length facing_depth() const;

  const Job& job_;
  const Shop& shop_;
  const Machine& machine_;
  const View& view_;
  OperationTask task_;
  std::vector<std::string>& cautions_;
  Frequency lever_{};
  bool skin_on_ = true;
  const Tool* bar_ = nullptr;  // the boring bar in use
  Volume body_{};              // of the work as it stands
};

// Numbers of the planner, each with where it comes from.
inline constexpr double approach_m = 2e-3;           // P. N. Rao p. 130: 2 mm on one side
inline constexpr double shortest_shoulder_m = 3e-3;  // what is shorter is an edge break or a relief
inline constexpr double smallest_edge_m = 0.05e-3;   // well inside a broken edge of 0.2-0.5
inline constexpr double scale_depth_m =
    0.5e-3;  // a first cut thinner than this rubs on scale (from memory)
inline constexpr double depth_slack =
    0.02;  // no turner adds a pass for a fiftieth (common practice)
inline constexpr double sliver_m = 0.3e-3;     // thinner layers join their neighbour (from memory)
inline constexpr double face_last_m = 0.3e-3;  // last facing cut, typical
inline constexpr double face_depth_m = 2e-3;   // deepest facing cut, 0.76-2.5 mm in training texts
inline constexpr Length flat_stop(0.2e-3);     // a drill stays this far above a flat bottom
inline constexpr Length widest_edge(3e-3);     // of a broken edge in a bore; a wider one is a cone
inline constexpr Length far(1e3);

/// The shape with a wall left of the zone: what is held or left to the other operation stays.
Outline blocked_left(const Outline& shape, Length zone_left);

/// The finishing allowance a side that this machine leaves.
Length finish_allowance(const Machine& machine);
inline constexpr double axial_allowance = 0.1e-3;  // m, on shoulder faces; typical

}  // namespace turnwright
