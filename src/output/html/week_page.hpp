// SPDX-License-Identifier: MIT
#pragma once
// The pictures of a week's page.
#include <vector>

#include "html/page_writer.hpp"
#include "turnwright/week/week.hpp"
#include "view/week_view.hpp"

namespace turnwright {

/// Hours required and available, machine by day; what is overloaded stands out and is said.
void draw_hours(PageWriter& page, const Week& week, const WeekView& view);
/// Machines against time, a strip a calendar week.
void draw_timeline(PageWriter& page, const Week& week, const WeekView& view);

}  // namespace turnwright
