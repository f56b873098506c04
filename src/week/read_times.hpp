// SPDX-License-Identifier: MIT
#pragma once
// Days and times of a week file, each with its problem where it is none.
#include <optional>
#include <string_view>

#include "turnwright/document/reader.hpp"
#include "turnwright/week/week.hpp"

namespace turnwright {

/// A day of the calendar, of `first_year` to `last_year`.
std::optional<Date> read_day(const Node& node, ProblemList& problems);
/// "2026-12-08 14:30", or a day: its beginning, or its end. In minutes from the first day.
std::optional<Minute> read_moment(const Node& node, Date first_day, bool end,
                                  ProblemList& problems);
/// "06:00", in steps of the plan.
std::optional<Minute> read_time(const Node& node, ProblemList& problems);
/// "09:00-09:15", from < to.
std::optional<Span> read_pause(const Node& node, ProblemList& problems);
/// An item that is mounted on a machine.
std::optional<MountedItem> read_mounted(const Node& node, ProblemList& problems);

}  // namespace turnwright
