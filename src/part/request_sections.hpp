// SPDX-License-Identifier: MIT
#pragma once
// What a request says of its money and delivery, beside its parts.
#include "turnwright/document/reader.hpp"
#include "turnwright/part/request.hpp"

namespace turnwright {

/// A day of the calendar, from 1970 to 2200.
std::optional<Date> read_day(MapReader& map, std::string_view key);
/// "12 %", from `least` to `most`.
std::optional<double> read_share(MapReader& map, std::string_view key, double least, double most);
/// Payment, rebate, tax, charges and the price clause of the whole order.
void read_order(const Node& node, ProblemList& problems, Request& request);
/// How many pieces more or fewer may come.
std::optional<Tolerance> read_tolerance(MapReader& map);
/// "3 weeks", "10 days": one for all quantities, or one each.
void read_lead_times(const Node& list, ProblemList& problems, RequestItem& item);
/// Margin, discount and prices by hand.
void read_selling(MapReader& map, RequestItem& item);

}  // namespace turnwright
