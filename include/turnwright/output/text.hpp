// SPDX-License-Identifier: MIT
#pragma once
// Plain text for the terminal: the quote in the estimator's order of reading, the ways, the step
// sheet for the turner. Bytes only; nothing is printed here.
#include <string>

#include "turnwright/compare/compare.hpp"

namespace turnwright {

struct TextOptions {
  bool inch = false;
  bool why = false;  // the reason behind each step, operation and condition
};

std::string quote_text(const Quote& quote, const Comparison& methods, const TextOptions& options);
std::string compare_text(const Comparison& methods, const TextOptions& options);
/// From which quantity to which a way leads, in words.
std::string lead_text(const Comparison& methods, const LeadingRange& lead);
/// What the turner gets: operations, tools, rpm, feed, depth, passes, and the cautions.
std::string step_sheet_text(const Route& route, const RouteTimes& times, const Shop& shop,
                            const TextOptions& options);
std::string infeasible_text(const Route& route);
/// The part as understood, to scale, in characters.
std::string sketch(const Job& job, int width);
/// The usual cautions, for every step sheet.
const std::vector<std::string>& usual_cautions();

}  // namespace turnwright
