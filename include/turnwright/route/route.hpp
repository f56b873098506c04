// SPDX-License-Identifier: MIT
#pragma once
// The planned work: operations with their steps, steps with their passes, and the audit that the
// removed volumes add up. No times and no money: those are worked out from it.
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "turnwright/quantity/message.hpp"
#include "turnwright/route/job.hpp"
#include "turnwright/route/planned.hpp"
#include "turnwright/tune/limit.hpp"

namespace turnwright {

enum class StepKind {
  face,
  centre,
  drill,
  rough,
  bore,
  finish,
  ream,
  groove,
  knurl,
  chamfer,
  tap,
  thread,
  part_off,
  given
};
/// "part-off": how files and JSON spell it; the words stand under "step." and this.
const char* name_of(StepKind kind);

/// How the tool travels: along the axis at one diameter, straight across diameters, on an arc.
enum class Motion { along, across, arc };

/// One stretch of cutting at one feed. Lengths of the path; diameters of the work there.
struct CutSegment {
  Motion motion = Motion::along;
  Point from, to;
  Length cut{}, approach{}, overrun{};
  Length large_diameter{}, small_diameter{};  // approach and overrun included
  Area swept{};                               // arcs only
  Length feed{}, depth{};
  Speed surface_speed{};
  bool constant_speed = false;  // fixed spindle speed (manual lathe), else constant surface speed
  Frequency spindle{};          // the fixed speed
  Frequency fastest{};          // the clamp
  Length travel{};              // rapid moves after it
  int pecks = 0;                // a drill drawn out to clear the hole
  bool starts_pass = true;      // false: goes on where the one before it ended

  Length path() const { return approach + cut + overrun; }
};

struct Conditions {
  Speed surface_speed{};
  Length feed{}, depth{};
};

struct LimitCheck {
  LimitId limit = LimitId::power;
  double allowed = 0, actual = 0;  // SI
  Unit unit;
  bool binding = false;
  Remedy changed = Remedy::none;
};

struct Step {
  Step();  // written once, in route.cpp, not in every file that copies one
  Step(const Step&);
  Step(Step&&) noexcept;
  Step& operator=(const Step&);
  Step& operator=(Step&&) noexcept;
  ~Step();

  int number = 0;  // within its operation, from 1; shown as "10.1"
  StepKind kind = StepKind::rough;
  Length from{}, to{};  // z of the region worked
  std::string tool, grade;
  Message why;
  Volume removed{};
  Conditions wanted, used;
  std::vector<LimitCheck> limits;
  std::vector<CutSegment> segments;  // of all passes, in order
  Speed taylor_constant{};           // C of this cut: life = (C/v)^(1/n)
  double taylor_exponent = 0.25;
  Time reference_life{};            // of an edge at the table's speed
  std::vector<LimitId> limited_by;  // of tuned conditions: the limits that are met
  std::vector<double> limit_worth;  // what the cut's cost falls by for a share that each gives way
  Message no_optimum;               // which limits contradict each other, and what would help
  double proof_gap = -1;      // what is not proved of them, as a share; below 0: from the table
  std::optional<Time> given;  // the estimator's own time
  std::vector<std::size_t> gauged;  // surfaces finished here
  bool tailstock = false;           // the tool is in the tailstock of a manual lathe
  Length stick_out{};               // 0: that of the operation
  int speed_changes = 0, feed_changes = 0;
  Outline work_after, hollow_after;  // the outside and the void as it leaves them
};

/// What takes a station of the turret: a tool, and each size of a drill, a reamer or a tap. In the
/// tailstock of a manual lathe sizes change places.
struct LoadedTool {
  std::string tool;
  Length size{};  // 0: it has one

