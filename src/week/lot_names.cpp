// SPDX-License-Identifier: MIT
// What lots and operations are called, and the pieces that each has.
#include "turnwright/week/week_problem.hpp"

namespace turnwright {

std::string lot_name(const Week& week, const WeekProblem& problem, std::size_t lot) {
  const int batch = problem.batches[lot];
  return week.orders[problem.orders[lot]].number + (batch > 0 ? "." + std::to_string(batch) : "");
}
Message lot_title(const Week& week, const WeekProblem& problem, std::size_t lot) {
  if (week.orders[problem.orders[lot]].state == OrderState::asked) return "week.the-quote";
  return verbatim(lot_name(week, problem, lot));
}
int lot_pieces(const Week& week, const WeekProblem& problem, std::size_t lot) {
  const WeekOrder& order = week.orders[problem.orders[lot]];
  const int n = order.batches;
  if (n == 1) return order.quantity - short_by(week, problem, lot);
  // The first ones get what does not divide.
  return order.quantity / n +
         (problem.batches[lot] > 0 && problem.batches[lot] <= order.quantity % n);
}

int short_by(const Week& week, const WeekProblem& problem, std::size_t lot) {
  for (const ShortOrder& s : problem.shorts)
    if (s.order == problem.orders[lot]) return week.orders[s.order].quantity - s.good;
  return 0;
}
PiecesLeft pieces_left(const Week& week, const WeekProblem& problem, int operation) {
  const std::size_t lot = lot_of(problem, operation);
  if (problem.batches[lot] == 0) return problem.pieces[static_cast<std::size_t>(operation)];
  const int pieces = lot_pieces(week, problem, lot);
  return {pieces, pieces, false};
}

Message work_name(const Week& week, const WeekProblem& problem, int operation) {
  return {"week.work",
          {{"order", lot_title(week, problem, lot_of(problem, operation))},
           {"operation", problem.names[static_cast<std::size_t>(operation)].operation}}};
}

Message work_name(const Week& week, const OperationName& name) {
  return {"week.work", {{"order", week.orders[name.order].number}, {"operation", name.operation}}};
}

Message placed_reason(const Problem& problem) {
  return {"week.reason-in",
          {{"file", problem.file}, {"line", problem.at.line}, {"what", problem.what}}};
}

}  // namespace turnwright
