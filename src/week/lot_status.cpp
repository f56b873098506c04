// SPDX-License-Identifier: MIT
#include "lot_status.hpp"

#include <algorithm>

namespace turnwright {
namespace {

class StatusReader {
 public:
  StatusReader(const WeekOrder& order, double planned)
      : order_(order),
        is_booked_(!order.booked.empty()),
        there_(std::max(order.quantity, static_cast<int>(planned + 1e-9))) {}

  LotStatus of(const Route& route) {
    for (std::size_t k = 0; k < route.operations.size(); ++k) add(k, route.operations[k].number);
    out_.good = std::min(there_, order_.quantity);
    return std::move(out_);
  }

 private:
  void add(std::size_t k, int number) {
    const auto found = order_.booked.find(number);
    const BookedWork booked =
        found == order_.booked.end() ? BookedWork() : believed(found->second, number);
    const bool passed = is_passed(number);
    const bool finished = order_.is_finished(number) || passed;
    if (passed)
      out_.doubts.push_back(
          {"week.booked-passed", {{"order", order_.number}, {"operation", number}}});
    if (found != order_.booked.end() || finished) out_.ended.reset();
    if (finished) {
      if (found != order_.booked.end()) out_.ended = LastEnded{k, booked.last};
      // Where fewer are booked the others are not lost: nobody booked them.
      there_ = booked.good >= order_.quantity ? booked.good : there_ - booked.scrap;
      return;
    }
    const int runs = there_ - booked.made();
    there_ -= booked.scrap;
    if (booked.made() > 0 && runs == 0) {  // what is not scrap goes on
      out_.ended = LastEnded{k, booked.last};
      return;
    }
    OperationLeft left{k, 0, std::nullopt, {}, out_.left.empty() && is_at_work(number)};
    if (is_booked_)
      left.runs = runs;
    else if (out_.left.empty() && order_.batches == 1)
      left.done = order_.done;
    const int done = is_booked_ ? booked.good : left.done;
    left.told.of = std::min(there_, order_.quantity);
    left.told.left = std::max(0, left.told.of - done);
    left.told.begun = found != order_.booked.end() || left.done > 0;
    out_.left.push_back(left);
  }
  // No more are made than there are: what is booked beyond is said, and no more work comes of it.
  BookedWork believed(BookedWork booked, int number) {
    if (booked.made() <= there_) return booked;
    if (out_.doubts.empty())
      out_.doubts.push_back({"week.booked-beyond",
                             {{"order", order_.number},
                              {"operation", number},
                              {"n", booked.made()},
                              {"there", there_}}});
    booked.scrap = std::min(booked.scrap, there_);
    booked.good = there_ - booked.scrap;
    return booked;
  }
  // Nothing is booked of it, and pieces of a later one, which waits for all of it, are.
  bool is_passed(int number) const {
    if (order_.transfer < 1 || order_.is_finished(number) || order_.booked.contains(number))
      return false;
    return std::any_of(order_.booked.upper_bound(number), order_.booked.end(),
                       [](const auto& later) { return later.second.made() > 0; });
  }
  bool is_at_work(int number) const { return order_.at_work == 0 || order_.at_work == number; }

  const WeekOrder& order_;
  bool is_booked_;
  int there_;  // pieces, for the operation that is looked at
  LotStatus out_;
};

}  // namespace

LotStatus lot_status(const WeekOrder& order, const Route& route, double planned) {
  return StatusReader(order, planned).of(route);
}

}  // namespace turnwright
