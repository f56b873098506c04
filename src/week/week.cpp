// SPDX-License-Identifier: MIT
#include "turnwright/week/week.hpp"

#include <algorithm>

namespace turnwright {

Week::Week() = default;
Week::Week(const Week&) = default;
Week::Week(Week&&) noexcept = default;
Week& Week::operator=(const Week&) = default;
Week& Week::operator=(Week&&) noexcept = default;
Week::~Week() = default;

WeekOrder::WeekOrder() = default;
WeekOrder::WeekOrder(const WeekOrder&) = default;
WeekOrder::WeekOrder(WeekOrder&&) noexcept = default;
WeekOrder& WeekOrder::operator=(const WeekOrder&) = default;
WeekOrder& WeekOrder::operator=(WeekOrder&&) noexcept = default;
WeekOrder::~WeekOrder() = default;

bool WeekOrder::is_finished(int operation) const {
  return std::find(finished.begin(), finished.end(), operation) != finished.end();
}

}  // namespace turnwright
