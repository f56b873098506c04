// SPDX-License-Identifier: MIT
#pragma once
// The pictures of a week's page.
#include "html/page_writer.hpp"
#include "turnwright/week/week.hpp"
#include "view/week_view.hpp"

namespace turnwright {

/// Bars of the hours a day that are required, framed by what is available.
void draw_hours(PageWriter& page, const Week& week, const WeekView& view);
/// Machines against time; the strip is as long as the week and scrolls.
void draw_timeline(PageWriter& page, const Week& week, const WeekView& view);

}  // namespace turnwright
