// SPDX-License-Identifier: MIT
#pragma once
// Lathes: speeds, power, sizes, and the hourly rate.
#include <optional>
#include <string>
#include <vector>

#include "turnwright/quantity/message.hpp"
#include "turnwright/shop/basis.hpp"

namespace turnwright {

enum class MachineKind { manual, cnc };

struct Chuck {
  Length diameter{};
  Frequency rated_speed{};
  Length jaw_clearance{};
  Force grip_force{};
  Length jaw_length{};  // along the axis, what the jaws hold at most
};

/// The spindle speeds that one lever position of a geared head gives, with the colour of its mark.
struct LeverRange {
  std::string name, colour;  // as the shop says them; a colour of lever_colours()
  Frequency up_to{};         // its fastest
};
/// The colours that a range may be marked with, as files name them.
const std::vector<std::string>& lever_colours();

/// All-in, or machine, person and overhead apart. Per hour of machine or attended time.
struct HourlyRate {
  std::optional<Rate> all_in;
  Rate machine{}, person{};
  double overhead = 0;  // share on machine and person
};

struct Machine {
  Machine();  // written once, in machine.cpp, not in every file that copies one
  Machine(const Machine&);
  Machine(Machine&&) noexcept;
  Machine& operator=(const Machine&);
  Machine& operator=(Machine&&) noexcept;
  ~Machine();

  std::string name;
  MachineKind kind = MachineKind::cnc;
  std::vector<Frequency> ladder;         // empty: stepless
  std::vector<LeverRange> lever_ranges;  // of the ladder, slowest first; may be empty
  Frequency slowest{}, fastest{};
  std::vector<Length> feeds;  // empty: stepless
  Power power{};
  double efficiency = 0.8;
  Torque largest_torque{};
  Length swing_over_cross_slide{}, largest_diameter{},  // over cross slide, over bed
      largest_length{}, spindle_bore{};
  Mass heaviest_work{};
  Speed rapid{};
  Time acceleration_time{};
  Chuck chuck;
  bool tailstock = true;
  bool bar_fed = false;
  Length compound_travel{};  // of the compound slide, manual lathes
  bool steady = false;       // a steady rest belongs to it
  bool follow_rest = false;  // a follow rest belongs to it
  bool four_jaw = false;     // an independent four-jaw chuck belongs to it
  bool face_plate = false;   // for work larger than the chuck
  bool parts_catcher = false;
  int stations = 0;  // of the turret; 0: not said
  bool worn = false;
  bool flood = true;
  bool fixed_speed = false;  // one spindle speed a pass, not constant surface speed
  int finest_grade = 7;      // IT that it holds by turning
  HourlyRate rate;
  double operator_share = 1;  // of a person while it runs
  std::vector<std::string> mounted_tools;
  Source source;

  bool manual() const { return kind == MachineKind::manual; }
};

/// What an hour of it costs and contains.
Message rate_in_words(const Machine& machine);

}  // namespace turnwright