  bool operator<(const LoadedTool& other) const;
  bool operator==(const LoadedTool& other) const;
};
LoadedTool loaded_tool(const Step& step);

/// The passes of a step, each one path of the tool from engagement to retract.
std::vector<std::span<const CutSegment>> passes_of(const Step& step);

/// `padded`: hard jaws with strips of soft metal under them, manual lathes.
enum class Jaws { hard, soft, padded };
const char* name_of(Jaws jaws);
enum class Holder {
  chuck,
  four_jaw_chuck,
  face_plate,
  bar_in_chuck,
  bar_in_collet,
  mandrel,
  dog,  // between centres, and the next
  face_driver
};
enum class Support { chuck, chuck_and_centre, between_centres };

struct Operation {
  Operation();  // written once, in route.cpp, not in every file that copies one
  Operation(const Operation&);
  Operation(Operation&&) noexcept;
  Operation& operator=(const Operation&);
  Operation& operator=(Operation&&) noexcept;
  ~Operation();

  int number = 0;
  Holder holder = Holder::chuck;
  Length grip_from{}, grip_to{}, grip_diameter{};  // z from < to
  Jaws jaws = Jaws::hard;
  Support support = Support::chuck;
  bool centre_in_bore = false;  // the centre runs in the mouth of a bore
  Length stick_out{};
  double free_ratio = 0;   // stick-out over effective diameter
  bool from_left = false;  // the tool comes from the left end of the part
  bool from_bar = false;
  bool check_all = false;     // 100 % check of the ties
  bool four_jaw = false;      // an independent chuck, the work clocked
  bool clocked_fine = false;  // to 0.02, else to the rim of a casting
  bool face_plate = false;    // clamped on it, larger than the chuck
  bool mandrel = false;       // in its finished bore
  bool collet = false;
  bool follow = false;    // a follow rest on the carriage
  bool steady = false;    // a steady rest beside chuck and centre
  int pieces = 1;         // of one load: a sawn length that several are parted from
  bool drawn_in = false;  // faced and centred with little out, then drawn out and clamped again
  Mass mass{};            // of the work when it is loaded
  std::vector<Step> steps;
  Message why;
  Outline before, after;                // the outside
  Outline hollow_before, hollow_after;  // the void in it
};

/// "20.3": operation and step.
std::string step_label(const Operation& operation, const Step& step);
/// How the work is clamped, in words: "chuck and centre".
Message clamping_of(const Operation& operation);

struct Audit {
  Volume stock{}, part{}, features{}, removed{};
  double imbalance = 0;
  Messages regions;  // what no step removes, or what was cut too deep
};

/// The last two are asked where seats tied to each other would be turned in two operations.
enum class MethodKind { rough_then_finish, two_finish_cuts, between_centres, leave_and_grind };
/// "two-finish-cuts": how JSON spells it.
const char* name_of(MethodKind method);
/// As the files of the rates spell it: "two finish cuts".
std::optional<MethodKind> method_kind_named(std::string_view word);

/// A tolerance of position that the clampings do not hold.
struct OpenTie {
  Message tie, clamping;  // "35 h6 to 30 k6 (run-out 0.001 mm)"; what holds it, and how true
  double times = 1;       // so many times the tolerance
};

struct Route {
  Route();  // written once, in route.cpp, not in every file that copies one
  Route(const Route&);
  Route(Route&&) noexcept;
  Route& operator=(const Route&);
  Route& operator=(Route&&) noexcept;
  ~Route();

  MethodKind method = MethodKind::rough_then_finish;
  Job job;
  Machine machine;
  std::vector<Operation> operations;
  std::vector<bool> two_cuts;  // by operation: the finishing tool takes both
  Messages two_cut_notes;
  Message tie_rests_on;  // how a tie between seats is held, and how true that is
  std::vector<OpenTie> open_ties;
  Audit audit;
  Messages cautions;
};

struct PlanRequest {
  std::string machine;  // "" : the shop's first that takes the part
  MethodKind method = MethodKind::rough_then_finish;
  bool two_at_least = false;            // operations, also where one would do
  std::optional<Support> support = {};  // asked for where a drawn end is held; none: by stiffness
  bool ends_first = false;              // both ends are roughed before either is finished
};

/// Plans the job: machine, operations and steps, audited. Infeasible where no machine takes it, it
/// cannot be held as asked, a step has no tool, or the volumes do not add up.
Planned<Route> plan_route(const Job& job, const Shop& shop, const PlanRequest& request);

}  // namespace turnwright
