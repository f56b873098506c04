// SPDX-License-Identifier: MIT
#pragma once
// The steps of one holding, planned in local coordinates: the free end is at the right, its
// finished face at z = 0; a holding from the left sees the part mirrored.
#include "conditions.hpp"
#include "turnwright/route/route.hpp"

namespace turnwright {

struct SetupTask {
  Setup setup;            // holding decided, no steps
  Outline work;           // local, as it comes
  Outline target, final;  // local: without and with grooves, raised where this holding must not cut
  Length zone_left{};     // local: nothing is cut left of it
  Length facing{};        // at the free end
  bool centre_hole = false;
  bool turn = true;  // false: only the end face and its centre hole
  bool part_off = false;
  Length part_off_at{};  // local z of the parted face
  bool finisher_takes_both = false;
  Length last_cut{};             // depth of the finisher's second cut
  Length jaw{};                  // local z of the jaw face
  std::vector<GivenTime> given;  // done in this holding
};

/// What the part looks like from one end.
struct View {
  Length mirror{};
  bool from_left = false;
  Outline local(const Outline& o) const { return from_left ? o.mirrored(mirror) : o; }
  Length z(Length global) const { return from_left ? mirror - global : global; }
};

class SetupPlanner {
 public:
  SetupPlanner(const Job& job, const Shop& shop, const Machine& machine, const View& view,
               SetupTask task, std::vector<std::string>& cautions)
      : job_(job),
        shop_(shop),
        machine_(machine),
        view_(view),
        task_(std::move(task)),
        cautions_(cautions) {}

  /// Plans all steps; `why_not` is set when it cannot be done.
  Setup plan();
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
  void rough_levels(const Tool& tool, const Outline& limit, Step& step);
  void contour_cut(const Tool& tool, const Outline& limit, Step& step, Length depth);
  void finish();
  void bending(const Tool& tool, Step& step, std::vector<Pass>& passes);
  void grooves();
  void groove(const Interval& interval);
  void part_off();
  void given();

  const Tool* tool_of(ToolKind kind) const;
  const Tool* finishing_tool() const;
  const Tool* grooving_tool(const Interval& interval, Length depth) const;
  const Tool* rougher() const;
  CutContext context(const Tool& tool, StepKind kind, Length diameter, Length ra) const;
  Wanted wanted_at(Length z) const;
  Step begin(StepKind kind, const Tool& tool, std::string why) const;
  void apply(Step& step, const CutConditions& conditions) const;
  Pass along(const CutContext& c, const CutConditions& k, Length from, Length to, Length radius,
             Length before, Length approach);
  Pass across(const CutContext& c, const CutConditions& k, Length z, Length r_from, Length r_to,
              Length approach);
  std::vector<Pass> path_passes(const Tool& tool, StepKind kind, const Outline& shape,
                                const std::vector<Interval>& where, Length depth, bool by_finish);
  void set_speed(const CutContext& c, const CutConditions& k, Pass& pass);
  void done(Step step, Outline after);
  CutConditions under_skin(CutConditions k) const;

  const Job& job_;
  const Shop& shop_;
  const Machine& machine_;
  const View& view_;
  SetupTask task_;
  std::vector<std::string>& cautions_;
  Frequency lever_{};
  bool skin_on_ = true;
};

/// The finishing allowance a side that this machine leaves.
Length finish_allowance(const Machine& machine);
inline constexpr double axial_allowance = 0.1e-3;  // m, on shoulder faces; typical

}  // namespace turnwright
