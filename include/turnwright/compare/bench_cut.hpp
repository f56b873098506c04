// SPDX-License-Identifier: MIT
#pragma once
// One cut at the bench: this material, this tool, this diameter, on this lathe. It is a part of one
// element, planned and timed like every part; its wishes go into part, shop and plan.
#include <optional>
#include <string>
#include <vector>

#include "turnwright/estimate/quote.hpp"
#include "turnwright/part/bench_work.hpp"
#include "turnwright/route/bench.hpp"

namespace turnwright {

struct BenchRequest {
  std::string material;
  BenchWork work;
  std::string tool;       // of the shop's, or a kind of tool material; "": what the planner takes
  std::string machine;    // "": the shop's first that takes the work
  std::string condition;  // of the stock; "": drawn, no skin
  Length ra{}, stick_out{};        // 0: none asked; by the jaws
  std::optional<Support> support;  // none: by stiffness
  std::optional<bool> flood;       // none: as the machine has it
  bool interrupted = false;
  MethodKind method = MethodKind::rough_then_finish;
  std::optional<BenchSettings> at;  // what is set now
  bool in_money = false;            // the rates are a shop's own
};

/// What is wrong with the words of a request: a material, a tool, a condition that the shop does
/// not have; the near names. Nothing: all known.
std::optional<TextFault> unknown_in(const BenchRequest& request, const Shop& shop);

/// The part of one element that is planned.
Part bench_part(const BenchRequest& request, const Shop& shop);
/// The shop with the tool, coolant and cut that were asked for.
Shop bench_shop(const BenchRequest& request, const Shop& shop);

/// A step of the cut, or one that has to come before it.
struct BenchStep {
  const Step* step = nullptr;
  const StepTime* time = nullptr;
};

/// The same cut otherwise: with other tools, or the method; no minutes where it cannot be done.
enum class BenchOther { high_speed_steel, carbide, two_finish_cuts };
const char* name_of(BenchOther other);
struct BenchOtherTime {
  BenchOther other = BenchOther::carbide;
  Time time{};
};

/// What somebody has set, against what is usual.
struct BenchAt {
  BenchSettings set;  // all of them
  Speed surface_speed{};
  int passes = 0, usual_passes = 0;
  Time time{}, usual_time{};
  Time cutting{};  // of `time`
  Time life{}, usual_life{};
  CutLoad load;
  double speed_share = 1, feed_share = 1, depth_share = 1;  // of the usual
  std::optional<Money> lost;  // what the minutes more cost; only where they are more
  Messages careful, brave;    // what is far below, far above
};

struct BenchCut {
  BenchRequest request;
  Shop shop;                               // with what was asked for
  Quote quote;                             // of the part of one element, one piece
  std::vector<std::size_t> steps, before;  // of the operation's: the cut, and what comes before it
  std::vector<BenchOtherTime> others;
  std::optional<BenchAt> at;

  const Operation& operation() const { return quote.route.operations.front(); }
  const Step& step(std::size_t i) const { return operation().steps[i]; }
  const StepTime& time(std::size_t i) const { return quote.times.operations.front().steps[i]; }
  Time minutes() const;  // of the cut alone
};
/// The cut, planned, with its others and what was set; infeasible like a part.
Planned<BenchCut> bench_cut(const BenchRequest& request, const Shop& shop);

/// The task of a step's conditions, as bench_conditions takes it.
BenchTask bench_task(const BenchCut& cut, const Step& step);

}  // namespace turnwright
