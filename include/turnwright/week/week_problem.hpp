// SPDX-License-Identifier: MIT
#pragma once
// The orders of a week with their routes, as a problem for the plan.
#include <map>
#include <memory>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "turnwright/estimate/quote.hpp"
#include "turnwright/week/plan.hpp"
#include "turnwright/week/week.hpp"

namespace turnwright {

/// A share that all times of the shop are off by together, and how much farther up than down it may
/// lie: a shop that is slow is slow at everything.
struct TimeError {
  double share = 0, upward = 1;
};

/// An order with its quote on each machine of the week that can make it in as many operations as
/// the first.
struct OrderRoutes {
  std::size_t order = 0;  // of the week
  /// By machine; machines of the week that are one of the shop's share it.
  std::vector<std::shared_ptr<const Quote>> on;
  std::size_t leading = 0;           // of `on`: what the order is quoted by
  std::vector<int> machines;         // of the week
  std::vector<std::string> methods;  // of the quotes
  double band = 0;          // its times may be off by this share, beside what all are off by
  Amount day_late{};        // what a day late costs; 0: the plan looks at lateness alone
  Amount change_of_plan{};  // of an operation of a posted plan, by a day or to another machine
  TimeError common;
};

/// An operation's name: order and operation.
struct OperationName {
  std::size_t order = 0;
  int operation = 0;
};

/// How an operation is done on a machine, for whoever sets it up.
struct OperationWork {
  Message clamping;
  Message stock, blank;  // what it begins with, as bought and as it comes; empty: what is there
};
/// What an order makes.
struct OrderedPart {
  std::string number, name, material;
};

/// Pieces of an operation that are still to be made, of all that it makes.
struct PiecesLeft {
  int left = 0, of = 0;
  bool begun = false;
};
/// An order, or a batch of it, of which more was scrapped than it allows for.
struct ShortOrder {
  std::size_t order = 0;
  int good = 0;  // at most
};

/// What is booked of an order and cannot be all that happened.
struct DoubtfulBooking {
  std::size_t order = 0;
  Message says;
};

/// What is at another firm, sent there before the plan.
struct SentOut {
  std::size_t order = 0;
  int operation = 0, pieces = 0;  // the operation after which it went
  std::vector<std::string> what;
  int days = 0;  // working days
  Minute from = 0, back = 0;
};

/// An order, or a row of a list of orders, that is not in the plan though nobody holds it.
struct LeftOut {
  std::string order;  // "": the row names none that can be read
  std::optional<Date> due;
  Messages why;
  bool named = false;  // the reasons name it already
};

struct WeekProblem {
  PlanProblem problem;
  std::vector<OperationName> names;  // by operation
  std::vector<PiecesLeft> pieces;    // by operation, of an order that is not in batches
  std::vector<ShortOrder> shorts;    // also of what is finished
  std::vector<DoubtfulBooking> doubts;
  std::vector<double> band;         // by operation: its time may be off by this share
  std::vector<std::size_t> orders;  // by lot
  std::vector<int> batches;         // by lot: which batch of its order, 0 where it is in one
  std::map<std::pair<std::size_t, int>, std::string> methods;  // by order and machine
  std::map<int, std::vector<std::string>> outside;  // by operation: what follows at other firms
  std::vector<SentOut> out;
  std::vector<LeftOut> left_out;
  std::map<std::size_t, OrderedPart> parts;  // by order
  // By order, machine, operation.
  std::map<std::tuple<std::size_t, int, int>, std::shared_ptr<const OperationWork>> works;
  std::vector<std::vector<std::string>> turrets;  // by machine: tools that are always mounted
  std::map<int, MountedItem> items;               // by key of SetupItem
  Amount day_late{};                              // what the prices of the choices are told in
  TimeError common;                               // beside each time's own
};
WeekProblem week_problem(const Week& week, const std::vector<OrderRoutes>& routes);

/// A problem as the reason why something is not in the plan: with its file and line.
Message placed_reason(const Problem& problem);
/// The lot of an operation.
inline std::size_t lot_of(const WeekProblem& problem, int operation) {
  return static_cast<std::size_t>(problem.problem.operation(operation).lot);
}
/// "118", or "118.2" of an order in batches; for data.
std::string lot_name(const Week& week, const WeekProblem& problem, std::size_t lot);
/// The same for a sentence: the quote that is asked about has no number.
Message lot_title(const Week& week, const WeekProblem& problem, std::size_t lot);
/// Its pieces; of a short one those that there are.
int lot_pieces(const Week& week, const WeekProblem& problem, std::size_t lot);
/// Pieces that are short of its order; 0: none.
int short_by(const Week& week, const WeekProblem& problem, std::size_t lot);
/// Pieces of an operation.
PiecesLeft pieces_left(const Week& week, const WeekProblem& problem, int operation);
/// "118 Op 10": the order and the operation of an operation, for a sentence.
Message work_name(const Week& week, const WeekProblem& problem, int operation);
/// The same of one that is no longer in the plan.
Message work_name(const Week& week, const OperationName& name);

/// How the operation of a run is done.
const OperationWork& operation_work(const WeekProblem& problem, const PlannedRun& run);
/// The tools that are to be loaded for a run by what is before it on its machine.
std::vector<std::string> tools_to_load(const WeekProblem& problem, const PlannedRun& run,
                                       const RunBefore& before);
/// A time in steps of the plan, up: a machine that is done a minute early waits for the step.
Minute steps_up(double minutes);

}  // namespace turnwright
