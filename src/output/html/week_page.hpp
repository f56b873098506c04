// SPDX-License-Identifier: MIT
#pragma once
// The pictures of a week's page.
#include <vector>

#include "html/page_writer.hpp"
#include "turnwright/week/week.hpp"
#include "view/week_view.hpp"

namespace turnwright {

/// Days of a calendar week, both included, from the first day of the plan.
struct DaysOfWeek {
  int first = 0, last = 0;
  int days() const { return last - first + 1; }
};
/// From Monday to Sunday; the first and the last may be cut short.
std::vector<DaysOfWeek> calendar_weeks(const Week& week);

/// Hours required and available, machine by day; what is overloaded stands out and is said.
void draw_hours(PageWriter& page, const Week& week, const WeekView& view);
/// Machines against time, a strip a calendar week.
void draw_timeline(PageWriter& page, const Week& week, const WeekView& view);

}  // namespace turnwright
